package protect_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/choose/rig"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// What shops stock comes first, and nothing below the smallest is chosen; a given rating is
// obeyed. Common practice, no source.
func TestShopsStockFirst(t *testing.T) {
	for _, c := range []struct {
		amps   unit.Ampere
		least  unit.Ampere
		stock  []unit.Ampere
		rating unit.Ampere
		body   string
	}{
		{amps: 0.15, rating: 3, body: "blade"},
		{amps: 0.15, least: 5, rating: 5, body: "blade"},
		{amps: 0.15, least: 1, rating: 3, body: "blade"}, // 1 and 2 A are seldom stocked
		{amps: 0.15, least: 1, stock: []unit.Ampere{2, 10}, rating: 2, body: "blade"},
		{amps: 2.6, rating: 5, body: "blade"}, // not 4 A
		{amps: 2.6, stock: []unit.Ampere{4, 10}, rating: 4, body: "blade"},
		{amps: 8, stock: []unit.Ampere{5, 10, 20}, rating: 20, body: "blade"},
		{amps: 20, stock: []unit.Ampere{5, 10, 20}, rating: 30, body: "blade"}, // none of the list carries 20 A
		{amps: 26, rating: 40, body: "maxi"},
		{amps: 100, rating: 150, body: "bolt"},
		{amps: 130, rating: 175, body: "bolt"},
		{amps: 165, rating: 250, body: "bolt"}, // not 225 A
	} {
		b := rig.Fan(unit.Metric, c.amps, 2000)
		b.H.Practice.LeastFuse, b.H.Practice.FuseStock = c.least, c.stock
		got, ps := b.Choose(t)
		f := rig.FuseNamed(t, got, "F1")
		require.Equal(t, c.rating, f.Rating, "%v A", c.amps)
		require.Equal(t, c.body, f.Body, "%v A", c.amps)
		require.Nil(t, rig.Find(ps, "fuse-too-small"))
		require.GreaterOrEqual(t, f.MostAllowed, f.Rating)
	}
	b := rig.Fan(unit.Metric, 0.15, 2000)
	b.H.Parts[b.Parts["F1"]].Rating = 1
	c, ps := b.Choose(t)
	require.Equal(t, unit.Ampere(1), rig.FuseNamed(t, c, "F1").Rating)
	require.Empty(t, rig.Slugs(ps))
}

// No rating that no list names is chosen: 2 mm2 is safe with a maxi of 35 A and not with one of
// 40 A. A free wire grows; one that is given is said to be too thin, once, with both cures; a
// rating that is given is obeyed.
func TestNoRatingLeavesTheList(t *testing.T) {
	b := rig.Fan(unit.Metric, 26, 300)
	free, ps := b.Choose(t)
	require.Equal(t, unit.Ampere(40), rig.FuseNamed(t, free, "F1").Rating)
	require.Empty(t, rig.Slugs(ps))
	b.Given("1C", unit.Gauge{System: unit.Metric, Size: "2"})
	c, ps := b.Choose(t)
	require.Equal(t, unit.Ampere(40), rig.FuseNamed(t, c, "F1").Rating)
	require.Equal(t, []string{"error gauge-given-too-thin"}, rig.Slugs(ps))
	require.Contains(t, ps[0].Detail, "for the fuse the wire needs 2.5 mm²")
	require.Contains(t, ps[0].Detail, "35 A would serve and is seldom on the shelf: give it (rating: 35 A)")
	b.H.Parts[b.Parts["F1"]].Rating, b.H.Parts[b.Parts["F1"]].Body = 35, "maxi"
	c, ps = b.Choose(t)
	require.Equal(t, unit.Ampere(35), rig.FuseNamed(t, c, "F1").Rating)
	require.Empty(t, rig.Slugs(ps))
}

// What the lists name of every body, mini, glass and breakers too; common practice, no source,
// but the maxi fuses, which a page on car maintenance lists.
func TestLists(t *testing.T) {
	b := rig.Fan(unit.Metric, 10, 300)
	seat := protect.Seat{H: b.H, E: &b.H.Elements[b.H.Parts[b.Parts["F1"]].Elements[0]]}
	for body, want := range map[string][]unit.Ampere{
		"mini": {3, 5, 7.5, 10, 15, 20, 25, 30}, "blade": {3, 5, 7.5, 10, 15, 20, 25, 30},
		"maxi": {20, 30, 40, 50, 60, 70, 80}, "glass": {3, 5, 7.5, 10, 15, 20, 25, 30},
		"bolt":    {40, 60, 80, 100, 125, 150, 175, 200, 250, 300, 400, 500},
		"breaker": {5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100, 120, 150, 200},
	} {
		var got []unit.Ampere
		for _, r := range protect.Ratings(&protect.Fuse{Body: body}) {
			if seat.Named(body, r) {
				got = append(got, r)
			}
		}
		require.Equal(t, want, got, body)
	}
}

// The next smaller rating that load and wire would take says why it was not.
func TestSmallerRatingsSayWhyNot(t *testing.T) {
	c, _ := rig.Fan(unit.Metric, 0.15, 2000).Choose(t)
	f := rig.FuseNamed(t, c, "F1")
	require.Equal(t, "2 A", f.Below.Size)
	require.Equal(t, "is below 3 A, the smallest that the practice fits", f.Below.Fails[0].Text)
	c, _ = rig.Fan(unit.Metric, 2.6, 2000).Choose(t)
	f = rig.FuseNamed(t, c, "F1")
	require.Equal(t, "4 A", f.Below.Size)
	require.Contains(t, f.Below.Fails[0].Text, "is seldom on the shelf")
}

// What the supply gives limits what a fuse passes: the most that is printed is never below
// what is fitted (an alternator of 55 A behind its fuse of 60 A: 66 A at most, and the wire
// that carries them for as long as it takes is safe with any fuse).
func TestNeverAboveIsNotBelowWhatIsFitted(t *testing.T) {
	for _, output := range []unit.Ampere{20, 35, 45, 55, 70} {
		b := rig.New(unit.Metric)
		b.Battery("BAT")
		b.Alternator("ALT", output)
		f := b.Fuse("MF")
		f.Body, f.Rating = "maxi", 60
		b.Ground("G1")
		b.Wire("1A", "ALT.B+", "MF.1", 1000)
		b.Wire("1B", "MF.2", "BAT.+", 100)
		b.Wire("1C", "BAT.-", "G1", 300)
		b.State("driving", harness.EngineRunning)
		c, ps := b.Choose(t)
		require.Nil(t, rig.Find(ps, "fuse-too-big"))
		require.GreaterOrEqual(t, rig.FuseNamed(t, c, "MF").MostAllowed, unit.Ampere(60), "%s", output)
	}
}
