package power_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/harness"
)

// TestFirstPowerGrows: from each battery everything off comes first, then what hangs on the
// fuses, behind a lamp, a small fuse, direct, each by its amps; cranking is last, and never
// behind a lamp.
func TestFirstPowerGrows(t *testing.T) {
	order := []string{"lamp 21 W", "fuse 3 A", "direct"}
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		for i, x := range r.Proof.Power {
			require.Contains(t, order, x.Through)
			cranks := x.State != harness.None && h.States[x.State].Engine == harness.EngineCranking
			require.Truef(t, !cranks || x.Through == "direct", "%s: %s", s.Name, x.Do)
			if i == 0 || r.Proof.Power[i-1].Battery != x.Battery {
				require.Equalf(t, harness.None, x.State, "%s: %s begins", s.Name, x.Do)
				continue
			}
			before := r.Proof.Power[i-1]
			if before.State == harness.None || x.State == harness.None {
				require.Equalf(t, harness.None, before.State, "%s: %s after a load", s.Name, x.Do)
				continue
			}
			a, b := slices.Index(order, before.Through), slices.Index(order, x.Through)
			require.Truef(t, a < b || a == b && (before.Amps <= x.Amps || cranks), "%s: %s before %s", s.Name, before.Do, x.Do)
		}
	}
}
