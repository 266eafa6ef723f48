package symbol

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
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

// mostPositions is how many positions a ladder shows.
const mostPositions = 16

// ladder is a switch of any size: a level line for every terminal, an upright for
// every position with dots on the lines that it joins. The rest position is marked.
// Of a switch with very many positions those are shown that join its terminals here.
func ladder(h *harness.Harness, part *harness.Part, uses []Use, caption []Line, form Form) Tile {
	west, east := split(part, uses)
	rows := rungs(west, east)
	uprights := uprightsOf(h, part, uses)
	if n := len(part.Positions) - len(uprights); n > 0 {
		caption = append(slices.Clone(caption), Line{S: fmt.Sprintf("%d more positions", n), Grey: true})
	}
	head, cols := positionColumns(uprights, form)
	l, r, rowOf, end := placeRungs(rows, ceil(head+2.4), form)
	pad := widestTab(uses)/2 + 2.5
	c := &canvas{w: 2*pad + sumOf(cols), h: end + row + under(uses)}
	c.edge(kind.Switches, 0, 0, c.w, c.h)
	for _, g := range rows {
		y := rowOf[g.use.Terminal]
		from, to := 0.0, c.w-pad+0.5
		if g.side == East {
			from, to = pad-0.5, c.w
		}
		c.Line(from, y, to, y, sheet.Solid(0.18).In(sheet.Rule))
	}
	c.leadIns(l, r, pad)
	x := pad
	for i, u := range uprights {
		c.positionName(x+cols[i]/2, head, u.name)
		c.upright(u, x+cols[i]/2, rowOf)
		x += cols[i]
	}
	rest := pad + cols[0]/2
	c.solid(rest-1.3, c.h-1.2, rest+1.3, c.h-1.2, rest, c.h-3.4)
	switch {
	case part.Kind == harness.IgnitionSwitch:
		c.carKey(rest+4.6, c.h-3.2)
	case part.Momentary:
		c.springBack(rest, c.w-pad-cols[len(cols)-1]/2, c.h-2.3)
	}
	c.tabs(l, West)
	c.tabs(r, East)
	return c.done(caption, form.Words())
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

// acrossPitch is the distance of two rungs whose tabs stand on different edges, mm.
const acrossPitch = 5.0

func placeRungs(rows []rung, first float64, form Form) (l, r []landed, rowOf map[harness.TerminalID]float64, end float64) {
	rowOf = map[harness.TerminalID]float64{}
	y := first
	for i, g := range rows {
		if i > 0 && rows[i-1].side != g.side {
			y += acrossPitch - form.Pitch
		}
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

// positionColumns gives the room for the positions' names above the rungs, and the width
// of each position's column: the names stand level where they are short or few, else turned.
func positionColumns(uprights []upright, form Form) (head float64, cols []float64) {
	const col = 6.5
	widest, sum := 0.0, 0.0
	cols = make([]float64, max(1, len(uprights)))
	for i := range cols {
		cols[i] = col
	}
	level := slices.Clone(cols)
	for i, u := range uprights {
		w := typeface.Width(u.name, sheet.Regular, text)
		widest = math.Max(widest, w)
		level[i] = math.Max(col, w+1.6)
		sum += level[i]
	}
	switch {
	case widest <= widestLevel || sum <= widestHead && !form.Narrow:
		return levelHead, level
	}
	return widest + 2.5, cols
}

func sumOf(all []float64) float64 {
	sum := 0.0
	for _, v := range all {
		sum += v
	}
	return sum
}

// Sizes of the positions' names, mm: the height of a level row of them, how wide one may
// be that is set level whatever its neighbours, and how wide all of them together.
const (
	levelHead   = text + 1.5
	widestLevel = 4.9
	widestHead  = 42.0
)

func (c *canvas) positionName(x, head float64, name string) {
	st := sheet.Plain(text)
	if head > levelHead {
		st.Turn = 90
		c.Text(x+text*typeface.CapHeight/2, head, name, st)
		return
	}
	c.Text(x, head-0.6, name, st.At(sheet.Centre))
}

// upright is a position with the terminals of this sheet that it joins, set by set
// in the order of the part's terminals.
type upright struct {
	name string
	sets [][]harness.TerminalID
}

// uprightsOf gives all positions of a switch, or, where they are very many, that at
// rest and the first of those that join any of the terminals in use.
func uprightsOf(h *harness.Harness, part *harness.Part, uses []Use) []upright {
	inUse := map[harness.TerminalID]bool{}
	for _, u := range uses {
		inUse[u.Terminal] = true
	}
	shown := slices.DeleteFunc(slices.Clone(part.Terminals), func(t harness.TerminalID) bool { return !inUse[t] })
	made, many := madeIn(h, part), len(part.Positions) > mostPositions
	var out []upright
	for i, name := range part.Positions {
		sets := joined(h, made[i], shown)
		if !many || i == 0 || len(sets) > 0 && len(out) < mostPositions {
			out = append(out, upright{name, sets})
		}
	}
	return out
}

// madeIn are the contacts that each position closes.
func madeIn(h *harness.Harness, part *harness.Part) [][]harness.ElementID {
	made := make([][]harness.ElementID, len(part.Positions))
	always := make([]int, len(made))
	for i := range always {
		always[i] = i
	}
	for _, id := range part.Elements {
		e := &h.Elements[id]
		at := e.When.Positions
		if e.When.Kind == harness.Always {
			at = always
		}
		if e.Kind == harness.Contact || e.Kind == harness.Join {
			for _, i := range at {
				made[i] = append(made[i], id)
			}
		}
	}
	return made
}

// joined gives the sets of terminals that contacts join.
func joined(h *harness.Harness, contacts []harness.ElementID, terminals []harness.TerminalID) [][]harness.TerminalID {
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
	for _, id := range contacts {
		e := &h.Elements[id]
		root[find(e.A)] = find(e.B)
	}
	byRoot := map[harness.TerminalID][]harness.TerminalID{}
	var order []harness.TerminalID
	for _, t := range terminals {
		r := find(t)
		if byRoot[r] == nil {
			order = append(order, r)
		}
		byRoot[r] = append(byRoot[r], t)
	}
	var out [][]harness.TerminalID
	for _, r := range order {
		if len(byRoot[r]) > 1 {
			out = append(out, byRoot[r])
		}
	}
	return out
}

// upright draws what one position joins.
func (c *canvas) upright(u upright, x float64, rowOf map[harness.TerminalID]float64) {
	for i, set := range u.sets {
		var rows []float64
		for _, t := range set {
			rows = append(rows, rowOf[t])
		}
		slices.Sort(rows)
		shift := float64(i) * 1.6
		c.Line(x+shift, rows[0], x+shift, rows[len(rows)-1], sheet.Rounded(0.7))
		for _, y := range rows {
			c.dot(x+shift, y, 1.1)
		}
	}
}
