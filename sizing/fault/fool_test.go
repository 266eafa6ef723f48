package fault_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// small is a bench with a battery, its ground and the given parts, circuits and states.
func small(system, parts, circuits, states string) string {
	return `
loomfolio: 1
title: Kestrel bench
system: ` + system + `
places:
  tray: {name: Tray, zone: engine, tail: 100 mm}
  dash: {name: Dash, zone: cabin, tail: 100 mm}
runs:
  - {from: tray, to: dash, length: 1 m}
parts:
  BAT: {kind: battery, at: tray, capacity: 60 Ah}
  G0:  {kind: ground, at: tray}
  G1:  {kind: ground, at: dash}
` + parts + `
circuits:
` + circuits + `
states:
  parked: {}
` + states
}

const plain = "{volts: 12, running: 14.2 V}"

const earth = "  earth: {number: 1, legs: [[G0, BAT.-]]}\n"

// expected is what a fault must show.
type expected struct {
	id                       string
	none                     bool // the dictionary must not have it
	dead, weak, extra, blown string
	at                       map[string]float64 // volts, to 0.3 V
}

func require1(t *testing.T, h *harness.Harness, r *result.Result, x expected) {
	t.Helper()
	if x.none {
		name, _, _ := strings.Cut(x.id, ":")
		known := false
		for _, w := range h.Wires {
			known = known || w.Name == name
		}
		require.True(t, known, "there is no wire %s", name)
		_, there := look(h, r, x.id)
		require.False(t, there, "%s shows nothing", x.id)
		return
	}
	f := see(t, h, r, x.id)
	require.Equal(t, x.dead, strings.Join(f.dead, " "), "%s: dead", x.id)
	require.Equal(t, x.weak, strings.Join(f.weak, " "), "%s: weak", x.id)
	require.Equal(t, x.extra, strings.Join(f.extra, " "), "%s: extra", x.id)
	require.Equal(t, x.blown, strings.Join(f.blown, " "), "%s: blown", x.id)
	for point, v := range x.at {
		require.InDelta(t, v, f.at[point], 0.3, "%s at %s", x.id, point)
	}
}

