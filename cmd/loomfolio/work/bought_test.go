package work

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// However few sizes are bought, each wire passes the independent bound.
func TestBoughtWiresPassTheBound(t *testing.T) {
	t.Parallel()
	data, err := os.ReadFile("../../../sizing/testdata/buy.txt")
	require.NoError(t, err)
	judged := 0
	for _, section := range strings.Split(string(data), "\n== ")[1:] {
		name, body, _ := strings.Cut(section, "\n")
		w, _, err := worked("loomfolio: 1\ntitle: Bought\n" + body)
		require.NoError(t, err)
		if w != nil {
			judged++
			require.Empty(t, unsafeWires(w), name)
		}
	}
	require.Greater(t, judged, 20)
}
