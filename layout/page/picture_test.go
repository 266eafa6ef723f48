package page

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// shot is a part with a photograph of so many pixels.
func shot(wide, high int) *harness.Part {
	return &harness.Part{Ref: "K1", Place: harness.None, Picture: &harness.Picture{Form: sheet.PNG, Data: []byte("x"), Wide: wide, High: high}}
}

// TestPhotographsKeepTheirShape within their bounds; without a picture there is none.
func TestPhotographsKeepTheirShape(t *testing.T) {
	a := Of(&harness.Harness{}, &result.Result{}, "A4", Archive)
	for _, c := range []struct {
		wide, high int
		w, h       float64
	}{{400, 300, 88.0 / 3, 22}, {300, 400, 16.5, 22}, {900, 300, 36, 12}} {
		f := a.PhotoOf(shot(c.wide, c.high))
		require.InDelta(t, c.w, f.W, 1e-9)
		require.InDelta(t, c.h, f.H, 1e-9)
		require.True(t, f.There())
	}
	none := a.PhotoOf(&harness.Part{Place: harness.None})
	require.False(t, none.There())
	require.Nil(t, none.Drawing())
	require.Zero(t, none.More())
	require.Equal(t, Beside{Photo: none, Wide: 80, High: 30}, none.Beside(80, 40, func(float64) float64 { return 30 }))
}

// TestPhotographsStandWhereItIsLower: at the right of what they show, or under it.
func TestPhotographsStandWhereItIsLower(t *testing.T) {
	f := Of(&harness.Harness{}, &result.Result{}, "A4", Archive).PhotoOf(shot(300, 300))
	area := sheet.Rect{X: 10, Y: 20, W: 80}
	for _, c := range []struct {
		narrow, least float64 // height beside the photograph; least width there
		high          float64
		at            sheet.Point
	}{{40, 50, 40, sheet.Point{X: 68, Y: 20}}, {15, 50, 22, sheet.Point{X: 68, Y: 20}}, {56, 50, 55, sheet.Point{X: 10, Y: 53}}, {40, 60, 55, sheet.Point{X: 10, Y: 53}}} {
		b := f.Beside(area.W, c.least, func(w float64) float64 {
			if w < area.W {
				return c.narrow
			}
			return 30
		})
		require.InDelta(t, c.high, b.High, 1e-9)
		var canvas sheet.Canvas
		b.Draw(&canvas, area)
		x, ok := canvas.Marks[0].(sheet.Picture)
		require.True(t, ok)
		require.Equal(t, c.at, sheet.Point{X: x.X, Y: x.Y})
	}
}
