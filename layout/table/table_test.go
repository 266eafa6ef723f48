package table

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name+".txt")
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, string(want), got)
}

func dump(parts []Part) string {
	var b strings.Builder
	for i, p := range parts {
		fmt.Fprintf(&b, "part %d to %.2f\n%s", i+1, p.Bottom, sheet.DumpMarks(p.Marks))
	}
	return b.String()
}

// reels is a small table of every kind of row and cell.
func reels() Table {
	return Table{
		Columns: []Column{{Title: "cut"}, {Title: "wire"}, {Title: "length", Unit: "mm", Align: Decimal},
			{Title: "drop", Unit: "V", Align: Decimal}, {Title: "ends", Weight: 1}, {Title: "n", Align: Centre}},
		Rows: []Row{
			Heading("2.5 mm²", "reel R1"),
			{Anchor: "wire 12A", Cells: []Cell{{Draw: TickBox()}, Noted("12A", "red"), Text("415"), Text("0.07"), Text("MF1.1 to BAT.+\nring M8"), Text("1")}},
			{Cells: []Cell{{Draw: TickBox()}, {S: "12B", Bold: true, Link: "wire 12A"}, Text("1 460"), Text("≥ 1.5"), Text("K1.30"), Text("—")}},
			{Kind: Sum, Cells: []Cell{{S: "sum", Span: 2}, Text("1 875"), {}, {S: "buy 2 m", Span: 2}}},
			Heading("1.0 mm²", ""),
			{High: 12, Cells: []Cell{{Draw: Blank(20), Span: 2}, Text("9.5"), Text("open")}},
		},
	}
}

func TestGolden(t *testing.T) {
	table := reels()
	area := sheet.Rect{X: 20, Y: 30, W: 150, H: 200}
	golden(t, "whole", dump(table.Flow(area, area)))
	area.H = 32
	golden(t, "flowing", dump(table.Flow(area, area)))
}

// texts gives all text marks of a part.
func texts(p Part) []sheet.Text {
	var all []sheet.Text
	for _, m := range p.Marks {
		if t, ok := m.(sheet.Text); ok {
			all = append(all, t)
		}
	}
	return all
}

func find(t *testing.T, parts []Part, s string) sheet.Text {
	t.Helper()
	for _, p := range parts {
		for _, text := range texts(p) {
			if text.S == s {
				return text
			}
		}
	}
	require.Fail(t, "not printed", "%q", s)
	return sheet.Text{}
}

// pointAt is where the decimal point of a number mark stands.
func pointAt(text sheet.Text) float64 {
	before, _ := cut(text.S)
	return text.X + typeface.Width(before, text.Face, text.Size)
}

func TestDecimalPointsStandUnderEachOther(t *testing.T) {
	table := Table{Columns: []Column{{Title: "drop", Align: Decimal}}, Rows: []Row{
		Texts("0.07"), Texts("12.5"), Texts("100"), Texts("−3.25 V"), Texts("≥ 1.5"), Texts("1 460"),
		{Kind: Sum, Cells: []Cell{Text("17.125")}},
	}}
	area := sheet.Rect{W: 60, H: 200}
	parts := table.Flow(area, area)
	want := pointAt(find(t, parts, "0.07"))
	for _, s := range []string{"12.5", "100", "−3.25 V", "≥ 1.5", "1 460", "17.125"} {
		require.InDelta(t, want, pointAt(find(t, parts, s)), 1e-9, s)
	}
}

func TestCut(t *testing.T) {
	for s, want := range map[string][2]string{
		"1.25 A": {"1", ".25 A"}, "1 460": {"1 460", ""}, "1\u202f460.5": {"1\u202f460", ".5"}, "7 A": {"7", " A"}, "≥ 1.5": {"≥ 1", ".5"}, "−3": {"−3", ""},
	} {
		before, after := cut(s)
		require.Equal(t, want, [2]string{before, after}, s)
	}
}

func TestWidthsFillTheArea(t *testing.T) {
	for _, total := range []float64{30, 60, 90, 150, 400} {
		table := reels()
		require.InDelta(t, total, sum(table.widths(total)), 1e-6)
	}
	narrow := reels()
	narrow.Rigid = true
	require.Less(t, sum(narrow.widths(400)), 200.0)
}

func TestNarrowWantsAreMetBeforeWideOnes(t *testing.T) {
	table := Table{Columns: []Column{{Title: "a"}, {Title: "b"}}, Rows: []Row{
		Texts("red", strings.Repeat("a very long remark about the run of this wire ", 5)),
	}}
	for range 9 {
		table.Rows = append(table.Rows, Texts("red with white tracer", "ring"))
	}
	area := sheet.Rect{W: 120, H: 200}
	find(t, table.Flow(area, area), "red with white tracer") // in one line
}

