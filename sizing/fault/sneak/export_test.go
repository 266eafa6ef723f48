package sneak

import (
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// Changed gives a solver for changes of switches from a state, as the search makes them.
func Changed(h *harness.Harness, states []network.State, i int) (func(position []int) (view, error), error) {
	owner := flow.NewNet(h).Owner()
	s := &search{graph: newGraph(h, owner), bench: newBench(h, states), owner: owner}
	base := scene{name: h.States[i].Name, like: i, position: h.States[i].Position, engine: h.States[i].Engine}
	st, err := s.prepare(base, nil, nil)
	return func(position []int) (view, error) {
		c := base
		c.position = position
		v, _, err := s.solve(st, &c)
		return v, err
	}, err
}
