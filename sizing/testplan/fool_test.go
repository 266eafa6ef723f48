package testplan_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
)

// tricky is a vehicle with what fools a finder: a relay with a resistor and one with a
// diode, a heater, a gauge with its sender through a plug, a module with a memory, two
// fuses to one load, two door switches, a flasher, a starter, a breaker.
const tricky = `system: {volts: 12}
parts:
  BAT: {kind: battery}
  ST: {kind: starter, draws: 150 A}
  IGN: {kind: ignition-switch}
  P: {kind: fuse-panel, body: blade, feeds: {in: [1, 2, 3, 4, 5, 6, 7]}, layout: [[1, 2, 3, 4], [5, 6, 7]]}
  MF: {kind: fuse, body: bolt}
  CB: {kind: breaker, rating: 15 A}
  K1: {kind: relay, suppression: resistor}
  K2: {kind: relay, suppression: diode}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  IND: {kind: switch, positions: {off: [], left: [[49a, L]]}}
  D1: {kind: switch, positions: {shut: [], open: [[1, 2]]}}
  D2: {kind: switch, positions: {shut: [], open: [[1, 2]]}}
  SP: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  SF: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  FLS: {kind: flasher}
  HEAT: {kind: heater, draws: 14 A}
  HORN: {kind: horn, draws: 5 A}
  PUMP: {kind: motor, draws: 6 A}
  FAN: {kind: motor, draws: 8 A}
  GA: {kind: gauge, draws: 0.1 A}
  SE: {kind: sender, draws: 0.1 A}
  RAD: {kind: module, inside: [{from: 75, to: 31, draws: 4 A}, {from: 30, to: 31, draws: 5 mA}]}
  IL: {kind: lamp, draws: 5 W}
  FIL: {kind: lamp, draws: 21 W}
  X: {kind: connector, cavities: 4}
  SD: {kind: splice}
  G0: {kind: ground}
  G1: {kind: ground}
  G2: {kind: ground}
circuits:
  earth: {number: 1, class: start, legs: [[G0, {to: BAT.-, length: 0.3 m}], [ST.case, {to: G1, length: 0.3 m}]]}
  start: {number: 2, class: start, legs: [[BAT.+, {to: ST.30, length: 0.5 m}], [IGN.50, {to: ST.50, length: 1 m}]]}
  feed: {number: 3, legs: [[BAT.+, {to: MF, length: 0.1 m}, {to: P.in, length: 0.3 m}], [P.1, {to: IGN.30, length: 1 m}]]}
  heat: {number: 4, legs: [[P.2, {to: K1.30, length: 1 m}, K1.87, {to: HEAT, length: 1 m}, {to: G2, length: 1 m}], [IGN.15, {to: SW, length: 1 m}, {to: K1.86, length: 1 m}, K1.85, {to: G2, length: 1 m}]]}
  horn: {number: 5, legs: [[P.3, {to: K2.30, length: 1 m}, K2.87, {to: HORN, length: 1 m}, {to: G2, length: 1 m}], [IGN.15, {to: K2.86, length: 1 m}, K2.85, {to: G2, length: 1 m}]]}
  gauge: {number: 6, legs: [[IGN.15, {to: GA, length: 1 m}, {to: X.1, length: 1 m}, {to: SE, length: 2 m}, {to: G2, length: 1 m}]]}
  radio: {number: 7, legs: [[IGN.75, {to: RAD.75, length: 1 m}, RAD.31, {to: G2, length: 1 m}], [P.4, {to: RAD.30, length: 1 m}]]}
  fan: {number: 8, legs: [[P.5, {to: FAN, length: 2 m}, {to: SF, length: 1 m}, {to: G2, length: 1 m}], [P.6, {to: FAN.+, length: 2 m}]]}
  doors: {number: 9, legs: [[P.7, {to: IL, length: 2 m}, {to: SD, length: 1 m}, {to: D1, length: 1 m}, {to: G2, length: 1 m}], [SD, {to: D2, length: 1 m}, {to: G2, length: 1 m}]]}
  flash: {number: 10, legs: [[IGN.15, {to: FLS.49, length: 1 m}, FLS.49a, {to: IND.49a, length: 1 m}, IND.L, {to: X.2, length: 1 m}, {to: FIL, length: 2 m}, {to: G2, length: 1 m}], [FLS.31, {to: G2, length: 1 m}]]}
  pump: {number: 11, legs: [[BAT.+, {to: CB, length: 0.1 m}, {to: SP, length: 1 m}, {to: PUMP, length: 2 m}, {to: G2, length: 1 m}]]}
states:
  parked: {}
  on: {IGN: run, SW: on, SP: on, SF: on}
  left: {IGN: run, IND: left}
  boarding: {D1: open, D2: open}
  crank: {IGN: start, engine: cranking}
`

