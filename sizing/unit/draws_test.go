package unit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestParseDraws(t *testing.T) {
	for text, want := range map[string][]Draw{
		"60/55 W":           {{Watts: 60}, {Watts: 55}},
		"21 / 5W":           {{Watts: 21}, {Watts: 5}},
		"4/8 A":             {{Amps: 4}, {Amps: 8}},
		"2 A / 250 mA":      {{Amps: 2}, {Amps: 0.25}},
		"21/5 W @ 13.5 V":   {{Watts: 21, At: 13.5}, {Watts: 5, At: 13.5}},
		"75 W":              {{Watts: 75}},
		"1 A at 12 V":       {{Amps: 1, At: 12}},
		"60 W/55 W at 13 V": {{Watts: 60, At: 13}, {Watts: 55, At: 13}},
	} {
		got, err := ParseDraws(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "60/55", "/55 W", "60/ W", "60//55 W", "60/55 V", "60/55 W @", "60/55 W @ 13", "-60/55 W", "H4 60/55 W"} {
		_, err := ParseDraws(text)
		require.Error(t, err, text)
	}
}

func FuzzParseDraws(f *testing.F) {
	for _, text := range []string{"60/55 W", "2 A / 250 mA", "21/5 W @ 13.5 V", "///", "1/1/1 A at 12 V", "60/@5"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		draws, err := ParseDraws(text)
		if err == nil {
			require.NotEmpty(t, draws)
			for _, d := range draws {
				require.False(t, d.Amps < 0 || d.Watts < 0 || d.At < 0)
			}
		}
	})
}
