package alteration_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/alteration"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// said gives the notes of the first sample with some texts in the place of others, as one
// line each: what is altered, if, then.
func said(t *testing.T, edits ...string) []string {
	t.Helper()
	text, err := os.ReadFile("../../samples/first.yaml")
	require.NoError(t, err)
	for i := 0; i < len(edits); i += 2 {
		require.Contains(t, string(text), edits[i])
		text = []byte(strings.Replace(string(text), edits[i], edits[i+1], 1))
	}
	var out []string
	_, changes := noted(t, "first", text)
	for _, c := range changes {
		out = append(out, string(c.Alters)+": "+c.If+": "+c.Then)
	}
	return out
}

// noted takes a description through sizing and gives its notes.
func noted(t *testing.T, name string, text []byte) (*harness.Harness, []proof.Change) {
	t.Helper()
	d, problems := describe.Parse(name+".yaml", text)
	require.False(t, problems.HasErrors(), "%v", problems)
	h, found := check.Check(d)
	require.NotNil(t, h, "%v", found)
	r, err := sizing.Size(worked.Buying(h, "clear"), append(problems, found...))
	require.NoError(t, err)
	return h, alteration.Notes(h, r)
}

// about gives the line that speaks of something, "" where none does.
func about(lines []string, what string) string {
	for _, l := range lines {
		if strings.Contains(l, what) {
			return l
		}
	}
	return ""
}

// The fan's, with its supply and what else the tests put in its place.
const (
	fan    = "draws: 20 A, starts: 55 A for 0.4 s"
	fanLeg = "[BAT.+, {to: MF1, length: 150 mm}, K1.30, K1.87, FAN, G1]"
	parts  = "  S1:   {kind: splice"
	legs   = "  pump:  {number: 4"
	night  = "  night:   {IGN: run, SW1: on, SW2: on, engine: running}"
)

// TestNothingDangerousIsCalledGood: what would burn, open or weld a contact is named, or
// nothing is said at all; judgement, not published.
func TestNothingDangerousIsCalledGood(t *testing.T) {
	for _, c := range []struct {
		why   string
		edits []string
		of    string
		want  string // "" where nothing may be said
	}{
		{"a relay of no rating", []string{"name: Fan relay, rating: 40 A", "name: Fan relay"}, "Radiator fan", "K1 states no rating"},
		{"a relay that is the weakest", []string{"name: Fan relay, rating: 40 A", "name: Fan relay, rating: 20.2 A"}, "Radiator fan", "K1.30-87 is rated for no more"},
		{"a motor of which no start is described", []string{"draws: 7 A, starts: 14 A for 0.2 s", "draws: 7 A"}, "Fuel pump", "its start is not described"},
		{"a start that the fuse just holds", []string{"body: maxi}", "body: blade}", fan, "draws: 12 A, starts: 36 A for 0.4 s"}, "Radiator fan", "for the start"},
		{"a fuse that is too small as it is", []string{"name: Fan fuse, body: maxi", "name: Fan fuse, body: maxi, rating: 20 A"}, "Radiator fan", ""},
		{"a gauge that is too thin for its fuse as it is", []string{"K1.87, FAN, G1]", "K1.87, {to: FAN, gauge: 0.75 mm2}, G1]"}, "Radiator fan", ""},
		{"a relay that is overloaded as it is", []string{"name: Fan relay, rating: 40 A", "name: Fan relay, rating: 15 A"}, "Radiator fan", ""},
		{"two wires side by side", []string{fanLeg, fanLeg + ", [K1.87, FAN]"}, "Radiator fan", ""},
		{"a load that nothing protects", []string{fanLeg, "[BAT.+, K1.30, K1.87, FAN, G1]"}, "Radiator fan", ""},
		{"a switch of no rating in the lead", []string{fanLeg + ", [S2, SW1, K1.86, K1.85, G2]]", "[BAT.+, {to: MF1, length: 150 mm}, SW1, FAN, G1]]", "  K1:   {kind: relay, at: bulkhead, name: Fan relay, rating: 40 A}    # 30 in, 87 out; 86 and 85 are its coil\n", "", fan, "draws: 18 A, starts: 40 A for 0.3 s"}, "Radiator fan", "SW1.1-2 needs a rating, or a relay"},
		{"a switch rated by the factors", []string{"name: Lamp switch,", "name: Lamp switch, rating: 41 A,", "[BAT.+, {to: MF3, length: 150 mm}, K3.30, K3.87, S1, L1, G1], [S1, L2, G1], [S2, SW2, K3.86, K3.85, G2]", "[BAT.+, {to: MF3, length: 150 mm}, SW2, S1, L1, G1], [S1, L2, G1]", "  K3:   {kind: relay, at: bulkhead, name: Lamp relay, rating: 30 A}\n", ""}, "more lamps", "SW2.1-2 is rated for no more"},
		{"an alternator that has nothing left", []string{parts, "  ALT: {kind: alternator, at: bulkhead, output: 37 A, terminals: [B+, case]}\n  MFA: {kind: fuse, at: tray, body: bolt}\n" + parts, legs, "  alt: {number: 6, class: charge, legs: [[ALT.B+, MFA, {to: BAT.+, length: 150 mm}], [ALT.case, {to: G2, length: 200 mm}]]}\n" + legs}, "Fuel pump", "the alternator falls short in"},
	} {
		got := about(said(t, c.edits...), c.of)
		if c.want == "" {
			require.Empty(t, got, c.why)
			continue
		}
		require.Contains(t, got, c.want, c.why)
	}
}

