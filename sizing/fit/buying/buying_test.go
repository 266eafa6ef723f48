package buying

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

func priced(imperial bool, prices ...harness.Price) *harness.Harness {
	return &harness.Harness{
		Sheet:    harness.Sheet{Imperial: imperial},
		Practice: harness.Practice{Prices: prices, Packs: map[string]float64{"washers": 25}},
	}
}

// TestPacksAndPrices: whole packs are bought and paid; the closest price counts, and
// one that nothing takes is told of.
func TestPacksAndPrices(t *testing.T) {
	h := priced(false,
		harness.Price{Item: "terminals", Each: 0.25}, harness.Price{Item: "M6 ring, blue insulated, 1.5-2.5 mm2", Each: 0.4},
		harness.Price{Item: "wire", Each: 1}, harness.Price{Item: "wire", Gauge: mm2("0.5"), Each: 0.3},
		harness.Price{Item: "shrink", Each: 2}, harness.Price{Item: "fuses", Each: 0.4}, harness.Price{Item: "fusess", Each: 1}, harness.Price{Item: "wire", Gauge: mm2("95"), Each: 9})
	b := &basket{h: h, items: []fitted.Item{
		{Group: "terminals", What: "6.3 mm female spade", Count: 12, Unit: "pcs"},
		{Group: "terminals", What: "M6 ring, blue insulated, 1.5-2.5 mm²", Count: 10, Unit: "pcs"},
		{Group: "wire", What: "a", Gauge: mm2("0.5"), Count: 12, Unit: "m"},
		{Group: "wire", What: "b", Gauge: mm2("2.5"), Count: 3, Unit: "m"},
		{Group: "shrink", What: "6/2 mm", Count: 1.3, Unit: "m"},
		{Group: "washers", What: "star washer M6", Count: 3, Unit: "pcs"},
		{Group: "fuses", What: "blade fuse 10 A, red", Count: 3, Unit: "pcs"},
		{Group: "fuses", What: "holder for one blade fuse, with leads", Count: 1, Unit: "pcs"},
		{Group: "terminals", What: "M8 ring, battery lug, 35 mm²", Count: 2, Unit: "pcs"},
	}}
	b.packed()
	buy, sum := []float64{20, 10, 12, 3, 2.4, 25, 3, 1, 2}, []float64{5, 4, 3.6, 3, 4.8, 0, 1.2, 0, 0.5}
	for i, it := range b.items {
		require.InDelta(t, buy[i], it.Buy, 1e-9, it.What)
		require.InDelta(t, sum[i], it.Sum, 1e-9, it.What)
		require.Equal(t, sum[i] > 0, it.Priced, it.What)
	}
	unused := Unused(h, b.items)
	require.Len(t, unused, 2)
	require.Contains(t, unused[0].Summary, `"fusess"`)
	require.Contains(t, unused[0].Detail, `"fuses"`)
	require.Contains(t, unused[1].Summary, "95 mm²")
}

// TestAPriceByTheFoot where the sheet is in inches.
func TestAPriceByTheFoot(t *testing.T) {
	b := &basket{h: priced(true, harness.Price{Item: "wire", Each: 0.5}), items: []fitted.Item{{Group: "wire", Count: 3.048, Unit: "m"}}}
	b.packed()
	require.InDelta(t, 5, b.items[0].Sum, 1e-9)
}

// TestClampsAndTies: FAA AC 43.13-1B, 11-96a: supports no more than 24 in apart;
// 11-158b: ties where they stand more than 12 in apart. A run of 72 in has four
// clamps and, one every foot, six ties; a splice is tied on both sides (NASA workmanship
// guidance 4.07). A clamp goes round the cover, not the bundle.
func TestClampsAndTies(t *testing.T) {
	h := priced(true)
	h.Places = []harness.Place{{Name: "nose"}, {Name: "tail"}}
	h.Runs = []harness.Run{{From: 0, To: 1, Length: 72 * 25.4}, {From: 0, To: 1, Length: 900}}
	b := &basket{h: h, at: map[[2]string]int{}, kept: []harness.KeptState{"", harness.Built}}
	b.support(&fitted.Fitted{Runs: []fitted.Run{{Run: 0, Wires: []harness.WireID{0}, Diameter: 7.2, CoverName: "conduit", Cover: 9, Outside: 12}, {Run: 1, Wires: []harness.WireID{1}, Diameter: 7.2, Outside: 7.2}},
		Splices: []fitted.Splice{{Wires: []harness.WireID{0, 1}}, {Wires: []harness.WireID{1}}}})
	require.Len(t, b.items, 2)
	require.InDelta(t, 4, b.items[0].Count, 0)
	require.Equal(t, "cushioned clamp for a bundle of 9/16 in", b.items[0].What, "13 mm is the least that holds 12")
	require.InDelta(t, 8, b.items[1].Count, 0)
}

