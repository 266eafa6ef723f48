package harness

import (
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// UnitKind says what holds wires together.
type UnitKind string

// The kinds of units. A screen may hold twists.
const (
	Twisted  UnitKind = "twist"
	Screened UnitKind = "screen"
	Cabled   UnitKind = "cable"
)

// Unit is wires that are handled as one: a twist, what lies under one screen, or
// the cores of a cable. A wire is in one unit at most.
type Unit struct {
	ID     UnitID
	Kind   UnitKind
	Name   string
	Wires  []WireID
	Type   *CableType      // of a cable, else nil
	Length unit.Millimetre // given, of a cable; else 0
	Drains []TerminalID    // where the screen is earthed
	Span   source.Span     // of its first mention at a stop
	Said   source.Span     // of its entry under screens or cables, unknown where it has none
}

// HasScreen tells whether a screen is over all of it.
func (u *Unit) HasScreen() bool {
	return u.Kind == Screened || u.Kind == Cabled && u.Type.Screened
}

// CableType is a cable with several cores, as the shop has it.
type CableType struct {
	Name     string
	Cores    []Core
	Order    string          // the published order of its colours, "" for its own
	Diameter unit.Millimetre // outside
	Sheath   unit.Millimetre // thickness
	Class    unit.Celsius
	Screened bool
	Span     source.Span
}

// Core is one core of a cable.
type Core struct {
	Mark         string // "3", "3 (31)"
	Size         unit.Gauge
	Base, Tracer string
}

// UnitOf gives the unit of every wire, by WireID, None where it is in none.
func (h *Harness) UnitOf() []UnitID {
	out := make([]UnitID, len(h.Wires))
	for i := range out {
		out[i] = None
	}
	for i := range h.Units {
		for _, w := range h.Units[i].Wires {
			out[w] = h.Units[i].ID
		}
	}
	return out
}

// Cores marks the wires that are cores of a cable, by WireID: their copper and colour are the cable's.
func (h *Harness) Cores() []bool {
	out := make([]bool, len(h.Wires))
	for i := range h.Units {
		for _, w := range h.Units[i].Wires {
			out[w] = h.Units[i].Kind == Cabled
		}
	}
	return out
}

// Spare are the cores of a cable that no wire uses, as indexes into its type's cores.
func (h *Harness) Spare(u *Unit) []int {
	if u.Type == nil {
		return nil
	}
	used := make([]bool, len(u.Type.Cores))
	for _, w := range u.Wires {
		used[h.Wires[w].Core] = true
	}
	var out []int
	for i := range used {
		if !used[i] {
			out = append(out, i)
		}
	}
	return out
}
