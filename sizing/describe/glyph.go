package describe

import (
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
)

// foreign gathers every text with a character outside ASCII.
func (r *reader) foreign(n *yaml.Node, out []Word) []Word {
	if n.Kind == yaml.ScalarNode && strings.IndexFunc(n.Value, func(c rune) bool { return c > '~' }) >= 0 {
		out = append(out, Word{Text: n.Value, Span: r.span(n)})
	}
	for _, c := range n.Content {
		out = r.foreign(c, out)
	}
	return out
}

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
