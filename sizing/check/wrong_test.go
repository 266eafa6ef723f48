package check_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/source"
)

// wrong holds a small wrong example for each slug of this package. The mark «
// stands before the text that the problem points at.
var wrong = []struct{ slug, says, text string }{
	{"unknown-place", `no place is called "radiater"; did you mean radiator?`, `
parts:
  BAT: {kind: battery, at: «radiater}
circuits:
`},
	{"unknown-part", `no part is called "FON"; did you mean FAN?`, `
circuits:
  fan: {legs: [[BAT.+, F1, «FON.+], [BAT.+, F1, FAN, G1]]}
`},
	{"unknown-terminal", `FAN (motor) has no terminal "plus"; its terminals: +, -`, `
circuits:
  fan: {legs: [[BAT.+, F1, FAN.«plus], [F1, FAN, G1]]}
`},
	{"unknown-terminal", `did you mean K1.86?`, `
circuits:
  fan: {legs: [[BAT.+, F1, K1.30, K1.«86a], [F1, FAN, G1]]}
`},
	{"terminal-needed", `K1 (relay) has more than one way through: say which terminal; write K1.30 or K1.85`, `
circuits:
  fan: {legs: [[BAT.+, F1, «K1, FAN, G1]]}
`},
	{"no-way-through", `nothing in K1 (relay) lets current pass from 86 to 87`, `
circuits:
  fan: {legs: [[BAT.+, F1, K1.86, «K1.87, FAN, G1]]}
`},
	{"stop-twice", `F1 is named twice in a row`, `
circuits:
  fan: {legs: [[BAT.+, F1, «F1, FAN, G1]]}
`},
	{"unknown-class", `no class of circuits is called "startt"; did you mean start?`, `
circuits:
  fan: {class: «startt, legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"unknown-colour", ``, `
circuits:
  fan: {legs: [[BAT.+, {to: F1, colour: «XX}, FAN, G1]]}
`},
	{"labels-off-paper", "5 labels across end 235 mm from the edge; A4 is 210 mm wide", `
practice: {labels: {sheet: {paper: A4, across: 5, down: 10, width: 45 mm, height: 20 mm, left: 10 mm, top: 10 mm, pitch-across: «45 mm}}}
circuits:
`},
	{"labels-off-paper", "labels down end 310 mm from the edge; A4 is 297 mm high", `
practice: {labels: {sheet: {paper: A4, across: 4, down: 15, width: 45 mm, height: «20 mm, left: 10 mm, top: 10 mm}}}
circuits:
`},
	{"labels-overlap", "labels of 45.7 mm every 45 mm across lie on one another; measure from the left", `
practice: {labels: {sheet: {paper: A4, across: 4, down: 10, width: 45.7 mm, height: 20 mm, left: 10 mm, top: 10 mm, pitch-across: «45 mm}}}
circuits:
`},
	{"labels-overlap", "labels of 50 mm every 40 mm lie on one another", `
practice: {labels: {roll: {width: 12 mm, pitch: 40 mm, label: «50 mm}}}
circuits:
`},
	{"label-not-there", "a sheet has 40 labels, and none has the number 41", `
practice: {labels: {sheet: {paper: A4, across: 4, down: 10, width: 45 mm, height: 20 mm, left: 10 mm, top: 10 mm, first: «41}}}
circuits:
`},
	{"label-too-small", "7 mm of a label's height can be printed, too little for capitals of 2 mm; take labels of which at least 8 mm are printed", `
practice: {labels: {sheet: {paper: A4, across: 4, down: 10, width: 45 mm, height: «7 mm, left: 10 mm, top: 10 mm}}}
circuits:
`},
	{"label-too-small", "5 mm of a label's height can be printed", `
practice: {labels: {sheet: {paper: A4, across: 4, down: 10, width: 45 mm, height: 20 mm, left: 10 mm, top: 10 mm, clear: «15 mm}}}
circuits:
`},
	{"label-too-small", "12 mm is too narrow for the name RADIATOR-FAN in capitals of 2 mm; take labels that are at least 22.8 mm wide", `
practice: {labels: {sheet: {paper: A4, across: 4, down: 10, width: «12 mm, height: 20 mm, left: 10 mm, top: 10 mm}}}
circuits:
  fan: {legs: [[BAT.+, F1, {to: FAN.+, wire: RADIATOR-FAN}, FAN.-, G1]]}
`},
	{"labels-twice", "not on both", `
practice: {labels: {sheet: {paper: A4, across: 4, down: 10, width: 45 mm, height: 20 mm, left: 10 mm, top: 10 mm}, «roll: {width: 12 mm, pitch: 40 mm}}}
circuits:
`},
	{"bad-shade", `"dark red" is no shade`, `
practice: {palette: {RD: «dark red}}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"unknown-function", `no convention knows the function "hornn"`, `
circuits:
  fan: {function: «hornn, legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"unknown-insulation", `no insulation is called "thinwall"`, `
circuits:
  fan: {legs: [[BAT.+, {to: F1, insulation: «thinwall}, FAN, G1]]}
`},
	{"doubled-wire", `a second wire joins BAT.+ and F1.1`, `
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1], [BAT.+, «F1, LAMP, G1]]}
`},
	{"cavity-used-twice", `two wires would share cavity 1 of X1 on the same side`, `
