package drawing

import (
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// What a cut leaves is laid out in every look before it is known whether it fits. Of
// a large circuit nearly nothing fits, so what cannot is told here beforehand from
// the wires alone. Each bound lies below what the layout would take in any look.

// tooLarge tells of wires that hang together and fit an area in no look.
func (s *sheets) tooLarge(wires []harness.WireID, area sheet.Rect) bool {
	return s.tooHigh(wires, area.H) || s.tooWide(wires, area.W) || s.groundsHigh(wires) > area.H
}

// leastPitch is the least distance of two wires on one edge of a tile in any look, mm.
const leastPitch = 7.5

// tooHigh tells whether one part's tile needs more rows than a height has, whatever
// else is drawn.
func (s *sheets) tooHigh(wires []harness.WireID, high float64) bool {
	arrive, leave := map[harness.TerminalID]int{}, map[harness.TerminalID]int{}
	for _, w := range wires {
		leave[s.h.Wires[w].From]++
		arrive[s.h.Wires[w].To]++
	}
	west, east := s.rowsOn(arrive, leave), s.rowsOn(leave, arrive)
	most := int(high/leastPitch) + 1
	for _, rows := range []map[harness.PartID]int{west, east} {
		for p, n := range rows {
			if n > most && (west[p] > 0 || !bar(s.h.Parts[p].Kind)) {
				return true
			}
		}
	}
	return false
}

// bar tells of the kinds that are drawn as a rail, entry by entry, where no wire arrives.
func bar(k harness.Kind) bool {
	return k == harness.Battery || kind.Charges(k) || k == harness.Bus
}

// rowsOn counts the rows that parts need at least on one edge: those of the terminals on
// which more wires land that way than the other. Grounds, connectors, panels and
// relays are drawn in pieces; a part with one or two terminals has one on each edge.
func (s *sheets) rowsOn(way, other map[harness.TerminalID]int) map[harness.PartID]int {
	rows := map[harness.PartID]int{}
	for t, n := range way {
		p := s.h.PartOf(t)
		if p == nil || n <= other[t] {
			continue
		}
		switch p.Kind {
		case harness.Ground, harness.Connector, harness.FusePanel, harness.Relay:
		default:
			if len(p.Terminals) > 2 {
				n += rows[p.ID]
			}
			rows[p.ID] = max(n, rows[p.ID])
		}
	}
	return rows
}

// jointWide is the width of a splice's tile without its words, mm.
const jointWide = 8

// tooWide tells whether splices that follow one another in a leg, each in a column of
// its own with the flag of a wire between, are wider than a width.
func (s *sheets) tooWide(wires []harness.WireID, wide float64) bool {
	across := 0.0
	for i := 1; i < len(wires); i++ {
		at := s.h.Wires[wires[i]].From
		if p := s.h.PartOf(at); p == nil || p.Kind != harness.Splice || s.h.Wires[wires[i-1]].To != at {
			across = 0
			continue
		}
		if across += jointWide; across > wide {
			return true
		}
		across += s.flag(wires[i], look{stacked: true}).w
	}
	return false
}

// groundsHigh is what the entries of the chassis rail take at least: those of wires that
// arrive stand in one column, those of wires that leave in another.
func (s *sheets) groundsHigh(wires []harness.WireID) float64 {
	arrive, leave := 0, 0
	for _, w := range wires {
		if p := s.h.PartOf(s.h.Wires[w].To); p != nil && p.Kind == harness.Ground {
			arrive++
		}
		if p := s.h.PartOf(s.h.Wires[w].From); p != nil && p.Kind == harness.Ground {
			leave++
		}
	}
	entry := nodeOf(symbol.GroundEntry(harness.Chassis, symbol.West, nil, symbol.Form{}))
	return look{}.rules(sheet.Rect{}, false).Stacked(entry, max(arrive, leave))
}
