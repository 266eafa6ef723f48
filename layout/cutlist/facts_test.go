package cutlist

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
)

// rowAt is what is printed in the row that an anchor stands at: down to the next rule across the sheet.
func rowAt(p frame.Page, at sheet.Anchor) string {
	foot := p.Frame.Body.Bottom()
	for _, m := range p.Marks {
		if l, ok := m.(sheet.Path); ok && !l.Closed && len(l.Segs) == 1 && l.Segs[0].P.X-l.Start.X > 60 && l.Start.Y > at.Y+1 {
			foot = min(foot, l.Start.Y)
		}
	}
	var out []string
	for _, m := range p.Marks {
		if x, ok := m.(sheet.Text); ok && x.Y > at.Y && x.Y < foot {
			out = append(out, x.S)
		}
	}
	return toy.Squeezed(strings.Join(out, ""))
}

// printedRows are the rows of the sheets by their anchors.
func printedRows(pages []frame.Page) map[string]string {
	out := map[string]string{}
	for _, p := range pages {
		for _, m := range p.Marks {
			if at, ok := m.(sheet.Anchor); ok {
				out[at.Name] = rowAt(p, at)
			}
		}
	}
	return out
}

// TestEveryFactOfAWire stands on its printed row, on all samples.
func TestEveryFactOfAWire(t *testing.T) {
	for name, a := range toy.Samples(t) {
		rows := printedRows(toy.Settled(a, Wires))
		for i := range a.H.Wires {
			w := &a.H.Wires[i]
			row := rows["wire/"+w.Name]
			for _, fact := range wireFacts(a, w.ID) {
				require.Contains(t, row, toy.Squeezed(fact), "%s: %s", name, w.Name)
			}
		}
	}
}

// wireFacts is what whoever cuts and crimps a wire must find on its row.
func wireFacts(a page.Ask, id harness.WireID) []string {
	w, way := &a.H.Wires[id], a.R.Ways[id]
	out := []string{w.Name, a.Pair(id).String(), planned(a)[id]}
	if w.Core == harness.None {
		out = append(out, strings.TrimSuffix(page.Length(way.Length, a.H.Sheet.Imperial), " in"))
	}
	if a.R.Wires[id].Given {
		out = append(out, w.Name+given)
	}
	if a.R.KeptWire(id) == harness.Built {
		out = append(out, "built")
	}
	for _, e := range a.R.Ends[id] {
		out = append(out, a.H.Terminals[e.Terminal].Full, short(&e), strip(a, &e))
		for _, o := range e.With {
			out = append(out, together+a.H.Wires[o].Name)
		}
		if e.Boot {
			out = append(out, booted)
		}
		if e.Shrink != "" {
			out = append(out, shrunk)
		}
		if e.Drain != "" {
			out = append(out, "drain of "+e.Drain)
		}
	}
	return out
}

// TestWiresStandOnce: in the lists of these sheets each wire's name heads one row.
func TestWiresStandOnce(t *testing.T) {
	for name, a := range toy.Samples(t) {
		heads := map[string]int{}
		for _, p := range toy.Settled(a, Wires) {
			for _, m := range p.Marks {
				if x, ok := m.(sheet.Text); ok && x.Face == sheet.Bold {
					heads[strings.TrimSuffix(toy.Plain(x.S), given)]++
				}
			}
		}
		for i := range a.H.Wires {
			require.Equal(t, 1, heads[a.H.Wires[i].Name], "%s: %s", name, a.H.Wires[i].Name)
		}
	}
}

// rowsOfLots are the rows of the key without its headings, and the heading over each.
func rowsOfLots(t *table.Table) (rows, heads []table.Row) {
	head := table.Row{}
	for _, row := range t.Rows {
		if row.Kind == table.Group {
			head = row
			continue
		}
		rows, heads = append(rows, row), append(heads, head)
	}
	return rows, heads
}

