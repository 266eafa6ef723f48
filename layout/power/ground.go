package power

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Grounds draws each ground point as the stack of rings on its stud, in order,
// with how the surface is made ready, the current and how far the point lifts.
func Grounds(a page.Ask) []frame.Page {
	if len(a.R.Grounds) == 0 {
		return nil
	}
	s := page.Open(a.Upright(), "Grounds", "sheet/grounds", "Largest ring at the bottom; "+threadWords(a.H.Sheet.Imperial)+offsetMeaning(a))
	for _, g := range a.R.Grounds {
		ground(a, s, g)
	}
	return s.Close()
}

// threadWords says how long the stud is to be (CASA AC 21-99, section 2 chapter 13, 10: about 3.7 mm).
func threadWords(imperial bool) string {
	past := "4\u00a0mm"
	if imperial {
		past = "5/32\u00a0in"
	}
	return "about " + past + " of thread past the nut (CASA AC 21-99). Torques are dry; the vehicle's manual goes first. "
}

func offsetMeaning(a page.Ask) string {
	post := "negative"
	if a.H.System.PositiveEarth {
		post = "positive"
	}
	return "Offset: the most from the battery's " + post + " post, then the most when not cranking."
}

// Sizes of the drawing, mm.
const (
	ringPitch  = 7.2 // two lines of text beside each ring
	ringThick  = 2.2
	floorGap   = 3.0
	stackAbove = 10.4 // bolt end and nut
	stackBelow = 11.0 // washer, sheet metal, head of the bolt
	wireEnd    = 16.8 // of the piece of wire on a ring, from the stud's axis
	besideIt   = 19.2 // of the words beside it
	factLabel  = 14.0 // room of a label before its fact
)

// mostDrawn is how many rings of a stack are drawn, mostReturning how many parts that
// return at a point are named. A stud may hold four rings; where a description puts
// very many on one, those above are listed.
const (
	mostDrawn     = 16
	mostReturning = 24
)

// ground draws one point as a card across the sheet.
func ground(a page.Ask, s *page.Book, g fitted.Ground) {
	p := a.Part(g.Part)
	left := s.Room.W*0.43 - 2
	facts := groundFacts(a, g)
	above := ringTable(a, g)
	g.Rings = g.Rings[:min(len(g.Rings), mostDrawn)]
	right := s.Room.W - left - 8
	high := groundHigh(g, facts, right) + page.TitleHigh(p.Ref, page.TitleOf(a, p), s.Room.W-6)
	s.Need(high + 3)
	c := &s.C
	r := sheet.Rect{X: s.Room.X, Y: s.Room.Y, W: s.Room.W, H: high}
	c.RoundRect(r.X, r.Y, r.W, r.H, 1.5, sheet.Outline(sheet.Solid(sheet.Medium)))
	c.Anchor("ground/"+p.Ref, r.X, r.Y)
	body := r.Below(page.Title(c, sheet.Rect{X: r.X + 3, Y: r.Y + 2, W: r.W - 6}, p.Ref, page.TitleOf(a, p)) + 2)
	stack(a, c, sheet.Rect{X: r.X + 3, Y: body.Y, W: left - 3, H: body.H}, g)
	at := sheet.Rect{X: r.X + left + 5, Y: body.Y, W: right}
	c.Line(at.X-3, body.Y, at.X-3, r.Bottom()-3, sheet.Solid(sheet.Hair).In(sheet.Rule))
	for _, f := range facts {
		frame.Paragraph(c, at, f[0], sheet.Plain(sheet.SizeNote).In(sheet.Grey))
		y := frame.Paragraph(c, sheet.Rect{X: at.X + factLabel, Y: at.Y, W: right - factLabel}, f[1], factStyle(f[0]))
		at = at.Below(y + factGap)
	}
	s.Down(high + 3)
	if len(above.Rows) > 0 {
		s.Table(above)
	}
}

// ringTable lists the rings above those that are drawn.
func ringTable(a page.Ask, g fitted.Ground) *table.Table {
	t := &table.Table{Columns: []table.Column{{Title: "Ring", Align: table.Right}, {Title: "Wire"}, {Title: "Colour"}, {Title: "Size"}, {Title: "From", Weight: 1}}}
	for i := mostDrawn; i < len(g.Rings); i++ {
		w := g.Rings[i]
		full, plain := a.Stop(farEnd(a, w, g.Part))
		name := a.H.Wires[w].Name
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			table.Text(fmt.Sprint(i + 1)), {S: name, Bold: true, Link: a.Link("wire/" + name)}, table.Text(a.Pair(w).String()), table.Text(a.Gauge(w)), table.Noted(full, plain),
		}})
	}
	return t
}

const factGap = 0.8

