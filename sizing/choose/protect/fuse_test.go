package protect_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/rig"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// A slow start opens a blade fuse, a maxi holds it: DIN 72581-3 allows at 200 %
// no less than 2 s, where the blade may open in 0.15 s.
func TestStartChoosesTheBody(t *testing.T) {
	b := rig.Fan(unit.Metric, 20, 8*rig.Foot)
	b.H.Parts[b.Parts["FAN"]].Starts = unit.Start{Amps: 55, For: 0.4}
	c, ps := b.Choose(t)
	f := rig.FuseNamed(t, c, "F1")
	require.Equal(t, "maxi", f.Body, f.Reason)
	require.Equal(t, unit.Ampere(30), f.Rating)
	require.Nil(t, rig.Find(ps, "fuse-too-small"))
	b.H.Parts[b.Parts["F1"]].Body = "blade"
	c, ps = b.Choose(t)
	require.Equal(t, "blade", rig.FuseNamed(t, c, "F1").Body)
	p := rig.Find(ps, "fuse-too-small")
	require.NotNil(t, p)
	require.Equal(t, "advice", p.Level.String(), "0.4 s lies within the band of opening times")
}

func TestGivenFuseIsObeyedAndChecked(t *testing.T) {
	b := rig.Fan(unit.Metric, 20, 8*rig.Foot)
	b.Given("1C", unit.Gauge{System: unit.Metric, Size: "1"})
	f := &b.H.Parts[b.Parts["F1"]]
	f.Rating, f.RatingSpan = 60, b.Span()
	c, ps := b.Choose(t)
	require.Equal(t, unit.Ampere(60), rig.FuseNamed(t, c, "F1").Rating)
	require.Equal(t, "maxi", rig.FuseNamed(t, c, "F1").Body, "no blade is made for 60 A")
	p := rig.Find(ps, "fuse-too-big")
	require.NotNil(t, p)
	require.Equal(t, f.RatingSpan, p.Span)
	require.Contains(t, p.Subjects, "1C")
	require.Len(t, p.Others, 1)
	require.NotNil(t, rig.Find(ps, "gauge-given-too-thin"), "20 A over 1 mm2 loses too much")

	f.Rating = 15
	_, ps = b.Choose(t)
	p = rig.Find(ps, "fuse-too-small")
	require.NotNil(t, p)
	require.Equal(t, "error", p.Level.String())
	f.Rating = 25
	_, ps = b.Choose(t)
	require.Equal(t, "warning", rig.Find(ps, "fuse-too-small").Level.String(), "20 A is 80 %% of 25 A")
}

// A given fuse makes a free wire grow until it stands it.
func TestWireGrowsForItsFuse(t *testing.T) {
	b := rig.Fan(unit.Metric, 2, 1000)
	b.H.Parts[b.Parts["F1"]].Rating = 30
	c, ps := b.Choose(t)
	for _, name := range []string{"1A", "1B", "1C", "1D"} {
		w := b.WireOf(t, c, name)
		require.GreaterOrEqual(t, float64(w.Ampacity), 30.0, name)
	}
	require.Contains(t, b.WireOf(t, c, "1C").Reason, "for its fuse F1: 135 % of 30 A is 40.5 A for up to 30 min")
	require.Empty(t, rig.Slugs(ps))
}

// A cold filament takes ten times its current for 0.05 s (component text and mains lamps of 7 to
// 14 times, unnamed; none measured at 12 V): a lamp of 2 A (some 18 A, 600 % of 3 A) needs a blade
// of 5 A, whose band says 0.07 s at 350 %; a lamp that says how it starts is believed.
func TestColdFilamentNeedsALargerFuse(t *testing.T) {
	b := rig.Fan(unit.Metric, 2, 2000)
	b.H.Parts[b.Parts["FAN"]].Kind = harness.Lamp
	b.H.Elements[b.H.Parts[b.Parts["FAN"]].Elements[0]].Behaves = harness.AsLamp
	c, ps := b.Choose(t)
	f := rig.FuseNamed(t, c, "F1")
	require.Equal(t, unit.Ampere(5), f.Rating)
	require.Contains(t, f.Reason, "the lamp inrush of 18.6 A for 0.05 s")
	require.Contains(t, f.Sources, "cold-filament")
	require.Nil(t, rig.Find(ps, "fuse-too-small"))
	b.H.Parts[b.Parts["FAN"]].Starts = unit.Start{Amps: 2.5, For: 0.05}
	c, _ = b.Choose(t)
	require.Equal(t, unit.Ampere(3), rig.FuseNamed(t, c, "F1").Rating)
}
