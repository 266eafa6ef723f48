package proving

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// beeps sets what must beep with the battery off.
func (s *sheets) beeps() {
	if len(s.p.Before.Beeps) == 0 {
		return
	}
	n := page.Abreast(s.b.Room.W, leastBeep, page.ColumnGap)
	s.b.Head2("1  Before power", "Battery leads off, the "+caution.LastOn(s.H)+" one first; every fuse out. Must beep, from the first end to each of the others; pull at both.", 20)
	s.b.Spread(s.beepTable(s.b.ColumnWide(n)), n, 20)
}

// unplugged says what is to be out until no beep is left.
func (s *sheets) unplugged() string {
	const how = "1·2·3: 1 to 2, 2 to 3."
	var off []harness.PartID
	for _, x := range s.p.Before.Apart {
		off = append(off, x.Off...)
	}
	for _, x := range s.p.Before.Pulled {
		off = append(off, x.Off...)
	}
	slices.Sort(off)
	if off = slices.Compact(off); len(off) == 0 {
		return how
	}
	return how + " Behind “" + partsOut + "”: beeps through a part unless these are unplugged, bulbs out: " + s.kinds(off) + "."
}

const partsOut = "parts out:"

// kinds are parts by reference; where half of a kind are among them, all of it.
func (s *sheets) kinds(parts []harness.PartID) string {
	var words []string
	for _, k := range []struct {
		kind harness.Kind
		all  string
	}{{harness.Relay, "relays"}, {harness.Lamp, "lamps"}, {harness.Motor, "motors"}, {harness.Solenoid, "solenoids"}, {harness.Gauge, "gauges"}, {harness.Sender, "senders"}, {harness.Outlet, "outlets"}, {harness.Horn, "horns"}, {harness.Coil, "ignition coils"}, {harness.Heater, "heaters"}} {
		of := func(id harness.PartID) bool { return s.H.Parts[id].Kind == k.kind }
		n := 0
		for i := range s.H.Parts {
			if of(harness.PartID(i)) {
				n++
			}
		}
		rest := slices.DeleteFunc(slices.Clone(parts), of)
		if among := len(parts) - len(rest); among > 1 && 2*among >= n {
			words, parts = append(words, k.all), rest
		}
	}
	text := page.And(words)
	if text != "" {
		text = "all " + text
	}
	return page.List(", ", text, s.refs(parts))
}

// refs are parts by reference, numbers that count on as a span: "INJ1–4".
func (s *sheets) refs(parts []harness.PartID) string {
	var stems []string
	numbers := map[string][]string{}
	for _, id := range parts {
		ref := s.H.Parts[id].Ref
		stem := strings.TrimRight(ref, "0123456789")
		if numbers[stem] == nil {
			stems = append(stems, stem)
		}
		numbers[stem] = append(numbers[stem], ref[len(stem):])
	}
	var out []string
	for _, stem := range stems {
		for _, n := range spans(numbers[stem]) {
			out = append(out, page.Firm(stem+n))
		}
	}
	return strings.Join(out, ", ")
}

// net is metal that beeps as one: the wires, and the ends at which it is probed, the first of
// which keeps one probe.
type net struct {
	wires []harness.WireID
	ends  []harness.TerminalID
	note  string
}

// nets gathers the beeps that begin at one end or join through plugs, splices and rails; one
// with something to undo stands by itself.
func (s *sheets) nets() []net {
	of := s.joined()
	var out []net
	at := map[harness.TerminalID]int{}
	for _, x := range s.p.Before.Beeps {
		root := of(x.From)
		i, ok := at[root]
		if !ok || x.Note != "" {
			i = len(out)
			out = append(out, net{note: x.Note})
			if x.Note == "" {
				at[root] = i
			}
		}
		n := &out[i]
		n.ends = append(n.ends, x.From)
		for _, w := range x.Wires {
			if !slices.Contains(n.wires, w) {
				n.wires = append(n.wires, w)
				n.ends = append(n.ends, s.H.Wires[w].From, s.H.Wires[w].To)
			}
		}
		n.ends = append(n.ends, x.To)
	}
	for i := range out {
		out[i].ends = s.probed(out[i].ends)
	}
	return out
}

