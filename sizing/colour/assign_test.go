package colour

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// bench builds small models: parts by "REF kind", wires by
// "NAME FROM TO gauge run run… =GIVEN".
type bench struct {
	h      *harness.Harness
	ways   []route.Way
	gauges []unit.Gauge
}

func build(parts, wires string) *bench {
	b := &bench{h: &harness.Harness{
		Terminals: []harness.Terminal{{Part: harness.None, Full: "chassis"}},
		Circuits:  []harness.Circuit{{}},
		Practice:  harness.Practice{GroundColour: "BK", FeedColour: "RD"},
	}}
	for _, line := range lines(parts) {
		f := strings.Fields(line)
		b.h.Parts = append(b.h.Parts, harness.Part{ID: harness.PartID(len(b.h.Parts)), Ref: f[0], Kind: harness.Kind(f[1])})
	}
	for _, line := range lines(wires) {
		b.wire(strings.Fields(line))
	}
	return b
}

func lines(text string) []string {
	var out []string
	for _, l := range strings.Split(text, "\n") {
		if l = strings.TrimSpace(l); l != "" {
			out = append(out, l)
		}
	}
	return out
}

func (b *bench) terminal(full string) harness.TerminalID {
	ref, name, _ := strings.Cut(full, ".")
	for _, t := range b.h.Terminals {
		if t.Full == full {
			return t.ID
		}
	}
	for i := range b.h.Parts {
		p := &b.h.Parts[i]
		if p.Ref != ref {
			continue
		}
		id := harness.TerminalID(len(b.h.Terminals))
		t := harness.Terminal{ID: id, Part: p.ID, Name: name, Full: full}
		if p.Kind == harness.Connector {
			t.Cavity, _, _ = strings.Cut(name, ".")
		}
		b.h.Terminals = append(b.h.Terminals, t)
		p.Terminals = append(p.Terminals, id)
		return id
	}
	panic("no part " + ref)
}

func (b *bench) element(part string, kind harness.ElementKind, a, c string) {
	for i := range b.h.Parts {
		if b.h.Parts[i].Ref == part {
			b.h.Elements = append(b.h.Elements, harness.Element{Part: b.h.Parts[i].ID, Kind: kind, A: b.terminal(a), B: b.terminal(c)})
		}
	}
}

func (b *bench) wire(f []string) {
	w := harness.Wire{ID: harness.WireID(len(b.h.Wires)), Name: f[0], From: b.terminal(f[1]), To: b.terminal(f[2])}
	w.Span = source.At(len(b.h.Wires)+1, 1, len(f[0]))
	var way route.Way
	for _, word := range f[4:] {
		if given, ok := strings.CutPrefix(word, "="); ok {
			w.Base, w.Tracer, _ = strings.Cut(given, "/")
			w.ColourSpan = source.At(len(b.h.Wires)+1, 20, len(given))
			continue
		}
		var run int
		fmt.Sscan(word, &run)
		for len(b.h.Runs) <= run {
			b.h.Runs = append(b.h.Runs, harness.Run{ID: harness.RunID(len(b.h.Runs))})
		}
		way.Shares = append(way.Shares, route.Share{Run: harness.RunID(run)})
	}
	b.h.Wires = append(b.h.Wires, w)
	b.ways = append(b.ways, way)
	b.gauges = append(b.gauges, unit.Gauge{Size: f[3]})
}

// assign gives the colours by wire name.
func (b *bench) assign() (map[string]string, Report, source.Problems) {
	choices, report, problems := Assign(b.h, b.ways, b.gauges, nil)
	out := map[string]string{}
	for i, c := range choices {
		out[b.h.Wires[i].Name] = c.Pair.String()
	}
	return out, report, problems
}

const car = `
	BAT battery
	ISO isolator
	F1 fuse
	F2 fuse
	SW switch
	L1 lamp
	L2 lamp
	X1 connector
	S1 splice
	G1 ground
	G2 ground`

