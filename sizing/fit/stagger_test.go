package fit

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/shed"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// spliced is a run of 900 mm with a splice of two wires at each of the distances.
func spliced(distances ...unit.Millimetre) *shed.Shed {
	s := shed.New()
	s.H.Places = []harness.Place{{ID: 0, Key: "a", Name: "Engine bay"}, {ID: 1, Key: "b", Name: "Dash"}}
	s.H.Runs = []harness.Run{{ID: 0, From: 0, To: 1, Length: 900}}
	s.H.Practice.EachEnd = 50
	s.Part("K1", harness.Relay)
	for i, d := range distances {
		ref := fmt.Sprintf("S%d", i+1)
		s.Part(ref, harness.Splice).Along = &harness.Along{Run: 0, Distance: d}
		for range 2 {
			w := s.Wire(s.At("K1", fmt.Sprint(len(s.H.Wires))), s.At(ref, ""), shed.MM2("1"), 500)
			s.Ways[w].Shares = []route.Share{{Run: 0, Length: 300}}
		}
	}
	return s
}

// NASA workmanship guidance 4.07: splices are staggered so that the bundle does not
// swell; by 10 mm of loom between their tubes (common practice, no source).
func TestSplicesAreStaggered(t *testing.T) {
	s := spliced(300, 320, 600)
	out, ps := All(s.H, s.Ways, s.C)
	require.Equal(t, []string{"splices-together"}, slugs(ps))
	require.Equal(t, source.Warning, ps[0].Level)
	long := out.Splices[0].ShrinkLen
	require.Greater(t, float64(long), 0.0)
	want := upTo5(long + apart)
	require.Equal(t, want-20, out.Splices[1].Shift)
	require.Contains(t, ps[0].Detail, fmt.Sprintf("move S2 to %.0f mm", float64(300+want)))
	require.Zero(t, out.Splices[0].Shift)
	require.Zero(t, out.Splices[2].Shift, "far enough away")

	far := spliced(300, 300+want)
	_, ps = All(far.H, far.Ways, far.C)
	require.Empty(t, ps)

	end := spliced(890, 895)
	out, ps = All(end.H, end.Ways, end.C)
	require.Len(t, ps, 1)
	require.Equal(t, 900-want-890, out.Splices[0].Shift, "the run ends at 900 mm: the first one gives way")
	require.Equal(t, unit.Millimetre(5), out.Splices[1].Shift)

	short := spliced(10, 20, 30)
	short.H.Runs[0].Length = 60
	_, ps = All(short.H, short.Ways, short.C)
	require.Contains(t, ps[0].Detail, "too short")
}

// NASA workmanship guidance 4.07: no splice where the loom flexes.
func TestNoSpliceInAFlexingRun(t *testing.T) {
	s := spliced(300)
	s.H.Runs[0].Flexes = true
	_, ps := All(s.H, s.Ways, s.C)
	require.Equal(t, []string{"splice-in-flex"}, slugs(ps))
	require.Contains(t, ps[0].Summary, "Engine bay – Dash")
}

// Eight wires in a barrel at most: common practice, no source.
func TestTooManyWiresInABarrel(t *testing.T) {
	for _, c := range []struct{ n, found int }{{8, 0}, {9, 1}} {
		s := shed.New()
		s.Part("K1", harness.Relay)
		s.Part("S1", harness.Splice)
		for range c.n {
			s.Wire(s.At("K1", fmt.Sprint(len(s.H.Wires))), s.At("S1", ""), shed.MM2("0.5"), 500)
		}
		_, ps := All(s.H, s.Ways, s.C)
		require.Len(t, ps, c.found)
		if c.found > 0 {
			require.Equal(t, "splice-over-filled", ps[0].Slug)
		}
	}
}

