package guide

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
)

// TestCautionsStandOnTheFirstSheet, in full, whatever else the cover has to say.
func TestCautionsStandOnTheFirstSheet(t *testing.T) {
	for _, positive := range []bool{false, true} {
		a := toy.Worded(toy.Car(24, 7))
		a.H.System.PositiveEarth, a.Paper = positive, "letter"
		first := Cover(a, make([]Entry, 20))[0]
		text := toy.Words([]frame.Page{first})
		for _, c := range Cautions(positive) {
			require.Contains(t, text, c)
		}
		lead := map[bool]string{false: "take the negative (earthed) lead off first", true: "take the positive (earthed) lead off first"}[positive]
		require.Contains(t, text, lead)
	}
}

// TestEverySheetIsListed even where the list finds no room on the first sheet.
func TestEverySheetIsListed(t *testing.T) {
	for _, n := range []int{0, 5, 17, 60} {
		var list []Entry
		for i := range n {
			list = append(list, Entry{Title: fmt.Sprintf("Kind %d.", i), Sheet: i + 2, Count: 1})
		}
		a := toy.Car(6, 3)
		a.Paper = "letter"
		text := toy.Words(Cover(a, list))
		for _, e := range list {
			require.Contains(t, text, e.Title, "of %d", n)
		}
	}
}

func TestEveryFindingStands(t *testing.T) {
	a := toy.Worded(toy.Car(6, 3))
	text := toy.Words(Cover(a, nil))
	for _, f := range a.R.Findings {
		subject, rest, _ := strings.Cut(f.Summary, " of the emergency")
		if rest == "" {
			require.Contains(t, text, page.Sentence(f.Summary))
			continue
		}
		require.Regexp(t, `\b`+subject+`(,|:)`, text)
	}
	require.Contains(t, text, "Open findings: 1 error, 1 warning and 40 of advice")
}

// TestEveryFuseHasItsCard: every position of the panel once, every in-line fuse, each an anchor.
func TestEveryFuseHasItsCard(t *testing.T) {
	for _, n := range []int{3, 7, 8, 12, 24} {
		places := frame.Places(fuseMap(toy.Car(n, 3)))
		require.Contains(t, places, "fuse/MF1")
		for i := range n - 1 {
			require.Contains(t, places, fmt.Sprintf("fuse/FP.%d", i+1), "of %d", n)
		}
	}
}

func TestRelayCoilStopsItsLoads(t *testing.T) {
	a := toy.Car(6, 3)
	var coil Outage
	for i, out := range TakeOut(a) {
		if a.R.Fuses[i].Name == "FP.2" {
			coil = out
		}
	}
	require.Empty(t, coil.direct)
	require.Len(t, coil.relays, 1)
	require.Equal(t, "Fan relay (K1): Radiator fan", coil.through(a))
}

// TestFindingsAlikeStandTogether: one sentence where a word or two differ, else a
// sentence each, and what to do once.
func TestFindingsAlikeStandTogether(t *testing.T) {
	of := func(slug, detail string, line int, texts ...string) (all source.Problems) {
		for i, s := range texts {
			all = append(all, source.Problem{Slug: slug, Detail: detail, Level: source.Advice, Span: source.At(line+i, 1, 1), Summary: s})
		}
		return all
	}
	found := append(of("hot", "take a thicker wire", 5, "2A runs hot at night", "3B runs hot at night", "4C runs hot at night"), of("far", "", 9, "x is far", "y is far")...)
	found = append(found, of("odd", "look", 12, "the fuse of 5 A is odd", "nobody has seen this relay")...)
	groups := alike(found, source.Advice)
	require.Len(t, groups, 4)
	require.Equal(t, "2A, 3B, 4C: runs hot at night.", summaries(groups[0]))
	require.Equal(t, "lines 5, 6 and 7", lines(groups[0]))
	require.Equal(t, "X is far.", summaries(groups[1]))
	require.Equal(t, "The fuse of 5 A is odd.\nNobody has seen this relay.", summaries(groups[3]))
	require.Empty(t, alike(found, source.Error))
}

func TestColumns(t *testing.T) {
	for n, want := range map[int]int{1: 1, 3: 3, 4: 2, 6: 3, 10: 5, 12: 4, 16: 4, 18: 5, 23: 5} {
		require.Equal(t, want, columns(n), "%d cavities", n)
	}
}

// seen gives a view's rows as one stands before it.
func seen(v view) [][]string {
	var rows [][]string
	for _, row := range v.rows {
		var names []string
		for _, c := range row {
			names = append(names, c.name)
		}
		rows = append(rows, names)
	}
	return rows
}

// TestFacesMirror: the halves face each other, so the wire side of one shows what the
// mating side of the other shows; rows are those of the description.
func TestFacesMirror(t *testing.T) {
	a := toy.Car(6, 3)
	x := &a.H.Parts[4]
	x.Rows = [][]string{{"1", "2", "3", "4"}, {"5", "6"}}
	f := facesOf(a, x, 172)
	require.Equal(t, [][]string{{"1", "2", "3", "4"}, {"5", "6", "", ""}}, seen(f.lines[0][0]))
	require.Equal(t, [][]string{{"4", "3", "2", "1"}, {"", "", "6", "5"}}, seen(f.lines[0][1]))
	require.Equal(t, seen(f.lines[0][1]), seen(f.lines[1][0]))
	require.Equal(t, seen(f.lines[0][0]), seen(f.lines[1][1]))
	require.NotContains(t, connectorWords(a, x), "as numbered")
	x.Rows = nil
	require.Contains(t, connectorWords(a, x), "places as numbered on the housing")
}

