package layout_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout"
	"example.com/loomfolio/layout/meter"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples/worked"
)

// TestEverySheetHasTheCaution: each sheet of a packet and of the loom board says whose
// work it is; the line lies on no other text, and where printers print.
func TestEverySheetHasTheCaution(t *testing.T) {
	for _, name := range []string{"first", "tender"} {
		h, r := worked.Named(t, name)
		for _, paper := range []string{"A4", "letter", "tabloid"} {
			o := layout.Options{For: layout.Archive, Paper: paper, FileName: name + ".yaml"}
			packet, err := layout.Plan(h, r, o)
			require.NoError(t, err)
			board, err := layout.Board(h, r, o)
			require.NoError(t, err)
			for _, p := range []*sheet.Packet{packet, board} {
				require.Contains(t, p.Caution, "licensed person")
				for _, s := range p.Sheets {
					checkCaution(t, s)
				}
			}
		}
	}
}

func checkCaution(t *testing.T, s sheet.Sheet) {
	t.Helper()
	at := slices.IndexFunc(s.Marks, func(m sheet.Mark) bool {
		x, ok := m.(sheet.Text)
		return ok && (x.Turn == 90 || x.Y < 10) && strings.Contains(x.S, "licensed person")
	})
	require.GreaterOrEqual(t, at, 0, s.Title)
	for _, over := range meter.Overlaps(s.Marks) {
		require.NotContains(t, over, "licensed person", s.Title)
	}
	require.Empty(t, meter.Outside(s.Marks[at:at+1], sheet.Rect{W: s.W, H: s.H}.Inset(5)), s.Title)
}
