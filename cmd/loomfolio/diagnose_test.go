package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/cmd/loomfolio/diagnose"
)

// TestDiagnose: from a dead fan to the wire, step by step, as one does it at the car.
func TestDiagnose(t *testing.T) {
	first := sampleFile(t, "first")
	code, out, errs := do("diagnose", first, "--dead", "FAN")
	require.Zero(t, code, errs)
	require.Contains(t, out, "Told: FAN dead.")
	require.Contains(t, out, "State: driving (IGN run, SW1 on, engine running); --state names another")
	require.Contains(t, out, "What it can be, the likeliest first:")
	require.Contains(t, flat(out), "Blown is an effect: first find the short")
	require.Contains(t, out, "Look: does PUMP (Fuel pump) work")
	require.Contains(t, out, "\nNext: red on ")
	require.Contains(t, flat(out), "black on")
	require.Contains(t, flat(out), "FAN connected and on")

	code, out, errs = do("diagnose", first, "--dead", "FAN", "--live", "PUMP,L1", "--state", "night", "--reads", "FAN.+=13,6V", "--reads", "K1.87=13.7 V,FAN.-=13,5")
	require.Zero(t, code, errs)
	require.Contains(t, flat(out), "FAN.+ reads 13.6 V, K1.87 reads 13.7 V, FAN.- reads 13.5 V")
	require.Contains(t, out, "State: night (")
	_, best, _ := strings.Cut(out, "first:\n")
	require.Regexp(t, `^ +\d+ %  wire 3N open: FAN\.- to G1, Radiator fan`, best)
}

// TestDiagnoseFitsATerminal of 80 columns.
func TestDiagnoseFitsATerminal(t *testing.T) {
	wholeRun(t)
	for _, args := range [][]string{
		{sampleFile(t, "first"), "--dead", "FAN,L1", "--live", "PUMP,L2", "--comes-and-goes"},
		{sampleFile(t, "kestrel"), "--dead", "FAN1,FAN2", "--reads", "X1.4=0", "--reads", "KE.87/KE.30=-12"},
	} {
		code, out, errs := do(append([]string{"diagnose"}, args...)...)
		require.Zero(t, code, errs)
		for _, line := range strings.Split(out, "\n") {
			require.LessOrEqual(t, utf8.RuneCountInString(line), 80, line)
			require.Equal(t, strings.TrimRight(line, " "), line)
		}
	}
}

// TestDiagnoseSaysWhatIsWrong with what it is told: names, volts, what contradicts itself.
func TestDiagnoseSaysWhatIsWrong(t *testing.T) {
	wholeRun(t)
	first := sampleFile(t, "first")
	for _, c := range []struct {
		says string
		args []string
	}{
		{"diagnose takes one file", nil},
		{"diagnose takes one file", []string{first, first}},
		{"say what is seen or measured", []string{first}},
		{`there is no load "FNA"`, []string{first, "--dead", "FNA"}},
		{"did you mean FAN?", []string{first, "--dead", "FNA"}},
		{"loads: FAN, PUMP, L1, L2", []string{first, "--live", "everything"}},
		{`there is no test point "FAN.plus"`, []string{first, "--reads", "FAN.plus=3"}},
		{"did you mean K1.85?", []string{first, "--reads", "K1.88=3"}},
		{"points are terminals on which a wire ends", []string{first, "--reads", "nowhere-at-all=3"}},
		{"FAN has more than one test point", []string{first, "--reads", "FAN=3"}},
		{"say which: FAN.+, FAN.-", []string{first, "--reads", "FAN=3"}},
		{`"FAN.+" is no reading`, []string{first, "--reads", "FAN.+"}},
		{`"10.x" is no voltage`, []string{first, "--reads", "FAN.+=10.x"}},
		{`"NaN" is no voltage`, []string{first, "--reads", "FAN.+=NaN"}},
		{`"20 A" is no voltage`, []string{first, "--reads", "FAN.+=20 A"}},
		{`there is no state "nigth"`, []string{first, "--dead", "FAN", "--state", "nigth"}},
		{"did you mean night?", []string{first, "--dead", "FAN", "--state", "nigth"}},
		{"option --dead needs a word after it", []string{first, "--dead"}},
	} {
		code, out, errs := do(append([]string{"diagnose"}, c.args...)...)
		require.Equal(t, exitUnusable, code, c.says)
		require.Empty(t, out, c.says)
		require.Contains(t, errs, c.says)
	}
	for says, args := range map[string][]string{
		"FAN is told to be both dead and live":         {"--dead", "FAN", "--live", "FAN"},
		"FAN is off in state parked when all is well":  {"--dead", "FAN", "--state", "parked"},
		"FAN.+ is told to read both 12 V and 3 V":      {"--dead", "FAN", "--reads", "FAN.+=12,FAN.+=3"},
		"240 V at FAN.+ is more than any source gives": {"--dead", "FAN", "--reads", "FAN.+=240"},
		"No single fault explains this":                {"--dead", "FAN,L1", "--live", "PUMP,L2"},
		"All of this is as it should be with no fault": {"--live", "FAN", "--reads", "FAN.-=0,1"},
		"It comes and goes: wiggle, load and heat it":  {"--dead", "FAN", "--comes-and-goes"},
		"FAN.+ against FAN.- reads 0.12 V":             {"--weak", "FAN", "--reads", "FAN.+/FAN.-=120 mV"},
		"FAN dead, L1 live in state night":             {"--dead", "FAN", "--live", "L1"},
	} {
		code, out, errs := do(append([]string{"diagnose", first}, args...)...)
		require.Zero(t, code, errs)
		if says == "FAN dead, L1 live in state night" {
			says = "FAN dead, L1 live." // both work in that state, so it is the one that is taken
			require.Contains(t, out, "State: night")
		}
		require.Contains(t, flat(out), says)
	}
}

