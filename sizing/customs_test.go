package sizing_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// loom is a dressed one.
type loom struct {
	t *testing.T
	h *harness.Harness
	r *result.Result
}

// dressed sizes testdata/customs.yaml with a practice and with pieces of its text replaced,
// two by two.
func dressed(t *testing.T, as, practice string, edits ...string) loom {
	t.Helper()
	data, err := os.ReadFile("testdata/customs.yaml")
	require.NoError(t, err)
	text := strings.Replace(string(data), "practice: {}", "practice: {"+practice+"}", 1)
	for i := 0; i < len(edits); i += 2 {
		require.Contains(t, text, edits[i])
		text = strings.ReplaceAll(text, edits[i], edits[i+1])
	}
	d, problems := describe.Parse("customs.yaml", []byte(text))
	require.False(t, problems.HasErrors(), "%+v", problems)
	h, found := check.Check(d)
	require.NotNil(t, h, "%+v", found)
	r, err := sizing.Size(worked.Buying(h, as), found)
	require.NoError(t, err)
	return loom{t, h, r}
}

// on gives the colour of a wire by its name or its two ends; why its reason.
func (l loom) on(name string) string  { return l.choice(name).Pair.String() }
func (l loom) why(name string) string { return l.choice(name).Reason }

func (l loom) choice(name string) colour.Choice {
	l.t.Helper()
	a, b, _ := strings.Cut(name, " ")
	for i := range l.h.Wires {
		w := &l.h.Wires[i]
		from, to := l.h.Terminals[w.From].Full, l.h.Terminals[w.To].Full
		if w.Name == name || from == a && to == b || from == b && to == a {
			return l.r.Colours[i]
		}
	}
	require.Fail(l.t, "no wire "+name)
	return colour.Choice{}
}

// said gives what is found under a slug.
func (l loom) said(slug string) string {
	var out []string
	for _, p := range l.r.Findings {
		if p.Slug == slug {
			out = append(out, p.Summary+": "+p.Detail)
		}
	}
	return strings.Join(out, "\n")
}

const insisted = "conventions: british, convention-colours: always"

// The colours of BS AU 7, by terminals, fuses, names and loads, the lists named in
// sizing/colour/convention: K1 to K12.
var roadster = map[string]string{
	"2B": "BN", "2C": "BN", "2E": "BN", // main feed, behind a main fuse too (K2 K3 K4 K10)
	"3A": "WH",                         // live with the ignition, unfused (K10)
	"4A": "RD", "4B": "RD", "4C": "RD", // side and tail lamps (K4 K5 K6 K12)
	"5A": "BU",                   // lighting switch to dip switch (K1 K3 K4 K6)
	"5B": "BU/WH", "5C": "BU/WH", // main beam (K1 K2 K3 K4)
	"5E": "BU/RD", "5F": "BU/RD", // dipped beam (K1 K2 K3 K4)
	"6A": "VT/YE", "6B": "VT/BK", // horn; horn push (K4 K5)
	"7A": "GN", "7B": "GN/VT", // fused with the ignition (K10); stop lamps (K2 K4 K5)
	"8A": "GN", "8B": "LGN/BN", // flasher unit to switch (K2 K4 K5)
	"8C": "GN/RD", "8D": "GN/WH", // left and right flashers (K2 K4 K5 K9)
	"10B": "VT/RD", // boot lamp (K2)
	"11D": "BN/YE", // alternator to warning light (K2 K3 K4)
	"12B": "WH/BN", // oil pressure switch to warning light (K2 K5)
	"1N":  "BK", "2A": "BN",
}

func TestARoadsterInItsOwnColours(t *testing.T) {
	for _, as := range worked.Bought() {
		l := dressed(t, as, insisted)
		for name, want := range roadster {
			require.Equal(t, want, l.on(name), "%s, %s", name, as)
		}
		require.Empty(t, l.said("convention-not-kept"))
		require.Empty(t, l.said("look-alike"), "what is asked for is no finding")
		require.Equal(t, "main-beam by British practice (UW, BS AU 7 by lists K1 K2 K3 K4); known by DIP.56a", l.why("5B"))
		require.Contains(t, l.why("7A"), "its number sleeve tells it from", "several green wires leave one fuse panel")
		require.Equal(t, [2]string{"British practice", "main-beam"}, [2]string{l.choice("5B").By, l.choice("5B").Task})
	}
}

// Preferred colours cost no reel: as many as with the same ground and feeds and no convention.
func TestPreferredColoursCostNoReel(t *testing.T) {
	none, preferred := dressed(t, "few", "feed-colour: BN"), dressed(t, "few", "conventions: british")
	require.LessOrEqual(t, len(preferred.r.Reels), len(none.r.Reels))
	always := dressed(t, "few", insisted)
	require.Greater(t, len(always.r.Reels), len(preferred.r.Reels))
	kept := func(l loom) (n int) {
		for _, c := range l.r.Colours {
			if c.By != "" {
				n++
			}
		}
		return n
	}
	require.Greater(t, kept(preferred), 0)
	require.Greater(t, kept(always), kept(preferred))
}

