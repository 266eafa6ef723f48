package frame_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/unit"
)

var update = flag.Bool("update", false, "write the golden files anew")

func block() frame.Block {
	return frame.Block{Owner: "A. Example", Title: "Kestrel GT wiring", Ident: "KG-014", Revision: "B", Date: "2026-11-02",
		Creator: "M. Example", Digest: "9f3c61a08d21c07e55aa"}
}

// demo is a small packet: a list that flows, upright, and a drawing, landscape.
func demo(t testing.TB, paper string) []sheet.Sheet {
	upright, err := frame.Of(paper, false)
	require.NoError(t, err)
	lying, err := frame.Of(paper, true)
	require.NoError(t, err)
	var c sheet.Canvas
	body := upright.Heading(&c, "Cut list · reel by reel", "tick each wire when both ends have passed the pull test")
	list := table.Table{Columns: []table.Column{{Title: "cut"}, {Title: "wire"}, {Title: "length", Unit: "mm", Align: table.Decimal}, {Title: "ends", Weight: 1}}}
	for _, name := range []string{"12A", "12B"} {
		list.Rows = append(list.Rows, table.Row{Anchor: "wire " + name, Cells: []table.Cell{
			{Draw: table.TickBox()}, table.Strong(name), table.Text("415"), table.Noted("MF1.1 to BAT.+", "ring M8, blue")}})
	}
	c.Add(list.Flow(body, upright.Body)[0].Marks...)
	pages := []frame.Page{{Frame: upright.AsFirst(), Title: "Cut list", Tabs: []string{"Wires"}, Marks: c.Marks}}
	c = sheet.Canvas{}
	lying.Heading(&c, "Circuit 12 · Radiator fan", "")
	c.Link(sheet.Rect{X: 50, Y: 50, W: 10, H: 5}, "wire 12B")
	pages = append(pages, frame.Page{Frame: lying, Title: "Radiator fan", Group: "Circuit diagrams", Also: []string{"Loom map"}, Tabs: []string{"Circuits"}, Marks: c.Marks})
	return frame.Bind(pages, block())
}

func TestDemoGolden(t *testing.T) {
	for _, paper := range frame.Papers() {
		got := sheet.Dump(sheet.Packet{Title: "Kestrel GT", Sheets: demo(t, paper)})
		file := filepath.Join("testdata", "demo-"+paper+".txt")
		if *update {
			require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
		}
		want, err := os.ReadFile(file)
		require.NoError(t, err)
		require.Equal(t, string(want), got)
	}
}

// every is all papers, those of large sheets too.
func every() []string { return append(frame.Papers(), unit.LargePapers()...) }

// Sizes: ISO 216 for the A sizes; letter is 8.5 × 11 in, tabloid 11 × 17 in (ASME Y14.1 A and B).
func TestPaper(t *testing.T) {
	const inch = 25.4
	for name, want := range map[string][2]float64{
		"A4": {210, 297}, "a3": {297, 420}, "Letter": {8.5 * inch, 11 * inch}, "tabloid": {11 * inch, 17 * inch},
		"A2": {420, 594}, "A1": {594, 841}, "A0": {841, 1189}, "roll": {36 * inch, 36 * inch},
	} {
		w, h, err := frame.Paper(name)
		require.NoError(t, err)
		require.InDeltaSlice(t, want[:], []float64{w, h}, 1e-9)
	}
	_, _, err := frame.Paper("A9")
	require.EqualError(t, err, `no paper "A9": take one of A4, A3, letter, tabloid, A2, A1, A0, roll`)
	lying, err := frame.Of("A3", true)
	require.NoError(t, err)
	require.Equal(t, 420.0, lying.W)
}

// Fields are 25 to 75 mm long and even in number (older texts of ISO 5457).
func TestZones(t *testing.T) {
	for _, paper := range every() {
		for _, landscape := range []bool{false, true} {
			f, err := frame.Of(paper, landscape)
			require.NoError(t, err)
			for _, field := range []struct {
				n      int
				length float64
			}{{f.Columns(), f.Line.W}, {f.Rows(), f.Line.H}} {
				require.Zero(t, field.n%2)
				require.InDelta(t, 50, field.length/float64(field.n), 25)
			}
		}
	}
	f, err := frame.Of("A3", true) // 8 fields of 50 mm from 10, 6 of 44.5 mm from 20
	require.NoError(t, err)
	for want, at := range map[string][2]float64{
		"A1": {10, 20}, "A2": {61, 20}, "C3": {111, 110}, "F8": {409.9, 286.9}, "D4": {209.9, 153.6}, "D5": {210.1, 153.6},
	} {
		require.Equal(t, want, f.Zone(at[0], at[1]))
	}
	require.Equal(t, "A1", f.Zone(-5, -5))
	require.Equal(t, "F8", f.Zone(999, 999))
	require.Equal(t, "J1", frame.New(210, 1000).Zone(20, 10+980*8.5/20), "I is left out")
}

