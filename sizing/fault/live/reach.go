package live

import (
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// feeds is the resistance up to which a resistor feeds what is behind it, ohm: one in
// series with a blower or a coil, not one that a module senses through. Judgement, not
// published.
const feeds = 10

// reached marks the pieces to which closed metal leads from the live side of a source that
// is there, and from the earth side.
func (t *table) reached(st view, off []harness.ElementID) (fed, ground []bool) {
	var lives, earths []int
	for i := range t.h.Elements {
		e := &t.h.Elements[i]
		if !e.Gives() || !st.There(e) {
			continue
		}
		earths = append(earths, t.piece[t.h.Earthed(e)])
		if !slices.Contains(off, e.ID) {
			lives = append(lives, t.piece[t.h.Live(e)])
		}
	}
	if len(lives) == 0 || !t.h.System.WiredReturn {
		earths = append(earths, t.piece[harness.Chassis])
	}
	return t.spread(st, lives, true), t.spread(st, earths, false)
}

// spread marks what metal joins to some pieces; over diodes where they let a feed pass.
func (t *table) spread(st view, from []int, diodes bool) []bool {
	out := make([]bool, len(t.piece))
	for queue := from; len(queue) > 0; queue = queue[1:] {
		n := queue[0]
		if out[n] {
			continue
		}
		out[n] = true
		for _, i := range t.at[n] {
			e := &t.h.Elements[i]
			a, b := t.piece[e.A], t.piece[e.B]
			if t.leads(st, e, n == a, diodes) {
				queue = append(queue, a+b-n)
			}
		}
	}
	return out
}

// leads tells whether an element leads a feed on from its A or its B in a solved state.
func (t *table) leads(st view, e *harness.Element, fromA, diodes bool) bool {
	switch e.Kind {
	case harness.Join, harness.Contact, harness.FuseLink:
		return st.There(e)
	case harness.Resistance:
		return e.Ohms <= feeds && st.There(e)
	case harness.Rectifier:
		return diodes && fromA != t.h.System.PositiveEarth
	}
	return false
}

// view is what was solved.
type view interface {
	Volts(t harness.TerminalID) float64
	There(e *harness.Element) bool // a source gives, anything else joins its ends
}

// whole is a solved state.
type whole struct{ st *network.State }

func (v *whole) Volts(t harness.TerminalID) float64 { return v.st.Volts[t] }

// There: a join that was made one node is no element of the network; a battery that neither
// gives nor takes is there.
func (v *whole) There(e *harness.Element) bool {
	at := v.st.ElementAt[e.ID]
	switch {
	case at < 0:
		return e.Kind == harness.Join && v.st.Of[e.A] == v.st.Of[e.B]
	case e.Gives():
		return true
	}
	return v.st.Elements[at].Kind != "open"
}

// pulled is a state with a fuse out.
type pulled struct {
	h    *harness.Harness
	s    *harness.State
	fuse harness.ElementID
	network.Reading
}

// There goes by the switches, the engine and the coils.
func (v *pulled) There(e *harness.Element) bool {
	switch w := e.When; w.Kind {
	case harness.InPosition:
		return slices.Contains(w.Positions, v.s.Position[w.Switch])
	case harness.EngineIs:
		return slices.Contains(w.Engines, v.s.Engine)
	case harness.Energised:
		return v.Energised(w.Coil)
	case harness.Released:
		return !v.Energised(w.Coil)
	}
	return e.ID != v.fuse
}
