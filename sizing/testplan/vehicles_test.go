package testplan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
)

// proved takes a description through to its proof.
func proved(t *testing.T, text string) (*harness.Harness, *result.Result) {
	t.Helper()
	d, problems := describe.Parse("test.yaml", []byte("loomfolio: 1\ntitle: Test\n"+text))
	require.False(t, problems.HasErrors(), "%v", problems)
	h, found := check.Check(d)
	require.NotNil(t, h, "%v", found)
	r, err := sizing.Size(worked.Buying(h, "clear"), found)
	require.NoError(t, err)
	require.False(t, r.Unusable, "%v", r.Findings)
	require.NoError(t, sizing.Prove(h, r))
	return h, r
}

// Two lamps behind a switch and a fuse, a horn behind a relay: whatever the system.
const plain = `
parts:
  BAT: {kind: battery}
  F1: {kind: fuse, body: blade}
  F2: {kind: fuse, body: blade}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  HB: {kind: switch, positions: {up: [], down: [[1, 2]]}}
  K1: {kind: relay}
  L1: {kind: lamp, draws: 21 W}
  L2: {kind: lamp, draws: 5 W}
  HN: {kind: horn, draws: 5 A}
  S: {kind: splice}
  G0: {kind: ground}
  G1: {kind: ground}
`

const plainCircuits = `
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 0.3 m}]]}
  lamps: {number: 2, legs: [[BAT.+, {to: F1, length: 0.1 m}, {to: SW, length: 1 m}, {to: S, length: 1 m}, {to: L1, length: 1 m}, {to: G1, length: 0.5 m}], [S, {to: L2, length: 1 m}, {to: G1, length: 0.5 m}]]}
  horn: {number: 3, legs: [[BAT.+, {to: F2, length: 0.1 m}, {to: K1.30, length: 1 m}, K1.87, {to: HN, length: 1 m}, {to: G1, length: 0.5 m}], [F2.2, {to: K1.86, length: 1 m}, K1.85, {to: HB, length: 1 m}, {to: G1, length: 0.5 m}]]}
`

const plainStates = "states: {parked: {}, lit: {SW: on}, blown: {HB: down}}\n"

// TestVehiclesOfAllKinds: other voltages, plus on the bodywork, a wired return, two
// batteries, no state at rest, no fuse: the limits hold, every wire is asked for, and what
// there is not is not told.
func TestVehiclesOfAllKinds(t *testing.T) {
	positive := strings.NewReplacer("[[G0, {to: BAT.-", "[[BAT.+, {to: G0", "BAT.+, {to: F", "BAT.-, {to: F")
	wired := strings.NewReplacer("G0: {kind: ground}", "B0: {kind: bus, studs: 4}", "  G1: {kind: ground}\n", "", "[[G0, ", "[[B0.1, ", "to: G1", "to: B0.2")
	for name, text := range map[string]string{
		"12 V":           "system: {volts: 12}" + plain + plainCircuits + plainStates,
		"24 V":           "system: {volts: 24}" + plain + plainCircuits + plainStates,
		"6 V":            "system: {volts: 6}" + plain + plainCircuits + plainStates,
		"positive earth": "system: {volts: 12, earth: positive}" + plain + positive.Replace(plainCircuits) + plainStates,
		"wired return":   "system: {volts: 12, return: wired}" + wired.Replace(plain+plainCircuits) + plainStates,
		"none at rest":   "system: {volts: 12}" + plain + plainCircuits + "states: {lit: {SW: on}, blown: {HB: down}}\n",
		"no fuse":        "system: {volts: 12}" + strings.NewReplacer("{to: F1, length: 0.1 m}, ", "", "{to: F2, length: 0.1 m}, ", "", "F2.2, ", "K1.30, ").Replace(noFuses(plain)+plainCircuits) + plainStates,
		"no states":      "system: {volts: 12}" + plain + plainCircuits,
		"two batteries":  "system: {volts: 12}" + plain + "  B2: {kind: battery}\n  L3: {kind: lamp, draws: 10 W}\n  F3: {kind: fuse}\n  S3: {kind: switch, positions: {off: [], on: [[1, 2]]}}\n  G2: {kind: ground}\n" + plainCircuits + "  second: {number: 4, legs: [[G2, {to: B2.-, length: 0.3 m}], [B2.+, {to: F3, length: 0.1 m}, {to: S3, length: 1 m}, {to: L3, length: 1 m}, {to: G2, length: 0.3 m}]]}\nstates: {parked: {}, lit: {SW: on, S3: on}, blown: {HB: down}}\n",
	} {
		t.Run(name, func(t *testing.T) {
			h, r := proved(t, text)
			sane(t, h, r)
			holds(t, h, r, 60)
			if name == "none at rest" {
				require.Equal(t, harness.None, r.Proof.KeyOff.State)
			}
			if name == "no fuse" {
				require.Empty(t, r.Proof.Through)
				require.Empty(t, r.Proof.Before.Pulled)
				require.Len(t, r.Proof.Power, 1, "everything is behind no fuse: only the lamp with all off")
			}
			if name == "two batteries" {
				require.Len(t, lampSteps(r, "all fuses out, everything off"), 2, "each battery by itself")
			}
		})
	}
}

func noFuses(parts string) string {
	return strings.NewReplacer("  F1: {kind: fuse, body: blade}\n", "", "  F2: {kind: fuse, body: blade}\n", "").Replace(parts)
}

func lampSteps(r *result.Result, do string) (out []proof.Step) {
	for _, s := range r.Proof.Power {
		if s.Do == do {
			out = append(out, s)
		}
	}
	return out
}

// sane holds what is true of any plan.
func sane(t *testing.T, h *harness.Harness, r *result.Result) {
	p := &r.Proof
	wires := make([]int, len(h.Wires))
	for _, b := range p.Before.Beeps {
		require.NotEqual(t, b.From, b.To)
		for _, w := range b.Wires {
			wires[w]++
		}
	}
	for w, n := range wires {
		require.Positivef(t, n, "wire %s beeps in no chain", h.Wires[w].Name)
	}
	for _, x := range p.Points {
		require.Positive(t, x.Reach)
		require.NotEmpty(t, x.Side)
		require.Equal(t, x.Lamp, x.NoBut == "")
	}
	for _, x := range p.Readings {
		if !x.Floats {
			require.LessOrEqual(t, x.Low, x.Volts)
			require.GreaterOrEqual(t, x.High, x.Volts)
		}
	}
	for _, x := range p.Sections {
		require.NotEqual(t, x.From, x.To)
		require.GreaterOrEqual(t, float64(x.Volts), 0.0)
		require.Greater(t, x.Most, x.Volts, x.What)
	}
	for _, x := range p.Power {
		require.LessOrEqual(t, float64(x.Low), float64(x.Amps)+1e-9, x.Do)
		require.GreaterOrEqual(t, float64(x.High), float64(x.Amps)-1e-9, x.Do)
		cranking := x.State != harness.None && h.States[x.State].Engine == harness.EngineCranking
		require.False(t, cranking && x.Through != "direct", "never cranking behind a lamp or a small fuse")
		require.Equal(t, x.Through == "lamp 21 W", x.Lamp != "")
	}
}

// TestSamplesHaveSanePlans: what is true of any plan is true of the samples; every wire is
// in a chain.
func TestSamplesHaveSanePlans(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		sane(t, h, r)
	}
	_, r := worked.Named(t, "kestrel")
	require.Less(t, len(r.Proof.Power), 45, "the first power of the kestrel")
}