// TestWideFaces: a row too long for two halves side by side gets the whole width, one
// too long for that shows its numbers alone.
func TestWideFaces(t *testing.T) {
	a := toy.Car(6, 3)
	x := &a.H.Parts[4]
	for n, want := range map[int]struct {
		lines int
		plain bool
	}{6: {2, false}, 10: {4, false}, 18: {4, true}} {
		x.Cavities, x.Rows = nil, [][]string{nil}
		for i := range n {
			x.Cavities = append(x.Cavities, fmt.Sprint(i+1))
		}
		x.Rows[0] = x.Cavities
		f := facesOf(a, x, 172)
		require.Len(t, f.lines, want.lines, "%d in a row", n)
		require.Equal(t, want.plain, f.lines[0][0].plain, "%d in a row", n)
	}
}

func TestDays(t *testing.T) {
	for d, want := range map[float64]string{500: "more than a year", 50: "50 days", 5.25: "5.2 days", 0.5: "12 hours"} {
		require.Equal(t, want, days(d))
	}
}

// TestKeyOffWords names the share of the capacity that the days rest on: 60 Ah at
// 25 mA are 100 days for the whole, 50 for the half.
func TestKeyOffWords(t *testing.T) {
	a := toy.Car(6, 3)
	require.Contains(t, keyOffWords(a, a.R.Budgets[0]), "25 mA, which is 0.60 Ah a day. A full battery of 60 Ah lasts 50 days. Assumed: 50 % of its capacity")
}

// TestSeveralBatteriesAtRest: each is told with its own current and days.
func TestSeveralBatteriesAtRest(t *testing.T) {
	a := toy.Car(6, 3)
	b := a.R.Budgets[0]
	b.Batteries = []chosen.Resting{{Battery: 0, Name: "BAT1", Amps: 0.005, Days: 250}, {Battery: 0, Name: "BAT2", Amps: 0.02, Days: 62.5}}
	words := keyOffWords(a, b)
	require.Contains(t, words, "BAT1 gives 5 mA, 0.12 Ah a day; of 60 Ah it lasts 250 days. BAT2 gives 20 mA, 0.48 Ah a day; of 60 Ah it lasts 62 days.")
	require.Contains(t, words, "50 % of its capacity")
}

// TestDrainTable: each fuse with its milliamperes, share and loads, as the model gives them.
func TestDrainTable(t *testing.T) {
	a := toy.Car(6, 3)
	rows := drainTable(a, a.R.Budgets[0]).Rows
	require.Len(t, rows, 2)
	require.Equal(t, []string{"MF1, 60 A", "20.0", "80", "Radio"}, []string{rows[0].Cells[0].S, rows[0].Cells[1].S, rows[0].Cells[2].S, rows[0].Cells[3].S})
	require.Equal(t, "no fuse", rows[1].Cells[0].S)
}

// TestSolvedWords states what is left over, or that it is below what the solver promises.
func TestSolvedWords(t *testing.T) {
	a := toy.Car(6, 3)
	require.Contains(t, solvedWords(a), "less than 0.000001 mA left over")
	a.R.States = append(a.R.States, network.State{Residual: 3e-6})
	require.Contains(t, solvedWords(a), "0.003000 mA left over")
}

// TestEverySymbolIsExplained on every paper, none of its words left out.
func TestEverySymbolIsExplained(t *testing.T) {
	for _, paper := range frame.Papers() {
		a := toy.Car(6, 3)
		a.Paper = paper
		text := toy.Words(ReadingGuide(a))
		for _, g := range symbol.Key() {
			require.Contains(t, text, g.Title)
			require.Contains(t, text, g.Words)
			for _, e := range g.Examples {
				require.Contains(t, text, string(e.Words))
			}
		}
	}
}

// TestSymbolsInRows: no symbol alone on a second row where a few millimetres would
// do, each as wide as its tile asks for, none over the edge.
func TestSymbolsInRows(t *testing.T) {
	key := symbol.Key()
	for _, n := range []int{1, 5, 6, 7, 8} {
		rows := symbolRows(key[len(key)-1].Examples[:min(n, 8)], 180)
		require.Len(t, rows, 1, "%d symbols", n)
	}
	for _, width := range []float64{90, 172, 180, 259} {
		for _, g := range key {
			for _, row := range symbolRows(g.Examples, width) {
				end := 0.0
				for _, f := range row {
					require.GreaterOrEqual(t, f.x, end-1e-9)
					require.GreaterOrEqual(t, f.w+1e-9, math.Min(tileWide(f.Example), width))
					end = f.x + f.w
				}
				require.LessOrEqual(t, end, width+1e-9)
			}
		}
	}
}

// DIN 72552 by the numbers of relays and switches; the pins of a plug and the
// poles of a switch named 1 and 2 are none of its numbers.
func TestTerminalNumbers(t *testing.T) {
	a := page.Of(&harness.Harness{}, &result.Result{}, "A4", page.Archive)
	add := func(ref string, kind harness.Kind, names ...string) {
		p := harness.Part{ID: harness.PartID(len(a.H.Parts)), Ref: ref, Kind: kind}
		for _, n := range names {
			p.Terminals = append(p.Terminals, harness.TerminalID(len(a.H.Terminals)))
			a.H.Terminals = append(a.H.Terminals, harness.Terminal{Part: p.ID, Name: n})
		}
		a.H.Parts = append(a.H.Parts, p)
	}
	add("K1", harness.Relay, "30", "85", "86", "87")
	add("SW", harness.Switch, "1", "2", "31b")
	add("ECU", harness.Module, "14", "15", "30", "31")
	add("X1", harness.Connector, "30", "31")
	require.Equal(t, map[string][]string{"30": {"K1"}, "85": {"K1"}, "86": {"K1"}, "87": {"K1"}, "31b": {"SW"}}, numbered(a))
}
