package cost

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/shed"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// twoCircuits has a lamp and a horn behind one panel: two wires of 1 mm² for the lamp, 1 m and
// 3 m, one of 2.5 mm² of 2 m for the horn, on a reel each; the lamp's circuit comes first.
func twoCircuits() (*harness.Harness, *result.Result) {
	s := shed.New()
	for _, ref := range []string{"FP", "LA", "HO"} {
		s.Part(ref, harness.Relay)
	}
	lamp := s.Wire(s.At("FP", "1"), s.At("LA", "1"), shed.MM2("1"), 1000)
	back := s.Wire(s.At("LA", "2"), s.At("FP", "3"), shed.MM2("1"), 3000)
	horn := s.Wire(s.At("FP", "2"), s.At("HO", "1"), shed.MM2("2.5"), 2000)
	s.H.Circuits = []harness.Circuit{{Key: "lamp", Name: "Lamp"}, {Key: "horn", Name: "Horn"}}
	s.H.Wires[horn].Circuit = 1
	s.H.Places = []harness.Place{{Name: "Nose"}, {Name: "Tail"}}
	s.H.Runs = []harness.Run{{From: 0, To: 1, Length: 1500}}
	r := &result.Result{Ways: s.Ways, Wires: s.C.Wires, Ends: make([][2]fitted.End, 3)}
	for w := range r.Ends {
		r.Ends[w][0] = fitted.End{Wire: harness.WireID(w), Terminal: s.H.Wires[w].From, Fitting: "6.3 mm female spade", Crimp: "red insulated"}
		r.Ends[w][1] = fitted.End{Wire: harness.WireID(w), Terminal: s.H.Wires[w].To, Fitting: "contact", Crimp: "open barrel"}
	}
	r.Ends[horn][0].Crimp = "blue insulated"
	r.Fuses = []chosen.Fuse{{Name: "FP.1", Wires: []harness.WireID{lamp}}, {Name: "FP.2", Wires: []harness.WireID{horn}}}
	r.Runs = []fitted.Run{{Run: 0, Wires: []harness.WireID{lamp, back, horn}, CoverName: "conduit", Cover: 10, Diameter: 6}}
	r.Reels = []fitted.Reel{
		{Gauge: shed.MM2("1"), Insulation: "thin-wall-125", Base: "WH", Wires: []harness.WireID{back, lamp}, Need: 4000, Buy: 5000, Cuts: []fitted.Cut{{Whole: 5000, Wires: []harness.WireID{back, lamp}, Over: 1000}}},
		{Gauge: shed.MM2("2.5"), Insulation: "thin-wall-125", Base: "BK", Tracer: "RD", Wires: []harness.WireID{horn}, Need: 2000, Buy: 2000, Cuts: []fitted.Cut{{Whole: 2000, Wires: []harness.WireID{horn}}}},
	}
	r.Labels = make([]fitted.Label, 6)
	for i := range r.Labels {
		r.Labels[i].Kind = fitted.WireLabel
	}
	priced := func(it fitted.Item, sum float64) fitted.Item { it.Priced, it.Sum = true, sum; return it }
	r.Shopping = []fitted.Item{
		priced(fitted.Item{Group: "wire", What: r.Reels[0].Name(), Unit: "m", Count: 5, Buy: 5}, 4),
		priced(fitted.Item{Group: "wire", What: r.Reels[1].Name(), Unit: "m", Count: 2, Buy: 2}, 3),
		priced(fitted.Item{Group: "fuses", What: "fuse panel", Unit: "pcs", Count: 1, Buy: 1, Users: []fitted.User{{Name: "FP", Count: 1}}}, 12),
		priced(fitted.Item{Group: "fuses", What: "blade fuse 5 A", Unit: "pcs", Count: 4, Buy: 4, Users: []fitted.User{{Name: "FP.1", Count: 1}, {Name: "FP.2", Count: 1}}}, 2),
		priced(fitted.Item{Group: "terminals", What: "6.3 mm female spade, red insulated", Unit: "pcs", Count: 2, Buy: 10}, 1),
		{Group: "terminals", What: "6.3 mm female spade, blue insulated", Unit: "pcs", Count: 1, Buy: 10},
		{Group: "cover", What: "conduit, bore 10 mm", Unit: "m", Count: 1.5, Buy: 2, Users: []fitted.User{{Name: "Nose – Tail", Count: 1.5}}},
		{Group: "ties", What: "cable tie", Unit: "pcs", Count: 5, Buy: 100, Users: []fitted.User{{Name: "all runs", Count: 5}}},
		{Group: "markers", What: "wire marker", Unit: "pcs", Count: 6, Buy: 6},
	}
	return s.H, r
}

