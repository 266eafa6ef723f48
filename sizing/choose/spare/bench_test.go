package spare_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/reason"
	"example.com/loomfolio/sizing/choose/spare"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
)

// BenchmarkKestrel asks for the room of every load of the whole car.
func BenchmarkKestrel(b *testing.B) {
	h, _ := worked.Named(b, "kestrel")
	ask(b, h)
}

func ask(b *testing.B, h *harness.Harness) {
	ways, _ := route.Find(h)
	s, err := choose.Settle(h, ways)
	require.NoError(b, err)
	c := reason.Of(s)
	for b.Loop() {
		spare.Of(s, &c)
	}
}

// BenchmarkGrown asks for that of made-up vehicles.
func BenchmarkGrown(b *testing.B) {
	for _, wires := range []int{300, 1000, 3000} {
		b.Run(fmt.Sprintf("%d wires", wires), func(b *testing.B) { ask(b, grown.Harness(b, wires, 1)) })
	}
}
