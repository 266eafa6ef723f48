package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
)

// How the kestrel is proved and how faults in it are found, all of it.
func BenchmarkProve(b *testing.B) {
	h, r := worked.Named(b, "kestrel")
	for b.Loop() {
		require.NoError(b, sizing.Prove(h, r))
	}
}
