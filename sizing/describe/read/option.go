package read

import (
	"fmt"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
)

// options loads what the variants add: that of the chosen one belongs to the loom, the
// others' is only looked at.
func (r *Reader) options(top *loaded, variant string) {
	_, value := under(top.root, "variants")
	var names []string
	found := variant == "" || variant == All && value != nil
	for i := 0; value != nil && value.Kind == yaml.MappingNode && i+1 < len(value.Content); i += 2 {
		name := value.Content[i].Value
		names = append(names, name)
		chosen := variant == name || variant == All
		found = found || chosen
		if key, with := under(value.Content[i+1], "with"); key != nil {
			r.includeAll(top, Word{Text: "with", Span: r.span(key)}, with, chosen)
		}
	}
	if !found {
		r.Say(source.Span{}, "unknown-variant", fmt.Sprintf("there is no variant %q", variant), Guess(variant, names)+"The variants are: "+listed(names)+".")
	}
}
