package spare_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/reason"
	"example.com/loomfolio/sizing/choose/spare"
	"example.com/loomfolio/sizing/route"
)

// BenchmarkKestrel asks for the room of every load of the whole car.
func BenchmarkKestrel(b *testing.B) {
	h, _ := worked.Named(b, "kestrel")
	ways, _ := route.Find(h)
	s, err := choose.Settle(h, ways)
	require.NoError(b, err)
	c := reason.Of(s)
	for b.Loop() {
		spare.Of(s, &c)
	}
}