func TestGroundsFeedsAndNets(t *testing.T) {
	b := build(car, `
		1A BAT.+ ISO.1 35 0
		1B ISO.2 F1.1 16 0
		1C ISO.2 F2.1 2.5 0
		1N G1 BAT.- 35 0
		2A F1.2 X1.1.in 1.5 0
		2B X1.1.out S1 1.5 1
		2C S1 SW.1 1 1
		2D S1 L2.+ 1 1
		3A SW.2 L1.+ 1 1
		3N L1.- G2 1 1
		2N L2.- G2 1 1`)
	b.element("ISO", harness.Contact, "ISO.1", "ISO.2")
	got, report, problems := b.assign()
	require.Len(t, problems, 1)
	require.Equal(t, source.Advice, problems[0].Level)
	require.Equal(t, "wires that must be the same colour meet: 1A, 1B", problems[0].Summary)
	for _, w := range []string{"1A", "1B", "1C"} {
		require.Equal(t, "RD", got[w], w)
	}
	for _, w := range []string{"1N", "2N", "3N"} {
		require.Equal(t, "BK", got[w], w)
	}
	require.Equal(t, got["2A"], got["2B"])
	require.Equal(t, got["2A"], got["2C"])
	require.Equal(t, got["2A"], got["2D"])
	require.NotEqual(t, got["2A"], got["3A"])
	require.NotContains(t, []string{"BK", "RD"}, got["2A"])
	require.Equal(t, 1, report.LookAlikes, "both sides of the isolator are red by rule; 1C is told apart by its size")
}

// In a car with its positive pole on the chassis the feed leaves the minus pole.
func TestPositiveEarthTurnsFeedAndGround(t *testing.T) {
	b := build(car, `
		1A F1.2 BAT.- 10 0
		1N BAT.+ G1 10 0
		2A L1.- F1.1 1 0
		2N G2 L1.+ 1 0`)
	b.h.System.PositiveEarth = true
	got, _, _ := b.assign()
	require.Equal(t, "RD", got["1A"])
	require.Equal(t, "BK", got["1N"])
	require.Equal(t, "BK", got["2N"])
	require.NotContains(t, []string{"BK", "RD"}, got["2A"])
}

func TestWiredReturnIsGround(t *testing.T) {
	b := build(car+`
		BUS bus`, `
		1A BAT.+ F1.1 6 0
		2A F1.2 L1.+ 1 0
		2N L1.- BUS.a 1 0
		3A F1.2 L2.+ 1 0
		3B L2.- SW.1 1 0
		3N SW.2 BUS.b 1 0
		1N BUS.c BAT.- 6 0`)
	b.h.System.WiredReturn = true
	got, _, _ := b.assign()
	for _, w := range []string{"1N", "2N", "3N"} {
		require.Equal(t, "BK", got[w], w)
	}
	require.NotEqual(t, "BK", got["3B"], "before the switch it is no ground")
}

func TestGivenColoursStayAndReachTheirNet(t *testing.T) {
	b := build(car, `
		2A F1.2 S1 1 0 =GN/YE
		2B S1 SW.1 1 0 =OG/BK
		2C S1 L2.+ 1 0
		3A SW.2 L1.+ 1 0
		3N L1.- G2 1 0 =BN
		4N L2.- G2 1 0`)
	got, _, problems := b.assign()
	require.Empty(t, problems)
	require.Equal(t, "GN/YE", got["2A"])
	require.Equal(t, "OG/BK", got["2B"])
	require.Equal(t, "OG/BK", got["2C"], "the first given colour that is ever issued")
	require.Equal(t, "BN", got["3N"])
	require.Equal(t, "BK", got["4N"])
}

func TestGivenColoursThatClashAreReported(t *testing.T) {
	b := build(car, `
		2A F1.2 L1.+ 1 0 =OG/BK
		3A F2.2 L2.+ 1 0 =OG/BK
		4A SW.2 L2.- 1 0 =BK/OG`)
	_, report, problems := b.assign()
	require.Equal(t, 1, report.LookAlikes)
	require.Len(t, problems, 3)
	p := problems.Sorted()[0]
	require.Equal(t, "look-alike", p.Slug)
	require.Equal(t, source.Warning, p.Level)
	require.Equal(t, "wires 2A (OG/BK) and 3A (OG/BK) look alike where they meet", p.Summary)
	require.Equal(t, source.At(2, 20, 5), p.Span)
	require.Equal(t, []string{"2A", "3A"}, p.Subjects)
}

