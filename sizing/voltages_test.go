package sizing_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network/spicecheck"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
)

// TestVoltagesJudged: where something burns, starves or never opens, that is said; where all
// is right nothing above advice is. A tap is advised on, as always.
func TestVoltagesJudged(t *testing.T) {
	for _, c := range judgedIn(t, "testdata/voltages.txt") {
		t.Run(c.name, func(t *testing.T) {
			var grave, all []string
			for _, p := range saidOf(t, c.text, "few") {
				all = append(all, p.Slug)
				if p.Level != source.Advice && p.Slug != "key-off-drain" {
					grave = append(grave, p.Slug+": "+p.Summary)
				}
			}
			if c.expect[0] == "-" {
				require.Empty(t, grave)
				return
			}
			for _, slug := range c.expect {
				require.True(t, slices.Contains(all, slug), "not said: %s; said: %v", slug, grave)
			}
		})
	}
}

// modelOf checks and sizes one of the descriptions.
func modelOf(t *testing.T, name string) (*harness.Harness, *result.Result) {
	for _, c := range judgedIn(t, "testdata/voltages.txt") {
		if c.name != name {
			continue
		}
		d, problems := describe.Parse("test.yaml", []byte(c.text))
		require.Empty(t, problems)
		h, found := check.Check(d)
		require.NotNil(t, h)
		r, err := sizing.Size(worked.Buying(h, "clear"), found)
		require.NoError(t, err)
		return h, r
	}
	t.Fatal(name)
	return nil, nil
}

func elementOf(h *harness.Harness, name string) *harness.Element {
	i := slices.IndexFunc(h.Elements, func(e harness.Element) bool { return e.Name == name })
	return &h.Elements[i]
}

// TestSidesByHand: behind the converter all is counted by 12 V, before it by 24. A coil of
// 1.8 W (published relay data) has 80 ohm there and pulls in at 8 V; 3 % of 12 V are 0.36 V. The
// input takes the 13 A of the loads and the coil's current at 13.8 V over 0.88, and 20 mA.
func TestSidesByHand(t *testing.T) {
	h, r := modelOf(t, "lorry-with-a-converter")
	require.Equal(t, []float64{24, 12}, h.Nominals())
	coil := elementOf(h, "K.coil")
	require.InDelta(t, 80, float64(coil.Ohms), 1e-9)
	require.InDelta(t, 8, float64(coil.PullIn), 1e-9)
	for _, l := range r.Loads {
		want := 0.36
		if l.Name == "DC1.input" {
			want = 0.72
		}
		require.InDelta(t, want, float64(l.Limit), 1e-9, l.Name)
		require.LessOrEqual(t, float64(l.FeedDrop+l.ReturnDrop), want+1e-6, l.Name)
	}
	s := &r.States[0]
	out, in := elementOf(h, "DC1"), elementOf(h, "DC1.input")
	given := -s.Amps[out.ID] * (s.Volts[out.A] - s.Volts[out.B])
	require.InDelta(t, 13+13.5/80, -s.Amps[out.ID], 0.01)
	require.InDelta(t, given/0.88+0.02*24, s.Amps[in.ID]*(s.Volts[in.A]-s.Volts[in.B]), 1e-6)
	require.InDelta(t, (13.8*20/0.88+0.48)/21, float64(in.Most()), 1e-6, "at 21 V, the lowest")
	b := r.Budgets[0]
	require.InDelta(t, s.Amps[in.ID], float64(b.Loads), 1e-9, "what lies behind counts once")
	require.InDelta(t, -s.Amps[out.ID], float64(b.Behind[0].Loads), 1e-6)
}

// TestChargerByHand: 30 A at 14.4 V over 0.88 take 40.9 A from 12 V, 1.36 times its output; a
// charger between two batteries of one voltage makes no second one.
func TestChargerByHand(t *testing.T) {
	h, r := modelOf(t, "charger-switched-by-d-plus")
	require.False(t, h.Mixed())
	require.Nil(t, h.Systems)
	in := elementOf(h, "DC1.input")
	require.InDelta(t, (30*14.4/0.88+0.24)/12, float64(in.Most()), 1e-9)
	require.Zero(t, r.States[0].Amps[in.ID], "no D+, no current")
	require.NotZero(t, r.States[1].Amps[in.ID])
	h, _ = modelOf(t, "charger-between-two-batteries")
	require.InDelta(t, 13, float64(elementOf(h, "DC1.input").Floor), 1e-9, "what nothing switches starts above a battery at rest")
}

// TestOwnLimitsByHand: 8 % of 12 V are 0.96 V; what needs 11 V may lose what its supply has
// above that, here more than the 0.36 V of its class.
func TestOwnLimitsByHand(t *testing.T) {
	_, r := modelOf(t, "own-limit-that-is-wide")
	require.InDelta(t, 0.96, float64(r.Loads[0].Limit), 1e-9)
	require.Equal(t, "drop", r.Loads[0].Own)
	require.InDelta(t, 0.36, float64(r.Loads[1].Limit), 1e-9)
	require.Empty(t, r.Loads[1].Own)
	_, r = modelOf(t, "needs-with-a-given-size")
	require.Equal(t, "needs", r.Loads[0].Own)
	require.Less(t, float64(r.Loads[0].Limit), 0.2, "14.4 V at the battery, less its fuse and joints, less 14.2 V")
}

// TestTapByHand: the tap's side is 12 V, its running voltage half of the whole, and its
// battery holds half of the string.
func TestTapByHand(t *testing.T) {
	h, _ := modelOf(t, "tap-of-one-battery")
	require.Equal(t, []float64{24, 12}, h.Nominals())
	load := elementOf(h, "L")
	require.InDelta(t, 14.2, float64(h.SystemOf(load).Running), 1e-9)
	for _, name := range []string{"B1", "B2"} {
		b := elementOf(h, name)
		require.InDelta(t, 12.6, float64(b.Volts), 1e-9)
		require.InDelta(t, 0.5, float64(b.Holds()), 1e-9)
		require.Equal(t, 24.0, float64(h.SystemOf(b).Volts))
	}
}

// TestVoltagesBesideSpice solves every state of the descriptions once more with ngspice.
func TestVoltagesBesideSpice(t *testing.T) {
	var cases []spicecheck.Case
	for _, c := range judgedIn(t, "testdata/voltages.txt") {
		if c.expect[0] == "voltages-joined" || c.expect[0] == "converter-on-itself" {
			continue // no model
		}
		h, r := modelOf(t, c.name)
		for _, s := range r.States {
			cases = append(cases, spicecheck.Case{Name: c.name + " " + s.Name, Harness: h, State: s})
		}
	}
	require.Greater(t, len(cases), 25)
	spicecheck.CompareAll(t, cases)
}
