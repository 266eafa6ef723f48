package faces

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/harness"
)

// TestNoFactOfAConnectorIsLost: every cavity with its wires, their colours, sizes and far ends.
func TestNoFactOfAConnectorIsLost(t *testing.T) {
	for name, a := range toy.Samples(t) {
		said := toy.Under(ConnectorFaces(a), "connector/")
		for _, p := range plugged(a) {
			t.Run(name+" "+p.Ref, func(t *testing.T) {
				words := toy.Joined(said[p.Ref])
				sides := []string{inHalf, outHalf}
				if p.Kind != harness.Connector {
					sides = []string{""}
				}
				for _, side := range sides {
					for _, c := range half(a, p, side) {
						checkCavity(t, a, p, c, words)
					}
				}
				require.Contains(t, words, a.Plain(p))
				require.Equal(t, p.Sealed, strings.Contains(words, "sealed"))
			})
		}
	}
}

func checkCavity(t *testing.T, a page.Ask, p *harness.Part, c cavity, words string) {
	t.Helper()
	require.Regexp(t, `(^| )`+regexp.QuoteMeta(c.name)+`( |$)`, words)
	for _, w := range c.wires {
		name := a.H.Wires[w].Name
		mentions := regexp.MustCompile(`\b`+name+`\b`).FindAllString(words, -1)
		if listed(p) {
			require.Len(t, mentions, 1, name)
		} else {
			require.Len(t, mentions, 2, "%s in its cavity and on the list", name)
		}
		far := page.Opposite(a, w, c.at)
		_, plain := a.Stop(far)
		for _, fact := range []string{a.Pair(w).String(), a.Gauge(w), page.FarStop(a, far), plain} {
			require.Contains(t, toy.Squeezed(words), toy.Squeezed(fact))
		}
	}
}

// TestFewSheets of connectors, one of each kind with its face.
func TestFewSheets(t *testing.T) {
	all := toy.Samples(t)
	require.LessOrEqual(t, len(ConnectorFaces(all["kestrel"])), 3)
	require.LessOrEqual(t, len(ConnectorFaces(all["camper"])), 2)
	require.Contains(t, toy.Words(ConnectorFaces(all["kestrel"])), "Load half, mating side")
}

// TestNothingIsInvented: without a layout no face is drawn, and the list says where the numbers are.
func TestNothingIsInvented(t *testing.T) {
	a := toy.Car(6, 3)
	require.NotContains(t, toy.Words(ConnectorFaces(a)), "wire side")
	require.Contains(t, toy.Words(ConnectorFaces(a)), "numbers on the housing")
	a.H.Parts[4].Rows = [][]string{{"1", "2", "3"}, {"4", "5", "6"}}
	require.Contains(t, toy.Words(ConnectorFaces(a)), "Feed half, wire side")
	require.NotContains(t, toy.Words(ConnectorFaces(a)), "numbers on the housing")
}
