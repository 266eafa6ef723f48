package record

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// opening is the first line; the last word is the version of the format that is
// written. Read too are version 1, which has no last line, and version 2, which knows no sleeves.
var opening = [...]string{"loomfolio", "record", "3"}

// MostBytes is how long a record may be: 4 MB, that of a whole car has some tens of kB.
const MostBytes = 4 << 20

const arrow = "->"

// sleeve stands behind the length of a wire before the wires that only number sleeves tell it from.
const sleeve = "sleeve"

// headings are the lines of the head after the first; each takes the rest of its line.
var headings = [...]string{"title", "revision", "variant", "digest"}

// Parse reads a record. All problems are reported at once; the record is not to
// be used when there are any.
func Parse(f *source.File) (Record, source.Problems) {
	p := &parser{file: f, r: Record{File: f}}
	if !utf8.Valid(f.Text) {
		p.say(source.At(1, 1, 1), "record-bytes", "the record is not text in UTF-8", "Save it again as UTF-8.")
		return Record{}, p.problems
	}
	count := strings.Count(strings.ReplaceAll(string(f.Text), "\r\n", "\n"), "\n") + 1
	for n := 1; n <= count; n++ {
		p.line(n, f.Line(n))
	}
	p.r.Foot = append(p.r.Foot, p.above...)
	if !p.opened && len(p.problems) == 0 {
		p.say(source.At(1, 1, 1), "record-head", "this is no record: its first line is missing", "Begin it with the line: "+strings.Join(opening[:], " "))
	}
	p.twice()
	p.ended(count)
	return p.r, p.problems.Sorted()
}

type parser struct {
	file    *source.File
	r       Record
	opened  bool
	version string   // of the format
	last    struct { // the last line
		line, wires, fuses int // line 0: not met yet
		said               source.Span
	}
	above    []string // comment lines that wait for the line below
	problems source.Problems
}

func (p *parser) say(at source.Span, slug, summary, detail string) {
	p.problems = append(p.problems, source.Problem{Slug: slug, Level: source.Error, Span: at, Summary: summary, Detail: detail})
}

// line reads one line of the text.
func (p *parser) line(n int, text string) {
	plain := strings.TrimSpace(text)
	switch {
	case plain == "":
		return
	case strings.HasPrefix(plain, "#"):
		p.above = append(p.above, plain)
		return
	case mergeMark(plain):
		p.say(source.At(n, 1, source.Width(text)), "record-merge", "two people's changes meet here and were not put together",
			"Keep the line that is true of the vehicle and take out the other with the three marks.")
		return
	}
	if p.last.line > 0 && !strings.HasPrefix(plain, ending+" ") {
		p.behindEnd(n, text)
		return
	}
	if first, rest, _ := strings.Cut(plain, " "); slices.Contains(headings[:], first) {
		p.head(word{text: first, span: source.At(n, 1, source.Width(text))}, rest)
		return
	}
	s := &scanner{p: p, line: n}
	if !s.split(text) {
		return
	}
	switch first := s.words[0]; first.text {
	case opening[0]:
		p.open(s)
	case "wire":
		p.wire(s)
	case "fuse":
		p.fuse(s)
	case ending:
		p.end(s)
	default:
		known := append([]string{"wire", "fuse", ending}, headings[:]...)
		detail := "A line begins with wire or fuse, the last one with end; a comment begins with #."
		if near := source.Nearest(first.text, known); near != "" {
			detail = "Did you mean " + near + "? " + detail
		}
		p.say(first.span, "record-line", fmt.Sprintf("a line cannot begin with %q", first.text), detail)
	}
}

// mergeMark tells of the lines that a failed merge leaves behind.
func mergeMark(line string) bool {
	for _, mark := range []string{"<<<<<<<", "=======", ">>>>>>>", "|||||||"} {
		if strings.HasPrefix(line, mark) {
			return true
		}
	}
	return false
}

