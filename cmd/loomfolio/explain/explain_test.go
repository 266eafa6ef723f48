package explain

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// bare is an explainer that writes into a text.
func bare(h *harness.Harness, r *result.Result) (*explainer, *bytes.Buffer) {
	var out bytes.Buffer
	return &explainer{w: &out, h: h, r: r, printed: map[string]bool{}}, &out
}

// asked gives what is said of a name of a sample.
func asked(t *testing.T, sample, name string) string {
	t.Helper()
	h, r := worked.Named(t, sample)
	var out bytes.Buffer
	require.NoError(t, Explain(&out, h, r, name))
	return out.String()
}

// flat takes the line breaks of the terminal out of a text.
func flat(text string) string { return strings.Join(strings.Fields(text), " ") }

// A label stands once, in a column of its own; the text is broken at blanks, and a figure stays with its unit.
func TestLinesFitATerminal(t *testing.T) {
	for _, c := range []struct{ label, text, want string }{
		{"size", "2.5 mm²", "  size           2.5 mm²\n"},
		{"drain of K1.suppression", "x", "  drain of K1.suppression\n                 x\n"},
		{"why", strings.Repeat("word ", 20), "  why            " + strings.TrimSpace(strings.Repeat("word ", 16)) + "\n                 word word word word\n"},
		{"", strings.Repeat("x", 78) + " 2.5 mm² more", "                 " + strings.Repeat("x", 78) + "\n                 2.5 mm² more\n"},
		{"", strings.Repeat("x", 78) + " 2.5 more", "                 " + strings.Repeat("x", 78) + " 2.5\n                 more\n"},
	} {
		x, out := bare(nil, nil)
		x.line(c.label, "%s", c.text)
		require.Equal(t, c.want, out.String())
	}
}

// What counts as a figure and what as its unit.
func TestFiguresKeepTheirUnits(t *testing.T) {
	for text, want := range map[string][]string{
		"up to 12 A, then":    {"up", "to", "12 A,", "then"},
		"(-0.3 V) and 1/0 ga": {"(-0.3 V)", "and", "1/0 ga"},
		"7 mm² of it":         {"7 mm²", "of", "it"},
		"F1 A":                {"F1", "A"},
		"5 apples":            {"5", "apples"},
		"":                    nil,
	} {
		require.Equal(t, want, firm(strings.Fields(text)), text)
	}
}

// A grid right-aligns its columns, names the first again where the rest does not fit, and says nothing of nothing.
func TestGrids(t *testing.T) {
	x, out := bare(nil, nil)
	x.grid([][]string{{"in state", "current", "BAT.+"}, {"driving", "3.2 A", "14.2 V"}, {"off", "0", "12.6 V"}})
	require.Equal(t, "\n  in state  current   BAT.+\n  driving     3.2 A  14.2 V\n  off             0  12.6 V\n\n", out.String())

	x, out = bare(nil, nil)
	wide := strings.Repeat("w", 40)
	x.grid([][]string{{"state", wide, wide, wide}, {"on", "1", "2", "3"}})
	require.Equal(t, 2, strings.Count(out.String(), "  state"), "two columns and one")
	for _, line := range strings.Split(out.String(), "\n") {
		require.LessOrEqual(t, utf8.RuneCountInString(line), 100)
		require.Equal(t, strings.TrimRight(line, " "), line)
	}

	for _, nothing := range [][][]string{nil, {{"in state", "current"}}, {{"in state"}, {"on"}}} {
		x, out = bare(nil, nil)
		x.grid(nothing)
		require.Empty(t, out.String())
	}
}

