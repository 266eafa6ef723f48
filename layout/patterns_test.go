package layout_test

import (
	"testing"

	"example.com/loomfolio/layout"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
)

// TestPatternPacketsHaveNoFault: the archive of each pattern, on the paper that it says.
func TestPatternPacketsHaveNoFault(t *testing.T) {
	for _, s := range samples.Patterns() {
		t.Run(s.Name, func(t *testing.T) {
			t.Parallel()
			h, r := worked.Out(t, s)
			checkWhole(t, h, r, layout.Archive, "")
		})
	}
}
