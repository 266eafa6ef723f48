package main

import (
	"encoding/json"
	"path/filepath"
	"regexp"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/cmd/loomfolio/diagnose"
)

// realCases are faults that people found in real vehicles and told of, each described as a
// small one of our own, with the symptom and the readings that they told: what it was is
// named first or second.
var realCases = []struct {
	file string
	args []string
	is   string // the ids of faults of that class
}{
	// corroded contacts inside a panel breaker: 12.5 V before it, 9.7 V behind it with the plotter on
	{"plotter", []string{"--weak", "PLT", "--live", "CAB", "--reads", "BR1.1=12.5,BR1.2=9.7"}, `^BR1:burnt`},
	// a bait pump with 8 V of 12.5 V at its leads, where a test lamp lit: resistance in the feed
	{"bait-pump", []string{"--dead", "PMP", "--reads", "PMP.+=8.0"}, `^(2[A-E]:joint|F1:burnt|SW.1-2:burnt|X1.1:burnt)`},
	// a masthead lamp that works when the wire is touched: 13.3 V at the breaker, the end loose under its screw
	{"masthead", []string{"--dead", "MST", "--live", "CAB", "--comes-and-goes", "--reads", "BR1.2=13.3"}, `^(2[A-P]|X1.[12]):(open|joint|burnt)`},
	// a fuel pump's relay that gives 12 V without the pump and nothing with it
	{"fuel-pump", []string{"--dead", "PMP", "--live", "TL", "--reads", "K1.30=12.4", "--reads", "K1.87=0.1"}, `^K1`},
	// oxide between post and clamp: 12.7 V on the posts, a little over 8 V at the fuses, everything dead
	{"clamp", []string{"--dead", "HL", "--reads", "BAT.+/BAT.-=12.7,FP.in/G0=8.1"}, `^(1N|1A|G0):(joint|open)`},
	// a gauge that reads higher with its lamps on: their current lifts the ground that they share
	{"gauge", []string{"--state", "by-night", "--live", "IL1,IL2", "--reads", "GT.-=0.9"}, `^(2P|3[A-Z]|G1):joint`},
	// a brake lamp fuse that blew a second time: an old feed with bare ends behind the trim
	{"brake-lamps", []string{"--dead", "BL,BR", "--live", "HRN", "--reads", "F1.1=12.6,F1.2=0"}, `^2[B-E]:short`},
	// a glass fuse that looks whole and is open in its cap
	{"heater-fan", []string{"--dead", "FAN", "--reads", "F1.1=12.6,F1.2=0"}, `^F1:open`},
	// one headlamp normal and the other dim, which lost its ground
	{"headlamps", []string{"--state", "dipped", "--weak", "HLL.56b-31", "--live", "HLR.56b-31"}, `^(2N:open|G1:unearthed)`},
	// a starter that does not crank: a battery that holds 13.27 V at rest and 3.7 V under load
	{"garden-tractor", []string{"--dead", "ST", "--state", "cranking", "--reads", "BAT.+=3.7"}, `^BAT:(flat|dead)`},
	// a tail lamp that goes out as the brake is pressed: the ground contact of its socket
	{"tail-lamp", []string{"--state", "braking", "--dead", "RLL.58-31", "--weak", "RLL.54-31", "--live", "RLR.54-31"}, `^(2N|G1):(joint|open|unearthed)`},
	// the same 12.1 V at batteries and alternator with the engine running: nothing charges
	{"tow-boat", []string{"--state", "under-way", "--reads", "BAT.+=12.1,ALT.B+=12.1"}, `^ALT:dead`},
	// a cooling fan whose 60 A fuse is whole, and its contact molten
	{"cooling-fan", []string{"--dead", "FAN", "--reads", "F1.1=12.5,F1.2=0.1"}, `^F1:(open|burnt)`},
	// a bilge pump on butt splices that were never crimped
	{"bilge-pump", []string{"--dead", "PMP", "--reads", "SW.2=12.4,PMP.+=0"}, `^(2C|2D):open`},
	// a horn relay that does not click: 12 V at its coil until it is loaded, the column's ground is bad
	{"horn", []string{"--dead", "HRN", "--live", "CL", "--reads", "K1.86=12.4,K1.86/K1.85=0"}, `^(2E|2F|CS.1|PAD.1-2|2P|2Q|2R|2S|G2):(open|joint|burnt|unearthed)`},
}