func TestShelfAndThickWire(t *testing.T) {
	b := build(car, `
		2A F1.2 L1.+ 16 0
		3A F2.2 L2.+ 1 0
		4A SW.2 SW.1 1 0
		5A L1.- L2.- 2.5 0`)
	b.h.Practice.Stock = []harness.Stock{
		{Gauge: unit.Gauge{Size: "1"}, Colours: []harness.StockColour{{Base: "BK"}, {Base: "TQ"}, {Base: "GN", Tracer: "YE"}, {Base: "PK", Tracer: "WH"}}},
	}
	got, _, _ := b.assign()
	require.Equal(t, "RD", got["2A"])
	require.ElementsMatch(t, []string{"TQ", "PK/WH"}, []string{got["3A"], got["4A"]})
	require.NotContains(t, []string{"TQ", "PK/WH", "BK", "RD"}, got["5A"])
}

func TestThick(t *testing.T) {
	for _, c := range []struct {
		g    unit.Gauge
		want bool
	}{
		{unit.Gauge{System: unit.Metric, Size: "10"}, true}, {unit.Gauge{System: unit.Metric, Size: "6"}, false},
		{unit.Gauge{System: unit.SAE, Size: "8"}, true}, {unit.Gauge{System: unit.SAE, Size: "10"}, false},
		{unit.Gauge{System: unit.AWG, Size: "2/0"}, true}, {unit.Gauge{}, false},
	} {
		require.Equal(t, c.want, thick(c.g), c.g)
	}
}

// ASTM B258: 12 gauge is 3.31 mm2 of copper, 2/0 67.4 mm2.
func TestArea(t *testing.T) {
	require.InDelta(t, 3.31, area(unit.Gauge{System: unit.AWG, Size: "12"}), 0.005)
	require.InDelta(t, 67.4, area(unit.Gauge{System: unit.SAE, Size: "2/0"}), 0.05)
	require.InDelta(t, 2.5, area(unit.Gauge{Size: "2.5"}), 0)
	require.Zero(t, area(unit.Gauge{}))
}

// fan builds n nets that all lie in one run, from n fuses to n lamps.
func fan(n int) *bench {
	var parts, wires strings.Builder
	for i := range n {
		fmt.Fprintf(&parts, "F%d fuse\nL%d lamp\n", i, i)
		fmt.Fprintf(&wires, "%dA F%d.2 L%d.+ 1 0\n", i+1, i, i)
	}
	return build(parts.String(), wires.String())
}

// The largest smallest distance of k colours in one run, found beforehand by
// an exact search (Python) over the eleven bases in the ISCC-NBS palette
// alone, all views: 5 plain 23.1, 7 with tracers 29.2, 40 with tracers 13.8.
// Two palettes can only make it smaller.
func TestOneRunStaysUnderTheKnownCeiling(t *testing.T) {
	for n, known := range map[int]float64{5: 32.3, 7: 29.3, 9: 24.4, 20: 18.3, 40: 13.9} {
		_, report, problems := fan(n).assign()
		require.Empty(t, problems)
		require.Zero(t, report.LookAlikes)
		require.LessOrEqual(t, report.Smallest, report.Bound)
		require.LessOrEqual(t, report.Smallest, known, n)
		require.Greater(t, report.Smallest, 0.6*known, n)
		t.Logf("%d nets: %.1f of at most %.1f", n, report.Smallest, report.Bound)
	}
}

// In a run with few wires plain colours do, and few reels are bought.
func TestPlainBeforeTracer(t *testing.T) {
	got, _, _ := build(car, `
		2A F1.2 L1.+ 1 0
		3A F2.2 L2.+ 1 1
		4A SW.2 X1.1 1 2`).assign()
	require.Equal(t, map[string]string{"2A": got["2A"], "3A": got["2A"], "4A": got["2A"]}, got, "no neighbours, one reel")
	require.NotContains(t, got["2A"], "/")
}

// No pair stands beside its reverse, and green with yellow is never issued.
func TestHardRulesInAFatRun(t *testing.T) {
	b := fan(60)
	got, report, _ := b.assign()
	require.Zero(t, report.LookAlikes)
	seen := map[string]string{}
	for w, pair := range got {
		base, tracer, _ := strings.Cut(pair, "/")
		require.False(t, base == "GN" && tracer == "YE" || base == "YE" && tracer == "GN", w)
		require.Empty(t, seen[tracer+"/"+base], "%s %s", w, pair)
		require.Empty(t, seen[pair])
		seen[pair] = w
	}
}

