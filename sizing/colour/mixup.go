package colour

import (
	"cmp"
	"slices"

	"example.com/loomfolio/sizing/harness"
)

// mixup is two wires that may be taken for each other where they meet.
type mixup struct {
	a, b harness.WireID // in the order of their names
	rank int            // 0 at a part, 1 in a run
	spot int            // number of the part or run
}

// allMixups lists the wires of unlike nets that meet, each two once, at a part first.
func (s *Shop) allMixups() []mixup {
	sides := make([]side, len(s.h.Wires))
	place := make([]int, len(s.h.Wires))
	for i, w := range s.order {
		place[w] = i
		net := s.net.Root(int(s.h.Wires[w].From))
		sides[w] = side{net, s.roles[net] == ground}
	}
	var out []mixup
	add := func(a, b harness.WireID, rank, spot int) {
		if rivals(sides[a], sides[b]) {
			if place[a] > place[b] {
				a, b = b, a
			}
			out = append(out, mixup{a, b, rank, spot})
		}
	}
	for spot, wires := range s.bySpot() {
		rank, number := s.rankAt(spot)
		if rank < 0 {
			continue
		}
		for i, b := range wires {
			for _, a := range wires[:i] {
				if rank > 0 || s.beside(harness.PartID(number), a, b) {
					add(a, b, rank, number)
				}
			}
		}
	}
	slices.SortStableFunc(out, func(x, y mixup) int {
		return cmp.Or(cmp.Compare(place[x.b], place[y.b]), cmp.Compare(place[x.a], place[y.a]), cmp.Compare(x.rank, y.rank))
	})
	return slices.CompactFunc(out, func(x, y mixup) bool { return x.a == y.a && x.b == y.b })
}

// rankAt gives the rank of a spot by the practice, below 0 where wires need not differ there.
func (s *Shop) rankAt(spot int) (rank, number int) {
	switch {
	case spot < len(s.h.Parts):
		return 0, spot
	case spot < s.meetings():
		if s.h.Practice.Apart.Runs == "colour" {
			return 0, spot - len(s.h.Parts)
		}
		return 1, spot - len(s.h.Parts)
	case s.h.Practice.Apart.Branchings:
		return 0, spot
	}
	return -1, 0
}

// beside tells whether two wires that end at one part are near enough there to be mistaken.
func (s *Shop) beside(id harness.PartID, a, b harness.WireID) bool {
	near := s.h.Practice.Apart.Near
	p := &s.h.Parts[id]
	if near <= 0 || p.Kind != harness.FusePanel && p.Kind != harness.Connector && p.Kind != harness.Module {
		return true
	}
	for _, x := range s.endsAt(id, a) {
		for _, y := range s.endsAt(id, b) {
			if s.within(p, x, y, near) {
				return true
			}
		}
	}
	return false
}

func (s *Shop) endsAt(id harness.PartID, w harness.WireID) []harness.TerminalID {
	var out []harness.TerminalID
	for _, t := range []harness.TerminalID{s.h.Wires[w].From, s.h.Wires[w].To} {
		if s.h.Terminals[t].Part == id {
			out = append(out, t)
		}
	}
	return out
}

// within tells whether two terminals of a face are near: within so many places along a row,
// right above one another in two rows, or one of them at no place of the face, as a stud.
func (s *Shop) within(p *harness.Part, x, y harness.TerminalID, near int) bool {
	rows := rowsOf(s.h, p)
	rx, cx := placeIn(rows, s.nameOf(p, x))
	ry, cy := placeIn(rows, s.nameOf(p, y))
	switch {
	case rx < 0 || ry < 0:
		return true
	case rx == ry:
		return abs(cx-cy) <= near
	}
	return abs(rx-ry) == 1 && cx == cy
}

func abs(n int) int { return max(n, -n) }

func (s *Shop) nameOf(p *harness.Part, t harness.TerminalID) string {
	if p.Kind == harness.Connector {
		return s.h.Terminals[t].Cavity
	}
	return s.h.Terminals[t].Name
}

func placeIn(rows [][]string, name string) (row, column int) {
	for r := range rows {
		if c := slices.Index(rows[r], name); c >= 0 {
			return r, c
		}
	}
	return -1, -1
}

// rowsOf gives the face of a part: as described, else all in one row in their order.
func rowsOf(h *harness.Harness, p *harness.Part) [][]string {
	switch {
	case p.Panel != nil:
		return p.Panel.Layout
	case p.Rows != nil:
		return p.Rows
	case p.Kind == harness.Connector:
		return [][]string{p.Cavities}
	}
	var names []string
	for _, t := range p.Terminals {
		names = append(names, h.Terminals[t].Name)
	}
	return [][]string{names}
}
