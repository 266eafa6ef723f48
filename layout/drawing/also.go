package drawing

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

// numberOf is what a wire's circuit is called in few letters.
func (s *sheets) numberOf(w harness.WireID) string {
	c := s.h.Circuits[s.h.Wires[w].Circuit]
	if c.Number == "" {
		return c.Name
	}
	return c.Number
}

// What the anchors of pins and of tags begin with.
const (
	pinAt = "pin/"
	tagAt = "tag/"
)

// pinAnchor is where a reference to a terminal lands: on the tile that shows it where a
// wire's own circuit is drawn.
func (s *sheets) pinAnchor(t harness.TerminalID, w harness.WireID) string {
	return pinAt + s.h.Terminals[t].Full + "/" + s.h.Circuits[s.h.Wires[w].Circuit].Key
}

// tagAnchor is the place of the tag at which a lent wire begins on a strip.
func tagAnchor(h *harness.Harness, w harness.WireID, st *strip) string {
	return tagAt + h.Wires[w].Name + "/" + h.Wires[st.wires[0]].Name
}

// mostNamed is how many terminals that others use are named.
const mostNamed = 5

// also are the grey lines that say what other circuits use of a part: "also 56a → 27,
// 58 → 24", each with its link, and what feeds the contacts that are shown: "56 ← 23".
func (b *builder) also(p *harness.Part, shown []harness.TerminalID) []symbol.Line {
	var feeds, uses []usedBy
	for _, t := range p.Terminals {
		arrive, leave := b.others(t)
		name := b.s.h.Terminals[t].Name
		if p.Kind == harness.Splice {
			name = ""
		}
		for _, w := range arrive {
			if b.unfed(p, t, shown) {
				feeds = b.use(feeds, w, t, name)
			} else {
				uses = b.use(uses, w, t, name)
			}
		}
		for _, w := range leave {
			uses = b.use(uses, w, t, name)
		}
	}
	wide := b.formFor(p).Caption()
	lines := inLines(b.items(feeds, "←"), "fed: ", wide)
	if n := terminals(uses); n > mostNamed {
		lines = append(lines, symbol.Line{S: fmt.Sprintf("%d more terminals on other sheets", n), Grey: true, Note: true})
	} else {
		lines = append(lines, inLines(b.items(uses, "→"), "also ", wide)...)
	}
	return append(lines, b.backTo(p.Terminals...)...)
}

// usedBy is a circuit with the terminals of a part that it uses.
type usedBy struct {
	circuit harness.CircuitID
	number  string
	names   []string
	target  string
}

// use adds a wire's circuit and the terminal that it uses.
func (b *builder) use(all []usedBy, w harness.WireID, t harness.TerminalID, name string) []usedBy {
	c := b.s.h.Wires[w].Circuit
	for i := range all {
		if all[i].circuit == c {
			if !slices.Contains(all[i].names, name) {
				all[i].names = append(all[i].names, name)
			}
			return all
		}
	}
	return append(all, usedBy{c, b.s.numberOf(w), []string{name}, b.s.pinAnchor(t, w)})
}

func terminals(all []usedBy) int {
	n := 0
	for _, u := range all {
		n += len(u.names)
	}
	return n
}

// items are the words for circuits, the terminals first.
func (b *builder) items(all []usedBy, arrow string) []symbol.Item {
	var out []symbol.Item
	for i, u := range all {
		words := strings.Join(u.names, ", ") + " " + arrow + " " + u.number
		if u.names[0] == "" {
			words = arrow + " " + u.number
			if i > 0 {
				words = u.number
			}
		}
		out = append(out, symbol.Item{S: words, Target: u.target})
	}
	return out
}

// backTo are the lines that lead from terminals back to the tags that name them.
func (b *builder) backTo(terminals ...harness.TerminalID) []symbol.Line {
	return b.inLines(b.backItems(terminals), backWords)
}

// backWords begin what leads back to a tag.
const backWords = "goes on "

