package fit

import (
	"testing"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"github.com/stretchr/testify/require"
)

// A tab takes one receptacle: one wire is fine, two are advised on, rings are not meant.
func TestWiresThatShareATab(t *testing.T) {
	for wires, advised := range map[int]bool{1: false, 2: true} {
		s := newShed()
		s.part("K1", harness.Relay)
		s.part("G", harness.Ground)
		for range wires {
			s.wire(s.at("K1", "30"), s.at("G", ""), mm2("1"), 500)
		}
		_, problems := All(s.h, s.ways, s.c)
		found := false
		for _, p := range problems {
			if p.Slug == "wires-share-tab" {
				found = true
				require.Equal(t, source.Advice, p.Level)
				require.Equal(t, []string{"K1.30"}, p.Subjects)
				require.Contains(t, p.Summary, "1A and 1B")
			}
		}
		require.Equal(t, advised, found, wires)
	}
}
