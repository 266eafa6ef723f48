// Package glance draws the whole harness on one large sheet: every part as a small tile in
// the box of its place, every wire as a line in its colour with its name.
//
// In: the model, the results and the large paper. Out: one sheet, or none where the diagrams
// are few enough to be the whole picture, or where the paper cannot hold it at a readable
// size (Drawn.Why says so). The graph library ranks and orders the parts (diagram.LayChart);
// no text is smaller than that of flags on a diagram, and what does not fit is left out by
// kind: first the colours' letters, then the wires' names.
package glance

import (
	"errors"
	"fmt"

	"example.com/loomfolio/layout/diagram"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
)

// Anchor leads to the sheet.
const Anchor = "sheet/glance"

// fewWires is how many wires one or two sheets of diagrams show whole.
const fewWires = 25

// Drawn is the harness laid out; Sheet puts it on paper.
type Drawn struct {
	Why   string // why there is no sheet, for the reader; "" where it is not missed
	shown shown
	chart *diagram.Charted
	frame frame.Frame
}

// shown is how much stands on each wire.
type shown int

const (
	whole   shown = iota // its name and its colours' letters
	names                // its name
	nothing              // its colour alone
)

// Lay lays the sheet out. It does not depend on where anything else stands.
func Lay(a page.Ask) *Drawn {
	if len(a.H.Wires) < fewWires {
		return &Drawn{}
	}
	m := modelled(a)
	for _, show := range []shown{whole, names, nothing} {
		f := a.Large()
		chart, err := diagram.LayChart(m.chart(show), room(f))
		if errors.Is(err, diagram.ErrTooLarge) {
			return &Drawn{Why: fmt.Sprintf("%s and %s are too much for one sheet; see the diagrams.", page.Counted(len(a.H.Parts), "part"), page.Counted(len(a.H.Wires), "wire"))}
		}
		if err != nil {
			return &Drawn{Why: "It could not be laid out; see the diagrams."}
		}
		if chart.Fits {
			return &Drawn{shown: show, chart: chart, frame: f}
		}
	}
	return &Drawn{Why: fmt.Sprintf("It does not fit %s at a readable size; print it on larger paper.", a.LargePaper())}
}

// Sheet is the page, or none.
func Sheet(a page.Ask, d *Drawn) []frame.Page {
	if d.chart == nil {
		return nil
	}
	var c sheet.Canvas
	c.Anchor(Anchor, d.frame.Body.X, d.frame.Body.Y)
	body := d.frame.Heading(&c, title, subtitle(d.shown))
	p := painter{a: a, m: modelled(a), d: d, x: body.X + (body.W-d.chart.W)/2, y: body.Y}
	p.paint(&c)
	return []frame.Page{{Frame: d.frame, Title: title, Marks: c.Marks}}
}

// Glance lays the sheet out and puts it on paper.
func Glance(a page.Ask) []frame.Page { return Sheet(a, Lay(a)) }

const title = "The whole harness at a glance"

// subtitle says what a line shows.
func subtitle(s shown) string {
	const rest = "within each place the feed is at the left and the ground at the right"
	switch s {
	case whole:
		return "every part and every wire, by place; " + rest + "; a flag names the wire and its colours"
	case names:
		return "every part and every wire, by place; " + rest + "; a flag names the wire; on A2 also its colours"
	}
	return "every part and every wire, by place; " + rest + "; print on A2 for every wire's name"
}

func room(f frame.Frame) diagram.ChartRoom {
	var unseen sheet.Canvas
	body := f.Heading(&unseen, title, subtitle(nothing))
	return diagram.ChartRoom{W: body.W, H: body.H, Head: headHigh}
}
