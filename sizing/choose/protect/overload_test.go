package protect_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/rig"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// A blade of 20 A carries 22 A for ever and opens at 27 A (ISO 8820-3); a maxi of
// 20 A carries 20 A (DIN 72581-3). The wire must stand both: the first within its
// class of 125 C, the second within 175 C (ISO 6722-1 thermal overload).
func TestWireStandsWhatItsFuseCarries(t *testing.T) {
	for _, c := range []struct {
		body            string
		forever, opens  float64
		limit, overload unit.Celsius
	}{{"blade", 22, 27, 125, 175}, {"mini", 22, 27, 125, 175}, {"maxi", 20, 27, 125, 175}, {"glass", 22, 27, 125, 175}} {
		b := rig.Fan(unit.Metric, 2, 1000)
		b.H.Parts[b.Parts["F1"]].Rating, b.H.Parts[b.Parts["F1"]].Body = 20, c.body
		s := b.Settled(t)
		for w := range b.H.Wires[:4] {
			id := harness.WireID(w)
			got := s.Burdens(id, s.Size(id), s.Floors[id].Guard)
			require.Len(t, got, 2)
			require.InDelta(t, c.forever, got[0].Passes, 1e-9, c.body)
			require.Equal(t, c.limit, got[0].Limit)
			require.InDelta(t, c.opens, got[1].Passes, 1e-9, c.body)
			require.Equal(t, c.overload, got[1].Limit)
			require.True(t, got[0].Held() && got[1].Held(), "%s %+v", c.body, got)
			if at := s.At[id]; at > s.Floors[id].Handling {
				require.False(t, s.Stands(id, &s.Shelf[id][at-1], s.Floors[id].Guard), "no thicker than it must be")
			}
		}
	}
}

// A fuse in a place below 25 C carries more (a maker's ambient curve: 1.00 at 20 C
// against 0.983 at 25 C); in a hot place the wire is given no credit.
func TestCoolFuseCarriesMore(t *testing.T) {
	for _, c := range []struct {
		ambient unit.Celsius
		carries float64
	}{{20, 22.37}, {25, 22}, {85, 22}} {
		b := rig.Fan(unit.Metric, 2, 1000)
		b.H.Places = []harness.Place{{Name: "box", Ambient: c.ambient}}
		f := &b.H.Parts[b.Parts["F1"]]
		f.Rating, f.Place = 20, 0
		s := b.Settled(t)
		w := harness.WireID(2)
		require.InDelta(t, c.carries, s.Burdens(w, s.Size(w), s.Floors[w].Guard)[0].Passes, 0.01, "%s", c.ambient)
	}
}

// What an alternator of 45 A can give, 54 A, is all that its fuse of 200 A passes
// for ever or until it opens.
func TestOverloadEndsWhereTheSupplyDoes(t *testing.T) {
	b := rig.BesideAlternator(200)
	s := b.Settled(t)
	cf := s.H.Parts[b.Parts["CF"]].Elements[0]
	got := s.Burdens(3, s.Size(3), cf)
	require.InDelta(t, 54, got[0].Passes, 1e-9)
	require.InDelta(t, 54, got[1].Passes, 1e-9)
	require.Contains(t, s.BurdenText(3, s.Size(3), cf, got[0]), "its supply gives it 54 A at most")
}

// Where a table of currents is in force, the rating is held to the table: ABYC
// E-11 table VI-B (33 CFR 183.455(c) would allow 150 % of it), or with the method
// of FAA AC 43.13-1B its table 11-3: 16 AWG takes a fuse of 10 A and a breaker of
// 15 A, 14 AWG 15 A and 20 A.
func TestTableOfWiresAndProtectors(t *testing.T) {
	for _, c := range []struct {
		kind   harness.Kind
		rating unit.Ampere
		gauge  string
	}{{harness.Fuse, 10, "18"}, {harness.Fuse, 15, "14"}, {harness.Breaker, 15, "16"}, {harness.Breaker, 20, "14"}, {harness.Fuse, 20, "12"}, {harness.Breaker, 30, "12"}} {
		b := rig.Fan(unit.AWG, 1, 1000)
		b.H.Practice.Method = "ac43-13"
		f := &b.H.Parts[b.Parts["F1"]]
		f.Kind, f.Rating = c.kind, c.rating
		chosen, ps := b.Choose(t)
		require.Equal(t, c.gauge, b.WireOf(t, chosen, "1C").Gauge.Size, "%s %s", c.kind, c.rating)
		require.Equal(t, c.rating, rig.FuseNamed(t, chosen, "F1").MostAllowed)
		require.Nil(t, rig.Find(ps, "fuse-too-big"))
	}
	b := rig.Fan(unit.SAE, 1, 1000)
	b.H.Practice.Ampacity = "abyc"
	b.H.Parts[b.Parts["F1"]].Rating = 20
	s := b.Settled(t)
	got := s.Burdens(2, s.Size(2), s.Floors[2].Guard)
	require.Len(t, got, 1)
	require.InDelta(t, 20, got[0].Passes, 1e-9, "the rating itself")
	require.GreaterOrEqual(t, got[0].Stands, 20.0)
}

// The words of a fuse that is too big carry the numbers of both sides.
func TestFuseTooBigPrintsItsNumbers(t *testing.T) {
	b := rig.Fan(unit.Metric, 2, 1000)
	b.Given("1C", unit.Gauge{System: unit.Metric, Size: "0.5"})
	b.H.Parts[b.Parts["F1"]].Rating = 30
	_, ps := b.Choose(t)
	p := rig.Find(ps, "fuse-too-big")
	require.NotNil(t, p)
	require.Regexp(t, `^F1 \(30 A\) is too big for 1C behind it: (110 % of 30 A is 33 A continuously|135 % of 30 A is 40.5 A for up to 30 min); 0\.5 mm² (carries|is good for) [0-9.]+ A at 30 °C`, p.Summary)
}