// What would fool a dictionary that looks at the drawing alone.
func TestFooled(t *testing.T) {
	for _, c := range []struct {
		name, system, parts, circuits, states string
		expected                              []expected
	}{
		{"a short on metal that two fuses feed opens both", plain, `
  MF1: {kind: fuse, at: tray, rating: 20 A}
  MF2: {kind: fuse, at: tray, rating: 20 A}
  S1:  {kind: splice, at: dash}
  SW:  {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}
  H:   {kind: heater, at: dash, draws: 8 A}`, earth + `
  one: {number: 2, legs: [[BAT.+, {to: MF1, length: 150 mm}, S1], [BAT.+, {to: MF2, length: 150 mm}, S1, SW, H, G1]]}`,
			`  on: {SW: "on"}`, []expected{
				{id: "2E:short", dead: "H", blown: "MF1 MF2", at: map[string]float64{"S1": 0}},
				{id: "2B:open"},                 // the other feed carries on
				{id: "2B:joint-10", none: true}, // nothing there costs the heater a tenth
				{id: "MF1:open"},
			}},
		{"one of two feeds opens and the other is too weak for all", plain, `
  MF1: {kind: fuse, at: tray, rating: 5 A}
  MF2: {kind: fuse, at: tray, rating: 5 A}
  S1:  {kind: splice, at: dash}
  SW:  {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}
  H:   {kind: heater, at: dash, draws: 9 A}`, earth + `
  one: {number: 2, legs: [[BAT.+, {to: MF1, length: 150 mm}, S1], [BAT.+, {to: MF2, length: 150 mm}, S1, SW, H, G1]]}`,
			`  on: {SW: "on"}`, []expected{{id: "2B:open", dead: "H", blown: "MF2"}}},
		{"a changeover relay that is stuck leaves on what should go out", plain, `
  MF1: {kind: fuse, at: tray}
  SW:  {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}
  K1:  {kind: relay, at: dash, changeover: true}
  H1:  {kind: heater, at: dash, draws: 4 A}
  H2:  {kind: heater, at: dash, draws: 5 A}`, earth + `
  one: {number: 2, legs: [[BAT.+, {to: MF1, length: 150 mm}, K1.30, K1.87, H1, G1], [K1.87a, H2, G1], [MF1.2, SW, K1.86, K1.85, G1]]}`,
			`  on: {SW: "on"}`, []expected{
				{id: "K1:stuck", dead: "H1", extra: "H2", at: map[string]float64{"K1.87a": 12.4, "K1.87": 0}},
				{id: "K1.30-87:open", dead: "H1"},
				{id: "K1.30-87a:open", dead: "H2"},
				{id: "K1.30-87a:welded", extra: "H2"},
			}},
		{"a shorted diode lets one feed light what hangs on the other", plain, `
  MF1: {kind: fuse, at: tray}
  MF2: {kind: fuse, at: tray}
  SA:  {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}
  SB:  {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}
  DA:  {kind: diode, at: dash}
  DB:  {kind: diode, at: dash}
  S1:  {kind: splice, at: dash}
  HA:  {kind: heater, at: dash, draws: 2 A}
  HB:  {kind: heater, at: dash, draws: 2 A}
  HC:  {kind: heater, at: dash, draws: 1 A}`, earth + `
  one: {number: 2, legs: [[BAT.+, {to: MF1, length: 150 mm}, SA, HA, G1], [SA.2, DA, S1, HC, G1]]}
  two: {number: 3, legs: [[BAT.+, {to: MF2, length: 150 mm}, SB, HB, G1], [SB.2, DB, S1]]}`,
			`  a: {SA: "on"}
  b: {SB: "on"}`, []expected{
				{id: "DB:shorted", extra: "HB"},
				{id: "DA:shorted", extra: "HA"},
				{id: "DA:open", dead: "HC"},
			}},
		{"positive earth: the bodywork is plus, what is live is below it", "{volts: 6, running: 7.2 V, earth: positive}", `
  MF1: {kind: fuse, at: tray}
  SW:  {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}
  H:   {kind: heater, at: dash, draws: 4 A}`, `
  earth: {number: 1, legs: [[BAT.+, G0]]}
  one: {number: 2, legs: [[BAT.-, {to: MF1, length: 150 mm}, SW, H.-, H.+, G1]]}`,
			`  on: {SW: "on"}`, []expected{
				{id: "2B:short", dead: "H", blown: "MF1", at: map[string]float64{"BAT.-": -6.3, "MF1.2": 0}},
				{id: "2B:joint-30", weak: "H", at: map[string]float64{"MF1.2": -6.2, "SW.1": -4.3}},
				{id: "G1:unearthed", dead: "H", at: map[string]float64{"H.+": -6.2}},
				{id: "2N:short", none: true}, // the earth side
			}},
		{"wired return: the bodywork is no way home", "{volts: 12, running: 14.2 V, return: wired}", `
  MF1: {kind: fuse, at: tray}
  SW:  {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}
  H:   {kind: heater, at: dash, draws: 4 A}`, `
  one: {number: 2, legs: [[BAT.+, {to: MF1, length: 150 mm}, SW, H, {to: BAT.-, length: 1 m}]]}`,
			`  on: {SW: "on"}`, []expected{
				{id: "2B:short", none: true},
				{id: "2N:open", dead: "H", at: map[string]float64{"H.-": 12.5}},
			}},
		{"a wire to a switch on the ground side: its short switches the load on, and no fuse opens", plain, `
  MF1: {kind: fuse, at: tray}
  HB:  {kind: switch, at: dash, positions: {up: [], pressed: [[1, 2]]}}
  HN:  {kind: horn, at: dash, draws: 4 A}`, earth + `
  one: {number: 2, legs: [[BAT.+, {to: MF1, length: 150 mm}, HN, HB, G1]]}`,
			`  horn: {HB: pressed}`, []expected{
				{id: "2C:short", extra: "HN"},
				{id: "2B:short", dead: "HN", blown: "MF1"},
				{id: "2N:short", none: true},
				{id: "HB.1-2:welded", extra: "HN"},
			}},
		{"lamps on a ground that is off light one another", plain, `
  MF1: {kind: fuse, at: tray}
  MF2: {kind: fuse, at: tray}
  SA:  {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}
  SB:  {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}
  RL:  {kind: lamp, at: dash, terminals: [58, 54, 31], inside: [{from: 58, to: 31, draws: 21 W}, {from: 54, to: 31, draws: 21 W}]}
  FR:  {kind: lamp, at: dash, draws: 21 W}
  G2:  {kind: ground, at: dash}`, earth + `
  one: {number: 2, legs: [[BAT.+, {to: MF1, length: 150 mm}, SA, RL.58, RL.31, G1]]}
  two: {number: 3, legs: [[BAT.+, {to: MF2, length: 150 mm}, SB, RL.54], [SB.2, FR, G2]]}`,
			`  tail: {SA: "on"}` + "\n" + `  brake: {SB: "on"}`, []expected{
				{id: "G1:unearthed", weak: "RL.58-31", extra: "RL.54-31 FR"},
			}},
		{"a relay that holds itself lets go with its own contact", plain, `
  MF1: {kind: fuse, at: tray}
  B1:  {kind: switch, at: dash, positions: {up: [], pressed: [[1, 2]]}}
  K1:  {kind: relay, at: dash}
  H:   {kind: heater, at: dash, draws: 4 A}`, earth + `
  one: {number: 2, legs: [[BAT.+, {to: MF1, length: 150 mm}, K1.30, K1.87, H, G1], [K1.30, B1, K1.86, K1.85, G1], [K1.87, {to: K1.86, length: 60 mm}]]}`,
			`  press: {B1: pressed}`, []expected{
				{id: "K1:stuck"}, // the button feeds it, and through the holding wire the heater too
				{id: "K1.30-87:open"},
				{id: "K1.30-87:welded", extra: "H"},
			}},
		{"a short where a breaker guards opens the breaker", plain, `
  CB:  {kind: breaker, at: tray, rating: 15 A}
  SW:  {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}
  H:   {kind: heater, at: dash, draws: 4 A}`, earth + `
  one: {number: 2, legs: [[BAT.+, {to: CB, length: 150 mm}, SW, H, G1]]}`,
			`  on: {SW: "on"}`, []expected{{id: "2B:short", dead: "H", blown: "CB"}, {id: "2C:short", dead: "H", blown: "CB"}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			h, r, _ := dictionary(t, small(c.system, c.parts, c.circuits, c.states))
			for _, x := range c.expected {
				require1(t, h, r, x)
			}
		})
	}
}

