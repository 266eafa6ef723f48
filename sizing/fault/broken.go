package fault

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/fault/bench"
	"example.com/loomfolio/sizing/fault/cause"
	"example.com/loomfolio/sizing/fault/way"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/polarity"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
)

// Network gives the solved network of one fault of the dictionary in a state, with the
// fuses open that it opens there, for its netlist. The error says that there is no such
// fault, that it changes nothing in that state, or is one of the solver.
func Network(h *harness.Harness, r *result.Result, state int, id string) (network.State, error) {
	at := slices.IndexFunc(r.Proof.Faults, func(f proof.Fault) bool { return f.ID == id })
	h, _ = polarity.Mend(h)
	ways := way.All(h, r.Loads, r.States)
	causes := cause.All(h, r.States, ways, r.Ways)
	c := slices.IndexFunc(causes.List, func(c cause.Cause) bool { return c.ID == id })
	if at < 0 || c < 0 {
		return network.State{}, fmt.Errorf("there is no fault %q: figures FILE --csv faults lists them all", id)
	}
	return bench.New(h, r, state, causes.Touches, points(h, r, ways)).Broken(&causes.List[c], r.Proof.Faults[at].Ohms)
}

// Network gives the solved network of a fault in a state, as the function of that name.
func (b *Book) Network(state, fault int) (network.State, error) {
	s := b.states[state]
	s.Lock()
	defer s.Unlock()
	return s.bench.Broken(&b.causes[fault], b.causes[fault].Ohms)
}
