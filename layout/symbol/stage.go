package symbol

import (
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness/kind"
)

// Stage is fuses of a panel behind one feed: the feed's tab at the left, a bar, and a
// row for each position with its fuse (Use.Says) on the way to its tab at the right.
func Stage(feed Use, positions []Use, caption []Line, form Form) Tile {
	const bar, fuse = 4.6, 11.2 // x of the bar and of the fuses' middle
	l, endL := stack([]Use{feed}, row, form.Pitch)
	r, endR := stack(positions, row, form.Pitch)
	words := 0.0
	for _, u := range positions {
		words = math.Max(words, typeface.Width(u.Says, sheet.Regular, text))
	}
	shift := tabWidth(feed.Name)/2 - tab/2
	c := &canvas{w: shift + fuse + half + words + 4 + widestTab(positions)/2, h: math.Max(endL, endR) + row + under([]Use{feed}, positions)}
	c.edge(kind.Protects, 0, 0, c.w, c.h)
	c.line(0, row, shift+bar, row)
	for _, row := range r {
		y := row.rows[0]
		c.line(shift+bar, y, shift+fuse-half, y)
		c.glyph(positionOne, shift+fuse, y)
		c.line(shift+fuse+half, y, c.w, y)
		c.Text(shift+fuse+half+1, y-1.1, row.use.Says, sheet.Plain(text))
	}
	if last := r[len(r)-1].rows[0]; last > row {
		c.Line(shift+bar, row, shift+bar, last, sheet.Rounded(bold))
		c.dot(shift+bar, row, 0.9)
	}
	c.tabs(l, West)
	c.tabs(r, East)
	return c.done(caption, form.Words())
}

// Post is a terminal at which wires arrive and leave while the rest of its part plays no
// role here: its tab between them.
func Post(u Use, caption []Line, form Form) Tile {
	wide := tabWidth(u.Name)
	in, endIn := stack([]Use{{Terminal: u.Terminal, In: u.In}}, 5, form.Pitch)
	out, endOut := stack([]Use{{Terminal: u.Terminal, Out: u.Out}}, 5, form.Pitch)
	end := math.Max(endIn, endOut)
	c := &canvas{w: wide + 4, h: end + 3 + voltsLeads*float64(len(u.Volts)) + 0.5}
	for _, y := range in[0].rows[:u.In] {
		c.Line(0, y, 2, y, sheet.Solid(0.7))
	}
	for _, y := range out[0].rows[:u.Out] {
		c.Line(2+wide, y, 4+wide, y, sheet.Solid(0.7))
	}
	c.tab(2+wide/2, (5+end)/2, tab+end-5, u.Name, true)
	c.volts(2+wide/2, end+tab/2, u.Volts)
	c.out = 0
	c.pinsAt(in, West)
	c.pinsAt(out, East)
	return c.done(caption, form.jointWords())
}