// Two splices at one place: the second moves out along the run that its wires
// take, unless the run bends; past the slack an advice writes the line for it.
func TestSplicesOfOnePlaceFanOut(t *testing.T) {
	build := func(slack unit.Millimetre) *shed.Shed {
		s := spliced(0, 0)
		s.H.Practice.EachEnd = slack
		for i := range 2 {
			p := &s.H.Parts[s.Parts[fmt.Sprintf("S%d", i+1)]]
			p.Along, p.Place = nil, 0
		}
		return s
	}
	s := build(100)
	out, ps := All(s.H, s.Ways, s.C)
	require.Empty(t, ps)
	require.Equal(t, harness.RunID(harness.None), out.Splices[0].Into)
	require.Equal(t, harness.RunID(0), out.Splices[1].Into)
	require.Equal(t, upTo5(out.Splices[1].ShrinkLen+apart), out.Splices[1].Shift)

	s = build(20)
	_, ps = All(s.H, s.Ways, s.C)
	require.Equal(t, []string{"splices-together"}, slugs(ps))
	require.Equal(t, source.Advice, ps[0].Level)
	require.Contains(t, ps[0].Detail, "along: {run: [a, b], distance: ")

	s.H.Runs[0].Flexes = true
	out, ps = All(s.H, s.Ways, s.C)
	require.Empty(t, ps)
	require.Equal(t, harness.RunID(harness.None), out.Splices[1].Into)
}

// cranked is a starter on a cable of 25 mm2 and an engine strap of a size, with 180 A in both.
func cranked(size unit.Gauge) *shed.Shed {
	s := shed.New()
	s.Part("BAT", harness.Battery)
	s.Part("ST", harness.Starter)
	s.Part("ES", harness.Strap)
	s.Wire(s.At("BAT", "+"), s.At("ST", "30"), shed.MM2("25"), 500)
	s.H.Parts[s.Parts["ES"]].Size = size
	s.H.Elements = []harness.Element{
		{ID: 0, Part: s.Parts["ST"], Kind: harness.Load, A: s.At("ST", "30"), B: s.At("ST", "case")},
		{ID: 1, Part: s.Parts["ES"], Kind: harness.Resistance, A: s.At("ES", "1"), B: harness.Chassis},
	}
	s.H.Parts[s.Parts["ST"]].Elements, s.H.Parts[s.Parts["ES"]].Elements = []harness.ElementID{0}, []harness.ElementID{1}
	s.H.States = []harness.State{{Name: "cranking", Engine: harness.EngineCranking}}
	s.C.States = []network.State{{Name: "cranking", Amps: []float64{180, -180}, Volts: make([]float64, len(s.H.Terminals))}}
	return s
}

// An engine strap carries what the starter's cable carries; common practice, no source.
func TestEngineStrap(t *testing.T) {
	for _, c := range []struct {
		size unit.Gauge
		slug []string
	}{
		{shed.MM2("25"), nil}, {shed.MM2("35"), nil}, {shed.MM2("10"), []string{"strap-too-thin"}}, {unit.Gauge{}, []string{"strap-size-unknown"}},
	} {
		s := cranked(c.size)
		_, ps := All(s.H, s.Ways, s.C)
		require.Equal(t, c.slug, slugs(ps), c.size.String())
	}
	s := cranked(shed.MM2("10"))
	s.C.States[0].Amps[1] = 20
	_, ps := All(s.H, s.Ways, s.C)
	require.Empty(t, ps, "a strap that something else cranks past")
	s = cranked(shed.MM2("10"))
	for i := range s.C.Wires {
		s.C.Wires[i].Least = shed.MM2("10")
	}
	_, ps = All(s.H, s.Ways, s.C)
	require.Empty(t, ps, "a cable that is bought thicker than it needs asks no more of the strap")
}