circuits:
  fan: {legs: [[BAT.+, F1, X1.1, FAN, G1], [F1, «X1.1]]}
`},
	{"wire-name-twice", `two wires are called W`, `
circuits:
  fan: {legs: [[BAT.+, {to: F1, wire: W}, {to: FAN, wire: «W}, G1]]}
`},
	{"terminal-without-wire", `FAN.- has no wire, so no current can pass FAN`, `
parts:
  BAT: {kind: battery, at: tray}
  F1: {kind: fuse, at: tray}
  «FAN: {kind: motor, at: radiator, draws: 20 A}
  G1: {kind: ground, at: radiator}
circuits:
  fan: {legs: [[BAT.+, F1, FAN.+], [G1, BAT.-]]}
`},
	{"part-unused", `no wire reaches HORN`, `
parts:
  BAT: {kind: battery, at: tray}
  F1: {kind: fuse, at: tray}
  FAN: {kind: motor, at: radiator, draws: 20 A}
  «HORN: {kind: horn, at: radiator, draws: 5 A}
  G1: {kind: ground, at: radiator}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"no-engine-strap", `the engine has no drawn way back to the battery`, `
parts:
  BAT: {kind: battery, at: tray}
  «ST: {kind: starter, at: radiator, draws: 180 A}
  IGN: {kind: ignition-switch, at: tray}
  G1: {kind: ground, at: tray}
circuits:
  start: {legs: [[BAT.+, ST.30], [BAT.+, IGN.30, IGN.50, ST.50], [G1, BAT.-]]}
`},
	{"earth-lead-assumed", `BAT.- has no wire`, `
parts:
  «BAT: {kind: battery, at: tray}
  F1: {kind: fuse, at: tray}
  FAN: {kind: motor, at: radiator, draws: 20 A}
  G1: {kind: ground, at: radiator}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"unknown-switch", `no switch is called "SW9"`, `
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
states:
  on: {«SW9: on}
`},
	{"unknown-position", `no position of SW is called "onn"; did you mean on?`, `
circuits:
  fan: {legs: [[BAT.+, F1, SW, FAN, G1]]}
states:
  driving: {SW: «onn}
`},
	{"no-positions", `FAN (motor) has no positions to be set to`, `
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
states:
  driving: {«FAN: on}
`},
	{"run-to-itself", `this run starts and ends at tray`, `
runs:
  - {from: tray, to: «tray, length: 1 m}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"unknown-run", `no run joins tray and dash`, `
parts:
  BAT: {kind: battery, at: tray}
  S1: {kind: splice, «along: {run: [tray, dash], distance: 20 mm}}
circuits:
  fan: {legs: [[BAT.+, S1, BAT.-]]}
`},
	{"splice-off-run", `S1 lies beyond the end of the run`, `
parts:
  BAT: {kind: battery, at: tray}
  S1: {kind: splice, along: {run: [radiator, tray], distance: «3 m}}
circuits:
  fan: {legs: [[BAT.+, S1, BAT.-]]}
`},
	{"ground-in-wired-system", `every return is a wire in this system, and G1 goes to the bodywork`, `
system: {volts: 12, return: wired}
parts:
  BAT: {kind: battery, at: tray}
  F1: {kind: fuse, at: tray}
  FAN: {kind: motor, at: radiator, draws: 20 A}
  «G1: {kind: ground, at: radiator}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"running-voltage", `running voltage 24 V does not fit a 12 V system`, `
system: {volts: 12, running: «24 V}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"panel-name-twice", `15 is both a feed and a position of FP`, `
parts:
  BAT: {kind: battery, at: tray}
  FP: {kind: fuse-panel, at: tray, layout: [[1, 15]], feeds: {15: [1, «15]}}
circuits:
  fan: {legs: [[BAT.+, FP.15, FP.1, BAT.-]]}
`},
	{"position-not-shown", `position 3 of FP has no place in the layout`, `
parts:
  BAT: {kind: battery, at: tray}
  FP: {kind: fuse-panel, at: tray, layout: [[1, 2]], feeds: {main: [1, 2, «3]}}
circuits:
  fan: {legs: [[BAT.+, FP.main, FP.1, BAT.-]]}
`},
	{"unknown-cavity", `no cavity of X1 is called "3"`, `
parts:
  BAT: {kind: battery, at: tray}
  X1: {kind: connector, cavities: 2, layout: [[1, 2, «3]]}
circuits:
  fan: {legs: [[BAT.+, X1.1, BAT.-]]}
`},
	{"cavity-not-shown", `cavity 2 of X1 has no place in the layout`, `
parts:
  BAT: {kind: battery, at: tray}
  X1: {kind: connector, cavities: 2, layout: [[«1]]}
circuits:
  fan: {legs: [[BAT.+, X1.1, BAT.-]]}
`},
	{"terminal-range", `R6 takes wires from 2.5 mm² to 1.5 mm², which is thinner`, `
practice: {terminals: [{fitting: ring, stud: M6, from: 2.5 mm2, to: «1.5 mm2, part: R6}]}
circuits:
`},
	{"terminal-range", `the insulation grip of C1 ends at 1.2 mm`, `
practice: {terminals: [{fitting: contact, from: 0.5 mm2, to: 1 mm2, part: C1, insulation-from: 2 mm, insulation-to: «1.2 mm}]}
circuits:
`},
	{"terminal-without-size", `the ring R6 names no stud that is known`, `
practice: {terminals: [«{fitting: ring, from: 1.5 mm2, to: 2.5 mm2, part: R6}]}
circuits:
`},
	{"terminal-without-size", `the receptacle T5 names no tab that is known; write tab: 2.8, 4.8, 6.3 or 9.5`, `
practice: {terminals: [{fitting: receptacle, tab: «5, from: 1.5 mm2, to: 2.5 mm2, part: T5}]}
circuits:
`},
	{"terminal-sleeve", `a yellow sleeve is not made for 16 ga`, `
practice: {terminals: [{fitting: ring, stud: "#10", from: 16 ga, to: 12 ga, part: R10, sleeve: «yellow}]}
circuits:
`},
	{"terminals-unclear", `WIPER has terminals of its own, and nothing says what is between them`, `
parts:
  BAT: {kind: battery, at: tray}
  «WIPER: {kind: motor, at: tray, draws: 4 A, terminals: [53, 53a, 31]}
circuits:
  fan: {legs: [[BAT.+, WIPER.53], [WIPER.31, BAT.-]]}
`},
	{"twist-of-one", `the twist pair has one wire alone`, `
circuits:
  fan: {legs: [[BAT.+, F1, {to: FAN, twist: «pair}, G1]]}
`},
	{"twist-half-screened", `the wires of the twist pair are not under one screen`, `
circuits:
  fan: {legs: [[BAT.+, F1, {to: FAN, twist: pair, screen: foil}, {to: G1, twist: «pair}]]}
`},
	{"screen-unearthed", `the screen of foil is earthed nowhere; say where its drain goes, at one end: screens: {foil: {drain: G1}}`, `
circuits:
  fan: {legs: [[BAT.+, F1, {to: FAN, screen: «foil}, G1]]}
`},
	{"screen-both-ends", `the screen of foil is earthed at 2 places`, `
screens: {«foil: {drain: [G1, BAT.-]}}
circuits:
  fan: {legs: [[BAT.+, F1, {to: FAN, screen: foil}, G1]]}
`},
	{"drain-away", `the drain of foil goes to SW, which lies at tray, where it does not end; take an earth at radiator`, `
screens: {«foil: {drain: SW.1}}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, {to: G1, screen: foil}]]}
`},
	{"unit-without-wires", `no wire lies under the screen foil`, `
screens: {«foil: {drain: G1}}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"unknown-cable", `no cable is called "towe"; did you mean tow?`, `
practice: {cable-types: {two: {colours: [BN, BU], size: 4 mm2, diameter: 9 mm, class: 70 C}}}
cables: {tow: {type: two}}
circuits:
  fan: {legs: [[BAT.+, F1, {to: FAN, cable: tow}, {to: G1, cable: «towe}]]}
`},
	{"unknown-cable-type", `no type of cable is called "twoo"; did you mean two?`, `
practice: {cable-types: {two: {colours: [BN, BU], size: 4 mm2, diameter: 9 mm, class: 70 C}}}
cables: {tow: {type: «twoo}}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"unknown-core", `no core of two is called "3"; known here: 1 BN, 2 BU`, `
practice: {cable-types: {two: {colours: [BN, BU], size: 4 mm2, diameter: 9 mm, class: 70 C}}}
cables: {tow: {type: two}}
circuits:
  fan: {legs: [[BAT.+, F1, {to: FAN, cable: tow, core: «3}, G1]]}
`},
	{"core-used-twice", `two wires would share core 2 of tow`, `
practice: {cable-types: {two: {colours: [BN, BU], size: 4 mm2, diameter: 9 mm, class: 70 C}}}
cables: {tow: {type: two}}
circuits:
  fan: {legs: [[BAT.+, F1, {to: FAN, cable: tow, core: BU}, {to: G1, cable: tow, core: «2}]]}
`},
	{"core-without-cable", `a core is named, and no cable`, `
circuits:
  fan: {legs: [[BAT.+, F1, {to: FAN, core: «2}, G1]]}
`},
	{"core-says-more", `the wire is core 1 of tow and has a gauge of its own`, `
practice: {cable-types: {two: {colours: [BN, BU], size: 4 mm2, diameter: 9 mm, class: 70 C}}}
cables: {tow: {type: two}}
circuits:
  fan: {legs: [[BAT.+, F1, {to: FAN, cable: tow, gauge: «6 mm2}, G1]]}
`},
	{"too-few-cores", `tow (two) has 2 cores, too few for its wires, 3`, `
practice: {cable-types: {two: {colours: [BN, BU], size: 4 mm2, diameter: 9 mm, class: 70 C}}}
cables: {tow: {type: two}}
circuits:
  fan: {legs: [[BAT.+, F1, {to: FAN, cable: tow}, {to: G1, cable: tow}], [F1, {to: LAMP, cable: «tow}, G1]]}
`},
	{"too-many-cores", `45 cores, and 44 colours are named`, `
practice: {cable-types: {data: {cores: «45, colours: din-47100, size: 0.25 mm2, diameter: 15 mm, class: 80 C}}}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"unknown-core-order", `no order of core colours is called "din-47000"; did you mean din-47100?`, `
practice: {cable-types: {data: {cores: 4, colours: «din-47000, size: 0.25 mm2, diameter: 5 mm, class: 80 C}}}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"core-without-size", `core 1 of data has no size`, `
practice: {cable-types: {«data: {cores: 4, colours: din-47100, diameter: 5 mm, class: 80 C}}}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"cable-too-thin", `tow is 5 mm across, and the copper of its cores alone takes 5.3 mm`, `
practice: {cable-types: {tow: {colours: iso-1724, diameter: «5 mm, class: 70 C}}}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"cable-type-name", `gxl is the name of a wire family already`, `
practice: {cable-types: {«gxl: {colours: iso-1724, diameter: 10 mm, class: 70 C}}}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"leg-without-wire", `this leg makes no wire; a wire runs between two neighbouring stops on different parts`, `
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1], «[SW.1, SW.2]]}
`},
	{"run-twice", `a second run joins radiator and tray`, `
