package record

import (
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Was holds what the description says of earlier names (the stop key `was:`).
type Was struct {
	Terminals map[harness.TerminalID]string // "K1.30"
	Parts     map[harness.PartID]string     // "K1"
}

// Found tells which line stands for what.
type Found struct {
	Wires    []int  // by WireID: index into Record.Wires, -1 for a new wire
	Split    []bool // by WireID: it is a piece of that line's wire
	Fuses    []int  // by ElementID: index into Record.Fuses, -1 for a new one
	Problems source.Problems
}

// Match finds the line of every wire and fuse. lengths are the cut lengths that
// the ways ask for, by WireID, 0 where not known. A line is a wire's when both
// ends agree, else by what the description says of earlier names, else when a
// wire of one circuit, one end and one length has no other that it could be, which
// is said; where it has, nothing is guessed and the problem names the choices.
func Match(h *harness.Harness, lengths []unit.Millimetre, was Was, r *Record) Found {
	m := &matcher{h: h, lengths: lengths, was: was, r: r, taken: make([]bool, len(r.Wires)), asked: make([]bool, len(r.Wires))}
	m.out = Found{Wires: slices.Repeat([]int{-1}, len(h.Wires)), Split: make([]bool, len(h.Wires))}
	m.sameEnds()
	m.pieces()
	m.renamed()
	m.gone()
	m.edited()
	m.fuses()
	m.out.Problems = m.out.Problems.Sorted()
	return m.out
}

type matcher struct {
	h       *harness.Harness
	lengths []unit.Millimetre
	was     Was
	r       *Record
	taken   []bool // by line
	asked   []bool // by line: a problem already asks about it
	out     Found
}

func (m *matcher) take(w harness.WireID, line int) {
	m.out.Wires[w], m.taken[line] = line, true
}

// ends gives a wire's terminals by name; old ones where the description says what
// they were called.
func (m *matcher) ends(w *harness.Wire, old bool) (from, to string) {
	name := func(t harness.TerminalID) string {
		if was := m.was.Terminals[t]; old && was != "" {
			return was
		}
		return m.h.Terminals[t].Full
	}
	return name(w.From), name(w.To)
}

// sameEnds matches wires whose ends agree: in their circuit, then turned round,
// then in any circuit; by the names of today first, then by earlier ones.
func (m *matcher) sameEnds() {
	for _, anyCircuit := range []bool{false, true} {
		for _, turned := range []bool{false, true} {
			for _, old := range []bool{false, true} {
				m.zip(func(w *harness.Wire) [3]string {
					from, to := m.ends(w, old)
					if turned {
						from, to = to, from
					}
					return within(m.h.Circuits[w.Circuit].Key, from, to, anyCircuit)
				}, func(l *Wire) [3]string { return within(l.Circuit, l.From, l.To, anyCircuit) })
			}
		}
	}
}

func within(circuit, from, to string, anyCircuit bool) [3]string {
	if anyCircuit {
		circuit = ""
	}
	return [3]string{circuit, from, to}
}

// zip pairs the free wires and lines of one key in their order, lines on what is
// there before those on what was given up.
func (m *matcher) zip(ofWire func(*harness.Wire) [3]string, ofLine func(*Wire) [3]string) {
	lines := map[[3]string][]int{}
	for _, retired := range []bool{false, true} {
		for i := range m.r.Wires {
			if l := &m.r.Wires[i]; !m.taken[i] && (l.State == harness.Retired) == retired {
				lines[ofLine(l)] = append(lines[ofLine(l)], i)
			}
		}
	}
	for i := range m.h.Wires {
		w := &m.h.Wires[i]
		if m.out.Wires[i] >= 0 {
			continue
		}
		if free := lines[ofWire(w)]; len(free) > 0 {
			m.take(w.ID, free[0])
			lines[ofWire(w)] = free[1:]
		}
	}
}

// pieces matches a line whose wire has been parted: new wires lead, one after
// another, from one of its ends to the other. The longest piece keeps the line.
func (m *matcher) pieces() {
	for line := range m.r.Wires {
		l := &m.r.Wires[line]
		if m.taken[line] || l.State == harness.Retired {
			continue
		}
		if chain := m.chain(l); len(chain) > 1 {
			best := chain[0]
			for _, w := range chain[1:] {
				if m.lengths[w] > m.lengths[best] {
					best = w
				}
			}
			m.take(best, line)
			m.out.Split[best] = true
			m.sayPiece(l, best, chain)
		}
	}
}

// chain gives the new wires of one leg that lead from end to end of a line.
func (m *matcher) chain(l *Wire) []harness.WireID {
	for c := range m.h.Circuits {
		circuit := &m.h.Circuits[c]
		if circuit.Key != l.Circuit {
			continue
		}
		for _, leg := range circuit.Legs {
			if chain := m.along(leg.Wires, l); chain != nil {
				return chain
			}
		}
	}
	return nil
}

func (m *matcher) along(wires []harness.WireID, l *Wire) []harness.WireID {
	start := -1
	for i, id := range wires {
		w := &m.h.Wires[id]
		from, to := m.ends(w, true)
		switch {
		case m.out.Wires[id] >= 0:
			start = -1
			continue
		case from == l.From:
			start = i
		}
		if start >= 0 && to == l.To {
			return wires[start : i+1]
		}
	}
	return nil
}

// renamed matches wires of which one end has another name than before.
func (m *matcher) renamed() {
	wires, lines := map[harness.WireID][]int{}, map[int][]harness.WireID{}
	for i := range m.h.Wires {
		w := &m.h.Wires[i]
		for line := range m.r.Wires {
			if m.out.Wires[i] < 0 && !m.taken[line] && m.mayBe(w, &m.r.Wires[line]) {
				wires[w.ID] = append(wires[w.ID], line)
				lines[line] = append(lines[line], w.ID)
			}
		}
	}
	for i := range m.h.Wires {
		w := &m.h.Wires[i]
		mine := wires[w.ID]
		switch {
		case len(mine) == 1 && len(lines[mine[0]]) == 1:
			m.take(w.ID, mine[0])
			m.sayTaken(w, &m.r.Wires[mine[0]])
		case len(mine) > 0:
			m.sayUnsure(w, mine)
			for _, line := range mine {
				m.asked[line] = true
			}
		}
	}
}

// asLong is how far two cut lengths may lie apart that count as one, mm: less
// than any step to which lengths are rounded up.
const asLong = 1

// mayBe tells whether a line could be a wire's: one circuit, one end and one
// length, and no gauge given that differs.
func (m *matcher) mayBe(w *harness.Wire, l *Wire) bool {
	from, to := m.ends(w, true)
	return l.State != harness.Retired && l.Circuit == m.h.Circuits[w.Circuit].Key && (l.From == from) != (l.To == to) &&
		math.Abs(float64(m.lengths[w.ID]-l.Length)) <= asLong && (!w.Gauge.Given() || w.Gauge == l.Gauge)
}

// fuses matches fuses by name, or by what their part was called.
func (m *matcher) fuses() {
	m.out.Fuses = slices.Repeat([]int{-1}, len(m.h.Elements))
	byName := map[string]int{}
	for i, f := range m.r.Fuses {
		byName[f.Name] = i
	}
	for i := range m.h.Elements {
		e := &m.h.Elements[i]
		if e.Kind != harness.FuseLink {
			continue
		}
		line, ok := byName[e.Name]
		if was := m.was.Parts[e.Part]; !ok && was != "" {
			line, ok = byName[was+strings.TrimPrefix(e.Name, m.h.Parts[e.Part].Ref)]
		}
		if ok {
			m.out.Fuses[i] = line
		}
	}
}
