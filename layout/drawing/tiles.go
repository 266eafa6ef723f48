package drawing

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/diagram"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// drawn tells whether a wire is drawn in the strip.
func (b *builder) drawn(w harness.WireID) bool { return b.in[w] }

// tile draws a part with the terminals that are used here, and those without which its
// contacts could not be understood.
func (b *builder) tile(p *harness.Part) {
	var us []symbol.Use
	arrive, leave := wiresAt{}, wiresAt{}
	shown := b.shown(p)
	for _, t := range shown {
		u, in, out := b.landing(t)
		arrive[t], leave[t] = slices.Clone(in), slices.Clone(out)
		us = append(us, u)
	}
	caption := b.captionOf(p, shown)
	b.add(node{part: p.ID, kind: asTile, tile: b.s.symbol(p, us, b.withVolts(p, caption), b.formFor(p))}, diagram.Free, arrive, leave)
}

// withVolts puts a splice's volts below its name: it has no tab.
func (b *builder) withVolts(p *harness.Part, caption []symbol.Line) []symbol.Line {
	if p.Kind != harness.Splice {
		return caption
	}
	caption[0].Lead = b.s.withVolts(caption[0].Lead, p.Terminals[0])
	return caption
}

// captionOf is what is said of a part: of one that no own wire touches its name alone.
func (b *builder) captionOf(p *harness.Part, shown []harness.TerminalID) []symbol.Line {
	caption := b.s.caption(p, b.drawn)
	if b.brief(p) {
		return caption[:1]
	}
	return joinLast(caption, b.also(p, shown), b.formFor(p).Caption())
}

// joinLast puts the first of some lines behind the last of a caption where both fit one.
func joinLast(caption, more []symbol.Line, wide float64) []symbol.Line {
	if len(caption) < 2 || len(more) == 0 {
		return append(caption, more...)
	}
	last, first := caption[len(caption)-1], more[0]
	if len(first.Items) > 0 {
		first.S = last.S + " · " + first.S
		if first.Width() <= wide {
			return append(append(slices.Clone(caption[:len(caption)-1]), first), more[1:]...)
		}
	}
	return append(caption, more...)
}

// brief tells whether no own wire touches a part; the supply tells all of each.
func (b *builder) brief(p *harness.Part) bool {
	return !b.st.power && len(b.s.touched(p, b.own)) == 0
}

// withVolts puts what a meter shows at a terminal behind its name.
func (s *sheets) withVolts(name string, t harness.TerminalID) string {
	if v := strings.Join(s.voltsAt(t), " / "); v != "" {
		return name + "  " + v
	}
	return name
}

// shown gives the terminals that a part shows: those used here, both of a part that
// has two, and of contacts the other side where only one is used.
func (b *builder) shown(p *harness.Part) []harness.TerminalID {
	touched := b.s.touched(p, b.in)
	keep := func(t harness.TerminalID) bool {
		return slices.Contains(touched, t) || len(p.Terminals) <= 2 || b.s.bodyGrounds(t)
	}
	if kind.RoleOf(p.Kind) == kind.Switches {
		across := b.across(p, touched)
		keep = func(t harness.TerminalID) bool {
			return slices.Contains(touched, t) || len(p.Terminals) <= 2 || slices.Contains(across, t) || b.s.bodyGrounds(t)
		}
	}
	return slices.DeleteFunc(slices.Clone(p.Terminals), func(t harness.TerminalID) bool { return !keep(t) })
}

// across gives the terminals on the other side of the contacts of those that are used,
// where that side is not used here itself.
func (b *builder) across(p *harness.Part, touched []harness.TerminalID) []harness.TerminalID {
	var out []harness.TerminalID
	joined := map[harness.TerminalID]bool{}
	for _, e := range p.Elements {
		x := &b.s.h.Elements[e]
		if x.Kind == harness.Contact && slices.Contains(touched, x.A) && slices.Contains(touched, x.B) {
			joined[x.A], joined[x.B] = true, true
		}
	}
	for _, e := range p.Elements {
		x := &b.s.h.Elements[e]
		if x.Kind != harness.Contact {
			continue
		}
		for _, pair := range [][2]harness.TerminalID{{x.A, x.B}, {x.B, x.A}} {
			if slices.Contains(touched, pair[0]) && !joined[pair[0]] && pair[1] > 0 && b.s.wired(pair[1]) {
				out = append(out, pair[1])
			}
		}
	}
	return out
}

