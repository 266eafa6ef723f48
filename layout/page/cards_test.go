package page

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
)

// TestCards: none is lost or parted, they keep their order, and few stand side by side.
func TestCards(t *testing.T) {
	f, err := frame.Of("A4", false)
	require.NoError(t, err)
	for _, n := range []int{1, 2, 3, 7, 40} {
		b := Open(f, "Cards", "sheet/cards", "")
		top := b.Room.Y
		var at []sheet.Rect
		var cards []Card
		for i := range n {
			cards = append(cards, Card{High: 20 + float64(i%3)*10, Draw: func(_ *sheet.Canvas, area sheet.Rect) { at = append(at, area) }})
		}
		b.Cards(2, 3, 3, cards)
		require.Len(t, at, n)
		for i, r := range at {
			require.True(t, f.Body.Holds(r), "card %d of %d", i, n)
			for _, other := range at[:i] {
				sameSheet := n < 10
				require.False(t, sameSheet && r.Meets(other), "cards of %d on one another", n)
			}
		}
		if n == 3 {
			require.InDelta(t, top, at[2].Y, 0.01, "the third begins the second column")
		}
	}
}

func TestAbreast(t *testing.T) {
	require.Equal(t, 2, Abreast(172, 80, 4))
	require.Equal(t, 1, Abreast(100, 80, 4))
	require.Equal(t, 3, Abreast(260, 80, 4))
}