// Units of the sheet: 25.4 mm an inch, 4.448 N a pound (NIST SP 811, appendix B), °F = °C × 9/5 + 32.
func TestUnitsOfTheSheet(t *testing.T) {
	metric, _ := bare(&harness.Harness{}, nil)
	inches, _ := bare(&harness.Harness{Sheet: harness.Sheet{Imperial: true}}, nil)
	for _, c := range []struct{ metric, inches, wantMetric, wantInches string }{
		{metric.fine(6.35), inches.fine(6.35), "6.3 mm", "1/4 in"},
		{metric.across(2.54), inches.across(2.54), "2.5 mm", "0.10 in"},
		{metric.celsius(50), inches.celsius(50), "50 °C", "122 °F (50 °C)"},
		{metric.force(133.4), inches.force(133.4), "133 N", "30 lbf"},
	} {
		require.Equal(t, c.wantMetric, c.metric)
		require.Equal(t, c.wantInches, c.inches)
	}
	require.Contains(t, inches.length(3048), "ft")
	require.NotContains(t, metric.length(3048), "ft")
}

// Below a tenth of a volt in millivolts; a milliampere and less is nothing; what no metal joins floats.
func TestFiguresAsAMeterShowsThem(t *testing.T) {
	for _, c := range []struct{ have, want string }{
		{volts(0.36), "0.36 V"}, {volts(0.0994), "99.4 mV"}, {volts(0.0996), "0.10 V"}, {volts(-0.012), "-12 mV"}, {volts(0), "0 mV"},
		{current(0.0009), "0"}, {current(-0.0009), "0"}, {current(3.2456), "3.25 A"}, {current(nan()), "0"},
		{potential(nan()), "floating"}, {potential(-0.004), "0.00 V"}, {potential(12.6), "12.60 V"},
	} {
		require.Equal(t, c.want, c.have)
	}
}

func nan() float64 { var zero float64; return zero / zero }

// A source stands once, under what it was first cited for, with how it was come by unless its title says so.
func TestSourcesStandOnce(t *testing.T) {
	x, out := bare(nil, nil)
	x.cite("size", "nec-552", "ul-486a")
	x.cite("ends", "ul-486a", "common")
	x.printSources()
	text := flat(out.String())
	require.Equal(t, 1, strings.Count(text, "sources"))
	require.Equal(t, 1, strings.Count(text, "UL 486A"))
	require.Regexp(t, `size: NEC \(2008\), 552\.10: .* \(read\)`, text)
	require.Regexp(t, `size: UL 486A, .* \(unnamed\)`, text)
	require.Contains(t, text, "ends: Common practice: of the trade, no document")
	require.NotContains(t, text, "(common practice)", "the title says so")
	require.Equal(t, "Torque from memory of a fitter", cited(rating.Source{Title: "Torque from memory of a fitter", Status: rating.FromMemory}))
}

// Why the size or rating beside the chosen one was not taken: there is none, it would do, or the rules that it breaks.
func TestNeighbours(t *testing.T) {
	said := func(n chosen.Neighbour) string {
		x, out := bare(nil, nil)
		x.neighbour("next down", n, "none is smaller", "would do")
		return out.String()
	}
	fails := func(n int) chosen.Neighbour {
		out := chosen.Neighbour{Size: "10 A"}
		for range n {
			out.Fails = append(out.Fails, chosen.Fail{Rule: "start", Text: "may open"})
		}
		return out
	}
	require.Equal(t, "  next down      none is smaller\n", said(chosen.Neighbour{}))
	require.Equal(t, "  next down      10 A would do\n", said(fails(0)))
	require.Equal(t, "  next down      10 A fails:\n                 – start: may open\n", said(fails(1)))
	require.Equal(t, 6, strings.Count(said(fails(6)), "– start: may open"), "one more is said, not counted")
	require.Equal(t, 5, strings.Count(said(fails(7)), "– start: may open"))
	require.Contains(t, said(fails(7)), "– and 2 more")
}

