package describe

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestHowItIsBought(t *testing.T) {
	d, ps := Parse("x", []byte(minimal+`practice:
  buy: {for: numbers, sizes: 6, reels: 30, pairs: 0, run-pairs: 15, copper: 4 oz}
  tell-apart: {panels: all, runs: colour, branchings: true}
  tools: [red-blue-yellow, lugs]
  minutes: {crimp: 0.7, lug: 4 min, marker: 0}
`))
	require.Empty(t, ps)
	p := d.Practice
	require.Equal(t, "numbers", p.Buy.For.Text)
	require.Equal(t, [4]int{6, 30, 0, 15}, [4]int{p.Buy.Sizes.V, p.Buy.Reels.V, p.Buy.Pairs.V, p.Buy.RunPairs.V})
	require.True(t, p.Buy.Pairs.Given(), "none is said")
	require.InDelta(t, 113.398, float64(p.Buy.Copper.V), 1e-3)
	require.True(t, p.Apart.Panels.Given() && p.Apart.Panels.V == 0 && p.Apart.Branchings.V)
	require.Equal(t, "colour", p.Apart.Runs.Text)
	require.Equal(t, "red-blue-yellow lugs", texts(p.Tools))
	require.Equal(t, [3]float64{0.7, 4, 0}, [3]float64{p.Minutes[0].Each.V, p.Minutes[1].Each.V, p.Minutes[2].Each.V})

	d, ps = Parse("x", []byte(minimal+"practice: {buy: clear}\n"))
	require.Empty(t, ps)
	require.Equal(t, "clear", d.Practice.Buy.For.Text)
	require.False(t, d.Practice.Apart.Panels.Given())
}

func TestWrongBuying(t *testing.T) {
	for text, slug := range map[string]string{
		"buy: fewer": "unknown-word", "buy: [few]": "wrong-shape", "buy: {for: numbers, for: few}": "duplicate-key", "buy: {size: 6}": "unknown-key",
		"buy: {sizes: 0}": "bad-count", "buy: {sizes: 2.5}": "bad-count", "buy: {sizes: six}": "bad-count", "buy: {reels: -1}": "bad-count",
		"buy: {pairs: -1}": "bad-count", "buy: {run-pairs: 1e3}": "bad-count", "buy: {copper: 100}": "bad-quantity", "buy: {copper: -5 g}": "bad-quantity",
		"tell-apart: {panels: none}": "bad-count", "tell-apart: {runs: numbers}": "unknown-word", "tell-apart: {branchings: yes}": "bad-flag",
		"tools: lugs": "wrong-shape", "tools: [lugs, lugs]": "duplicate-name", "minutes: {crimp: NaN}": "bad-quantity", "minutes: {crimp: -0.5}": "bad-quantity",
		"minutes: {crimp: Inf}": "bad-quantity", "minutes: {crimp: 2000}": "bad-quantity", "minutes: {crimp: -0}": "bad-quantity",
		"minutes: {crimp: 1, crimp: 2}": "duplicate-key", "minutes: [crimp]": "wrong-shape",
	} {
		_, ps := Parse("x", []byte(minimal+"practice:\n  "+text+"\n"))
		require.NotEmpty(t, ps, text)
		require.Equal(t, slug, ps[0].Slug, text)
	}
}