// TestEveryFactOfALot stands in its row of the key or in the heading over it, and the key on the sheets.
func TestEveryFactOfALot(t *testing.T) {
	for name, a := range toy.Samples(t) {
		lots, forces := lotsOf(a), page.ForcesOf(a)
		key := keyTable(a, lots, forces)
		rows, heads := rowsOfLots(key)
		printed := toy.Squeezed(toy.Words(toy.Settled(a, Wires)))
		require.Len(t, rows, len(a.R.Lots), name)
		for i, l := range a.R.Lots {
			row, head := toy.Squeezed(toy.Said(rows[i:i+1])), toy.Squeezed(toy.Said(heads[i:i+1]))
			first, _ := forces.Both(l.Pull)
			force, unit, _ := strings.Cut(toy.Plain(first), " ")
			size, _ := strings.CutPrefix(page.Dashed(l.Size), fitted.Barrel)
			require.Equal(t, unit, key.Columns[2].Unit)
			for _, fact := range []string{bareSize(l.Gauge.String(), key.Columns[0].Unit), bareSize(l.Beside, key.Columns[0].Unit), force, l.Part, l.Die} {
				require.Contains(t, row, toy.Squeezed(fact), "%s: %+v", name, l)
			}
			require.Contains(t, head, toy.Squeezed(l.Tool), name)
			if l.Size != l.Gauge.String() {
				require.Contains(t, head+row, toy.Squeezed(size), "%s: %+v", name, l)
			}
			for _, c := range append(rows[i].Cells, heads[i].Cells...) {
				require.Contains(t, printed, toy.Squeezed(c.S))
				require.Contains(t, printed, toy.Squeezed(c.Note))
			}
			require.Equal(t, l.Count, crimps(&lots[i], row), "%s: %+v", name, l)
		}
		require.Contains(t, printed, "Pulledby")
		endFacts(t, a, lots, rows, key.Columns[1].Unit)
	}
}

// crimps counts those that the row of a lot names.
func crimps(l *lot, row string) int {
	if l.Fitting == "splice" && strings.Contains(row, fmt.Sprintf("%d×", l.Count)) {
		return l.Count
	}
	sum := 0
	for f, n := range l.count {
		if strings.Contains(row, toy.Squeezed(fmt.Sprintf("%d × %s", n, f))) {
			sum += n
		}
	}
	return sum
}

// endFacts holds that the row of an end's lot has its fitting in full, its heat-shrink and the
// outside of its wire.
func endFacts(t *testing.T, a page.Ask, lots []lot, rows []table.Row, signs string) {
	t.Helper()
	all := fitted.Fitted{Ends: a.R.Ends}
	for i := range a.R.Ends {
		for end := range 2 {
			e := &a.R.Ends[i][end]
			if p := a.H.PartOf(e.Terminal); e.Second || e.Crimp == fitted.NoneFits || p != nil && p.Kind == harness.Splice {
				continue
			}
			of, found := all.LotOf(e, a.R.Wires), false
			for n := range lots {
				if lots[n].Same(of) {
					found = true
					row := toy.Squeezed(toy.Said(rows[n : n+1]))
					require.Contains(t, row, toy.Squeezed(e.Fitting))
					size, kind, _ := strings.Cut(e.Shrink, ", ")
					require.Contains(t, row, toy.Squeezed(size))
					require.Contains(t, row+toy.Squeezed(signs), toy.Squeezed(kind))
					if e.Shrink != "" {
						require.Contains(t, row, toy.Squeezed(page.Piece(e.ShrinkLen, a.H.Sheet.Imperial)))
					}
					if e.Over > 0 {
						require.Contains(t, row, toy.Squeezed(outside+page.Across(e.Over, a.H.Sheet.Imperial).S))
					}
				}
			}
			require.True(t, found, "%s at %s has a lot", a.H.Wires[i].Name, a.H.Terminals[e.Terminal].Full)
		}
	}
}

// TestEveryCutIsPlanned: of a colour that is cut from several lengths, or off the shelf, each length
// stands with its wires and what is left of it; of the others what is bought and needed stands on the
// shopping list.
func TestEveryCutIsPlanned(t *testing.T) {
	for name, a := range toy.Samples(t) {
		printed := toy.Squeezed(toy.Words(toy.Settled(a, Wires)))
		for i := range a.R.Reels {
			r := &a.R.Reels[i]
			for _, c := range r.Cuts {
				if parts(r) {
					require.Contains(t, printed, toy.Squeezed(page.Bare(c.Whole, a.H.Sheet.Imperial)+page.WireNames(a, c.Wires)+page.Bare(c.Over, a.H.Sheet.Imperial)), "%s: %s", name, r.Name())
				}
			}
		}
	}
}

// TestLongNames wrap, terminals after their dot, and are not cut.
func TestLongNames(t *testing.T) {
	a := toy.Fitted(t, toy.Crowded())
	for i := range a.H.Terminals {
		if x := &a.H.Terminals[i]; x.Name != "" {
			x.Full += "-of-the-emergency-lighting"
		}
	}
	for i := range a.H.Wires {
		a.H.Wires[i].Name += " emergency lighting"
	}
	rows := printedRows(toy.Settled(a, Wires))
	for i := range a.H.Wires {
		for _, fact := range wireFacts(a, harness.WireID(i)) {
			require.Contains(t, rows["wire/"+a.H.Wires[i].Name], toy.Squeezed(fact))
		}
	}
	for _, p := range toy.Settled(a, Wires) {
		toy.CheckPage(t, p)
	}
}
