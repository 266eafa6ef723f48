package circuit

import (
	"fmt"
	"math"
)

// Prepared is a network with its structure worked out: it can be solved many
// times, also at once from several goroutines, with one element changed.
type Prepared struct {
	network Network
	shape   *shape
	row     []int // by node: its row in the matrix, -1 for the reference
	slot    []int // by element: its place above the diagonal, -1 when it has none
	coils   []int // the elements that are coils
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
	p := &Prepared{network: n, row: make([]int, n.Nodes), slot: make([]int, len(n.Elements))}
	var edges []pair
	for _, e := range n.Elements {
		if p.inner(&e) {
			edges = append(edges, pair{p.unknown(e.A), p.unknown(e.B)})
		}
	}
	p.shape = newShape(n.Nodes-1, edges)
	for i := range p.row {
		p.row[i] = -1
		if i != n.Reference {
			p.row[i] = p.shape.place[p.unknown(i)]
		}
	}
	for i, e := range n.Elements {
		p.slot[i] = -1
		if p.inner(&e) {
			p.slot[i] = p.shape.slot(p.unknown(e.A), p.unknown(e.B))
		}
		if e.Kind == Coil {
			p.coils = append(p.coils, i)
		}
	}
	return p, nil
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
	return p.run(p.network.Elements, nil)
}

// Faulted solves the network with one element replaced by a resistance: +Inf
// for one that is open. Contacts that follow a replaced coil stay as when it is
// released. The solution of the sound network makes it quicker; it may be empty.
func (p *Prepared) Faulted(element int, ohms float64, sound Solution) (Solution, error) {
	if element < 0 || element >= len(p.network.Elements) {
		return Solution{}, fmt.Errorf("circuit: there is no element %d", element)
	}
	elements := append([]Element(nil), p.network.Elements...)
	elements[element].Kind, elements[element].Ohms = Resistor, ohms
	if err := p.network.checkElement(&elements[element]); err != nil {
		return Solution{}, err
	}
	return p.run(elements, sound.Volts)
}

// check tells what is wrong with a network.
func (n *Network) check() error {
	if n.Reference < 0 || n.Reference >= n.Nodes {
		return fmt.Errorf("circuit: the reference node %d is not one of the %d nodes", n.Reference, n.Nodes)
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
	if e.Kind < Resistor || e.Kind > Diode {
		return fmt.Errorf("circuit: element %s is of no known kind", e.Name)
	}
	if e.Kind == Contact && e.Control >= len(n.Elements) {
		return fmt.Errorf("circuit: contact %s follows a coil that does not exist", e.Name)
	}
	if e.Kind == Contact && e.Control >= 0 && n.Elements[e.Control].Kind != Coil {
		return fmt.Errorf("circuit: contact %s follows %s, which is no coil", e.Name, n.Elements[e.Control].Name)
	}
	return e.checkValues()
}

func (e *Element) checkValues() error {
	for _, v := range []float64{e.Volts, e.Amps, e.AtVolts, e.Floor, e.PullIn, e.DropOut, e.Idle} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("circuit: element %s has a value that is no number", e.Name)
		}
	}
	load := e.Kind == Current || e.Kind == Lamp
	switch {
	case !load && !(e.Ohms > 0):
		return fmt.Errorf("circuit: element %s needs a resistance above 0 ohm", e.Name)
	case load && !(e.Floor > 0):
		return fmt.Errorf("circuit: load %s needs a floor above 0 V", e.Name)
	case e.Kind == Lamp && !(e.AtVolts > 0):
		return fmt.Errorf("circuit: lamp %s needs the voltage at which its current holds", e.Name)
	case (load || e.Kind == Limited) && e.Amps < 0:
		return fmt.Errorf("circuit: element %s has a current below 0 A", e.Name)
	case e.Kind == Coil && !(e.PullIn > 0 && e.DropOut <= e.PullIn):
		return fmt.Errorf("circuit: coil %s must pull in above 0 V and drop out no higher than that", e.Name)
	case e.Kind == Diode && e.Volts < 0:
		return fmt.Errorf("circuit: diode %s has a drop below 0 V", e.Name)
	}
	return nil
}
