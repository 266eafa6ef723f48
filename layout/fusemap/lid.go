package fusemap

import (
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/fused"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Cards are the fuse cards: for the lid of each panel one at its true size, to be cut out, with
// every position in its row as one stands before it. None where there are no panels.
func Cards(a page.Ask) []frame.Page {
	panels := a.Panels()
	if len(panels) == 0 {
		return nil
	}
	s := page.OpenLoose(a.Upright(), "Fuse cards", "sheet/card", "Print at actual size, \"fit to page\" off. Cut along the outer line and stick each into the lid of its panel.")
	for _, id := range panels {
		l := lidOf(a, &a.H.Parts[id])
		l.set(s)
	}
	return s.Close()
}

// Sizes of a lid's card, mm: what is assumed where the description gives none goes by the
// number of positions.
const (
	lidPad    = 1.6 // clear under the line that is cut along
	lidHead   = 5.0 // height of the card's title
	lidFoot   = 4.2 // and of the line at its foot
	lidPlace  = 20.0
	lidRow    = 16.0
	lidStep   = 4.0 // from one width that is tried to the next
	placePad  = 0.9
	lidLine   = sheet.SizeNote * 1.14
	ratedHigh = 4.4 // height of position and rating
	lidLeast  = 9.0 // height of a row
)

var leastLid, mostLid = unit.Face{Wide: 50, High: 30}, unit.Face{Wide: 110, High: 70}

// lid is a panel's card.
type lid struct {
	title, foot string
	given       bool
	size        unit.Face // of the lid
	rows        [][]slot
	across      int
	imperial    bool
}

// slot is one position on a card: its name, the rating, and what it feeds in several ways.
type slot struct {
	name   string
	fuse   page.Fuse
	fitted bool
	says   []string // what it feeds: all by name, the circuits of the loads, those of the wires
}

func lidOf(a page.Ask, p *harness.Part) lid {
	l := lid{title: page.List(" · ", p.Ref, page.Called(p)), imperial: a.H.Sheet.Imperial, size: p.Panel.Lid, given: p.Panel.Lid.Wide > 0}
	l.foot = page.List(", ", "Never fit a larger fuse", page.List(" ", "rev.", a.H.Info.Revision), a.H.Info.Date)
	if a.H.Info.Revision == "" {
		l.foot = page.List(", ", "Never fit a larger fuse", a.H.Info.Date)
	}
	used := usedPositions(a, p)
	for _, names := range p.Panel.Layout {
		var row []slot
		for _, n := range names {
			x := slot{name: n}
			if i, ok := used[n]; ok {
				x = slotOf(a, i)
			}
			row = append(row, x)
		}
		l.rows = append(l.rows, row)
		l.across = max(l.across, len(row))
	}
	if !l.given {
		l.size.Wide = unit.Millimetre(min(max(float64(leastLid.Wide), lidPlace*float64(l.across)), float64(mostLid.Wide)))
		l.size.High = unit.Millimetre(min(max(float64(leastLid.High), lidRow*float64(len(l.rows))+12), float64(mostLid.High)))
	}
	return l
}

func slotOf(a page.Ask, i int) slot {
	f := a.R.Fuses[i]
	x := slot{name: f.Position, fitted: true, fuse: page.Fuse{Body: f.Body, Colour: f.BodyColour, Rating: ratingWords(f), Breaker: f.Breaker}}
	also := ""
	for _, t := range a.FedTwice() {
		for k, name := range t.Fuses {
			if name == f.Name {
				also = "also fed by " + t.Fuses[1-k]
			}
		}
	}
	for _, words := range [][]string{fused.Feeds(a, f, a.R.Outages[i]), circuits(a, arriving(a, f)), circuits(a, f.Wires)} {
		x.says = append(x.says, page.List("; ", strings.Join(words, ", "), also))
	}
	return x
}

// arriving are the wires that arrive at the loads of a fuse.
func arriving(a page.Ask, f chosen.Fuse) []harness.WireID {
	var last []harness.WireID
	for _, l := range a.R.Loads {
		if n := len(l.Feed); n > 0 && slices.Contains(f.Feeds, l.Name) {
			last = append(last, l.Feed[n-1])
		}
	}
	return last
}

// circuits names the circuits of some wires, each once.
func circuits(a page.Ask, wires []harness.WireID) []string {
	var names []string
	for _, w := range wires {
		c := a.H.Wires[w].Circuit
		if int(c) >= len(a.H.Circuits) {
			continue
		}
		if name := page.Or(a.H.Circuits[c].Name, a.H.Circuits[c].Key); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// wide is the width of one position on a card of a width.
func (l lid) wide(w float64) float64 { return (w - 2*lidPad) / float64(max(l.across, 1)) }

// lines are what a position feeds: all by name, or if it may be short what takes the fewest
// lines; false where a word is wider than the position.
func (x slot) lines(wide float64, short bool) ([]string, bool) {
	if len(x.says) == 0 {
		return nil, true
	}
	room := wide - 2*placePad
	var best []string
	for i, text := range x.says {
		if i > 0 && !short || text == "" || typeface.Longest(text, sheet.Regular, sheet.SizeNote) > room {
			continue
		}
		if lines := typeface.Wrap(text, sheet.Regular, sheet.SizeNote, room); best == nil || len(lines) < len(best) {
			best = lines
		}
	}
	if best == nil {
		return cut(x.says[0], room, math.MaxInt), x.says[0] == ""
	}
	return best, true
}

// cut is as much of a text as so many lines hold.
func cut(text string, room float64, most int) []string {
	lines := typeface.Wrap(text, sheet.Regular, sheet.SizeNote, room)
	for i, s := range lines {
		lines[i] = typeface.Fit(s, sheet.Regular, sheet.SizeNote, room)
	}
	if len(lines) > most && most > 0 {
		lines = lines[:most]
		lines[most-1] = typeface.Fit(lines[most-1]+" …", sheet.Regular, sheet.SizeNote, room)
	}
	return lines[:min(len(lines), max(most, 0))]
}

// ratingWide is the width of the patch with the rating, nameWide that of the name.
func (x slot) ratingWide() float64 {
	return typeface.Width(x.fuse.Rating, sheet.Bold, sheet.SizeBody) + 1.8
}

func (x slot) nameWide() float64 { return typeface.Width(x.name, sheet.Bold, sheet.SizeBody) }

// beside tells whether name and rating share a line of a place so wide.
func (x slot) beside(wide float64) bool {
	return x.nameWide()+1+x.ratingWide() <= wide-2*placePad
}

// head is the height of name and rating.
func (x slot) head(wide float64) float64 {
	if x.fitted && !x.beside(wide) {
		return 2 * ratedHigh
	}
	return ratedHigh
}

// way is how a card is set: its size, the heights of its rows, and whether words are left out.
type way struct {
	w, h  float64
	rows  []float64
	short bool
	whole bool // every position's text stands whole
}

// at finds the rows' heights on a card of a width and at least a height.
func (l lid) at(w, h float64, short bool) way {
	out := way{w: w, short: short, whole: true}
	wide, sum := l.wide(w), 2*lidPad+lidHead+lidFoot
	for _, row := range l.rows {
		high := lidLeast
		for _, x := range row {
			lines, ok := x.lines(wide, short)
			out.whole = out.whole && ok && max(x.nameWide(), x.ratingWide()) <= wide-2*placePad
			high = math.Max(high, x.head(wide)+float64(len(lines))*lidLine+2*placePad)
		}
		out.rows = append(out.rows, high)
		sum += high
	}
	for _, text := range []string{l.title, l.foot} {
		out.whole = out.whole && typeface.Width(text, sheet.Bold, sheet.SizeBody) <= w-2*lidPad
	}
	out.h = math.Max(h, math.Ceil(sum))
	for i := range out.rows { // what is over is shared
		out.rows[i] += (out.h - sum) / float64(len(out.rows))
	}
	return out
}

// fitted is how the card is set: of the lid's size, or where its text does not go on that as the
// smallest larger one that a sheet has room for.
func (l lid) fitted(room sheet.Rect) way {
	w, h := math.Min(float64(l.size.Wide), room.W), math.Min(float64(l.size.High), room.H)
	for _, short := range []bool{false, true} {
		if x := l.at(w, h, short); x.whole && x.h <= h {
			return x
		}
	}
	best := l.at(room.W, h, true)
	for ; w < room.W; w += lidStep {
		if x := l.at(w, h, true); x.whole && x.h <= room.H && x.w*x.h < best.w*best.h {
			best = x
		}
	}
	return best.within(room.H)
}

// within lowers the rows of a card that is higher than a sheet; its texts are then cut.
func (x way) within(most float64) way {
	if x.h <= most {
		return x
	}
	fixed := 2*lidPad + lidHead + lidFoot
	for i := range x.rows {
		x.rows[i] *= (most - fixed) / (x.h - fixed)
	}
	x.h = most
	return x
}

// set draws the card under a line that says how large it is.
func (l lid) set(s *page.Book) {
	rest := s.Rest()
	rest.H -= 22
	x := l.fitted(rest)
	text := "Card of " + l.sized(x.w, x.h)
	if l.given && (x.w > float64(l.size.Wide)+0.01 || x.h > float64(l.size.High)+0.01) {
		text += ", as its text does not go on " + l.sized(float64(l.size.Wide), float64(l.size.High)) + ": fold it, or stick it beside the panel"
	}
	s.Head2(l.title, text, x.h)
	l.draw(&s.C, sheet.Rect{X: s.Room.X, Y: s.Room.Y, W: x.w, H: x.h}, x)
	s.Down(math.Min(x.h+page.Gap, s.Room.H))
}

func (l lid) sized(w, h float64) string {
	return page.Piece(unit.Millimetre(w), l.imperial) + page.NoBreak + "×" + page.NoBreak + page.Piece(unit.Millimetre(h), l.imperial)
}

func (l lid) draw(c *sheet.Canvas, r sheet.Rect, set way) {
	c.Rect(r.X, r.Y, r.W, r.H, sheet.Outline(sheet.Solid(sheet.Hair).In(sheet.Rule)))
	in := r.Inset(lidPad)
	c.Text(in.X, in.Y+sheet.SizeBody*typeface.CapHeight+0.4, typeface.Fit(l.title, sheet.Bold, sheet.SizeBody, in.W), strong)
	wide, y := l.wide(r.W), in.Y+lidHead
	for i, row := range l.rows {
		for k, x := range row {
			x.draw(c, sheet.Rect{X: in.X + float64(k)*wide, Y: y, W: wide, H: set.rows[i]}.Inset(0.25), set.short)
		}
		y += set.rows[i]
	}
	c.Text(in.X, in.Bottom()-0.6, typeface.Fit(l.foot, sheet.Regular, sheet.SizeNote, in.W), note)
}

// draw sets a position: its name, the rating on the body's colour, and what it feeds.
func (x slot) draw(c *sheet.Canvas, r sheet.Rect, short bool) {
	c.Rect(r.X, r.Y, r.W, r.H, sheet.Both(sheet.Solid(sheet.Thin), sheet.White))
	in := r.Inset(placePad - 0.25)
	base := in.Y + sheet.SizeBody*typeface.CapHeight + 0.5
	c.Text(in.X, base, typeface.Fit(x.name, sheet.Bold, sheet.SizeBody, in.W), strong)
	if !x.fitted {
		c.Text(in.X, base+lidLine+0.6, typeface.Fit("spare", sheet.Regular, sheet.SizeNote, in.W), page.Quiet())
		return
	}
	shade, _ := page.FuseShade(x.fuse.Colour)
	wide, head := x.ratingWide(), x.head(r.W+0.5)
	patch := sheet.Rect{X: in.Right() - wide, Y: in.Y + head - ratedHigh, W: wide, H: sheet.SizeBody*typeface.CapHeight + 1.1}
	c.RoundRect(patch.X, patch.Y, patch.W, patch.H, 0.7, sheet.Both(sheet.Solid(sheet.Thin), shade))
	c.Text(patch.X+wide/2, base+head-ratedHigh, x.fuse.Rating, strong.In(page.OnFill(shade)).At(sheet.Centre))
	lines, _ := x.lines(r.W+0.5, short)
	room, most := r.W+0.5-2*placePad, int((r.H+0.5-head-2*placePad)/lidLine+1e-6)
	if len(lines) > most {
		lines = cut(strings.Join(lines, " "), room, most)
	}
	for i, line := range lines {
		c.Text(in.X, in.Y+head+float64(i)*lidLine+sheet.SizeNote*typeface.CapHeight+0.3, line, note)
	}
}
