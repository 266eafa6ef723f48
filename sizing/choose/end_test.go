package choose_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/ampacity"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/choose/finding"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/choose/reason"
	"example.com/loomfolio/sizing/choose/rig"
	"example.com/loomfolio/sizing/unit"
)

// Late rounds let no rating fall, so that the choice ends.
func TestNoRatingFallsLate(t *testing.T) {
	b := rig.Fan(unit.Metric, 12, 2000)
	s := b.Settled(t)
	f := b.H.Parts[b.Parts["F1"]].Elements[0]
	require.Equal(t, unit.Ampere(20), s.Fuses[f].Rating)
	b.H.Elements[b.H.Parts[b.Parts["FAN"]].Elements[0]].Amps = 6
	solved, err := s.Base.Solve(s.At, s.Links, nil)
	require.NoError(t, err)
	warm, _ := solved.Warmed(ampacity.Of(solved, nil).Temperatures)
	none := make([]bool, len(b.H.Elements))
	late, changed := protect.Choose(demand.Of(warm), none, nil, nil, s.Fuses, true)
	require.False(t, changed)
	require.Equal(t, unit.Ampere(20), late[f].Rating)
	require.InDelta(t, 6, late[f].Amps, 1)
	late, changed = protect.Choose(demand.Of(warm), none, nil, nil, s.Fuses, false)
	require.True(t, changed)
	require.Equal(t, unit.Ampere(10), late[f].Rating)
}

// An end that did not stand still hides nothing: what its sizes do not stand is a finding.
func TestEndHidesNothing(t *testing.T) {
	b := rig.Fan(unit.Metric, 30, 2000)
	s, err := choose.Unsettled(b.H, b.Ways, b.Settled(t), make([]int, len(b.H.Wires)))
	require.NoError(t, err)
	c := reason.Of(s)
	ps := finding.All(s, &c)
	require.NotNil(t, rig.Find(ps, "wire-too-weak-for-fuse"))
	require.NotNil(t, rig.Find(ps, "wire-too-hot"))
}

// Who reads what was settled changes nothing of it: a second reading gives the same.
func TestReadingChangesNothing(t *testing.T) {
	for _, b := range []*rig.Rig{rig.Fan(unit.Metric, 13, 3000), rig.Charged(), rig.Split(), rig.Wide(20)} {
		s := b.Settled(t)
		c := reason.Of(s)
		ps := finding.All(s, &c)
		again := reason.Of(s)
		require.Equal(t, c.Wires, again.Wires)
		require.Equal(t, c.Fuses, again.Fuses)
		require.Equal(t, c.Loads, again.Loads)
		require.Equal(t, ps, finding.All(s, &again))
	}
}
