package grown

import "testing"

// A vehicle is whole, near its count, in many runs, and the same each time.
func TestVehicle(t *testing.T) {
	for _, wires := range []int{60, 300} {
		h := Harness(t, wires, 1)
		if n := len(h.Wires); n < wires || n > wires+12 {
			t.Errorf("%d wires, wanted %d", n, wires)
		}
		if len(h.Runs) < 7 || len(h.States) != driving+3 {
			t.Errorf("%d runs, %d states", len(h.Runs), len(h.States))
		}
		once, again := Text(wires, 1), Text(wires, 1)
		if once != again || once == Text(wires, 2) {
			t.Error("the text follows from the count and the seed")
		}
	}
}
