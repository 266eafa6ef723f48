package rating

import (
	"slices"
	"sync"

	"example.com/loomfolio/sizing/unit"
)

// Range is one kind of fitting that is sold for a range of wires: a contact by the copper and
// the insulation that it grips, the barrel of a splice by the copper in it, a wire seal by the
// outside of its wire. Between From and To it holds; outside it is too tight or too loose to grip.
type Range struct {
	Metric, AWG      string                // as the trade names it; "" for a seal
	From, To         unit.SquareMillimetre // of copper; both 0 for a seal
	OverFrom, OverTo unit.Millimetre       // of the wire's outside; both 0 where it does not matter
	Source           string
}

// Fittings that are sold by ranges, for Ranges.
const (
	Contacts = "contact"
	Barrels  = "barrel"
	Seals    = "seal"
)

// Ranges lists the kinds in which a fitting is sold, the least first.
func Ranges(fitting string) []Range { return slices.Clone(rangeTable()[fitting]) }

var rangeTable = sync.OnceValue(func() map[string][]Range {
	out := map[string][]Range{}
	for _, r := range rows("ranges.csv") {
		out[r["fitting"]] = append(out[r["fitting"]], Range{
			Metric: r["name"], AWG: r["awg"], Source: r["source"],
			From: unit.SquareMillimetre(r.number("from")), To: unit.SquareMillimetre(r.number("to")),
			OverFrom: unit.Millimetre(r.number("over_from")), OverTo: unit.Millimetre(r.number("over_to")),
		})
	}
	return out
})

// Holds tells whether it grips copper of an area in a wire of an outside.
func (r Range) Holds(area unit.SquareMillimetre, over unit.Millimetre) bool {
	return (r.To == 0 || area >= r.From && area <= r.To) && (r.OverTo == 0 || over >= r.OverFrom && over <= r.OverTo)
}

// Name is what the trade calls it where wires are sold by a system.
func (r Range) Name(system unit.System) string {
	if system == unit.Metric {
		return r.Metric
	}
	return r.AWG
}

// Wide is the range of yellow sleeves that take 3 mm² too: those that begin at 2.5 mm². In
// sleeves that begin at 4 mm² (or 12 gauge, 3.3 mm²) a thinner wire is loose.
func Wide() Sleeve { return Sleeve{Colour: "yellow", Range: "2.5-6 mm2", Source: "sleeve-wide"} }

// Bore is one bore in which covers are kept.
type Bore struct {
	Bore   unit.Millimetre
	Source string
}

// Bores lists the bores of covers that are easily found, the least first.
func Bores(imperial bool) []Bore {
	system := "mm"
	if imperial {
		system = "in"
	}
	var out []Bore
	for _, r := range rows("bores.csv") {
		if r["system"] == system {
			out = append(out, Bore{unit.Millimetre(r.number("bore_mm")), r["source"]})
		}
	}
	return out
}

// Limits of what serves in place of the size that is least; judgement, not published.
const (
	// MostBore is how wide a cover may be in diameters of its bundle: 31 % of it is filled then.
	MostBore = 1.8
	// MostLoose is how much wider than its bundle a clamp may be: as much as from 8 to 10 mm,
	// the coarsest step between clamps that are sold.
	MostLoose = 1.25
	// MostGrommet is how much wider than its run the bore of a grommet may be.
	MostGrommet = 1.1
	// MostScreen is how much wider than its wires a braid may be drawn: it closes on what it goes over.
	MostScreen = 2.5
)

// Clamps lists what clamps hold, the least first.
func Clamps() []unit.Millimetre {
	var out []unit.Millimetre
	for _, r := range rows("clamps.csv") {
		out = append(out, unit.Millimetre(r.number("holds_mm")))
	}
	return out
}

// Tool is a crimping tool with one thing that it makes, for copper from From to To.
type Tool struct {
	Word, Name string // as practice: tools: has it, and as it is printed
	Makes      string // insulated, open barrel, lug, barrel, ferrule
	From, To   unit.SquareMillimetre
}

// Tools lists what each crimping tool makes, the usual one for a crimp first.
func Tools() []Tool {
	var out []Tool
	for _, r := range rows("tools.csv") {
		out = append(out, Tool{r["tool"], r["name"], r["makes"], unit.SquareMillimetre(r.number("from")), unit.SquareMillimetre(r.number("to"))})
	}
	return out
}

// ToolFor gives the first tool of those that a shop has (none named: any) that makes a crimp
// for an area; false where none does.
func ToolFor(has []string, makes string, area unit.SquareMillimetre) (Tool, bool) {
	for _, t := range Tools() {
		if t.Makes == makes && area >= t.From && area <= t.To && (len(has) == 0 || slices.Contains(has, t.Word)) {
			return t, true
		}
	}
	return Tool{}, false
}

// Shrinks lists all tubes by family, in each the thinnest first.
func Shrinks() []Shrink { return slices.Clone(shrinkTable()) }

var shrinkTable = sync.OnceValue(func() []Shrink {
	var out []Shrink
	for _, r := range rows("shrink.csv") {
		out = append(out, Shrink{r["family"], r["size"], r["inch"], unit.Millimetre(r.number("supplied_mm")), unit.Millimetre(r.number("recovered_mm")), r["source"]})
	}
	return out
})

// Serves tells whether it passes over the largest diameter and grips the smallest
// (NASA-STD-8739.4 9.8.1).
func (s Shrink) Serves(largest, smallest unit.Millimetre) bool {
	return s.Supplied > largest && s.Recovered < smallest
}

// TubesFor lists the tubes that serve: those with glue, where none does the single-wall ones,
// and where none of them does either those whose bore just equals a limit; the usual 3:1 first.
func TubesFor(largest, smallest unit.Millimetre) []Shrink {
	const hair = 1e-6
	for _, spare := range []unit.Millimetre{0, hair} {
		var glued, single []Shrink
		for _, s := range shrinkTable() {
			switch {
			case !s.Serves(largest-spare, smallest+spare):
			case s.Family == SingleWall:
				single = append(single, s)
			default:
				glued = append(glued, s)
			}
		}
		if len(glued) > 0 {
			return glued
		}
		if len(single) > 0 {
			return single
		}
	}
	return nil
}

// Families of heat-shrink.
const (
	SingleWall = "2:1 single wall"
	Usual      = "3:1 adhesive-lined"
)