// asks reads a plan for the test.
type asks struct {
	t *testing.T
	h *harness.Harness
	r *result.Result
}

func (a asks) terminal(full string) harness.TerminalID {
	i := slices.IndexFunc(a.h.Terminals, func(x harness.Terminal) bool { return x.Full == full })
	require.GreaterOrEqual(a.t, i, 0, full)
	return harness.TerminalID(i)
}

func (a asks) point(full string) proof.Point {
	t := a.terminal(full)
	i := slices.IndexFunc(a.r.Proof.Points, func(p proof.Point) bool { return p.At == t })
	require.GreaterOrEqual(a.t, i, 0, full)
	return a.r.Proof.Points[i]
}

func (a asks) apart(x, y string) (proof.Apart, bool) {
	p, q := a.terminal(x), harness.Chassis
	if y != "" {
		q = a.terminal(y)
	}
	i := slices.IndexFunc(a.r.Proof.Before.Apart, func(p_ proof.Apart) bool { return p_.A == p && p_.B == q || p_.A == q && p_.B == p })
	if i < 0 {
		return proof.Apart{}, false
	}
	return a.r.Proof.Before.Apart[i], true
}

func (a asks) part(ref string) harness.PartID {
	return harness.PartID(slices.IndexFunc(a.h.Parts, func(p harness.Part) bool { return p.Ref == ref }))
}

func (a asks) off(x proof.Apart) (out []string) {
	for _, p := range x.Off {
		out = append(out, a.h.Parts[p].Ref)
	}
	return out
}

func (a asks) coil(name string) proof.CoilAmps {
	i := slices.IndexFunc(a.r.Proof.Coils, func(c proof.CoilAmps) bool { return a.h.Elements[c.Coil].Name == name })
	require.GreaterOrEqual(a.t, i, 0, name)
	return a.r.Proof.Coils[i]
}

func (a asks) section(what string) (proof.Section, bool) {
	i := slices.IndexFunc(a.r.Proof.Sections, func(s proof.Section) bool { return s.What == what })
	if i < 0 {
		return proof.Section{}, false
	}
	return a.r.Proof.Sections[i], true
}

func (a asks) pulled(fuse string) (proof.Pulled, bool) {
	i := slices.IndexFunc(a.r.Proof.Before.Pulled, func(p proof.Pulled) bool { return a.h.Elements[p.Fuse].Name == fuse })
	if i < 0 {
		return proof.Pulled{}, false
	}
	return a.r.Proof.Before.Pulled[i], true
}

