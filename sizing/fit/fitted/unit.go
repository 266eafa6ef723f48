package fitted

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit/packing"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// Unit is what is made of wires that are handled as one. End a is where its first
// wire begins.
type Unit struct {
	Unit      harness.UnitID
	Length    unit.Millimetre // finished; a cable is cut so long
	Diameter  unit.Millimetre // over all
	Twists    []route.Twist
	Screen    string             // what is drawn over it, "braid"; "" for none, and for a cable
	ScreenLen unit.Millimetre    // how much of it
	Back      [2]unit.Millimetre // how far screen or sheath is cut back, by end; 0 where it has neither
	Boot      string             // shrink over the end of screen or sheath, the same at both
	BootLen   unit.Millimetre
	Drains    []Drain
	Parts     [2][]harness.PartID // on which it ends, by end
	Circles   []packing.Circle    // its wires, from its middle, in mm, by index into the unit's wires
}

// Drain is one end at which a screen is earthed.
type Drain struct {
	End      int // 0 or 1: which of the unit's
	Terminal harness.TerminalID
	With     harness.WireID  // in whose crimp it lies; None: it has a fitting of its own
	Fitting  End             // that fitting, its Wire is the unit's first
	Length   unit.Millimetre // of wire from the screen to that fitting; 0 where the drain's own end reaches
	From     string          // the reel of which enough is left for that; "": it is bought by itself
}

// Open tells whether a screen is cut off and insulated at an end.
func (u *Unit) Open(end int) bool {
	return !slices.ContainsFunc(u.Drains, func(d Drain) bool { return d.End == end })
}

// Cable is the cables of one type: what is cut and bought.
type Cable struct {
	Type  *harness.CableType
	Units []harness.UnitID // in the order of the model, built ones too
	Built int              // so many are in the vehicle
	Need  unit.Millimetre  // of the others
	Buy   unit.Millimetre
}

// ToCut counts the cables that are cut.
func (c *Cable) ToCut() int { return len(c.Units) - c.Built }

// CableName is what the shopping list calls a type of cable: "tow-7, 7 cores 1.5 and 2.5 mm², 10.5 mm across".
func CableName(t *harness.CableType, imperial bool) string {
	what := fmt.Sprintf("%s, %s %s, %s across", t.Name, unit.Counted(len(t.Cores), "core"), coreSizes(t), unit.AcrossText(t.Diameter, imperial))
	if t.Screened {
		what += ", screened"
	}
	return what
}

// coreSizes names the sizes of a cable's cores, each once.
func coreSizes(t *harness.CableType) string {
	var out []string
	for _, c := range t.Cores {
		if text := c.Size.String(); !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return strings.Join(out, " and ")
}

// CoreName is a core as it is printed: "3 (31) WH".
func CoreName(c *harness.Core) string {
	return c.Mark + " " + colour.Pair{Base: c.Base, Tracer: c.Tracer}.String()
}

// DrainGauge is a drain in the sheet's sizes: thin wire, or as much of the braid; common practice, no source.
func DrainGauge(sheet unit.System) unit.Gauge {
	if sheet == unit.Metric {
		return unit.Gauge{System: sheet, Size: "0.5"}
	}
	return unit.Gauge{System: sheet, Size: "20"}
}
