package testplan_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/testplan"
	"example.com/loomfolio/sizing/testplan/meter"
	"example.com/loomfolio/sizing/testplan/point"
)

// TestEveryJointShows: no joint or burnt contact of the samples that costs its load a
// tenth or more passes the plan; of what is open all but a few ways beside others show,
// and these say why.
func TestEveryJointShows(t *testing.T) {
	most := map[string]int{"first": 0, "kestrel": 0, "tender": 0, "camper": 2}
	joints, opens, untold := 0, 0, 0
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		for state := range r.States {
			passes, err := testplan.SoundPasses(h, r, state)
			require.NoError(t, err)
			require.True(t, passes, "%s: %s without a fault", s.Name, r.States[state].Name)
		}
		for _, f := range r.Proof.Faults {
			switch f.Kind {
			case proof.Joint, proof.Burnt:
				joints++
			case proof.Open, proof.Unearthed:
				opens++
			}
		}
		for _, u := range r.Proof.Untold {
			require.NotContains(t, []proof.Kind{proof.Joint, proof.Burnt}, r.Proof.Faults[u.Fault].Kind, r.Proof.Faults[u.Fault].ID)
			require.NotEmpty(t, u.Why)
			t.Logf("%s: %s, %s", s.Name, r.Proof.Faults[u.Fault].ID, u.Why)
		}
		untold += len(r.Proof.Untold)
		require.LessOrEqual(t, len(r.Proof.Untold), most[s.Name], s.Name)
	}
	t.Logf("%d joints and burnt contacts, %d opens and lost grounds, %d of these untold", joints, opens, untold)
	require.Greater(t, joints, 1500)
}

// TestJointsShowAsTheDictionarySeesThem: of joints drawn by lot the dictionary, solving by
// itself, sees volts outside a section's or reading's limit by more than the meter's error,
// or the plan owns up to it.
func TestJointsShowAsTheDictionarySeesThem(t *testing.T) {
	for _, name := range []string{"first", "tender", "kestrel"} {
		h, r := worked.Named(t, name)
		book := fault.New(h, r)
		owned := map[int]bool{}
		for _, u := range r.Proof.Untold {
			owned[u.Fault] = true
		}
		lot := rand.New(rand.NewPCG(9, 9))
		for range 40 {
			i := lot.IntN(len(r.Proof.Faults))
			if f := r.Proof.Faults[i]; f.Costs > 0 && !owned[i] {
				require.True(t, seen(t, h, r, book, i), "%s: %s", name, f.ID)
			}
		}
	}
}

func seen(t *testing.T, h *harness.Harness, r *result.Result, book *fault.Book, i int) bool {
	at := point.At(h, r.Proof.Points)
	for s := range r.States {
		v := book.In(s, i)
		for _, x := range r.Proof.Sections {
			d := v.At(at[x.From]) - v.At(at[x.To])
			if x.State == s && d-meter.Volts2.Error(d) > float64(x.Most) {
				return true
			}
		}
		for _, x := range r.Proof.Readings {
			if y := v.At(x.Point); x.Asked && x.State == s && (y < float64(x.Low)-meter.Volts20.Error(y) || y > float64(x.High)+meter.Volts20.Error(y)) {
				return true
			}
		}
	}
	return false
}
