// Package work takes a description through reading, checking and sizing, once: every
// command begins with it, and so does whatever follows a file or compares two.
package work

import (
	"fmt"
	"io/fs"

	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/accept"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/picture"
	"example.com/loomfolio/sizing/record"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/rules"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/variant"
)

// Source is what is worked from.
type Source struct {
	Name    string                       // of the description, as messages show it
	Text    []byte                       // of the description
	Files   fs.FS                        // of the description's folder, for its pictures and what it includes; nil where there is none
	Variant string                       // of the description, as describe.Description names it
	Record  func() (*source.File, error) // the as-built record, nil where there is none; asked for once the description is read
}

// Work is a description that was read, checked and computed.
type Work struct {
	File    *source.File
	Harness *harness.Harness
	Record  *record.Record // nil where there is none
	Result  *result.Result
}

// Stop says that the problems of a file leave nothing to go on with.
type Stop struct {
	File     *source.File
	Problems source.Problems // sorted
}

func (s *Stop) Error() string { return s.File.Name + " cannot be worked from" }

// Do takes a description through all of it. The error is a *Stop where problems of the
// description or the record are the reason, that of Record, or one of the solver.
func Do(s Source) (*Work, error) {
	given := read.Given{Name: s.Name, Text: s.Text, Files: s.Files, Variant: s.Variant}
	d, problems := describe.Read(given)
	if !problems.HasErrors() {
		var found source.Problems
		d, found = variant.Of(d)
		problems = append(problems, found...)
	}
	if problems.HasErrors() {
		return nil, &Stop{d.File, problems.Sorted()}
	}
	problems = append(problems, variant.Others(given, d)...)
	problems = append(problems, describe.Unprintable(d, typeface.Missing)...)
	rec, err := recordOf(s)
	if err != nil {
		return nil, err
	}
	h, found := check.Against(d, rec)
	problems = append(problems, found...)
	if h != nil {
		problems = append(problems, picture.Load(h, s.Files)...)
	}
	if h == nil || problems.HasErrors() {
		return nil, &Stop{d.File, problems.Sorted()}
	}
	r, err := sizing.Size(h, problems)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", s.Name, err)
	}
	if r.Unusable {
		return nil, &Stop{d.File, r.Findings}
	}
	catalogue, err := rules.List()
	if err != nil {
		return nil, err
	}
	r.Findings, r.Accepted = accept.Settle(h, r.Findings, catalogue)
	return &Work{File: d.File, Harness: h, Record: rec, Result: r}, nil
}

// Prove adds how the wiring is proved and how faults in it are found (result.Result.Proof).
func (w *Work) Prove() error {
	if err := sizing.Prove(w.Harness, w.Result); err != nil {
		return fmt.Errorf("%s: %w", w.File.Name, err)
	}
	return nil
}

// Dictionary adds the test points and the faults alone, and gives the dictionary to be asked.
func (w *Work) Dictionary() *fault.Book { return sizing.Dictionary(w.Harness, w.Result) }

// recordOf reads the record; nil where there is none.
func recordOf(s Source) (*record.Record, error) {
	if s.Record == nil {
		return nil, nil
	}
	f, err := s.Record()
	if f == nil || err != nil {
		return nil, err
	}
	r, problems := record.Parse(f)
	if problems.HasErrors() {
		return nil, &Stop{f, problems}
	}
	return &r, nil
}
