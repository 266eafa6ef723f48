package check_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/record"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// wired prints every wire: name, ends.
func wired(h *harness.Harness) []string {
	var out []string
	for _, w := range h.Wires {
		out = append(out, fmt.Sprintf("%s %s > %s", w.Name, h.Terminals[w.From].Full, h.Terminals[w.To].Full))
	}
	return out
}

const workshop = `loomfolio: 1
title: Legs
system: {volts: 12}
places: {tray: {}, dash: {zone: Engine}}
runs: [{from: tray, to: dash, length: 1 m}]
parts:
  BAT: {kind: battery, at: tray}
  F1: {kind: fuse, at: tray}
  SW: {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}
  X1: {kind: connector, at: dash, cavities: 2}
  L1: {kind: lamp, at: dash, draws: 5 W}
  L2: {kind: lamp, at: dash, draws: 5 W}
  S1: {kind: splice, at: dash}
  G1: {kind: ground, at: dash}
  G2: {kind: ground, at: tray}
circuits:
`

// Neighbours on one part pass through it, on two parts they are joined by a wire; a bare name is passed from its
// first terminal to its second; feeds are A to M, returns N to Z, without I and O; circuits without a number take the
// first that is free.
func TestLegsBecomeWires(t *testing.T) {
	for _, c := range []struct {
		name, circuits string
		want           []string
	}{
		{"through everything", "  one: {legs: [[BAT.+, F1, SW, X1.1, L1, G1], [G2, BAT.-]]}\n",
			[]string{"1A BAT.+ > F1.1", "1B F1.2 > SW.1", "1C SW.2 > X1.1.in", "1D X1.1.out > L1.+", "1N L1.- > G1", "1P G2 > BAT.-"}},
		{"terminals named, and a splice where wires part", "  one: {legs: [[BAT.+, F1, SW.1, SW.2, S1, L1, G1], [S1, L2, G1], [G2, BAT.-]]}\n",
			[]string{"1A BAT.+ > F1.1", "1B F1.2 > SW.1", "1C SW.2 > S1", "1D S1 > L1.+", "1N L1.- > G1", "1E S1 > L2.+", "1P L2.- > G1", "1Q G2 > BAT.-"}},
		{"the return through a plug is still a return", "  one: {legs: [[BAT.+, F1, SW, L1, X1.2, G1], [G2, BAT.-]]}\n",
			[]string{"1A BAT.+ > F1.1", "1B F1.2 > SW.1", "1C SW.2 > L1.+", "1N L1.- > X1.2.in", "1P X1.2.out > G1", "1Q G2 > BAT.-"}},
		{"numbers given and not given", "  b: {legs: [[BAT.+, F1, SW, L1, G1]]}\n  a: {number: 1, legs: [[SW.2, L2, G1]]}\n  c: {legs: [[G2, BAT.-]]}\n",
			[]string{"2A BAT.+ > F1.1", "2B F1.2 > SW.1", "2C SW.2 > L1.+", "2N L1.- > G1", "1A SW.2 > L2.+", "1N L2.- > G1", "3N G2 > BAT.-"}},
		{"a name of its own is not given twice", "  one: {legs: [[BAT.+, {to: F1, wire: 1B}, {to: SW, wire: main}, L1, G1], [G2, BAT.-]]}\n",
			[]string{"1B BAT.+ > F1.1", "main F1.2 > SW.1", "1A SW.2 > L1.+", "1N L1.- > G1", "1P G2 > BAT.-"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			h, _ := checked(t, workshop+c.circuits)
			require.Equal(t, c.want, wired(h))
		})
	}
}

// More wires than letters: AA follows M, NN follows Z, and neither I nor O is ever in a name.
func TestLettersGoOn(t *testing.T) {
	text := strings.Replace(workshop, "circuits:\n", "  B: {kind: bus, at: dash}\ncircuits:\n  one: {legs: [[G2, BAT.-], [BAT.+, F1, B.in]", 1)
	for i := range 15 {
		text = strings.Replace(text, "  L1:", fmt.Sprintf("  M%d: {kind: lamp, at: dash, draws: 1 W}\n  L1:", i), 1)
		text += fmt.Sprintf(", [B.%d, M%d, G1]", i, i)
	}
	h, _ := checked(t, text+"]}\n")
	var names []string
	for _, w := range h.Wires {
		names = append(names, w.Name)
		require.NotRegexp(t, `[IO]`, w.Name)
	}
	require.Subset(t, names, []string{"1A", "1M", "1AA", "1AB", "1AC", "1AD", "1AE", "1N", "1Z", "1NN", "1NP", "1NQ", "1NR"})
	require.NotContains(t, names, "1AF")
}

