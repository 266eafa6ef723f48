package cutlist

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
)

// TestEveryPairBelowGoodLightIsNamed: in the list or, of one colour, in the sentence, each once.
func TestEveryPairBelowGoodLightIsNamed(t *testing.T) {
	for name, a := range toy.Samples(t) {
		said, rows := toy.Plain(alike(a)), map[pair]int{}
		for _, r := range nearTable(a).Rows {
			if len(r.Cells) == 7 {
				rows[pair{wireCalled(a, r.Cells[0].S), wireCalled(a, r.Cells[2].S)}]++
			}
		}
		for _, s := range slices.Concat(a.R.Tracing.Parts, a.R.Tracing.Runs) {
			for _, n := range s.Near {
				switch p := (pair{n.A, n.B}); {
				case a.Pair(n.A) == a.Pair(n.B):
					require.Contains(t, said, a.H.Wires[n.A].Name+" and "+a.H.Wires[n.B].Name, name)
					require.Zero(t, rows[p], name)
				case n.Distance < sleeved:
					require.Equal(t, 1, rows[p], "%s: %s and %s", name, a.H.Wires[n.A].Name, a.H.Wires[n.B].Name)
				}
			}
		}
	}
}

func wireCalled(a page.Ask, name string) harness.WireID {
	for i := range a.H.Wires {
		if a.H.Wires[i].Name == toy.Plain(name) {
			return harness.WireID(i)
		}
	}
	return harness.None
}

// What colours promise stands in one place: on the list where there is one, else with the wires.
func TestThePromiseStandsOnce(t *testing.T) {
	for name, a := range toy.Samples(t) {
		require.NotEmpty(t, promise(a), name)
		require.Equal(t, len(Tracing(a)) == 0, tracingRule(a) != "", name)
	}
	a := toy.Samples(t)["camper"]
	require.Regexp(t, `^Where wires of two colours meet, these are at least \d+\.\d apart(, of \d+\.\d possible at best)?; those that are settled by rule or by a cable, 5\.0: check in good light\.$`, promise(a))
}

func TestWhatTellsWiresApart(t *testing.T) {
	plain, striped := colour.Pair{Base: "BN"}, colour.Pair{Base: "BN", Tracer: "WH"}
	for want, p := range map[string][2]colour.Pair{
		"no stripe or white stripe":                 {plain, striped},
		"brown or red":                              {plain, {Base: "RD"}},
		"brown, white stripe, or red, black stripe": {striped, {Base: "RD", Tracer: "BK"}},
	} {
		require.Equal(t, want, tellsApart(p[0], p[1]))
	}
}