// FAA AC 43.13-1B (1998), table 11-4 is written for switches: what a switch lacks is not met, what a relay lacks is in its own data.
func TestVerdictOnAContact(t *testing.T) {
	for _, c := range []struct {
		wants, rating unit.Ampere
		kind          harness.Kind
		says          string
	}{
		{25, 0, harness.Switch, ""},
		{25, 25, harness.Switch, ": met"},
		{25, 20, harness.Switch, ": not met"},
		{25, 20, harness.Relay, ": not met by the table for switches; see the relay's own data for this kind of load"},
		{25, 20, harness.Flasher, ": not met by the table for switches; see the relay's own data for this kind of load"},
		{25, 30, harness.Relay, ": met"},
	} {
		require.Equal(t, c.says, verdict(chosen.Contact{Wants: c.wants, Rating: c.rating}, c.kind))
	}
}

func TestWhichEndOfACoilIsPlus(t *testing.T) {
	for _, c := range []struct {
		plus        map[string]bool
		suppression string
		says        string
	}{
		{map[string]bool{"86": true}, "none", "plus is on 86"},
		{map[string]bool{"85": true}, "none", "plus is on 85"},
		{map[string]bool{"86": true, "85": true}, "none", "plus is now on 86, now on 85"},
		{map[string]bool{"85": true}, "diode", "plus is on 85; the diode across it needs plus on 86"},
	} {
		require.Equal(t, c.says, plusText(c.plus, "86", "85", c.suppression))
	}
}

// ISO 8820-3 blades open at 135 % within half an hour (from memory), DIN 72581-3 maxi the same: so much for how long a wire must stand more than the rating.
func TestTheMostThatWiresAllow(t *testing.T) {
	x, _ := bare(&harness.Harness{Practice: harness.Practice{Method: "computed"}}, nil)
	require.Empty(t, x.mostAllowed(chosen.Fuse{Body: "blade"}))
	require.Equal(t, "; never a fuse above 15 A: it may let 135 % of its rating through for up to 30 min", x.mostAllowed(chosen.Fuse{Body: "blade", MostAllowed: 15}))
	require.Contains(t, x.mostAllowed(chosen.Fuse{Body: "glass", MostAllowed: 15}), "for up to 60 min")
	x.h.Practice.Method = "ac43-13"
	require.Equal(t, "; never a fuse above 15 A", x.mostAllowed(chosen.Fuse{Body: "blade", MostAllowed: 15}), "a published table has its own rule")
}

// grown is two grounds and a plug with figures that are checked by hand.
func grown() (*harness.Harness, *result.Result) {
	h := &harness.Harness{
		Places: []harness.Place{{ID: 0, Name: "Dash", Ambient: 30}},
		Parts: []harness.Part{
			{ID: 0, Ref: "X1", Name: "Door plug", Kind: harness.Connector, Place: 0, Cavities: []string{"1", "2"}, Terminals: []harness.TerminalID{1, 2}},
			{ID: 1, Ref: "G1", Name: "Dash ground", Kind: harness.Ground, Place: harness.None, Terminals: []harness.TerminalID{3}},
		},
		Terminals: []harness.Terminal{
			{Part: harness.None, Full: "chassis"},
			{ID: 1, Part: 0, Name: "1.in", Full: "X1.1.in", Cavity: "1"}, {ID: 2, Part: 0, Name: "1.out", Full: "X1.1.out", Cavity: "1"},
			{ID: 3, Part: 1, Full: "G1"},
		},
		Wires: []harness.Wire{{ID: 0, Name: "1A", From: 3, To: 1}, {ID: 1, Name: "1B", From: 2, To: 3}},
	}
	gauge := unit.Gauge{System: unit.Metric, Size: "1"}
	r := &result.Result{}
	r.Wires = []chosen.Wire{{Gauge: gauge, Amps: 3}, {Gauge: gauge, Amps: 4}}
	r.Ways = []route.Way{{Length: 1200}, {Length: 800}}
	r.States = []network.State{
		{Name: "on", WireAmps: []float64{-3, 3}, Volts: make([]float64, 4)},
		{Name: "more", WireAmps: []float64{4, 4}, Volts: make([]float64, 4)},
	}
	return h, r
}

