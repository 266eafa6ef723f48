// Package variant takes out of a description what a variant of the vehicle lacks, and tells
// of variants that cannot be built.
//
// In: a description, joined with what its variant adds (package read). Out: a new one,
// without the circuits and parts that the variant names, and without whatever those alone
// used: parts, places and the runs to them, screens, cables, settings of states, what is
// accepted of them. Nothing else is changed.
package variant

import (
	_ "embed" // for the list
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/source"
)

//go:embed rules.txt
var ruleList string

// Rules lists what this package finds. The error tells of a list that cannot be read.
func Rules() ([]source.Rule, error) { return source.ParseRules(ruleList) }

// Of gives the description as its variant is built. What is left out and is not there is an
// error, also of variants that are not chosen and add no file in which it could be.
func Of(d *describe.Description) (*describe.Description, source.Problems) {
	var problems source.Problems
	out := d
	for _, v := range d.Variants {
		chosen := v.Key.Text == d.Variant
		if chosen || len(v.With) == 0 {
			problems = append(problems, unknown(d, v)...)
		}
		if chosen && !problems.HasErrors() && len(v.Without) > 0 {
			out = without(d, v.Without)
		}
	}
	return out, problems
}

// unknown reports what a variant leaves out that is not there.
func unknown(d *describe.Description, v describe.Variant) source.Problems {
	var names []string
	for _, c := range d.Circuits {
		names = append(names, c.Key.Text)
	}
	for _, p := range d.Parts {
		names = append(names, p.Key.Text)
	}
	var out source.Problems
	for _, w := range v.Without {
		if !slices.Contains(names, w.Text) {
			out = append(out, source.Problem{Slug: "without-unknown", Span: w.Span, Summary: fmt.Sprintf("there is no circuit or part %q to leave out", w.Text),
				Detail: read.Guess(w.Text, names) + "Name circuits as under circuits: and parts as under parts:."})
		}
	}
	return out
}

// Others tells of variants that are not the chosen one and cannot be worked from. It is for
// a description that can be.
func Others(g read.Given, d *describe.Description) source.Problems {
	var out source.Problems
	for _, v := range d.Variants {
		if v.Key.Text == d.Variant || d.Variant == read.All {
			continue
		}
		g.Variant = v.Key.Text
		if p, bad := judged(g, d, v); bad {
			out = append(out, p)
		}
	}
	return out
}

// judged reads and checks one variant as if it were the chosen one.
func judged(g read.Given, d *describe.Description, v describe.Variant) (source.Problem, bool) {
	of, problems := describe.Read(g)
	if !problems.HasErrors() {
		var found source.Problems
		of, found = Of(of)
		problems = append(problems, found...)
	}
	if !problems.HasErrors() {
		_, found := check.Check(of)
		problems = append(problems, found...)
	}
	if n := problems.Count(source.Error); n > 0 {
		first := problems.Sorted()[0]
		said := fmt.Sprintf("the variant %q cannot be built: %s", v.Key.Text, first.Summary)
		if n > 1 {
			said += fmt.Sprintf(", and %d more", n-1)
		}
		p := source.Problem{Slug: "variant-fails", Level: source.Warning, Span: v.Key.Span, Subjects: []string{v.Key.Text}, Summary: said,
			Detail: "loomfolio check with --variant " + v.Key.Text + " says all of it"}
		if at := placeIn(d.File, of.File, first.Span); at.Known() {
			p.Others = []source.Note{{Span: at, Text: "here"}}
		}
		return p, true
	}
	return source.Problem{}, false
}

// placeIn gives a place of one reading in another, in which files and uses have other numbers.
func placeIn(to, from *source.File, at source.Span) source.Span {
	at.Use = 0
	if at.File == 0 {
		return at
	}
	name := from.In(at).Path
	for i, f := range to.Included {
		if f.Path == name {
			at.File = i + 1
			return at
		}
	}
	return source.Span{}
}

// gone tells of a name that it is one of those that were left out.
type gone map[string]bool

// says tells of a stop, wire or other name that it speaks of something left out.
func (g gone) says(name string) bool {
	part, _, _ := strings.Cut(name, ".")
	return g[name] || g[part]
}
