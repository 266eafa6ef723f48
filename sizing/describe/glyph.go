package describe

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/source"
)

// Unprintable reports the texts of which characters would be lost in print. Missing
// gives those of a text, each once; one text that stands in several places is one
// problem.
func Unprintable(d *Description, missing func(string) string) source.Problems {
	var out source.Problems
	at := map[string]int{}
	for _, w := range d.Foreign {
		lost := missing(w.Text)
		if lost == "" {
			continue
		}
		if i, said := at[w.Text]; said {
			out[i].Others = append(out[i].Others, source.Note{Span: w.Span, Text: "here too"})
			continue
		}
		at[w.Text] = len(out)
		out = append(out, source.Problem{
			Slug: "no-glyph", Level: source.Warning, Span: w.Span,
			Summary: fmt.Sprintf("the sheets' letters have no %s: it is printed as ?", spaced(lost)),
			Detail:  "Write it in Latin, Greek or Cyrillic letters, or spell the sign out.",
		})
	}
	return out
}

// spaced sets characters apart, each with its number, since not every screen shows them.
func spaced(s string) string {
	var out []string
	for _, c := range s {
		out = append(out, fmt.Sprintf("%c (U+%04X)", c, c))
	}
	return strings.Join(out, ", ")
}
