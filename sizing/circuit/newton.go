package circuit

import (
	"fmt"
	"math"
)

const (
	mostRounds = 200  // Newton rounds for one set of contacts
	goodEnough = 1e-9 // A that may be left over at a node, at the very most
	epsilon    = 0x1p-52
)

// work is one solving of a prepared network.
type work struct {
	*Prepared
	elements []Element
	closed   []bool    // by element: contacts that are closed
	volts    []float64 // by node
	amps     []float64 // by element
	slope    []float64 // by element, S
	across   []float64 // by element: the step's change of the voltage across it
	spare    []float64 // by node: current left over, out of the node counted positive
	scale    []float64 // by node: what rounding can leave over, A
	groups   islands
	matrix   *matrix
	step     []float64 // by row of the matrix
	rounds   int
}

func (p *Prepared) start(elements []Element, from []float64) *work {
	nodes, n := p.network.Nodes, len(elements)
	w := &work{
		Prepared: p, elements: elements,
		closed: make([]bool, n), volts: make([]float64, nodes),
		amps: make([]float64, n), slope: make([]float64, n), across: make([]float64, n),
		spare: make([]float64, nodes), scale: make([]float64, nodes),
		groups: newIslands(nodes), matrix: p.shape.matrix(), step: make([]float64, p.shape.size),
	}
	for i, v := range from {
		if i < nodes && !math.IsNaN(v) {
			w.volts[i] = v
		}
	}
	return w
}

// settle finds the voltages for the contacts as they stand. Nodes that float,
// or that are held by no current at all (a dead end beyond a diode), are set to
// 0 V before a second look, so that their answer does not depend on the way
// there: it is what an ideal meter from the reference would make of them.
func (w *work) settle() error {
	if err := w.newton(); err != nil || !w.sink() {
		return err
	}
	return w.newton()
}

// sink puts the nodes that no current holds to 0 V and tells whether any was
// elsewhere.
func (w *work) sink() bool {
	moved := false
	w.groups.reset()
	for i := range w.elements {
		e := &w.elements[i]
		idle := e.bends() && math.Abs(w.amps[i]) <= knee*w.slope[i]
		if w.slope[i] > 0 && !idle {
			w.groups.join(e.A, e.B)
		}
	}
	home := w.groups.root(w.network.Reference)
	for n := range w.volts {
		if w.groups.root(n) != home && w.volts[n] != 0 {
			w.volts[n], moved = 0, true
		}
	}
	return moved
}

func (w *work) newton() error {
	best, idle := math.Inf(1), 0
	for range mostRounds {
		worst, clean := w.balance()
		w.group()
		if worst < best/2 {
			best, idle = worst, 0
		} else {
			idle++
		}
		if clean || idle >= 3 && worst <= goodEnough {
			return nil
		}
		if err := w.direction(); err != nil {
			return err
		}
		w.move(w.length(worst))
		w.rounds++
	}
	worst, clean := w.balance()
	w.group()
	if clean || worst <= goodEnough {
		return nil
	}
	return fmt.Errorf("circuit: the voltages do not settle: %.3g A are left over after %d rounds", worst, mostRounds)
}

// balance works out every current and what is left over at each node. It tells
// the largest left-over, and whether none is more than rounding explains.
func (w *work) balance() (worst float64, clean bool) {
	clear(w.spare)
	clear(w.scale)
	for i := range w.elements {
		e := &w.elements[i]
		va, vb := w.volts[e.A], w.volts[e.B]
		amps, slope := e.flow(va-vb, w.closed[i])
		w.amps[i], w.slope[i] = amps, slope
		w.spare[e.A] += amps
		w.spare[e.B] -= amps
		rounding := math.Abs(amps) + slope*(math.Abs(va)+math.Abs(vb)+math.Abs(e.Volts))
		w.scale[e.A] += rounding
		w.scale[e.B] += rounding
	}
	clean = true
	for n, amps := range w.spare {
		if n == w.network.Reference {
			continue
		}
		worst = math.Max(worst, math.Abs(amps))
		clean = clean && math.Abs(amps) <= 4*epsilon*w.scale[n]+1e-14
	}
	return worst, clean
}

// group joins the nodes that hold each other's voltage: those with an element
// between them whose current changes with its voltage.
func (w *work) group() {
	w.groups.reset()
	for i := range w.elements {
		if w.slope[i] > 0 {
			w.groups.join(w.elements[i].A, w.elements[i].B)
		}
	}
}

