package state_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/check/state"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

const undeclared = `loomfolio: 1
title: No states
system: {volts: 12}
parts:
  BAT: {kind: battery}
  ISO: {kind: isolator, positions: {open: [], closed: [[1, 2]]}}
  F1: {kind: fuse}
  ST: {kind: starter, draws: 150 A}
  IGN: {kind: ignition-switch, terminals: [30, 15, 50]}
  DIP: {kind: switch, positions: {off: [], main: [[1, 2]], dipped: [[1, 3]]}}
  K1: {kind: relay}
  MAIN: {kind: lamp, draws: 10 A}
  DIPPED: {kind: lamp, draws: 8 A}
  BLOW: {kind: switch, positions: {off: [], low: [[1, 2]], high: [[1, 3]], purge: [[1, 4], [1, 5]]}}
  SLOW: {kind: motor, draws: 3 A}
  FAST: {kind: motor, draws: 9 A}
  PILOT: {kind: lamp, draws: 1 A}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, BAT.-], [ST.case, G1]]}
  main: {number: 2, legs: [[BAT.+, ISO, F1, IGN.30, IGN.15, DIP.1], [ISO, ST.30], [IGN.50, ST.50]]}
  lamps: {number: 3, legs: [[DIP.2, K1.86, K1.85, G1], [IGN.15, K1.30, K1.87, MAIN, G1], [DIP.3, DIPPED, G1]]}
  blower: {number: 4, legs: [[IGN.15, BLOW.1], [BLOW.2, SLOW, G1], [BLOW.3, FAST, G1], [BLOW.4, PILOT, G1], [BLOW.5, PILOT.+]]}
`

// Without declared states: parked, driving, each position of each switch alone with the
// engine running, everything on, cranking.
func TestMadeStates(t *testing.T) {
	d, problems := describe.Parse("test.yaml", []byte(undeclared))
	require.Empty(t, problems)
	h, found := check.Check(d)
	require.NotNil(t, h, "%v", found)
	at := func(state int) map[string]string {
		out := map[string]string{}
		for i, n := range h.States[state].Position {
			if p := &h.Parts[i]; n > 0 {
				out[p.Ref] = p.Positions[n]
			}
		}
		return out
	}
	var names []string
	for _, s := range h.States {
		names = append(names, s.Name)
		require.True(t, s.Made)
	}
	require.Equal(t, []string{"parked", "driving", "DIP main", "DIP dipped", "BLOW low", "BLOW high", "BLOW purge", "everything on", "cranking"}, names)
	require.Empty(t, at(0), "parked: all at rest")
	require.Equal(t, map[string]string{"ISO": "closed", "IGN": "run", "DIP": "dipped"}, at(3), "one alone")
	require.Equal(t, map[string]string{"ISO": "closed", "IGN": "run", "DIP": "main", "BLOW": "high"}, at(7),
		"the position with most current: 10 A of lamps over the relay before 8 A, 9 A over one contact before 1 A over two")
	require.Equal(t, map[string]string{"ISO": "closed", "IGN": "start"}, at(8))
	require.Equal(t, harness.EngineRunning, h.States[7].Engine)
	require.Equal(t, harness.EngineCranking, h.States[8].Engine)
}

// driven takes a description without states and gives the made ones by name, each with
// what is not at rest in it, and what the engine does.
func driven(t *testing.T, parts, legs string) (names []string, at map[string]map[string]string, engine map[string]harness.Engine) {
	t.Helper()
	d, problems := describe.Parse("test.yaml", []byte("loomfolio: 1\ntitle: Driven\nsystem: {volts: 12}\nparts:\n  BAT: {kind: battery}\n  G: {kind: ground}\n"+parts+"circuits:\n  one: {legs: ["+legs+"]}\n"))
	require.Empty(t, problems)
	h, found := check.Check(d)
	require.NotNil(t, h, "%v", found)
	at, engine = map[string]map[string]string{}, map[string]harness.Engine{}
	for _, s := range h.States {
		names = append(names, s.Name)
		at[s.Name], engine[s.Name] = map[string]string{}, s.Engine
		for i, n := range s.Position {
			if p := &h.Parts[i]; n > 0 {
				at[s.Name][p.Ref] = p.Positions[n]
			}
		}
	}
	return names, at, engine
}

