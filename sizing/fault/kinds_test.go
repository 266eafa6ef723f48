package fault_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/testplan/point"
)

// bar is a bench of heaters, which are plain resistances, so that all follows from Ohm's law.
const bar = `
loomfolio: 1
title: Kestrel bench, heaters
system: {volts: 12, running: 14.2 V}
places:
  tray: {name: Tray, zone: engine, tail: 100 mm}
  dash: {name: Dash, zone: cabin, tail: 100 mm}
runs:
  - {from: tray, to: dash, length: 1 m}
parts:
  BAT: {kind: battery, at: tray, capacity: 60 Ah}
  MF1: {kind: fuse, at: tray}
  MF2: {kind: fuse, at: tray}
  SW1: {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}
  SW2: {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}
  K1:  {kind: relay, at: dash}
  X1:  {kind: connector, at: dash, cavities: 3}
  H1:  {kind: heater, at: dash, draws: 6 A}
  H2:  {kind: heater, at: dash, draws: 8 A}
  D1:  {kind: diode, at: dash}
  H3:  {kind: heater, at: dash, draws: 1 A}
  G0:  {kind: ground, at: tray}
  G1:  {kind: ground, at: dash}
  G2:  {kind: ground, at: dash}
circuits:
  earth: {number: 1, legs: [[G0, BAT.-]]}
  one:   {number: 2, legs: [[BAT.+, {to: MF1, length: 150 mm}, X1.1, SW1, H1, G1], [SW1.2, D1, H3, G1]]}
  two:   {number: 3, legs: [[BAT.+, {to: MF2, length: 150 mm}, X1.2, K1.30, K1.87, H2, G1], [K1.30, SW2, K1.86, K1.85, G2]]}
states:
  parked: {}
  first:  {SW1: "on"}
  second: {SW2: "on"}
  both:   {SW1: "on", SW2: "on"}
`

// loop gives what is in the way of a heater in a state: its own ohms, the EMF and the ohms
// of everything else in series, by the volts and amps of the sound state.
func loop(h *harness.Harness, r *result.Result, load string, state int) (own, emf, rest float64) {
	st := &r.States[state]
	for _, e := range h.Elements {
		if e.Name == load {
			volts := st.Volts[e.A] - st.Volts[e.B]
			own = volts / st.Amps[e.ID]
			emf = float64(h.Elements[0].Volts)
			rest = (emf - volts) / st.Amps[e.ID]
		}
	}
	return own, emf, rest
}

func TestFirstElementOfTheBenchIsItsBattery(t *testing.T) {
	h, _, _ := dictionary(t, bar)
	require.Equal(t, harness.EMF, h.Elements[0].Kind)
}

// An open wire: full voltage before it, nothing behind it, and nothing else moves.
func TestOpenWire(t *testing.T) {
	h, r, _ := dictionary(t, bar)
	f := see(t, h, r, "2B:open")
	require.Equal(t, []string{"H1", "H3"}, f.dead)
	require.Empty(t, f.extra)
	require.InDelta(t, 0, f.at["H1.+"], 1e-9)
	require.InDelta(t, 0, f.at["X1.1.in"], 1e-9)
	require.Greater(t, f.at["MF1.2"], 12.4)
}

// A joint that costs p of a heater's volts has (1/(1-p) - 1) times the ohms of the whole
// loop; the ladder tells it apart from an open wire.
func TestJointByHand(t *testing.T) {
	h, r, _ := dictionary(t, bar)
	for id, p := range map[string]float64{"2D:joint-10": 0.1, "2D:joint-30": 0.3, "2D:joint-60": 0.6, "SW1.1-2:burnt-60": 0.6} {
		f := see(t, h, r, id)
		if f.Element == "2D" {
			require.Equal(t, "H1", h.Elements[f.Load].Name)
		}
		own, _, rest := loop(h, r, "H1", f.State)
		if f.Element != "2D" {
			continue // H3 shares it
		}
		want := (own + rest) * (1/(1-p) - 1)
		require.InEpsilon(t, want, float64(f.Ohms), 0.01/(1-p)+0.02, id)
	}
	f, open := see(t, h, r, "2D:joint-30"), see(t, h, r, "2D:open")
	require.InDelta(t, 0.7, (f.at["H1.+"]-f.at["H1.-"])/soundAcross(h, r, "H1", f.State), 0.003)
	require.InDelta(t, 0, open.at["H1.+"], 0.01)
}

