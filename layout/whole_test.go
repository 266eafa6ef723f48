package layout_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout"
	"example.com/loomfolio/layout/meter"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// papers are those that packets are looked at on: the four of a shop, and a large one for the wall.
var papers = []string{"A4", "A3", "letter", "tabloid", "A2"}

// checkWhole holds that no sheet of a packet has a fault: nothing on anything, no line through words,
// nothing where printers do not print.
func checkWhole(t *testing.T, h *harness.Harness, r *result.Result, reader, paper string) {
	t.Helper()
	p, err := layout.Plan(h, r, layout.Options{For: reader, Paper: paper, FileName: "x.yaml"})
	require.NoError(t, err)
	for i, s := range p.Sheets {
		faults := meter.Faults(s.Marks, sheet.Rect{W: s.W, H: s.H}.Inset(4.2), sheet.SizeLabel)
		require.Empty(t, faults, "%s for the %s on %s, sheet %d %s", h.Info.Title, reader, paper, i+1, s.Title)
	}
}

// TestWholePacketsHaveNoFault: all samples, readers and papers, with the small groups on shared sheets.
func TestWholePacketsHaveNoFault(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Named(t, s.Name)
		for _, reader := range layout.Readers() {
			for i, paper := range papers {
				if testing.Short() && i > 0 {
					break
				}
				t.Run(fmt.Sprint(s.Name, " ", reader, " ", paper), func(t *testing.T) {
					t.Parallel()
					checkWhole(t, h, r, reader, paper)
				})
			}
		}
	}
}

// TestGrownPacketsHaveNoFault: made-up vehicles of 15 to 110 wires.
func TestGrownPacketsHaveNoFault(t *testing.T) {
	count := 100
	if testing.Short() {
		count = 8
	}
	for seed := range count {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			h := grown.Harness(t, 15+95*seed/count, uint64(seed))
			r, err := sizing.Size(h, nil)
			require.NoError(t, err)
			checkWhole(t, h, r, layout.Readers()[seed%3], papers[seed%len(papers)])
		})
	}
}