// What would make it cry wolf: nothing is dead, weak or opened that works.
func TestCriesNoWolf(t *testing.T) {
	h, r, b := dictionary(t, bar)
	for _, id := range []string{
		"G1:short",         // a ground point touches ground
		"X1.1~X1.2:short",  // both at the battery's voltage whatever is on
		"X1.2~X1.3:short",  // an empty cavity
		"MF1:short",        // metal in a holder is its wire's
		"D1:shorted",       // it never has to block
		"X1.3:open",        // an empty cavity carries nothing
		"2A~3A:short",      // both on the battery's post
		"BAT:short",        // no single wire
		"G0:welded",        // no contact
		"K1.30-87a:welded", // it has none
	} {
		_, there := look(h, r, id)
		require.False(t, there, id)
	}
	for i, f := range r.Proof.Faults {
		if f.Costs == 0 {
			continue
		}
		require.Empty(t, f.Blown, "%s: a bad joint opens no fuse", f.ID)
		require.Empty(t, f.Extra, f.ID)
		if f.Costs == 0.1 {
			require.Empty(t, f.Dead, "%s: a tenth kills nothing", f.ID)
		}
		parked := b.In(0, i)
		require.Empty(t, parked.Dead, "%s: nothing is on in the parked state", f.ID)
		require.Empty(t, parked.Extra, f.ID)
	}
}

// Without a fuse, the dictionary's dead are those that stop by the outages, for all samples:
// in a state in which the fuse carries, what is on and dead must be among them, and what
// must stop and is on must be dead.
func TestFuseOutIsItsOutage(t *testing.T) {
	forSamples(t, func(t *testing.T, h *harness.Harness, r *result.Result) {
		for i, fuse := range r.Fuses {
			f, there := look(h, r, fuse.Name+":open")
			if !there || r.Outages[i].Shared || charged(h, r, f.State) {
				continue
			}
			stops := map[string]bool{}
			for _, n := range append(append([]string{}, r.Outages[i].Stops...), r.Outages[i].Behind()...) {
				stops[n] = true
			}
			for _, n := range f.dead {
				require.True(t, stops[n], "%s: %s is dead and no outage tells it", f.ID, n)
			}
			on := map[string]bool{}
			for _, l := range r.Loads {
				e := h.Elements[l.Element]
				across := math.Abs(r.States[f.State].Volts[e.A] - r.States[f.State].Volts[e.B])
				on[l.Name] = across > 0.5*float64(e.AtVolts)
			}
			for _, n := range r.Outages[i].Stops {
				if on[n] {
					require.Contains(t, append(f.dead, f.weak...), n, "%s in %s", f.ID, h.States[f.State].Name)
				}
			}
		}
	})
}

// charged tells a state in which an alternator carries the loads when a fuse of the
// battery is out: outages are told without it.
func charged(h *harness.Harness, r *result.Result, state int) bool {
	for _, e := range h.Elements {
		if e.Kind == harness.Charger && r.States[state].ElementAt[e.ID] >= 0 {
			return true
		}
	}
	return false
}
