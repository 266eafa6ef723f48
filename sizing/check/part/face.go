package part

import (
	"slices"

	"example.com/loomfolio/sizing/harness"
)

// face takes over the rows of a plug's face; each cavity of a connector, or each
// terminal of a module, has one place in them.
func (b *builder) face() {
	if b.p.Kind == harness.FusePanel {
		return
	}
	names := b.faced()
	var shown []string
	for _, row := range b.w.Layout {
		var out []string
		for _, w := range row {
			if !slices.Contains(names, w.Text) {
				b.Unknown("unknown-cavity", "cavity of "+b.p.Ref, w, names)
			}
			out = append(out, w.Text)
		}
		b.p.Rows, shown = append(b.p.Rows, out), append(shown, out...)
	}
	for _, n := range names {
		if len(shown) > 0 && !slices.Contains(shown, n) {
			b.Fail("cavity-not-shown", b.w.Layout[0][0].Span, "add it to a row of layout:", "cavity %s of %s has no place in the layout", n, b.p.Ref)
		}
	}
}

// faced are the names that a face shows.
func (b *builder) faced() []string {
	if b.p.Kind == harness.Connector {
		return b.p.Cavities
	}
	var names []string
	for _, t := range b.p.Terminals {
		names = append(names, b.called(t))
	}
	return names
}
