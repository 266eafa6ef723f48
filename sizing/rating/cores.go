package rating

import (
	"math"
	"slices"
	"strconv"

	"example.com/loomfolio/sizing/unit"
)

// Core is one core in a published order of colours.
type Core struct {
	Number int
	Mark   string // what the order calls it beside its number (58L), "" for none
	Colour string // IEC 60757 letters, base or base/ring: GY/PK
	Size   unit.Gauge
	Source string
}

// CoreOrders names the published orders.
func CoreOrders() []string {
	var out []string
	for _, r := range rows("cores.csv") {
		if !slices.Contains(out, r["order"]) {
			out = append(out, r["order"])
		}
	}
	return out
}

// Cores gives the cores of a published order in its order, none for an unknown
// name. A size is given where the order has one (ISO 1724), else zero.
func Cores(order string) []Core {
	var out []Core
	for _, r := range rows("cores.csv") {
		if r["order"] != order {
			continue
		}
		c := Core{Number: int(r.number("core")), Mark: r["mark"], Colour: r["colour"], Source: r["source"]}
		if r["size_mm2"] != "" {
			c.Size = unit.Gauge{System: unit.Metric, Size: r["size_mm2"]}
		}
		out = append(out, c)
	}
	return out
}

// Lay gives how far a twist of so many wires goes on in one turn: a foot over the
// twists per foot that are listed for the nearest gauge by area (two wires, or
// three and more).
func Lay(area unit.SquareMillimetre, wires int) (unit.Millimetre, string) {
	column := "twists_2"
	if wires > 2 {
		column = "twists_3"
	}
	best, nearest := row(nil), math.Inf(1)
	for _, r := range rows("twists.csv") {
		n, _ := strconv.Atoi(r["gauge"])
		c, ok := ConductorOf(unit.Gauge{System: unit.AWG, Size: strconv.Itoa(n)})
		if off := math.Abs(math.Log(float64(area) / float64(c.Area))); ok && off < nearest-1e-12 {
			best, nearest = r, off
		}
	}
	if best == nil {
		return 0, ""
	}
	return unit.Millimetre(304.8 / best.number(column)), best["source"]
}

// Twisted gives by how much a wire in a twist is longer than the twist: one turn of
// a helix, √(1 + (π·d ÷ lay)²), d the diameter of the circle on which the wires'
// centres lie. No lay is no twist.
func Twisted(pitch, lay unit.Millimetre) float64 {
	if lay <= 0 {
		return 1
	}
	return math.Hypot(1, math.Pi*float64(pitch)/float64(lay))
}

// PitchCircle is the diameter of the circle on which the centres of equal wires lie
// that are twisted in one ring: n wires that touch stand on d ÷ sin(π ÷ n).
func PitchCircle(wire unit.Millimetre, wires int) unit.Millimetre {
	if wires < 2 {
		return 0
	}
	return wire / unit.Millimetre(math.Sin(math.Pi/float64(wires)))
}

// Screen is how a screen is made: a braid or a foil with drain, in its jacket.
// Both figures are common practice, no source.
type Screen struct {
	Wall unit.Millimetre // all round
	Back unit.Millimetre // cut back from where the cores part
}

// ScreenOf gives a braid, or a foil.
func ScreenOf(as string) Screen {
	if as == "foil" {
		return Screen{Wall: 0.5, Back: 30}
	}
	return Screen{Wall: 0.8, Back: 30}
}

// ScreenSource is the key of the source of screens.
const ScreenSource = "screen-build"
