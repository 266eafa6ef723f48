package meter

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
)

// page is a body of 100 × 50 mm with two words on one line.
func page() *sheet.Canvas {
	var c sheet.Canvas
	c.Text(10, 20, "fuse", sheet.Plain(sheet.SizeBody))
	c.Text(40, 20, "lamp", sheet.Plain(sheet.SizeBody))
	return &c
}

var area = sheet.Rect{W: 100, H: 50}

func faults(c *sheet.Canvas) []string { return Faults(c.Marks, area, sheet.SizeNote) }

// Each fault is put on a clean page and must be found there, and only it.
func TestEachFaultIsFound(t *testing.T) {
	require.Empty(t, faults(page()))
	for want, spoil := range map[string]func(c *sheet.Canvas){
		`"pump" lies on "lamp"`:          func(c *sheet.Canvas) { c.Text(44, 19, "pump", sheet.Plain(sheet.SizeBody)) },
		`"turned" lies on "fuse"`:        func(c *sheet.Canvas) { s := sheet.Plain(sheet.SizeBody); s.Turn = 90; c.Text(13, 22, "turned", s) },
		`a line runs through "fuse"`:     func(c *sheet.Canvas) { c.Line(0, 19, 30, 19, sheet.Solid(0.5)) },
		`a line runs through "lamp"`:     func(c *sheet.Canvas) { c.Line(38, 0, 46, 40, sheet.Solid(0.5)) },
		`"tiny" is 2.00 mm small`:        func(c *sheet.Canvas) { c.Text(70, 20, "tiny", sheet.Plain(2)) },
		`"lamp" meets the picture "fan"`: func(c *sheet.Canvas) { c.Add(sheet.Picture{X: 38, Y: 10, W: 20, H: 9, Words: "fan"}) },
		`a line meets the picture "horn"`: func(c *sheet.Canvas) {
			c.Add(sheet.Picture{X: 70, Y: 30, W: 10, H: 9, Words: "horn"})
			c.Line(75, 25, 75, 45, sheet.Solid(0.5))
		},
		`the picture "pump" meets the picture "horn"`: func(c *sheet.Canvas) {
			c.Add(sheet.Picture{X: 70, Y: 30, W: 10, H: 9, Words: "horn"}, sheet.Picture{X: 78, Y: 30, W: 10, H: 9, Words: "pump"})
		},
		`a fill meets the picture "horn"`: func(c *sheet.Canvas) {
			c.Add(sheet.Picture{X: 70, Y: 30, W: 10, H: 9, Words: "horn"})
			c.Rect(72, 32, 3, 3, sheet.Filled(sheet.Ink))
		},
		"outside:   picture": func(c *sheet.Canvas) { c.Add(sheet.Picture{X: 70, Y: 30, W: 20, H: 21, Form: sheet.PNG}) },
		"outside: ":          func(c *sheet.Canvas) { c.Line(90, 40, 101, 40, sheet.Solid(0.5)) },
	} {
		c := page()
		spoil(c)
		found := faults(c)
		require.Len(t, found, 1, want)
		require.Contains(t, found[0], want)
	}
}

// TestAFrameIsNoFault: a thin line along a picture's edge, a band under it.
func TestAFrameIsNoFault(t *testing.T) {
	var c sheet.Canvas
	c.Rect(0, 0, 50, 20, sheet.Filled(sheet.Pale))
	c.Add(sheet.Picture{X: 5, Y: 5, W: 10, H: 9})
	c.Rect(5, 5, 10, 9, sheet.Outline(sheet.Solid(sheet.Hair)))
	require.Empty(t, Pictured(c.Marks))
}

// A word in a filled box that lies on a line is no fault; nor is an underline.
func TestWhatIsHiddenIsNoFault(t *testing.T) {
	var c sheet.Canvas
	c.Line(0, 19, 60, 19, sheet.Solid(0.5))
	c.Rect(9, 15, 12, 7, sheet.Both(sheet.Solid(0.2), sheet.White))
	c.Text(10, 20, "fuse", sheet.Plain(sheet.SizeBody))
	c.Line(9, 24, 60, 24, sheet.Solid(0.2))
	require.Empty(t, faults(&c))
	c.Marks = c.Marks[:1:1]
	c.Rect(9, 15, 12, 7, sheet.Outline(sheet.Solid(0.2)))
	c.Text(10, 20, "fuse", sheet.Plain(sheet.SizeBody))
	require.Equal(t, []string{`a line runs through "fuse"`}, faults(&c))
}

// Two lines that cross once, one that only touches, one that runs beside.
func TestCrossings(t *testing.T) {
	level, plumb := Line{{X: 0, Y: 10}, {X: 20, Y: 10}}, Line{{X: 10, Y: 0}, {X: 10, Y: 20}}
	touch := Line{{X: 5, Y: 10}, {X: 5, Y: 30}}
	require.Equal(t, 1, sheet.Crossings([]Line{level, plumb, touch}))
	require.True(t, level.Passes(sheet.Rect{X: 4, Y: 9, W: 2, H: 2}, 0.4))
	require.False(t, level.Passes(sheet.Rect{X: 4, Y: 10.5, W: 2, H: 2}, 0.4))
	require.Equal(t, 1, Line{{}, {X: 4}, {X: 4, Y: 4}}.Bends())
}
