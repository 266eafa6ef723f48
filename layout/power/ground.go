package power

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Grounds draws each ground point as the stack of rings on its stud, in order, with the
// current and how far the point lifts. How a surface is prepared and how hard a thread is
// tightened stands once over them.
func Grounds(a page.Ask) []frame.Page {
	if len(a.R.Grounds)+len(a.R.Bodies) == 0 {
		return nil
	}
	s := page.Open(a.Upright(), "Grounds", "sheet/grounds", offsetMeaning(a))
	if len(a.R.Grounds) == 0 {
		bodies(a, s)
		return s.Close()
	}
	prepare(a, s)
	n := page.Abreast(s.Room.W, leastCard, cardGap)
	wide := (s.Room.W - cardGap*float64(n-1)) / float64(n)
	var cards []page.Card
	for _, g := range a.R.Grounds {
		cards = append(cards, groundCard(a, g, wide))
	}
	s.Cards(n, cardGap, underCard, cards)
	for _, g := range a.R.Grounds {
		if len(g.Rings) > mostDrawn {
			s.Section(a.Part(g.Part).Ref+", the rings above", ringTable(a, g))
		}
	}
	bodies(a, s)
	return s.Close()
}

func offsetMeaning(a page.Ask) string {
	return "Largest ring at the bottom. Offset: volts from battery " + post(a) + ", at worst, then when not cranking."
}

// post is the sign of the battery's post on the bodywork.
func post(a page.Ask) string {
	if a.H.System.PositiveEarth {
		return "+"
	}
	return "−"
}

// threadWords says how long the stud is to be (CASA AC 21-99, section 2 chapter 13, 10: about 3.7 mm).
func threadWords(imperial bool) string {
	return "Torques are dry; the vehicle's manual goes first. About " + page.Either(imperial, "5/32 in", "4 mm") + " of thread past the nut (CASA AC 21-99), spring washer under it."
}

// prepare sets what is done at every ground of a surface, and at every one with a thread, once.
func prepare(a page.Ask, s *page.Book) {
	t := &table.Table{NoHead: true, NoZebra: true, Tight: true, Pad: closePad, Columns: []table.Column{{}, {}, {Weight: 1}}}
	label := "Prepare"
	add := func(name, text string) {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{{S: label, Size: sheet.SizeNote, Colour: &sheet.Grey}, table.Strong(name), table.Text(text)}})
		label = ""
	}
	surfaces := once(a.R.Grounds, func(g fitted.Ground) string { return g.Surface + g.Washer + g.Prep })
	washers := once(a.R.Grounds, func(g fitted.Ground) string { return g.Washer })
	for _, g := range surfaces {
		text := page.Sentence(g.Prep)
		if len(surfaces) == 1 {
			text = page.List(" ", text, page.Sentence(g.Washer))
		}
		if text != "" {
			add(page.Or(g.Surface, "bodywork"), text)
		}
	}
	for _, g := range washers {
		if g.Washer != "" && len(surfaces) > 1 {
			add("", surfacesWith(surfaces, g.Washer)+": "+page.Sentence(g.Washer))
		}
	}
	label = "Tighten"
	for _, g := range once(a.R.Grounds, func(g fitted.Ground) string { return g.Stud + g.Tighten }) {
		if g.Tighten != "" {
			add(page.Firm(g.Stud), strings.NewReplacer(" N·m", page.NoBreak+"N·m", " lbf·ft", page.NoBreak+"lbf·ft").Replace(g.Tighten))
		}
	}
	s.Table(t)
	s.Remark(threadWords(a.H.Sheet.Imperial))
}

// once gives the first ground of each kind, small studs first.
func once(all []fitted.Ground, kind func(fitted.Ground) string) []fitted.Ground {
	var out []fitted.Ground
	seen := map[string]bool{}
	for _, g := range all {
		if k := kind(g); !seen[k] {
			seen[k] = true
			out = append(out, g)
		}
	}
	slices.SortStableFunc(out, func(x, y fitted.Ground) int {
		return cmp.Or(len(x.Stud)-len(y.Stud), strings.Compare(x.Stud, y.Stud))
	})
	return out
}

