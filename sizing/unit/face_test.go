package unit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestFaces(t *testing.T) {
	for text, want := range map[string]Face{
		"110 x 70 mm": {110, 70}, "11 cm × 70 mm": {110, 70}, "4 1/2 x 2 3/4 in": {114.3, 69.85}, `4" x 3"`: {101.6, 76.2}, "110x70mm": {110, 70},
	} {
		got, err := ParseFace(text)
		require.NoError(t, err, text)
		require.InDelta(t, float64(want.Wide), float64(got.Wide), 1e-9, text)
		require.InDelta(t, float64(want.High), float64(got.High), 1e-9, text)
	}
	for text, want := range map[string]string{
		"110 mm": "write both with an x between them", "110 x 70": "unit", "11 x 7 mm": "each side is from 30 to 400 mm", "x 70 mm": "", "110 x 7 m": "each side",
	} {
		_, err := ParseFace(text)
		require.ErrorContains(t, err, want, text)
	}
}
