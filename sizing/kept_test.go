package sizing_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/change"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/record"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
)

// against takes a description through to its results, with a record or without.
func against(t *testing.T, text string, kept *record.Record) (*harness.Harness, *result.Result) {
	t.Helper()
	d, problems := describe.Parse("test.yaml", []byte(text))
	require.Empty(t, problems)
	h, found := check.Against(d, kept)
	require.NotNil(t, h, "%v", found)
	r, err := sizing.Size(worked.Buying(h, "clear"), found)
	require.NoError(t, err)
	require.False(t, r.Unusable, "%v", r.Findings)
	return h, r
}

// frozen writes a record and reads it back, as the command does.
func frozen(t *testing.T, text string, old *record.Record, mark func(*harness.Harness) change.Marks) *record.Record {
	t.Helper()
	h, r := against(t, text, old)
	return written(t, h, r, old, mark)
}

// written is frozen for what was sized already.
func written(t *testing.T, h *harness.Harness, r *result.Result, old *record.Record, mark func(*harness.Harness) change.Marks) *record.Record {
	t.Helper()
	out, problems := record.Parse(source.NewFile("test.built.txt", record.Text(change.Freeze(h, r, old, mark(h)))))
	require.Empty(t, problems)
	return &out
}

// nothing marks nothing; everything marks all wires and fuses as built.
func nothing(*harness.Harness) change.Marks { return nil }

func everything(h *harness.Harness) change.Marks {
	out := change.Marks{}
	for i := range h.Wires {
		out[h.Wires[i].Name] = harness.Built
	}
	for i := range h.Elements {
		out[h.Elements[i].Name] = harness.Built
	}
	return out
}

