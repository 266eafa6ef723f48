package drawing

import (
	"slices"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

// feeder is a part from which circuits take their supply, with its taps.
type feeder struct {
	part  harness.PartID
	fedBy []harness.CircuitID
	taps  []tap
}

// tap is a circuit that begins at a terminal of a feeder.
type tap struct {
	terminal harness.TerminalID
	circuit  harness.CircuitID
}

// feeders finds, for every circuit, the parts that it takes its supply from without
// bringing any to them; supplies come first, then what they feed in turn.
func (s *sheets) feeders() []feeder {
	var all []feeder
	at := map[harness.PartID]int{}
	for _, c := range s.h.Circuits {
		in := setOf(c.Wires)
		for _, id := range s.partsOf(c.Wires) {
			p := &s.h.Parts[id]
			if p.Kind == harness.Ground || s.broughtTo(p, in) {
				continue
			}
			for _, t := range s.touched(p, in) {
				if _, onward := s.liveWires(t, in); len(onward) == 0 || t == s.minus(p) {
					continue
				}
				if _, ok := at[id]; !ok {
					at[id] = len(all)
					all = append(all, feeder{part: id, fedBy: s.fedBy(p)})
				}
				all[at[id]].taps = append(all[at[id]].taps, tap{t, c.ID})
			}
		}
	}
	return s.inFlow(all)
}

// minus is a battery's terminal to the chassis side; None for other parts.
func (s *sheets) minus(p *harness.Part) harness.TerminalID {
	earthed := "-"
	if s.h.System.PositiveEarth {
		earthed = "+"
	}
	for _, t := range p.Terminals {
		if p.Kind == harness.Battery && s.h.Terminals[t].Name == earthed {
			return t
		}
	}
	return harness.None
}

// broughtTo tells whether a circuit brings current to a part, supplies apart.
func (s *sheets) broughtTo(p *harness.Part, in set) bool {
	if p.Kind == harness.Battery || p.Kind == harness.Alternator {
		return false
	}
	return slices.ContainsFunc(p.Terminals, func(t harness.TerminalID) bool {
		brought, _ := s.liveWires(t, in)
		return len(brought) > 0
	})
}

// liveWires parts the wires of a set at a terminal into those that bring the
// supply and those that take it onward. With the positive pole on the bodywork the
// supply comes from the negative one, against the current.
func (s *sheets) liveWires(t harness.TerminalID, in set) (brought, onward []harness.WireID) {
	_, arrive, leave := s.landing(t, in)
	if s.h.System.PositiveEarth {
		return leave, arrive
	}
	return arrive, leave
}

// fedBy lists the circuits whose wires bring the supply to a part.
func (s *sheets) fedBy(p *harness.Part) []harness.CircuitID {
	var out []harness.CircuitID
	if p.Kind == harness.Battery || p.Kind == harness.Alternator {
		return nil
	}
	for _, t := range p.Terminals {
		bring := s.use[t].in
		if s.h.System.PositiveEarth {
			bring = s.use[t].out
		}
		for _, w := range bring {
			if c := s.h.Wires[w].Circuit; !slices.Contains(out, c) {
				out = append(out, c)
			}
		}
	}
	return out
}

// inFlow orders feeders so that one comes after those that feed it, as far as
// that is possible; the order of the file decides between equals.
func (s *sheets) inFlow(all []feeder) []feeder {
	var out []feeder
	reached := map[harness.CircuitID]bool{}
	rest := slices.Clone(all)
	for len(rest) > 0 {
		at := slices.IndexFunc(rest, func(f feeder) bool {
			return len(f.fedBy) == 0 || slices.ContainsFunc(f.fedBy, func(c harness.CircuitID) bool { return reached[c] })
		})
		f := rest[max(at, 0)]
		for _, t := range f.taps {
			reached[t.circuit] = true
		}
		out = append(out, f)
		rest = slices.Delete(rest, max(at, 0), max(at, 0)+1)
	}
	return out
}

// Sizes of the overview, mm.
const (
	columnGap = 8.0
	leastWide = 115.0 // of a column
	tapHigh   = 6.4
	blockGap  = 5.0
	feedHigh  = 12.0
	tapIn     = 8.0 // from the trunk to the tap's words
)

// overview draws what feeds what: each supply, panel or switch with the circuits
// that begin there, on as many sheets as that takes.
func (s *sheets) overview() []Drawing {
	blocks := s.feeders()
	if len(s.h.Circuits) < 2 || len(blocks) == 0 {
		return nil
	}
	const title, sub = "Overview", "what feeds what, and on which sheet each circuit is drawn"
	area := s.area(title, sub)
	columns := max(1, int((area.W+columnGap)/(leastWide+columnGap)))
	wide := (area.W - columnGap*float64(columns-1)) / float64(columns)
	var out []Drawing
	var c sheet.Canvas
	column, y := 0, area.Y
	turn := func() {
		column, y = column+1, area.Y
		if column == columns {
			out = append(out, Drawing{Title: title, Subtitle: sub, Marks: c.Marks, Area: area})
			c, column = sheet.Canvas{}, 0
		}
	}
	for _, f := range blocks {
		for first := true; len(f.taps) > 0; first = false {
			n := int((area.Bottom() - y - feedHigh) / tapHigh)
			if y > area.Y && n < min(len(f.taps), 3) {
				turn()
				n = int((area.H - feedHigh) / tapHigh)
			}
			n = min(max(n, 1), len(f.taps))
			s.feed(&c, sheet.Rect{X: area.X + float64(column)*(wide+columnGap), Y: y, W: wide}, f, f.taps[:n], first)
			y += feedHigh + float64(n)*tapHigh + blockGap
			f.taps = f.taps[n:]
		}
	}
	return append(out, Drawing{Title: title, Subtitle: sub, Marks: c.Marks, Area: area})
}

// feed draws one feeder with some of its taps from the top left of an area.
func (s *sheets) feed(c *sheet.Canvas, r sheet.Rect, f feeder, taps []tap, first bool) {
	p := &s.h.Parts[f.part]
	symbol.Edge(c, symbol.RoleOf(p.Kind), sheet.Rect{X: r.X, Y: r.Y, W: r.W, H: feedHigh - 1})
	name := p.Ref
	if p.Name != p.Ref {
		name += " · " + p.Name
	}
	if !first {
		name += " (continued)"
	}
	room := r.W - 8
	c.Text(r.X+4, r.Y+4.7, fit(name, sheet.Bold, room), sheet.Strong(sheet.SizeBody))
	under := s.place(p)
	if len(f.fedBy) > 0 {
		under = "fed by circuit " + circuitName(s.h.Circuits[f.fedBy[0]]) + ","
		w := room - symbol.Width(symbol.Mark(""), sheet.Regular, sheet.SizeBody)
		under = fit(under, sheet.Regular, w) + " " + symbol.Mark(s.circuitAnchor(f.fedBy[0]))
	}
	c.Text(r.X+4, r.Y+9.2, under, sheet.Plain(sheet.SizeBody).In(sheet.Grey))
	trunk := r.X + 4
	bottom := r.Y + feedHigh + (float64(len(taps))-0.5)*tapHigh
	c.Line(trunk, r.Y+feedHigh-1, trunk, bottom, sheet.Solid(0.7))
	for i, t := range taps {
		s.tap(c, sheet.Rect{X: trunk, Y: r.Y + feedHigh + float64(i)*tapHigh, W: r.Right() - trunk, H: tapHigh}, p, t)
	}
}

func (s *sheets) circuitAnchor(c harness.CircuitID) string {
	return "circuit/" + s.h.Circuits[c].Key
}

// tap draws one branch: the terminal, its fuse, the circuit and where it is drawn.
func (s *sheets) tap(c *sheet.Canvas, r sheet.Rect, p *harness.Part, t tap) {
	mid := r.Y + r.H/2
	base := mid + sheet.SizeBody*typeface.CapHeight/2
	c.Line(r.X, mid, r.X+tapIn-1.5, mid, sheet.Solid(0.35))
	c.Circle(r.X, mid, 0.9, sheet.Filled(sheet.Ink))
	name := s.h.Terminals[t.terminal].Full
	x := r.X + tapIn
	c.Text(x, base, name, sheet.Strong(sheet.SizeBody))
	x += max(14, typeface.Width(name, sheet.Bold, sheet.SizeBody)+2)
	if f := s.fuseOf(p.ID, s.h.Terminals[t.terminal].Name); f != nil && p.Kind == harness.FusePanel {
		x += symbol.Chip(c, x, mid, amps(float64(f.Rating))) + 2
	}
	ref := symbol.Mark(s.circuitAnchor(t.circuit))
	room := r.Right() - x - symbol.Width(ref, sheet.Regular, sheet.SizeBody) - 3
	c.Text(x, base, fit(circuitName(s.h.Circuits[t.circuit]), sheet.Regular, room), sheet.Plain(sheet.SizeBody))
	c.Text(r.Right(), base, ref, sheet.Plain(sheet.SizeBody).At(sheet.Right).In(sheet.Grey))
	c.Line(r.X+tapIn, r.Bottom(), r.Right(), r.Bottom(), sheet.Solid(sheet.Hair).In(sheet.Rule))
}

// fit shortens a text to a width, with an ellipsis where something is left out.
func fit(s string, face sheet.Face, room float64) string {
	if typeface.Width(s, face, sheet.SizeBody) <= room {
		return s
	}
	r := []rune(s)
	for len(r) > 0 && typeface.Width(string(r)+"…", face, sheet.SizeBody) > room {
		r = r[:len(r)-1]
	}
	return string(r) + "…"
}
