package rating

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"example.com/loomfolio/sizing/unit"
)

// Newton in one pound-force.
const newtonPerPound = 4.4482216

var pullTable = sync.OnceValue(func() map[string]map[string]row {
	out := map[string]map[string]row{}
	for _, r := range rows("pull.csv") {
		if out[r["list"]] == nil {
			out[r["list"]] = map[string]row{}
		}
		out[r["list"]][r["awg"]] = r
	}
	return out
})

// Pull gives the pull-out force in newtons that a crimp on a conductor must
// hold, by a list (ul-486a, ul-486e, mil-t-7928, abyc-e11, nasa-8739, iec-60352-2), and the source.
// A numbered gauge takes its own row; a metric conductor, or a size that the
// list passes over, takes the AWG row next below in area. NASA lists two sizes
// and asks elsewhere for 60 % of the wire's strength. 0 where there is none.
func Pull(list string, c Conductor) (newtons float64, source string) {
	table := pullTable()[list]
	if table == nil {
		return pullMetric(list, c.Area)
	}
	if c.Gauge.System != unit.Metric {
		if r, ok := table[c.Gauge.Size]; ok {
			return newtonsOf(r), r["source"]
		}
	}
	if list == "nasa-8739" {
		return pullNASA(table, c)
	}
	for area := c.Area * roundedSizes; ; {
		awg := NearestBelow(unit.AWG, area)
		if r, ok := table[awg.Gauge.Size]; ok {
			return newtonsOf(r), r["source"]
		}
		if awg.Area >= area || awg.Area < 0.25 {
			return 0, ""
		}
		area = awg.Area * 0.99
	}
}

// roundedSizes is how far a metric size may lie below a gauge and still count as
// it: 0.5 mm² is rounded from 20 AWG, 0.518 mm² (common practice, no source).
const roundedSizes = 1.04

// pullMetric takes the row of the size itself or the next below; above the list's
// last row there is none.
func pullMetric(list string, area unit.SquareMillimetre) (newtons float64, source string) {
	last := 0.0
	for _, r := range rows("pull-metric.csv") {
		if r["list"] == list {
			last = math.Max(last, r.number("mm2"))
		}
	}
	if float64(area) > last*roundedSizes {
		return 0, ""
	}
	for _, r := range rows("pull-metric.csv") {
		if r["list"] == list && r.number("mm2") <= float64(area)*roundedSizes {
			newtons, source = r.number("force_n"), r["source"]
		}
	}
	return newtons, source
}

func newtonsOf(r row) float64 { return math.Round(r.number("force_lbf")*newtonPerPound*10) / 10 }

func pullNASA(table map[string]row, c Conductor) (float64, string) {
	if c.Gauge.System == unit.Metric && c.Area < 0.5 {
		if r, ok := table[NearestBelow(unit.AWG, c.Area).Gauge.Size]; ok {
			return newtonsOf(r), r["source"]
		}
	}
	return math.Round(0.6*240*float64(c.Area)*10) / 10, "nasa-60"
}

// Sleeve is the colour of a pre-insulated crimp and its range.
type Sleeve struct{ Colour, Range, Source string }

// SleeveOf gives the sleeve for a conductor; false where none fits: thinner
// than its range (fold the strand over) or 8 gauge, 6 mm2 and heavier than yellow.
// Sizes that two colours claim are decided here: 16 gauge and 1.5 mm2 are blue
// (a red barrel is at its limit there), and 3 mm2, which no colour names, is
// yellow, as the 12 gauge that it equals.
func SleeveOf(c Conductor) (Sleeve, bool) {
	for _, r := range rows("sleeves.csv") {
		if r["system"] != c.Gauge.System.String() {
			continue
		}
		for _, size := range strings.Fields(r["sizes"]) {
			if size == c.Gauge.Size {
				return Sleeve{Colour: r["colour"], Range: r["range"], Source: r["source"]}, true
			}
		}
	}
	return sleeveByArea(c)
}

// SleeveRange gives the range that a colour stands for among the sizes of a system.
func SleeveRange(colour string, system unit.System) (Sleeve, bool) {
	for _, r := range rows("sleeves.csv") {
		if r["colour"] == colour && r["system"] == system.String() {
			return Sleeve{Colour: colour, Range: r["range"], Source: r["source"]}, true
		}
	}
	return Sleeve{}, false
}

// sleeveByArea serves sizes of a user's own reel.
func sleeveByArea(c Conductor) (Sleeve, bool) {
	limits := []struct {
		most   float64
		sleeve Sleeve
	}{
		{0.45, Sleeve{}},
		{1.2, Sleeve{"red", "0.5-1.5 mm2", "sleeve-colours"}},
		{2.7, Sleeve{"blue", "1.5-2.5 mm2", "sleeve-colours"}},
		{6.1, Sleeve{"yellow", "4-6 mm2", "sleeve-colours"}},
	}
	for _, l := range limits {
		if float64(c.Area) <= l.most {
			return l.sleeve, l.sleeve.Colour != ""
		}
	}
	return Sleeve{}, false
}

