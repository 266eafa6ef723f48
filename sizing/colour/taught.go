package colour

import (
	"fmt"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Taught says in words which wires must look different where reels are saved.
func Taught(h *harness.Harness) string {
	a := apartOf(h)
	out := "all wires that end at one part"
	if a.Near > 0 {
		out = fmt.Sprintf("in panels, plugs and modules the wires within %s of each other, at every other part all", unit.Counted(a.Near, "position"))
	}
	if a.Runs == "colour" {
		out += "; all in one run"
	} else {
		out += "; in one run where that costs no reel"
	}
	if a.Branchings {
		out += "; all that pass one branching"
	}
	return out
}
