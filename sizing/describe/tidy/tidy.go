// Package tidy writes a description in one form: keys in the order of the format's
// tables, a line for each part, place, run and leg, what is too long for a line
// wrapped in one way, one kind of quotes, and every comment beside what it stands
// beside. What the person wrote in names, numbers and units stays as it is. Text in,
// text out; it tells of itself whether the two say the same.
package tidy

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/source"
)

// Refused says that a description has errors of form, by which nobody can tell what
// belongs together.
type Refused struct {
	File     *source.File
	Problems source.Problems
}

func (e *Refused) Error() string { return "the description has errors" }

// errUnsure says that the tidied text would not say the same. It is never expected;
// the description is then left as it is.
var errUnsure = errors.New("the tidied text would not say the same as the description, which is left as it is")

// Text gives a description in its one form. A *Refused lists the errors of form of one
// that has some. Tidied text stays what it is, byte by byte.
func Text(name string, text []byte) ([]byte, error) {
	d, ps := describe.Parse(name, text)
	if ps.HasErrors() {
		return nil, &Refused{d.File, ps}
	}
	said := sayingOf(d)
	for _, sorted := range []bool{true, false} {
		if out, err := settle(text, sorted); err == nil && same(text, out, said) {
			return out, nil
		}
	}
	return nil, errUnsure
}

// settle tidies until nothing changes any more: a comment that has gone to a line of
// its own may part what stood in columns.
func settle(text []byte, sorted bool) ([]byte, error) {
	const most = 5
	for range most {
		out, err := once(text, sorted)
		if err != nil || bytes.Equal(out, text) {
			return out, err
		}
		text = out
	}
	return nil, errUnsure
}

// once writes a text anew.
func once(text []byte, sorted bool) ([]byte, error) {
	s, err := read.AsWritten(text)
	if err != nil {
		return nil, err
	}
	root := boxed(s.Root)
	if root == nil || s.Root.Shape != read.Pairs {
		return nil, fmt.Errorf("the description is no mapping")
	}
	place(s, root)
	top := at("", 0)
	if sorted {
		order(root, top)
	}
	p := printer{}
	p.box(root, 0, top)
	return written(p.lines), nil
}

// same tells whether a tidied text says what the description says, with all its comments.
func same(text, out []byte, said string) bool {
	d, ps := describe.Parse("", out)
	if ps.HasErrors() || sayingOf(d) != said {
		return false
	}
	a, errA := read.AsWritten(text)
	b, errB := read.AsWritten(out)
	return errA == nil && errB == nil && slices.Equal(remarksOf(a), remarksOf(b)) && outline(a.Root) == outline(b.Root)
}

// remarksOf gives the comments of a text, sorted.
func remarksOf(s *read.Sheet) []string {
	var out []string
	for _, c := range s.Comments {
		out = append(out, c.Text)
	}
	slices.Sort(out)
	return out
}

// outline gives a value with all that is in it, keys sorted, whatever way it is written.
func outline(w *read.Written) string {
	var parts []string
	for i, x := range w.Items {
		part := outline(x)
		if w.Shape == read.Pairs {
			part = outline(w.Keys[i]) + ":" + part
		}
		parts = append(parts, part)
	}
	switch w.Shape {
	case read.Pairs:
		slices.Sort(parts)
		return w.Marks + "{" + strings.Join(parts, ",") + "}"
	case read.Series:
		return w.Marks + "[" + strings.Join(parts, ",") + "]"
	}
	value := w.Value
	if value == "~" && w.Text == "~" {
		value = ""
	}
	return fmt.Sprintf("%s%d%q", w.Marks, w.Shape, value)
}

// written joins lines, the comments behind neighbouring ones in one column.
func written(lines []line) []byte {
	var b strings.Builder
	for i := 0; i < len(lines); {
		if lines[i].side == "" {
			b.WriteString(lines[i].text + "\n")
			i++
			continue
		}
		end := i
		for end < len(lines) && lines[end].side != "" && setIn(lines[end]) == setIn(lines[i]) {
			end++
		}
		column := columnOf(lines[i:end])
		for ; i < end; i++ {
			gap := max(column-width(lines[i].text), apart)
			b.WriteString(lines[i].text + pad(gap) + lines[i].side + "\n")
		}
	}
	return []byte(b.String())
}

// setIn gives the indent of a line.
func setIn(l line) int { return len(l.text) - len(strings.TrimLeft(l.text, " ")) }

// columnOf gives the column in which the comments behind neighbouring lines begin, 0
// where they do not fit in one.
func columnOf(lines []line) int {
	const most = 40 // blanks that nobody should have to follow
	longest, shortest := 0, widest
	for _, l := range lines {
		longest, shortest = max(longest, width(l.text)), min(shortest, width(l.text))
	}
	for _, l := range lines {
		if longest+apart+width(l.side) > widest {
			return 0
		}
	}
	if longest-shortest > most {
		return 0
	}
	return longest + apart
}
