// Package grown is for tests: it makes up vehicles of any size, to see how the work
// grows with the wires. A vehicle has a loom like a tree, blade panels that are fed
// through large fuses, relays, switches, connectors, splices, grounds of few rings,
// and eight states. The same count and seed give the same text. It is no part of
// the program, and no advice on how to wire a car.
package grown

import (
	"testing"

	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
)

// Harness gives the checked model of a vehicle of about so many wires.
func Harness(t testing.TB, wires int, seed uint64) *harness.Harness {
	t.Helper()
	d, problems := describe.Parse("grown.yaml", []byte(Text(wires, seed)))
	if problems.HasErrors() {
		t.Fatal(problems)
	}
	h, found := check.Check(d)
	if h == nil {
		t.Fatal(found)
	}
	return h
}

// Text gives its description.
func Text(wires int, seed uint64) string {
	v := newVehicle(wires, seed)
	v.supply()
	for n := 1; v.wires < wires; n++ {
		v.device(n)
	}
	return v.text()
}