// A button turns the starter through its relay, behind the ignition toggle that the coil
// needs: it is pressed while cranking alone, the toggle is on wherever the engine turns, and
// a cut-off stays at rest.
func TestCrankingByAButton(t *testing.T) {
	names, at, engine := driven(t, `  ISO: {kind: isolator}
  F: {kind: fuse}
  ST: {kind: starter, draws: 150 A}
  IGN: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  SB: {kind: switch, positions: {up: [], pressed: [[1, 2]]}, momentary: true}
  HB: {kind: switch, positions: {up: [], pressed: [[1, 2]]}, momentary: true}
  KS: {kind: relay}
  CRASH: {kind: switch, positions: {ok: [[1, 2]], tripped: []}}
  COIL: {kind: coil, draws: 4 A}
  PUMP: {kind: motor, draws: 5 A}
  HORN: {kind: horn, draws: 8 A}
`, "[BAT.+, ISO, ST.30], [ST.case, G], [ISO.2, F, IGN, SB, KS.86, KS.85, G], [F, KS.30, KS.87, ST.50], [IGN.2, COIL, G], [IGN.2, CRASH, PUMP, G], [F, HORN, HB, G]")
	require.Equal(t, []string{"parked", "driving", "HB pressed", "cranking"}, names,
		"with nothing else to turn on, driving is everything on, and told once")
	require.Equal(t, map[string]string{"IGN": "on"}, at["driving"])
	require.Equal(t, map[string]string{"IGN": "on", "SB": "pressed"}, at["cranking"])
	require.Equal(t, map[string]string{"IGN": "on", "HB": "pressed"}, at["HB pressed"])
	require.Equal(t, harness.EngineCranking, engine["cranking"])
	require.Equal(t, harness.EngineRunning, engine["driving"])
	require.Equal(t, harness.EngineOff, engine["parked"])
}

// Two positions of one switch have a state each, with the switch that feeds it, the rest
// position as well where it closes something; a key has words of its own; a relay that the key
// drives on its ground side is turned on through it.
func TestSwitchesBehindSwitches(t *testing.T) {
	names, at, _ := driven(t, `  F: {kind: fuse}
  ST: {kind: starter, draws: 150 A}
  KEY: {kind: ignition-switch, terminals: [B, R, I, S], positions: {lock: [], radio: [[B, R]], glow: [[B, I]], turn: [[B, I], [B, S]]}}
  LS: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  DIP: {kind: switch, positions: {dip: [[1, 2]], main: [[1, 3]]}}
  K: {kind: relay}
  L1: {kind: lamp, draws: 45 W}
  L2: {kind: lamp, draws: 60 W}
  RAD: {kind: motor, draws: 1 A}
  GLOW: {kind: heater, draws: 20 A}
`, "[BAT.+, ST.30], [ST.case, G], [BAT.+, F, KEY.B], [KEY.S, ST.50], [KEY.R, RAD, G], [F, K.30, K.86], [K.85, LS, G], [K.87, DIP.1], [DIP.2, L1, G], [DIP.3, L2, G], [KEY.I, GLOW, G]")
	require.Equal(t, []string{"parked", "KEY radio", "driving", "LS on", "DIP main", "cranking"}, names, "LS on is DIP dip, DIP main is everything on")
	require.Equal(t, map[string]string{"KEY": "radio"}, at["KEY radio"])
	require.Equal(t, map[string]string{"KEY": "glow"}, at["driving"])
	require.Equal(t, map[string]string{"KEY": "glow", "LS": "on", "DIP": "main"}, at["DIP main"])
	require.Equal(t, map[string]string{"KEY": "glow", "LS": "on"}, at["LS on"])
	require.Equal(t, map[string]string{"KEY": "turn"}, at["cranking"])
}

// An isolator in one load's lead is worked like a switch; one before fuses is closed in all
// but parked.
func TestIsolators(t *testing.T) {
	names, at, _ := driven(t, `  MAIN: {kind: isolator, positions: {open: [], closed: [[1, 2]]}}
  OWN: {kind: isolator, positions: {open: [], closed: [[1, 2]]}}
  F: {kind: fuse}
  F2: {kind: fuse}
  INV: {kind: outlet, draws: 60 A}
  L: {kind: lamp, draws: 10 W}
`, "[BAT.+, MAIN, F, OWN, INV, G], [MAIN.2, F2, L, G]")
	require.Equal(t, []string{"parked", "driving", "OWN closed"}, names)
	require.Empty(t, at["parked"])
	require.Equal(t, map[string]string{"MAIN": "closed"}, at["driving"])
	require.Equal(t, map[string]string{"MAIN": "closed", "OWN": "closed"}, at["OWN closed"])
}

// parts is a harness with nothing but a switch and a lamp.
func parts() *harness.Harness {
	return &harness.Harness{Parts: []harness.Part{
		{ID: 0, Ref: "SW", Kind: harness.Switch, Positions: []string{"off", "on"}},
		{ID: 1, Ref: "L1", Kind: "lamp"},
	}}
}

