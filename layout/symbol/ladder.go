package symbol

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

// ladderWanted tells whether a part's contacts need the ladder: a switch with
// more than one contact, more than two terminals or positions.
func ladderWanted(h *harness.Harness, part *harness.Part, uses []Use) bool {
	if part.Kind == harness.IgnitionSwitch {
		return true
	}
	return part.Kind == harness.Switch && (len(uses) != 2 || !plainContact(h, part))
}

// plainContact tells whether a switch is one contact that one of its positions closes.
func plainContact(h *harness.Harness, part *harness.Part) bool {
	all := contacts(h, part)
	return len(part.Positions) <= 2 && len(all) == 1 && all[0].When.Kind == harness.InPosition && len(all[0].When.Positions) == 1
}

func restClosed(h *harness.Harness, part *harness.Part) bool {
	for _, e := range contacts(h, part) {
		if e.When.Kind == harness.Always || slices.Contains(e.When.Positions, 0) {
			return true
		}
	}
	return false
}

func contacts(h *harness.Harness, part *harness.Part) []harness.Element {
	return partElements(h, part, harness.Contact, harness.Join)
}

// ladder is a switch of any size: a level line for every terminal, an upright for
// every position with dots on the lines that it joins. The rest position is marked.
func ladder(h *harness.Harness, part *harness.Part, uses []Use, caption []Line, form Form) Tile {
	west, east := split(part, uses)
	rows := rungs(west, east)
	head := headHeight(part.Positions)
	l, r, rowOf, end := placeRungs(rows, ceil(head+3), form)
	const col = 6.5
	pad := widestTab(uses)/2 + 2.5
	c := &canvas{w: 2*pad + col*float64(max(1, len(part.Positions))), h: end + 7.5}
	c.edge(Switches, 0, 0, c.w, c.h)
	for _, g := range rows {
		y := rowOf[g.use.Terminal]
		c.Line(0, y, c.w, y, sheet.Solid(0.18).In(sheet.Rule))
	}
	c.leadIns(l, r, pad)
	for i, name := range part.Positions {
		x := pad + (float64(i)+0.5)*col
		c.positionName(x, head, name)
		c.upright(h, part, i, x, rowOf)
	}
	rest := pad + 0.5*col
	c.solid(rest-1.3, c.h-1.2, rest+1.3, c.h-1.2, rest, c.h-3.4)
	switch {
	case part.Kind == harness.IgnitionSwitch:
		c.carKey(rest+4.6, c.h-3.2)
	case part.Momentary:
		c.springBack(rest, rest+col*float64(len(part.Positions)-1), c.h-2.3)
	}
	c.tabs(l, West)
	c.tabs(r, East)
	return c.done(caption, form.tileWords())
}

// carKey is a key that lies to the right from a place on.
func (c *canvas) carKey(x, y float64) {
	c.ring(x+1.6, y, 1.6)
	c.Line(x+3.2, y, x+9, y, sheet.Rounded(bold))
	c.Line(x+7, y, x+7, y+1.3, sheet.Rounded(bold))
	c.Line(x+8.7, y, x+8.7, y+1.3, sheet.Rounded(bold))
}

// springBack is an arrow along the foot from the last position to the one at rest.
func (c *canvas) springBack(rest, last, y float64) {
	if last <= rest {
		return
	}
	c.path(last, y-1, last, y, rest+3.4, y)
	c.solid(rest+2, y, rest+3.8, y-1.1, rest+3.8, y+1.1)
}

// rung is a terminal's row and its edge.
type rung struct {
	use  Use
	side Side
}

// rungs lists those at the left first.
func rungs(west, east []Use) []rung {
	var out []rung
	for _, u := range west {
		out = append(out, rung{u, West})
	}
	for _, u := range east {
		out = append(out, rung{u, East})
	}
	return out
}

func placeRungs(rows []rung, first float64, form Form) (l, r []landed, rowOf map[harness.TerminalID]float64, end float64) {
	rowOf = map[harness.TerminalID]float64{}
	y := first
	for _, g := range rows {
		var at []landed
		at, y = stack([]Use{g.use}, y, form.Pitch)
		end = y
		y += form.Pitch
		rowOf[g.use.Terminal] = at[0].rows[0]
		if g.side == West {
			l = append(l, at...)
		} else {
			r = append(r, at...)
		}
	}
	return l, r, rowOf, end
}

func (c *canvas) leadIns(l, r []landed, pad float64) {
	for _, t := range l {
		c.line(0, t.rows[0], pad, t.rows[0])
	}
	for _, t := range r {
		c.line(c.w-pad, t.rows[0], c.w, t.rows[0])
	}
}

// headHeight is the room for the positions' names: level when short, else turned.
func headHeight(names []string) float64 {
	if !turned(names) {
		return text + 1.5
	}
	w := 0.0
	for _, n := range names {
		w = math.Max(w, typeface.Width(n, sheet.Regular, text))
	}
	return w + 2.5
}

func turned(names []string) bool {
	return slices.ContainsFunc(names, func(n string) bool { return typeface.Width(n, sheet.Regular, text) > 5.8 })
}

func (c *canvas) positionName(x, head float64, name string) {
	st := sheet.Plain(text)
	if head > text+1.5 {
		st.Turn = 90
		c.Text(x+text*typeface.CapHeight/2, head, name, st)
		return
	}
	c.Text(x, head-0.6, name, st.At(sheet.Centre))
}

// upright draws what one position joins.
func (c *canvas) upright(h *harness.Harness, part *harness.Part, position int, x float64, rowOf map[harness.TerminalID]float64) {
	for i, group := range joined(h, part, position, rowOf) {
		shift := float64(i) * 1.6
		c.Line(x+shift, group[0], x+shift, group[len(group)-1], sheet.Rounded(0.7))
		for _, y := range group {
			c.dot(x+shift, y, 1.1)
		}
	}
}

// joined gives the rows of each set of terminals that a position joins, sorted.
func joined(h *harness.Harness, part *harness.Part, position int, rowOf map[harness.TerminalID]float64) [][]float64 {
	root := map[harness.TerminalID]harness.TerminalID{}
	find := func(t harness.TerminalID) harness.TerminalID {
		for {
			up, ok := root[t]
			if !ok || up == t {
				return t
			}
			t = up
		}
	}
	for _, e := range contacts(h, part) {
		if e.When.Kind == harness.Always || slices.Contains(e.When.Positions, position) {
			root[find(e.A)] = find(e.B)
		}
	}
	byRoot := map[harness.TerminalID][]float64{}
	var order []harness.TerminalID
	for _, t := range part.Terminals {
		y, shown := rowOf[t]
		if !shown {
			continue
		}
		r := find(t)
		if byRoot[r] == nil {
			order = append(order, r)
		}
		byRoot[r] = append(byRoot[r], y)
	}
	var out [][]float64
	for _, r := range order {
		if g := byRoot[r]; len(g) > 1 {
			slices.Sort(g)
			out = append(out, g)
		}
	}
	return out
}