func soundAcross(h *harness.Harness, r *result.Result, load string, state int) float64 {
	for _, e := range h.Elements {
		if e.Name == load {
			return math.Abs(r.States[state].Volts[e.A] - r.States[state].Volts[e.B])
		}
	}
	return math.NaN()
}

// A short behind a fuse opens it and is still there; one before every fuse draws what the
// battery gives through the wire, E/(Ri + R + 0.01), and nothing opens.
func TestShortToGround(t *testing.T) {
	h, r, _ := dictionary(t, bar)
	f := see(t, h, r, "2B:short")
	require.Equal(t, []string{"MF1"}, f.blown)
	require.Equal(t, []string{"H1", "H3"}, f.dead)
	require.InDelta(t, 0, f.at["MF1.2"], 1e-3)
	require.Empty(t, f.Says)

	f = see(t, h, r, "2A:short")
	require.Empty(t, f.blown)
	require.Contains(t, f.Says, "no fuse opens")
	st := &r.States[f.State]
	ground := 0.0
	for _, e := range h.Elements {
		if e.Name == "G0" {
			ground = float64(e.Ohms)
		}
	}
	var lead, back float64
	for _, w := range h.Wires {
		switch w.Name {
		case "2A":
			lead = st.Resistances().Wires[w.ID]
		case "1N", "1A", "1P":
			back += st.Resistances().Wires[w.ID]
		}
	}
	own, emf, _ := loop(h, r, "H1", f.State)
	ri := st.Network.Elements[st.ElementAt[0]].Ohms
	amps := emf / (ri + lead + back + ground + 0.01)
	require.InEpsilon(t, amps, float64(f.Amps), 0.02, "the heaters beside it of %.1f ohm take little", own)
}

// Neighbours that touch: the heater of the other is on without its switch.
func TestNeighbours(t *testing.T) {
	h, r, _ := dictionary(t, bar)
	_, wrong := look(h, r, "X1.1~X1.3:short")
	require.False(t, wrong, "two cavities apart")
	_, idle := look(h, r, "X1.2~X1.3:short")
	require.False(t, idle, "nothing is in cavity 3")
	_, both := look(h, r, "X1.1~X1.2:short")
	require.False(t, both, "both are live all the time at the battery's voltage: nothing to see")
}

// A welded switch feeds its load in a state in which it is off; a welded relay too.
func TestWelded(t *testing.T) {
	h, r, _ := dictionary(t, bar)
	f := see(t, h, r, "SW1.1-2:welded")
	require.Equal(t, []string{"H1", "H3"}, f.extra)
	require.Empty(t, f.dead)
	f = see(t, h, r, "K1.30-87:welded")
	require.Equal(t, []string{"H2"}, f.extra)
	require.Contains(t, []string{"parked", "first"}, h.States[f.State].Name)
}

// A stuck relay: its coil has its volts, its contact has volts on 30 and none on 87.
func TestStuckRelay(t *testing.T) {
	h, r, _ := dictionary(t, bar)
	f := see(t, h, r, "K1:stuck")
	require.Equal(t, []string{"H2"}, f.dead)
	require.Greater(t, f.at["K1.86"], 12.0)
	require.Greater(t, f.at["K1.30"], 12.0)
	require.InDelta(t, 0, f.at["K1.87"], 0.01)
	open := see(t, h, r, "K1.coil:open")
	require.Equal(t, []string{"H2"}, open.dead)
	require.InDelta(t, 0, open.at["K1.85"], 1e-6)
	f = see(t, h, r, "K1.coil:shorted")
	require.Equal(t, []string{"MF2"}, f.blown)
}

// A ground point that is off: what ends on it is dead together, and its minus is live.
func TestUnearthed(t *testing.T) {
	h, r, _ := dictionary(t, bar)
	f := see(t, h, r, "G1:unearthed")
	require.Equal(t, "both", h.States[f.State].Name)
	require.Equal(t, []string{"H1", "H2", "H3"}, f.dead)
	require.Greater(t, f.at["H1.-"], 12.0)
	f = see(t, h, r, "G2:unearthed")
	require.Equal(t, []string{"H2"}, f.dead, "the relay lets go")
}

// A diode that is open, and one that is shorted: no more than its drop of 0.7 V is missing.
func TestDiode(t *testing.T) {
	h, r, _ := dictionary(t, bar)
	f := see(t, h, r, "D1:open")
	require.Equal(t, []string{"H3"}, f.dead)
	_, there := look(h, r, "D1:shorted")
	require.False(t, there, "it never stands against a volt: nothing shows it")
}