// Declared states hold alone; what is not set is at rest, and what cannot be set is reported where it is written.
func TestDeclaredStates(t *testing.T) {
	word := func(s string, line int) read.Word { return read.Word{Text: s, Span: source.At(line, 3, len(s))} }
	set := func(line int, name, position string) describe.Pair {
		return describe.Pair{Key: word(name, line), Value: word(position, line)}
	}
	written := []describe.State{
		{Key: word("driving", 1), Engine: word("running", 1), Settings: []describe.Pair{set(2, "SW", "on")}},
		{Key: word("odd", 3), Settings: []describe.Pair{set(4, "SW9", "on"), set(5, "L1", "on"), set(6, "SW", "onn"), set(7, "BAD", "on")}},
	}
	states, found := state.Of(written, parts(), map[string]bool{"BAD": true})
	require.Equal(t, []harness.State{
		{Name: "driving", Position: []int{1, 0}, Engine: harness.EngineRunning, Span: written[0].Key.Span},
		{Name: "odd", Position: []int{0, 0}, Engine: harness.EngineOff, Span: written[1].Key.Span},
	}, states)
	var slugs []string
	for i, p := range found {
		slugs = append(slugs, p.Slug)
		require.Equal(t, 4+i, p.Span.Start.Line)
	}
	require.Equal(t, []string{"unknown-switch", "no-positions", "unknown-position"}, slugs, "a part that was written wrongly raises no second problem")
}

// A park contact turns while its motor is fed, and on the way to its rest in a state of its own; a thermostat is once cold and
// once hot; the oil has pressure while the engine runs; a switch with the leads of a window motor is worked like a button.
func TestWhatMovesByItself(t *testing.T) {
	names, at, engine := driven(t, `  IGN: {kind: ignition-switch}
  F: {kind: fuse}
  WSW: {kind: switch, positions: {off: [[53e, 53]], slow: [[53a, 53]]}}
  WIP: {kind: wiper}
  TS: {kind: thermostat, terminals: [1]}
  FAN: {kind: motor, draws: 8 A}
  OL: {kind: lamp, draws: 2 W}
  OIL: {kind: pressure-switch, terminals: [1]}
  WS: {kind: switch, positions: {rest: [[31, U], [31, D]], up: [[30, U], [31, D]], down: [[30, D], [31, U]]}}
  WM: {kind: window-motor}
`, "[BAT.+, F, IGN.30], [IGN.15, WSW.53a, WSW.53, WIP.53, WIP.31, G], [IGN.15, WIP.53a, WIP.53e, WSW.53e], [IGN.15, FAN, TS], [IGN.15, OL, OIL], [IGN.15, WS.30, WS.U, WM.1, WM.2, WS.D], [WS.31, G]")
	require.Equal(t, []string{"parked", "OIL low", "driving", "WSW slow", "WIP turning", "TS hot", "WS up", "WS down", "everything on", "everything on, WS up", "everything on, WS down"}, names)
	require.Equal(t, map[string]string{"IGN": "run"}, at["OIL low"])
	require.Equal(t, harness.EngineOff, engine["OIL low"])
	require.Equal(t, map[string]string{"IGN": "run", "OIL": "high"}, at["driving"])
	require.Equal(t, map[string]string{"IGN": "run", "OIL": "high", "WSW": "slow", "WIP": "turning"}, at["WSW slow"])
	require.Equal(t, map[string]string{"IGN": "run", "OIL": "high", "WIP": "turning"}, at["WIP turning"])
	require.Equal(t, map[string]string{"IGN": "run", "OIL": "high", "WSW": "slow", "WIP": "turning", "TS": "hot"}, at["everything on"])
	require.Equal(t, map[string]string{"IGN": "run", "OIL": "high", "WS": "up"}, at["WS up"])
}

// A pressure switch on a relay is no warning lamp's: it stays at rest while the engine runs, and a wiper through a relay turns
// once the relay's coil is fed.
func TestWhatIsNotMoved(t *testing.T) {
	_, at, _ := driven(t, `  F: {kind: fuse}
  PS: {kind: pressure-switch}
  K: {kind: relay}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  KW: {kind: relay}
  WIP: {kind: wiper, terminals: [53a, 31b, 31]}
`, "[BAT.+, F, PS, K.86, K.85, G], [F, SW, KW.86, KW.85, G], [F, WIP.53a], [WIP.31b, KW.30, KW.87, G], [WIP.31, G]")
	require.Empty(t, at["driving"])
	require.Equal(t, map[string]string{"SW": "on", "WIP": "turning"}, at["SW on"])
	require.Equal(t, map[string]string{"WIP": "turning"}, at["WIP turning"])
}