// What a stop says goes to the wire that arrives there.
func TestAStopSpeaksOfTheWireThatArrives(t *testing.T) {
	h, _ := checked(t, workshop+"  one: {class: control, function: horn, legs: [[BAT.+, F1, {to: SW, length: 700 mm, gauge: 2.5 mm2, colour: OG/BK, insulation: thick-wall-105, found: BU}, {to: L1, via: [dash]}, G1], [G2, BAT.-]]}\n")
	w := h.Wires[1]
	require.Equal(t, unit.Millimetre(700), w.Length)
	require.Equal(t, unit.Gauge{System: unit.Metric, Size: "2.5"}, w.Gauge)
	require.Equal(t, [4]string{"OG", "BK", "thick-wall-105", "BU"}, [4]string{w.Base, w.Tracer, w.Insulation, w.Found.Base})
	require.Equal(t, "thin-wall-125", h.Wires[0].Insulation, "the practice's")
	require.Equal(t, []harness.PlaceID{1}, h.Wires[2].Via)
	require.Equal(t, [2]string{"control", "horn"}, [2]string{h.Circuits[0].Class, h.Circuits[0].Task})
}

// Where nothing is said places are as 33 CFR 183.425 table 5 has them, engine 50 °C, else 30 °C, a system of 12 V runs at 14.2
// (from memory), and a sheet is A4 with gauges in mm², SAE where it is imperial.
func TestWhatHoldsWhereNothingIsSaid(t *testing.T) {
	const legs = "  one: {legs: [[BAT.+, F1, L1, G1], [G2, BAT.-]]}\n"
	h, _ := checked(t, workshop+legs)
	require.Equal(t, [2]unit.Celsius{30, 50}, [2]unit.Celsius{h.Places[0].Ambient, h.Places[1].Ambient}, "a zone in any capitals")
	require.Zero(t, h.Places[0].Lies, "no side is claimed")
	require.InDelta(t, 14.2, float64(h.System.Running), 1e-9)
	require.Equal(t, "painted", h.Parts[7].Surface, "the careful guess")
	require.Equal(t, [2]any{"A4", unit.Metric}, [2]any{h.Sheet.Paper, h.Sheet.Gauge})

	h, _ = checked(t, strings.Replace(workshop, "system:", "sheet: {units: imperial}\nsystem:", 1)+legs)
	require.InDelta(t, 2*25.4, float64(h.Practice.EachEnd), 1e-9, "the practice is told of the sheet")
	require.Equal(t, unit.SAE, h.Sheet.Gauge)

	h, _ = checked(t, strings.Replace(workshop, "system: {volts: 12}", "sheet: {gauge: awg, paper: letter}\nsystem: {volts: 24, running: 27 V, earth: positive}", 1)+strings.NewReplacer("BAT.+", "BAT.-", "BAT.-", "BAT.+").Replace(legs))
	require.Equal(t, [2]any{"letter", unit.AWG}, [2]any{h.Sheet.Paper, h.Sheet.Gauge})
	require.Equal(t, "1P BAT.+ > G2", wired(h)[3], "the earthed side is plus")
}

// kept takes a description through against a record.
func kept(t *testing.T, text, lines string) (*harness.Harness, source.Problems) {
	t.Helper()
	r, problems := record.Parse(source.NewFile("test.built.txt", []byte("loomfolio record 1\ntitle Legs\n\n"+lines)))
	require.Empty(t, problems)
	d, problems := describe.Parse("test.yaml", []byte(text))
	require.Empty(t, problems)
	h, found := check.Against(d, &r)
	require.NotNil(t, h, "%v", found)
	return h, found
}

