package colour

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
)

// Brown and red, blue and violet are the pairs that the trade mixes up; to
// protan or deutan eyes most of all (measured with Machado's matrices).
func TestConfusionsInWords(t *testing.T) {
	h := &harness.Harness{}
	found := Confusions(h, []string{"BK", "BN", "RD", "BU", "VT", "WH"})
	require.NotEmpty(t, found)
	pairs := map[string]Sight{}
	last := 0.0
	for _, c := range found {
		pairs[c.A+" "+c.B] = c.Sight
		require.GreaterOrEqual(t, c.Distance, last, "the nearest first")
		require.Less(t, c.Distance, 12.0)
		last = c.Distance
	}
	require.Contains(t, pairs, "BN RD")
	require.Contains(t, pairs, "BU VT")
	require.Contains(t, []Sight{RedWeak, GreenWeak}, pairs["BU VT"])
	require.NotContains(t, pairs, "BK WH")
}

// Two given colours that come near each other in one run are told, with the sight
// in which they do and what to do; two that are clear apart are not. The bands of words, 12 and 20, are our own
// choice, no source.
func TestNearWiresAreTold(t *testing.T) {
	near := func(second string) []Near {
		b := build("A relay\nB relay\nC relay\nD relay", "1A A.1 B.1 1 0 =BN\n2A C.1 D.1 1 0 ="+second)
		_, report, _ := b.assign()
		return report.Runs[0].Near
	}
	found := near("RD")
	require.Len(t, found, 1)
	require.Equal(t, "go by the number sleeve", found[0].Words)
	require.Contains(t, []Sight{RedWeak, GreenWeak}, found[0].Sight)
	require.Less(t, found[0].Distance, 12.0)
	require.Empty(t, near("WH"))
	require.Equal(t, "clear", Standing(20))
	require.Equal(t, "check in good light", Standing(12))
	require.Equal(t, "go by the number sleeve", Standing(11.9))
}