func (b *builder) backItems(terminals []harness.TerminalID) []symbol.Item {
	var items []symbol.Item
	for _, t := range terminals {
		for _, x := range b.s.tags[t] {
			if x.strip != b.st && b.own[x.wire] {
				items = append(items, symbol.Item{S: b.s.h.Wires[x.wire].Name + " → " + b.s.numberOf(x.strip.wires[0]), Target: tagAnchor(b.s.h, x.wire, x.strip)})
			}
		}
	}
	return items
}

// inLines sets items in lines as wide as a caption, the first after some words.
func (b *builder) inLines(items []symbol.Item, words string) []symbol.Line {
	return inLines(items, words, b.symbolForm().Words())
}

func inLines(items []symbol.Item, words string, wide float64) []symbol.Line {
	var out []symbol.Line
	used := 0.0
	for i, it := range items {
		w := typeface.Width(it.S+", ", sheet.Regular, sheet.SizeNote)
		if i == 0 || used+w > wide {
			out = append(out, symbol.Line{Grey: true, Note: true})
			used = 0
			if i == 0 {
				out[0].S = words
				used = typeface.Width(words, sheet.Regular, sheet.SizeNote)
			}
		}
		last := len(out) - 1
		out[last].Items = append(out[last].Items, it)
		used += w
	}
	return out
}

// unfed tells whether nothing that is drawn here brings current to a shown terminal of
// contacts: what brings it is told as its feed.
func (b *builder) unfed(p *harness.Part, t harness.TerminalID, shown []harness.TerminalID) bool {
	_, arrive, _ := b.landing(t)
	return len(arrive) == 0 && slices.Contains(shown, t) && !isLoad(p)
}

func isLoad(p *harness.Part) bool {
	switch p.Basic() {
	case harness.Motor, harness.Lamp, harness.Heater, harness.Coil, harness.Solenoid, harness.Horn, harness.Outlet, harness.Sender, harness.Gauge, harness.Module, harness.Starter:
		return true
	}
	return false
}

// others are the wires at a terminal that are not drawn here.
func (b *builder) others(t harness.TerminalID) (arrive, leave []harness.WireID) {
	_, arrive = b.in.only(b.s.use[t].in)
	_, leave = b.in.only(b.s.use[t].out)
	return arrive, leave
}

// fedBy says which circuits bring the supply to a bus, or to a feed of a panel.
func (b *builder) fedBy(p *harness.Part, feed *string, before string) []symbol.Line {
	var items []symbol.Item
	for _, t := range p.Terminals {
		if feed != nil && b.s.h.Terminals[t].Name != *feed || p.Kind == harness.Battery {
			continue
		}
		arrive, _ := b.others(t)
		for _, w := range arrive {
			items = append(items, symbol.Item{S: b.s.numberOf(w), Target: b.s.pinAnchor(t, w)})
		}
	}
	return b.joined(before, b.inLines(compact(items), "fed by "))
}

// leadsOn says which circuits take the current on from a bus.
func (b *builder) leadsOn(p *harness.Part, before string) []symbol.Line {
	var items []symbol.Item
	for _, t := range p.Terminals {
		_, leave := b.others(t)
		for _, w := range leave {
			items = append(items, symbol.Item{S: b.s.numberOf(w), Target: b.s.pinAnchor(t, w)})
		}
	}
	if items = compact(items); len(items) > mostNamed {
		items = nil
	}
	return b.joined(before, b.inLines(items, "goes on in "))
}

// joined puts words before the first of some lines, or above them where that is too wide.
func (b *builder) joined(before string, lines []symbol.Line) []symbol.Line {
	switch {
	case before == "":
		return lines
	case len(lines) == 1 && typeface.Width(before+" · ", sheet.Regular, sheet.SizeNote)+lines[0].Width() <= b.symbolForm().Words():
		lines[0].S = before + " · " + lines[0].S
		return lines
	}
	return append([]symbol.Line{{S: before, Grey: true, Note: true}}, lines...)
}

// compact keeps the first item of each text.
func compact(items []symbol.Item) []symbol.Item {
	var out []symbol.Item
	for _, it := range items {
		if !slices.ContainsFunc(out, func(o symbol.Item) bool { return o.S == it.S }) {
			out = append(out, it)
		}
	}
	return out
}