// Each cavity with what comes and goes, and the most that flows there in either direction; one that is free says so.
func TestCavities(t *testing.T) {
	h, r := grown()
	var out bytes.Buffer
	require.NoError(t, Explain(&out, h, r, "X1"))
	text := out.String()
	require.Contains(t, text, "X1: Door plug (connector), at Dash (30 °C)\n")
	require.Contains(t, text, "  cavity 1       1A (1 mm²) to 1B (1 mm²); 4 A at most, in more\n")
	require.Contains(t, text, "  cavity 2       empty\n")
	x, _ := bare(h, r)
	require.Equal(t, "1A 1 mm² · 1B 1 mm²: "+x.length(2000)+" in all", x.way([]harness.WireID{0, 1}))
	require.Equal(t, "no wire", x.way(nil))
	require.Equal(t, []string{"1A", "1B"}, x.wiresAt(3))
}

// An unknown name is told with the nearest one, or with where all names stand.
func TestUnknownNames(t *testing.T) {
	h, r := grown()
	require.EqualError(t, Explain(&bytes.Buffer{}, h, r, "X2"), `nothing is called "X2"; did you mean X1?`)
	require.EqualError(t, Explain(&bytes.Buffer{}, h, r, "WINDSCREEN"), `nothing is called "WINDSCREEN"; explain with the file alone lists every name`)
	require.Equal(t, []string{"1A", "1B", "X1", "G1"}, Names(h))
}

// Every name of the small sample is listed once under a heading, and each can be asked for.
func TestEveryNameIsListedAndExplained(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		var list bytes.Buffer
		List(&list, h)
		words := map[string]int{}
		for _, w := range strings.Fields(list.String()) {
			words[w]++
		}
		for _, p := range h.Parts {
			require.GreaterOrEqual(t, words[p.Ref], 1, "%s: %s", s.Name, p.Ref)
		}
		for _, w := range h.Wires {
			require.GreaterOrEqual(t, words[w.Name], 1, "%s: %s", s.Name, w.Name)
		}
		for _, name := range Names(h)[len(h.Wires):] {
			var out bytes.Buffer
			require.NoError(t, Explain(&out, h, r, name))
			require.True(t, strings.HasPrefix(out.String(), name), name)
		}
	}
}

// The chain behind a wire of the small sample: each line's figure is that of the result.
func TestTheChainBehindAWire(t *testing.T) {
	h, r := worked.Named(t, "first")
	for id, w := range h.Wires {
		if w.Name != "3C" {
			continue
		}
		text := flat(asked(t, "first", "3C"))
		c := r.Wires[id]
		require.Contains(t, text, "Wire 3C: "+h.Terminals[w.From].Full+" to "+h.Terminals[w.To].Full)
		require.Contains(t, text, "size "+c.Gauge.String()+", "+c.Insulation)
		require.Contains(t, text, flat("why "+c.Reason))
		require.Contains(t, text, "class "+unitless(c.Class))
		require.Contains(t, text, "protected by "+c.ProtectedBy+", ")
		for _, word := range []string{"each rule drop alone", "each method computed " + c.Gauge.String(), "ABYC E-11", "FAA AC 43.13-1B", "end a", "end b", "must hold", "in state current"} {
			require.Contains(t, text, word)
		}
		for _, key := range c.Sources {
			for _, s := range rating.SourcesOf([]string{key}) {
				require.Contains(t, text, flat(s.Title))
			}
		}
		return
	}
	t.Fatal("there is no wire 3C")
}

func unitless(c unit.Celsius) string {
	x, _ := bare(&harness.Harness{}, nil)
	return x.celsius(c)
}