// Battery posts and power studs are stacked like grounds, the heaviest at the bottom (common practice, no
// source); an insert of lead
// in a battery takes 8 N·m with M8 by its makers' guides, a brass stud 6, a clamp on a lead post 5 to 8.
func TestStacksOnStuds(t *testing.T) {
	s := shed.New()
	s.Part("BAT", harness.Battery).Stud = "M8"
	s.Part("ISO", harness.Isolator)
	for i, size := range []string{"1", "35", "6"} {
		s.Wire(s.At("BAT", "+"), s.At("ISO", fmt.Sprint(i)), shed.MM2(size), 500)
	}
	out, _ := All(s.H, s.Ways, s.C)
	require.Equal(t, []fitted.Stack{{Terminal: s.At("BAT", "+"), Stud: "M8", Rings: []harness.WireID{1, 2, 0}, Least: 8, Most: 8, On: "battery insert of lead"}}, out.Stacks)
	s.H.Parts[s.H.Terminals[s.At("BAT", "+")].Part].Stud = ""
	out, _ = All(s.H, s.Ways, s.C)
	require.Equal(t, "lead post and clamp", out.Stacks[0].On)
	s.H.Parts[s.H.Terminals[s.At("BAT", "+")].Part].Kind = harness.Starter
	out, _ = All(s.H, s.Ways, s.C)
	require.Equal(t, [2]float64{9, 15}, [2]float64{out.Stacks[0].Least, out.Stacks[0].Most}, "workshop manuals")
	s.H.Terminals[s.At("BAT", "+")].Name = "case"
	out, _ = All(s.H, s.Ways, s.C)
	require.Zero(t, out.Stacks[0].Most, "into the engine's own metal: no list has it")
	s.H.Parts[s.H.Terminals[s.At("BAT", "+")].Part].Kind = harness.Bus
	s.H.Parts[s.H.Terminals[s.At("BAT", "+")].Part].Stud = "M8"
	out, _ = All(s.H, s.Ways, s.C)
	require.Equal(t, [2]any{"brass stud", 6.0}, [2]any{out.Stacks[0].On, out.Stacks[0].Most})
}

// FAA AC 43.13-1B: supports at most 24 in apart (11-96a), 3/8 in clear of metal or a
// grommet (11-115); a quarter over the bundle for the cover (11-249).
func TestEdgesOfARun(t *testing.T) {
	s := looms(7, 2)
	s.H.Places[0].Zone, s.H.Places[1].Zone = "engine", "cabin"
	s.H.Runs[0].Cover, s.H.Runs[0].Length = "conduit", 1300
	out, _ := All(s.H, s.Ways, s.C)
	r := out.Runs[0]
	require.Equal(t, unit.Millimetre(8), r.Cover, "6 mm and a quarter")
	require.Equal(t, unit.Millimetre(11), r.Grommet, "over a wall of 1.5 mm; common practice, no source")
	require.Equal(t, unit.Millimetre(31), r.Clear, "11 mm and twice 9.525")
	require.True(t, r.Wall)
	require.Equal(t, 2, r.Clamps, "1.3 m in pieces of 610 mm at most")
	require.NotEmpty(t, r.Boot)
	tube, ok := rating.ShrinkFor("", r.Outside, r.Diameter)
	require.True(t, ok)
	require.Equal(t, tube.Name(false), r.Boot, "NASA-STD-8739.4 9.8.1: passes the cover, grips the bundle")

	s.H.Runs[0].Cover = "Tape"
	out, _ = All(s.H, s.Ways, s.C)
	require.Zero(t, out.Runs[0].Cover, "tape has no bore")
	require.Equal(t, out.Runs[0].Diameter+1, out.Runs[0].Outside, "two layers of half a millimetre; common practice, no source")

	s.H.Places[1].Zone, s.H.Runs[0].Cover, s.H.Runs[0].Length = "Engine", "", 600
	out, _ = All(s.H, s.Ways, s.C)
	require.False(t, out.Runs[0].Wall)
	require.Empty(t, out.Runs[0].Boot)
	require.Zero(t, out.Runs[0].Clamps)
	require.Equal(t, out.Runs[0].Diameter, out.Runs[0].Outside)
}