// direction solves the linear network of the slopes for the step.
func (w *work) direction() error {
	w.loosen()
	w.matrix.clear()
	home := w.groups.root(w.network.Reference)
	for n, row := range w.row {
		if row < 0 {
			continue
		}
		w.step[row] = -w.spare[n]
		if root := w.groups.root(n); root != home && root == n {
			w.matrix.diagonal[row], w.step[row] = 1, 0 // holds its island still
		}
	}
	for i := range w.elements {
		if w.slope[i] > 0 {
			w.stamp(i, home)
		}
	}
	if err := w.matrix.factorise(); err != nil {
		return err
	}
	w.matrix.solve(w.step)
	for i := range w.elements {
		e := &w.elements[i]
		w.across[i] = w.stepAt(e.A) - w.stepAt(e.B)
	}
	return nil
}

// stamp enters an element into the matrix; a node that holds its island still
// counts as a reference.
func (w *work) stamp(i, home int) {
	e, g := &w.elements[i], w.slope[i]
	if e.A == e.B {
		return
	}
	root := w.groups.root(e.A)
	free := func(n int) bool { return n != w.network.Reference && (root == home || n != root) }
	if free(e.A) {
		w.matrix.diagonal[w.row[e.A]] += g
	}
	if free(e.B) {
		w.matrix.diagonal[w.row[e.B]] += g
	}
	if free(e.A) && free(e.B) {
		w.matrix.above[w.slot[i]] -= g
	}
}

func (w *work) stepAt(node int) float64 {
	if row := w.row[node]; row >= 0 {
		return w.step[row]
	}
	return 0
}

// loosen gives elements of constant current a slope for this step's direction
// alone, where such currents push at an island that nothing holds, until none
// is pushed. The balance never sees it.
func (w *work) loosen() {
	var steady []int
	for i := range w.elements {
		if w.slope[i] == 0 && w.amps[i] != 0 {
			steady = append(steady, i)
		}
	}
	for more := len(steady) > 0; more; {
		pushed := w.pushed(steady)
		more = false
		for _, i := range steady {
			e := &w.elements[i]
			if w.slope[i] == 0 && (pushed[w.groups.root(e.A)] || pushed[w.groups.root(e.B)]) {
				w.slope[i] = math.Abs(w.amps[i]) / math.Max(1, math.Abs(w.volts[e.A]-w.volts[e.B]))
				more = true
			}
		}
		for _, i := range steady {
			if w.slope[i] > 0 {
				w.groups.join(w.elements[i].A, w.elements[i].B)
			}
		}
	}
}

// pushed tells which islands, by their root, the constant currents leave out of balance.
func (w *work) pushed(steady []int) map[int]bool {
	push := map[int]float64{}
	total := 0.0
	for _, i := range steady {
		push[w.groups.root(w.elements[i].A)] += w.amps[i]
		push[w.groups.root(w.elements[i].B)] -= w.amps[i]
		total += math.Abs(w.amps[i])
	}
	out := map[int]bool{}
	home := w.groups.root(w.network.Reference)
	for root, amps := range push {
		out[root] = root != home && math.Abs(amps) > 16*epsilon*total
	}
	return out
}

func (w *work) move(length float64) {
	for n := range w.volts {
		w.volts[n] += length * w.stepAt(n)
	}
}

// pull is the slope of the co-content along the step, at a length of it: below
// zero while a longer step is better. It never falls.
func (w *work) pull(length float64) float64 {
	sum := 0.0
	for i := range w.elements {
		if w.across[i] != 0 {
			e := &w.elements[i]
			amps, _ := e.flow(w.volts[e.A]-w.volts[e.B]+length*w.across[i], w.closed[i])
			sum += amps * w.across[i]
		}
	}
	return sum
}

// length says how far to go along the step.
func (w *work) length(worst float64) float64 {
	first := w.pull(0)
	if worst < 1e-7 || !(first < 0) {
		return 1
	}
	low, high := 0.0, 1.0
	atHigh := w.pull(high)
	for n := 0; atHigh < first/2 && n < 60; n++ {
		low, high = high, 2*high
		atHigh = w.pull(high)
	}
	if atHigh <= -first/100 {
		return high
	}
	return w.between(low, high, w.pull(low), atHigh, -first/100)
}

// between finds, inside a span of lengths, one at which the pull is nearly
// nothing: by regula falsi, which halves the kept end's pull (Illinois).
func (w *work) between(low, high, atLow, atHigh, enough float64) float64 {
	side := 0
	for range 80 {
		length := (low*atHigh - high*atLow) / (atHigh - atLow)
		at := w.pull(length)
		switch {
		case math.Abs(at) <= enough:
			return length
		case at < 0:
			low, atLow = length, at
			if side < 0 {
				atHigh /= 2
			}
			side = -1
		default:
			high, atHigh = length, at
			if side > 0 {
				atLow /= 2
			}
			side = 1
		}
	}
	return (low + high) / 2
}