// fooled: colours that must not come of a convention.
var fooled = []struct {
	name     string
	practice string
	edits    []string
	is, not  map[string]string
	says     string // by convention-not-kept; "" for nothing
}{
	{"a side is not guessed at: the switch says a and b", insisted,
		[]string{"[[49a, L]]", "[[49a, a]]", "[[49a, R]]", "[[49a, b]]", "IS.L", "IS.a", "IS.R", "IS.b"},
		map[string]string{"8B": "LGN/BN"}, map[string]string{"8C": "GN/RD", "8D": "GN/WH"}, ""},
	{"an alternator's L is its lamp, not the left", insisted, nil, map[string]string{"11D": "BN/YE"}, nil, ""},
	{"left by its name, right by another: the right one has no row", insisted,
		[]string{"name: Side lamps, legs: [[LS.58, S3, SL, G4], [S3, TL, G2]]", "function: tail-right, legs: [[LS.58, S3, SL, G4], [S3, TL, G2]]"},
		nil, map[string]string{"4A": "RD/OG"}, ""},
	{"a German horn beside a black ground", "conventions: german, convention-colours: always, ground-colour: BK", nil,
		map[string]string{"1N": "BK", "5B": "WH", "5E": "YE"}, map[string]string{"6A": "BK/YE", "7B": "BK/RD", "3A": "BK"}, "horn is BK/YE by German practice"},
	{"a German loom has brown grounds and red feeds", "conventions: german, convention-colours: always", nil,
		map[string]string{"1N": "BN", "2A": "RD", "2B": "RD", "6A": "BK/YE", "7B": "BK/RD", "3A": "BK", "8C": "BK/WH", "8D": "BK/GN"}, nil, ""},
	{"a British fan is never black and green", insisted, []string{"legs: [[FP.4, FAN, G5]]", "legs: [[FP.3, FANSW, FAN, G5]]", "  FAN: {", "  FANSW: {kind: switch, at: dash, rating: 20 A, positions: {off: [], on: [[1, 2]]}}\n  FAN: {"},
		nil, map[string]string{"9B": "BK/GN"}, "radiator-fan is BK/GN by British practice"},
	{"a feed of two circuits is no fan's wire, whatever one of them says", insisted, nil, map[string]string{"8A": "GN", "9A": "GN"}, nil, ""},
	{"a wiper's two speeds: nothing says which is meant", insisted, []string{"name: Wiper", "function: wiper"}, nil, map[string]string{"13B": "RD/LGN", "13C": "RD/LGN"}, ""},
	{"positive earth: the same functions, the same colours", insisted,
		[]string{"earth: negative", "earth: positive", "BAT.-", "BAT.x", "BAT.+", "BAT.-", "BAT.x", "BAT.+", "HORN.+, HORN.-", "HORN.-, HORN.+", "ALT: {kind: alternator, at: front, output: 35 A}", "ALT: {kind: alternator, at: front, output: 35 A, terminals: [B-, L, case]}", "ALT.B+", "ALT.B-",
			"[ALT.B-, {to: AF, length: 150 mm}, {to: BAT.-, length: 150 mm}], [FP.5, WL, ALT.L]", "[FP.5, {to: WL.-}, {to: WL.+}, G3]", ", [ALT.case, G0]", "", "  ALT: {kind: alternator, at: front, output: 35 A, terminals: [B-, L, case]}\n", "", "  AF: {kind: fuse, at: bulkhead, body: bolt}\n", ""},
		map[string]string{"BAT.+ G0": "BK", "BAT.- MF.1": "BN", "IGN.15 FP.A3": "WH", "FP.1 HORN.-": "VT/YE", "HORN.+ HB.1": "VT/BK", "BS.2 STL.-": "GN/VT", "DIP.56a S1": "BU/WH", "OL.+ OS.1": "WH/BN"}, nil, ""},
	{"marine: a yellow ground leaves no yellow start", "conventions: marine, convention-colours: always, ground-colour: YE", nil,
		map[string]string{"1N": "YE", "2A": "RD", "3A": "VT"}, nil, ""},
	{"the list goes in order, one's own first", "conventions: [{horn: OG/BK}, marine, british], convention-colours: always", nil,
		map[string]string{"6A": "OG/BK", "3A": "VT", "12B": "LBU", "5B": "BU/WH", "2A": "RD", "2B": "RD"}, nil, ""},
	{"a function of one's own by its circuit's name", "conventions: [british, {stop-lamps: OG/BK}], convention-colours: always", nil, map[string]string{"7B": "OG/BK"}, nil, ""},
	{"a given colour wins", insisted, []string{"BS, STL, G2", "BS, {to: STL, colour: OG}, G2"}, map[string]string{"7B": "OG"}, nil, ""},
	{"a function said wins over a terminal", insisted, []string{"name: Headlamps, legs: [[LS.56, DIP.56], [DIP.56a, S1, HL, G1], [S1, HR, G1],", "name: Headlamps, legs: [[LS.56, DIP.56],",
		"  horn: {", "  spots: {number: 14, function: driving-lamps, legs: [[DIP.56a, S1, HL, G1], [S1, HR, G1]]}\n  horn: {"}, map[string]string{"14A": "BU/YE", "5B": "BU/RD"}, nil, ""},
	{"the edition of 1983 has orange wipers", "conventions: british-1983, convention-colours: always",
		[]string{", [WS.3, WIP.fast]", "", ", {from: fast, to: E, draws: 4 A}", ""}, map[string]string{"13B": "OG/GN"}, nil, ""},
	{"and that of before red and light green", insisted,
		[]string{", [WS.3, WIP.fast]", "", ", {from: fast, to: E, draws: 4 A}", ""}, map[string]string{"13B": "RD/LGN"}, nil, ""},
}

func TestConventionsAreNotFooled(t *testing.T) {
	for _, c := range fooled {
		t.Run(c.name, func(t *testing.T) {
			for _, as := range worked.Bought() {
				l := dressed(t, as, c.practice, c.edits...)
				for name, want := range c.is {
					require.Equal(t, want, l.on(name), "%s: %s", name, l.why(name))
				}
				for name, no := range c.not {
					require.NotEqual(t, no, l.on(name), "%s: %s", name, l.why(name))
				}
				said := l.said("convention-not-kept")
				require.Equal(t, c.says != "", said != "", said)
				require.Contains(t, said, c.says)
				require.Equal(t, "", l.said("look-alike"))
			}
		})
	}
}
