package asfound_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/asfound"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
)

// TestSheets: what is live without a fuse is said first, every open question has a box and a
// line to write on, every reading its verdict; a loom of which all is known has no such sheet.
func TestSheets(t *testing.T) {
	text, err := os.ReadFile("../../sizing/asfound/testdata/merlin.yaml")
	require.NoError(t, err)
	d, found := describe.Parse("merlin.yaml", text)
	h, more := check.Check(d)
	require.NotNil(t, h)
	r, err := sizing.Size(h, append(found, more...))
	require.NoError(t, err)
	pages := asfound.Sheets(page.Of(h, r, "A4", page.Bench))
	require.NotEmpty(t, pages)
	require.LessOrEqual(t, len(pages), 2)
	var words []string
	for _, p := range pages {
		for _, m := range p.Marks {
			if x, ok := m.(sheet.Text); ok {
				words = append(words, strings.ReplaceAll(x.S, page.NoBreak, " "))
			}
		}
	}
	all := strings.Join(words, " ")
	for _, says := range []string{
		"17 of 23 wires traced from end to end; 6 ends not traced; 1 box unknown; 9 readings, 6 as they should be.",
		"Live with no fuse known before it: ?4 (4D BN/YE).", "Pull that fuse before you trace", "What to trace next", "Fuses of which not all is known", "as it should be", "open: it is fed through BOX.b in this state",
		"Where more is lost than the wires can explain",
	} {
		require.Contains(t, all, says)
	}
	known, sized := worked.Named(t, "first")
	require.Empty(t, asfound.Sheets(page.Of(known, sized, "A4", page.Bench)))
}
