package finding_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/rig"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

func TestUnprotectedFeed(t *testing.T) {
	b := rig.Fan(unit.Metric, 5, 2000)
	b.Ways[0].Length = 170 // within 7 in
	_, ps := b.Choose(t)
	require.Nil(t, rig.Find(ps, "unprotected-feed"))
	b.Ways[0].Length = 300
	_, ps = b.Choose(t)
	p := rig.Find(ps, "unprotected-feed")
	require.NotNil(t, p)
	require.Equal(t, "error", p.Level.String())
	require.Equal(t, b.H.Wires[0].Span, p.Span)
	// sheathed all the way: up to 40 in
	b.H.Places = []harness.Place{{ID: 0, Ambient: 30}, {ID: 1, Ambient: 30}}
	b.H.Runs = []harness.Run{{ID: 0, From: 0, To: 1, Length: 300, Cover: "braid"}}
	b.Ways[0].Shares = append(b.Ways[0].Shares, rig.Share(0, 300))
	_, ps = b.Choose(t)
	require.Nil(t, rig.Find(ps, "unprotected-feed"))
	b.Ways[0].Length = 1067 // 42 in, sheathed: 33 CFR 183.455(b) allows 40
	_, ps = b.Choose(t)
	require.NotNil(t, rig.Find(ps, "unprotected-feed"))
}