// factStyle sets what is measured in bold.
func factStyle(label string) sheet.Style {
	if label == "Offset" || label == "Carries" {
		return sheet.Strong(sheet.SizeBody)
	}
	return sheet.Plain(sheet.SizeBody)
}

func groundHigh(g fitted.Ground, facts [][2]string, width float64) float64 {
	high := stackAbove + stackBelow + ringPitch*float64(max(1, len(g.Rings)))
	text := 0.0
	for _, f := range facts {
		text += page.TextHeight(f[1], factStyle(f[0]), width-factLabel) + factGap
	}
	return 4.5 + max(high, text)
}

// groundFacts are the labelled lines at the right of the drawing.
func groundFacts(a page.Ask, g fitted.Ground) [][2]string {
	stud := page.Or(g.Stud, "size not given")
	if g.StudWhy != "" {
		stud += ": " + g.StudWhy
	}
	facts := [][2]string{{"Stud", strings.TrimSuffix(stud+"; bodywork "+g.Surface, "; bodywork ")}}
	if g.Prep != "" {
		facts = append(facts, [2]string{"Prepare", strings.NewReplacer(" N·m", "\u00a0N·m", " lbf·ft", "\u00a0lbf·ft").Replace(page.Sentence(g.Prep))})
	}
	if g.Washer != "" && !star(g) {
		facts = append(facts, [2]string{"Washer", page.Sentence(g.Washer)})
	}
	if len(g.Rings) > rating.MostRings {
		facts = append(facts, [2]string{"Rings", ringWords(len(g.Rings))})
	}
	if n := len(g.Rings) - mostDrawn; n > 0 {
		facts = append(facts, [2]string{"Above", page.Counted(n, "more ring") + ", listed below"})
	}
	facts = append(facts, [2]string{"Carries", carriesWords(g)}, [2]string{"Offset", offsetWords(g)})
	if drains := a.Drains(a.H.Parts[g.Part].Terminals...); len(drains) > 0 {
		facts = append(facts, [2]string{"On top", page.And(drains)})
	}
	if parts := returners(a, g); parts != "" {
		facts = append(facts, [2]string{"Returns", parts})
	}
	return facts
}

// carriesWords says what passes the point for long, and what for seconds.
func carriesWords(g fitted.Ground) string {
	if g.State == "" && g.CrankIn == "" {
		return "no current in any state"
	}
	text := page.Firm(g.Amps.String())
	if g.State != "" {
		text += " in " + g.State
	}
	if g.CrankIn != "" {
		text += "; " + page.Firm(g.Crank.String()) + " for seconds in " + g.CrankIn
	}
	return text
}

// offsetWords says how far the point gets from the battery's post, and when.
func offsetWords(g fitted.Ground) string {
	text := millivolts(g.Lift)
	if g.LiftIn != "" {
		text += " (" + g.LiftIn + ")"
	}
	if g.SteadyIn != "" {
		text += ", " + millivolts(g.Steady) + " (" + g.SteadyIn + ")"
	}
	return text
}

// millivolts is a voltage as a meter shows it.
func millivolts(v unit.Volt) string {
	places := 1
	if v >= 0.01 {
		places = 0
	}
	return page.Figure(float64(v)*1000, places) + "\u00a0mV"
}

// ringWords counts the rings against what one stud may hold (FAA AC 43.13-1B 11-174).
func ringWords(n int) string {
	text := page.Counted(n, "ring")
	if n > rating.MostRings {
		text += fmt.Sprintf(": more than the %d that one stud may hold; add a stud or a bus", rating.MostRings)
	}
	return text
}

// returners names the parts whose current comes back at the point.
func returners(a page.Ask, g fitted.Ground) string {
	var words []string
	seen := map[harness.PartID]bool{}
	for _, w := range g.Rings {
		p := a.H.PartOf(farEnd(a, w, g.Part))
		if p == nil || seen[p.ID] {
			continue
		}
		seen[p.ID] = true
		words = append(words, a.Plain(p))
	}
	if n := len(words) - mostReturning; n > 0 {
		words = append(words[:mostReturning], fmt.Sprintf("%d more", n))
	}
	return page.And(words)
}

// farEnd is a wire's end that is not on the part.
func farEnd(a page.Ask, w harness.WireID, part harness.PartID) harness.TerminalID {
	wire := a.H.Wires[w]
	if a.H.Terminals[wire.From].Part == part {
		return wire.To
	}
	return wire.From
}