func mm2(size string) unit.Gauge { return unit.Gauge{System: unit.Metric, Size: size} }

// TestTape: half of a 19 mm tape lies on the turn before, so that each turn gains
// 9.5 mm: 1 m of a loom 10 mm across takes 105.3 turns of 31.4 mm, 3.31 m.
func TestTape(t *testing.T) {
	require.InDelta(t, 3307, float64(tape(10, 1000)), 1)
}

// What is not rated is bought under its plain name; the shop's number stays.
func TestUnrated(t *testing.T) {
	require.Equal(t, "switch, No. 8", unrated("switch, at least 20 A, No. 8"))
}

// Names of fuses by body, rating and the colour that goes with it.
func TestFuseItems(t *testing.T) {
	require.Equal(t, "maxi fuse 40 A, orange", fuseItem("maxi", 40), "DIN 72581-3, a published extract")
	require.Equal(t, "maxi fuse 25 A", fuseItem("maxi", 25), "no agreed colour: the number alone")
}

// A cable is bought by the whole metre (foot) with the practice's spare, sheath and all; what is built is not.
func TestCablesAreBoughtByTheMetre(t *testing.T) {
	tow := &harness.CableType{
		Name: "tow", Diameter: 9, Screened: true,
		Cores: []harness.Core{{Mark: "1 (L)", Size: mm2("1.5"), Base: "YE"}, {Mark: "2", Size: mm2("2.5"), Base: "WH", Tracer: "BU"}, {Mark: "3", Size: mm2("1.5")}},
	}
	require.Equal(t, "tow, 3 cores 1.5 mm² and 2.5 mm², 9 mm across, screened", fitted.CableName(tow, false))
	require.Equal(t, "tow, 3 cores 1.5 mm² and 2.5 mm², 0.35 in across, screened", fitted.CableName(tow, true))
	require.Equal(t, []string{"1 (L) YE", "2 WH/BU"}, []string{fitted.CoreName(&tow.Cores[0]), fitted.CoreName(&tow.Cores[1])})

	h := &harness.Harness{Practice: harness.Practice{Spare: 0.1, CableTypes: []harness.CableType{*tow, {Name: "unused"}}}, Wires: make([]harness.Wire, 3)}
	for i := range 3 {
		h.Units = append(h.Units, harness.Unit{ID: harness.UnitID(i), Kind: harness.Cabled, Name: string(rune('p' + i)), Type: tow, Wires: []harness.WireID{harness.WireID(i)}})
	}
	units := []fitted.Unit{{Unit: 0, Length: 3200}, {Unit: 1, Length: 1400}, {Unit: 2, Length: 900}}
	for _, c := range []struct {
		imperial  bool
		kept      []harness.KeptState
		need, buy unit.Millimetre
		built     int
	}{
		{false, nil, 5500, 7000, 0},                                        // 6.05 m up
		{true, nil, 5500, 20 * 304.8, 0},                                   // 19.85 ft up
		{false, []harness.KeptState{harness.Built, "", ""}, 2300, 3000, 1}, // 2.53 m up
	} {
		h.Sheet.Imperial = c.imperial
		got := Cables(h, units, c.kept)
		require.Len(t, got, 1)
		require.Equal(t, c.need, got[0].Need)
		require.InDelta(t, float64(c.buy), float64(got[0].Buy), 1e-9)
		require.Equal(t, [2]int{c.built, 3 - c.built}, [2]int{got[0].Built, got[0].ToCut()})
	}
}

// A screen is bought for the wires that it goes over, its wall apart.
func TestScreensAreBoughtForTheirWires(t *testing.T) {
	h := &harness.Harness{Practice: harness.Practice{ScreenWall: 0.8}}
	require.Equal(t, "screening braid with jacket, over wires of 3.2 mm", ScreenName(&fitted.Unit{Screen: "braid", Diameter: 4.8}, h))
	require.Equal(t, "screening foil with drain and jacket, over wires of 3.3 mm", ScreenName(&fitted.Unit{Screen: "foil", Diameter: 4.86}, h))
	open := fitted.Unit{Drains: []fitted.Drain{{End: 1}}}
	require.Equal(t, [2]bool{true, false}, [2]bool{open.Open(0), open.Open(1)}, "insulated where no drain is")
}
