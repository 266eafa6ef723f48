package part

import (
	"slices"
	"strconv"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// recipe makes what lies in a part of a kind that is made of plain elements.
func (b *builder) recipe(r *kind.Recipe) {
	b.p.Positions = strings.Fields(r.Positions)
	var there []kind.Piece
	for _, p := range r.Pieces {
		if _, _, ok := b.ends(r, p); ok && b.with(p.With) {
			there = append(there, p)
		}
	}
	if len(there) == 0 {
		b.Fail("terminals-unclear", b.w.Key.Span, "name its usual terminals, or say under inside: what lies between those that it has",
			"%s has terminals of its own, and nothing says what is between them", b.p.Ref)
	}
	b.starts(there)
	for _, p := range there {
		b.piece(r, p, there)
	}
}

// with tells whether what a piece asks for is said.
func (b *builder) with(key string) bool {
	key, not := strings.CutPrefix(key, "!")
	is := true
	switch key {
	case "ballast":
		is = b.w.Ballast.Given()
	case "changeover":
		is = b.p.Changeover
	}
	return is != not
}

// optional are the terminals that come with what is said.
func (b *builder) optional(r *kind.Recipe) []string {
	var out []string
	if r == nil {
		return nil
	}
	for _, p := range r.Pieces {
		if p.With != "" && b.with(p.With) {
			for _, t := range []string{p.From, p.To} {
				if row, _ := kind.Of(b.p.Kind); !slices.Contains(strings.Fields(row.Terminals), t) && !slices.Contains(out, t) {
					out = append(out, t)
				}
			}
		}
	}
	return out
}

// ends gives the two terminals of a piece. Of a kind with two terminals names of its
// own will do, and where it has one alone its body is the other.
func (b *builder) ends(r *kind.Recipe, p kind.Piece) (from, to harness.TerminalID, ok bool) {
	from, okF := b.has(p.From)
	to, okT := b.has(p.To)
	row, _ := kind.Of(b.p.Kind)
	switch two := len(strings.Fields(row.Terminals)) == 2; {
	case okF && okT:
		return from, to, true
	case two && len(b.p.Terminals) == 2 && !okF && !okT:
		return b.p.Terminals[0], b.p.Terminals[1], p.With == ""
	case two && len(b.p.Terminals) == 1 && row.Role == kind.Switches:
		return b.p.Terminals[0], harness.Chassis, true
	}
	return 0, 0, false
}

// piece makes one element.
func (b *builder) piece(r *kind.Recipe, p kind.Piece, there []kind.Piece) {
	from, to, _ := b.ends(r, p)
	figure, _ := rating.PartFigureOf(string(b.p.Kind), p.Take, b.own().Volts)
	switch p.Is {
	case harness.Load:
		b.pieceLoad(p, from, to, there)
	case harness.Contact:
		b.pieceContact(p, from, to, figure)
	case harness.Resistance:
		e := harness.Element{Kind: harness.Resistance, Name: b.name(from, to), A: from, B: to, Ohms: b.w.Ballast.Or(figure.Ohms)}
		b.element(b.pulsing(e, p))
	case harness.RelayCoil:
		b.pulseCoil(from, to, figure.Ohms)
	case harness.Open:
		b.element(harness.Element{Kind: harness.Open, Name: b.unique(b.p.Ref + ".condenser"), A: from, B: to})
	}
}

func (b *builder) name(from, to harness.TerminalID) string {
	return b.unique(b.between(b.nameOf(from), b.nameOf(to)))
}

// nameOf names a terminal of the part, or the bodywork.
func (b *builder) nameOf(t harness.TerminalID) string {
	if t == harness.Chassis {
		return "body"
	}
	return b.called(t)
}

// pieceLoad makes a load: that of a part with one alone has its name.
func (b *builder) pieceLoad(p kind.Piece, from, to harness.TerminalID, there []kind.Piece) {
	name := b.p.Ref
	if n := slices.IndexFunc(there, func(q kind.Piece) bool { return q.Is == harness.Load && q != p }); n >= 0 {
		name = b.name(from, to)
		if q := there[n]; q.From == p.From && q.To == p.To {
			name = b.p.Ref + "." + p.Take
		}
	}
	if b.sys.PositiveEarth && p.From != "+" && !b.eitherWay() { // the current comes from the body
		from, to = to, from
	}
	behaves := p.Behaves
	if b.w.Behaves.Given() {
		behaves = harness.Behaviour(b.w.Behaves.Text)
	}
	b.load(name, from, to, b.takes(p, there), behaves)
	e := &b.made.Elements[len(b.made.Elements)-1]
	*e = b.pulsing(*e, p)
}

func (b *builder) eitherWay() bool {
	row, _ := kind.Of(b.p.Kind)
	return row.Recipe.EitherWay
}

// pulsing gives an element its dwell.
func (b *builder) pulsing(e harness.Element, p kind.Piece) harness.Element {
	if !p.Pulses {
		return e
	}
	if figure, ok := rating.PartFigureOf(string(b.p.Kind), p.Take, b.own().Volts); ok {
		b.p.Duty = b.w.Duty.Or(figure.Duty)
		e.Pulse = b.p.Duty
	}
	return e
}

// takes is what a load takes: as written for it, as is printed on its lamp, in proportion to
// what is written for the first one, or by the table.
func (b *builder) takes(p kind.Piece, there []kind.Piece) unit.Draw {
	draw := b.single(p, there)
	if p.Times {
		k := b.w.Plugs.Or(1)
		draw.Amps, draw.Watts = unit.Ampere(k)*draw.Amps, unit.Watt(k)*draw.Watts
	}
	return draw
}

// single is takes for one of several alike.
func (b *builder) single(p kind.Piece, there []kind.Piece) unit.Draw {
	figure, _ := rating.PartFigureOf(string(b.p.Kind), p.Take, b.own().Volts)
	draw := figure.Draws
	if b.p.Draws.At > 0 { // at-volts:
		draw.At = b.p.Draws.At
	}
	loads := slices.DeleteFunc(slices.Clone(there), func(q kind.Piece) bool { return q.Is != harness.Load })
	n := slices.Index(loads, p)
	each := b.w.Each.V
	switch {
	case b.w.Draws.Given():
		draw = b.w.Draws.V
	case n < len(each):
		draw = b.printed(p, each, n)
	case len(each) > 0:
		first, _ := rating.PartFigureOf(string(b.p.Kind), loads[0].Take, b.own().Volts)
		if k := b.amps(each[0]) / b.amps(first.Draws); k > 0 {
			draw.Amps, draw.Watts = unit.Ampere(k)*draw.Amps, unit.Watt(k)*draw.Watts
		}
	}
	return draw
}

// amps is the current of a figure, A.
func (b *builder) amps(d unit.Draw) float64 {
	if d.Amps > 0 {
		return float64(d.Amps)
	}
	at := d.At
	if at == 0 {
		at = b.own().Running
	}
	return float64(d.Watts) / float64(at)
}

// printed is a figure as written; of the watts that are printed on a known lamp, what it takes
// where it is tested, which is more.
func (b *builder) printed(p kind.Piece, each []unit.Draw, n int) unit.Draw {
	if len(each) != 2 || p.Behaves != harness.AsLamp || each[n].At > 0 || b.p.Draws.At > 0 || each[n].Watts == 0 {
		return each[n]
	}
	watts := func(d unit.Draw) string { return strconv.FormatFloat(float64(d.Watts), 'f', -1, 64) }
	bulb, ok := rating.BulbOf(b.own().Volts, watts(each[0])+"/"+watts(each[1]))
	if !ok {
		return each[n]
	}
	return unit.Draw{Watts: bulb.Watts[n], At: bulb.Test}
}

// starts gives a part what its first load takes while it starts, where nothing is said: by the
// table, in proportion to what the load takes.
func (b *builder) starts(there []kind.Piece) {
	i := slices.IndexFunc(there, func(p kind.Piece) bool { return p.Is == harness.Load })
	if i < 0 {
		return
	}
	figure, _ := rating.PartFigureOf(string(b.p.Kind), there[i].Take, b.own().Volts)
	start, k := figure.Starts, 1.0
	if b.w.Starts.Given() {
		start = b.w.Starts.V
	} else if usual := b.amps(figure.Draws); usual > 0 && start.Amps > 0 {
		k = b.amps(b.single(there[i], there)) / usual
	}
	if there[i].Times {
		k *= float64(b.w.Plugs.Or(1))
	}
	start.Amps *= unit.Ampere(k)
	b.p.Starts = start
}

// pieceContact makes a contact, closed in its positions, or in the one that is said.
func (b *builder) pieceContact(p kind.Piece, from, to harness.TerminalID, figure rating.PartFigure) {
	if !b.w.Rating.Given() && figure.Rating > 0 {
		b.p.Rating = figure.Rating
	}
	ohms := contactR
	if figure.Ohms > 0 {
		ohms = figure.Ohms
	}
	e := harness.Element{Kind: harness.Contact, Name: b.name(from, to), A: from, B: to, Ohms: ohms}
	if b.w.Closes.Given() {
		p.In = b.w.Closes.Text
	}
	if above, ok := b.has(p.Keeps); ok {
		e.Keeps, e.Above = b.w.Regulated.Or(10*b.own().Volts/12), above // stabilisers of gauges give 10 V; trade practice, from memory
	}
	if closed := p.Numbers(b.p.Positions); len(closed) > 0 {
		e.When = harness.Condition{Kind: harness.InPosition, Switch: b.p.ID, Positions: closed}
	}
	b.element(e)
}

// pulseCoil makes a coil that moves a contact for good: no contact follows it.
func (b *builder) pulseCoil(from, to harness.TerminalID, ohms unit.Ohm) {
	volts := float64(b.own().Volts)
	ohms = b.coilOhms(volts, ohms)
	b.element(harness.Element{
		Kind: harness.RelayCoil, Name: b.name(from, to), A: from, B: to, Ohms: ohms,
		PullIn: unit.Volt(pullIn * volts), DropOut: unit.Volt(dropOut * volts),
	})
}

// socket makes a trailer socket by its standard: while a trailer hangs on it, what such a
// trailer usually has lies between each contact and its own return, which no trailer joins
// to the other returns.
func (b *builder) socket() {
	row, _ := kind.Of(b.p.Kind)
	b.p.Positions = strings.Fields(row.Recipe.Positions)
	towing := harness.Condition{Kind: harness.InPosition, Switch: b.p.ID, Positions: []int{1}}
	contacts := rating.Socket(b.w.Type.Text)
	for _, c := range contacts {
		b.terminal(c.Pin)
	}
	for _, c := range contacts {
		from, okF := b.has(c.Pin)
		to, okT := b.has(c.Return)
		if !okF || !okT {
			continue
		}
		behaves := harness.AsLamp
		if c.Draws.Watts == 0 {
			behaves = harness.AsResistance
		}
		if b.sys.PositiveEarth {
			from, to = to, from
		}
		b.load(b.between(c.Pin, c.Function), from, to, c.Draws, behaves)
		b.made.Elements[len(b.made.Elements)-1].When = towing
	}
}