// TestWidthMovesToWhereItSavesLines: shared equally, both columns wrap; a little
// more for the first keeps every second row in one line.
func TestWidthMovesToWhereItSavesLines(t *testing.T) {
	table := Table{Columns: []Column{{Title: "end A"}, {Title: "end B"}}}
	for range 10 {
		table.Rows = append(table.Rows, Texts("MF1.1 · ring M8, blue", "K1.30"),
			Texts("MF1.1 · ring M8, blue", "FAN.− · butt splice, blue, behind the radiator support"))
	}
	area := sheet.Rect{W: 84, H: 400}
	find(t, table.Flow(area, area), "MF1.1 · ring M8, blue")
	needs := []demand{table.demand(0), table.demand(1)}
	before := []float64{32, 52}
	try := table.trial(2)
	after := table.lower([]float64{32, 52}, needs)
	require.Less(t, try.height(after), try.height(before)-10)
	require.InDelta(t, 84, sum(after), 1e-9)
}

func TestHeaderOnEveryPartAndHeadingsKept(t *testing.T) {
	table := Table{Columns: []Column{{Title: "wire"}, {Title: "length", Unit: "mm"}}}
	for g := range 5 {
		table.Rows = append(table.Rows, Heading(fmt.Sprintf("reel %d", g), ""))
		for i := range 7 {
			table.Rows = append(table.Rows, Texts(fmt.Sprintf("w%d.%d", g, i), "7"))
		}
		table.Rows = append(table.Rows, Row{Kind: Sum, Cells: []Cell{Text(fmt.Sprintf("sum %d", g))}})
	}
	for high := 30.0; high < 80; high += 1.7 {
		area := sheet.Rect{X: 5, Y: 5, W: 80, H: high}
		parts := table.Flow(area, area)
		require.Greater(t, len(parts), 1)
		for i, p := range parts {
			all := texts(p)
			require.Equal(t, "wire", all[0].S, "part %d", i)
			require.True(t, strings.HasPrefix(all[3].S, "reel "), "a part opens with its heading, not %q", all[3].S)
			require.False(t, strings.HasPrefix(all[len(all)-1].S, "reel "), "a heading alone at the foot")
			require.False(t, strings.HasPrefix(all[4].S, "sum"), "a sum alone at the head")
			require.LessOrEqual(t, p.Bottom, area.Bottom()+1e-6)
		}
	}
}

func TestFirstAreaTooSmall(t *testing.T) {
	table := reels()
	first, rest := sheet.Rect{Y: 250, W: 100, H: 10}, sheet.Rect{Y: 20, W: 100, H: 200}
	parts := table.Flow(first, rest)
	require.Len(t, parts, 2)
	require.Empty(t, parts[0].Marks)
	require.Equal(t, 250.0, parts[0].Bottom)
}

func TestRowHigherThanASheetGoesOn(t *testing.T) {
	words := strings.Fields(strings.Repeat("alpha beta gamma delta epsilon ", 60))
	for i := range words {
		words[i] += fmt.Sprint(i)
	}
	table := Table{Columns: []Column{{Title: "no"}, {Title: "text"}}, Rows: []Row{Texts("1", strings.Join(words, " "))}}
	area := sheet.Rect{W: 60, H: 50}
	parts := table.Flow(area, area)
	require.Greater(t, len(parts), 3)
	require.Equal(t, words, wordsOf(parts, "alpha"))
}

// wordsOf gives the words of all body text in order, from the first beginning with from.
func wordsOf(parts []Part, from string) []string {
	var all []string
	for _, p := range parts {
		for _, text := range texts(p) {
			if f := strings.Fields(text.S); len(all) > 0 && text.Face == sheet.Regular || strings.HasPrefix(f[0], from) {
				all = append(all, f...)
			}
		}
	}
	return all
}

// TestNothingLostNothingOutside lays out tables of random shape: every text comes
// out whole, inside the area, and no two texts of a part lie on each other.
func TestNothingLostNothingOutside(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 60 {
		table := randomTable(r)
		area := sheet.Rect{X: 20, Y: 14, W: 80 + 150*r.Float64(), H: 60 + 200*r.Float64()}
		parts := table.Flow(area.Below(area.Y+area.H*r.Float64()*0.8), area)
		got := map[rune]int{}
		for i, p := range parts {
			checkInside(t, p, area, i)
			count(got, p)
		}
		for letter, n := range table.letters() {
			require.GreaterOrEqual(t, got[letter], n, "%c", letter)
		}
	}
}

func checkInside(t *testing.T, p Part, area sheet.Rect, part int) {
	t.Helper()
	all := texts(p)
	for i, text := range all {
		box := ink(text)
		require.True(t, area.Inset(-0.01).Holds(box), "part %d: %q at %v outside %v", part, text.S, box, area)
		for _, other := range all[i+1:] {
			require.False(t, box.Inset(0.05).Meets(ink(other)), "part %d: %q on %q", part, text.S, other.S)
		}
	}
}