// post draws a terminal at which wires arrive and leave.
func (b *builder) post(p *harness.Part) {
	t := b.s.touched(p, b.in)[0]
	u, arrive, leave := b.landing(t)
	caption := append([]symbol.Line{{Lead: b.s.h.Terminals[t].Full}}, b.nameAndPlace(p)...)
	b.add(node{part: p.ID, kind: asPost, tile: symbol.Post(u, caption, b.symbolForm())}, diagram.Free, wiresAt{t: arrive}, wiresAt{t: leave})
}

// told are a part's plain name and place the first time it is drawn.
func (b *builder) told(p *harness.Part) (name, place string) {
	if !b.first(p) {
		return "", ""
	}
	if name = p.Name; name == p.Ref {
		name = ""
	}
	return name, b.s.place(p)
}

// nameAndPlace are a part's plain name and place the first time it is drawn.
func (b *builder) nameAndPlace(p *harness.Part) []symbol.Line {
	if !b.first(p) {
		return nil
	}
	if p.Name == p.Ref {
		return symbol.Caption("", "", b.s.place(p))[1:]
	}
	return symbol.Caption("", "", b.s.place(p), p.Name)[1:]
}

// tagged draws the tag at which a lent wire begins: the pin from which it comes.
func (b *builder) tagged(w harness.WireID) {
	from := b.s.h.Wires[w].From
	u := symbol.Use{Terminal: from, Out: 1}
	tile := symbol.Tag(u, symbol.East, "← "+b.s.says().Terminal(from), b.s.numberOf(w), b.s.pinAnchor(from, w), b.symbolForm())
	b.add(node{part: harness.None, kind: asTag, from: w, tile: tile}, diagram.Free, wiresAt{}, wiresAt{from: {w}})
}

// rail draws an entry for every wire that a supply sends out.
func (b *builder) rail(p *harness.Part) {
	for _, t := range b.s.touched(p, b.in) {
		_, _, leave := b.landing(t)
		for i, w := range leave {
			n := node{part: p.ID, kind: asRail, key: b.s.h.Terminals[t].Full}
			if i == 0 {
				n.tile = symbol.Rail(t, b.railLabel(p, t))
			} else {
				n.tile = symbol.Rail(t, nil)
			}
			id := len(b.g.Nodes)
			b.add(n, diagram.First, wiresAt{}, wiresAt{t: {w}})
			b.g.Nodes[id].Lead = i == 0
		}
	}
}

func (b *builder) railLabel(p *harness.Part, t harness.TerminalID) []symbol.Line {
	lines := []symbol.Line{{Lead: b.s.withVolts(b.s.h.Terminals[t].Full, t)}}
	name, place := b.told(p)
	if name != "" {
		lines = append(lines, symbol.Line{S: name})
	}
	lines = append(lines, b.fedBy(p, nil, place)...)
	return append(lines, b.backTo(t)...)
}

// end draws an entry for every wire that ends on a bus.
func (b *builder) end(p *harness.Part) {
	for _, t := range b.s.touched(p, b.in) {
		_, arrive, _ := b.landing(t)
		for i, w := range arrive {
			n := node{part: p.ID, kind: asEnd, key: "end " + p.Ref}
			var label []symbol.Line
			if i == 0 {
				label = b.endLabel(p, t)
			}
			n.tile = symbol.EndRail(t, label, b.symbolForm())
			n.key = b.s.h.Terminals[t].Full
			b.add(n, diagram.Last, wiresAt{t: {w}}, wiresAt{})
		}
	}
}

func (b *builder) endLabel(p *harness.Part, t harness.TerminalID) []symbol.Line {
	lines := []symbol.Line{{Lead: b.s.withVolts(b.s.h.Terminals[t].Full, t)}}
	name, place := b.told(p)
	if name != "" {
		lines = append(lines, symbol.Line{S: name})
	}
	return append(lines, b.leadsOn(p, place)...)
}

// ground draws an entry of the chassis rail for every wire.
func (b *builder) ground(p *harness.Part) {
	for _, t := range p.Terminals {
		_, arrive, leave := b.landing(t)
		for _, w := range append(slices.Clone(arrive), leave...) {
			n := node{part: p.ID, kind: asGround}
			side, at := symbol.West, diagram.Last
			if slices.Contains(leave, w) {
				side, at = symbol.East, diagram.First
			}
			n.tile = symbol.GroundEntry(t, side, b.groundLabel(p), b.symbolForm())
			if side == symbol.West {
				b.add(n, at, wiresAt{t: {w}}, wiresAt{})
			} else {
				b.add(n, at, wiresAt{}, wiresAt{t: {w}})
			}
		}
	}
}

