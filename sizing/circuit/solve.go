package circuit

import (
	"fmt"
	"math"
	"slices"
	"sync"
)

// Prepared is a network with its structure worked out: it can be solved many
// times, also at once from several goroutines, with elements changed.
type Prepared struct {
	network  Network
	shape    *shape
	row      []int // by node: its row in the matrix, -1 for the reference
	slot     []int // by element: its place above the diagonal, -1 when it has none
	coils    []int // the elements that are coils
	contacts []int // the elements that are contacts
	powers   []int // the elements that take a power: loads of constant power, and inputs of converters
	intakes  []int // of these the inputs of converters
	feeds    []int // by element: the input of the converter whose output it is, -1 for none
	nowhere  []int // by node: -1
	known    trail // of a network of this structure with other ohms; may be nil

	once  sync.Once // for what follows
	sound Solution  // of the network as it stands
	trail trail     // the way to it
	fails error
	idle  sync.Pool // *Faults that nobody uses
}

// Solve gives the voltages and currents of a network. The error says what is
// wrong with the network itself (a node out of range, an element without ohms)
// or that no rest was found.
func Solve(n Network) (Solution, error) {
	p, err := Prepare(n)
	if err != nil {
		return Solution{}, err
	}
	return p.Solve()
}

// Prepare checks a network and works out its structure. The network must not
// be changed afterwards.
func Prepare(n Network) (*Prepared, error) {
	if err := n.check(); err != nil {
		return nil, err
	}
	p := &Prepared{network: n, row: make([]int, n.Nodes), slot: make([]int, len(n.Elements)), feeds: slices.Repeat([]int{-1}, len(n.Elements)), nowhere: slices.Repeat([]int{-1}, n.Nodes)}
	if err := p.structure(); err != nil {
		return nil, err
	}
	for i, e := range n.Elements {
		switch e.Kind {
		case Coil:
			p.coils = append(p.coils, i)
		case Contact:
			p.contacts = append(p.contacts, i)
		case Power:
			p.powers = append(p.powers, i)
		case Intake:
			p.powers, p.intakes = append(p.powers, i), append(p.intakes, i)
			p.feeds[e.Control] = i
		}
	}
	return p, nil
}

// structure orders the nodes and finds the place of each element in the matrix.
func (p *Prepared) structure() (err error) {
	var edges []pair
	elements := p.network.Elements
	for i := range elements {
		if e := &elements[i]; p.inner(e) {
			edges = append(edges, pair{p.unknown(e.A), p.unknown(e.B)})
		}
	}
	if p.shape, err = newShape(p.network.Nodes-1, edges); err != nil {
		return err
	}
	for i := range p.row {
		p.row[i] = -1
		if i != p.network.Reference {
			p.row[i] = p.shape.place[p.unknown(i)]
		}
	}
	for i := range elements {
		p.slot[i] = -1
		if e := &elements[i]; p.inner(e) {
			p.slot[i] = p.shape.slot(p.unknown(e.A), p.unknown(e.B))
		}
	}
	return nil
}

// inner tells whether an element joins two different unknown nodes.
func (p *Prepared) inner(e *Element) bool {
	return e.A != e.B && e.A != p.network.Reference && e.B != p.network.Reference
}

// unknown numbers the nodes without the reference.
func (p *Prepared) unknown(node int) int {
	if node > p.network.Reference {
		return node - 1
	}
	return node
}

// Solve solves the network as it was prepared.
func (p *Prepared) Solve() (Solution, error) {
	p.once.Do(p.base)
	if p.fails != nil {
		return Solution{}, p.fails
	}
	return p.sound.clone(), nil
}

// base solves the network as it stands and keeps the way to it.
func (p *Prepared) base() {
	r := p.relays(p.network.Elements)
	r.known, r.other, r.made = p.known, true, trail{}
	if p.fails = r.rest(); p.fails == nil {
		r.solution(&p.sound)
		p.sound.Frozen, p.trail = r.frozen(), r.made
	}
}

