package label

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/marker"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// formats are invented: large labels on A4 of which six are used up, small ones with a
// clear tail on letter, sleeves on A4, a roll.
func formats() map[string]harness.Labels {
	return map[string]harness.Labels{
		"large": {As: fitted.Wrap, Length: 40, Sheet: &harness.LabelSheet{Paper: "A4", W: 210, H: 297, Across: 4, Down: 12, Wide: 45.7, High: 21.2,
			Left: 9.7, Top: 21.5, PitchAcross: 48.3, PitchDown: 21.2, First: 7}},
		"clear": {As: fitted.Wrap, Length: 40, Sheet: &harness.LabelSheet{Paper: "letter", W: 215.9, H: 279.4, Across: 7, Down: 7, Wide: 25.4, High: 33.8,
			Left: 12.7, Top: 12.7, PitchAcross: 27.5, PitchDown: 35, First: 1, Clear: 21}},
		"sleeves": {As: fitted.Sleeve, Length: 40, Sheet: &harness.LabelSheet{Paper: "A4", W: 210, H: 297, Across: 3, Down: 30, Wide: 50, High: 6.4,
			Left: 20, Top: 20, PitchAcross: 60, PitchDown: 8, First: 1}},
		"roll": {As: fitted.Wrap, Length: 40, Sheet: &harness.LabelSheet{W: 1000, H: 12, Across: 25, Down: 1, Wide: 38, High: 12, Left: 1, PitchAcross: 40, PitchDown: 12, First: 1}},
	}
}

// onLabels gives a sample the shop's labels.
func onLabels(a page.Ask, l harness.Labels) page.Ask {
	h, r := *a.H, *a.R
	h.Practice.Labels = l
	a.H, a.R = &h, &r
	r.Labels = marker.Labels(a.H, chosen.Chosen{Wires: r.Wires, Fuses: r.Fuses}, r.Reels, r.Kept)
	return a
}

// TestLabelSheetsOfAllSamples: every wire has two markers, in the order of the cut list,
// on the shop's labels or cut out; each on the label whose turn it is, where the format
// has it to 0.01 mm; and all its text on that label by measured width, clear of its edges.
func TestLabelSheetsOfAllSamples(t *testing.T) {
	for name, sample := range toy.Samples(t) {
		for kind, format := range formats() {
			a, at := onLabels(sample, format), name+", "+kind
			on, off := (&labels{Ask: a}).shared()
			require.NotEmpty(t, on, at)
			require.Len(t, append(on, off...), 2*len(a.H.Wires), at)
			pages := Sheets(a)
			if format.Sheet.Paper != "" {
				require.Len(t, boxes(pages[0]), format.Sheet.Each()+1, at)
				pages = pages[1:]
			}
			require.Len(t, pages, format.Sheet.Count(len(on)), at)
			checkOnLabels(t, a, on, pages, at)
		}
	}
}

// slotOf is where the i-th label lies, reckoned from the format anew.
func slotOf(s *harness.LabelSheet, i int) (sheetNo int, r sheet.Rect) {
	slot := i + s.First - 1
	row, col := slot/s.Across%s.Down, slot%s.Across
	return slot / (s.Across * s.Down), sheet.Rect{X: float64(s.Left) + float64(col)*float64(s.PitchAcross),
		Y: float64(s.Top) + float64(row)*float64(s.PitchDown), W: float64(s.Wide), H: float64(s.High)}
}