// ink is the area of a text from its capitals to its base line.
func ink(text sheet.Text) sheet.Rect {
	box := typeface.TextBounds(text)
	box.Y = text.Y - text.Size*typeface.CapHeight
	box.H = text.Size * typeface.CapHeight
	return box
}

func count(into map[rune]int, p Part) {
	for _, text := range texts(p) {
		for _, c := range text.S {
			into[c]++
		}
	}
}

// letters counts what the rows hold; headers and repeated headings come on top of it.
func (t *Table) letters() map[rune]int {
	n := map[rune]int{}
	for _, row := range t.Rows {
		for _, c := range row.Cells {
			for _, l := range c.S + c.Note {
				if l != ' ' && l != '\n' {
					n[l]++
				}
			}
		}
	}
	return n
}

func randomTable(r *rand.Rand) Table {
	var t Table
	for range 2 + r.IntN(6) {
		t.Columns = append(t.Columns, Column{Title: phrase(r, 2), Unit: phrase(r, 1), Align: Align(r.IntN(4)), Weight: float64(r.IntN(2))})
	}
	for i := range 1 + r.IntN(40) {
		row := Row{Kind: []Kind{Plain, Plain, Plain, Plain, Group, Sum}[r.IntN(6)]}
		if i == 0 {
			row.Kind = Plain
		}
		for range t.Columns {
			row.Cells = append(row.Cells, randomCell(r))
		}
		if row.Kind == Group {
			row.Cells = row.Cells[:2]
			row.Cells[0].Draw, row.Cells[1].Draw = nil, nil
			row.Cells[0].Note, row.Cells[1].Note = "", ""
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func randomCell(r *rand.Rand) Cell {
	c := Cell{S: phrase(r, r.IntN(8))}
	switch r.IntN(6) {
	case 0:
		c.Draw = TickBox()
	case 1:
		c.Note = phrase(r, 3)
	case 2:
		c.S = fmt.Sprintf("%.*f", r.IntN(4), r.Float64()*1000)
	}
	return c
}

func phrase(r *rand.Rand, words int) string {
	list := []string{"ring", "M8", "behind", "radiator", "left-hand", "red/black", "6.3", "receptacle", "☑", "⌀", "a\nb"}
	var out []string
	for range words {
		out = append(out, list[r.IntN(len(list))])
	}
	return strings.Join(out, " ")
}

func TestEmptyTableStillHasItsHeader(t *testing.T) {
	table := Table{Columns: []Column{{Title: "wire"}}}
	area := sheet.Rect{W: 50, H: 50}
	require.Equal(t, "wire", texts(table.Flow(area, area)[0])[0].S)
}

func TestHeight(t *testing.T) {
	table := reels()
	area := sheet.Rect{Y: 7, W: 150, H: 200}
	require.InDelta(t, table.Flow(area, area)[0].Bottom-7, table.Height(150), 1e-6)
}

func BenchmarkFlow(b *testing.B) {
	for _, rows := range []int{10, 100, 1000} {
		b.Run(fmt.Sprint(rows), func(b *testing.B) {
			t := reels()
			for i := range rows {
				t.Rows = append(t.Rows, Texts("☐", fmt.Sprintf("%dA", i), "1450", "0.07", "K1.30 · receptacle 6.3, behind the radiator support", "1"))
			}
			area := sheet.Rect{W: 120, H: 230}
			for b.Loop() {
				t.Flow(area, area)
			}
		})
	}
}

// TestCompany: no row under a heading stands alone at the top or the foot of a sheet,
// whatever the height of the sheets.
func TestCompany(t *testing.T) {
	tab := &Table{Company: true, NoHead: true, Columns: []Column{{Weight: 1}}}
	for g := range 6 {
		tab.Rows = append(tab.Rows, Heading(fmt.Sprint("group ", g), ""))
		for r := range 2 + g {
			tab.Rows = append(tab.Rows, Row{Cells: []Cell{Text(fmt.Sprint("row ", g, ".", r))}})
		}
	}
	for high := 40.0; high < 120; high++ {
		area := sheet.Rect{W: 80, H: high}
		parts := tab.Flow(area, area)
		seen := 0
		for i, p := range parts {
			count := map[string]int{}
			for _, m := range p.Marks {
				if x, ok := m.(sheet.Text); ok && strings.HasPrefix(x.S, "row ") {
					count[x.S[:5]]++
					seen++
				}
			}
			for group, n := range count {
				require.Greater(t, n, 1, "%s on sheet %d at %g mm", group, i, high)
			}
		}
		require.Equal(t, 27, seen)
	}
}
