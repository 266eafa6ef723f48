package page_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples/toy"
)

// TestTogether: under the colour of a wire stands what it is twisted and screened with.
func TestTogether(t *testing.T) {
	a := toy.Fan()
	require.NotContains(t, page.ColourCell(a, 0).Note, "with")
	require.Contains(t, page.ColourCell(a, 6).Note, "twisted with 31B\nscreened with 31B")
	require.Contains(t, page.ColourCell(a, 7).Note, "twisted with 31A\nscreened with 31A")
	a = toy.Crowded()
	for i := range a.H.Wires {
		a.H.Wires[i].Twist = "all"
	}
	a = page.Of(a.H, a.R, a.Paper, a.For)
	require.Contains(t, page.ColourCell(a, 0).Note, fmt.Sprintf("twisted: all, %d wires", len(a.H.Wires)), "too many to name beside each")
}