// SleeveFits tells whether a conductor lies in the range of a sleeve of a
// colour: 16 gauge lies in red and in blue, never in yellow.
func SleeveFits(colour string, c Conductor) bool {
	area := float64(c.Area)
	switch colour {
	case "red":
		return area >= 0.3 && area <= 1.5
	case "blue":
		return area >= 1.1 && area <= 2.7
	case "yellow":
		return area >= 2.7 && area <= 6.1
	}
	return false
}

// Stud is a screw size with the hole of the ring that fits it, and what it takes.
type Stud struct {
	Name     string
	Diameter unit.Millimetre
	Hole     unit.Millimetre
	Lug      unit.SquareMillimetre // largest ring that is usual on it; 0 where none is known
	Largest  unit.SquareMillimetre // largest ring that any list puts on it
	Faces    unit.Ampere           // most current from lug to lug, face to face; 0 where none is known
	Sources  []string              // of the hole, of the ring, of the current
}

// Studs lists the screw sizes, metric first.
func Studs() []Stud { return slices.Clone(studTable()) }

var studTable = sync.OnceValue(func() []Stud {
	var out []Stud
	for _, r := range rows("studs.csv") {
		out = append(out, Stud{
			Name: r["stud"], Diameter: unit.Millimetre(r.number("diameter_mm")), Hole: unit.Millimetre(r.number("ring_hole_mm")),
			Lug: unit.SquareMillimetre(r.number("lug_mm2")), Largest: unit.SquareMillimetre(r.number("lug_most_mm2")), Faces: unit.Ampere(r.number("face_a")),
			Sources: Distinct(r["source"], r["lug_source"], r["face_source"]),
		})
	}
	return out
})

// StudOf gives a screw size by name: M6, 1/4, #10.
func StudOf(name string) (Stud, bool) {
	for _, s := range studTable() {
		if strings.EqualFold(s.Name, strings.TrimSpace(name)) {
			return s, true
		}
	}
	return Stud{}, false
}

// StudText names a screw size where no other word tells what it is: "M8", "#10", "1/4 in".
func StudText(name string) string {
	if strings.Contains(name, "/") {
		return name + " in"
	}
	return name
}

// TabLimit gives the heaviest wire that a receptacle for a tab width takes.
func TabLimit(tab string) (unit.SquareMillimetre, string) {
	for _, r := range rows("tabs.csv") {
		if r.number("tab_mm") == atoi(tab) {
			return unit.SquareMillimetre(r.number("most_mm2")), r["source"]
		}
	}
	return 0, ""
}

// TabWidth gives the width of a tab in mm; 0 where the name is no number.
func TabWidth(tab string) unit.Millimetre {
	mm, err := strconv.ParseFloat(tab, 64)
	if err != nil {
		return 0
	}
	return unit.Millimetre(mm)
}

// TabInch is the inch width by which the trade names a receptacle for a tab of so
// many mm (0.250 for 6.3; the pairs from memory), "" for a width that is not listed.
func TabInch(tab string) string {
	for _, r := range rows("tabs.csv") {
		if r.number("tab_mm") == atoi(tab) {
			return r["inch"]
		}
	}
	return ""
}

// Strip gives the length to bare for a fitting (insulated, barrel, lug).
func Strip(fitting string, area unit.SquareMillimetre) (unit.Millimetre, string) {
	for _, r := range rows("strip.csv") {
		if r["fitting"] == fitting && float64(area) <= r.number("wire_to_mm2")*1.02 {
			return unit.Millimetre(r.number("strip_mm")), r["source"]
		}
	}
	return 25, "common"
}

// Shrink is one size of heat-shrink tube.
type Shrink struct {
	Family, Size        string
	Inch                string          // the trade's inch size, by the bore as supplied; of adhesive-lined from memory
	Supplied, Recovered unit.Millimetre // bore as supplied (least), bore recovered (most)
	Source              string
}

// Name gives the bores as supplied and recovered in mm, or the trade's size in
// inches, and the family: "6/2 mm, 3:1 adhesive-lined".
func (s Shrink) Name(imperial bool) string { return s.Bores(imperial) + ", " + s.Family }

// Bores is the name without the family; none for no tube. Bores that are tabled in
// inches are rounded to a tenth of a millimetre, as the trade names them.
func (s Shrink) Bores(imperial bool) string {
	switch {
	case s.Inch == "":
		return ""
	case imperial:
		return s.Inch + " in"
	case strings.ContainsRune(s.Size, '-') || s.Size == s.Inch:
		return fmt.Sprintf("%s/%s mm", tenth(s.Supplied), tenth(s.Recovered))
	}
	return s.Size + " mm"
}

func tenth(mm unit.Millimetre) string {
	return strconv.FormatFloat(math.Round(float64(mm)*10)/10, 'f', -1, 64)
}

// ShrinkFor gives the smallest tube of a family that passes over the largest
// diameter and still grips the smallest (NASA-STD-8739.4 9.8.1). An empty
// family tries 3:1 adhesive-lined, then 4:1, then 2:1 single wall.
func ShrinkFor(family string, largest, smallest unit.Millimetre) (Shrink, bool) {
	families := []string{Usual, "4:1 adhesive-lined", SingleWall}
	if family != "" {
		families = []string{family}
	}
	for _, f := range families {
		for _, s := range shrinkTable() {
			if s.Family == f && s.Serves(largest, smallest) {
				return s, true
			}
		}
	}
	return Shrink{}, false
}
