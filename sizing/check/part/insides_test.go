package part

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness/kind"
)

func TestEveryInsideIsBuilt(t *testing.T) {
	known := map[kind.Inside]bool{}
	for _, k := range kind.All() {
		require.True(t, k.Inside == kind.Own || insides[k.Inside] != nil, "nothing builds what is inside a %s", k.Kind)
		known[k.Inside] = true
	}
	for in := range insides {
		require.True(t, known[in], "no kind has %s inside", in)
	}
}
