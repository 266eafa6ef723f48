package unit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// back parses what was printed and expects the printed precision to hold.
func back[T interface {
	~float64
	String() string
}](t *testing.T, text string, parse func(string) (T, error)) {
	v, err := parse(text)
	if err != nil {
		require.Zero(t, float64(v), "a refused text gives no value")
		return
	}
	again, err := parse(v.String())
	if v == 0 || math.Abs(float64(v)) < 1e-9 {
		return
	}
	require.NoError(t, err, "%q printed as %q", text, v.String())
	require.InEpsilon(t, float64(v), float64(again), 0.006, "%q printed as %q", text, v.String())
	require.Equal(t, again.String(), v.String())
}

func FuzzScalars(f *testing.F) {
	for _, s := range []string{"20 A", "140 mA", "14.2 V", "5 mohm", "2.0 mm2", "95 °C", "-4 F", "400 ms", "60 Ah", "10 %", "8.81 mohm/m", "1 000 000 ohm", "1,000 A", "０ A", "½ A"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		back(t, text, ParseAmpere)
		back(t, text, ParseVolt)
		back(t, text, ParseOhm)
		back(t, text, ParseArea)
		back(t, text, ParseSecond)
		back(t, text, ParseAmpereHour)
		back(t, text, ParseFraction)
		back(t, text, ParseOhmPerMetre)
		back(t, text, ParseCelsius)
	})
}

func FuzzLength(f *testing.F) {
	for _, s := range []string{"8 ft", `8' 6"`, "6’2½”", "1 1/2 in", "2 785 mm", "1.8m", "8 ft, 6 in", "3/4 in"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		back(t, text, ParseLength)
		v, err := ParseLength(text)
		if err != nil {
			return
		}
		inches, err := ParseLength(LengthText(v, true))
		require.NoError(t, err)
		require.InDelta(t, float64(v), float64(inches), inch/16+1e-6)
		metric, err := ParseLength(LengthText(v, false))
		require.NoError(t, err)
		require.InDelta(t, float64(v), float64(metric), 0.5)
	})
}

func FuzzGauge(f *testing.F) {
	for _, s := range []string{"2.5 mm2", "14 ga", "AWG12", "#12", "00", "1/0", "28/0.30", "4 mm", "14/2", "12 gauge awg"} {
		f.Add(s, 0)
		f.Add(s, 1)
	}
	f.Fuzz(func(t *testing.T, text string, def int) {
		g, err := ParseGauge(text, System(def&1+def>>1&1))
		if err != nil {
			require.False(t, g.Given())
			return
		}
		again, err := ParseGauge(g.String(), g.System)
		require.NoError(t, err)
		require.Equal(t, g, again)
	})
}

func FuzzLoads(f *testing.F) {
	for _, s := range []string{"35 W @ 13.5 V", "20 A", "H4 55/60 W", "55 A for 0.4 s", "85 ohm", "150 mA", "3 %", "0.5 V"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if d, err := ParseDraw(text); err == nil {
			again, err := ParseDraw(d.String())
			require.NoError(t, err, d.String())
			require.Equal(t, d.String(), again.String())
		}
		if s, err := ParseStart(text); err == nil {
			again, err := ParseStart(s.String())
			require.NoError(t, err, s.String())
			require.Equal(t, s.String(), again.String())
		}
		if c, err := ParseCoil(text); err == nil {
			again, err := ParseCoil(c.String())
			require.NoError(t, err, c.String())
			require.Equal(t, c.String(), again.String())
		}
		if l, err := ParseDropLimit(text); err == nil {
			again, err := ParseDropLimit(l.String())
			require.NoError(t, err, l.String())
			require.Equal(t, l.String(), again.String())
		}
	})
}
