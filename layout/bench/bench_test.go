package bench

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/harness"
)

func TestSidesOfASplice(t *testing.T) {
	a := toy.Fan()
	got := sides(a, a.R.Splices[0])
	require.Equal(t, []side{
		{"engine bay", []harness.WireID{3, 4}}, {"under the dash", []harness.WireID{5}},
	}, got)
	a.R.Ways[5].Places = nil // to another splice further along the run
	a.H.Parts[4].Along = &harness.Along{Run: 1, Distance: 800}
	require.Equal(t, "under the dash", toward(a, 3, 5))
	a.H.Parts[4].Along.Distance = 100
	require.Equal(t, "engine bay", toward(a, 3, 5))
}

func TestCircularMils(t *testing.T) {
	require.Equal(t, "10380\u00a0circular mils", circularMils(5.261)) // ASTM B258, 10 AWG: 10 380 circular mils
}
