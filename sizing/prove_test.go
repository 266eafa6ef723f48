package sizing_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/rating"
)

// TestProofNamesItsSources: whoever proves a vehicle names what its weights, limits, minutes and
// instruments rest on; what charges only where something does. Sizing alone names none of it.
func TestProofNamesItsSources(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		sized, err := sizing.Size(h, nil)
		require.NoError(t, err)
		has := func(key string, list []rating.Source) bool {
			return slices.ContainsFunc(list, func(x rating.Source) bool { return x.Key == key })
		}
		for _, key := range []string{"mil-217f", "mil-338b", "fault-judgement", "tolerance-practice", "contact-aged", "reach-practice", "meter-manuals", "filament-law"} {
			require.True(t, has(key, r.Sources), "%s: %s", s.Name, key)
			require.False(t, has(key, sized.Sources), "%s: %s", s.Name, key)
		}
		require.Equal(t, s.Name != "first", has("charge-set-point", r.Sources), s.Name)
		for _, x := range sized.Sources {
			require.True(t, has(x.Key, r.Sources), "%s: %s", s.Name, x.Key)
		}
	}
}
