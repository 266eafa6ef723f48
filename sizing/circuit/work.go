package circuit

import "math"

// work is one solving of a prepared network, and the room for it.
//
// A node's voltage is kept as the sum of two numbers, the second what rounding
// left over in the first. Between two nodes of a heavy cable there are
// microvolts, of nodes that both lie near 12 V: one number alone would leave
// over at a battery post with hundreds of wires more than a nanoampere.
type work struct {
	*Prepared
	elements []Element
	branches []branch  // by element
	bent     []int     // the elements that are neither a straight line nor open
	closed   []bool    // by element: contacts that are closed
	volts    []float64 // by node
	low      []float64 // by node: to be added to volts
	amps     []float64 // by element
	slope    []float64 // by element, S
	spare    []float64 // by node: current left over, out of the node counted positive
	scale    []float64 // by node: what rounding can leave over, A
	groups   islands   // nodes that hold each other's voltage
	joined   []bool    // by element: whether groups counts it
	grouped  bool      // whether groups and joined are of the present slopes' pattern
	factor   *factor
	exact    bool      // the factor must hold the present slopes exactly
	step     []float64 // by row of the matrix
	across   []float64 // by element: the step's change of the voltage across it
	before   []float64 // volts before the step
	beneath  []float64 // low before the step
	draws    []float64 // by element: the held current of what takes a power
	cut      []bool    // by element: inputs of converters that do not work
	near     *stage    // whose lamp currents those of voltages close by are worked out from; may be nil
	rounds   int
}

// branch is an element as the inner loop sees it.
type branch struct {
	a, b    int32
	way     way
	emf     float64
	siemens float64
}

// way is how a branch's current is found: by a straight line, not at all, or by its law.
type way uint8

const (
	straight way = iota
	open
	lawful
)

func (p *Prepared) start(elements []Element) *work {
	nodes, n := p.network.Nodes, len(elements)
	w := &work{
		Prepared: p, elements: elements, branches: make([]branch, n),
		closed: make([]bool, n), volts: make([]float64, nodes), low: make([]float64, nodes),
		amps: make([]float64, n), slope: make([]float64, n), across: make([]float64, n),
		spare: make([]float64, nodes), scale: make([]float64, nodes),
		groups: newIslands(nodes), joined: make([]bool, n), factor: p.newFactor(),
		step: make([]float64, p.shape.size), before: make([]float64, nodes), beneath: make([]float64, nodes),
	}
	if len(p.powers) > 0 {
		w.draws, w.cut = make([]float64, n), make([]bool, n)
	}
	for i := range elements {
		w.take(i)
	}
	for i := range elements {
		if w.branches[i].way == lawful {
			w.bent = append(w.bent, i)
		}
	}
	return w
}

// take makes an element's branch, for the contacts as they stand.
func (w *work) take(i int) {
	e := &w.elements[i]
	b := branch{a: int32(e.A), b: int32(e.B), siemens: 1 / e.Ohms}
	switch {
	case e.Kind == Contact && !w.closed[i], w.dead(i):
		b.way = open
	case e.Kind == Source && !e.rests():
		b.emf = e.Volts
	case e.Kind != Resistor && e.Kind != Coil && e.Kind != Contact:
		b.way = lawful
	}
	w.branches[i] = b
}

// between gives the voltage across a branch.
func (w *work) between(b *branch) float64 {
	return (w.volts[b.a] - w.volts[b.b]) + (w.low[b.a] - w.low[b.b])
}

// balance works out every current and what is left over at each node. It tells
// the largest left-over, and whether none is more than rounding explains.
func (w *work) balance() (worst float64, clean bool) {
	clear(w.spare)
	clear(w.scale)
	for i := range w.branches {
		b := &w.branches[i]
		if b.way == open {
			w.amps[i], w.slope[i] = 0, 0
			continue
		}
		v := w.between(b)
		amps, slope, emf := (v-b.emf)*b.siemens, b.siemens, b.emf
		if b.way == lawful {
			amps, slope = w.byLaw(i, v)
			emf = w.elements[i].Volts
		}
		w.amps[i], w.slope[i] = amps, slope
		w.spare[b.a] += amps
		w.spare[b.b] -= amps
		rounding := math.Abs(amps) + slope*(math.Abs(v)+math.Abs(emf))
		w.scale[b.a] += rounding
		w.scale[b.b] += rounding
	}
	return w.weigh()
}