// Fuses in a panel are told in short on the panel and in full by their own names.
func TestAPanelAndItsPositions(t *testing.T) {
	h, r := worked.Named(t, "kestrel")
	short := flat(asked(t, "kestrel", "FD"))
	require.Contains(t, short, "(explain one position by its name for the ratings beside it and its wires)")
	found := 0
	for _, f := range r.Fuses {
		if h.Parts[f.Part].Ref != "FD" {
			continue
		}
		found++
		require.Contains(t, short, f.Name+" "+flat(f.Reason))
		if found > 3 {
			continue
		}
		full := flat(asked(t, "kestrel", f.Name))
		require.Contains(t, full, f.Name+", of FD")
		require.Contains(t, full, "fuse "+f.Name+" "+f.Rating.String()+" "+f.Body)
		require.Contains(t, full, "next up")
		require.Contains(t, full, "guards")
	}
	require.Greater(t, found, 3)
}

// Findings that speak of a name stand in what is said of it, and no others.
func TestFindingsOfAName(t *testing.T) {
	h, r := worked.Named(t, "kestrel")
	require.NotEmpty(t, r.Findings)
	told := 0
	for _, p := range r.Findings {
		for _, s := range p.Subjects {
			var out bytes.Buffer
			x, _ := bare(h, r)
			x.w = &out
			x.findings(s)
			require.Contains(t, flat(out.String()), flat(p.Level.String()+" "+p.Summary))
			told++
		}
	}
	require.Positive(t, told)
	x, out := bare(h, r)
	x.findings("nothing of this name")
	require.Empty(t, out.String())

	accepted := *r
	accepted.Findings, accepted.Accepted = nil, []source.Accepted{{Problem: source.Problem{Summary: "2A looks like 3B", Subjects: []string{"2A"}}, Because: "both are sleeved"}}
	x, out = bare(h, &accepted)
	x.findings("2A")
	require.Contains(t, flat(out.String()), "accepted 2A looks like 3B, because both are sleeved")
}

// A wire that is one with others says with what, and how much longer its turns make it.
func TestTwistsScreensAndCables(t *testing.T) {
	told := map[harness.UnitKind]int{}
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		for i, u := range h.Units {
			text := ""
			x, out := bare(h, r)
			x.unit(u.Wires[0])
			text = flat(out.String())
			require.Contains(t, text, "one with ")
			require.Contains(t, text, x.length(r.Units[i].Length)+" finished")
			require.Contains(t, text, u.Name)
			if u.Kind == harness.Cabled {
				require.Regexp(t, `core \S+.* of the cable `, text)
			}
			for _, tw := range r.Units[i].Twists {
				require.Contains(t, text, "lay "+flat(x.fine(tw.Lay)))
				require.Greater(t, tw.Factor, 1.0, "a turn is longer than the way along it")
			}
			told[u.Kind]++
		}
	}
	require.Positive(t, told[harness.Cabled])
	require.Positive(t, told[harness.Screened])
	x, out := bare(&harness.Harness{Wires: []harness.Wire{{}}}, nil)
	x.unit(0)
	require.Empty(t, out.String(), "a wire alone")
}

// A ground's rings from the bottom up, as many as the model has there, and what lifts it.
func TestGroundsAndSplices(t *testing.T) {
	h, r := worked.Named(t, "kestrel")
	for _, g := range r.Grounds {
		x, out := bare(h, r)
		x.ground(&h.Parts[g.Part])
		text := flat(out.String())
		at := strings.Index(text, "rings from the bottom: ")
		require.Positive(t, at)
		for _, id := range g.Rings {
			next := strings.Index(text[at:], h.Wires[id].Name+" (")
			require.GreaterOrEqual(t, next, 0, "%s: %s stands behind those under it", h.Parts[g.Part].Ref, h.Wires[id].Name)
			at += next
		}
		require.Contains(t, text, g.Stud+" stud on a "+g.Surface+" surface")
		require.Contains(t, text, "offset "+volts(g.Lift))
	}
	require.NotEmpty(t, r.Splices)
	for _, s := range r.Splices {
		x, out := bare(h, r)
		x.splice(&h.Parts[s.Part])
		text := flat(out.String())
		require.Contains(t, text, "barrel "+flat(s.Size))
		require.Equal(t, len(s.Wires), strings.Count(text, " mm²)"), "each wire with its size")
	}
	x, out := bare(h, r)
	x.ground(&h.Parts[0])
	x.splice(&h.Parts[0])
	require.Empty(t, out.String(), "a battery is neither")
}