// TestWhatFoolsAFinder: what a beeper, a lamp or a plain reading would tell wrongly is said.
func TestWhatFoolsAFinder(t *testing.T) {
	h, r := proved(t, tricky)
	a := asks{t, h, r}
	sane(t, h, r)
	holds(t, h, r, 40)

	coils, _ := a.apart("P.1", "")
	require.Contains(t, a.off(coils), "K2", "coils beep to ground from the key's fuse")
	require.Contains(t, coils.Switch, a.part("IGN"), "with the key worked")
	heater, _ := a.apart("K1.87", "")
	require.Equal(t, []string{"HEAT"}, a.off(heater), "a heater reads like a short to ground")
	pump, _ := a.apart("CB.2", "")
	require.Equal(t, []string{"PUMP"}, a.off(pump), "so does a motor, its switch worked")
	require.Equal(t, "leads to a gauge: meter only", a.point("X.1.in").NoBut, "a sender's line, at a plug on the way")
	require.Equal(t, "module: meter only", a.point("RAD.75").NoBut)
	two, _ := a.pulled("P.5")
	require.Contains(t, two.Note, "another feeder", "a second fuse holds the load side live")
	require.Contains(t, a.point("FIL.+").Pulses, "FLS")
	require.Contains(t, a.point("HORN.+").Misleads, "HORN gets", "a test lamp lights behind a joint that stops the horn")
	k1 := a.coil("K1.coil")
	require.Less(t, float64(k1.Ohms), 80.0, "the resistor lies beside the coil")
	require.Equal(t, "86 is positive", a.coil("K2.coil").Diode, "an ohmmeter reads both ways otherwise")
	door, asked := a.section("D1.1-2")
	require.True(t, asked, "a second door keeps the lamp lit: each switch is judged by its own millivolts")
	require.Less(t, float64(door.Most), 0.03)
	last := r.Proof.Power[len(r.Proof.Power)-1]
	require.Equal(t, "direct", last.Through, "cranking comes last, and never behind a lamp")
	require.Equal(t, harness.EngineCranking, h.States[last.State].Engine)
	off := lampSteps(r, "P.1 to P.7 in, one by one, everything off")
	require.Len(t, off, 1)
	require.Equal(t, "dark", off[0].Lamp, "a lamp does not see the radio's memory")
	require.InDelta(t, 0.005, float64(r.Proof.KeyOff.Sum), 0.0005, "the key-off current does")
	_, whole := a.section("feed of SE")
	require.False(t, whole, "the gauge lies on the sender's feed: no drop to be judged")
}

// TestWhatIsSoundIsNotBlamed: what an electrician would not ask is not asked, and what is
// right lies well inside.
func TestWhatIsSoundIsNotBlamed(t *testing.T) {
	h, r := proved(t, tricky)
	a := asks{t, h, r}
	open, _ := a.apart("K1.30", "K1.87")
	require.True(t, math.IsInf(float64(open.Ohms), 1), "nothing joins a relay's open contact")
	require.Empty(t, open.Note)
	_, asked := a.apart("X.1.in", "X.1.out")
	require.False(t, asked, "both halves of a cavity are one metal")
	_, asked = a.apart("G2", "")
	require.False(t, asked, "ground is not asked to be apart from ground")
	_, asked = a.pulled("CB")
	require.False(t, asked, "a breaker cannot be pulled")
	for _, full := range []string{"P.3", "K2.30", "K2.87", "HORN.+", "SW.1", "IGN.15", "FIL.+"} {
		require.True(t, a.point(full).Lamp, full)
	}
	require.Empty(t, a.point("IL.+").Misleads, "2 Ω cost a lamp of 5 W less than a tenth")
	require.Empty(t, a.point("P.3").Pulses)
	require.Empty(t, a.coil("K1.coil").Diode)
	ends := 0
	for _, s := range r.Proof.Sections {
		require.Empty(t, s.Blind, s.What)
		if !s.Whole && h.States[s.State].Engine != harness.EngineCranking {
			require.Less(t, float64(s.Most), 0.5, "a drop that manuals call doubtful is no limit: "+s.What)
			ends++
		}
	}
	require.Greater(t, ends, 40)
	for _, k := range r.Proof.Coils {
		require.GreaterOrEqual(t, float64(k.High), float64(k.Amps))
	}
}
