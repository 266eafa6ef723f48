package describe

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestHowThingsAreSold(t *testing.T) {
	d, ps := Parse("x", []byte(minimal+`practice:
  labels: {as: flag, length: 1 5/8 in}
  packs: {terminals: 25, shrink: 4 ft}
  prices: {currency: EUR, wire: {0.5 mm2: 0.35}, fuses: 0.40, "relay, 12 V, make contact": 6.50}
`))
	require.Empty(t, ps)
	p := d.Practice
	require.Equal(t, "flag", p.Labels.As.Text)
	require.InDelta(t, 41.275, float64(p.Labels.Length.V), 1e-9)
	require.Equal(t, 25, p.Packs[0].Size.V.Pieces)
	require.InDelta(t, 1219.2, float64(p.Packs[1].Size.V.Length), 1e-9)
	require.Equal(t, "EUR", p.Currency.Text)
	require.Len(t, p.Prices, 3)
	require.Equal(t, "0.5", p.Prices[0].Gauge.V.Size)
	require.Equal(t, "relay, 12 V, make contact", p.Prices[2].Item.Text)
	require.InDelta(t, 6.5, p.Prices[2].Each.V, 0)
}

func TestWrongPacksAndPrices(t *testing.T) {
	for text, slug := range map[string]string{
		"packs: {terminals: 1.2 m}": "bad-count", "packs: {ties: 0}": "bad-count", "packs: {tyes: 10}": "unknown-word",
		"packs: {shrink: 10}": "bad-quantity", "prices: {fuses: cheap}": "bad-quantity", "prices: {fuses: -1}": "bad-quantity",
		"labels: {as: stamp}": "unknown-word", "labels: {colour: RD}": "unknown-key",
	} {
		_, ps := Parse("x", []byte(minimal+"practice:\n  "+text+"\n"))
		require.NotEmpty(t, ps, text)
		require.Equal(t, slug, ps[0].Slug, text)
	}
}
