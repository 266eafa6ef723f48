// Package live tells which pieces of metal are live when.
//
// In: the model, its solved states and fuses. Out: the nets (terminals that wires and
// fixed joins make one) with how each stands in every column: the states, the key off with
// what works then, the battery off the loom or an isolator open while the engine turns the
// alternator; and fuse by fuse what differs with it out.
//
// Method: each column is solved. A net is fed where closed metal (wires, contacts, fuses,
// diodes as they lead, resistors of a few ohms) leads to it from a source that is there and
// the solved voltage says so; it is behind a load where it shows volts without that; it is
// ground where metal leads to the earth side. Always holds: one value a net and column.
package live

import (
	"math"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
)

// Sheet is what is live when.
type Sheet struct {
	When    []string
	Nets    []proof.Live
	Without []proof.Without
}

// table carries what the columns are made of.
type table struct {
	h      *harness.Harness
	states []network.State
	piece  []int   // by terminal: the first terminal of its piece of metal
	net    []int   // by terminal: its net, harness.None where no wire ends on its piece
	at     [][]int // by piece
	Sheet
}

// All tells it for every state, for what a driver may do beside them, and fuse by fuse.
// The error is the solver's.
func All(h *harness.Harness, states []network.State, fuses []chosen.Fuse) (Sheet, error) {
	t := &table{h: h, states: states}
	t.nets()
	t.touching()
	for i := range states {
		t.column(states[i].Name, &states[i], nil)
	}
	for _, c := range t.columns() {
		st, err := t.solve(c)
		if err != nil {
			return Sheet{}, err
		}
		t.column(c.name, &st, c.off)
	}
	err := t.fusesOut(fuses)
	return t.Sheet, err
}

// nets numbers the pieces of metal, in the order of their terminals, and lists those on
// which wires end.
func (t *table) nets() {
	f := forest.New(len(t.h.Terminals))
	for _, w := range t.h.Wires {
		f.Join(int(w.From), int(w.To))
	}
	for _, e := range t.h.Elements {
		if e.Kind == harness.Join && e.When.Kind == harness.Always {
			f.Join(int(e.A), int(e.B))
		}
	}
	t.piece, t.net = make([]int, len(t.h.Terminals)), make([]int, len(t.h.Terminals))
	for i := range t.piece {
		t.piece[i], t.net[i] = f.Root(i), harness.None
	}
	for _, w := range t.h.Wires {
		t.net[t.piece[w.From]] = 0
	}
	for i, piece := range t.piece {
		if t.net[piece] == harness.None {
			continue
		}
		if i == piece {
			t.net[i] = len(t.Nets)
			t.Nets = append(t.Nets, proof.Live{Net: harness.TerminalID(i)})
		}
		t.net[i] = t.net[piece]
		net := &t.Nets[t.net[i]]
		net.Points = append(net.Points, harness.TerminalID(i))
	}
	for _, w := range t.h.Wires {
		net := &t.Nets[t.net[w.From]]
		net.Wires = append(net.Wires, w.ID)
	}
}

// touching lists the elements by the piece that they end on.
func (t *table) touching() {
	t.at = make([][]int, len(t.h.Terminals))
	for i, e := range t.h.Elements {
		a, b := t.piece[e.A], t.piece[e.B]
		t.at[a] = append(t.at[a], i)
		t.at[b] = append(t.at[b], i)
	}
}

// column adds how every net stands in a solved state; the sources in off give nothing.
func (t *table) column(name string, st *network.State, off []harness.ElementID) {
	t.When = append(t.When, name)
	for i, l := range t.stand(&whole{st}, off) {
		t.Nets[i].When = append(t.Nets[i].When, l)
	}
}

// shows is the voltage from which a meter's reading counts as live; common practice, no source.
const shows = 0.5

// stand tells how every net stands in a solved state.
func (t *table) stand(st view, off []harness.ElementID) []proof.Lives {
	fed, ground := t.reached(st, off)
	out := make([]proof.Lives, len(t.Nets))
	for i := range t.Nets {
		at := t.Nets[i].Net
		volts := math.Abs(st.Volts(at)) // of NaN nothing below is true
		switch {
		case fed[at] && volts > shows:
			out[i] = proof.Fed
		case ground[at]:
			out[i] = proof.Ground
		case volts > shows:
			out[i] = proof.Behind
		}
	}
	return out
}