// What is beside a wire in its run, what protects it, and what it feeds or brings back.
func TestCompanyAndProtection(t *testing.T) {
	require.Equal(t, "no other loaded wire beside it", company(1))
	require.Equal(t, "among 2 loaded wires in its fullest run", company(2))
	r := &result.Result{}
	r.Fuses = []chosen.Fuse{{Name: "F1", Rating: 15, Body: "blade"}}
	r.Loads = []chosen.Load{{Name: "L1", Feed: []harness.WireID{0}, Return: []harness.WireID{1}}, {Name: "L2", Feed: []harness.WireID{0}}}
	x, out := bare(&harness.Harness{}, r)
	require.Equal(t, "by no fuse", x.protection(chosen.Wire{}))
	require.Equal(t, "by F1, 15 A blade", x.protection(chosen.Wire{ProtectedBy: "F1"}))
	require.Equal(t, "by F9", x.protection(chosen.Wire{ProtectedBy: "F9"}))
	x.loadsOver(0)
	x.loadsOver(1)
	x.loadsOver(2)
	require.Equal(t, "  feeds          L1, L2\n  returns from   L1\n", out.String())
	for b, says := range map[harness.Behaviour]string{
		harness.AsCurrent: "a constant current", harness.AsResistance: "a resistance",
		harness.AsLamp: "a filament lamp (current follows V^0.55)", harness.AsMotor: "a motor (constant current while it runs)",
	} {
		require.Equal(t, says, behaviour(b))
	}
}

// A sentence begins with a capital, unless with a name or a figure.
func TestSentencesBeginWithACapital(t *testing.T) {
	for text, want := range map[string]string{"take it out": "Take it out", "2.5 mm² fits": "2.5 mm² fits", "F1 is out": "F1 is out", "fuse.1 x": "fuse.1 x", "": ""} {
		require.Equal(t, want, capital(text))
	}
}

// An end for which nothing is made says so, without a strip and a force of nothing.
func TestAnEndThatNothingFits(t *testing.T) {
	x, _ := bare(&harness.Harness{}, nil)
	e := fitted.End{Fitting: "6.3 mm female spade", Crimp: fitted.NoneFits, Reason: "no 6.3 mm female spade takes 10 mm²"}
	require.Equal(t, "no 6.3 mm female spade takes 10 mm²", x.end(&e))
	e = fitted.End{Fitting: "M6 ring", Crimp: "blue insulated", Strip: 6, Pull: 133, Reason: "blue takes 1.5-2.5 mm2"}
	require.Equal(t, "M6 ring, blue insulated, strip 6.0 mm, must hold 133 N. Blue takes 1.5-2.5 mm2", x.end(&e))
}

// A size that would do and was not taken says why: it is bought thicker, others are, or sizes that grew late are kept.
func TestWhyASizeThatWouldDoIsNotTaken(t *testing.T) {
	x, _ := bare(nil, &result.Result{})
	plain := chosen.Wire{Gauge: unit.Gauge{System: unit.Metric, Size: "1"}}
	thick := chosen.Wire{Gauge: unit.Gauge{System: unit.Metric, Size: "2"}, Least: plain.Gauge}
	x.r.Wires = []chosen.Wire{plain}
	require.Contains(t, x.wouldDo(&plain), "grown late")
	x.r.Wires = append(x.r.Wires, thick)
	require.Equal(t, "would do beside wires that are bought thicker than they need", x.wouldDo(&plain))
	require.Equal(t, "would do; it is bought thicker", x.wouldDo(&thick))
	require.Equal(t, "1", own(&thick).Size)
	require.Equal(t, "1", own(&plain).Size)
}
