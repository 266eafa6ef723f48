package read

import (
	"strings"

	"gopkg.in/yaml.v3"
)

// Foreign gathers every text below an entry that has a character outside ASCII, in the
// order of the file.
func (r *Reader) Foreign(e Entry) []Word { return r.foreign(e.value, nil, map[Word]bool{}) }

// foreign gathers below a node; what is written once and read in several places counts once.
func (r *Reader) foreign(n *yaml.Node, out []Word, had map[Word]bool) []Word {
	if n.Kind == yaml.ScalarNode && strings.IndexFunc(n.Value, func(c rune) bool { return c > '~' }) >= 0 {
		w := Word{Text: n.Value, Span: r.span(n)}
		once := w
		once.Span.Use = 0
		if !had[once] {
			had[once] = true
			out = append(out, w)
		}
	}
	for _, c := range n.Content {
		out = r.foreign(c, out, had)
	}
	return out
}
