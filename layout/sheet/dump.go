package sheet

import (
	"crypto/sha256"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Dump writes a packet as text, one mark a line, lengths in mm to 0.01: the
// golden tests compare it.
func Dump(p Packet) string {
	var b strings.Builder
	fmt.Fprintf(&b, "packet %q by %q on %s\n", p.Title, p.Author, p.Date.UTC().Format("2006-01-02"))
	for _, a := range p.Attached {
		fmt.Fprintf(&b, "attached %q %s %d bytes\n", a.Name, a.MIME, len(a.Data))
	}
	for i, s := range p.Sheets {
		fmt.Fprintf(&b, "sheet %d %s × %s %q", i+1, num(s.W), num(s.H), s.Title)
		if s.Group != "" {
			fmt.Fprintf(&b, " in %q", s.Group)
		}
		for _, also := range s.Also {
			fmt.Fprintf(&b, " and %q", also)
		}
		b.WriteString("\n")
		b.WriteString(DumpMarks(s.Marks))
	}
	return b.String()
}

// DumpMarks writes marks alone, in their order, each line set in by two blanks.
func DumpMarks(marks []Mark) string {
	var b strings.Builder
	for _, m := range marks {
		b.WriteString("  " + describe(m) + "\n")
	}
	return b.String()
}

func describe(m Mark) string {
	switch m := m.(type) {
	case Text:
		return describeText(m)
	case Path:
		return describePath(m)
	case Link:
		return fmt.Sprintf("link %s %s %s × %s -> %s", num(m.X), num(m.Y), num(m.W), num(m.H), m.Target)
	case Anchor:
		return fmt.Sprintf("anchor %s %s %s", num(m.X), num(m.Y), m.Name)
	case Picture:
		return fmt.Sprintf("picture %s %s %s × %s %s %x %q", num(m.X), num(m.Y), num(m.W), num(m.H), m.Form, sha256.Sum256(m.Data), m.Words)
	}
	return fmt.Sprintf("unknown mark %T", m)
}

func describeText(t Text) string {
	s := fmt.Sprintf("text %s %s %s", num(t.X), num(t.Y), num(t.Size))
	if t.Face == Bold {
		s += " bold"
	}
	s += [...]string{"", " centre", " right"}[min(max(int(t.Align), 0), 2)]
	if t.Turn != 0 {
		s += " turned " + num(t.Turn)
	}
	return s + " " + t.Colour.String() + " " + strconv.Quote(t.S)
}

func describePath(p Path) string {
	var b strings.Builder
	b.WriteString("path " + pair(p.Start))
	for _, s := range p.Segs {
		if s.C1 != nil && s.C2 != nil {
			b.WriteString(" ~" + pair(*s.C1) + "~" + pair(*s.C2) + "~" + pair(s.P))
			continue
		}
		b.WriteString(" " + pair(s.P))
	}
	if p.Closed {
		b.WriteString(" closed")
	}
	if p.Fill != nil {
		b.WriteString(" fill " + p.Fill.String())
	}
	if p.Stroke != nil {
		b.WriteString(" " + p.Stroke.describe())
	}
	return b.String()
}

func (s Stroke) describe() string {
	text := "stroke " + num(s.Width) + " " + s.Colour.String()
	for i, d := range s.Dash {
		text += [...]string{" dash ", "/"}[min(i, 1)] + num(d)
	}
	if s.Round {
		text += " round"
	}
	return text
}

// String gives the colour as #rrggbb.
func (c Colour) String() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

func pair(p Point) string { return num(p.X) + "," + num(p.Y) }

func num(f float64) string {
	f = math.Round(f*100)/100 + 0 // the sum turns -0 into 0
	return strconv.FormatFloat(f, 'f', -1, 64)
}