// stack draws the rings on the stud, bottom up, each with its wire's name,
// colour, size and where it comes from.
func stack(a page.Ask, c *sheet.Canvas, r sheet.Rect, g fitted.Ground) {
	n := max(1, len(g.Rings))
	axis := r.X + 14
	top := r.Y + 1
	floor := r.Y + stackAbove + ringPitch*float64(n) + floorGap
	bolt := sheet.Rect{X: axis - 2.6, Y: top, W: 5.2, H: floor + 5 - top}
	c.Rect(bolt.X, bolt.Y, bolt.W, bolt.H, sheet.Both(sheet.Solid(sheet.Thin), metalPale))
	for y := bolt.Y + 1; y < bolt.Bottom()-0.5; y += 1.3 {
		c.Line(bolt.X, y, bolt.Right(), y-0.5, sheet.Solid(sheet.Hair).In(sheet.Grey))
	}
	nut := sheet.Rect{X: axis - 7, Y: top + 3, W: 14, H: 5.4}
	c.RoundRect(nut.X, nut.Y, nut.W, nut.H, 0.8, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
	for _, x := range []float64{axis - 3, axis + 3} {
		c.Line(x, nut.Y, x, nut.Bottom(), sheet.Solid(sheet.Thin))
	}
	c.Rect(axis-8.5, nut.Bottom(), 17, 1.3, sheet.Both(sheet.Solid(sheet.Thin), metalPale))
	beside(c, axis+9.5, nut.Y+3.6, "nut and spring washer")
	for i, w := range g.Rings {
		y := floor - floorGap - ringPitch*(float64(i)+0.5)
		ring(a, c, axis, y, r.Right(), w, g.Part)
	}
	bodywork(c, axis, floor, r, g)
}

var metalPale = sheet.Colour{R: 0xe4, G: 0xe4, B: 0xe4}

func beside(c *sheet.Canvas, x, y float64, s string) {
	c.Text(x, y, s, sheet.Plain(sheet.SizeNote).In(sheet.Grey))
}

// ring draws one ring with its barrel and its wire to the right, and the words on it.
func ring(a page.Ask, c *sheet.Canvas, axis, y, right float64, w harness.WireID, part harness.PartID) {
	c.Rect(axis-7.5, y-ringThick/2, 15, ringThick, sheet.Both(sheet.Solid(sheet.Medium), metalPale))
	c.RoundRect(axis+7.5, y-1.7, 5, 3.4, 0.5, sheet.Both(sheet.Solid(sheet.Medium), sheet.Pale))
	page.Strand(c, []sheet.Point{{X: axis + 12.8, Y: y}, {X: axis + wireEnd, Y: y}}, a.Pair(w), 2)
	x := axis + besideIt
	wire := a.H.Wires[w]
	link := a.Link("wire/" + wire.Name)
	pair := a.Pair(w).String()
	head := wire.Name + "  ·  " + pair
	if g := a.Gauge(w); g != "" {
		head += "  ·  " + g
	}
	c.Text(x, y-0.5, head, sheet.Strong(sheet.SizeBody))
	full, plain := a.Stop(farEnd(a, w, part))
	from := "from " + full
	if plain != "" {
		from += ", " + plain
	}
	if typeface.Width(from, sheet.Regular, sheet.SizeNote) > right-x {
		from = strings.TrimPrefix(from, "from ")
	}
	c.Text(x, y+2.7, typeface.Fit(from, sheet.Regular, sheet.SizeNote, right-x), page.Quiet())
	if link != "" {
		c.Link(sheet.Rect{X: x, Y: y - 3.5, W: right - x, H: 7}, link)
	}
}

// star tells whether the washer has teeth; the drawing shows and names such a one.
func star(g fitted.Ground) bool {
	washer := strings.ToLower(g.Washer)
	return strings.Contains(washer, "star") || strings.Contains(washer, "tooth")
}

// bodywork draws the washer, the metal with its bared patch, and the head of the bolt.
func bodywork(c *sheet.Canvas, axis, floor float64, r sheet.Rect, g fitted.Ground) {
	if star(g) {
		for x := axis - 8.0; x < axis+8; x += 2 {
			c.Polygon([]sheet.Point{{X: x, Y: floor}, {X: x + 1, Y: floor - 1.2}, {X: x + 2, Y: floor}}, sheet.Filled(sheet.Ink))
		}
		beside(c, axis+besideIt, floor+0.6, "star washer into bare metal")
	}
	left, right := r.X, axis+wireEnd
	c.Rect(left, floor, right-left, 2.6, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
	for x := left + 1; x < right-2; x += 2.2 {
		c.Line(x, floor+2.4, x+1.8, floor+0.2, sheet.Solid(sheet.Hair))
	}
	if g.Surface == "painted" || g.Surface == "coated" {
		for _, span := range [][2]float64{{left, axis - 10}, {axis + 10, right}} {
			c.Line(span[0], floor-0.3, span[1], floor-0.3, sheet.Solid(sheet.Heavy))
		}
	}
	c.RoundRect(axis-7, floor+2.6, 14, 4, 0.8, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
	words := "bodywork"
	if g.Surface != "" {
		words = g.Surface + " bodywork"
		if g.Surface != "bare" {
			words += ", bared here"
		}
	}
	beside(c, axis+besideIt, floor+4.6, words)
}
