package describe

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/unit"
)

// bundled is a description with everything that holds wires together.
const bundled = `loomfolio: 1
title: Units
system: {volts: 12}
practice:
  twist: {lay: 25 mm}
  screen: {as: foil, wall: 0.6 mm}
  cable-types:
    trailer: {colours: iso-1724, diameter: 10.5 mm, class: 70 C}
    pair: {cores: 2, colours: [BN, BU], size: 1.5 mm2, sizes: {2: 2.5 mm2}, diameter: 8 mm, core-diameter: 2.6 mm, sheath: 1 mm, class: 90 C, screened: true}
screens:
  crank: {drain: ECU.s1}
  plain: {}
cables:
  tow: {type: trailer, length: 4.2 m}
  data: {type: pair, drain: [GND, ECU.31]}
parts:
  A: {kind: splice}
  B: {kind: splice}
circuits:
  one: {legs: [[A, {to: B, cable: tow, core: 58L}]]}
`

func TestUnitsAreRead(t *testing.T) {
	d, problems := Parse("units.yaml", []byte(bundled))
	require.Empty(t, problems)
	p := d.Practice
	require.Equal(t, unit.Millimetre(25), p.Twist.Lay.V)
	require.Equal(t, "foil", p.Screen.As.Text)
	require.Equal(t, unit.Millimetre(0.6), p.Screen.Wall.V)
	require.Len(t, p.CableTypes, 2)
	require.Equal(t, "iso-1724", p.CableTypes[0].Order.Text)
	pair := p.CableTypes[1]
	require.Equal(t, "BN BU", texts(pair.Colours))
	require.Equal(t, "2", pair.Sizes[0].Core.Text)
	require.Equal(t, "2.5", pair.Sizes[0].Size.V.Size)
	require.Equal(t, 2, pair.Cores.V)
	require.True(t, pair.Screened.V)
	require.Equal(t, "ECU s1", d.Screens[0].Drain[0].Part.Text+" "+d.Screens[0].Drain[0].Terminal.Text)
	require.Empty(t, d.Screens[1].Drain)
	require.Equal(t, unit.Millimetre(4200), d.Cables[0].Length.V)
	require.Len(t, d.Cables[1].Drain, 2)
	stop := d.Circuits[0].Legs[0].Stops[1]
	require.Equal(t, "tow 58L", stop.Cable.Text+" "+stop.Core.Text)
}

// What is missing or misspelt is pointed at with its line and column.
func TestACableTypeSaysWhatItLacks(t *testing.T) {
	d, problems := Parse("units.yaml", []byte(`loomfolio: 1
title: Units
system: {volts: 12}
practice:
  cable-types:
    two: {colours: [BN, BU], size: 1.5 mm2, class: 70 C, shield: true}
cables:
  tow: {length: 4 m}
parts: {A: {kind: splice}, B: {kind: splice}}
circuits: {one: {legs: [[A, B]]}}
`))
	require.NotNil(t, d)
	var got []string
	for _, p := range problems {
		got = append(got, p.Slug+" "+p.Summary)
		require.True(t, p.Span.Known())
	}
	require.Equal(t, []string{`missing-key "two" lacks the key "diameter"`, `unknown-key the key "shield" is not known here`, `missing-key "tow" lacks the key "type"`}, got)
}
