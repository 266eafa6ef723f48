package fault_test

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network/spicecheck"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
)

// Two hundred faults drawn by lot from all samples: their readings are those of ngspice on
// the netlist of the same fault, to 1e-5 relative (here 1e-6, twice).
func TestFaultsAreThoseOfSpice(t *testing.T) {
	spicecheck.Need(t)
	lot := rand.New(rand.NewSource(15))
	list := samples.List()
	var cases []spicecheck.Case
	books := map[string]*fault.Book{}
	for range 200 {
		s := list[lot.Intn(len(list))]
		h, r := worked.Out(t, s)
		if books[s.Name] == nil {
			books[s.Name] = book(t, h, r)
		}
		n := lot.Intn(len(r.Proof.Faults))
		f := &r.Proof.Faults[n]
		state, err := books[s.Name].Network(f.State, n)
		require.NoError(t, err, f.ID)
		for _, shown := range f.Volts {
			v := state.Volts[r.Proof.Points[shown.Point].At]
			require.Equal(t, math.IsNaN(v), shown.Float, "%s %s", s.Name, f.ID)
			if !shown.Float {
				require.InDelta(t, v, float64(shown.Volts), 1e-6*math.Abs(v)+1e-6, "%s %s", s.Name, f.ID)
			}
		}
		cases = append(cases, spicecheck.Case{Name: s.Name + " " + f.ID, Harness: h, State: state})
	}
	spicecheck.CompareAll(t, cases)
}

// Names are unique, what a fault is about exists, and every sample has its kinds.
func TestDictionaryIsWhole(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		ids, kinds := map[string]bool{}, map[proof.Kind]int{}
		for _, f := range r.Proof.Faults {
			require.False(t, ids[f.ID], "%s twice", f.ID)
			ids[f.ID] = true
			kinds[f.Kind]++
			require.Greater(t, f.Weight, 0.0, f.ID)
			require.NotEmpty(t, f.Why, f.ID)
			require.Less(t, f.State, len(h.States))
		}
		for _, k := range []proof.Kind{proof.Open, proof.Joint, proof.Short, proof.Welded, proof.Burnt, proof.Unearthed, proof.Shorted, proof.Flat, proof.Disconnected, proof.Dead} {
			require.Positive(t, kinds[k], "%s has none that is %s", s.Name, k)
		}
		for _, w := range h.Wires {
			carries := false
			for i := range r.States {
				carries = carries || math.Abs(r.States[i].WireAmps[w.ID]) >= 1e-3
			}
			require.Equal(t, carries, ids[w.Name+":open"], "%s wire %s", s.Name, w.Name)
		}
		for _, k := range h.Elements {
			if k.Kind == harness.RelayCoil {
				require.Contains(t, ids, k.Name+":open")
				require.Contains(t, ids, h.Parts[k.Part].Ref+":stuck")
			}
		}
	}
}

// A bad joint costs the load that it was looked at for just the part that it says, to
// within a hundredth of that part, or the load jumps over it: with a hundredth less ohms
// it would cost less.
func TestJointsCostWhatTheySay(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		b, jumps, all := book(t, h, r), 0, 0
		for i := range r.Proof.Faults {
			f := &r.Proof.Faults[i]
			if f.Costs == 0 {
				continue
			}
			if all++; all%9 != 0 && s.Name != "first" {
				continue
			}
			state, err := b.Network(f.State, i)
			require.NoError(t, err)
			e := h.Elements[f.Load]
			was := math.Abs(r.States[f.State].Volts[e.A] - r.States[f.State].Volts[e.B])
			costs := 1 - math.Abs(state.Volts[e.A]-state.Volts[e.B])/was
			if math.Abs(costs-float64(f.Costs)) > 0.01*float64(f.Costs) {
				jumps++
				require.Greater(t, costs, float64(f.Costs), "%s %s", s.Name, f.ID)
			}
		}
		t.Log(s.Name, all, "joints,", jumps, "jumps of those looked at")
		require.LessOrEqual(t, jumps, all/50)
	}
}

// dictionary sizes a small description.
func dictionary(t testing.TB, text string) (*harness.Harness, *result.Result, *fault.Book) {
	t.Helper()
	d, problems := describe.Parse("small.yaml", []byte(text))
	require.False(t, problems.HasErrors(), "%v", problems)
	h, found := check.Check(d)
	require.NotNil(t, h, "%v", found)
	require.False(t, found.HasErrors(), "%v", found)
	r, err := sizing.Size(worked.Buying(h, "clear"), append(problems, found...))
	require.NoError(t, err)
	require.False(t, r.Unusable, "%v", r.Findings)
	require.NoError(t, sizing.Prove(h, r))
	return h, r, book(t, h, r)
}

func book(t testing.TB, h *harness.Harness, r *result.Result) *fault.Book {
	t.Helper()
	b := fault.New(h, r)
	return b
}

// entry is a fault by name, with names for what it does.
type entry struct {
	proof.Fault
	dead, weak, extra, blown []string
	at                       map[string]float64
}

// look finds a fault; false where the dictionary has none of that name.
func look(h *harness.Harness, r *result.Result, id string) (entry, bool) {
	for _, f := range r.Proof.Faults {
		if f.ID != id {
			continue
		}
		e := entry{f, named(h, f.Dead), named(h, f.Weak), named(h, f.Extra), named(h, f.Blown), map[string]float64{}}
		for _, s := range f.Volts {
			v := float64(s.Volts)
			if s.Float {
				v = math.NaN()
			}
			e.at[h.Terminals[r.Proof.Points[s.Point].At].Full] = v
		}
		return e, true
	}
	return entry{}, false
}

func named(h *harness.Harness, ids []harness.ElementID) []string {
	out := []string{}
	for _, id := range ids {
		out = append(out, h.Elements[id].Name)
	}
	return out
}

// see is look for a fault that must be there.
func see(t testing.TB, h *harness.Harness, r *result.Result, id string) entry {
	t.Helper()
	e, ok := look(h, r, id)
	require.True(t, ok, "%s is not in the dictionary", id)
	return e
}

func ids(r *result.Result, faults []int) string {
	out := ""
	for _, f := range faults {
		out += fmt.Sprint(r.Proof.Faults[f].ID, " ")
	}
	return out
}

func forSamples(t *testing.T, do func(*testing.T, *harness.Harness, *result.Result)) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		t.Run(s.Name, func(t *testing.T) { do(t, h, r) })
	}
}
