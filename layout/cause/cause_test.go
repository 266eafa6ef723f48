package cause

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// words is a model of a plug, a wire and a relay with faults of all kinds.
func words() Words {
	h := &harness.Harness{
		Parts:     []harness.Part{{ID: 0, Ref: "X2", Kind: harness.Connector}, {ID: 1, Ref: "K1", Kind: harness.Relay}, {ID: 2, Ref: "HLL", Kind: harness.Lamp}},
		Terminals: []harness.Terminal{{Part: harness.None, Full: "chassis"}, {ID: 1, Part: 0, Name: "4.in", Full: "X2.4.in", Cavity: "4"}, {ID: 2, Part: 1, Name: "30", Full: "K1.30"}},
		Wires:     []harness.Wire{{ID: 0, Name: "12A"}},
	}
	wire := func(id string, k proof.Kind) proof.Fault {
		return proof.Fault{ID: id, Element: "12A", Kind: k, Wire: 0}
	}
	part := func(name string, k proof.Kind, of harness.PartID) proof.Fault {
		return proof.Fault{ID: name + ":" + string(k), Element: name, Kind: k, Part: of, Wire: harness.None}
	}
	return Words{H: h, P: &proof.Proof{
		Points: []proof.Point{{At: 1}, {At: 2}},
		Faults: []proof.Fault{
			wire("12A:open", proof.Open), wire("12A:joint-30", proof.Joint), wire("12A:short", proof.Short), wire("12A~13B:short", proof.Short),
			part("K1.30-87", proof.Welded, 1), part("K1", proof.Stuck, 1), part("K1.coil", proof.Shorted, 1), part("G3", proof.Unearthed, harness.None),
			part("D1", proof.Shorted, harness.None), part("BAT", proof.Flat, harness.None), part("BAT", proof.Disconnected, harness.None),
			part("ALT", proof.Dead, harness.None), part("X2.4", proof.Joint, 0), part("HLL.56a-31", proof.Open, 2), part("X2.4~X2.5", proof.Short, 0),
		},
	}}
}

func TestFaultsInWords(t *testing.T) {
	w := words()
	var all []int
	for i := range w.P.Faults {
		all = append(all, i)
	}
	require.Equal(t, []string{
		"12A", "12A to ground", "12A to 13B", "K1 welded", "K1", "G3", "D1 shorted", "BAT flat", "BAT lead off", "ALT gives nothing", "X2.4", "HLL.56a", "X2.4 to X2.5",
	}, listed(w, all))
	require.Equal(t, "12A, D1, G3, HLL.56a, K1, X2.4, 12A to 13B, K1 welded, BAT flat, BAT lead off, ALT gives nothing, X2.4 to X2.5; to ground: 12A", plain(w.Grouped(all)))
	require.Equal(t, []string{"12A", "K1"}, w.Things([]int{0, 1, 2, 4, 5}))
	w.P.Faults[2].Blown, w.P.Faults[3].Blown = []harness.ElementID{0}, []harness.ElementID{0}
	require.Equal(t, "K1; blown: 12A, 12A to 13B", plain(w.Grouped([]int{5, 2, 3})))
	w.P.Faults[2].Blown = nil
	require.Equal(t, "K1; to ground: 12A", plain(w.Grouped([]int{5, 2})), "a wire stands with what it touches")
	require.Equal(t, "12A, K1; to ground: 12A", plain(w.Grouped([]int{0, 5, 2})), "another reading than that of the open wire, of a sensor's the opposite")
}

// listed says faults one by one, each once.
func listed(w Words, faults []int) []string {
	var out []string
	for _, f := range faults {
		out = appendOnce(out, w.Fault(&w.P.Faults[f]))
	}
	return out
}

func plain(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

func TestPointsInWords(t *testing.T) {
	w := words()
	require.Equal(t, "X2.4", w.Point(0))
	require.Equal(t, "battery −", w.Point(proof.None))
	require.Equal(t, "K1.30 – X2.4", w.Probe(&proof.Probe{Point: 1, Against: 0}))
	require.Equal(t, "K1.30", w.Probe(&proof.Probe{Point: 1, Against: proof.None}))
}

// TestVoltsInWords: limits are rounded outwards, so that nothing right is called wrong.
func TestVoltsInWords(t *testing.T) {
	require.Equal(t, "12.1–12.7", Limits(12.14, 12.61))
	require.Equal(t, "12.1–12.6", Limits(12.1, 12.6), "what is a tenth stays one")
	require.Equal(t, "0", Limits(0, 0))
	require.Equal(t, "0–0.1", Limits(0, 0.02))
	require.Equal(t, "−12.7 to −12.1", Limits(-12.61, -12.14))
	require.Equal(t, "±0.4", Limits(-0.31, 0.36))
	require.Equal(t, "11.4–12.6", Band(11.42, 12.58))
	require.Equal(t, "0", Band(-0.01, 0.03))
	require.Equal(t, "−0.4 to 0.4", Band(-0.4, 0.4))
}