// A load that is open has its volts; one that is shorted opens its fuse.
func TestLoads(t *testing.T) {
	h, r, _ := dictionary(t, bar)
	f := see(t, h, r, "H2:open")
	require.Equal(t, []string{"H2"}, f.dead)
	require.Greater(t, f.at["H2.+"]-f.at["H2.-"], 12.4)
	f = see(t, h, r, "H2:shorted")
	require.Equal(t, []string{"MF2"}, f.blown)
	require.Equal(t, []string{"H2"}, f.dead)
}

// A flat battery is 11.4 V behind 0.1 ohm, a dead one 2 V behind 1 ohm; one that is off
// the loom has its volts at the post and nowhere else.
func TestBattery(t *testing.T) {
	h, r, _ := dictionary(t, bar)
	f := see(t, h, r, "BAT:flat")
	own, _, rest := loop(h, r, "H1", f.State)
	require.Equal(t, "both", h.States[f.State].Name)
	st := &r.States[f.State]
	amps := math.Abs(st.Amps[0])
	loops := float64(h.Elements[0].Volts)/amps - st.Network.Elements[st.ElementAt[0]].Ohms // all that is outside of it
	post := 11.4 * loops / (loops + 0.1)
	require.InEpsilon(t, post, f.at["BAT.+"], 0.005, "%g %g", own, rest)
	require.Contains(t, f.weak, "H1")
	f = see(t, h, r, "BAT:dead")
	require.InDelta(t, 1.6, f.at["BAT.+"], 0.3, "the relay lets go: less hangs on it")
	require.Contains(t, f.dead, "H1")
	f = see(t, h, r, "BAT:disconnected")
	require.InDelta(t, float64(h.Elements[0].Volts), f.at["BAT.+"], 1e-6)
	require.InDelta(t, 0, f.at["MF1.1"], 1e-6)
}

// Faults that leave nothing to see are not in the dictionary.
func TestNothingToSee(t *testing.T) {
	h, r, b := dictionary(t, bar)
	sides := 0
	for _, w := range h.Wires {
		if to := h.PartOf(w.To); to != nil && to.Kind == harness.Ground {
			_, there := look(h, r, w.Name+":short")
			require.False(t, there, "%s is on the ground side", w.Name)
			sides++
		}
	}
	require.Equal(t, 4, sides)
	require.Contains(t, b.Silent(), "X1.3:open")
}

// The ladder of a heater goes from the battery to it and back to ground, and tells open,
// joints and the heater itself apart.
func TestLadder(t *testing.T) {
	h, r, b := dictionary(t, bar)
	ladders := b.Ladders()
	require.Len(t, ladders, 3)
	l := ladders[0]
	require.Equal(t, "H1", h.Elements[l.Load].Name)
	var at []string
	for _, g := range l.Rungs {
		at = append(at, h.Terminals[r.Proof.Points[g.Point].At].Full)
	}
	require.Equal(t, []string{"BAT.+", "MF1.1", "MF1.2", "X1.1.in", "X1.1.out", "SW1.1", "SW1.2", "H1.+", "H1.-", "G1", "G0", "BAT.-"}, at)
	require.Equal(t, "H1:open ", ids(r, l.Rest))
	fuse := l.Rungs[2]
	require.Equal(t, "MF1:burnt-10 ", ids(r, fuse.Means[0].Faults))
	require.Equal(t, "MF1:burnt-60 ", ids(r, fuse.Means[2].Faults))
	require.Contains(t, ids(r, fuse.Means[3].Faults), "MF1:open ")
	require.Contains(t, ids(r, fuse.Means[3].Faults), "2B:short ")
	at0 := point.At(h, r.Proof.Points)
	require.NotEmpty(t, at0)
}

// What dies together: the shared ground and the shared fuse stand with the loads that they
// take, and what lives though it shares something.
func TestTogether(t *testing.T) {
	h, r, b := dictionary(t, bar)
	together := b.Together()
	require.NotEmpty(t, together)
	found := map[string]proof.Together{}
	for i, x := range together {
		found[ids(r, x.Faults)] = x
		require.Greater(t, len(x.Dead)+len(x.Weak)+len(x.Extra), 1)
		if i > 0 {
			require.LessOrEqual(t, len(x.Dead), len(together[i-1].Dead), "the largest first")
		}
	}
	for says, x := range found {
		if len(x.Dead) == 2 {
			require.Equal(t, []string{"H1", "H3"}, named(h, x.Dead))
			require.Contains(t, says, "MF1:open ")
			require.Contains(t, says, "2B:short ")
			require.NotContains(t, says, "G1:unearthed ")
		}
	}
}
