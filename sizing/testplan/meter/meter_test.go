package meter_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/testplan/meter"
)

// TestInstruments: worked values of what cheap instruments tell. Errors by the manuals of
// cheap 3 1/2-digit meters (0.8 % + 5 and 1 % + 3 read, 0.5 % + 2 common practice), input
// and burden by makers' notes; lamps by the filament law I ~ V^0.55, light ~ V^3.4 (from
// memory).
func TestInstruments(t *testing.T) {
	test, brake, head, side := meter.Lamp{Watts: 3, Volts: 12}, meter.Lamp{Watts: 21, Volts: 12}, meter.Lamp{Watts: 55, Volts: 12}, meter.Lamp{Watts: 5, Volts: 12}
	behind := func(l meter.Lamp, ohms float64) float64 { return 100 * l.Light(l.Behind(12.6, ohms)) }
	for _, c := range []struct {
		what              string
		got, want, within float64
	}{
		{"12.60 V on the 20 V range, 0.5 % + 2", meter.Range{Part: 0.005, Digits: 2, Digit: 0.01}.Error(12.6), 0.083, 0.0005},
		{"12.60 V on the 20 V range, 0.8 % + 5", meter.Volts20.Error(12.6), 0.151, 0.0005},
		{"12.60 V on the 20 V range, 1 % + 3", meter.Range{Part: 0.01, Digits: 3, Digit: 0.01}.Error(12.6), 0.156, 0.0005},
		{"a drop of 0.20 V on the 2 V range, 0.5 % + 2", meter.Range{Part: 0.005, Digits: 2, Digit: 0.001}.Error(0.2), 0.003, 0.0005},
		{"a drop of 0.20 V on the 2 V range, 0.8 % + 5", meter.Volts2.Error(0.2), 0.007, 0.0005},
		{"the same as two readings to ground", meter.Range{Part: 0.005, Digits: 2, Digit: 0.01}.Difference(12.6, 12.4), 0.041, 0.0005},
		{"1 MΩ leak to 12.6 V, 10 MΩ meter", meter.Ghost(12.6, 1e6, 10e6), 11.45, 0.01},
		{"1 MΩ leak, 1 MΩ meter", meter.Ghost(12.6, 1e6, 1e6), 6.3, 0.01},
		{"10 MΩ leak, 10 MΩ meter", meter.Ghost(12.6, 10e6, 10e6), 6.3, 0.01},
		{"10 MΩ leak, 1 MΩ meter", meter.Ghost(12.6, 10e6, 1e6), 1.15, 0.01},
		{"3 W lamp, good joint, % light", behind(test, 0), 118, 0.5},
		{"3 W lamp behind 1 Ω", behind(test, 1), 110, 0.5},
		{"3 W lamp behind 2 Ω", behind(test, 2), 103, 0.5},
		{"3 W lamp behind 5 Ω", behind(test, 5), 84, 0.5},
		{"3 W lamp behind 10 Ω", behind(test, 10), 60, 0.5},
		{"3 W lamp behind 20 Ω", behind(test, 20), 31, 0.5},
		{"3 W lamp behind 50 Ω", behind(test, 50), 5, 0.5},
		{"55 W lamp behind 1 Ω, V", head.Behind(12.6, 1), 8.75, 0.01},
		{"55 W lamp behind 1 Ω, % light", behind(head, 1), 34, 0.5},
		{"55 W lamp behind 0.1 Ω", behind(head, 0.1), 104, 0.5},
		{"21 W lamp behind 1 Ω, V", brake.Behind(12.6, 1), 10.9, 0.05},
		{"21 W lamp behind 1 Ω, % light", behind(brake, 1), 73, 0.5},
		{"21 W lamp behind 0.5 Ω", behind(brake, 0.5), 93, 0.5},
		{"21 W lamp behind 2 Ω", behind(brake, 2), 45, 0.5},
		{"21 W lamp in the lead at 0.25 A, V", brake.At(0.25), 0.35, 0.005},
		{"at 0.5 A", brake.At(0.5), 1.2, 0.05},
		{"at 1 A", brake.At(1), 4.3, 0.05},
		{"at 1 A, % light", 100 * brake.Light(brake.At(1)), 3, 0.5},
		{"most that it passes, A", brake.Amps(12.6), 1.8, 0.01},
		{"5 W lamp in the lead at 0.25 A, V", side.At(0.25), 4.7, 0.05},
		{"5 W lamp at 0.25 A, % light", 100 * side.Light(side.At(0.25)), 4, 0.5},
	} {
		require.InDelta(t, c.want, c.got, c.within, c.what)
	}
	require.Less(t, brake.Behind(12.6, 30), 1.0, "where a beeper still sounds, a 21 W lamp gets under 1 V")
}
