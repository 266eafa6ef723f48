// Package glance draws the whole harness on one large sheet: every part as a small tile in
// the box of its place, every wire as a line in its colour with its name.
//
// In: the model, the results and the large paper. Out: one sheet, or none where the diagrams
// are few enough to be the whole picture, or where the paper cannot hold it at a readable
// size (Drawn.Missed says so). The graph library ranks and orders the parts (chart.Lay);
// no text is smaller than that of flags on a diagram, and what does not fit is left out by
// kind: first the colours' letters, then the wires' names.
package glance

import (
	"errors"
	"fmt"
	"math"

	"example.com/loomfolio/layout/diagram/chart"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Anchor leads to the sheet.
const Anchor = "sheet/glance"

// fewWires is how many wires one or two sheets of diagrams show whole.
const fewWires = 25

// Drawn is the harness laid out; Sheet puts it on paper.
type Drawn struct {
	why   string // why there is no sheet; "" where it is not missed
	shown shown
	chart *chart.Layout
	frame frame.Frame
	scale float64
}

// Missed says why there is no sheet, "" where there is one or none is missed.
func (d *Drawn) Missed() string {
	if d.why == "" {
		return ""
	}
	return title + " is left out: " + d.why + "."
}

// shown is how much stands on the sheet.
type shown int

const (
	whole shown = iota // on a wire its name and its colours' letters; on a part its sign, reference and name
	names              // the wires without their letters
	plain              // the wires without their names
	bare               // the parts with their reference alone
)

// Lay lays the sheet out. It does not depend on where anything else stands.
func Lay(a page.Ask) *Drawn {
	m := modelled(a)
	if len(m.wires) < fewWires {
		return &Drawn{}
	}
	ranks, err := m.chart(whole).Rank()
	if err != nil {
		return &Drawn{why: why(a, err)}
	}
	f := blank(a)
	lay := func(t try) *chart.Layout { return chart.Lay(m.chart(t.shown), ranks, t.room(a, f)) }
	larger, plainer := tries(a)
	for i, t := range plainer {
		laid := lay(t)
		if !laid.Fits {
			continue
		}
		if i == 0 { // all of it has room, so perhaps it has more
			for _, l := range larger {
				if wide := lay(l); wide.Fits {
					t, laid = l, wide
					break
				}
			}
		}
		return &Drawn{shown: t.shown, chart: laid, frame: fitted(f, laid, t.scale), scale: t.scale}
	}
	return &Drawn{why: fmt.Sprintf("it does not fit %s at a readable size: print it on larger paper", a.LargePaper())}
}

func why(a page.Ask, err error) string {
	if errors.Is(err, chart.ErrTooLarge) {
		return fmt.Sprintf("%s and %s are too much for one sheet", page.Counted(len(a.H.Parts), "part"), page.Counted(len(a.H.Wires), "wire"))
	}
	return "it could not be laid out"
}

// try is one way to fill the paper: everything drawn larger by scale, or as it is with less on it.
type try struct {
	shown shown
	scale float64
	tight bool // tiles stand closer, and lines may cross more often
	long  bool // on a roll: as long as it needs
}

// tries are the ways in the order of how well they read on the wall: all of it, drawn larger than it is, and
// as it is, then with less and less on it.
func tries(a page.Ask) (larger, plainer []try) {
	if a.LargePaper() == unit.Roll {
		return []try{{shown: whole, scale: 2}, {shown: whole, scale: 1.4}, {shown: whole, scale: 1.4, long: true}}, []try{{shown: whole, scale: 1, long: true}}
	}
	for _, s := range []shown{whole, names, plain, bare} {
		plainer = append(plainer, try{shown: s, scale: 1, tight: true})
	}
	return []try{{shown: whole, scale: 2}, {shown: whole, scale: 1.4}, {shown: whole, scale: 1.2}}, plainer
}

// rollLength is how long a sheet on a roll is at least, by its height.
const rollLength = 1.25

func (t try) room(a page.Ask, f frame.Frame) chart.Room {
	var unseen sheet.Canvas
	body := f.Heading(&unseen, title, subtitle(a, bare))
	if t.long {
		body.W = math.Inf(1)
	}
	return chart.Room{W: body.W / t.scale, H: body.H / t.scale, Tight: t.tight}
}

// blank is the paper before anything is on it; on a roll of the least length.
func blank(a page.Ask) frame.Frame {
	f := a.Large()
	if f.Lying() {
		return f
	}
	return frame.New(f.H*rollLength, f.H)
}

// fitted is the frame, longer where the chart is.
func fitted(f frame.Frame, laid *chart.Layout, scale float64) frame.Frame {
	if over := laid.W*scale - f.Body.W; over > 0.01 {
		return frame.New(f.W+math.Ceil(over), f.H)
	}
	return f
}

// Sheet is the page, or none.
func Sheet(a page.Ask, d *Drawn) []frame.Page {
	if d.chart == nil {
		return nil
	}
	var c sheet.Canvas
	c.Anchor(Anchor, d.frame.Body.X, d.frame.Body.Y)
	body := d.frame.Heading(&c, title, subtitle(a, d.shown))
	var own sheet.Canvas
	p := painter{a: a, m: modelled(a), d: d}
	p.paint(&own)
	x := body.X + (body.W-d.chart.W*d.scale)/2
	c.Add(sheet.Move(sheet.Scale(own.Marks, d.scale), x, body.Y)...)
	return []frame.Page{{Frame: d.frame, Title: title, Marks: c.Marks}}
}

// Glance lays the sheet out and puts it on paper.
func Glance(a page.Ask) []frame.Page { return Sheet(a, Lay(a)) }

const title = "The wiring at a glance"

// subtitle says what the sheet shows.
func subtitle(a page.Ask, s shown) string {
	rest := "every part and every wire, by place; within each place the feed is at the left and the ground at the right; "
	if len(lying(a.H, harness.Front))+len(lying(a.H, harness.Rear)) > 0 {
		rest = "every part and every wire, by place, the front of the vehicle at the left; in each place the feed is at the left and the ground at the right; "
	}
	larger := "A2"
	if unit.Large(a.LargePaper()) {
		larger = "larger paper"
	}
	switch s {
	case whole:
		return rest + "a flag names the wire and its colours"
	case names:
		return rest + "a flag names the wire; print on " + larger + " for its colours' letters"
	case plain:
		return rest + "print on " + larger + " for the names of all wires"
	}
	return rest + "print on " + larger + " for the names of all wires and parts"
}