// inked gives the areas of the text of a sheet, from capitals to base line.
func inked(s sheet.Sheet) []sheet.Text {
	var all []sheet.Text
	for _, m := range s.Marks {
		if t, ok := m.(sheet.Text); ok {
			all = append(all, t)
		}
	}
	return all
}

func TestNothingLeavesThePaperOrMeets(t *testing.T) {
	long := strings.Repeat("Long Name of Somebody ", 4)
	full := frame.Block{Owner: long, Title: long, Ident: long, Revision: "AB", Date: "2026-11-02", Creator: long, Approval: long, Digest: strings.Repeat("d", 64)}
	for _, paper := range every() {
		for _, landscape := range []bool{false, true} {
			f, err := frame.Of(paper, landscape)
			require.NoError(t, err)
			for _, of := range []int{238, 239} {
				pages := make([]frame.Page, 240)
				for i := range pages {
					pages[i] = frame.Page{Frame: f, Title: long, Tabs: []string{"Circuits", "Wires"}}
				}
				pages[238].Frame = f.AsFirst()
				s := frame.Bind(pages, full)[of]
				// most office printers leave 4.2 mm and more unprinted at each edge (common practice, no source)
				require.True(t, sheet.Rect{W: f.W, H: f.H}.Inset(4.2).Holds(typeface.BoundsAll(s.Marks)), "%v", typeface.BoundsAll(s.Marks))
				all := inked(s)
				for i, a := range all {
					for _, b := range all[i+1:] {
						require.False(t, typeface.TextBounds(a).Inset(0.3).Meets(typeface.TextBounds(b).Inset(0.3)), "%s: %q on %q", paper, a.S, b.S)
					}
				}
			}
		}
	}
}

// TestFieldsAreNotShrunk: values have one of three sizes, only the fields' names are
// smaller than notes, and a long name of a sheet stands whole on two lines.
func TestFieldsAreNotShrunk(t *testing.T) {
	b := block()
	b.Title = "Camper, base vehicle and living space"
	f, err := frame.Of("letter", true)
	require.NoError(t, err)
	const name = "Circuits 12, 15, 16, 17 · Engine module, Crank sensor and 2 more"
	var two []string
	for _, x := range inked(frame.Bind([]frame.Page{{Frame: f.AsFirst(), Title: name}}, b)[0]) {
		require.Contains(t, []float64{sheet.SizeLabel, sheet.SizeNote, sheet.SizeBody, sheet.SizeHead}, x.Size, x.S)
		if x.Size == sheet.SizeLabel {
			require.Contains(t, "Title Owner Document Vehicle Date of issue Built by Checked by Rev. Description Sheet", x.S)
		}
		if x.Size == sheet.SizeNote && strings.Contains(name, x.S) {
			two = append(two, x.S)
		}
	}
	require.Equal(t, name, strings.Join(two, " "))
}

// The lengths are those that ISO 7200 recommends and a little more: title 25,
// document type 30, identification 16, persons 20 characters.
func TestOrdinaryFieldsAreNotCut(t *testing.T) {
	b := block()
	b.Approval = "J. Maximilian Example"    // 21 characters
	b.Title = "Wiring of the Kestrel GT, B" // 27
	b.Creator = "Workshop of M. Example"    // 22
	b.Ident = "KG-014 chassis 0042"         // 19
	for _, paper := range frame.Papers() {
		f, err := frame.Of(paper, false)
		require.NoError(t, err)
		for _, text := range inked(frame.Bind([]frame.Page{{Frame: f.AsFirst(), Title: "Terminals and crimps, side A 2"}}, b)[0]) {
			require.NotContains(t, text.S, "…", paper)
		}
	}
}

// ISO 7200 recommends 25 characters for a title; one of 30 stands whole too.
func TestLongTitlesStandWhole(t *testing.T) {
	b := block()
	b.Title = "Loom of the Kestrel GT, part B"
	require.Len(t, b.Title, 30)
	for _, paper := range frame.Papers() {
		f, err := frame.Of(paper, false)
		require.NoError(t, err)
		text := ""
		for _, x := range inked(frame.Bind([]frame.Page{{Frame: f.AsFirst(), Title: "Fuse map"}}, b)[0]) {
			text += x.S + " "
		}
		require.NotContains(t, text, "…", paper)
		require.Contains(t, text, b.Title, paper)
	}
}

