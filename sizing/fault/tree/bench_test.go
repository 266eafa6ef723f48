package tree_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/fault/tree"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// BenchmarkKestrel chooses the measurements for all loads of kestrel, its dictionary solved.
func BenchmarkKestrel(b *testing.B) {
	h, r := worked.Named(b, "kestrel")
	choose(b, h, r)
}

// BenchmarkGrown does so for a vehicle of a thousand wires.
func BenchmarkGrown(b *testing.B) {
	h := grown.Harness(b, 1000, 1)
	r, err := sizing.Size(h, nil)
	require.NoError(b, err)
	require.NoError(b, sizing.Prove(h, r))
	choose(b, h, r)
}

func choose(b *testing.B, h *harness.Harness, r *result.Result) {
	book := fault.New(h, r)
	_ = tree.All(h, &r.Proof, book) // the book keeps what it solves
	for b.Loop() {
		tree.All(h, &r.Proof, book)
	}
}
