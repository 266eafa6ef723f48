// Package vector writes each sheet of a packet as an SVG file (W3C Scalable Vector
// Graphics 1.1), for the web and for editing.
//
// In comes a sheet.Packet; out come named files, one a sheet, in order: 01-cover.svg.
// It holds that what stands on the sheets stands in the files, mark by mark: paths
// as paths, text as text that can be selected and edited, pictures with their bytes, links as links from file
// to file, anchors as empty groups with an id, the packet's caution as each file's description. One unit is a millimetre. The same
// packet gives the same bytes.
//
// Fonts are named, not embedded: a text carries the length that it was laid out to
// (textLength), so that another font stretches to it and nothing overlaps.
package vector

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// File is one sheet.
type File struct {
	Name string // 07-circuit-12-horn.svg
	Data []byte
}

// Files draws every sheet. Errors: those of sheet.Verify.
func Files(p sheet.Packet) ([]File, error) {
	if err := sheet.Verify(p); err != nil {
		return nil, err
	}
	names := Names(p)
	home := homes(p, names)
	out := make([]File, len(p.Sheets))
	for i, s := range p.Sheets {
		w := &writer{home: home, here: names[i], caution: p.Caution}
		w.sheet(s)
		out[i] = File{names[i], w.out.Bytes()}
	}
	return out, nil
}

// Names gives the files' names: the sheet's number in the packet, as wide as the last one, and
// its title in plain letters, without those of what stands under the first on the sheet.
func Names(p sheet.Packet) []string {
	number := func(i int) int {
		if no := p.Sheets[i].No; no > 0 {
			return no
		}
		return i + 1
	}
	width := 2
	for i := range p.Sheets {
		width = max(width, len(strconv.Itoa(number(i))))
	}
	out := make([]string, len(p.Sheets))
	for i, s := range p.Sheets {
		out[i] = fmt.Sprintf("%0*d", width, number(i))
		title := s.Title
		if len(s.Also) > 0 {
			title, _, _ = strings.Cut(title, " · "+s.Also[0])
		}
		if words := plain(title); words != "" {
			out[i] += "-" + words
		}
		out[i] += ".svg"
	}
	return out
}

// longest is how much of a title a name keeps.
const longest = 48

