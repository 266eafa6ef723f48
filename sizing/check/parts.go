package check

import (
	"slices"

	"example.com/loomfolio/sizing/check/part"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// parts makes every part with its terminals and elements.
func (c *checker) parts() {
	c.nameStops()
	for i := range c.d.Parts {
		c.part(&c.d.Parts[i])
	}
	c.engineBlock()
}

func (c *checker) part(w *describe.Part) {
	row, known := kind.Of(harness.Kind(w.Kind.Text))
	if !known { // describe has reported the unknown kind
		c.badPart[w.Key.Text] = true
		return
	}
	before := c.Problems.Count(source.Error)
	p := c.newPart(w, row.Kind)
	p.Tail, p.Surface = w.Tail.Or(c.tail(p)), w.Surface.Text
	c.surface(p)
	c.along(w, p)
	next := part.Next{
		Terminal: harness.TerminalID(len(c.h.Terminals)), Element: harness.ElementID(len(c.h.Elements)),
		Named: c.stopNames[p.Ref],
	}
	c.made = append(c.made, makes{w, p.ID, next})
	c.take(part.Make(w, *p, part.Sides{Main: c.h.System}, next))
	c.bodySurface(w, &c.h.Parts[p.ID])
	if c.Problems.Count(source.Error) > before {
		c.badPart[w.Key.Text] = true
	}
}

func (c *checker) newPart(w *describe.Part, of harness.Kind) *harness.Part {
	id := harness.PartID(len(c.h.Parts))
	c.h.Parts = append(c.h.Parts, harness.Part{
		ID: id, Ref: w.Key.Text, Kind: of, Name: w.Name.Or(w.Key.Text),
		Place: c.place(w.At), Picture: c.picture(w.Picture), Span: w.Key.Span,
	})
	c.partBy[w.Key.Text] = id
	return &c.h.Parts[id]
}

// nameStops notes what the stops of all legs call the terminals of each part.
func (c *checker) nameStops() {
	for i := range c.d.Circuits {
		for n := range c.d.Circuits[i].Legs {
			for _, s := range c.d.Circuits[i].Legs[n].Stops {
				if names := c.stopNames[s.Part.Text]; s.Terminal.Given() && !slices.Contains(names, s.Terminal.Text) {
					c.stopNames[s.Part.Text] = append(names, s.Terminal.Text)
				}
			}
		}
	}
}

// take puts into the model what a part was made of.
func (c *checker) take(made part.Made) {
	c.h.Parts[made.Part.ID] = made.Part
	c.h.Terminals = append(c.h.Terminals, made.Terminals...)
	c.h.Elements = append(c.h.Elements, made.Elements...)
	for _, t := range made.Terminals {
		c.termBy[t.Full] = t.ID
	}
	c.openBuses[made.Part.ID] = made.Open
	c.Take(made.Problems)
}

// element adds to a part what is in it only by the circuits that it is used in.
func (c *checker) element(p *harness.Part, e harness.Element) {
	e.ID, e.Part = harness.ElementID(len(c.h.Elements)), p.ID
	c.h.Elements = append(c.h.Elements, e)
	p.Elements = append(p.Elements, e.ID)
}

// tail of a part that gives none: that of its place. A splice lies in the loom and has none.
func (c *checker) tail(p *harness.Part) unit.Millimetre {
	if p.Kind == harness.Splice || p.Place == harness.None {
		return 0
	}
	return c.h.Places[p.Place].Tail
}

// surface of a ground: its own, else that of its place, else painted (the careful guess).
func (c *checker) surface(p *harness.Part) {
	if p.Kind == harness.Ground && p.Surface == "" {
		c.metalOf(p)
	}
}

// bodySurface is the metal that a part stands on which its own body grounds.
func (c *checker) bodySurface(w *describe.Part, p *harness.Part) {
	if p.BodyGround {
		if p.Surface = w.Grounds.Surface.Text; p.Surface == "" {
			c.metalOf(p)
		}
	}
}

// metalOf takes the surface of a part's place, else painted.
func (c *checker) metalOf(p *harness.Part) {
	p.Surface = "painted"
	if p.Place != harness.None && c.h.Places[p.Place].Surface != "" {
		p.Surface = c.h.Places[p.Place].Surface
	}
}

// along places a splice on a run.
func (c *checker) along(w *describe.Part, p *harness.Part) {
	if !w.Along.Span.Known() {
		return
	}
	from, to := c.place(w.Along.From), c.place(w.Along.To)
	if from == harness.None || to == harness.None {
		return
	}
	for _, r := range c.h.Runs {
		distance := w.Along.Distance.V
		switch {
		case r.From == from && r.To == to:
		case r.From == to && r.To == from:
			distance = r.Length - distance
		default:
			continue
		}
		if distance < 0 || distance > r.Length {
			c.Fail("splice-off-run", w.Along.Distance.Span, "give a distance between 0 and the run's length", "%s lies beyond the end of the run (%s long)", p.Ref, r.Length)
		}
		p.Along = &harness.Along{Run: r.ID, Distance: distance}
		return
	}
	c.Fail("unknown-run", w.Along.Span, "write the two places of a run under runs:", "no run joins %s and %s", w.Along.From.Text, w.Along.To.Text)
}

func (c *checker) partNames() []string {
	var names []string
	for _, p := range c.h.Parts {
		names = append(names, p.Ref)
	}
	return names
}

func (c *checker) terminalNames(p *harness.Part) []string {
	var of []harness.Terminal
	for _, t := range p.Terminals {
		of = append(of, c.h.Terminals[t])
	}
	return part.Names(of)
}