func caseFile(name string) string { return filepath.Join("testdata", "cases", name+".yaml") }

// diagnosed runs diagnose and reads its JSON.
func diagnosed(t *testing.T, name string, args ...string) diagnose.Diagnosis {
	t.Helper()
	code, out, errs := do(append([]string{"diagnose", caseFile(name), "--no-record", "--json"}, args...)...)
	require.Zero(t, code, "%s: %s", name, errs)
	var d diagnose.Diagnosis
	require.NoError(t, json.Unmarshal([]byte(out), &d))
	return d
}

// firstTwo are the ids of the two likeliest classes.
func firstTwo(d diagnose.Diagnosis) []string {
	var classes []int
	share := map[int]float64{}
	for _, r := range d.Remaining {
		if !slices.Contains(classes, r.Class) {
			classes = append(classes, r.Class)
		}
		share[r.Class] += r.Share
	}
	slices.SortStableFunc(classes, func(a, b int) int {
		if share[a] > share[b] {
			return -1
		}
		return 1
	})
	var ids []string
	for _, r := range d.Remaining {
		if slices.Contains(classes[:min(2, len(classes))], r.Class) {
			ids = append(ids, r.ID)
		}
	}
	return ids
}

func TestRealFaultsAreNamed(t *testing.T) {
	for _, c := range realCases {
		ids := firstTwo(diagnosed(t, c.file, c.args...))
		is := regexp.MustCompile(c.is)
		require.True(t, slices.ContainsFunc(ids, is.MatchString), "%s: %v", c.file, ids)
	}
}

// TestWhatIsNoFault of those cases: a ballast resistor leaves the coil less than 12 V, a larger
// alternator opens a breaker that fits the old one, and what empties a battery at rest no voltage tells.
func TestWhatIsNoFault(t *testing.T) {
	d := diagnosed(t, "ballast", "--state", "points-closed", "--reads", "COI.+=5.0")
	require.True(t, d.AsItIs)
	_, out, _ := do("diagnose", caseFile("ballast"), "--no-record", "--state", "points-closed", "--reads", "COI.+=5.0")
	require.Contains(t, out, "All of this is as it should be with no fault at all.")

	code, _, errs := do("check", caseFile("alternator"), "--no-record")
	require.Equal(t, exitFinding, code)
	require.Contains(t, errs, "BR1 is rated 40 A and carries 60 A")

	for file, last := range map[string]string{"saloon": "wire 1A", "rectifier": "the rectifier of ALT"} {
		point := map[string]string{"saloon": "FP.in", "rectifier": "ALT.B+"}[file]
		code, out, errs := do("diagnose", caseFile(file), "--no-record", "--state", "parked", "--reads", point+"=12.6")
		require.Zero(t, code, errs)
		require.Contains(t, flat(out), "If that changes nothing, it lies before the fuses")
		require.Contains(t, flat(out), last)
	}
}

// TestNextIsWhatTheCasesTaught: a clamp is measured against its post and not blamed on the
// battery; volts without a load clear nothing; a fault that comes and goes is shaken first.
func TestNextIsWhatTheCasesTaught(t *testing.T) {
	d := diagnosed(t, "garden-tractor", "--state", "parked", "--reads", "BAT.+=12.7", "--dead", "ST")
	require.True(t, slices.ContainsFunc(d.Remaining, func(r diagnose.Remaining) bool { return r.Element == "BAT" }), "rest volts do not clear the battery")
	_, out, _ := do("diagnose", caseFile("masthead"), "--no-record", "--dead", "MST", "--comes-and-goes")
	require.Contains(t, flat(out), "wiggle, load and heat it first")
	d = diagnosed(t, "bait-pump", "--dead", "PMP", "--reads", "PMP.+=8.0")
	require.Equal(t, []string{"PMP"}, d.Next.On, "volts with the pump connected and on")
}
