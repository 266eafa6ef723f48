package index

import (
	"flag"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

var update = flag.Bool("update", false, "write the golden files anew")

func TestGolden(t *testing.T) {
	toy.CheckGolden(t, "index", toy.Settled(toy.Fan(), Index), *update)
}

// TestEveryWireHasOneRow, in the natural order of the numbers, with what it is and where it leads.
func TestEveryWireHasOneRow(t *testing.T) {
	for name, a := range toy.Samples(t) {
		rows := wireTable(a).Rows
		require.Len(t, rows, len(a.H.Wires), name)
		for i, id := range byNumber(a) {
			w := &a.H.Wires[id]
			require.Equal(t, "index/"+w.Name, rows[i].Anchor)
			said := toy.Said(rows[i : i+1])
			for _, fact := range []string{w.Name, a.Pair(id).String(), a.R.Wires[id].Gauge.Size, page.FarStop(a, w.From) + " → " + page.FarStop(a, w.To)} {
				require.Contains(t, said, fact, "%s: %s", name, w.Name)
			}
			if i > 0 {
				require.LessOrEqual(t, unit.Natural(strings.TrimPrefix(rows[i-1].Anchor, "index/"), w.Name), 0, "%s: %s", name, w.Name)
			}
		}
	}
}

// TestEveryTerminalHasItsWires: each part with a wire has one row, at its place, and there stands
// the wire at each of its terminals, and each fuse with its rating.
func TestEveryTerminalHasItsWires(t *testing.T) {
	for name, a := range toy.Samples(t) {
		rows := map[string]string{}
		for _, r := range partTable(a).Rows {
			if len(r.Cells) > 1 && r.Cells[1].S != "" {
				require.Empty(t, rows[toy.Plain(r.Cells[0].S)], "%s: %s stands once", name, r.Cells[0].S)
				rows[toy.Plain(r.Cells[0].S)] = " " + toy.Plain(r.Cells[1].S) + " "
			}
		}
		for i := range a.H.Parts {
			p := &a.H.Parts[i]
			require.Contains(t, rows, p.Ref, name)
			for _, id := range p.Terminals {
				for _, w := range a.WiresOn(id) {
					require.Regexp(t, `[ |]`+a.H.Wires[w].Name+`[ ,|]`, rows[p.Ref], "%s: %s at %s", name, a.H.Wires[w].Name, a.H.Terminals[id].Full)
				}
			}
		}
		for _, f := range a.R.Fuses {
			if f.Part != harness.None {
				require.Contains(t, rows[a.H.Parts[f.Part].Ref], strings.TrimSpace(f.Position+" "+f.Rating.String()), "%s: %s", name, f.Name)
			}
		}
	}
}

// TestPlugsShowBothHalves of each cavity, the feed's first.
func TestPlugsShowBothHalves(t *testing.T) {
	a := toy.Car(7, 2)
	for i := range a.H.Parts {
		if p := &a.H.Parts[i]; p.Kind == harness.Connector {
			require.Equal(t, []string{"1 13A|13B", "2 14A|14B", "3 15A|15B", "4 16A|16B"}, plain(terminals(a, p)), "the empty ones are left out")
		}
	}
}

func plain(list []string) []string {
	var out []string
	for _, s := range list {
		out = append(out, toy.Plain(s))
	}
	return out
}

// TestPlacesInShort are those of the pass before; the customer has no sheet to cut from.
func TestPlacesInShort(t *testing.T) {
	a := toy.Fan()
	require.Equal(t, "–", at(a, "wire/12A"))
	a.Known = map[string]frame.Place{"wire/12A": {Sheet: 31, Zone: "C2"}, "circuit/fan": {Sheet: 4, Zone: "A1"}, "index/12A": {Sheet: 40, Zone: "A1"}}
	require.Equal(t, "31 C2", toy.Plain(at(a, "wire/12A")))
	w := &a.H.Wires[0]
	require.Equal(t, "circuit/fan", drawnAt(a, w))
	a.Known["drawn/"+w.Name] = frame.Place{Sheet: 4, Zone: "B3"}
	require.Equal(t, "drawn/"+w.Name, drawnAt(a, w))
	require.Len(t, wireTable(a).Columns, 6)
	a.For = page.Customer
	require.Len(t, wireTable(a).Columns, 5)
}

// TestEveryPaper: the index of every sample has no fault of the meter, and is short.
func TestEveryPaper(t *testing.T) {
	most := map[string]int{"first": 1, "tender": 1, "camper": 3, "kestrel": 4}
	for name, a := range toy.Samples(t) {
		for _, a.Paper = range frame.Papers() {
			for _, a.For = range []string{page.Bench, page.Customer} {
				t.Run(fmt.Sprint(name, a.Paper, a.For), func(t *testing.T) {
					pages := toy.Settled(a, Index)
					for _, p := range pages {
						toy.CheckPage(t, p)
						toy.CheckFoot(t, p, partTable(a).Rows)
					}
					if a.Paper == "A4" {
						require.LessOrEqual(t, len(pages), most[name])
					}
				})
			}
		}
	}
}

func TestNoWiresNoIndex(t *testing.T) {
	a := page.Of(&harness.Harness{}, &result.Result{}, "A4", page.Bench)
	require.Empty(t, Index(a))
}

// TestLongNames wrap and are not cut.
func TestLongNames(t *testing.T) {
	a := toy.Worded(toy.Car(20, 2))
	for i := range a.H.Wires {
		a.H.Wires[i].Name = fmt.Sprintf("feed of the emergency lighting %d", i)
	}
	pages := toy.Settled(a, Index)
	for _, p := range pages {
		toy.CheckPage(t, p)
	}
	require.Contains(t, toy.Plain(toy.Words(pages)), "unbreakableandveryverylong")
}
