package colour

import (
	"strings"

	"example.com/loomfolio/sizing/harness"
)

// asked are conventions by their words, in order.
func asked(words string) []harness.Convention {
	var out []harness.Convention
	for _, w := range strings.Fields(words) {
		out = append(out, harness.Convention{Set: w})
	}
	return out
}

// horn puts a source at a terminal, a contact into SW and a load into the horn H.
func (b *bench) horn(source string) {
	b.element("BAT", harness.EMF, source, "BAT.-")
	b.element("SW", harness.Contact, "SW.1", "SW.2")
	b.element("H", harness.Load, "H.+", "H.-")
}
