package practice_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/check/practice"
	"example.com/loomfolio/sizing/check/say"
	"example.com/loomfolio/sizing/describe"
	text "example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

var metric = harness.Sheet{Paper: "A4", Gauge: unit.Metric}

// read gives the practice of what is written under practice:, which must be right.
func read(t *testing.T, written string, sheet harness.Sheet) harness.Practice {
	t.Helper()
	if written != "" {
		written = "practice:\n" + written
	}
	d, problems := describe.Parse("test.yaml", []byte("loomfolio: 1\ntitle: Practice\nsystem: {volts: 12}\n"+written+
		"parts: {BAT: {kind: battery}, L1: {kind: lamp, draws: 5 W}}\ncircuits: {one: {legs: [[BAT.+, L1, BAT.-]]}}\n"))
	require.Empty(t, problems)
	p, found := practice.Of(d.Practice, sheet)
	require.Empty(t, found)
	return p
}

// The practice that holds where nothing is said: 50 mm and 5 % of slack up to the next 5 mm, on an imperial sheet 2 in and
// quarters of an inch (common practice, no source); 3 % and the like by rating.DropLimits; fuses loaded to 75 % (a fuse
// maker's general text); a tenth of spare wire (common practice, no source).
func TestWhatHoldsWhereNothingIsSaid(t *testing.T) {
	p := read(t, "", metric)
	require.Equal(t, [2]unit.Millimetre{50, 5}, [2]unit.Millimetre{p.EachEnd, p.RoundUp})
	require.Equal(t, [3]unit.Fraction{0.05, 0.75, 0.10}, [3]unit.Fraction{p.Dress, p.FuseLoad, p.Spare})
	require.Equal(t, unit.Ampere(3), p.LeastFuse)
	require.Equal(t, [7]string{"thin-wall-125", "computed", "computed", "ul-486a", "BK", "RD", "change"},
		[7]string{p.Insulation, p.Method, p.Ampacity, p.Pull, p.GroundColour, p.FeedColour, p.ColourChange})
	require.Empty(t, p.Conventions)
	require.False(t, p.Insist)

	p = read(t, "", harness.Sheet{Paper: "letter", Imperial: true})
	require.InDelta(t, 2*25.4, float64(p.EachEnd), 1e-9)
	require.InDelta(t, 25.4/4, float64(p.RoundUp), 1e-9)
	require.InDelta(t, 1.625*25.4, float64(p.Labels.Length), 1e-9)
}

// Few is bought where nothing is said; a limit that nothing is said of holds nothing back.
func TestWhatIsBought(t *testing.T) {
	p := read(t, "", metric)
	require.Equal(t, harness.Buy{For: "few", Parts: -1, Runs: -1}, p.Buy)
	require.Equal(t, harness.Apart{Near: 2, Runs: "sleeve"}, p.Apart)
	require.Empty(t, p.Tools)
	require.Empty(t, p.Minutes)

	p = read(t, `  buy: {sizes: 6, reels: 30, pairs: 0, copper: 100 g}
  tell-apart: {panels: all, runs: colour, branchings: true}
  tools: [lugs, red-blue-yellow]
  minutes: {crimp: 0.7}
`, metric)
	p.Buy.Span = source.Span{}
	require.Equal(t, harness.Buy{For: "few", Sizes: 6, Reels: 30, Runs: -1, ReelMass: 100}, p.Buy)
	require.Equal(t, harness.Apart{Runs: "colour", Branchings: true}, p.Apart)
	require.Equal(t, []string{"lugs", "red-blue-yellow"}, p.Tools)
	require.Equal(t, map[string]float64{"crimp": 0.7}, p.Minutes)

	p = read(t, "  buy: clear\n", metric)
	require.False(t, p.Buy.Fewest())
	require.True(t, p.Buy.Span.Known())
	require.False(t, (&harness.Practice{}).Buy.Fewest(), "a harness without a description")
}