func checkOnLabels(t *testing.T, a page.Ask, on []fitted.Label, pages []frame.Page, at string) {
	t.Helper()
	s := a.H.Practice.Labels.Sheet
	counted := 0
	for i, x := range on {
		n, label := slotOf(s, i)
		require.True(t, pages[n].Bare, at)
		names := 0
		for _, m := range pages[n].Marks {
			text, ok := m.(sheet.Text)
			if !ok || text.X < label.X || text.X > label.Right() || text.Y < label.Y || text.Y > label.Bottom() {
				continue
			}
			counted++
			b := typeface.TextBounds(text)
			require.True(t, b.X >= label.X+0.5 && b.Right() <= label.Right()-0.5, "%s: %q leaves its label", at, text.S)
			top, low := text.Y-text.Size*typeface.CapHeight, text.Y+text.Size*typeface.Descent
			if text.Turn == 180 {
				top, low = text.Y-text.Size*typeface.Descent, text.Y+text.Size*typeface.CapHeight
			}
			require.True(t, top >= label.Y && low <= label.Bottom()-float64(s.Clear), "%s: %q on %v", at, text.S, label)
			require.GreaterOrEqual(t, text.Size, sheet.SizeNote)
			if text.Face == sheet.Bold {
				require.Equal(t, page.Firm(x.Name), text.S, at)
				names++
			}
		}
		require.Equal(t, map[bool]int{true: 1, false: 2}[x.As == fitted.Sleeve], names, "%s: %s", at, x.Name)
	}
	all := 0
	for _, p := range pages {
		for _, m := range p.Marks {
			if text, ok := m.(sheet.Text); ok && !isMargin(text, s) {
				all++
			}
		}
	}
	require.Equal(t, all, counted, "%s: text beside the labels", at)
}

// isMargin tells the lines that stand beside the labels.
func isMargin(text sheet.Text, s *harness.LabelSheet) bool {
	last := s.Top + unit.Millimetre(s.Down-1)*s.PitchDown + s.High
	return s.Paper != "" && (text.Y < float64(s.Top) || text.Y > float64(last))
}

// TestLabelSheetsHaveTheCaution: on the sheet to be tried always, on each sheet of labels where
// its margins have room for two lines; the lines lie beside the labels and on the paper.
func TestLabelSheetsHaveTheCaution(t *testing.T) {
	sample := toy.Samples(t)["tender"]
	for kind, lines := range map[string]int{"large": 2, "clear": 2, "sleeves": 2, "roll": 0} {
		format := formats()[kind]
		require.Len(t, marginLines(format.Sheet), lines, kind)
		for _, p := range Sheets(onLabels(sample, format)) {
			require.Equal(t, lines > 0, strings.Contains(toy.Words([]frame.Page{p}), "licensed person"), "%s: %s", kind, p.Title)
		}
	}
	for _, s := range []harness.LabelSheet{{H: 297, Top: 8, Down: 1, High: 280}, {H: 297, Top: 0, Down: 1, High: 280}, {H: 297, Top: 9, Down: 1, High: 288}, {H: 297, Top: 30, Down: 1, High: 267}, {H: 297, Down: 1, High: 297}} {
		for _, y := range marginLines(&s) {
			clear := y < float64(s.Top)-1 && y > 5 || y-sheet.SizeNote*typeface.CapHeight > float64(s.Top+s.High)+1 && y < float64(s.H)-4.9
			require.True(t, clear, "%v of %+v", y, s)
		}
	}
}

// TestStripsBesideTheLabelSheets: what the shop's labels do not serve is cut out of paper, on
// sheets with a frame, which say where the others are.
func TestStripsBesideTheLabelSheets(t *testing.T) {
	sample := toy.Samples(t)["tender"]
	for kind, format := range formats() {
		a := onLabels(sample, format)
		require.NotEmpty(t, Sheets(a), kind)
		pages := Labels(a)
		for _, p := range pages {
			require.False(t, p.Bare)
			toy.CheckPage(t, p)
			checkLabels(t, p, kind)
		}
		require.Regexp(t, "which stand before these|the first pages of this file", toy.Words(pages), kind)
	}
	require.Empty(t, Sheets(sample))
}

// TestTheTrialSheetShowsEveryLabel at its place and size, with its number.
func TestTheTrialSheetShowsEveryLabel(t *testing.T) {
	a := onLabels(toy.Samples(t)["tender"], formats()["large"])
	first := Sheets(a)[0]
	all := boxes(first)
	for i := range 48 {
		_, want := slotOf(a.H.Practice.Labels.Sheet, i-6)
		require.InDeltaSlice(t, []float64{want.X, want.Y, want.W, want.H}, []float64{all[i].X, all[i].Y, all[i].W, all[i].H}, 0.01, fmt.Sprint(i+1))
	}
	require.Contains(t, sheet.DumpMarks(first.Marks), `"6 used up"`)
	require.Contains(t, sheet.DumpMarks(first.Marks), `"7"`)
}
