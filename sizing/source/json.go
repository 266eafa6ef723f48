package source

import (
	"encoding/json"
	"io"
	"math"
	"strconv"
)

// Listed is a finding as scripts read it. The names of the fields are fixed; more may
// be added. Lines and columns count from 1, columns count characters, and all three are 0
// where a finding has no place.
type Listed struct {
	Slug      string             `json:"slug"`
	Level     string             `json:"level"` // error, warning, advice
	File      string             `json:"file"`  // the included one, where it stands there
	Line      int                `json:"line"`
	Column    int                `json:"column"`
	EndColumn int                `json:"end_column"` // the first one behind it
	Message   string             `json:"message"`
	Fix       string             `json:"fix"`
	Places    []Listing          `json:"places"` // others that belong to it
	Subjects  []string           `json:"subjects"`
	Numbers   map[string]float64 `json:"numbers"`
	Because   string             `json:"because,omitempty"` // of an accepted one: why
}

// Listing is another place that belongs to a finding.
type Listing struct {
	File      string `json:"file"`
	Line      int    `json:"line"`
	Column    int    `json:"column"`
	EndColumn int    `json:"end_column"`
	Message   string `json:"message"`
}

// List is all that was found in a file.
type List struct {
	Loomfolio int            `json:"loomfolio"` // the format's version
	File      string         `json:"file"`
	Counts    map[string]int `json:"counts"` // error, warning, advice, accepted
	Findings  []Listed       `json:"findings"`
	Accepted  []Listed       `json:"accepted"`
}

// ListOf gives the problems in the order given, and those that were accepted, as scripts read them.
func ListOf(f *File, ps Problems, accepted []Accepted) List {
	l := List{Loomfolio: 1, File: f.named(), Counts: map[string]int{"accepted": len(accepted)}, Findings: []Listed{}, Accepted: []Listed{}}
	for _, level := range []Level{Error, Warning, Advice} {
		l.Counts[level.String()] = ps.Count(level)
	}
	for _, p := range ps {
		l.Findings = append(l.Findings, listed(f, p))
	}
	for _, a := range accepted {
		one := listed(f, a.Problem)
		one.Because = a.Because
		l.Accepted = append(l.Accepted, one)
	}
	return l
}

// JSON writes the list as one object, indented, with a line end.
func (l List) JSON(w io.Writer) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(l)
}

func listed(f *File, p Problem) Listed {
	out := Listed{
		Slug: p.Slug, Level: p.Level.String(), File: f.In(p.Span).named(), Line: p.Span.Start.Line, Column: p.Span.Start.Column, EndColumn: p.Span.end(),
		Message: p.Summary, Fix: p.Detail, Places: []Listing{}, Subjects: append([]string{}, p.Subjects...), Numbers: map[string]float64{},
	}
	for _, n := range f.others(p) {
		out.Places = append(out.Places, Listing{f.In(n.Span).named(), n.Span.Start.Line, n.Span.Start.Column, n.Span.end(), n.Text})
	}
	for _, n := range p.Numbers {
		if !math.IsNaN(n.Value) && !math.IsInf(n.Value, 0) { // JSON has no word for these
			out.Numbers[n.Name] = fourDigits(n.Value)
		}
	}
	return out
}

// end is the first column behind the span, 0 for no place.
func (s Span) end() int {
	if !s.Known() {
		return 0
	}
	return s.Start.Column + max(s.Width, 1)
}

// named gives the file's name as messages show it.
func (f *File) named() string {
	if f == nil || f.Name == "" {
		return "description"
	}
	return f.Name
}

// fourDigits rounds a figure to four significant digits, so that it prints as short as it is.
func fourDigits(x float64) float64 {
	out, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 4, 64), 64)
	if err != nil {
		return x
	}
	return out
}
