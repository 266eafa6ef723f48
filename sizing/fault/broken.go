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
	causes := cause.All(h, r.States, way.All(h, r.Loads, r.States), r.Ways)
	c := slices.IndexFunc(causes.List, func(c cause.Cause) bool { return c.ID == id })
	if at < 0 || c < 0 {
		return network.State{}, fmt.Errorf("there is no fault %q", id)
	}
	return bench.New(h, r, state, causes.Touches).Broken(&causes.List[c], r.Proof.Faults[at].Ohms)
}
