package read

import (
	"strings"

	"gopkg.in/yaml.v3"
)

// Foreign gathers every text below an entry that has a character outside ASCII, in the
// order of the file.
func (r *Reader) Foreign(e Entry) []Word { return r.foreign(e.value, nil) }

func (r *Reader) foreign(n *yaml.Node, out []Word) []Word {
	if n.Kind == yaml.ScalarNode && strings.IndexFunc(n.Value, func(c rune) bool { return c > '~' }) >= 0 {
		out = append(out, Word{Text: n.Value, Span: r.span(n)})
	}
	for _, c := range n.Content {
		out = r.foreign(c, out)
	}
	return out
}
