package record

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Widths of the columns, in characters. They never follow the longest entry, so
// that a new wire changes one line of the text and no other.
const (
	keyWidth        = 42
	stateWidth      = 8
	nameWidth       = 5
	gaugeWidth      = 8
	insulationWidth = 14
	colourWidth     = 6
	ratingWidth     = 7
)

// Explained is the comment that a new record begins with.
func Explained() []string {
	return []string{
		"# What was chosen, and what is built: written by loomfolio freeze, kept by every later run.",
		"# planned: not cut yet, and chosen anew only when it no longer serves. built: as it is in the vehicle.",
		"# retired: built once, no longer described. Change a word or a figure here where the vehicle differs.",
	}
}

// Text writes the record, lines in their fixed order.
func Text(r Record) []byte {
	r = r.Sorted()
	var b strings.Builder
	lines(&b, r.Top)
	fmt.Fprintf(&b, "%s\n", strings.Join(opening[:], " "))
	heading(&b, "title", r.Title)
	heading(&b, "revision", r.Revision)
	heading(&b, "variant", r.Variant)
	heading(&b, "digest", r.Digest)
	if len(r.Wires) > 0 {
		b.WriteByte('\n')
	}
	for _, w := range r.Wires {
		w.Remarks.put(&b, wireLine(w))
	}
	if len(r.Fuses) > 0 {
		b.WriteByte('\n')
	}
	for _, f := range r.Fuses {
		f.Remarks.put(&b, fuseLine(f))
	}
	lines(&b, r.Foot)
	b.WriteByte('\n')
	return []byte(b.String() + endLine(r, b.String()) + "\n")
}

func lines(b *strings.Builder, list []string) {
	for _, l := range list {
		b.WriteString(l + "\n")
	}
}

// heading writes a line of the head; nothing where there is nothing to say.
func heading(b *strings.Builder, word, text string) {
	if text = strings.Join(strings.Fields(text), " "); text != "" {
		fmt.Fprintf(b, "%s %s\n", word, text)
	}
}

func (m Remarks) put(b *strings.Builder, line string) {
	lines(b, m.Above)
	if m.Behind != "" {
		line += "  " + m.Behind
	}
	b.WriteString(line + "\n")
}

func wireLine(w Wire) string {
	key := "wire " + quoted(w.Circuit) + " " + quoted(w.From) + " " + arrow + " " + quoted(w.To)
	if w.Ordinal > 1 {
		key += fmt.Sprintf(" (%d)", w.Ordinal)
	}
	return columns(
		column{key, keyWidth}, column{string(w.State), stateWidth}, column{quoted(w.Name), nameWidth},
		column{gaugeText(w.Gauge), gaugeWidth}, column{quoted(w.Insulation), insulationWidth},
		column{colourText(w.Base, w.Tracer), colourWidth}, column{lengthText(w.Length, w.Imperial) + sleevesText(w.Sleeves), 0})
}

// sleevesText writes "  sleeve 4E 5G"; nothing where no wire looks alike.
func sleevesText(names []string) string {
	if len(names) == 0 {
		return ""
	}
	out := "  " + sleeve
	for _, n := range names {
		out += " " + quoted(n)
	}
	return out
}

func fuseLine(f Fuse) string {
	return columns(column{"fuse " + quoted(f.Name), keyWidth}, column{string(f.State), stateWidth},
		column{figure(float64(f.Rating)) + " A", ratingWidth}, column{quoted(f.Body), 0})
}

// column is a text and the room that it takes when it is shorter.
type column struct {
	text string
	room int
}

func columns(list ...column) string {
	var b strings.Builder
	for _, c := range list {
		if b.Len() > 0 {
			b.WriteString("  ")
		}
		b.WriteString(c.text)
		b.WriteString(strings.Repeat(" ", max(0, c.room-len([]rune(c.text)))))
	}
	return b.String()
}

// quoted puts a name in quotes where it would not be read back as one word.
func quoted(name string) string {
	if name == "" || name == arrow || strings.ContainsAny(name, "\"#()\\") || strings.IndexFunc(name, blank) >= 0 {
		return strconv.Quote(name)
	}
	return name
}

// gaugeText writes a size so that it cannot be read in another system.
func gaugeText(g unit.Gauge) string {
	return g.Size + [...]string{" mm2", " AWG", " ga"}[g.System]
}

func colourText(base, tracer string) string {
	if tracer == "" {
		return base
	}
	return base + "/" + tracer
}

// lengthText writes a length to a thousandth of its unit.
func lengthText(mm unit.Millimetre, imperial bool) string {
	if inches := math.Round(float64(mm)/inch*1000) / 1000; imperial && math.Abs(inches*inch-float64(mm)) < 0.01 {
		return figure(inches) + " in"
	}
	return figure(math.Round(float64(mm)*1000)/1000) + " mm"
}

// inch in mm, exact by definition (1959 agreement).
const inch = 25.4

func figure(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// States lists the words for the state of a line.
func states() []string {
	return []string{string(harness.Planned), string(harness.Built), string(harness.Retired)}
}
