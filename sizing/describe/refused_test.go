package describe

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/source"
)

// named is a description with a name, X1 to X99, at every kind of place that has one.
const named = `loomfolio: 1
title: <title>
vehicle: {name: <vehicle>, identity: KG-014}
system: {volts: 12}
practice:
  drop: {<drop class>: 3 %}
  conventions: {<function of a convention>: BK}
  wire-types:
    <wire type>: {class: 105 C, sizes: [{size: 1 mm2, area: 1 mm2, diameter: 2 mm, resistance: 18 mohm/m}]}
  cable-types:
    <cable type>: {cores: 2, colours: [RD, BK], size: 1 mm2, diameter: 6 mm, class: 105 C}
places:
  <place key>: {zone: cabin}
  tray: {name: <place name>, zone: <zone>}
screens:
  <screen>: {}
cables:
  <cable>: {type: T}
parts:
  <part key>: {kind: ground, at: tray}
  BAT: {kind: battery, at: tray, name: <battery>}
  LAMP: {kind: lamp, at: tray, name: <part name>, draws: 5 A}
  MOD: {kind: module, at: tray, terminals: [<terminal>, b], inside: [{from: <inside from>, to: <inside to>, draws: 1 A}, {join: [b, <joined>]}]}
  SW: {kind: switch, at: tray, positions: {off: [], <position>: [[1, <terminal of a position>]]}}
  X1: {kind: connector, at: tray, family: <family>, cavities: [<cavity>, b], layout: [[<layout cavity>, b]]}
  FB: {kind: fuse-panel, at: tray, layout: [[<panel position>]], feeds: {<feed>: [<fed position>]}, fuses: {<fused position>: 10 A}}
circuits:
  <circuit key>: {legs: [[BAT.+, BAT.-]]}
  b:
    name: <circuit name>
    function: <function>
    legs:
      - [BUS.<bus terminal>, {to: LAMP.b, wire: <wire name>, twist: <twist>, screen: <screen of a stop>, core: <core>}]
states:
  <state>: {}
`

// TestEveryKindOfPlaceIsRead: at each place a name is refused, once, with a span on the name.
func TestEveryKindOfPlaceIsRead(t *testing.T) {
	var places []string
	for _, part := range strings.Split(named, "<")[1:] {
		place, _, _ := strings.Cut(part, ">")
		places = append(places, place)
	}
	require.Greater(t, len(places), 30)
	for i, place := range places {
		text, column, line := named, 0, 0
		for k, other := range places {
			name := "n" + strings.Repeat("x", k)
			if k == i {
				name = "Seitenairbag"
			}
			text = strings.Replace(text, "<"+other+">", name, 1)
		}
		for n, l := range strings.Split(text, "\n") {
			if at := strings.Index(l, "Seitenairbag"); at >= 0 {
				line, column = n+1, at+1
			}
		}
		_, ps := Parse("x.yaml", []byte(text))
		found := 0
		for _, p := range ps {
			if p.Slug != "airbag-refused" {
				continue
			}
			found++
			require.Equal(t, source.Error, p.Level)
			require.Equal(t, source.Pos{Line: line, Column: column}, p.Span.Start, place)
			require.Equal(t, len("Seitenairbag"), p.Span.Width, place)
			require.Contains(t, p.Summary, "Seitenairbag", place)
			require.Contains(t, p.Detail, "licensed person", place)
		}
		require.Equal(t, 1, found, "%s: %v", place, ps)
	}
}

// of reads a description with some lines below parts: and gives what was found of names.
func of(t *testing.T, head, parts string) source.Problems {
	text := "loomfolio: 1\ntitle: t\nsystem: {volts: 12}\n" + head + "parts:\n  BAT: {kind: battery, at: a}\n" + parts + "circuits:\n  c: {legs: [[BAT.+, BAT.-]]}\n"
	_, ps := Parse("x.yaml", []byte(text))
	var out source.Problems
	for _, p := range ps {
		switch p.Slug {
		case "airbag-refused", "airbag-unclear", "voltage-out-of-scope", "inverter-low-side-only", "spark-lead-named", "unknown-kind":
			out = append(out, p)
		}
	}
	return out
}

