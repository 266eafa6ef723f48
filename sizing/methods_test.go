package sizing_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/result"
)

// A published rule and the check behind it count the same copper: what a rule chose is never
// blamed for its drop, whatever the system of gauges and whoever shares a wire. 10 A over 21 ft
// at 3 % of 12 V is the bilge pump that pages compute by ABYC E-11 (6,271 circular mils).
func TestRulesPassTheirOwnCheck(t *testing.T) {
	for _, method := range []string{"abyc-e11", "ac43-13", "computed"} {
		for _, gauge := range []string{"awg", "sae", "mm2"} {
			for _, amps := range []float64{0.6, 7, 10, 34} {
				for _, feet := range []float64{10.5, 23} {
					practice := "{method: " + method + "}"
					_, r := sized(t, bilge(gauge, practice, amps, feet))
					blamesNoDrop(t, r)
					for _, name := range []string{"P", "L"} {
						l := load(t, r, name)
						counted := float64(l.FeedDrop + l.ReturnDrop)
						require.LessOrEqual(t, counted, float64(l.Limit)*(1+1e-6), "%s %s %v A over %v ft: %s", method, gauge, amps, feet, name)
					}
				}
			}
		}
	}
}

// bilge is a pump and a lamp that share a feed and a return; the lamp lies further off.
func bilge(gauge, practice string, amps, feet float64) string {
	return fmt.Sprintf(`loomfolio: 1
title: Bilge pump
sheet: {units: imperial, gauge: %s}
system: {volts: 12, return: wired}
practice: %s
parts:
  BAT: {kind: battery, stud: M8}
  F1: {kind: fuse, body: bolt}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}, stud: M8}
  IN: {kind: bus, stud: M8}
  OUT: {kind: bus, stud: M8}
  P: {kind: motor, draws: %g A, stud: M8}
  L: {kind: lamp, draws: 2 A, behaves: current, stud: M8}
circuits:
  pump: {number: 1, legs: [[BAT.+, {to: F1, length: 0.5 ft}, {to: SW.1, length: 0.5 ft}, SW.2, {to: IN.1, length: %g ft}, {to: P.+, length: 1 ft}, P.-, {to: OUT.1, length: 1 ft}, {to: BAT.-, length: %g ft}]]}
  lamp: {number: 2, legs: [[IN.2, {to: L.+, length: 9 ft}, L.-, {to: OUT.2, length: 9 ft}]]}
`, gauge, practice, amps, feet, feet)
}

// The size by the rule alone: 12 AWG (6,530 circular mils), and no warning of its drop.
func TestBilgePumpIsNotBlamed(t *testing.T) {
	h, r := sized(t, `loomfolio: 1
title: Bilge pump alone
sheet: {units: imperial, gauge: awg}
system: {volts: 12, return: wired}
practice: {method: abyc-e11}
parts:
  BAT: {kind: battery}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  P: {kind: motor, draws: 10 A}
circuits:
  pump: {number: 2, class: default, legs: [[BAT.+, {to: SW.1, length: 0.5 ft}, SW.2, {to: P.+, length: 10.5 ft}, P.-, {to: BAT.-, length: 10 ft}]]}
`)
	require.Equal(t, "12", r.Wires[wire(t, h, "2B")].Gauge.Size)
	blamesNoDrop(t, r)
}

func blamesNoDrop(t *testing.T, r *result.Result) {
	for _, p := range r.Findings {
		require.NotContains(t, []string{"drop-over-limit", "gauge-given-too-thin"}, p.Slug, p.Summary)
	}
}
