package check

import (
	"strings"

	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// parts makes every part with its terminals and elements.
func (c *checker) parts() {
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
	c.fields(w, p)
	b := &builder{c: c, w: w, p: p}
	b.terminals(strings.Fields(row.Terminals))
	if len(w.Inside) > 0 {
		b.inside()
	} else if build := insides[row.Inside]; build != nil {
		build(b)
	}
	b.face()
	if c.Problems.Count(source.Error) > before {
		c.badPart[w.Key.Text] = true
	}
}

func (c *checker) newPart(w *describe.Part, of harness.Kind) *harness.Part {
	id := harness.PartID(len(c.h.Parts))
	c.h.Parts = append(c.h.Parts, harness.Part{
		ID: id, Ref: w.Key.Text, Kind: of, Name: w.Name.Or(w.Key.Text),
		Place: c.place(w.At), Span: w.Key.Span,
	})
	c.written = append(c.written, w)
	c.partBy[w.Key.Text] = id
	return &c.h.Parts[id]
}

// fields takes over what needs no resolving.
func (c *checker) fields(w *describe.Part, p *harness.Part) {
	p.Tail = w.Tail.Or(c.tail(p))
	p.Stud, p.Tab, p.Family = w.Stud.Text, w.Tab.Text, w.Family.Text
	p.Fitting, p.Size, p.Length = w.Fitting.Text, w.Size.V, w.Length.V
	p.Sleeve, p.SleeveSpan = w.Sleeve.Text, w.Sleeve.Span
	p.Notes, p.PartNumber = w.Notes.Text, w.PartNumber.Text
	p.Capacity, p.Output = w.Capacity.V, w.Output.V
	p.Rating, p.RatingSpan = w.Rating.V, w.Rating.Span
	p.Body, p.Holder = w.Body.Or(w.HolderBody.Text), w.Holder.V
	p.BreakerType, p.Studs = w.Type.Text, w.Studs.V
	p.Changeover, p.Suppression = w.Changeover.V, w.Suppression.Or("none")
	p.Needs, p.Momentary, p.Sealed = w.Needs.V, w.Momentary.V, w.Sealed.V
	p.Surface = w.Surface.Text
	p.Draws, p.Starts = w.Draws.V, w.Starts.V
	if w.AtVolts.Given() {
		p.Draws.At = w.AtVolts.V
	}
	p.Duty, p.WorksAbove = w.Duty.Or(1), w.WorksAbove.V
	for _, cavity := range w.Cavities {
		p.Cavities = append(p.Cavities, cavity.Text)
	}
	for _, pair := range w.Found {
		if p.Found == nil {
			p.Found = map[string]string{}
		}
		p.Found[pair.Key.Text] = pair.Value.Text
	}
	c.surface(p)
	c.along(w, p)
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
	if p.Kind != harness.Ground || p.Surface != "" {
		return
	}
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

// builder makes one part's terminals and elements.
type builder struct {
	c *checker
	w *describe.Part
	p *harness.Part
}

// terminals makes the customary terminals, or the written ones.
func (b *builder) terminals(customary []string) {
	names := customary
	if len(b.w.Terminals) > 0 {
		names = nil
		for _, t := range b.w.Terminals {
			names = append(names, t.Text)
		}
	}
	if b.p.Changeover && b.p.Kind == harness.Relay && len(b.w.Terminals) == 0 {
		names = append(append([]string(nil), names...), "87a")
	}
	for _, n := range names {
		b.terminal(n)
	}
	for _, in := range b.w.Inside {
		for _, w := range append([]read.Word{in.From, in.To}, in.Join...) {
			if w.Given() && len(b.w.Terminals) == 0 {
				b.terminal(w.Text)
			}
		}
	}
}

// terminal gives the terminal of that name, made when there is none yet.
func (b *builder) terminal(name string) harness.TerminalID {
	full := b.p.Ref + "." + name
	if name == "" {
		full = b.p.Ref
	}
	return b.c.addTerminal(b.p, name, full, "")
}

func (c *checker) addTerminal(p *harness.Part, name, full, cavity string) harness.TerminalID {
	if id, ok := c.termBy[full]; ok {
		return id
	}
	if len(c.h.Terminals) == 0 {
		c.h.Terminals = append(c.h.Terminals, harness.Terminal{Part: harness.None, Name: "chassis", Full: "chassis"})
	}
	id := harness.TerminalID(len(c.h.Terminals))
	c.h.Terminals = append(c.h.Terminals, harness.Terminal{ID: id, Part: p.ID, Name: name, Full: full, Cavity: cavity})
	p.Terminals = append(p.Terminals, id)
	c.termBy[full] = id
	return id
}

// has gives a terminal that exists; ok is false when the part was written without it.
func (b *builder) has(name string) (harness.TerminalID, bool) {
	id, ok := b.c.termBy[b.p.Ref+"."+name]
	return id, ok
}

// element adds an element to the part.
func (b *builder) element(e harness.Element) harness.ElementID {
	e.ID = harness.ElementID(len(b.c.h.Elements))
	e.Part = b.p.ID
	b.c.h.Elements = append(b.c.h.Elements, e)
	b.p.Elements = append(b.p.Elements, e.ID)
	return e.ID
}

// named makes an element's name from the part and its two terminals.
func (b *builder) between(a, z string) string { return b.p.Ref + "." + a + "-" + z }

// inside makes the joints written under `inside:`.
func (b *builder) inside() {
	for _, in := range b.w.Inside {
		if len(in.Join) > 0 {
			b.join(in)
			continue
		}
		from, ok1 := b.known(in.From)
		to, ok2 := b.known(in.To)
		if !ok1 || !ok2 || from == to {
			continue
		}
		behaves := harness.Behaviour(in.Behaves.Or(string(b.behaves())))
		b.load(b.unique(b.between(in.From.Text, in.To.Text)), from, to, in.Draws.V, behaves)
	}
}

func (b *builder) join(in describe.Inside) {
	first, ok := b.known(in.Join[0])
	for _, w := range in.Join[1:] {
		other, ok2 := b.known(w)
		if ok && ok2 && first != other {
			b.element(harness.Element{Kind: harness.Join, Name: b.unique(b.between(in.Join[0].Text, w.Text)), A: first, B: other})
		}
	}
}

// known gives a terminal named under inside:; one that terminals: lacks is a problem.
func (b *builder) known(w read.Word) (harness.TerminalID, bool) {
	id, ok := b.has(w.Text)
	if !ok && w.Given() {
		b.c.Unknown("unknown-terminal", "terminal of "+b.p.Ref, w, b.c.terminalNames(b.p))
	}
	return id, ok
}

// unique makes a second joint between the same terminals tell itself apart.
func (b *builder) unique(name string) string {
	base := name
	for n := 2; ; n++ {
		taken := false
		for _, e := range b.p.Elements {
			taken = taken || b.c.h.Elements[e].Name == name
		}
		if !taken {
			return name
		}
		name = base + "#" + string(rune('0'+n))
	}
}

func (b *builder) behaves() harness.Behaviour {
	if b.w.Behaves.Given() {
		return harness.Behaviour(b.w.Behaves.Text)
	}
	if row, _ := kind.Of(b.p.Kind); row.Behaves != "" {
		return row.Behaves
	}
	return harness.AsCurrent
}

// load adds a load; watts are turned into amperes at their voltage.
func (b *builder) load(name string, from, to harness.TerminalID, draw unit.Draw, behaves harness.Behaviour) {
	sys := b.c.h.System
	at := draw.At
	if at == 0 {
		at = sys.Running
	}
	amps := draw.Amps
	if amps == 0 {
		amps = unit.Ampere(float64(draw.Watts) / float64(at))
	}
	floor := b.p.WorksAbove
	if floor == 0 {
		floor = unit.Volt(floorShare * float64(sys.Volts))
	}
	b.element(harness.Element{
		Kind: harness.Load, Name: name, A: from, B: to,
		Amps: amps, AtVolts: at, Behaves: behaves, Floor: floor,
	})
}

func (c *checker) terminalNames(p *harness.Part) []string {
	var names []string
	seen := map[string]bool{}
	for _, t := range p.Terminals {
		name := c.h.Terminals[t].Name
		if cavity := c.h.Terminals[t].Cavity; cavity != "" {
			name = cavity
		}
		if name != "" && !seen[name] {
			names = append(names, name)
			seen[name] = true
		}
	}
	return names
}

func (c *checker) partNames() []string {
	var names []string
	for _, p := range c.h.Parts {
		names = append(names, p.Ref)
	}
	return names
}
