package drawing

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/diagram"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/sizing/harness"
)

// drawn tells whether a wire is drawn in the strip.
func (b *builder) drawn(w harness.WireID) bool { return b.in[w] }

// tile draws a part whole, with the terminals on which anything lands anywhere.
func (b *builder) tile(p *harness.Part) {
	var us []symbol.Use
	arrive, leave := wiresAt{}, wiresAt{}
	var on []goesOn
	shown, hidden := b.shown(p)
	for _, t := range shown {
		u, in, out := b.s.landing(t, b.in)
		arrive[t], leave[t] = slices.Clone(in), slices.Clone(out)
		if ref, ok := b.goesOn(p, t); ok {
			on = append(on, ref)
			if ref.source {
				u.In++
				arrive[t] = append(arrive[t], ref.line)
			} else {
				u.Out++
				leave[t] = append(leave[t], ref.line)
			}
		}
		us = append(us, u)
	}
	caption := b.s.caption(p, b.drawn, hidden)
	n := node{part: p.ID, kind: asTile}
	if half := b.half(p); half != "" {
		caption = append(caption, symbol.Line{S: other[half] + ": ", Ref: halfAnchor(p, other[half]), Grey: true})
		n.also = halfAnchor(p, half)
	}
	n.tile = symbol.New(b.s.h, p, us, caption, b.symbolForm())
	b.anchor(&n)
	b.add(n, diagram.Free, arrive, leave)
	b.references(on)
}

// shown gives the terminals that a part shows, and how many it leaves to other
// sheets: those with wires; of a part that has many, only those used here.
func (b *builder) shown(p *harness.Part) (shown []harness.TerminalID, hidden int) {
	half := b.half(p)
	for _, t := range p.Terminals {
		if (b.s.wired(t) || len(p.Terminals) <= 2) && (half == "" || b.s.halfOf(t) == half) {
			shown = append(shown, t)
		}
	}
	here := b.s.touched(p, b.in)
	most := mostTabs
	if p.Kind == harness.Switch || p.Kind == harness.IgnitionSwitch {
		most = mostRungs
	}
	if p.Kind == harness.Bus || len(shown) > most {
		return here, len(shown) - len(here)
	}
	return shown, 0
}

// More terminals than these are not all shown on every sheet: a switch needs its
// rungs to be understood.
const (
	mostTabs  = 6
	mostRungs = 9
)

func (b *builder) anchor(n *node) {
	p := b.s.h.Parts[n.part]
	if b.s.home[p.ID] == b.strip && !b.anchored[p.ID] {
		b.anchored[p.ID] = true
		n.anchor = "part/" + p.Ref
	}
}

// goesOn is a terminal that also has wires on other sheets.
type goesOn struct {
	terminal harness.TerminalID
	source   bool // the wires elsewhere bring current here
	line     harness.WireID
	title    string
	anchor   string
}

// goesOn tells whether a tile's terminal has wires elsewhere that are worth an arrow.
func (b *builder) goesOn(p *harness.Part, t harness.TerminalID) (goesOn, bool) {
	_, in := b.in.only(b.s.use[t].in)
	_, out := b.in.only(b.s.use[t].out)
	if len(in)+len(out) == 0 || p.Kind == harness.Battery || p.Kind == harness.Bus {
		return goesOn{}, false
	}
	b.last--
	ref := goesOn{terminal: t, source: len(in) > len(out), line: b.last}
	others := append(slices.Clone(in), out...)
	ref.title = b.names(others)
	ref.anchor = b.s.anchorOf(others[0])
	return ref, true
}

func (b *builder) names(wires []harness.WireID) string {
	var names []string
	for i, w := range wires {
		if i == 3 && len(wires) > 4 {
			names = append(names, fmt.Sprintf("+%d", len(wires)-3))
			break
		}
		names = append(names, b.s.h.Wires[w].Name)
	}
	return strings.Join(names, ", ")
}

// references adds an arrow for each terminal that goes on elsewhere.
func (b *builder) references(on []goesOn) {
	for _, ref := range on {
		u := symbol.Use{Terminal: ref.terminal, In: 1}
		side, arrive, leave := symbol.West, wiresAt{ref.terminal: {ref.line}}, wiresAt{}
		if ref.source {
			u = symbol.Use{Terminal: ref.terminal, Out: 1}
			side, arrive, leave = symbol.East, leave, arrive
		}
		n := node{part: harness.None, kind: asTag, tile: symbol.Tag(u, side, ref.title, ref.anchor, b.symbolForm())}
		b.add(n, diagram.Free, arrive, leave)
	}
}

// tag stands for a part that is drawn elsewhere.
func (b *builder) tag(p *harness.Part) {
	t := b.s.touched(p, b.in)[0]
	u, arrive, leave := b.s.landing(t, b.in)
	full := b.s.h.Terminals[t].Full
	if len(arrive) > 0 {
		in := u
		in.Out = 0
		b.add(node{part: p.ID, kind: asTag, tile: symbol.Tag(in, symbol.West, full, "part/"+p.Ref, b.symbolForm())}, diagram.Free, wiresAt{t: arrive}, wiresAt{})
	}
	if len(leave) > 0 {
		out := u
		out.In = 0
		b.add(node{part: p.ID, kind: asTag, tile: symbol.Tag(out, symbol.East, full, "part/"+p.Ref, b.symbolForm())}, diagram.Free, wiresAt{}, wiresAt{t: leave})
	}
}

