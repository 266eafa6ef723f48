package symbol

import (
	"math"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// relay is contact and coil in one tile, joined by a dashed line: the contact
// rows on top, the coil row below.
func relay(part *harness.Part, uses []Use, caption []Line, form Form) Tile {
	var contact, winding []Use
	for _, u := range uses {
		if u.Name == "85" || u.Name == "86" {
			winding = append(winding, u)
		} else {
			contact = append(contact, u)
		}
	}
	cw, ce := contactSides(contact)
	kw, ke := windingSides(winding)
	c := &canvas{w: 25}
	l, endL := stack(cw, row, form.Pitch)
	r, endR := stack(ce, row, form.Pitch)
	end := math.Max(endL, endR)
	switch {
	case len(winding) == 0:
		return c.contactAlone(part, l, r, end, caption, form)
	case len(contact) == 0:
		return c.coilAlone(part, kw, ke, caption, form)
	}
	coilY := end + math.Max(coilBelow, form.Pitch)
	c.contactAndCoil(part, [4][]landed{l, r}, coilY, kw, ke, form)
	c.dashed(c.w/2, c.grip, c.w/2, coilY-3.5)
	return c.done(caption, form.Words())
}

// coilBelow is how far a coil's row stands below the contact's last at least, mm.
const coilBelow = 10

// contactAlone is the half of a relay whose coil is drawn elsewhere: the dashed
// line ends at the lower edge.
func (c *canvas) contactAlone(part *harness.Part, l, r []landed, end float64, caption []Line, form Form) Tile {
	c.h = end + row + under(usesOf(l), usesOf(r))
	c.edge(kind.Switches, 0, 0, c.w, c.h)
	c.grip = c.contact(part.Changeover, l, r)
	c.dashed(c.w/2, c.grip, c.w/2, c.h)
	c.tabs(l, West)
	c.tabs(r, East)
	return c.done(caption, form.Words())
}

// coilAlone is the half of a relay whose contact is drawn elsewhere: the dashed
// line leads up to the upper edge.
func (c *canvas) coilAlone(part *harness.Part, kw, ke []Use, caption []Line, form Form) Tile {
	c.contactAndCoil(part, [4][]landed{}, row, kw, ke, form)
	c.dashed(c.w/2, 0, c.w/2, row-3.5)
	return c.done(caption, form.Words())
}

func (c *canvas) contactAndCoil(part *harness.Part, rows [4][]landed, coilY float64, kw, ke []Use, form Form) {
	endK := coilY
	for i, side := range [][]Use{kw, ke} {
		var e float64
		rows[2+i], e = stack(side, coilY, form.Pitch)
		endK = math.Max(endK, e)
	}
	c.h = endK + row + under(kw, ke)
	if part.Suppression == "resistor" || part.Suppression == "diode" {
		c.h += 2.5
	}
	c.edge(kind.Switches, 0, 0, c.w, c.h)
	c.grip = c.contact(part.Changeover, rows[0], rows[1])
	c.coilRow(part.Suppression, coilY)
	c.tabs(rows[0], West)
	c.tabs(rows[1], East)
	c.tabs(rows[2], West)
	c.tabs(rows[3], East)
}

// contactSides puts 30 at the left and 87, 87a at the right, or the other way
// round where the current is led in at 87.
func contactSides(contact []Use) (west, east []Use) {
	turned := false
	for _, u := range contact {
		if u.Name == "30" {
			turned = u.Out > u.In
		}
	}
	for _, u := range contact {
		if (u.Name == "30") != turned {
			west = append(west, u)
		} else {
			east = append(east, u)
		}
	}
	return west, east
}

func windingSides(winding []Use) (west, east []Use) {
	turned := false
	for _, u := range winding {
		if u.Name == "85" && u.In > u.Out {
			turned = true
		}
	}
	for _, u := range winding {
		if (u.Name == "86") != turned {
			west = append(west, u)
		} else {
			east = append(east, u)
		}
	}
	return west, east
}

// contact draws the lever at rest between the rows and gives the height at which
// the dashed line from the coil takes hold of it.
func (c *canvas) contact(changeover bool, west, east []landed) float64 {
	pole, throws, px, tx := west, east, 7.0, c.w-7.0
	if len(west) != 1 || (len(east) == 1 && east[0].use.Name == "30") {
		pole, throws, px, tx = east, west, c.w-7.0, 7.0
	}
	if len(pole) == 0 {
		return row
	}
	y := pole[0].rows[0]
	edge := func(x float64) float64 { return math.Round(x/c.w) * c.w }
	c.line(edge(px), y, px, y)
	c.dot(px, y, 0.9)
	endX, endY := tx, y-3.8
	for _, t := range throws {
		ty := t.rows[0]
		c.line(edge(tx), ty, tx, ty)
		c.ring(tx, ty, 0.9)
		if t.use.Name == "87a" {
			endX, endY = tx, ty-0.9
		}
	}
	if changeover && endY == y-3.8 {
		endY = y - 2.6
	}
	back := 0.6 * math.Copysign(1, tx-px)
	c.Line(px, y, endX-back, endY, sheet.Rounded(0.7))
	return (y + endY) / 2
}

// coilRow draws the winding with its leads and what quenches it.
func (c *canvas) coilRow(suppression string, y float64) {
	cx := c.w / 2
	c.line(0, y, cx-5, y)
	c.line(cx+5, y, c.w, y)
	c.winding(cx, y, 10, 6)
	if suppression != "resistor" && suppression != "diode" {
		return
	}
	low := y + 5.5
	c.path(5, y, 5, low, cx-4, low)
	c.path(cx+4, low, c.w-5, low, c.w-5, y)
	c.dot(5, y, 0.6)
	c.dot(c.w-5, y, 0.6)
	if suppression == "resistor" {
		c.zigzag(cx, low, 4)
		return
	}
	c.line(cx-4, low, cx+4, low)
	c.Polygon([]sheet.Point{{X: cx + 1.8, Y: low - 1.6}, {X: cx + 1.8, Y: low + 1.6}, {X: cx - 1.2, Y: low}}, sheet.Filled(sheet.Ink))
	c.Line(cx-1.2, low-1.7, cx-1.2, low+1.7, sheet.Solid(0.5))
}

func usesOf(rows []landed) []Use {
	var out []Use
	for _, l := range rows {
		out = append(out, l.use)
	}
	return out
}
