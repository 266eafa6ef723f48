package unit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// 1 lbf·ft is 1.35582 N·m (NIST SP 811, appendix B).
func TestTorque(t *testing.T) {
	for _, c := range []struct {
		nm          float64
		imperial    bool
		value, name string
	}{
		{10, false, "10", "N·m"}, {2.5, false, "2.5", "N·m"}, {10, true, "7.4", "lbf·ft"}, {1.3558, true, "1", "lbf·ft"},
	} {
		value, name := Torque(c.nm, c.imperial)
		require.Equal(t, []string{c.value, c.name}, []string{value, name})
	}
}