// rail draws an entry for every wire that a supply sends out.
func (b *builder) rail(p *harness.Part) {
	for _, t := range b.s.touched(p, b.in) {
		_, _, leave := b.s.landing(t, b.in)
		first := b.first(p)
		for i, w := range leave {
			n := node{part: p.ID, kind: asRail, key: b.s.h.Terminals[t].Full, lead: i == 0}
			n.tile = symbol.Rail(t, b.railLabel(p, t, i, first))
			if i == 0 {
				b.anchor(&n)
			}
			b.add(n, diagram.First, wiresAt{}, wiresAt{t: {w}})
		}
	}
}

func (b *builder) railLabel(p *harness.Part, t harness.TerminalID, i int, first bool) []symbol.Line {
	if i > 0 {
		return nil
	}
	lines := []symbol.Line{{S: b.s.h.Terminals[t].Full, Bold: true}}
	if first && p.Name != p.Ref {
		lines = append(lines, symbol.Line{S: p.Name})
	}
	if b.s.home[p.ID] != b.strip {
		lines = append(lines, symbol.Line{Grey: true, Ref: "part/" + p.Ref})
	}
	return lines
}

// ground draws an entry of the chassis rail for every wire.
func (b *builder) ground(p *harness.Part) {
	for _, t := range p.Terminals {
		_, arrive, leave := b.s.landing(t, b.in)
		for _, w := range append(slices.Clone(arrive), leave...) {
			n := node{part: p.ID, kind: asGround}
			side, at := symbol.West, diagram.Last
			if slices.Contains(leave, w) {
				side, at = symbol.East, diagram.First
			}
			n.tile = symbol.GroundEntry(t, side, b.groundLabel(p))
			b.anchor(&n)
			if side == symbol.West {
				b.add(n, at, wiresAt{t: {w}}, wiresAt{})
			} else {
				b.add(n, at, wiresAt{}, wiresAt{t: {w}})
			}
		}
	}
}

func (b *builder) groundLabel(p *harness.Part) []symbol.Line {
	lines := []symbol.Line{{S: p.Ref, Bold: true}}
	if !b.first(p) {
		return lines
	}
	if place := b.s.place(p); place != "" {
		lines = append(lines, symbol.Line{S: place, Grey: true})
	}
	if p.Surface != "" {
		lines = append(lines, symbol.Line{S: p.Surface, Grey: true})
	}
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

// positions draws each used position of a fuse panel as a fuse of its own, and
// the feeds that are wired here as one tile.
func (b *builder) positions(p *harness.Part) {
	feeds := []symbol.Use{}
	arrive, leave := wiresAt{}, wiresAt{}
	for _, t := range b.s.touched(p, b.in) {
		u, in, out := b.s.landing(t, b.in)
		if feed := b.s.feedOf(p, b.s.h.Terminals[t].Name); feed != "" {
			b.position(p, t, u, in, out, feed)
			continue
		}
		feeds = append(feeds, u)
		arrive[t], leave[t] = in, out
	}
	if len(feeds) > 0 {
		n := node{part: p.ID, kind: asTile, tile: symbol.New(b.s.h, p, feeds, b.s.panelCaption(p, feeds), b.symbolForm())}
		b.anchor(&n)
		b.add(n, diagram.Free, arrive, leave)
	}
}

func (b *builder) position(p *harness.Part, t harness.TerminalID, u symbol.Use, in, out []harness.WireID, feed string) {
	us := []symbol.Use{{Name: feed, Terminal: harness.Chassis}, u}
	n := node{part: p.ID, kind: asPositions, tile: symbol.New(b.s.h, p, us, b.s.positionCaption(p, t, b.first(p), b.home(p)), b.symbolForm())}
	b.anchor(&n)
	b.add(n, diagram.Free, wiresAt{t: in}, wiresAt{t: out})
}

func (b *builder) home(p *harness.Part) bool { return b.s.home[p.ID] == b.strip }

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
			u, in, out := b.s.landing(t, b.in)
			if len(in)+len(out) > 0 {
				us = append(us, u)
				arrive[t], leave[t] = in, out
			}
		}
		if len(us) == 0 {
			continue
		}
		n := node{part: p.ID, kind: asCavities, tile: symbol.New(b.s.h, p, us, b.cavityCaption(p, ts[0]), b.symbolForm())}
		b.anchor(&n)
		b.add(n, diagram.Free, arrive, leave)
	}
}

func (b *builder) cavityCaption(p *harness.Part, t harness.TerminalID) []symbol.Line {
	lines := []symbol.Line{{S: p.Ref + "." + b.s.h.Terminals[t].Cavity, Bold: true}}
	if b.first(p) {
		if place := b.s.place(p); place != "" {
			lines = append(lines, symbol.Line{S: place, Grey: true})
		}
	}
	return lines
}