// With is the same network with other resistances, by element; 0 leaves an
// element's own, as in a load that has none. It shares the structure, and its
// solving starts from the voltages of the first; the answer is the same as
// from nothing, within the residual.
func (p *Prepared) With(ohms []float64) (*Prepared, error) {
	if len(ohms) != len(p.network.Elements) {
		return nil, fmt.Errorf("circuit: %d resistances for %d elements", len(ohms), len(p.network.Elements))
	}
	n := p.network
	n.Elements = slices.Clone(n.Elements)
	for i, o := range ohms {
		if o != 0 {
			n.Elements[i].Ohms = o
		}
	}
	if err := n.check(); err != nil {
		return nil, err
	}
	p.once.Do(p.base)
	return &Prepared{
		network: n, shape: p.shape, row: p.row, slot: p.slot, coils: p.coils, contacts: p.contacts, powers: p.powers, intakes: p.intakes, feeds: p.feeds, nowhere: p.nowhere, known: p.trail,
	}, nil
}

// Network is what was prepared; it must not be changed.
func (p *Prepared) Network() Network { return p.network }

func (s Solution) clone() Solution {
	s.Volts, s.Amps, s.Zero = slices.Clone(s.Volts), slices.Clone(s.Amps), slices.Clone(s.Zero)
	s.Frozen, s.Energised, s.Chatter = slices.Clone(s.Frozen), slices.Clone(s.Energised), slices.Clone(s.Chatter)
	return s
}

// check tells what is wrong with a network.
func (n *Network) check() error {
	if n.Reference < 0 || n.Reference >= n.Nodes {
		return fmt.Errorf("circuit: the reference node %d is not one of the %d nodes", n.Reference, n.Nodes)
	}
	for _, g := range n.Grounds {
		if g < 0 || g >= n.Nodes {
			return fmt.Errorf("circuit: node %d, to be at 0 V in its island, is not one of the %d nodes", g, n.Nodes)
		}
	}
	for i := range n.Elements {
		if err := n.checkElement(&n.Elements[i]); err != nil {
			return err
		}
	}
	return nil
}

func (n *Network) checkElement(e *Element) error {
	if e.A < 0 || e.A >= n.Nodes || e.B < 0 || e.B >= n.Nodes {
		return fmt.Errorf("circuit: element %s ends on a node that does not exist", e.Name)
	}
	if e.Kind < Resistor || e.Kind > Intake {
		return fmt.Errorf("circuit: element %s is of no known kind", e.Name)
	}
	if e.Kind == Contact && e.Control >= len(n.Elements) {
		return fmt.Errorf("circuit: contact %s follows a coil that does not exist", e.Name)
	}
	if e.Kind == Contact && e.Control >= 0 && n.Elements[e.Control].Kind != Coil {
		return fmt.Errorf("circuit: contact %s follows %s, which is no coil", e.Name, n.Elements[e.Control].Name)
	}
	if e.Kind == Intake {
		if err := n.checkIntake(e); err != nil {
			return err
		}
	}
	return e.checkValues()
}

func (e *Element) checkValues() error {
	for _, v := range []float64{e.Volts, e.Amps, e.AtVolts, e.Floor, e.PullIn, e.DropOut, e.Idle, e.Efficiency, e.Standing} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("circuit: element %s has a value that is no number", e.Name)
		}
	}
	load := e.Kind == Current || e.Kind == Lamp || e.Kind == Power || e.Kind == Intake
	switch {
	case !load && !(e.Ohms > 0):
		return fmt.Errorf("circuit: element %s needs a resistance above 0 ohm", e.Name)
	case load && !(e.Floor > 0):
		return fmt.Errorf("circuit: load %s needs a floor above 0 V", e.Name)
	case (e.Kind == Lamp || e.Kind == Power) && !(e.AtVolts > 0):
		return fmt.Errorf("circuit: load %s needs the voltage at which its current holds", e.Name)
	case (load || e.Kind == Limited) && e.Amps < 0:
		return fmt.Errorf("circuit: element %s has a current below 0 A", e.Name)
	case e.Kind == Coil && !(e.PullIn > 0 && e.DropOut <= e.PullIn):
		return fmt.Errorf("circuit: coil %s must pull in above 0 V and drop out no higher than that", e.Name)
	case e.Kind == Diode && e.Volts < 0:
		return fmt.Errorf("circuit: diode %s has a drop below 0 V", e.Name)
	}
	return nil
}