func TestHeadingWrapsAndLeavesTheRest(t *testing.T) {
	f, err := frame.Of("A4", false)
	require.NoError(t, err)
	var c sheet.Canvas
	short := f.Heading(&c, "Fuse map", "")
	long := f.Heading(&c, strings.Repeat("Fuse map of the dash panel ", 4), strings.Repeat("as you stand before it ", 8))
	require.Greater(t, long.Y, short.Y+10)
	require.Equal(t, f.Body.Bottom(), long.Bottom())
	for _, m := range c.Marks {
		require.True(t, f.Body.Inset(-2).Holds(typeface.Bounds(m)), "%v", m) // accents may stand in the clear space round it
	}
}

func TestPlacesAndNumbers(t *testing.T) {
	f, err := frame.Of("A4", true)
	require.NoError(t, err)
	var c sheet.Canvas
	c.Anchor("fan", 100, 100)
	pages := []frame.Page{{Frame: f, Title: "one"}, {Frame: f, Title: "two", Marks: c.Marks}}
	require.Equal(t, map[string]frame.Place{"fan": {Sheet: 2, Zone: f.Zone(100, 100)}}, frame.Places(pages))
	sheets := frame.Bind(pages, block())
	require.Contains(t, sheet.DumpMarks(sheets[1].Marks), `"2 of 2"`)
	require.Contains(t, sheet.DumpMarks(sheets[1].Marks), `"KG-014 · rev. B · 2026-11-02 · 9f3c61a0"`)
	require.Contains(t, sheet.DumpMarks(frame.Bind([]frame.Page{{Frame: f.AsFirst()}}, block())[0].Marks), `"9f3c61a0 8d21c07e"`)
}

// TestTabsStepDownTheEdge: the tab of a group stands at one height on all its sheets, below that of the
// group before; a sheet that holds two groups has both.
func TestTabsStepDownTheEdge(t *testing.T) {
	f, err := frame.Of("A4", false)
	require.NoError(t, err)
	lying, err := frame.Of("A4", true)
	require.NoError(t, err)
	sheets := frame.Bind([]frame.Page{
		{Frame: f, Tabs: []string{"Circuits"}}, {Frame: lying, Tabs: []string{"Circuits"}}, {Frame: f, Tabs: []string{"Splices", "Grounds"}}, {Frame: f},
	}, block())
	at := func(i int, word string) (y []float64) {
		for _, x := range inked(sheets[i]) {
			if x.S == word && x.Turn == -90 {
				y = append(y, x.Y)
			}
		}
		return y
	}
	require.Len(t, at(0, "Circuits"), 1)
	require.Len(t, at(1, "Circuits"), 1)
	require.Empty(t, at(1, "Grounds"))
	require.Greater(t, at(2, "Splices")[0], at(0, "Circuits")[0])
	require.Greater(t, at(2, "Grounds")[0], at(2, "Splices")[0])
	require.Empty(t, at(3, "Circuits"))
}

// A sheet lying on A4 among fifteen groups shows the whole word of its tab, within its border.
func TestManyTabsAreWhole(t *testing.T) {
	lying, err := frame.Of("A4", true)
	require.NoError(t, err)
	var pages []frame.Page
	for i := range 15 {
		pages = append(pages, frame.Page{Frame: lying, Tabs: []string{fmt.Sprint("Circuits ", i)}})
	}
	for i, s := range frame.Bind(pages, block()) {
		want := fmt.Sprint("Circuits ", i)
		at := slices.IndexFunc(inked(s), func(x sheet.Text) bool { return x.S == want && x.Turn == -90 })
		require.GreaterOrEqual(t, at, 0, want)
		half := typeface.Width(want, sheet.Bold, sheet.SizeNote) / 2
		require.LessOrEqual(t, inked(s)[at].Y+half, lying.Line.Bottom())
		require.GreaterOrEqual(t, inked(s)[at].Y-half, lying.Line.Y)
	}
}

// TestBoundEdge: 20 mm are left at the edge that a binder holds: the left one of an
// upright sheet, the upper one of a lying sheet; the first sheet alone has the long title block.
func TestBoundEdge(t *testing.T) {
	for _, paper := range every() {
		if paper == unit.Roll {
			continue // a square until its sheet's end is known
		}
		upright, err := frame.Of(paper, false)
		require.NoError(t, err)
		lying, err := frame.Of(paper, true)
		require.NoError(t, err)
		require.Equal(t, []float64{20, 10}, []float64{upright.Line.X, upright.Line.Y})
		require.Equal(t, []float64{10, 20}, []float64{lying.Line.X, lying.Line.Y})
		require.InDelta(t, 8, upright.Strip.H, 1e-9)
		require.Greater(t, upright.Body.H, upright.AsFirst().Body.H+9)
	}
}