// What the record holds stands beside the wire or fuse; a built wire keeps its insulation, a planned one takes the
// practice's; one that was given up comes back as planned, without its length; names stay, and those of wires that are gone
// are not given again.
func TestWhatIsKept(t *testing.T) {
	h, _ := kept(t, workshop+"  one: {legs: [[BAT.+, F1, SW, L1, G1], [G2, BAT.-]]}\n", `wire one BAT.+ -> F1.1   built    1C   4 mm2  thick-wall-105  RD  310 mm
wire one F1.2 -> SW.1    planned  1A   1 mm2  thick-wall-105  RD  1200 mm
wire one SW.2 -> L1.+    retired  1D   1 mm2  thin-wall-125   BU  420 mm
wire one L9.- -> G9      built    1N   1 mm2  thin-wall-125   BK  100 mm
fuse F1                  built    10 A  blade
`)
	require.Equal(t, []string{"1C BAT.+ > F1.1", "1A F1.2 > SW.1", "1D SW.2 > L1.+", "1P L1.- > G1", "1Q G2 > BAT.-"}, wired(h))
	require.Equal(t, harness.Kept{
		State: harness.Built, Name: "1C", Gauge: unit.Gauge{System: unit.Metric, Size: "4"}, Insulation: "thick-wall-105", Base: "RD", Length: 310, Line: 4,
	}, h.Wires[0].Kept)
	require.Equal(t, [2]string{"thick-wall-105", "thin-wall-125"}, [2]string{h.Wires[0].Insulation, h.Wires[1].Insulation})
	require.Equal(t, harness.Planned, h.Wires[2].Kept.State)
	require.Zero(t, h.Wires[2].Kept.Length)
	require.Equal(t, "BU", h.Wires[2].Kept.Base)
	require.Empty(t, h.Wires[3].Kept.State, "its name is another wire's")
	for _, e := range h.Elements {
		if e.Name == "F1" {
			require.Equal(t, harness.KeptFuse{State: harness.Built, Rating: 10, Body: "blade", Line: 8}, e.Kept)
		}
	}
}

// A stop that was called otherwise says so, with the terminal or as a part alone; a cavity keeps its side.
func TestFormerNames(t *testing.T) {
	h, found := kept(t, workshop+"  one: {legs: [[BAT.+, {to: F1, was: MF9}, {to: X1.2, was: P3.7}, {to: L1.+, was: LAMP.a}, {to: L1.-, was: LAMP.b}, G1], [G2, BAT.-]]}\n",
		`wire one BAT.+ -> MF9.1     built  1F  4 mm2  thin-wall-125  RD  310 mm
wire one MF9.2 -> P3.7.in   built  1G  4 mm2  thin-wall-125  RD  320 mm
wire one P3.7.out -> LAMP.a built  1H  4 mm2  thin-wall-125  RD  330 mm
wire one LAMP.b -> G1       built  1R  4 mm2  thin-wall-125  BK  340 mm
`)
	require.Equal(t, []string{"1F BAT.+ > F1.1", "1G F1.2 > X1.2.in", "1H X1.2.out > L1.+", "1R L1.- > G1", "1N G2 > BAT.-"}, wired(h))
	for _, p := range found {
		require.NotContains(t, []string{"wire-taken-as", "wire-unsure"}, p.Slug)
	}
}

// TestALegThatCannotBeReadIsOneFinding: what hangs on it is not said to be missing.
func TestALegThatCannotBeReadIsOneFinding(t *testing.T) {
	for name, legs := range map[string]string{
		"unknown part":         "[[BAT.+, F1, SW, L9, G1], [BAT.-, G2]]",
		"misspelt part":        "[[BAT.+, F1, SW, Ll, G1], [BAT.-, G2]]",
		"unknown terminal":     "[[BAT.+, F1, SW.1, SW.3, L1, G1], [BAT.-, G2]]",
		"hidden break contact": "[[BAT.+, F1, SW, K1.86, K1.85, G1], [F1, K1.30, K1.87a, L1, G1], [K1.87a, L2, G1], [BAT.-, G2]]",
	} {
		text := strings.Replace(workshop, "  S1: {kind: splice", "  K1: {kind: relay, at: dash}\n  S1: {kind: splice", 1) + "  a: {legs: " + legs + "}\n"
		d, ps := describe.Parse("x.yaml", []byte(text))
		require.Empty(t, ps)
		_, found := check.Check(d)
		require.Equal(t, 1, found.Count(source.Error), "%s: %v", name, found)
		for _, p := range found {
			require.False(t, p.Slug == "part-unused" && name == "misspelt part" && p.Summary == "no wire reaches L1")
			require.False(t, p.Slug == "part-unused" && strings.Contains(legs, strings.TrimPrefix(p.Summary, "no wire reaches ")), p.Summary)
		}
	}
}

// A place lies where it is said, on one side or on one of each pair.
func TestPlacesLieWhereItIsSaid(t *testing.T) {
	text := strings.Replace(workshop, "places: {", "places: {nose: {lies: right Front}, end: {lies: rear}, ", 1)
	require.NotEqual(t, workshop, text)
	h, _ := checked(t, text+"  one: {legs: [[BAT.+, F1, L1, G1], [G2, BAT.-]]}\n")
	require.Equal(t, harness.Front|harness.Right, h.Places[0].Lies)
	require.Equal(t, harness.Rear, h.Places[1].Lies)
}