// Sums by hand. Copper: (4 m × 1 mm² + 2 m × 2.5 mm²) × 8.89 g/cm³ = 80.01 g. Insulation at 1.2 g/cm³:
// 1 mm² in thin wall is 2.1 mm over 1.3 mm of strands, π/4 × 2.72 mm² × 1.2 = 2.564 g/m; 2.5 mm² is 3.0
// over 2.1 mm, π/4 × 4.59 mm² × 1.2 = 4.326 g/m. Conduit of 10 mm: 23 g/m.
func TestSumsByHand(t *testing.T) {
	h, r := twoCircuits()
	c := Of(h, r)
	require.InDelta(t, 22, c.Money, 1e-9)
	require.True(t, c.Priced)
	require.Equal(t, 3, c.Unpriced, "blue spades, conduit, ties; markers come off the sheet of labels")
	require.InDelta(t, 7, c.Metres, 1e-9)
	require.Equal(t, 2, c.Reels)
	require.Equal(t, 1+4+20+100, c.Pieces)
	require.InDelta(t, 80.01, float64(c.Copper), 0.01)
	require.InDelta(t, 80.01+4*2.564+2*4.326, float64(c.Wire), 0.02)
	require.InDelta(t, 1.5*23, float64(c.Cover), 0.01)
	require.Equal(t, []string{"wire", "fuses", "terminals", "cover", "ties"}, names(c.Groups))
	require.Equal(t, purchase.Sum{Name: "fuses", Pieces: 5, Money: 14}, c.Groups[1])
	require.InDelta(t, float64(c.Wire), float64(c.Groups[0].Mass), 1e-9)
	require.InDelta(t, float64(c.Cover), float64(c.Groups[3].Mass), 1e-9)
}

// The lamp has two of three ends on the panel, and two of three wires in the run: 4 for its reel, 8 for
// the panel, 1 for its fuse and half of the spares, 1 for the spades.
func TestWhatServesSeveralIsShared(t *testing.T) {
	h, r := twoCircuits()
	c := Of(h, r)
	lamp, horn := c.Circuits[0], c.Circuits[1]
	require.Equal(t, []string{"Lamp", "Horn"}, names(c.Circuits))
	require.InDelta(t, 4+8+1+1, lamp.Money, 1e-9)
	require.InDelta(t, 3+4+1, horn.Money, 1e-9)
	require.InDelta(t, 5, lamp.Metres, 1e-9)
	require.InDelta(t, 2, horn.Metres, 1e-9)
	require.Equal(t, 79, lamp.Pieces, "2/3 of the panel, 2 fuses, 10 spades, 2/3 of 100 ties")
	require.Equal(t, 46, horn.Pieces)
	require.InDelta(t, 4*(8.89+2.564), float64(lamp.Mass), 0.01)
	require.InDelta(t, float64(c.Wire), float64(lamp.Mass+horn.Mass), 1e-9)
}

// A reel that serves two circuits is paid by the lengths that are cut from it.
func TestAReelIsSharedByLength(t *testing.T) {
	h, r := twoCircuits()
	h.Wires[0].Circuit = 1 // 1 m of the 4 m
	c := Of(h, r)
	require.InDelta(t, 5*0.75, c.Circuits[0].Metres, 1e-9)
	require.InDelta(t, 2+5*0.25, c.Circuits[1].Metres, 1e-9)
}

// Minutes by hand: 3 cuts of 0.7, 6 strips of 0.3, 3 crimps of 0.7, 3 contacts of 1.2, 6 markers of 0.8,
// 3 wires laid in 1.5 each, 5 ties of 0.4, 1.5 m of cover at 3, 3 tests of 0.5, 2 reels of 1.5.
func TestMinutesByHand(t *testing.T) {
	h, r := twoCircuits()
	c := Of(h, r)
	require.InDelta(t, 2.1+1.8+2.1+3.6+4.8+4.5+2+4.5+1.5+3, c.Minutes, 1e-9)
	require.InDelta(t, 0.3, c.Spread, 1e-9)
	own := map[string]float64{"crimp": 2, "lay": 0}
	h.Practice.Minutes = own
	given := Of(h, r)
	require.InDelta(t, c.Minutes+3*(2-0.7)-4.5, given.Minutes, 1e-9)
	for i, o := range given.Operation {
		if _, ok := own[o.Key]; ok {
			require.Equal(t, []string{"given", ""}, []string{o.Status, o.Source})
			continue
		}
		require.Equal(t, c.Operation[i], o)
		require.Equal(t, "common practice", o.Status)
		require.NotEmpty(t, o.Source)
	}
}

// The keys that the description takes are those of the table.
func TestOperationsAreThoseOfTheDescription(t *testing.T) {
	h, r := twoCircuits()
	var keys []string
	for _, o := range Of(h, r).Operation {
		keys = append(keys, o.Key)
	}
	require.Equal(t, harness.Operations(), keys)
}