func (p *parser) open(s *scanner) {
	p.opened = true
	var said []string
	for _, w := range s.words {
		said = append(said, w.text)
	}
	if p.version = said[len(said)-1]; p.version == "1" || p.version == "2" {
		said[len(said)-1] = opening[2]
	}
	if !slices.Equal(said, opening[:]) {
		p.say(s.words[0].span, "record-head", fmt.Sprintf("%q is not the first line of a record of this format", p.file.Line(s.line)),
			"Formats 1 to 3 are read: write "+strings.Join(opening[:], " ")+", or use a newer program.")
	}
	p.r.Top, p.above = append(p.r.Top, p.above...), nil
	if s.comment != "" {
		p.r.Top = append(p.r.Top, s.comment)
	}
}

func (p *parser) head(key word, text string) {
	to := map[string]*string{"title": &p.r.Title, "revision": &p.r.Revision, "variant": &p.r.Variant, "digest": &p.r.Digest}[key.text]
	if *to != "" {
		p.say(key.span, "record-twice", "the "+key.text+" is written twice", "Leave one of the two lines out.")
	}
	*to = strings.Join(strings.Fields(text), " ")
}

// remarks takes the comments that belong to the line just read.
func (p *parser) remarks(s *scanner) Remarks {
	out := Remarks{Above: p.above, Behind: s.comment}
	p.above = nil
	return out
}

func (p *parser) wire(s *scanner) {
	w := Wire{Line: s.line, Key: Key{Ordinal: 1}}
	w.Remarks = p.remarks(s)
	s.next()
	w.Circuit = s.name("the circuit's key")
	w.From = s.name("the terminal where the wire begins")
	s.exactly(arrow, "an arrow -> between the two ends")
	w.To = s.name("the terminal where the wire ends")
	w.Ordinal = s.ordinal()
	w.State = s.state()
	w.Name = s.name("the wire's name")
	w.Gauge = quantity(s, "the gauge", 3, func(t string) (unit.Gauge, error) { return unit.ParseGauge(t, unit.SAE) })
	w.Insulation = s.name("the insulation")
	pair := quantity(s, "the colour", 1, colour.Parse)
	w.Base, w.Tracer = pair.Base, pair.Tracer
	at := s.at
	w.Length = quantity(s, "the cut length", 8, unit.ParseLength)
	w.Imperial = s.says(at, "in", "ft", "\"", "'", "inch", "inches", "foot", "feet")
	w.Sleeves = s.sleeves()
	s.end()
	if s.good() {
		p.r.Wires = append(p.r.Wires, w)
	}
}

func (p *parser) fuse(s *scanner) {
	f := Fuse{Line: s.line}
	f.Remarks = p.remarks(s)
	s.next()
	f.Name = s.name("the fuse, or PANEL.position")
	f.State = s.state()
	f.Rating = quantity(s, "the rating", 2, unit.ParseAmpere)
	f.Body = s.name("the body, such as blade")
	s.end()
	if s.good() {
		p.r.Fuses = append(p.r.Fuses, f)
	}
}

// twice reports lines on one wire or fuse, and two wires of one name.
func (p *parser) twice() {
	keys, names, fuses := map[Key]int{}, map[string]int{}, map[string]int{}
	for _, w := range p.r.Wires {
		if first := keys[w.Key]; first > 0 {
			p.again(w.Line, first, "two lines speak of one wire", "Leave one of them out; a second wire between the same ends is written (2) after its ends.")
		} else if first := names[w.Name]; first > 0 && w.State != harness.Retired {
			p.again(w.Line, first, "two wires are called "+w.Name, "Give each the name that its sleeves carry.")
		}
		keys[w.Key] = w.Line
		if w.State != harness.Retired {
			names[w.Name] = w.Line
		}
	}
	for _, f := range p.r.Fuses {
		if first := fuses[f.Name]; first > 0 {
			p.again(f.Line, first, "two lines speak of the fuse "+f.Name, "Leave one of them out.")
		}
		fuses[f.Name] = f.Line
	}
}

func (p *parser) again(line, first int, summary, detail string) {
	at := func(n int) source.Span { return source.At(n, 1, source.Width(p.file.Line(n))) }
	p.say(at(line), "record-twice", summary, detail)
	p.problems[len(p.problems)-1].Others = []source.Note{{Span: at(first), Text: "the first one"}}
}

// known gives the state of a word, "" when it is none.
func known(word string) harness.KeptState {
	if i := slices.Index(states(), word); i >= 0 {
		return harness.KeptState(word)
	}
	return ""
}