// plain gives a title in small letters and digits, joined by hyphens.
func plain(title string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(title) {
		switch {
		case r < unicode.MaxASCII && (unicode.IsLetter(r) || unicode.IsDigit(r)):
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= longest {
			break
		}
	}
	return strings.TrimRight(b.String(), "-")
}

// homes gives the file in which each anchor stands.
func homes(p sheet.Packet, names []string) map[string]string {
	out := map[string]string{}
	for i, s := range p.Sheets {
		for _, m := range s.Marks {
			if a, ok := m.(sheet.Anchor); ok {
				out[a.Name] = names[i]
			}
		}
	}
	return out
}

// writer writes one file.
type writer struct {
	out     bytes.Buffer
	home    map[string]string
	here    string
	caution string
}

// signature stands in every file and says whose it is. Which files a later run may
// replace is told by the list beside them.
const signature = "<!-- a sheet of a loomfolio packet -->"

// families are the fonts by sheet.Face, the embedded family first.
const families = "Go, 'DejaVu Sans Condensed', sans-serif"

func (w *writer) sheet(s sheet.Sheet) {
	fmt.Fprintf(&w.out, `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" version="1.1" width="%smm" height="%smm" viewBox="0 0 %s %s" font-family="%s" fill="none" xml:space="preserve">`+"\n",
		num(s.W), num(s.H), num(s.W), num(s.H), families)
	w.out.WriteString(signature + "\n")
	fmt.Fprintf(&w.out, "<title>%s</title>\n", escaped(s.Title))
	if w.caution != "" {
		fmt.Fprintf(&w.out, "<desc>%s</desc>\n", escaped(w.caution))
	}
	fmt.Fprintf(&w.out, `<rect width="%s" height="%s" fill="#ffffff"/>`+"\n", num(s.W), num(s.H))
	for _, m := range s.Marks {
		w.mark(m)
	}
	w.out.WriteString("</svg>\n")
}

func (w *writer) mark(m sheet.Mark) {
	switch m := m.(type) {
	case sheet.Text:
		w.text(m)
	case sheet.Path:
		w.path(m)
	case sheet.Anchor:
		fmt.Fprintf(&w.out, `<g id="%s" transform="translate(%s %s)"/>`+"\n", escaped(m.Name), num(m.X), num(m.Y))
	case sheet.Link:
		w.link(m)
	case sheet.Picture:
		w.picture(m)
	}
}

// picture carries its bytes within the file, so that the drawing can go about alone.
func (w *writer) picture(p sheet.Picture) {
	fmt.Fprintf(&w.out, `<image x="%s" y="%s" width="%s" height="%s" preserveAspectRatio="none" xlink:href="data:image/%s;base64,%s"><title>%s</title></image>`+"\n",
		num(p.X), num(p.Y), num(p.W), num(p.H), p.Form, base64.StdEncoding.EncodeToString(p.Data), escaped(p.Words))
}

func (w *writer) text(t sheet.Text) {
	s := typeface.Clean(t.S, t.Face)
	if strings.TrimSpace(s) == "" {
		return
	}
	fmt.Fprintf(&w.out, `<text x="%s" y="%s" font-size="%s" fill="%s" textLength="%s" lengthAdjust="spacingAndGlyphs"`,
		num(t.X), num(t.Y), num(t.Size), t.Colour, num(typeface.Width(s, t.Face, t.Size)))
	if t.Face == sheet.Bold {
		w.out.WriteString(` font-weight="bold"`)
	}
	if at := [...]string{"", "middle", "end"}[min(max(int(t.Align), 0), 2)]; at != "" {
		fmt.Fprintf(&w.out, ` text-anchor="%s"`, at)
	}
	if t.Turn != 0 {
		fmt.Fprintf(&w.out, ` transform="rotate(%s %s %s)"`, num(-t.Turn), num(t.X), num(t.Y))
	}
	fmt.Fprintf(&w.out, ">%s</text>\n", escaped(s))
}

func (w *writer) path(p sheet.Path) {
	drawn := p.Stroke != nil && p.Stroke.Width > 0
	if !drawn && p.Fill == nil || len(p.Segs) == 0 {
		return
	}
	fmt.Fprintf(&w.out, `<path d="%s"`, outline(p))
	if p.Fill != nil {
		fmt.Fprintf(&w.out, ` fill="%s"`, *p.Fill)
	}
	if drawn {
		w.stroke(*p.Stroke)
	}
	w.out.WriteString("/>\n")
}

func (w *writer) stroke(s sheet.Stroke) {
	fmt.Fprintf(&w.out, ` stroke="%s" stroke-width="%s"`, s.Colour, num(s.Width))
	if s.Round {
		w.out.WriteString(` stroke-linecap="round" stroke-linejoin="round"`)
	}
	sum, parts := 0.0, make([]string, len(s.Dash))
	for i, d := range s.Dash {
		sum += d
		parts[i] = num(d)
	}
	if sum > 0 {
		fmt.Fprintf(&w.out, ` stroke-dasharray="%s"`, strings.Join(parts, " "))
	}
}

// link lays a clear area over what it leads from.
func (w *writer) link(l sheet.Link) {
	target := "#" + l.Target
	if at := w.home[l.Target]; at != w.here {
		target = at + target
	}
	fmt.Fprintf(&w.out, `<a xlink:href="%s" href="%s"><rect x="%s" y="%s" width="%s" height="%s" fill="#ffffff" fill-opacity="0"/></a>`+"\n",
		escaped(target), escaped(target), num(l.X), num(l.Y), num(l.W), num(l.H))
}

func outline(p sheet.Path) string {
	var b strings.Builder
	at := func(letter string, points ...sheet.Point) {
		b.WriteString(letter)
		for i, q := range points {
			if i > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(num(q.X) + " " + num(q.Y))
		}
	}
	at("M", p.Start)
	for _, s := range p.Segs {
		if s.C1 == nil {
			at("L", s.P)
		} else {
			at("C", *s.C1, *s.C2, s.P)
		}
	}
	if p.Closed {
		b.WriteByte('Z')
	}
	return b.String()
}

// num writes millimetres to a thousandth, without idle zeros.
func num(v float64) string {
	return strconv.FormatFloat(math.Round(v*1000)/1000+0, 'f', -1, 64)
}

func escaped(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s)) // a buffer takes all
	return b.String()
}
