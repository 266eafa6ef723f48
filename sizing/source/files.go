package source

import "strings"

// Use is one of several places in which something is read that is written once: a
// template, an entry with each:, a value with a mark of YAML.
type Use struct {
	Span Span
	Text string            // what this use is, such as: used here with side left
	With map[string]string // what is put in for each mark <name>
}

// Fill puts the values of a use in for the marks of a text.
func (u Use) Fill(text string) string {
	for name, value := range u.With {
		text = strings.ReplaceAll(text, "<"+name+">", value)
	}
	return text
}

// In gives the file in which a span lies.
func (f *File) In(s Span) *File {
	if f == nil || s.File < 1 || s.File > len(f.Included) {
		return f
	}
	return f.Included[s.File-1]
}

// LineOf gives the text of the line on which a span lies.
func (f *File) LineOf(s Span) string { return f.In(s).Line(s.Start.Line) }

// At gives the text that a span marks, as it is read in its use; "" where it is outside the file.
func (f *File) At(s Span) string {
	if f == nil || !s.Known() {
		return ""
	}
	line := []rune(f.LineOf(s))
	from := s.Start.Column - 1
	if from < 0 || from+s.Width > len(line) {
		return ""
	}
	text := string(line[from : from+s.Width])
	for _, u := range f.uses(s) {
		text = u.Fill(text)
	}
	return text
}

// mostUses is how many uses one in the other are told of.
const mostUses = 8

// uses gives the uses by which a span is read, the innermost first.
func (f *File) uses(s Span) []Use {
	var out []Use
	for f != nil && s.Use > 0 && s.Use <= len(f.Uses) && len(out) < mostUses {
		u := f.Uses[s.Use-1]
		out = append(out, u)
		s = u.Span
	}
	return out
}

// others are the places that belong to a problem, those of the uses in which it stands last.
func (f *File) others(p Problem) []Note {
	out := append([]Note(nil), p.Others...)
	for _, u := range f.uses(p.Span) {
		out = append(out, Note{Span: u.Span, Text: u.Text})
	}
	return out
}
