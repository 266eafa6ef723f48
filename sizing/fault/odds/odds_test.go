package odds_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/rating"
)

// Weights by hand, by the rows of the tables.
func TestWeightsByHand(t *testing.T) {
	_, r := worked.Named(t, "first")
	weights := map[string]float64{}
	for _, f := range r.Proof.Faults {
		weights[f.ID] = f.Weight
	}
	for id, want := range map[string]float64{
		// battery clamp 15, crimp 1; fuse holder's crimp 1; 0.15 m of cable at 0.3 a metre, 0.19 of it opening
		"3A:open": 17*0.61 + 0.15*0.3*0.19,
		// a third of what connections fail by poor contact; the cable itself has none
		"3A:joint-30":      17 * 0.23 / 3,
		"MF1:open":         3*0.61 + 10*0.08,
		"MF1:burnt-60":     3 * 0.23 / 3,
		"G1:unearthed":     10 * 0.61,
		"G3:unearthed":     4 * 0.61,
		"K1:stuck":         30 * 0.55 / 6,
		"K1.30-87:welded":  30 * 0.26,
		"IGN.30-15:open":   15 * 0.65 / 4,
		"FAN:open":         30 * (0.41 + 0.28), // does not run, or its bearings hold it
		"L1:open":          20 * 0.67,          // on in one state of four
		"BAT:flat":         200 * 0.7,
		"BAT:disconnected": 15 * 0.61,
	} {
		require.InEpsilon(t, want, weights[id], 0.02, id)
	}
}

// A load that gets its volts and does nothing is mostly stuck or slow, not open: the share of
// both, only the short apart.
func TestIdleCountsAsOpen(t *testing.T) {
	_, r := worked.Named(t, "kestrel")
	weights := map[string]float64{}
	for _, f := range r.Proof.Faults {
		weights[f.ID] = f.Weight
	}
	require.InEpsilon(t, 10*(0.05+0.43), weights["HORN1:open"], 1e-9)
	require.InEpsilon(t, 10*0.52, weights["HORN1:shorted"], 1e-9)
	for _, modes := range []string{"solenoid", "motor", "gauge", "resistor"} {
		require.InDelta(t, 1, rating.FaultShare(modes, "open")+rating.FaultShare(modes, "idle")+rating.FaultShare(modes, "shorted"), 1e-9, modes)
	}
}

// A blown fuse is an effect: a fuse is a cause only as an element that opens too early or a
// holder that is bad, and weighs less than the wires behind it.
func TestBlownFuseHasNoWeight(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		fuses := map[string]bool{}
		for _, f := range r.Fuses {
			fuses[h.Elements[f.Element].Name] = true
		}
		for _, f := range r.Proof.Faults {
			if fuses[f.Element] && f.Kind == proof.Open {
				require.InEpsilon(t, 3*0.61+10*0.08, f.Weight, 1e-9, f.ID)
			}
		}
	}
}

// Every row that the code names is in the tables, and every row is named.
func TestRowsAreNamed(t *testing.T) {
	var code strings.Builder
	for _, name := range []string{"odds.go", "parts.go"} {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		code.Write(text)
	}
	table, err := os.ReadFile("../../rating/fault-weights.csv")
	require.NoError(t, err)
	for _, line := range strings.Split(strings.TrimSpace(string(table)), "\n")[1:] {
		key, _, _ := strings.Cut(line, ",")
		require.Contains(t, code.String(), `"`+key+`"`)
		w, ok := rating.FaultWeightOf(key)
		require.True(t, ok)
		require.Positive(t, w.Weight)
	}
	for _, m := range regexp.MustCompile(`FaultShare\("([a-z-]+)", "([a-z]+)"\)`).FindAllStringSubmatch(code.String(), -1) {
		require.Positive(t, rating.FaultShare(m[1], m[2]), m[0])
	}
}
