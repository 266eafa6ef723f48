package layout_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples/worked"
)

// TestAChoiceKeepsTheNumbers: sheets that are printed alone have the number that they have in the whole
// packet, and no link of theirs leads to a sheet that is left out.
func TestAChoiceKeepsTheNumbers(t *testing.T) {
	h, r := worked.Named(t, "kestrel")
	whole, err := layout.Plan(h, r, layout.Options{For: layout.Archive, FileName: "kestrel.yaml"})
	require.NoError(t, err)
	numbers := map[string]string{}
	for i, s := range whole.Sheets {
		numbers[s.Title] = strconv.Itoa(i+1) + " of " + strconv.Itoa(len(whole.Sheets))
	}
	for _, asked := range [][]string{{"26"}, {"dipped beam"}, {"grounds", "Splices"}, {"connectors", "26"}, {"cover"}} {
		p, err := layout.Plan(h, r, layout.Options{For: layout.Archive, FileName: "kestrel.yaml", Sheets: asked})
		require.NoError(t, err, asked)
		require.Less(t, len(p.Sheets), len(whole.Sheets)/2, asked)
		require.Empty(t, p.Attached, "a choice is no archive copy")
		for _, s := range p.Sheets {
			require.Contains(t, sheet.DumpMarks(s.Marks), strconv.Quote(numbers[s.Title]), "%s of %v", s.Title, asked)
		}
	}
}

// TestACircuitIsPrintedWhole: its diagram, and the rows of its wires.
func TestACircuitIsPrintedWhole(t *testing.T) {
	h, r := worked.Named(t, "kestrel")
	p, err := layout.Plan(h, r, layout.Options{For: layout.Bench, Sheets: []string{"26"}})
	require.NoError(t, err)
	anchors := map[string]bool{}
	for _, s := range p.Sheets {
		for _, m := range s.Marks {
			if a, ok := m.(sheet.Anchor); ok {
				anchors[a.Name] = true
			}
		}
	}
	for _, c := range h.Circuits {
		if c.Number == "26" {
			require.True(t, anchors["circuit/"+c.Key])
			for _, w := range c.Wires {
				require.True(t, anchors["wire/"+h.Wires[w].Name], h.Wires[w].Name)
			}
		}
	}
}

func TestAWrongChoiceIsSaid(t *testing.T) {
	h, r := worked.Named(t, "first")
	_, err := layout.Plan(h, r, layout.Options{For: layout.Archive, Sheets: []string{"ground"}})
	require.ErrorContains(t, err, `no sheets "ground": name a circuit by its number, or some of cover, feeds, guide, `)
	require.True(t, strings.HasSuffix(err.Error(), `; did you mean "grounds"?`), err)
	_, err = layout.Plan(h, r, layout.Options{For: layout.Customer, Sheets: []string{"shopping"}})
	require.ErrorContains(t, err, "this packet has none of these sheets")
}