// surfacesWith names the surfaces that take a washer.
func surfacesWith(all []fitted.Ground, washer string) string {
	var names []string
	for _, g := range all {
		if name := page.Or(g.Surface, "bodywork"); g.Washer == washer && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return page.Capital(page.And(names))
}

// mostDrawn is how many rings of a stack are drawn. A stud may hold four rings; where a
// description puts very many on one, those above are listed.
const mostDrawn = 16

// Sizes of a card, mm.
const (
	leastCard  = 80.0
	cardGap    = 2.4
	underCard  = 1.8
	closePad   = 0.4 // over and under a row of one line
	cardPad    = 2.0
	factGap    = 0.3
	leastStack = 46.0 // beside a photograph
)

// groundCard is one point: its stack at the left, what is said of each ring beside it.
func groundCard(a page.Ask, g fitted.Ground, wide float64) page.Card {
	p := a.Part(g.Part)
	in := wide - 2*cardPad
	stud := page.List(", ", page.Or(page.Firm(g.Stud), "size not given"), g.Surface)
	bold := sheet.Strong(sheet.SizeBody)
	room := in - typeface.Width(stud, bold.Face, bold.Size) - 2
	title := page.TitleHigh(p.Ref, page.TitleOf(a, p), room)
	photo := a.PhotoOf(p).Beside(in, leastStack, func(w float64) float64 { return stackOf(a, g, w).high() })
	st := stackOf(a, g, photo.Wide)
	return page.Card{High: title + photo.High + 2, Draw: func(c *sheet.Canvas, r sheet.Rect) {
		c.RoundRect(r.X, r.Y, r.W, r.H, 1.5, sheet.Outline(sheet.Solid(sheet.Medium)))
		c.Anchor("ground/"+p.Ref, r.X, r.Y)
		at := sheet.Rect{X: r.X + cardPad, Y: r.Y + 1, W: room, H: r.H}
		page.Title(c, at, p.Ref, page.TitleOf(a, p))
		c.Text(r.Right()-cardPad, at.Y+sheet.SizeHead*typeface.CapHeight+0.5, stud, bold.At(sheet.Right))
		st.draw(c, sheet.Rect{X: at.X, Y: at.Y + title + 0.6, W: photo.Wide, H: r.H})
		photo.Draw(c, sheet.Rect{X: at.X, Y: at.Y + title + 0.6, W: in, H: photo.High})
	}}
}

// above are the facts beside the nut: the current, and why the stud is so thick.
func above(g fitted.Ground) []string {
	out := []string{"Carries " + carriesWords(g)}
	if g.StudWhy != "" {
		out = append(out, page.Firm(g.Stud)+", since "+g.StudWhy)
	}
	return out
}

// below are the facts beside the bodywork: the offset, and what else is on the stud.
func below(a page.Ask, g fitted.Ground) []string {
	out := []string{"Offset " + offsetWords(g)}
	if len(g.Rings) > rating.MostRings {
		out = append(out, page.Capital(ringWords(len(g.Rings))))
	}
	if n := len(g.Rings) - mostDrawn; n > 0 {
		out = append(out, page.Counted(n, "more ring")+" above these, listed below")
	}
	if drains := a.Drains(a.H.Parts[g.Part].Terminals...); len(drains) > 0 {
		out = append(out, "On top: "+page.And(drains))
	}
	return out
}

// carriesWords says what passes the point for long, and what for seconds.
func carriesWords(g fitted.Ground) string {
	if g.State == "" && g.CrankIn == "" {
		return "no current in any state"
	}
	text := page.Firm(g.Amps.String())
	if g.State != "" {
		text += " (" + g.State + ")"
	}
	if g.CrankIn != "" {
		text += ", for seconds " + page.Firm(g.Crank.String()) + " (" + g.CrankIn + ")"
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

// ringTable lists the rings above those that are drawn.
func ringTable(a page.Ask, g fitted.Ground) *table.Table {
	t := &table.Table{Columns: []table.Column{{Title: "Ring", Align: table.Right}, {Title: "Wire"}, {Title: "Colour"}, {Title: "Size"}, {Title: "Load grounded here", Weight: 1}}}
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

// textHigh is how high some facts are at a width.
func textHigh(facts []string, style sheet.Style, width float64) float64 {
	high := 0.0
	for _, f := range facts {
		high += page.TextHeight(f, style, width) + factGap
	}
	return math.Max(0, high)
}