// TestDiagnoseAsJSON has everything under fixed names, and the ids of the figures.
func TestDiagnoseAsJSON(t *testing.T) {
	wholeRun(t)
	first := sampleFile(t, "first")
	code, out, errs := do("diagnose", first, "--dead", "FAN", "--reads", "K1.87=0", "--json")
	require.Zero(t, code, errs)
	var d diagnose.Diagnosis
	require.NoError(t, json.Unmarshal([]byte(out), &d))
	require.Equal(t, "driving", d.State)
	require.NotEmpty(t, d.Remaining)
	require.NotNil(t, d.Next)
	require.Equal(t, []string{"FAN"}, d.Next.On)
	require.GreaterOrEqual(t, len(d.Next.Answers), 2)
	code, out, _ = do("figures", first, "--json")
	require.Zero(t, code)
	var figures struct {
		Faults []struct{ ID string }
	}
	require.NoError(t, json.Unmarshal([]byte(out), &figures))
	ids := map[string]bool{}
	for _, f := range figures.Faults {
		ids[f.ID] = true
	}
	sum := 0.0
	for i, r := range d.Remaining {
		require.True(t, ids[r.ID], r.ID)
		sum += r.Share
		require.True(t, i == 0 || r.Share <= d.Remaining[i-1].Share, "the likeliest first")
	}
	require.InDelta(t, 1, sum, .05)
	for _, key := range []string{`"notes": []`, `"wrong": []`, `"unexplained": [`, `"two_faults": []`, `"as_it_is": false`} {
		require.Contains(t, strings.ReplaceAll(mustJSON(t, first), "null", "[]"), key)
	}
}

func mustJSON(t *testing.T, file string) string {
	_, out, _ := do("diagnose", file, "--dead", "FAN", "--json")
	return out
}

// TestDiagnoseWarnsOfAShortWithoutAFuse, and not where a fuse ends it.
func TestDiagnoseWarnsOfAShortWithoutAFuse(t *testing.T) {
	first := sampleFile(t, "first")
	_, out, _ := do("diagnose", first, "--dead", "FAN,PUMP,L1,L2", "--reads", "BAT.+=10")
	require.Contains(t, flat(out), "a short before any fuse is among these")
	_, out, _ = do("diagnose", first, "--dead", "PUMP", "--live", "FAN", "--reads", "MF2.2=0,MF2.1=14")
	require.Contains(t, out, "Blown is an effect")
	require.NotContains(t, out, "before any fuse")
}

// TestDiagnoseWritesNothing beside the description.
func TestDiagnoseWritesNothing(t *testing.T) {
	first := sampleFile(t, "first")
	before, err := os.ReadFile(first)
	require.NoError(t, err)
	code, _, errs := do("diagnose", first, "--dead", "FAN")
	require.Zero(t, code, errs)
	files, err := os.ReadDir(filepath.Dir(first))
	require.NoError(t, err)
	require.Len(t, files, 1)
	after, err := os.ReadFile(first)
	require.NoError(t, err)
	require.Equal(t, before, after)
}