// weigh tells the largest left-over, and whether none is more than rounding explains.
func (w *work) weigh() (worst float64, clean bool) {
	clean = true
	w.spare[w.network.Reference] = 0
	for n, amps := range w.spare {
		if amps = math.Abs(amps); amps > 1e-14 {
			worst = max(worst, amps)
			clean = clean && amps <= 4*epsilon*w.scale[n]+1e-14
		}
	}
	return worst, clean
}

func (w *work) byLaw(i int, v float64) (amps, slope float64) {
	e := &w.elements[i]
	if e.Kind == Power || e.Kind == Intake {
		return e.heldFlow(v, w.draws[i])
	}
	if e.Kind == Lamp && w.near != nil {
		if v0 := w.near.across[i]; math.Abs(v0) > 2*e.Floor && math.Abs(v-v0) < math.Abs(v0)/128 {
			amps = w.near.amps[i] * powerNear((v-v0)/v0)
			return amps, lampPower * amps / v
		}
	}
	return e.flow(v, true)
}

// exactly is the law without what is known of voltages close by.
func (w *work) exactly(i int, v float64) (amps, slope float64) {
	if e := &w.elements[i]; e.Kind != Power && e.Kind != Intake {
		return e.flow(v, true)
	}
	return w.byLaw(i, v)
}

// set goes to a stage with the same elements, but for the few given and the
// contacts, and balances there by changing only what those change.
func (w *work) set(s *stage, but []int) (worst float64, clean bool) {
	copy(w.volts, s.volts)
	copy(w.low, s.low)
	copy(w.amps, s.amps)
	copy(w.slope, s.slope)
	copy(w.spare, s.spare)
	copy(w.scale, s.scale)
	w.factor.set(s.factor)
	w.near = s
	for _, i := range but {
		w.revise(i)
	}
	for _, i := range w.contacts {
		if (w.branches[i].way == open) != (w.slope[i] == 0) {
			w.revise(i)
		}
	}
	for _, i := range w.intakes {
		w.revise(i)
		w.revise(w.network.Elements[i].Control)
	}
	return w.weigh()
}

// revise works out an element's current afresh and what that leaves over.
func (w *work) revise(i int) {
	b := &w.branches[i]
	w.spare[b.a] -= w.amps[i]
	w.spare[b.b] += w.amps[i]
	v := w.between(b)
	switch b.way {
	case open:
		w.amps[i], w.slope[i] = 0, 0
	case straight:
		w.amps[i], w.slope[i] = (v-b.emf)*b.siemens, b.siemens
	default:
		w.amps[i], w.slope[i] = w.byLaw(i, v)
	}
	w.spare[b.a] += w.amps[i]
	w.spare[b.b] -= w.amps[i]
}

// group joins the nodes that hold each other's voltage: those with an element
// between them whose current changes with its voltage.
func (w *work) group() {
	for i, slope := range w.slope {
		if w.joined[i] != (slope > 0) {
			w.joined[i], w.grouped = slope > 0, false
		}
	}
	if w.grouped {
		return
	}
	w.groups.reset()
	for i, joined := range w.joined {
		if b := &w.branches[i]; joined {
			w.groups.join(int(b.a), int(b.b))
		}
	}
	w.groups.flatten()
	w.grouped = true
}

// home is the root of the nodes that the reference holds.
func (w *work) home() int { return w.groups.root(w.network.Reference) }

// sink puts the nodes that no current holds to 0 V and tells whether any was
// elsewhere.
func (w *work) sink() bool {
	moved := false
	groups := w.held()
	home := groups[w.network.Reference]
	for n, root := range groups {
		if root != home && (w.volts[n] != 0 || w.low[n] != 0) {
			w.volts[n], w.low[n], moved = 0, 0, true
		}
	}
	return moved
}

// held groups the nodes that hold each other by more than an element that
// stands at a corner of its law without current.
func (w *work) held() islands {
	idle := false
	for _, i := range w.bent {
		idle = idle || w.slope[i] > 0 && w.idle(i)
	}
	if !idle {
		return w.groups
	}
	groups := newIslands(len(w.groups))
	for i, slope := range w.slope {
		if b := &w.branches[i]; slope > 0 && !(b.way == lawful && w.idle(i)) {
			groups.join(int(b.a), int(b.b))
		}
	}
	groups.flatten()
	return groups
}

func (w *work) idle(i int) bool {
	return w.elements[i].bends() && math.Abs(w.amps[i]) <= knee*w.slope[i]
}
