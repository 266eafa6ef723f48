package power

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/fit/fitted"
)

// What lasts and what lasts for seconds are told apart, each with its state.
func TestCarriesWords(t *testing.T) {
	for _, c := range []struct {
		g    fitted.Ground
		want string
	}{
		{fitted.Ground{}, "no current in any state"},
		{fitted.Ground{Amps: 9, State: "by day"}, "9\u00a0A (by day)"},
		{fitted.Ground{Amps: 60, State: "loads no state turns on"}, "60\u00a0A (loads no state turns on)"},
		{fitted.Ground{Amps: 75, State: "driving, battery flat", Crank: 180, CrankIn: "cranking"}, "75\u00a0A (driving, battery flat), for seconds 180\u00a0A (cranking)"},
		{fitted.Ground{Crank: 180, CrankIn: "cranking"}, "0\u00a0A, for seconds 180\u00a0A (cranking)"},
	} {
		require.Equal(t, c.want, carriesWords(c.g))
	}
}

// The worst offset with its state, then the worst that lasts where the first is while cranking; as a meter shows them.
func TestOffsetWords(t *testing.T) {
	for _, c := range []struct {
		g    fitted.Ground
		want string
	}{
		{fitted.Ground{}, "0.0\u00a0mV"},
		{fitted.Ground{Lift: 0.0054, LiftIn: "by day"}, "5.4\u00a0mV (by day)"},
		{fitted.Ground{Lift: 0.2371, LiftIn: "cranking", Steady: 0.0549, SteadyIn: "by night"}, "237\u00a0mV (cranking), 55\u00a0mV (by night)"},
	} {
		require.Equal(t, c.want, offsetWords(c.g))
	}
}
