package variant

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
)

// cutter takes circuits and parts out of a description.
type cutter struct {
	d       *describe.Description // a copy, whose lists may be replaced
	before  []describe.Part       // all parts
	legs    []*piece
	parts   gone // that were left out
	touched gone // parts at which a wire went
	said    gone // circuits, states and places that were left out, and circuits' numbers
	units   gone // screens and cables of wires that went
}

// piece is a leg, or what is left of one.
type piece struct {
	circuit     int // of the description
	leg         describe.Leg
	left, right bool // it was cut there
	whole       bool // nothing was taken from it
}

// without gives a description without circuits and parts of these names.
func without(d *describe.Description, names []read.Word) *describe.Description {
	out := *d
	c := &cutter{d: &out, before: d.Parts, parts: gone{}, touched: gone{}, said: gone{}, units: gone{}}
	for _, w := range names {
		if slices.ContainsFunc(d.Parts, func(p describe.Part) bool { return p.Key.Text == w.Text }) {
			c.parts[w.Text] = true
		}
	}
	c.number()
	c.cutLegs(names)
	c.trim()
	c.rebuild()
	c.leaveParts()
	c.leavePlaces()
	c.leaveUnits()
	c.leaveStates()
	c.leaveAccepted()
	return c.d
}

// number gives every circuit the number that it has in the whole vehicle, so that a wire has
// one name in all variants.
func (c *cutter) number() {
	var written []string
	for _, circuit := range c.d.Circuits {
		written = append(written, circuit.Number.Text)
	}
	c.d.Circuits = slices.Clone(c.d.Circuits)
	for i, n := range check.Numbered(written) {
		c.d.Circuits[i].Number.Text = n
	}
}

// cutLegs leaves out whole circuits, and cuts the other legs where they pass a part that goes.
func (c *cutter) cutLegs(names []read.Word) {
	for i, circuit := range c.d.Circuits {
		whole := slices.ContainsFunc(names, func(w read.Word) bool { return w.Text == circuit.Key.Text })
		for _, leg := range circuit.Legs {
			if whole {
				c.drop(leg.Stops)
				continue
			}
			c.legs = append(c.legs, c.pieces(i, leg)...)
		}
	}
}

// pieces gives what is left of a leg.
func (c *cutter) pieces(circuit int, leg describe.Leg) []*piece {
	if !slices.ContainsFunc(leg.Stops, func(s describe.Stop) bool { return c.parts[s.Part.Text] }) {
		return []*piece{{circuit: circuit, leg: leg, whole: true}}
	}
	var out []*piece
	from := 0
	for i := 0; i <= len(leg.Stops); i++ {
		if i < len(leg.Stops) && !c.parts[leg.Stops[i].Part.Text] {
			continue
		}
		if i < len(leg.Stops) {
			c.drop(leg.Stops[i : i+1])
		}
		if stops := slices.Clone(leg.Stops[from:i]); len(stops) > 0 {
			p := &piece{circuit: circuit, leg: describe.Leg{Stops: stops, Span: leg.Span}, left: from > 0, right: i < len(leg.Stops)}
			if p.left {
				s := p.leg.Stops[0]
				c.drop(p.leg.Stops[:1])
				p.leg.Stops[0] = describe.Stop{To: s.To, Part: s.Part, Terminal: s.Terminal, Was: s.Was} // the wire that arrived is gone
			}
			out = append(out, p)
		}
		from = i + 1
	}
	return out
}

// drop notes what stops used that go, or lose a wire.
func (c *cutter) drop(stops []describe.Stop) {
	for _, s := range stops {
		c.touched[s.Part.Text] = true
		for _, unit := range []read.Word{s.Screen, s.Cable} {
			if unit.Given() {
				c.units[unit.Text] = true
			}
		}
	}
}

// uses counts the stops that name a terminal, or a part.
type uses struct{ stop, bare, part map[string]int }

func newUses() uses { return uses{map[string]int{}, map[string]int{}, map[string]int{}} }

func (u uses) add(s describe.Stop, n int) {
	u.part[s.Part.Text] += n
	if s.Terminal.Given() {
		u.stop[s.Part.Text+"."+s.Terminal.Text] += n
	} else {
		u.bare[s.Part.Text] += n
	}
}

// of counts the stops at the metal of a stop, as far as names tell.
func (u uses) of(s describe.Stop) int {
	if !s.Terminal.Given() {
		return u.part[s.Part.Text]
	}
	return u.stop[s.Part.Text+"."+s.Terminal.Text] + u.bare[s.Part.Text]
}

// trim takes off what leads nowhere since a part is gone: from each cut end back to where
// something else goes on.
func (c *cutter) trim() {
	all := newUses()
	for _, p := range c.legs {
		for _, s := range p.leg.Stops {
			all.add(s, 1)
		}
	}
	for changed := true; changed; {
		changed = false
		for _, p := range c.legs {
			own := newUses()
			for _, s := range p.leg.Stops {
				own.add(s, 1)
			}
			for len(p.leg.Stops) > 0 && !p.whole {
				at, end := p.dead(all, own)
				if !end {
					break
				}
				s := p.leg.Stops[at]
				c.drop(p.leg.Stops[at : at+1])
				all.add(s, -1)
				own.add(s, -1)
				p.leg.Stops = slices.Delete(p.leg.Stops, at, at+1)
				changed = true
			}
		}
	}
}

