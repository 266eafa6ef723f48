package caution

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

// vehicles are all kinds that the cautions tell apart.
func vehicles() map[string]*harness.Harness {
	out := map[string]*harness.Harness{}
	for _, positive := range []bool{false, true} {
		for _, wired := range []bool{false, true} {
			for batteries := range 3 {
				h := &harness.Harness{System: harness.System{PositiveEarth: positive, WiredReturn: wired}}
				for range batteries {
					h.Parts = append(h.Parts, harness.Part{Kind: harness.Battery})
				}
				out[fmt.Sprintf("positive ground %v, wired %v, %d batteries", positive, wired, batteries)] = h
			}
		}
	}
	return out
}

// TestWhatAlwaysHolds: what is in every full text, and in every short one.
func TestWhatAlwaysHolds(t *testing.T) {
	for at, h := range vehicles() {
		full := strings.Join(Full(h), "\n")
		for _, words := range []string{"fuse close to the battery", "cranking cable", "Airbag", "pretensioner", "60 V DC and above", "mains", "fuel pump", "Lamps, signals and brakes",
			"legal requirements override this packet", "makers", "codes", "qualified, licensed person"} {
			require.Contains(t, full, words, at)
		}
		require.NotContains(t, full, "bodywork", at)
		for i, s := range Short(h) {
			for _, words := range []string{"irbag", "60 V", "mains", "override", "licensed person"} {
				require.Contains(t, strings.ReplaceAll(s, "overrides", "override"), words, at)
			}
			require.True(t, i == 0 || len(s) < len(Short(h)[i-1]), "the longest comes first")
		}
	}
}

// TestLeadsAreThoseOfTheVehicle: which lead comes off first, and what it is called.
func TestLeadsAreThoseOfTheVehicle(t *testing.T) {
	for at, h := range vehicles() {
		first, live, joined := "negative", "positive", "grounded"
		if h.System.PositiveEarth {
			first, live = live, first
		}
		if h.System.WiredReturn {
			joined = "return"
		}
		full := Full(h)
		require.Contains(t, full[0], fmt.Sprintf("take the %s (%s) lead off first", first, joined), at)
		require.Contains(t, full[1], fmt.Sprintf("Every live (%s) lead", live), at)
		require.Equal(t, h.System.PositiveEarth, strings.Contains(full[0], "POSITIVE GROUND (positive earth)"), at)
		require.Equal(t, len(h.Parts) > 1, strings.Contains(full[0], "every battery"), at)
		for _, s := range Short(h)[:3] {
			require.Contains(t, s, fmt.Sprintf("%s (%s) lead", first, joined), at)
		}
	}
}

// TestOneFitsEachMargin: of A4 and letter, upright the first, lying the second.
func TestOneFitsEachMargin(t *testing.T) {
	for at, h := range vehicles() {
		s := Short(h)
		require.LessOrEqual(t, typeface.Width(s[0], sheet.Regular, sheet.SizeNote), 279.4-20, at)
		require.LessOrEqual(t, typeface.Width(s[1], sheet.Regular, sheet.SizeNote), 210.0-20, at)
	}
}
