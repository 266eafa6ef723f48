package fit

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit/buying"
	"example.com/loomfolio/sizing/fit/reel"
	"example.com/loomfolio/sizing/fit/shed"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Four metres that the shelf holds, or that one bought length just holds: the spare of a tenth alone is not worth another.
func TestNothingIsBoughtForTheSpareAlone(t *testing.T) {
	s := looms(4, 2)
	s.H.Practice.Insulation = "thin-wall-125"
	s.H.Practice.Sold = []unit.Millimetre{4000}
	bk := colour.Choice{Pair: colour.Pair{Base: "BK"}}
	colours := []colour.Choice{bk, bk, bk, bk}
	r := reel.All(s.H, s.Ways, s.C.Wires, colours, nil)[0]
	require.Equal(t, unit.Millimetre(4000), r.Need)
	require.Equal(t, []unit.Millimetre{4000, 4000}, []unit.Millimetre{r.Buy, r.Bound})
	require.Len(t, r.Cuts, 1)
	s.H.Practice.Stock = []harness.Stock{{Gauge: shed.MM2("1"), Colours: []harness.StockColour{{Base: "BK", Left: []unit.Millimetre{4100}}}}}
	r = reel.All(s.H, s.Ways, s.C.Wires, colours, nil)[0]
	require.Zero(t, r.Buy)
	require.True(t, r.Cuts[0].Shelf)
	require.Len(t, r.Cuts[0].Wires, 4)
}

// What is left on the shelf is cut first, and only as much is bought as is lacking;
// reels come in the lengths that the practice names.
func TestReelsFromTheShelf(t *testing.T) {
	s := looms(4, 2)
	s.H.Practice.Insulation = "thin-wall-125"
	s.H.Practice.Sold = []unit.Millimetre{2500, 10000}
	bk := colour.Choice{Pair: colour.Pair{Base: "BK"}}
	colours := []colour.Choice{bk, bk, bk, bk}
	r := reel.All(s.H, s.Ways, s.C.Wires, colours, nil)[0]
	require.Equal(t, unit.Millimetre(5000), r.Buy, "4 m and the spare of 0.4 m in reels of 2.5 m")
	require.Equal(t, r.Buy, r.Bound)

	s.H.Practice.Stock = []harness.Stock{{Gauge: shed.MM2("1"), Colours: []harness.StockColour{{Base: "BK", Left: []unit.Millimetre{2100, 300}}}}}
	r = reel.All(s.H, s.Ways, s.C.Wires, colours, nil)[0]
	require.Equal(t, unit.Millimetre(2500), r.Buy)
	require.True(t, r.Cuts[0].Shelf)
	require.Len(t, r.Cuts[0].Wires, 2)
	cut, over := unit.Millimetre(0), unit.Millimetre(0)
	for _, c := range r.Cuts {
		cut += c.Whole
		over += c.Over
	}
	require.InDelta(t, float64(r.Need), float64(cut-over), 1e-6)

	s.Ways[2].Length = 11000
	r = reel.All(s.H, s.Ways, s.C.Wires, colours, nil)[0]
	require.Equal(t, []harness.WireID{2}, r.TooLong)
}

// A foot has 304.8 mm, a quarter of an inch 6.35: ten feet in such lengths and a tenth to
// spare come out of eleven feet to the hair, and nothing is bought.
func TestReelsOfQuarterInches(t *testing.T) {
	s := looms(3, 2)
	s.H.Sheet.Imperial, s.H.Practice.Insulation, s.H.Practice.Spare = true, "thin-wall-125", 0.1
	s.Ways[0].Length, s.Ways[1].Length, s.Ways[2].Length = 1657.35, 695.325, 695.325
	s.H.Practice.Stock = []harness.Stock{{Gauge: shed.MM2("1"), Colours: []harness.StockColour{{Base: "BK", Left: []unit.Millimetre{3352.8}}}}}
	bk := colour.Choice{Pair: colour.Pair{Base: "BK"}}
	r := reel.All(s.H, s.Ways, s.C.Wires, []colour.Choice{bk, bk, bk}, nil)[0]
	require.Zero(t, r.Buy)
	require.Len(t, r.Cuts, 1)
	require.InDelta(t, 304.8, float64(r.Cuts[0].Over), 1e-9)
}

// What is built is listed, and neither cut nor bought again.
func TestReelsLeaveOutWhatIsBuilt(t *testing.T) {
	s := looms(4, 2)
	bk := colour.Choice{Pair: colour.Pair{Base: "BK"}}
	colours := []colour.Choice{bk, bk, bk, bk}
	all := reel.All(s.H, s.Ways, s.C.Wires, colours, nil)[0]
	r := reel.All(s.H, s.Ways, s.C.Wires, colours, []harness.KeptState{harness.Built, harness.Planned, harness.Built, ""})[0]
	require.ElementsMatch(t, all.Wires, r.Wires)
	require.Equal(t, []harness.WireID{0, 2}, r.Wires[2:], "what is built stands last")
	require.Equal(t, 2, r.ToCut())
	require.Equal(t, all.Need/2, r.Need)
	require.Less(t, r.Buy, all.Buy)
	for _, c := range r.Cuts {
		require.NotContains(t, c.Wires, harness.WireID(0))
	}
	built := harness.Built
	r = reel.All(s.H, s.Ways, s.C.Wires, colours, []harness.KeptState{built, built, built, built})[0]
	require.Empty(t, r.Cuts)
	require.Zero(t, r.Buy)
}

// TestCopperAndPriceByHand: 3 wires of 2.5 m and 2 mm² hold 7.5 m; copper weighs
// 8.89 g a cm³ (IEC 60028 at 20 °C), so 2 mm² weigh 17.78 g a metre, 133.35 g in
// all. With a tenth to spare 8.25 m are bought as 9 m, at 0.55 a metre 4.95.
func TestCopperAndPriceByHand(t *testing.T) {
	s := shed.New()
	s.Part("K1", harness.Relay)
	s.Part("G1", harness.Ground)
	for range 3 {
		s.Wire(s.At("K1", "87"), s.At("G1", ""), shed.MM2("2"), 2500)
	}
	s.H.Practice.Spare = 0.1
	s.H.Practice.Prices = []harness.Price{{Item: "wire", Gauge: shed.MM2("2"), Each: 0.55}}
	reels := reel.All(s.H, s.Ways, s.C.Wires, nil, nil)
	require.Len(t, reels, 1)
	require.InDelta(t, 133.35, float64(reels[0].Copper), 1e-6)
	out, _ := All(s.H, s.Ways, s.C)
	wire := buying.List(s.H, s.C, out, reels, nil, nil)[0]
	require.InDelta(t, 9, wire.Buy, 1e-9)
	require.InDelta(t, 4.95, wire.Sum, 1e-9)
}
