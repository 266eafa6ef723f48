package testplan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
)

// TestEveryWireBeeps: each wire is in one chain and no more, and a chain is one.
func TestEveryWireBeeps(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		times := make([]int, len(h.Wires))
		for _, b := range r.Proof.Before.Beeps {
			for _, w := range b.Wires {
				times[w]++
			}
		}
		for w, n := range times {
			require.Positive(t, n, "%s: wire %s", s.Name, h.Wires[w].Name)
		}
	}
}