// What is built takes no time and pays for nothing; its mass is still the loom's.
func TestBuiltWiresTakeNoTime(t *testing.T) {
	h, r := twoCircuits()
	whole := Of(h, r)
	r.Kept = []harness.KeptState{harness.Built, harness.Built, ""}
	r.Reels[0].Built, r.Reels[0].Buy, r.Reels[0].Cuts = 2, 0, nil
	r.Shopping, r.Labels = r.Shopping[1:4], r.Labels[:2]
	c := Of(h, r)
	require.InDelta(t, 0.7+0.6+0.7+1.2+1.6+1.5+4.5+0.5+1.5, c.Minutes, 1e-9)
	require.InDelta(t, 0, c.Circuits[0].Money, 1e-9)
	require.InDelta(t, 17, c.Circuits[1].Money, 1e-9)
	require.Equal(t, whole.Wire, c.Wire)
	r.Kept, r.Labels, r.Shopping = []harness.KeptState{harness.Built, harness.Built, harness.Built}, nil, nil
	r.Reels[1].Built = 1
	require.Zero(t, Of(h, r).Minutes)
}

func TestEndsTakeTheirOperation(t *testing.T) {
	for _, c := range []struct {
		end  fitted.End
		area unit.SquareMillimetre
		want string
	}{
		{fitted.End{Crimp: "yellow insulated"}, 4, "crimp"},
		{fitted.End{Crimp: "ferrule"}, 16, "crimp"},
		{fitted.End{Crimp: "open barrel"}, 1, "contact"},
		{fitted.End{Crimp: "battery lug", Shrink: "24/8 mm"}, 35, "lug"},
		{fitted.End{Crimp: "uninsulated butt", Shrink: "9/3 mm"}, 8, "lug"},
		{fitted.End{Crimp: fitted.Barrel}, 1, ""},
		{fitted.End{Crimp: "blue insulated", Second: true}, 1, ""},
		{fitted.End{Crimp: fitted.NoneFits}, 1, "crimp"},
		{fitted.End{}, 1, ""},
	} {
		require.Equal(t, c.want, joined(&c.end, c.area), c.end.Crimp)
	}
}

// A cable weighs its copper, and what else is in its round as PVC: 2 m of 10 mm across with two cores of
// 1.5 mm²: 2 × 3 × 8.89 g + 2 × (78.54 − 3) × 1.4 g.
func TestCablesAreWeighedWithTheirSheath(t *testing.T) {
	h, r := twoCircuits()
	kind := &harness.CableType{Diameter: 10, Cores: []harness.Core{{Size: shed.MM2("1.5")}, {Size: shed.MM2("1.5")}}}
	h.Units = []harness.Unit{{Kind: harness.Cabled, Type: kind, Wires: []harness.WireID{0, 1}}}
	r.Units = []fitted.Unit{{Length: 2000}}
	c := Of(h, r)
	require.InDelta(t, 2*3*8.89+2*(78.54-3)*1.4, float64(c.Cable), 0.01)
	require.InDelta(t, 4*8.89, float64(c.Cores), 0.01, "by its wires")
	require.InDelta(t, 5*8.89, float64(c.Copper), 0.01, "of what is on reels")
	require.InDelta(t, float64(c.Cable), float64(c.Circuits[0].Mass), 1e-9)
}

// A reel leaves what is over, rounded down to 10 mm, and nothing under 300 mm; the shelf keeps what no
// cut begins, and colours that nobody has measured.
func TestLeft(t *testing.T) {
	h, r := twoCircuits()
	h.Practice.Insulation = "thin-wall-125"
	h.Practice.Stock = []harness.Stock{
		{Gauge: shed.MM2("2.5"), Colours: []harness.StockColour{{Base: "BK", Tracer: "RD", Left: []unit.Millimetre{4000, 700, 2000}}}},
		{Gauge: shed.MM2("1"), Colours: []harness.StockColour{{Base: "YE"}, {Base: "WH"}}},
	}
	r.Reels[0].Cuts[0].Over = 1009.9
	r.Reels[1].Cuts = []fitted.Cut{{Whole: 2000, Shelf: true, Over: 299}, {Whole: 4000, Shelf: true, Over: 2000}}
	require.Equal(t, []purchase.Left{
		{Gauge: shed.MM2("1"), Insulation: "thin-wall-125", Base: "WH", Lengths: []unit.Millimetre{1000}},
		{Gauge: shed.MM2("1"), Insulation: "thin-wall-125", Base: "YE"},
		{Gauge: shed.MM2("2.5"), Insulation: "thin-wall-125", Base: "BK", Tracer: "RD", Lengths: []unit.Millimetre{2000, 700}},
	}, Left(h, r))
	h.Sheet.Imperial = true
	require.InDelta(t, 39*25.4, float64(Left(h, r)[0].Lengths[0]), 1e-9, "39 in of 39.76 in")
}

func names(list []purchase.Sum) []string {
	var out []string
	for _, s := range list {
		out = append(out, s.Name)
	}
	return out
}