// What is said holds in the place of it.
func TestWhatIsSaid(t *testing.T) {
	p := read(t, `  drop: {default: 2 %}
  slack: {each-end: 80 mm, dress: 8 %, round-up: 10 mm}
  fuse-load: 60 %
  fuses: {smallest: 5 A, stock: [5 A, 7.5 A]}
  spare: 20 %
  pull: abyc-e11
  stock: {16 awg: {RD: [], BK/WH: [3 m, 2.5 m]}}
  wire-types: {reel: {class: 90 C, sizes: [{size: 16 awg, area: 1.31 mm2, diameter: 2.5 mm, resistance: 14 mohm/m}]}}
  insulation: reel
`, metric)
	require.InDelta(t, 0.02, float64(p.Drop["default"].Fraction), 1e-12)
	require.Equal(t, [2]unit.Millimetre{80, 10}, [2]unit.Millimetre{p.EachEnd, p.RoundUp})
	require.Equal(t, [3]unit.Fraction{0.08, 0.60, 0.20}, [3]unit.Fraction{p.Dress, p.FuseLoad, p.Spare})
	require.Equal(t, []unit.Ampere{5, 5, 7.5}, append([]unit.Ampere{p.LeastFuse}, p.FuseStock...))
	require.Equal(t, [2]string{"reel", "abyc-e11"}, [2]string{p.Insulation, p.Pull})
	require.Equal(t, []harness.StockColour{{Base: "RD"}, {Base: "BK", Tracer: "WH", Left: []unit.Millimetre{3000, 2500}}}, p.Stock[0].Colours)
	require.Equal(t, unit.Celsius(90), p.WireTypes[0].Class)
	require.InDelta(t, 0.014, float64(p.WireTypes[0].Sizes[0].Resistance), 1e-12)
	require.Equal(t, "reel", practice.Families(&p)[0])
}

// The words of a practice: a wire says its own or takes the practice's; what none has is reported where it stands.
func TestWordsOfAPractice(t *testing.T) {
	p := read(t, "  conventions: {winch: BU/WH}\n", metric)
	var r say.Report
	at := source.At(9, 1, 4)
	word := func(s string) text.Word { return text.Word{Text: s, Span: at} }
	require.Equal(t, "thin-wall-125", practice.Insulation(&r, &p, text.Word{}))
	require.Equal(t, "gxl", practice.Insulation(&r, &p, word("gxl")))
	require.Equal(t, "winch", practice.Function(&r, &p, word("winch")), "a function of its own conventions")
	base, tracer := practice.Colour(&r, word("OG/BK"))
	require.Equal(t, "OG/BK", base+"/"+tracer)
	require.Empty(t, r.Problems)

	practice.Insulation(&r, &p, word("gxll"))
	practice.Function(&r, &p, word("wynch"))
	base, tracer = practice.Colour(&r, word("XX"))
	require.Empty(t, base+tracer)
	var slugs []string
	for _, p := range r.Problems {
		slugs = append(slugs, p.Slug)
		require.Equal(t, at, p.Span)
	}
	require.Equal(t, []string{"unknown-insulation", "unknown-function", "unknown-colour"}, slugs)
}

// A name of seven letters needs 2.4 + 7 × 1.7 = 14.3 mm: measured on the embedded face.
func TestRoomForTheLongestName(t *testing.T) {
	sheet := harness.LabelSheet{Wide: 14.4}
	h := &harness.Harness{Wires: []harness.Wire{{Name: "1A"}, {Name: " WINCH-1 "}}}
	require.Empty(t, practice.LabelRoom(h), "no labels of the shop's")
	h.Practice.Labels.Sheet = &sheet
	require.Empty(t, practice.LabelRoom(h))
	sheet.Wide = 14.2
	require.Equal(t, "label-too-small", practice.LabelRoom(h)[0].Slug)
}

// The shop's cables: the sizes of all cores, of some, or of the published order (ISO 1724 prints 1.5 mm², and 2.5 for the
// common return); each is a reel of its own as well.
func TestCableTypes(t *testing.T) {
	p := read(t, `  cable-types:
    pair: {colours: [BN, BU/WH, BK], size: 1.5 mm2, sizes: {2: 2.5 mm2}, diameter: 8 mm, class: 90 C, core-diameter: 2.6 mm}
    data: {cores: 4, colours: din-47100, size: 0.25 mm2, diameter: 6 mm, class: 80 C, sheath: 1 mm, screened: true}
`, metric)
	pair, data := p.CableTypes[0], p.CableTypes[1]
	var cores []string
	for _, c := range append(pair.Cores, data.Cores...) {
		cores = append(cores, fmt.Sprintf("%s %s/%s %s", c.Mark, c.Base, c.Tracer, c.Size.Size))
	}
	require.Equal(t, []string{
		"1 BN/ 1.5", "2 BU/WH 2.5", "3 BK/ 1.5",
		"1 WH/ 0.25", "2 BN/ 0.25", "3 GN/ 0.25", "4 YE/ 0.25", // DIN 47100, two cable makers' pages
	}, cores)
	require.Equal(t, [2]unit.Millimetre{0.8, 1}, [2]unit.Millimetre{pair.Sheath, data.Sheath}, "0.8 mm: common practice, no source")
	require.True(t, data.Screened)
	require.Equal(t, "pair", p.WireTypes[0].Name)
	require.Equal(t, unit.Millimetre(2.6), p.WireTypes[0].Sizes[1].Diameter)
}
