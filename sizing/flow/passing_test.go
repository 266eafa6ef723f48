package flow

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
)

// A battery behind MF (100 A) and an alternator of 45 A behind CF (200 A) feed
// one post; F1 (30 A) hangs on it by a short wire.
const charged = `
battery BAT BAT.+ BAT.-
alternator ALT ALT.B+ ALT.case
fuse MF MF.1 MF.2
fuse CF CF.1 CF.2
fuse F1 F1.1 F1.2
load L1 L1.+ L1.-
ground G1 G1 chassis
wire A BAT.+ MF.1
wire B MF.2 POST
wire C ALT.B+ CF.1
wire D CF.2 POST
wire E POST F1.1
wire F F1.2 L1.+
wire N L1.- G1
wire M BAT.- G1
wire O ALT.case G1`

func TestFusesPassNoMoreThanTheyAreFed(t *testing.T) {
	r := build(charged)
	rated := map[string]float64{"MF": 100, "CF": 200, "F1": 30}
	n := NewNet(r.h)
	p := n.Passing(func(id harness.ElementID) float64 { return rated[r.h.Elements[id].Name] })
	wire := r.wire
	for _, c := range []struct {
		fuse, wire string
		amps       float64
	}{
		{"MF", "B", 100}, // the battery gives all that the fuse passes
		{"CF", "D", 54},  // 45 A and a fifth over it is all that the alternator gives; common practice, no source
		{"CF", "C", 100}, // towards the alternator no more than MF passes
		{"F1", "F", 30},
		{"F1", "E", 0},  // nothing feeds the load's side
		{"F1", "N", 30}, // a return: the most that it passes
	} {
		require.InDelta(t, c.amps, p.Into(r.element(c.fuse), wire(c.wire)), 1e-9, "%s into %s", c.fuse, c.wire)
	}
	far, near := n.Taps(wire("E"))
	require.Equal(t, []harness.ElementID{r.element("F1")}, append(far, near...))
	far, near = n.Taps(wire("N"))
	require.Empty(t, append(far, near...))
}