// TestNothingIsSaidForNothing: what nobody exchanges, or what does not concern a vehicle,
// gets no note.
func TestNothingIsSaidForNothing(t *testing.T) {
	plain := said(t)
	require.Len(t, plain, 3, "fan, pump and lamps: %v", plain)
	for _, c := range []struct {
		why   string
		edits []string
		of    string
	}{
		{"a tell-tale", []string{parts, "  T: {kind: lamp, at: dash, name: Tell-tale, draws: 1.2 W}\n" + parts, legs, "  tell: {number: 6, legs: [[S2, T, G2]]}\n" + legs}, "Tell-tale"},
		{"a gauge and its sender", []string{parts, "  GT: {kind: gauge, at: dash, name: Tank gauge, draws: 0.1 A}\n  TS: {kind: sender, at: tank, name: Tank sender, draws: 0.1 A}\n" + parts, legs, "  tank: {number: 6, legs: [[S2, GT, TS, G3]]}\n" + legs}, "Tank"},
		{"a module", []string{parts, "  ECU: {kind: module, at: dash, name: Engine module, inside: [{from: 15, to: 31, draws: 3 A}]}\n" + parts, legs, "  ecu: {number: 6, legs: [[S2, ECU.15, ECU.31, G2]]}\n" + legs}, "Engine module"},
		{"no alternator to charge a second battery", nil, "second-battery"},
		{"no starter to crank", nil, "battery-moved"},
		{"no flasher", nil, "led-flashers"},
		{"no charge lamp", nil, "led-charge"},
		{"an electronic flasher, by its ground", flashing(", terminals: [49, 49a, 31]", ", [FL.31, G2]"), "led-flashers"},
		{"LED lamps already", flashing(twoPins, "", "draws: 0.2 A, behaves: current"), "led-flashers"},
		{"a charge lamp that is an LED already", exciting("draws: 20 mA, behaves: current"), "led-charge"},
	} {
		require.Empty(t, about(said(t, c.edits...), c.of), c.why)
	}
}

// twoPins is a flasher of two terminals.
const twoPins = ", terminals: [49, 49a]"

// flashing adds a flasher with two lamps of 21 W a side.
func flashing(needs, more string, draws ...string) []string {
	lamps, legsOf := "", ""
	for _, n := range []string{"A", "B"} {
		d := "draws: 21 W"
		if len(draws) > 0 {
			d = draws[0]
		}
		lamps += "  F" + n + ": {kind: lamp, at: radiator, name: Indicator " + n + ", " + d + "}\n"
		legsOf += ", [SF, F" + n + ", G1]"
	}
	return []string{
		parts, "  FL: {kind: flasher, at: dash" + needs + "}\n  MF5: {kind: fuse, at: tray}\n  SF: {kind: splice, at: radiator}\n" + lamps + parts,
		legs, "  flash: {number: 6, legs: [[BAT.+, {to: MF5, length: 150 mm}, FL.49, FL.49a, SF]" + legsOf + more + "]}\n" + legs,
	}
}

// exciting adds an alternator that is excited through a lamp.
func exciting(draws string) []string {
	return []string{
		parts, "  ALT: {kind: alternator, at: bulkhead, output: 90 A}\n  MFA: {kind: fuse, at: tray, body: bolt}\n  CL: {kind: lamp, at: dash, name: Charge lamp, " + draws + "}\n" + parts,
		legs, "  alt: {number: 6, class: charge, legs: [[ALT.B+, MFA, {to: BAT.+, length: 150 mm}], [ALT.case, {to: G2, length: 200 mm}]]}\n  chargelamp: {number: 7, legs: [[S2, CL, ALT.L]]}\n" + legs,
		night, night + "\n  ready: {IGN: run}",
	}
}

// TestLEDLamps: two lamps of 21 W at 14.2 V take 2.7 A from a battery; with 0.26 A left, what
// brings it back at 14.2 V is 5.7 Ω (E12: 5.6), of 36 W.
func TestLEDLamps(t *testing.T) {
	line := about(said(t, flashing(twoPins, "")...), string(proof.LEDFlashers))
	require.Contains(t, line, "use an electronic flasher, or on each side add 5.6 Ω, 100 W or more, on metal (36 W of heat)")
	line = about(said(t, flashing(twoPins+", needs: 1.75 A", "")...), string(proof.LEDFlashers))
	require.Contains(t, line, "8.2 Ω, 50 W or more", "14.2 V over 1.75 - 0.26 A is 9.5 Ω (E12: 8.2)")
}

// TestLEDForTheChargeLamp: 2.2 W at 14.2 V excites with 0.144 A from a battery at 12.5 V; an
// LED passes 20 mA. 12.5 V over what is missing is 101 Ω (E12: 100), in which 1.6 W become
// heat.
func TestLEDForTheChargeLamp(t *testing.T) {
	line := about(said(t, exciting("draws: 2.2 W")...), string(proof.LEDCharge))
	require.Regexp(t, `0.144 A excites .* put 100 Ω, 5 W or more, across the LED`, line)
}