func slugs(ps source.Problems) string {
	var out []string
	for _, p := range ps {
		out = append(out, p.Slug)
	}
	return strings.Join(out, " ")
}

func TestNamesAndWhatTheyGive(t *testing.T) {
	for _, c := range []struct{ name, head, parts, want string }{
		{"a note refuses nothing", "notes: keep clear of the airbag loom\n", "  L: {kind: lamp, at: a, draws: 5 A, notes: \"behind the SRS loom, 400 V\"}\n", ""},
		{"a part number refuses nothing", "", "  K: {kind: relay, at: a, part-number: seat belt pretensioner 250 V AC}\n", ""},
		{"who builds it refuses nothing", "builder: S. R. S. Linnet\ncustomer: HV\n", "", ""},
		{"a vehicle's letters are no circuit", "vehicle: {name: Kestrel HV, identity: SRS 400 V}\n", "", ""},
		{"an abbreviation that its name spells", "", "  SIR: {kind: lamp, at: a, name: Side repeater right, draws: 5 W}\n  HV: {kind: solenoid, at: a, name: Heater valve, draws: 1 A}\n", ""},
		{"an abbreviation that nothing spells", "", "  SIR: {kind: lamp, at: a, name: Cabin unit, draws: 5 W}\n", "airbag-refused"},
		{"one finding a thing", "", "  SRS: {kind: module, at: a, name: SRS airbag module}\n", "airbag-refused"},
		{"an unknown kind that is refused is not asked about", "", "  A: {kind: airbag, at: a}\n", "airbag-refused"},
		{"high voltage by name", "", "  M: {kind: motor, at: a, name: HV traction battery 400 V, draws: 20 A}\n", "voltage-out-of-scope"},
		{"mains by name", "", "  S: {kind: outlet, at: a, name: Mains socket 230 V, draws: 5 A}\n", "voltage-out-of-scope"},
		{"shore inlet", "", "  S: {kind: connector, at: a, name: Shore inlet 230 V}\n", "voltage-out-of-scope"},
		{"an inverter's low side, once", "", "  F9: {kind: fuse, at: a, name: Inverter fuse}\n  INV: {kind: module, at: a, name: Inverter 230 V, inside: [{from: +, to: -, draws: 100 A}]}\n", "inverter-low-side-only"},
		{"a shore charger's low side", "", "  CH: {kind: alternator, at: a, name: Shore charger, output: 20 A}\n", "inverter-low-side-only"},
		{"the high side of an inverter", "", "  INV: {kind: module, at: a, name: Inverter, terminals: [+, -, 230 V out]}\n", "voltage-out-of-scope inverter-low-side-only"},
		{"spark-plug leads, once", "", "  IC: {kind: coil, at: a, name: High tension coil, draws: 3 A}\n  X: {kind: connector, at: a, name: HT lead}\n", "spark-lead-named"},
		{"a capacitor's rating", "", "  C: {kind: capacitor, at: a, name: Condenser 400 V}\n", ""},
		{"a clock spring may stay", "", "  CS: {kind: connector, at: a, name: Clock spring}\n", "airbag-unclear"},
		{"a high voltage that was measured", "", "  L: {kind: lamp, at: a, draws: 5 A, found: {volts: 400 V}}\n", "voltage-out-of-scope"},
		{"a low voltage that was measured", "", "  L: {kind: lamp, at: a, draws: 5 A, found: {volts: 12.4 V, colour: BK}}\n", ""},
		{"escaped letters", "", "  L: {kind: lamp, at: a, name: \"\\u0430irb\\u00adag\", draws: 5 A}\n", "airbag-refused"},
	} {
		require.Equal(t, c.want, slugs(of(t, c.head, c.parts)), c.name)
	}
}

// TestAdvicePointsAtTheThingItself, not at its fuse.
func TestAdvicePointsAtTheThingItself(t *testing.T) {
	ps := of(t, "", "  F9: {kind: fuse, at: a, name: Inverter fuse}\n  INV: {kind: module, at: a, name: Inverter}\n")
	require.Len(t, ps, 1)
	require.Equal(t, source.Advice, ps[0].Level)
	require.Equal(t, 7, ps[0].Span.Start.Line)
}
