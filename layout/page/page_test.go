package page

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/rating"
)

// TestEveryFuseColourHasAShade: each colour that the tables know can be drawn, and
// its rating reads on it (WCAG 2.1, 1.4.3: 4.5 to 1).
func TestEveryFuseColourHasAShade(t *testing.T) {
	for _, body := range []string{"mini", "blade", "maxi", "bolt", "glass"} {
		series := rating.FuseSeries(body)
		require.NotEmpty(t, series, body)
		for _, f := range series {
			shade, ok := FuseShade(f.Colour)
			require.Equal(t, f.Colour != "", ok, "%s %v %q", body, f.Rating, f.Colour)
			require.GreaterOrEqual(t, Contrast(shade, OnFill(shade)), 4.5, f.Colour)
		}
	}
	for _, name := range []string{"light brown / tan", "blue (light blue)", "green (light green)", "blue-green"} { // as published lists word them
		_, ok := FuseShade(name)
		require.True(t, ok, name)
	}
}

// TestContrast checks WCAG's own ends of the scale.
func TestContrast(t *testing.T) {
	require.InDelta(t, 21, Contrast(sheet.Colour{}, sheet.White), 1e-9)
	require.InDelta(t, 1, Contrast(sheet.Grey, sheet.Grey), 1e-9)
}

// TestFusesStayInTheirArea whatever the body and however long the rating.
func TestFusesStayInTheirArea(t *testing.T) {
	area := sheet.Rect{X: 10, Y: 20, W: 22, H: 14}
	for _, f := range []Fuse{{}, {Body: "mini"}, {Body: "maxi"}, {Body: "bolt"}, {Body: "glass"}, {Breaker: true}} {
		f.Rating = "12.5 A"
		var c sheet.Canvas
		f.Draw(&c, area)
		require.True(t, area.Inset(-0.5).Holds(typeface.BoundsAll(c.Marks)), "%+v: %v", f, typeface.BoundsAll(c.Marks))
	}
}

func TestSwatchShowsBaseAndTracer(t *testing.T) {
	fills := func(p colour.Pair) map[sheet.Colour]int {
		var c sheet.Canvas
		Swatch(&c, sheet.Rect{W: 13, H: 3.2}, p)
		n := map[sheet.Colour]int{}
		for _, m := range c.Marks {
			if path := m.(sheet.Path); path.Fill != nil {
				n[*path.Fill]++
			}
		}
		return n
	}
	require.Equal(t, map[sheet.Colour]int{Shade("OG"): 1, Shade("BK"): 3}, fills(colour.Pair{Base: "OG", Tracer: "BK"}))
	require.Equal(t, map[sheet.Colour]int{Shade("GY"): 1}, fills(colour.Pair{Base: "GY"}))
}

func TestFigures(t *testing.T) {
	for want, x := range map[string]float64{"0.05": 0.05, "9.99": 9.99, "12.3": 12.34, "105": 105.2, "−0.50": -0.5} {
		require.Equal(t, want, Amps(x))
	}
	require.Equal(t, "0.00", Figure(-0.001, 2))
	require.Equal(t, "1 wire, 2 wires", Counted(1, "wire")+", "+Counted(2, "wire"))
	require.Equal(t, "a, b and c", And([]string{"a", "b", "c"}))
}

func TestLineWeight(t *testing.T) {
	for area, want := range map[float64]float64{0.5: ThinLine, 1: ThinLine, 2.5: MediumLine, 4: MediumLine, 6: HeavyLine} {
		require.Equal(t, want, LineWeight(area))
	}
}