runs:
  - {from: tray, to: radiator, length: 1 m}
  - «{from: radiator, to: tray, length: 2 m}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"unknown-position", `no fed position of FP is called "9"; known here: 1, 2`, `
parts:
  BAT: {kind: battery, at: tray}
  FP: {kind: fuse-panel, at: tray, layout: [[1, 2]], feeds: {main: [1, 2]}, fuses: {«9: 10 A}}
circuits:
  fan: {legs: [[BAT.+, FP.main, FP.1, BAT.-]]}
`},
	{"terminals-unclear", `K2 is a relay without the usual terminals`, `
parts:
  BAT: {kind: battery, at: tray}
  «K2: {kind: relay, at: tray, terminals: [1, 2, 3, 4]}
circuits:
  fan: {legs: [[BAT.+, K2.1], [K2.2, BAT.-]]}
`},
	{"unknown-terminal", `no terminal of M is called "54"`, `
parts:
  BAT: {kind: battery, at: tray}
  M: {kind: motor, at: tray, terminals: [53, 31], inside: [{from: 53, to: 31, draws: 4 A}, {join: [31, «54]}]}
circuits:
  fan: {legs: [[BAT.+, M.53, M.31, BAT.-]]}
`},
	{"unknown-core", `two has no core 3; its cores are 1 to 2`, `
practice: {cable-types: {two: {colours: [BN, BU], size: 4 mm2, sizes: {«3: 6 mm2}, diameter: 9 mm, class: 70 C}}}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"unknown-colour", `"RD/BK" is two colours`, `
practice: {palette: {«RD/BK: "#a01020"}}
circuits:
  fan: {legs: [[BAT.+, F1, FAN, G1]]}
`},
	{"no-screen", `tow (two) has no screen to be earthed`, `
practice: {cable-types: {two: {colours: [BN, BU], size: 4 mm2, diameter: 9 mm, class: 70 C}}}
cables: {tow: {type: two, drain: «G1}}
circuits:
  fan: {legs: [[BAT.+, F1, {to: FAN, cable: tow}, G1]]}
`},
}

const usual = `
parts:
  BAT: {kind: battery, at: tray}
  F1: {kind: fuse, at: tray}
  FAN: {kind: motor, at: radiator, draws: 20 A}
  LAMP: {kind: lamp, at: radiator, draws: 55 W}
  K1: {kind: relay, at: tray}
  SW: {kind: switch, at: tray, positions: {off: [], on: [[1, 2]]}}
  X1: {kind: connector, at: tray, cavities: 2}
  G1: {kind: ground, at: radiator}
`

// described makes a whole description of an example; sections that it lacks
// are the usual ones. It gives the text without the mark, and the mark's place.
func described(example string) (text string, at source.Pos) {
	head := "loomfolio: 1\ntitle: Wrong example\n"
	if !strings.Contains(example, "\nsystem:") {
		head += "system: {volts: 12}\n"
	}
	head += "places: {tray: {}, radiator: {}, dash: {}}\n"
	if !strings.Contains(example, "\nruns:") {
		head += "runs: [{from: tray, to: radiator, length: 1 m}]\n"
	}
	if !strings.Contains(example, "\nparts:") {
		head += strings.TrimPrefix(usual, "\n")
	}
	if strings.HasSuffix(example, "circuits:\n") {
		example += "  fan: {legs: [[BAT.+, BAT.-]]}\n"
	}
	all := head + strings.TrimPrefix(example, "\n")
	for i, line := range strings.Split(all, "\n") {
		if before, _, found := strings.Cut(line, "«"); found {
			at = source.Pos{Line: i + 1, Column: source.Width(before) + 1}
		}
	}
	return strings.ReplaceAll(all, "«", ""), at
}

func TestEachSlugHasAWrongExample(t *testing.T) {
	for _, w := range wrong {
		t.Run(w.slug, func(t *testing.T) {
			text, at := described(w.text)
			d, problems := describe.Parse("wrong.yaml", []byte(text))
			require.False(t, problems.HasErrors(), "the example must be wrong for the check alone:\n%v\n%s", problems, text)
			_, found := check.Check(d)
			for _, p := range found {
				if p.Slug == w.slug && p.Span.Start == at {
					require.NotEmpty(t, p.Detail)
					require.Contains(t, p.Summary+"; "+p.Detail, w.says)
					return
				}
			}
			require.Failf(t, "not found", "no %s at %v in:\n%s\nfound: %+v", w.slug, at, text, found)
		})
	}
}