// dead gives an end of a piece that leads nowhere; ok tells whether there is one.
func (p *piece) dead(all, own uses) (at int, ok bool) {
	last := len(p.leg.Stops) - 1
	nowhere := func(s describe.Stop) bool { return all.of(s)-own.of(s) <= 0 }
	switch {
	case last == 0:
		return 0, true // one stop is no wire
	case p.right && nowhere(p.leg.Stops[last]):
		return last, true
	case p.left && nowhere(p.leg.Stops[0]):
		return 0, true
	}
	return 0, false
}

// rebuild writes the circuits with what is left of their legs.
func (c *cutter) rebuild() {
	left := map[int][]describe.Leg{}
	for _, p := range c.legs {
		if len(p.leg.Stops) > 0 {
			left[p.circuit] = append(left[p.circuit], p.leg)
		}
	}
	var kept []describe.Circuit
	for i, circuit := range c.d.Circuits {
		if len(left[i]) == 0 && len(circuit.Legs) > 0 {
			c.said[circuit.Key.Text] = true
			c.said[circuit.Number.Text] = true
			continue
		}
		circuit.Legs = left[i]
		kept = append(kept, circuit)
	}
	c.d.Circuits = kept
}

// leaveParts leaves out the parts that only what went has used.
func (c *cutter) leaveParts() {
	used := map[string]bool{}
	for _, circuit := range c.d.Circuits {
		for _, leg := range circuit.Legs {
			for _, s := range leg.Stops {
				used[s.Part.Text] = true
			}
		}
	}
	c.d.Parts = slices.Clone(c.d.Parts)
	c.d.Parts = slices.DeleteFunc(c.d.Parts, func(p describe.Part) bool {
		name := p.Key.Text
		if c.parts[name] || c.touched[name] && !used[name] {
			c.parts[name] = true
		}
		if c.parts[name] {
			c.d.LeftOut = append(c.d.LeftOut, name)
		}
		return c.parts[name]
	})
}

// leaveUnits leaves out the screens and cables in which no wire lies any more, and drains to
// parts that went.
func (c *cutter) leaveUnits() {
	used := map[string]bool{}
	for _, circuit := range c.d.Circuits {
		for _, leg := range circuit.Legs {
			for _, s := range leg.Stops {
				used["screen "+s.Screen.Text], used["cable "+s.Cable.Text] = true, true
			}
		}
	}
	drains := func(stops []describe.Stop) []describe.Stop {
		return slices.DeleteFunc(slices.Clone(stops), func(s describe.Stop) bool { return c.parts[s.Part.Text] })
	}
	var screens []describe.Screen
	for _, s := range c.d.Screens {
		if !c.units[s.Name.Text] || used["screen "+s.Name.Text] {
			s.Drain = drains(s.Drain)
			screens = append(screens, s)
		}
	}
	var cables []describe.Cable
	for _, s := range c.d.Cables {
		if !c.units[s.Name.Text] || used["cable "+s.Name.Text] {
			s.Drain = drains(s.Drain)
			cables = append(cables, s)
		}
	}
	c.d.Screens, c.d.Cables = screens, cables
}

// leaveStates takes out the settings of what went, and a state that then is like another.
func (c *cutter) leaveStates() {
	var kept []describe.State
	for _, s := range c.d.States {
		settings := slices.DeleteFunc(slices.Clone(s.Settings), func(p describe.Pair) bool { return c.parts.says(p.Key.Text) })
		lost := len(settings) < len(s.Settings)
		s.Settings = settings
		if lost && slices.ContainsFunc(c.d.States, func(o describe.State) bool { return o.Key != s.Key && c.alike(s, o) }) {
			c.said[s.Key.Text] = true
			continue
		}
		kept = append(kept, s)
	}
	c.d.States = kept
}

// alike tells of two states that they set the same; the second as it stands in the description.
func (c *cutter) alike(a, b describe.State) bool {
	set := func(s describe.State) string {
		var all []string
		for _, p := range s.Settings {
			all = append(all, p.Key.Text+"="+p.Value.Text)
		}
		slices.Sort(all)
		return strings.Join(all, "\n") + "\n" + s.Engine.Or("off")
	}
	return set(a) == set(b)
}

// leaveAccepted takes out what is accepted of things that went.
func (c *cutter) leaveAccepted() {
	var kept []describe.Accept
	for _, a := range c.d.Accept {
		at := slices.DeleteFunc(slices.Clone(a.At), func(w read.Word) bool {
			return c.parts.says(w.Text) || c.said[w.Text] || c.said[strings.TrimRight(w.Text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")]
		})
		if len(at) > 0 || len(a.At) == 0 {
			a.At = at
			kept = append(kept, a)
		}
	}
	c.d.Accept = kept
}