// probed leaves out what was probed before, splices and the cavities of plugs, unless
// too little else is left.
func (s *sheets) probed(ends []harness.TerminalID) []harness.TerminalID {
	var out, all []harness.TerminalID
	for _, t := range ends {
		if slices.ContainsFunc(all, func(o harness.TerminalID) bool { return s.node(o) == s.node(t) }) {
			continue
		}
		all = append(all, t)
		if p := s.H.PartOf(t); p == nil || p.Kind != harness.Connector && p.Kind != harness.Splice {
			out = append(out, t)
		}
	}
	if len(out) < 2 {
		return all
	}
	return out
}

// node is the terminal that stands for all that lie on one piece of metal within a part: the
// sides of a cavity, the studs of a rail.
func (s *sheets) node(t harness.TerminalID) harness.TerminalID {
	p := s.H.PartOf(t)
	if p == nil {
		return t
	}
	for _, o := range p.Terminals {
		switch p.Kind {
		case harness.Connector:
			if s.H.Terminals[o].Cavity == s.H.Terminals[t].Cavity {
				return o
			}
		case harness.Splice, harness.Bus:
			return o
		}
	}
	return t
}

// joined finds for each terminal the one that stands for all that beep to it.
func (s *sheets) joined() func(harness.TerminalID) harness.TerminalID {
	to := map[harness.TerminalID]harness.TerminalID{}
	of := func(t harness.TerminalID) harness.TerminalID {
		t = s.node(t)
		for o, ok := to[t]; ok; o, ok = to[t] {
			t = o
		}
		return t
	}
	for _, x := range s.p.Before.Beeps {
		if x.Note != "" {
			continue
		}
		for _, t := range s.through(x) {
			if a, b := of(x.From), of(t); a != b {
				to[b] = a
			}
		}
	}
	return of
}

// through are all terminals that a beep passes.
func (s *sheets) through(x proof.Beep) []harness.TerminalID {
	out := []harness.TerminalID{x.From, x.To}
	for _, w := range x.Wires {
		out = append(out, s.H.Wires[w].From, s.H.Wires[w].To)
	}
	return out
}

// beepTable has a row a piece of metal, by the place of the end at which one probe stays.
func (s *sheets) beepTable(column float64) *table.Table {
	nets := s.nets()
	slices.SortStableFunc(nets, func(x, y net) int { return s.placeOf(x.ends[0]) - s.placeOf(y.ends[0]) })
	t := newList(column, leadWide)
	place := ""
	for _, n := range nets {
		if at := s.placeName(s.placeOf(n.ends[0])); at != place {
			place = at
			t.sub(at, "")
		}
		runs := []run{strong(s.wires(n.wires)), small(s.stop(n.ends[0]) + page.NoBreak + "– " + s.listed(n.ends[1:]))}
		if n.note != "" {
			runs = append(runs, small("("+n.note+")"))
		}
		t.add(ticked(), runs...)
	}
	if bodies := s.p.Before.Bodies; len(bodies) > 0 {
		t.sub("Bodies to ground", "bare metal of each to the battery's ground lead")
		t.add(ticked(), small(s.listed(bodies)))
	}
	return &t.Table
}

func ticked() table.Cell { return table.Cell{Draw: table.TickBox()} }

// placeOf is where a terminal is probed: a place; behind them all, along the loom; last, none.
func (s *sheets) placeOf(t harness.TerminalID) int {
	p := s.H.PartOf(t)
	switch {
	case p != nil && p.Place >= 0:
		return int(p.Place)
	case p != nil && p.Along != nil:
		return len(s.H.Places)
	}
	return len(s.H.Places) + 1
}

// wires are the names of wires, letters that follow one another as a span: "24A–D".
func (s *sheets) wires(all []harness.WireID) string {
	names := make([]string, len(all))
	for i, w := range all {
		names[i] = s.H.Wires[w].Name
	}
	slices.SortFunc(names, func(a, b string) int {
		if len(a) != len(b) {
			return len(a) - len(b)
		}
		return strings.Compare(a, b)
	})
	out := page.SpansOf(names, page.Follows, func(first, last string) string {
		if first == last {
			return page.Firm(first)
		}
		return page.Firm(first + "–" + last[len(last)-1:])
	})
	return strings.Join(out, " ")
}
