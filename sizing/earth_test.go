package sizing_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
)

// hop is a stop and the length of the wire from the stop before it, mm; 0 within a part.
type hop struct {
	stop string
	mm   int
}

// rustic is a small vehicle from the live side to the ground, each circuit a list of legs;
// LIVE and BODY are the battery's poles.
var rustic = []struct {
	name string
	legs [][]hop
}{
	{"earth, class: start", [][]hop{{{"G0", 0}, {"BAT.BODY", 300}}, {{"ST.case", 0}, {"G1", 400}}}},
	{"starting, class: start", [][]hop{{{"BAT.LIVE", 0}, {"ST.30", 1200}}, {{"IGN.50", 0}, {"ST.50", 1500}}}},
	{"charging, class: charge", [][]hop{{{"ALT.B+", 0}, {"FA", 150}, {"ST.30", 150}}, {{"FI", 0}, {"WL", 300}, {"ALT.L", 1400}}}},
	{"supply", [][]hop{{{"BAT.LIVE", 0}, {"FM", 150}, {"FB.in", 900}}, {{"FB.key", 0}, {"IGN.30", 500}}, {{"IGN.15", 0}, {"FI", 150}}}},
	{"lamps, class: light", [][]hop{
		{{"FB.lamps", 0}, {"FL", 100}, {"LS.1", 700}, {"LS.2", 0}, {"K1.86", 400}, {"K1.85", 0}, {"G2", 300}},
		{{"FB.relay", 0}, {"FR", 100}, {"K1.30", 500}, {"K1.87", 0}, {"S1", 800}, {"LL", 300}, {"G3", 250}},
		{{"S1", 0}, {"LR", 900}, {"G3", 250}},
	}},
	{"horn", [][]hop{{{"FL", 0}, {"HORN", 1600}, {"HB", 1100}, {"G2", 300}}}},
	{"blower", [][]hop{{{"FI", 0}, {"BS", 400}, {"BLOW", 900}, {"G2", 400}}}},
	{"gauge", [][]hop{{{"FI", 0}, {"FG", 350}, {"FS", 2800}, {"G4", 250}}}},
}

func rusticText(positive, fromGround bool) string {
	earth, live, body := "negative", "+", "-"
	if positive {
		earth, live, body = "positive", "-", "+"
	}
	var b strings.Builder
	fmt.Fprintf(&b, `loomfolio: 1
title: Field van
system: {volts: 12, earth: %s}
parts:
  BAT: {kind: battery, capacity: 55 Ah}
  ST: {kind: starter, draws: 150 A}
  ALT: {kind: alternator, output: 40 A}
  FM: {kind: fuse}
  FA: {kind: fuse}
  FI: {kind: fuse}
  FL: {kind: fuse}
  FR: {kind: fuse}
  FB: {kind: bus}
  IGN: {kind: ignition-switch, rating: 30 A}
  LS: {kind: switch, rating: 20 A, positions: {off: [], on: [[1, 2]]}}
  K1: {kind: relay, rating: 30 A}
  LL: {kind: lamp, draws: 55 W}
  LR: {kind: lamp, draws: 55 W}
  WL: {kind: lamp, draws: 2 W}
  HORN: {kind: horn, draws: 8 A}
  HB: {kind: switch, rating: 20 A, positions: {up: [], pressed: [[1, 2]]}, momentary: true}
  BLOW: {kind: motor, draws: 6 A}
  BS: {kind: switch, rating: 20 A, positions: {off: [], on: [[1, 2]]}}
  FG: {kind: gauge, draws: 0.1 A}
  FS: {kind: sender, draws: 0.1 A}
  S1: {kind: splice}
  G0: {kind: ground, stud: M8}
  G1: {kind: ground, stud: M8}
  G2: {kind: ground}
  G3: {kind: ground}
  G4: {kind: ground}
circuits:
`, earth)
	poles := strings.NewReplacer("LIVE", live, "BODY", body)
	for n, c := range rustic {
		name, class, _ := strings.Cut(c.name, ", ")
		fmt.Fprintf(&b, "  %s:\n    number: %d\n", name, n+1)
		if class != "" {
			fmt.Fprintf(&b, "    %s\n", class)
		}
		b.WriteString("    legs:\n")
		for _, leg := range c.legs {
			fmt.Fprintf(&b, "      - [%s]\n", poles.Replace(legText(leg, fromGround)))
		}
	}
	return b.String()
}

// legText writes a leg from its first stop, or from its last one.
func legText(leg []hop, back bool) string {
	stops := slices.Clone(leg)
	if back {
		slices.Reverse(stops)
		for i := len(stops) - 1; i > 0; i-- {
			stops[i].mm = stops[i-1].mm
		}
	}
	var out []string
	for i, s := range stops {
		if i > 0 && s.mm > 0 {
			out = append(out, fmt.Sprintf("{to: %s, length: %d mm}", s.stop, s.mm))
		} else {
			out = append(out, s.stop)
		}
	}
	return strings.Join(out, ", ")
}

// chosenIn lists gauges and fuses by the parts that they lie between, the findings by
// slug and the parts that they point at.
func chosenIn(h *harness.Harness, r *result.Result) (sizes, findings []string) {
	for i := range h.Wires {
		ends := []string{h.PartOf(h.Wires[i].From).Ref, h.PartOf(h.Wires[i].To).Ref}
		slices.Sort(ends)
		sizes = append(sizes, fmt.Sprintf("%s: %s", strings.Join(ends, " to "), r.Wires[i].Gauge))
	}
	for _, f := range r.Fuses {
		sizes = append(sizes, fmt.Sprintf("%s: %s %s", h.Parts[f.Part].Ref, f.Rating, f.Body))
	}
	for _, p := range r.Findings {
		if p.Level != source.Advice {
			findings = append(findings, p.Slug)
		}
	}
	slices.Sort(sizes)
	slices.Sort(findings)
	return sizes, findings
}

// One vehicle, with either pole on the bodywork, written from the live side or from the
// ground, gets the same gauges and fuses, and no finding.
func TestEitherPoleFromEitherEnd(t *testing.T) {
	h, r := sized(t, rusticText(false, false))
	sizes, findings := chosenIn(h, r)
	require.Empty(t, findings, "%v", r.Findings)
	for _, way := range []struct{ positive, fromGround bool }{{false, true}, {true, false}, {true, true}} {
		h, r := sized(t, rusticText(way.positive, way.fromGround))
		got, found := chosenIn(h, r)
		require.Equal(t, sizes, got, "%v", way)
		require.Equal(t, findings, found, "%v: %v", way, r.Findings)
		for i := range h.Elements {
			if e := &h.Elements[i]; e.Kind == harness.Load {
				for _, s := range r.States {
					require.GreaterOrEqual(t, s.Amps[e.ID], -0.01, "%v: %s in %s passes its current from its + to its -", way, e.Name, s.Name)
				}
			}
		}
	}
}