// A splice at a place stays clear of those along the run that it moves into, and one along a run that is
// written too near what stays at the place is advised on.
func TestSplicesAtAPlaceAndAlongItsRun(t *testing.T) {
	build := func(distance unit.Millimetre) (fitted.Fitted, source.Problems) {
		s := spliced(distance)
		for _, ref := range []string{"T1", "T2"} {
			s.Part(ref, harness.Splice).Place = 0
			for range 2 {
				w := s.Wire(s.At("K1", fmt.Sprint(len(s.H.Wires))), s.At(ref, ""), shed.MM2("1"), 500)
				s.Ways[w].Shares = []route.Share{{Run: 0, Length: 900}}
			}
		}
		return All(s.H, s.Ways, s.C)
	}
	out, ps := build(400)
	require.Empty(t, ps, "far away")
	clear := between(&out.Splices[1], &out.Splices[2])
	require.Equal(t, clear, out.Splices[2].Shift)

	out, ps = build(clear + 20)
	require.Equal(t, 2*clear+20, out.Splices[2].Shift, "T2 passes S1, which leaves it no room")
	require.Equal(t, []string{"splices-together"}, slugs(ps), "and lies out of the slack's reach")

	_, ps = build(20)
	require.Contains(t, slugs(ps), "splices-together")
	require.Contains(t, ps[0].Summary, "S1 lies 20 mm from Engine bay")
	require.Contains(t, ps[0].Detail, fmt.Sprintf("write it %.0f mm from Engine bay", float64(clear)))
}

// A wire with less than a quarter of the thickest one's copper is folded back, and counts twice in the barrel's sum:
// common practice, no source, the quarter and the fold both. That areas add up is NASA-STD-8739.4 change 6, 19.11.
func TestAThinWireBesideAThickOneIsFolded(t *testing.T) {
	for _, c := range []struct {
		thin, thick string
		folded      bool
		sum         unit.SquareMillimetre
	}{
		{"0.5", "2", false, 2.5}, // a quarter still holds
		{"0.5", "2.5", true, 3.5},
	} {
		s := shed.New()
		s.Part("S1", harness.Splice)
		s.Part("K1", harness.Relay)
		s.Wire(s.At("K1", "30"), s.At("S1", ""), shed.MM2(c.thin), 500)
		s.Wire(s.At("S1", ""), s.At("K1", "87"), shed.MM2(c.thick), 500)
		out, _ := All(s.H, s.Ways, s.C)
		require.Equal(t, c.sum, out.Splices[0].AreaSum)
		require.Equal(t, c.folded, out.Ends[0][1].Folded)
		require.False(t, out.Ends[0][0].Folded, "the end on the relay")
		require.False(t, out.Ends[1][0].Folded, "the thick wire")
		bared, _ := rating.Strip("barrel", 0.5)
		if c.folded {
			bared *= 2
		}
		require.Equal(t, bared, out.Ends[0][1].Strip)
	}
}

// 17 NYCRR 720.6(b): battery cables are not spliced; a wire behind a fuse, or of another class, may be.
func TestNoSpliceInABatteryCable(t *testing.T) {
	for _, c := range []struct {
		class, fuse string
		told        bool
	}{{"start", "", true}, {"start", "F1", false}, {"default", "", false}} {
		s := spliced(300)
		s.H.Circuits = []harness.Circuit{{Class: c.class}}
		for i := range s.C.Wires {
			s.H.Wires[i].Circuit, s.C.Wires[i].ProtectedBy = 0, c.fuse
		}
		_, ps := All(s.H, s.Ways, s.C)
		if !c.told {
			require.Empty(t, ps, c)
			continue
		}
		require.Equal(t, []string{"battery-cable-spliced"}, slugs(ps))
		require.Equal(t, source.Warning, ps[0].Level)
	}
}