// edited changes a description; each old text must be there once.
func edited(t *testing.T, text string, changes ...string) string {
	t.Helper()
	for i := 0; i < len(changes); i += 2 {
		require.Equalf(t, 1, strings.Count(text, changes[i]), "%q", changes[i])
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	return text
}

// joining lists name and state of the wires between two ends.
func joining(h *harness.Harness, r *result.Result, from, to string) string {
	for i := range h.Wires {
		if w := &h.Wires[i]; h.Terminals[w.From].Full == from && h.Terminals[w.To].Full == to {
			return strings.TrimSpace(w.Name + " " + string(r.KeptWire(w.ID)))
		}
	}
	return ""
}

func slugsOf(r *result.Result) []string {
	var out []string
	for _, p := range r.Findings {
		if strings.HasPrefix(p.Slug, "built-") || strings.HasPrefix(p.Slug, "wire-") || p.Slug == "planned-changed" {
			out = append(out, p.Slug)
		}
	}
	slices.Sort(out)
	return out
}

// Kestrel GT, its rear shelf: a pump and two lamps on one switch.
const shelf = `loomfolio: 1
title: Shelf
revision: A
system: {volts: 12}
places:
  tray: {name: Tray}
  shelf: {name: Shelf}
  tail: {name: Tail}
runs:
  - {from: tray, to: shelf, length: 2 m}
  - {from: shelf, to: tail, length: 1 m}
parts:
  BAT: {kind: battery, at: tray}
  F1: {kind: fuse, at: tray}
  F2: {kind: fuse, at: tray}
  SW: {kind: switch, at: shelf, positions: {off: [], on: [[1, 2]]}}
  PUMP: {kind: motor, at: shelf, draws: 7 A}
  L1: {kind: lamp, at: tail, draws: 21 W}
  L2: {kind: lamp, at: tail, draws: 21 W}
  S1: {kind: splice, at: tail}
  G0: {kind: ground, at: tray}
  G1: {kind: ground, at: tail}
  G2: {kind: ground, at: shelf}
circuits:
  earth: {number: 1, legs: [[G0, BAT.-]]}
  pump: {number: 2, legs: [[BAT.+, {to: F1, length: 150 mm}, PUMP.+, PUMP.-, G2]]}
  lamps: {number: 3, legs: [[BAT.+, {to: F2, length: 150 mm}, SW.1, SW.2, S1, L1.+, L1.-, G1], [S1, L2.+, L2.-, G1]]}
`

func TestLinesFindTheirWires(t *testing.T) {
	lamps := "[BAT.+, {to: F2, length: 150 mm}, SW.1, SW.2, S1, L1.+, L1.-, G1]"
	for _, c := range []struct {
		name    string
		changes []string
		wires   map[string]string // ends, and what joins them
		slugs   []string
	}{
		{"nothing changes", nil, map[string]string{"SW.2 S1": "3C built", "F1.2 PUMP.+": "2B built"}, nil},
		{"a wire goes in before others", []string{"lamps: {number: 3, legs: [[BAT.+,", "lamps: {number: 3, legs: [[SW.1, L1.+], [BAT.+,"},
			map[string]string{"SW.2 S1": "3C built", "SW.1 L1.+": "3F", "S1 L2.+": "3E built"}, nil},
		{"the circuit takes another number and key", []string{"pump: {number: 2,", "transfer: {number: 9,"},
			map[string]string{"F1.2 PUMP.+": "2B built"}, nil},
		{"a leg is turned round", []string{"[S1, L2.+, L2.-, G1]", "[G1, L2.-, L2.+, S1]"},
			map[string]string{"S1 L2.+": "3E built", "L2.- G1": "3P built"}, nil},
		{"a part is renamed, and the stop says so", []string{"  F1: {", "  FP: {", "{to: F1, length: 150 mm}", "{to: FP, length: 150 mm, was: F1}"},
			map[string]string{"FP.2 PUMP.+": "2B built", "BAT.+ FP.1": "2A built"}, nil},
		{"a terminal is renamed, and the stop says so", []string{"S1, L1.+, L1.-, G1]", "S1, L1.+, L1.-, {to: G2, was: G1}]"},
			map[string]string{"L1.- G2": "3N built"}, []string{"built-too-short"}},
		{"a part is renamed in silence", []string{"  G2: {", "  G9: {", "PUMP.-, G2]", "PUMP.-, G9]"},
			map[string]string{"PUMP.- G9": "2N built"}, []string{"wire-taken-as"}},
		{"two could be it", []string{"  S1: {", "  S2: {", "SW.2, S1,", "SW.2, {to: S2, was: S1},", "[S1, L2.+,", "[S2, L2.+,", "  L1: {kind: lamp, at: tail, draws: 21 W}", "  L8: {kind: lamp, at: tail, draws: 21 W}",
			"  L2: {kind: lamp, at: tail, draws: 21 W}", "  L9: {kind: lamp, at: tail, draws: 21 W}", "L1.+, L1.-, G1", "L8.+, L8.-, G1", "L2.+, L2.-, G1", "L9.+, L9.-, G1"},
			map[string]string{"S2 L8.+": "3F", "SW.2 S2": "3C built"}, []string{"wire-unsure", "wire-unsure", "wire-unsure", "wire-unsure"}},
		{"a fuse goes into a wire", []string{"  F2: {", "  F3: {kind: fuse, at: shelf}\n  F2: {", "[BAT.+, {to: F1, length: 150 mm}, PUMP.+", "[BAT.+, {to: F1, length: 150 mm}, F3, PUMP.+"},
			map[string]string{"F1.2 F3.1": "2B planned", "F3.2 PUMP.+": "2C"}, []string{"wire-split"}},
		{"a lamp goes", []string{", [S1, L2.+, L2.-, G1]", "", "  L2: {kind: lamp, at: tail, draws: 21 W}\n", ""},
			map[string]string{"S1 L1.+": "3D built"}, []string{"wire-gone"}},
		{"it moves to where it wants another length", []string{lamps, strings.Replace(lamps, "L1.-, G1", "L1.-, G2", 1)},
			map[string]string{"L1.- G2": "3Q", "L2.- G1": "3P built"}, []string{"wire-gone"}},
		{"another wire is given its name", []string{"SW.2, S1, L1.+", "SW.2, S1, {to: L1.+, wire: 3C}"},
			map[string]string{"S1 L1.+": "3C", "SW.2 S1": "3F"}, []string{"built-otherwise", "built-otherwise"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			kept := frozen(t, shelf, nil, everything)
			h, r := against(t, edited(t, shelf, c.changes...), kept)
			for ends, want := range c.wires {
				from, to, _ := strings.Cut(ends, " ")
				require.Equal(t, want, joining(h, r, from, to), ends)
			}
			require.Equal(t, c.slugs, slugsOf(r), "%v", r.Findings)
		})
	}
}

// Who wins: the description, then what is built, then what is planned, then a new choice.
func TestForceOfWhatIsKept(t *testing.T) {
	heavier := []string{"PUMP: {kind: motor, at: shelf, draws: 7 A}", "PUMP: {kind: motor, at: shelf, draws: 18 A}"}
	lighter := []string{"PUMP: {kind: motor, at: shelf, draws: 7 A}", "PUMP: {kind: motor, at: shelf, draws: 2 A}"}
	given := []string{"PUMP.+, PUMP.-", "{to: PUMP.+, gauge: 6 mm2, colour: PK}, PUMP.-"}
	for _, c := range []struct {
		name    string
		mark    func(*harness.Harness) change.Marks
		changes []string
		same    bool // gauge of 2B and rating of F1 as they were kept
		slugs   []string
	}{
		{"built, and more is wanted", everything, heavier, false, []string{"built-fuse", "built-too-thin"}},
		{"built, and less would do", everything, lighter, true, nil},
		{"planned, and more is wanted", nothing, heavier, false, []string{"planned-changed"}},
		{"planned, and less would do", nothing, lighter, true, nil},
		{"built, and the description says otherwise", everything, given, false, []string{"built-otherwise"}},
		{"planned, and the description says otherwise", nothing, given, false, []string{"planned-changed"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			kept := frozen(t, shelf, nil, c.mark)
			was, first := against(t, shelf, kept)
			h, r := against(t, edited(t, shelf, c.changes...), kept)
			b := wire(t, h, "2B")
			require.Equal(t, c.same, first.Wires[wire(t, was, "2B")].Gauge == r.Wires[b].Gauge, r.Wires[b].Reason)
			require.Equal(t, c.slugs, slices.Compact(slugsOf(r)), "%v", r.Findings)
			require.Equal(t, c.same, r.KeptWire(b) != "")
			if c.same {
				require.Equal(t, fuseCalled(t, first, "F1").Rating, fuseCalled(t, r, "F1").Rating)
				require.Contains(t, r.Wires[b].Reason, "kept")
			}
			require.Equal(t, []string{"1N", "3A", "3B", "3C", "3D", "3E", "3N", "3P"}, untouched(h, r), "nothing else moves")
		})
	}
}

// untouched lists the wires of the other circuits that are as they were kept.
func untouched(h *harness.Harness, r *result.Result) []string {
	var out []string
	for i := range h.Wires {
		if w := &h.Wires[i]; r.KeptWire(w.ID) != "" && h.Circuits[w.Circuit].Key != "pump" {
			out = append(out, w.Name)
		}
	}
	slices.Sort(out)
	return out
}

func TestFindingsOnWhatIsBuilt(t *testing.T) {
	kept := frozen(t, shelf, nil, everything)
	_, r := against(t, edited(t, shelf, "length: 2 m}", "length: 2.5 m}"), kept)
	p := finding(r, "built-too-short", "2B")
	require.NotNil(t, p)
	require.Contains(t, p.Summary, "2B is built 2 205 mm long and now needs 2 730 mm, 525 mm more")
	_, r = against(t, edited(t, shelf, "length: 2 m}", "length: 1.5 m}"), kept)
	require.Empty(t, slugsOf(r), "a longer wire is fine")
	_, r = against(t, edited(t, shelf, "F1: {kind: fuse, at: tray}", "F1: {kind: fuse, at: tray, rating: 15 A}"), kept)
	p = finding(r, "built-fuse", "F1")
	require.NotNil(t, p)
	require.Equal(t, "the description says 15 A blade for F1; 10 A blade is fitted", p.Summary)
	_, r = against(t, edited(t, shelf, "draws: 7 A", "draws: 18 A"), kept)
	p = finding(r, "built-too-thin", "2B")
	require.Equal(t, source.Error, p.Level, "its fuse grows, and it does not stand that")
	require.Regexp(t, `^2B is built as .* and now needs .*: pull and replace$`, p.Summary)
}

// What is gone stays in the record for one revision, and its name is not given again.
func TestRetiredForOneRevision(t *testing.T) {
	kept := frozen(t, shelf, nil, everything)
	less := edited(t, shelf, ", [S1, L2.+, L2.-, G1]", "", "  L2: {kind: lamp, at: tail, draws: 21 W}\n", "", "revision: A", "revision: B")
	second := frozen(t, less, kept, nothing)
	require.Equal(t, []string{"3E", "3P"}, retired(second))
	require.Equal(t, []string{"3E", "3P"}, retired(frozen(t, less, second, nothing)), "as long as the revision stands")
	more := edited(t, less, "[BAT.+, {to: F2", "[SW.1, L1.+], [BAT.+, {to: F2")
	h, r := against(t, more, second)
	require.Equal(t, "3F", joining(h, r, "SW.1", "L1.+"))
	require.NotNil(t, finding(r, "wire-gone", "3E"))
	require.Empty(t, retired(frozen(t, edited(t, less, "revision: B", "revision: C"), second, nothing)))
}

func retired(r *record.Record) []string {
	var out []string
	for _, w := range r.Wires {
		if w.State == harness.Retired {
			out = append(out, w.Name)
		}
	}
	slices.Sort(out)
	return out
}

// Comments stay with their lines, whatever else changes.
func TestCommentsStay(t *testing.T) {
	kept := frozen(t, shelf, nil, everything)
	text := strings.Replace(string(record.Text(*kept)), "wire pump F1.2", "# chafed once\nwire pump F1.2", 1)
	r, problems := record.Parse(source.NewFile("x", []byte(strings.Replace(text, "\nfuse F2", "\n# spare below\nfuse F2", 1))))
	require.Empty(t, problems)
	again := string(record.Text(*frozen(t, edited(t, shelf, "[BAT.+, {to: F2", "[SW.1, L1.+], [BAT.+, {to: F2"), &r, nothing)))
	require.Contains(t, again, "# chafed once\nwire pump F1.2 -> PUMP.+ ")
	require.Contains(t, again, "# spare below\nfuse F2 ")
}

// The keys of a mapping have no order: turned round, they give the same record
// but for the digest of the text.
func TestOrderOfKeysDoesNotMatter(t *testing.T) {
	lines := strings.Split(shelf, "\n")
	at := slices.Index(lines, "parts:")
	end := slices.Index(lines, "circuits:")
	slices.Reverse(lines[at+1 : end])
	last := len(lines) - 1
	slices.Reverse(lines[end+1 : last])
	text := func(in string) string {
		r := *frozen(t, in, nil, nothing)
		r.Digest = ""
		return string(record.Text(r))
	}
	require.Equal(t, text(shelf), text(strings.Join(lines, "\n")))
}

// A whole car that is kept, less three wires and with five more: nothing that is
// kept is renamed, recoloured or sized anew.
func TestAWholeCarIsKept(t *testing.T) {
	i := slices.IndexFunc(samples.List(), func(s samples.Sample) bool { return s.Name == "kestrel" })
	car := string(samples.List()[i].Text)
	free, chosen := worked.Named(t, "kestrel")
	for name, mark := range map[string]func(*harness.Harness) change.Marks{"planned": nothing, "built": everything} {
		if testing.Short() && name == "planned" {
			continue
		}
		kept := written(t, free, chosen, nil, mark)
		h, r := against(t, car, kept)
		require.Empty(t, slugsOf(r))
		for w := range h.Wires {
			require.NotEmptyf(t, r.KeptWire(harness.WireID(w)), "%s", h.Wires[w].Name)
		}
		h, r = against(t, changedCar(t, car), kept)
		fresh := 0
		for w := range h.Wires {
			k := h.Wires[w].Kept
			if k.State == "" {
				fresh++
				continue
			}
			require.Equal(t, k.Name, h.Wires[w].Name)
			require.Equalf(t, k.Gauge, r.Wires[w].Gauge, "%s", k.Name)
			require.Equalf(t, fmt.Sprint(k.Base, k.Tracer), fmt.Sprint(r.Colours[w].Pair.Base, r.Colours[w].Pair.Tracer), "%s %s", name, k.Name)
		}
		require.Equal(t, 5, fresh)
		require.Equal(t, 3, len(kept.Wires)-(len(h.Wires)-fresh))
	}
}

// changedCar takes the tell-tale of the rear window out, and puts two lamps in.
func changedCar(t *testing.T, car string) string {
	return edited(t, car,
		"      - [HS.2, X2.7, TH, BN.6]\n", "",
		"  OUT1: {", "  BOXSW: {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}\n  BL1: {kind: lamp, at: dash, draws: 2 W}\n"+
			"  BL2: {kind: lamp, at: dash, draws: 2 W}\n  OUT1: {",
		"      - [FD.13, OUT1, GB.6]\n", "      - [OUT1.+, BOXSW, BL1, GB.6]\n      - [BOXSW.2, BL2, GB.6]\n      - [FD.13, OUT1, GB.6]\n")
}

// A planned wire that is chosen anew takes those in series along; a built one
// stays as it is, and new wires in series with it take its gauge at least.
func TestWiresInSeriesStayOfOneGauge(t *testing.T) {
	gauges := func(text string, kept *record.Record, names ...string) []string {
		h, r := against(t, text, kept)
		var out []string
		for _, n := range names {
			out = append(out, r.Wires[wire(t, h, n)].Gauge.String())
		}
		return out
	}
	planned := frozen(t, shelf, nil, nothing)
	was := gauges(shelf, planned, "2A", "2B", "2N")
	now := gauges(edited(t, shelf, "length: 2 m}", "length: 5 m}"), planned, "2A", "2B", "2N")
	require.NotEqual(t, was, now)
	require.Len(t, slices.Compact(now), 1, "one gauge")
	thick := frozen(t, edited(t, shelf, "PUMP.+, PUMP.-", "{to: PUMP.+, gauge: 6 mm2}, PUMP.-"), nil, func(*harness.Harness) change.Marks { return change.Marks{"2B": harness.Built} })
	thick.Wires = slices.DeleteFunc(thick.Wires, func(w record.Wire) bool { return w.Name == "2N" })
	require.Equal(t, []string{"6 mm²", "6 mm²"}, gauges(shelf, thick, "2B", "2N"))
}

// Once all is built, only parts are on the shopping list: no wire, nothing for its
// ends, no fuse.
func TestNothingIsBoughtTwice(t *testing.T) {
	groups := func(kept *record.Record) map[string]bool {
		_, r := against(t, shelf, kept)
		out := map[string]bool{}
		for _, item := range r.Shopping {
			out[item.Group] = true
			require.False(t, kept != nil && strings.HasPrefix(item.What, "blade fuse"), item.What)
		}
		return out
	}
	before, after := groups(nil), groups(frozen(t, shelf, nil, everything))
	for _, g := range []string{"wire", "markers"} {
		require.True(t, before[g], g)
		require.False(t, after[g], g)
	}
	require.True(t, after["fuses"], "their holders")
}

// The practice's insulation changes: what is built keeps its own, what is planned
// follows, and says so.
func TestInsulationOfThePractice(t *testing.T) {
	kept := frozen(t, shelf, nil, func(*harness.Harness) change.Marks { return change.Marks{"2B": harness.Built} })
	h, r := against(t, edited(t, shelf, "places:", "practice: {insulation: thick-wall-105}\nplaces:"), kept)
	require.Equal(t, "thin-wall-125", r.Wires[wire(t, h, "2B")].Insulation)
	require.Equal(t, "thick-wall-105", r.Wires[wire(t, h, "2N")].Insulation)
	require.Equal(t, harness.Built, r.KeptWire(wire(t, h, "2B")))
	require.Equal(t, []string{"planned-changed"}, slugsOf(r))
}