// More nets than colours: the fewest possible share one, and it is said.
func TestTooFewColours(t *testing.T) {
	b := fan(6)
	b.h.Practice.Stock = []harness.Stock{{Gauge: unit.Gauge{Size: "1"}, Colours: []harness.StockColour{{Base: "WH"}, {Base: "YE"}, {Base: "GY"}}}}
	_, report, problems := b.assign()
	require.Equal(t, 3, report.LookAlikes, "six wires on three colours, two each")
	require.Len(t, problems, 1)
	require.Equal(t, source.Advice, problems[0].Level)
	require.Equal(t, "colours-repeat", problems[0].Slug)
	require.Len(t, report.Runs[0].Bundles, 2)
}

// Three nets on a shelf of two colours must share one; the other wires of the
// run stand as far apart as ever.
func TestAShortShelfDoesNotSpoilTheRest(t *testing.T) {
	b := fan(6)
	for i := 3; i < 6; i++ {
		b.gauges[i] = unit.Gauge{Size: "1.5"}
	}
	b.h.Practice.Stock = []harness.Stock{{Gauge: unit.Gauge{Size: "1"}, Colours: []harness.StockColour{{Base: "WH"}, {Base: "YE"}}}}
	_, report, problems := b.assign()
	require.Equal(t, 1, report.LookAlikes)
	require.Len(t, problems, 1)
	require.Greater(t, report.Smallest, 20.0)
}

// loom is a tree of runs with many wires over it, made by a fixed sequence:
// run n joins place n to place (n-1)/2, and a wire lies in up to three that follow each other.
func loom(wires int) *bench { return build(loomText(wires)) }

func loomText(wires int) (string, string) {
	var parts, text strings.Builder
	seed := uint32(7)
	next := func(n int) int { seed = seed*1664525 + 1013904223; return int(seed>>8) % n }
	fmt.Fprintln(&parts, "G0 ground")
	for i := range wires {
		fmt.Fprintf(&parts, "P%d module\n", i)
	}
	for i := range wires {
		from, to := fmt.Sprintf("P%d.%d", next(wires/3), i), fmt.Sprintf("P%d.%d", wires/3+next(wires/2), i)
		if i%8 == 0 {
			to = "G0"
		}
		gauge := []string{"0.75", "1", "1.5", "2.5"}[next(4)]
		fmt.Fprintf(&text, "%dA %s %s %s", i+1, from, to, gauge)
		run := next(60)
		for up := 1 + next(3); up > 0 && run > 0; up-- {
			fmt.Fprintf(&text, " %d", run)
			run = (run - 1) / 2
		}
		fmt.Fprintln(&text)
	}
	return parts.String(), text.String()
}

func TestAWholeLoom(t *testing.T) {
	b := loom(200)
	began := time.Now()
	choices, report, _ := Assign(b.h, b.ways, b.gauges, nil)
	t.Logf("%v: smallest %.1f of %.1f, %d alike", time.Since(began), report.Smallest, report.Bound, report.LookAlikes)
	require.Zero(t, report.LookAlikes)
	require.Greater(t, report.Smallest, 0.6*report.Bound)
	again, report2, _ := Assign(b.h, b.ways, b.gauges, nil)
	require.Equal(t, choices, again)
	require.Equal(t, report, report2)
}

// The order in which parts, terminals and wires stand must not matter.
func TestOrderDoesNotMatter(t *testing.T) {
	parts, wires := loomText(90)
	want, report, _ := build(parts, wires).assign()
	backwards := func(text string) string {
		l := lines(text)
		slices.Reverse(l)
		return strings.Join(l, "\n")
	}
	got, report2, _ := build(backwards(parts), backwards(wires)).assign()
	require.Equal(t, want, got)
	report.Parts, report2.Parts = nil, nil // they stand in the order of the model
	require.Equal(t, report, report2)
}

func BenchmarkAssign(b *testing.B) {
	for _, n := range []int{50, 200, 500} {
		m := loom(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				Assign(m.h, m.ways, m.gauges, nil)
			}
		})
	}
}
