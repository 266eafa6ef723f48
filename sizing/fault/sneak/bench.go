package sneak

import (
	"encoding/binary"
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// bench solves scenes.
type bench struct {
	free   *harness.Harness // the model with every switch's contact there, to be opened and closed
	states []network.State
	moved  [][]harness.ElementID // by PartID: the contacts that its positions open and close
	stiff  []bool                // by PartID: something else depends on its position
}

// scene is how the switches stand and what the engine does.
type scene struct {
	name     string
	like     int // the solved state whose resistances it takes
	position []int
	engine   harness.Engine
	from     string           // the name of the state of which it is a change
	changed  []harness.PartID // since then
}

// key is the same for scenes that are one.
func (c *scene) key() string {
	b := []byte(c.engine)
	for _, n := range c.position {
		b = binary.AppendUvarint(b, uint64(n))
	}
	return string(b)
}

// joinOhms is what a join that a switch makes counts as, ohm.
const joinOhms = 0.001

func newBench(h *harness.Harness, states []network.State) bench {
	b := bench{states: states, moved: make([][]harness.ElementID, len(h.Parts)), stiff: make([]bool, len(h.Parts))}
	free := *h
	free.Elements = slices.Clone(h.Elements)
	for i := range free.Elements {
		e := &free.Elements[i]
		if e.When.Kind != harness.InPosition {
			continue
		}
		sw := e.When.Switch
		switch e.Kind {
		case harness.Join:
			e.Kind, e.Ohms = harness.Contact, joinOhms
		case harness.Contact:
		default:
			b.stiff[sw] = true
			continue
		}
		b.moved[sw] = append(b.moved[sw], e.ID)
		e.When = harness.Condition{}
	}
	b.free = &free
	return b
}

// stand is a scene that stays prepared, for changes from it.
type stand struct {
	scene
	ready  *network.Prepared
	faults *network.Faults
	ohms   []float64 // by ElementID, of what is moved: when it is closed
}

// prepare makes a scene ready. Held are the coils that begin energised, turning the loads
// that are turned from outside.
func (s *search) prepare(c scene, held []harness.ElementID, turning []network.Source) (*stand, error) {
	h := *s.free
	h.States = []harness.State{{Name: c.name, Position: c.position, Engine: c.engine}}
	r := s.states[c.like].Resistances()
	st := &stand{scene: c, ohms: make([]float64, len(h.Elements))}
	for _, list := range s.moved {
		for _, id := range list {
			st.ohms[id] = s.closedOhms(id, r.Links[id])
			if r.Links[id] = st.ohms[id]; !s.closed(id, c.position) {
				r.Links[id] = math.Inf(1)
			}
		}
	}
	var err error
	if st.ready, err = network.Prepare(&h, 0, r, network.Options{Held: held, Turning: turning}); err != nil {
		return nil, err
	}
	st.faults, err = st.ready.Faults()
	return st, err
}

// contactOhms is a closed contact where the model says nothing; common practice, no source.
const contactOhms = 0.002

func (s *search) closedOhms(id harness.ElementID, link float64) float64 {
	switch own := float64(s.free.Elements[id].Ohms); {
	case link > 0 && !math.IsInf(link, 1):
		return link
	case own > 0:
		return own
	}
	return contactOhms
}

// closed tells whether a contact that a switch moves is closed in some positions.
func (s *search) closed(id harness.ElementID, position []int) bool {
	w := s.h.Elements[id].When
	return slices.Contains(w.Positions, position[w.Switch])
}

// changes lists what a scene changes of the one that is prepared; not ok where it cannot be
// had by opening and closing contacts.
func (s *search) changes(st *stand, c *scene) (out []network.Fault, ok bool) {
	for p, n := range c.position {
		if n == st.position[p] {
			continue
		}
		if s.stiff[p] {
			return nil, false
		}
		for _, id := range s.moved[p] {
			now, before := s.closed(id, c.position), s.closed(id, st.position)
			switch {
			case now && !before:
				out = append(out, network.Fault{Wire: harness.None, Element: id, Ohms: st.ohms[id]})
			case before && !now:
				out = append(out, network.Fault{Wire: harness.None, Element: id, Ohms: math.Inf(1)})
			}
		}
	}
	return out, c.engine == st.engine
}

// view is what was solved of a scene.
type view interface {
	Amps(harness.ElementID) float64
	WireAmps(harness.WireID) float64
	Volts(harness.TerminalID) float64
	Energised(harness.ElementID) bool
}

// solve solves a scene from one that is prepared; full gives the whole state of it.
func (s *search) solve(st *stand, c *scene) (v view, full func() (network.State, error), err error) {
	list, ok := s.changes(st, c)
	if !ok {
		if st, err = s.prepare(*c, nil, nil); err != nil {
			return nil, nil, err
		}
		list = nil
	}
	s.Looked.Solved++
	reading, err := st.faults.Try(list...)
	return reading, func() (network.State, error) { return st.ready.Broken(list...) }, err
}
