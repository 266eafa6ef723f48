package drawing

import "example.com/loomfolio/sizing/harness"

// sides is wires dealt by their legs to two sides, with what each side shows.
type sides struct {
	s       *sheets
	legs    [][]harness.WireID
	second  []bool
	wires   [2]int
	lands   [2]map[harness.TerminalID]int // by terminal: wires of the side that land on it
	touched [2]map[harness.PartID]int     // by part: its terminals on which any lands
	refs    int                           // terminals that are shown by an arrow
}

// betweenLegs divides by legs: from the cut nearest to the middle on, legs change
// sides for as long as fewer terminals need a reference and neither side has more
// than two thirds of the wires. b is empty when there is one leg.
func (s *sheets) betweenLegs(wires []harness.WireID) (a, b []harness.WireID) {
	legs := s.legs(wires)
	if len(legs) < 2 {
		return wires, nil
	}
	most := max(2*len(wires)/3, len(wires)-len(legs[0]))
	if len(legs) > 2 {
		most = 2 * len(wires) / 3
	}
	d := s.dealt(legs, len(wires))
	for range 3 * len(legs) {
		if !d.better(most) {
			break
		}
	}
	for i, l := range legs {
		if d.second[i] {
			b = append(b, l...)
		} else {
			a = append(a, l...)
		}
	}
	return a, b
}

// dealt parts the legs at the cut nearest to the middle of so many wires.
func (s *sheets) dealt(legs [][]harness.WireID, wires int) *sides {
	d := &sides{s: s, legs: legs, second: make([]bool, len(legs))}
	for side := range d.lands {
		d.lands[side], d.touched[side] = map[harness.TerminalID]int{}, map[harness.PartID]int{}
	}
	count := 0
	for i := range legs {
		d.second[i] = i > 0 && 2*count >= wires || i == len(legs)-1
		count += len(legs[i])
		d.put(i, 1)
	}
	return d
}

// better moves the leg whose move saves most references.
func (d *sides) better(most int) bool {
	best, at := d.refs, -1
	for i := range d.legs {
		d.move(i)
		if d.refs < best && min(d.wires[0], d.wires[1]) > 0 && max(d.wires[0], d.wires[1]) <= most {
			best, at = d.refs, i
		}
		d.move(i)
	}
	if at < 0 {
		return false
	}
	d.move(at)
	return true
}

// move takes a leg to the other side.
func (d *sides) move(leg int) {
	d.put(leg, -1)
	d.second[leg] = !d.second[leg]
	d.put(leg, 1)
}

// put adds a leg to its side, n being 1, or takes it off, n being -1.
func (d *sides) put(leg, n int) {
	side := 0
	if d.second[leg] {
		side = 1
	}
	d.wires[side] += n * len(d.legs[leg])
	for _, w := range d.legs[leg] {
		d.land(side, d.s.h.Wires[w].From, n)
		d.land(side, d.s.h.Wires[w].To, n)
	}
}

// land counts an end of a wire on a side. Of a part on both sides those of its terminals
// are shown by an arrow that are on the side that has fewer.
func (d *sides) land(side int, t harness.TerminalID, n int) {
	was := d.lands[side][t]
	d.lands[side][t] += n
	p := d.s.h.PartOf(t)
	if p == nil || was > 0 == (was+n > 0) {
		return
	}
	before := d.arrows(p)
	d.touched[side][p.ID] += n
	d.refs += d.arrows(p) - before
}

func (d *sides) arrows(p *harness.Part) int {
	switch p.Kind {
	case harness.Ground, harness.Battery, harness.FusePanel, harness.Connector:
		return 0
	}
	return min(d.touched[0][p.ID], d.touched[1][p.ID])
}