func (b *builder) groundLabel(p *harness.Part) []symbol.Line {
	lines := []symbol.Line{{Lead: b.s.withVolts(p.Ref, p.Terminals[0])}}
	if !b.first(p) {
		return lines
	}
	lines[0].S, lines[0].Grey, lines[0].Note = b.s.place(p), true, true
	return lines
}

// first tells whether a part is shown for the first time on this strip.
func (b *builder) first(p *harness.Part) bool {
	if b.named[p.ID] {
		return false
	}
	b.named[p.ID] = true
	return true
}

// positions draws each used position of a fuse panel as a fuse of its own, and a feed
// that is wired here with the positions behind it as one tile.
func (b *builder) positions(p *harness.Part) {
	for _, stage := range b.s.stages(p, b.in) {
		if stage = b.landed(stage); len(stage) == 0 {
			continue
		}
		if feed := b.s.feedOf(p, b.s.h.Terminals[stage[0]].Name); feed != "" {
			b.position(p, stage[0], feed)
			continue
		}
		var us []symbol.Use
		arrive, leave := wiresAt{}, wiresAt{}
		for _, t := range stage {
			u, in, out := b.landing(t)
			u.Says = b.s.shortFuse(p, u.Name)
			us = append(us, u)
			arrive[t], leave[t] = in, out
		}
		n := node{part: p.ID, kind: asPositions}
		if len(stage) == 1 {
			form := b.symbolForm()
			form.Beside = !b.form.narrow
			n.tile = b.s.symbol(p, us, b.s.panelCaption(p, us), form)
		} else {
			n.tile = symbol.Stage(us[0], us[1:], b.stageCaption(p), b.symbolForm())
		}
		b.add(n, diagram.Free, arrive, leave)
	}
}

// landed leaves out the terminals on which nothing lands but wires that begin at a tag.
func (b *builder) landed(stage []harness.TerminalID) []harness.TerminalID {
	return slices.DeleteFunc(slices.Clone(stage), func(t harness.TerminalID) bool {
		_, arrive, leave := b.landing(t)
		return len(arrive)+len(leave) == 0
	})
}

func (b *builder) stageCaption(p *harness.Part) []symbol.Line {
	return append(symbol.Caption(p.Ref, p.Name, b.s.place(p)), b.backTo(p.Terminals...)...)
}

func (b *builder) position(p *harness.Part, t harness.TerminalID, feed string) {
	u, in, out := b.landing(t)
	us := []symbol.Use{{Name: feed, Terminal: harness.Chassis}, u}
	caption := []symbol.Line{{Lead: b.s.h.Terminals[t].Full, S: b.s.shortFuse(p, u.Name)}}
	name, _ := b.told(p)
	caption = append(caption, b.fedBy(p, &feed, name)...)
	caption = append(caption, b.backTo(t)...)
	n := node{part: p.ID, kind: asPositions, tile: b.s.symbol(p, us, caption, b.formFor(p))}
	b.add(n, diagram.Free, wiresAt{t: in}, wiresAt{t: out})
}

// feedOf gives the feed of a panel's position, "" when the name is none.
func (s *sheets) feedOf(p *harness.Part, position string) string {
	for _, f := range p.Panel.Feeds {
		if slices.Contains(f.Positions, position) {
			return f.Name
		}
	}
	return ""
}

// cavities draws each used cavity of a connector as a pair of brackets.
func (b *builder) cavities(p *harness.Part) {
	for _, ts := range cavities(b.s.h, p) {
		var us []symbol.Use
		arrive, leave := wiresAt{}, wiresAt{}
		for _, t := range ts {
			u, in, out := b.landing(t)
			if len(in)+len(out) > 0 {
				us = append(us, u)
				arrive[t], leave[t] = in, out
			}
		}
		if len(us) == 0 {
			continue
		}
		n := node{part: p.ID, kind: asCavities, tile: b.s.symbol(p, us, b.cavityCaption(p, ts), b.symbolForm())}
		b.add(n, diagram.Free, arrive, leave)
	}
}

func (b *builder) cavityCaption(p *harness.Part, ts []harness.TerminalID) []symbol.Line {
	x := b.s.h.Terminals[ts[0]]
	lines := []symbol.Line{{Lead: b.s.withVolts(p.Ref+"."+x.Cavity, ts[0])}}
	if b.first(p) {
		lines[0].S, lines[0].Grey, lines[0].Note = b.s.place(p), true, true
	}
	return append(lines, b.backTo(ts...)...)
}
