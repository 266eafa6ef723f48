package circuit

import (
	"errors"
	"math"
	"slices"
)

// Gains answers how far the voltages of a solved network move with a small current, each
// element taken by the slope of its law there, the contacts as they stand. Method: one
// factor of the matrix of slopes, one solving by it for each answer. Since every element
// has two ends, the matrix is symmetric, and the answer for a current between two nodes
// is also how the voltage between these two follows a current at any other pair (the
// adjoint network). A load of constant power, or the input of a converter, counts as one of constant current, and a
// charged battery that rests, where no other source holds it, as standing still, by its Ohms.
type Gains struct {
	w      *work
	slopes []float64 // by element, nothing left out
	nodes  []float64 // room for an answer, by node
	groups islands
}

// Gains makes ready for a solution of the network. The error says that the slopes leave
// no single answer.
func (p *Prepared) Gains(s Solution) (*Gains, error) {
	if len(s.Volts) != p.network.Nodes || len(s.Energised) != len(p.network.Elements) {
		return nil, errors.New("circuit: the solution is not one of this network")
	}
	r := p.relays(p.network.Elements)
	copy(r.holds, s.Energised)
	r.follow()
	for _, i := range p.intakes {
		r.stop(i, !s.Energised[i])
	}
	for n, v := range s.Volts {
		if !math.IsNaN(v) {
			r.volts[n] = v
		}
	}
	for _, i := range p.powers {
		r.draws[i] = r.asks(i)
	}
	r.balance()
	r.hold()
	if err := r.afresh(); err != nil {
		return nil, err
	}
	return &Gains{w: r.work, slopes: slices.Clone(r.slope), nodes: make([]float64, p.network.Nodes), groups: r.groups}, nil
}

// hold lets batteries that rest hold the nodes that no source holds.
func (r *relays) hold() {
	r.group()
	held := map[int]bool{}
	for i := range r.elements {
		if e := &r.elements[i]; (e.Kind == Source || e.Kind == Limited) && r.slope[i] > 0 {
			held[r.groups.root(e.A)] = true
		}
	}
	for _, i := range r.bent {
		if e := &r.elements[i]; e.Kind == Source && r.slope[i] == 0 && !held[r.groups.root(e.A)] {
			r.slope[i] = 1 / e.Ohms
		}
	}
	r.group()
}

// Open leaves out some elements, those that were left out before no more. The error says
// that no single answer is left.
func (g *Gains) Open(elements ...int) error {
	copy(g.w.slope, g.slopes)
	for _, i := range elements {
		g.w.slope[i] = 0
	}
	g.w.group()
	g.groups = g.w.groups
	return g.w.afresh()
}

// Joined tells whether a small current can pass from one node to another.
func (g *Gains) Joined(a, b int) bool { return g.groups[a] == g.groups[b] }

// Of gives by node the volts for each ampere that enters at a and leaves at b, counted
// from b. It holds until the next call. The nodes must be Joined; what is not joined with
// them is at 0.
func (g *Gains) Of(a, b int) []float64 {
	w := g.w
	clear(w.step)
	if row := w.row[a]; row >= 0 {
		w.step[row]++
	}
	if row := w.row[b]; row >= 0 {
		w.step[row]--
	}
	w.factor.solve(w.step)
	for n, row := range w.row {
		g.nodes[n] = 0
		if row >= 0 && g.groups[n] == g.groups[b] {
			g.nodes[n] = w.step[row]
		}
	}
	g.count(b)
	return g.nodes
}

// count counts the answer from a node.
func (g *Gains) count(b int) {
	if zero := g.nodes[b]; zero != 0 {
		for n := range g.nodes {
			if g.groups[n] == g.groups[b] {
				g.nodes[n] -= zero
			}
		}
	}
}

// Slope is an element's amperes for each volt more across it, S; 0 for what is open or
// takes the same at any voltage.
func (g *Gains) Slope(element int) float64 { return g.w.slope[element] }
