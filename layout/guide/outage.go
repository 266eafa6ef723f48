package guide

import (
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/harness"
)

// outs lists what stops when a fuse is out.
func outs(a page.Ask, s *sheaf) {
	t := &table.Table{Columns: []table.Column{
		{Title: "Fuse"}, {Title: "Rating", Unit: "A", Align: table.Decimal}, {Title: "These stop", Weight: 3, Min: 50}, {Title: "And, as a relay drops out", Weight: 2, Min: 40}, {Title: "Dead wires", Weight: 1, Min: 30},
	}}
	for _, f := range a.R.Fuses {
		out := behind(a, f)
		if len(out.direct)+len(out.through)+len(f.Wires) == 0 {
			continue
		}
		var wires, through []string
		for _, w := range f.Wires {
			wires = append(wires, a.H.Wires[w].Name)
		}
		for _, x := range out.through {
			through = append(through, x.words(a))
		}
		direct := strings.Join(out.direct, ", ")
		if direct == "" {
			direct = "–"
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			{S: f.Name, Bold: true, Link: a.Link("fuse/" + f.Name)}, table.Text(strings.TrimSuffix(ratingWords(f), " A")), table.Text(direct),
			table.Text(strings.Join(through, "; ")), {S: strings.Join(wires, " "), Size: sheet.SizeNote},
		}})
	}
	if len(t.Rows) == 0 {
		return
	}
	s.head2("When a fuse is out", "What no longer works. If only some of a row's loads have stopped, the fuse is good: look at what those loads alone share.", leastOut)
	s.table(t)
}

// outage is what stops without a fuse.
type outage struct {
	direct  []string
	through []dropped
}

// dropped is a relay that drops out, with the loads on its contact.
type dropped struct {
	relay *harness.Part
	loads []string
}

func (d dropped) words(a page.Ask) string {
	if len(d.loads) == 0 {
		return "coil of " + a.Named(d.relay)
	}
	return "coil of " + d.relay.Ref + ": " + page.And(d.loads)
}

// behind finds the loads on a fuse, and those on the contacts of relays whose
// coil one of the fuse's wires feeds.
func behind(a page.Ask, f choose.Fuse) outage {
	var out outage
	named := map[string]bool{}
	for _, n := range f.Feeds {
		if w := a.LoadWords(n); !named[w] {
			named[w] = true
			out.direct = append(out.direct, w)
		}
	}
	reached := map[harness.TerminalID]bool{}
	for _, w := range f.Wires {
		reached[a.H.Wires[w].From], reached[a.H.Wires[w].To] = true, true
	}
	for _, e := range a.H.Elements {
		p := a.Part(e.Part)
		if e.Kind != harness.RelayCoil || p == nil || p.Kind != harness.Relay || !(reached[e.A] || reached[e.B]) {
			continue
		}
		d := dropped{relay: p}
		for _, l := range a.R.Loads {
			if w := a.LoadWords(l.Name); !named[w] && passes(a, l, p.ID) {
				d.loads = append(d.loads, w)
			}
		}
		out.through = append(out.through, d)
	}
	return out
}

// passes tells whether a load's feed or return leads over a make contact of the relay.
func passes(a page.Ask, l choose.Load, relay harness.PartID) bool {
	for _, way := range [][]harness.WireID{l.Feed, l.Return} {
		for _, w := range way {
			for _, t := range []harness.TerminalID{a.H.Wires[w].From, a.H.Wires[w].To} {
				if x := a.H.Terminals[t]; x.Part == relay && (x.Name == "87" || x.Name == "30") {
					return true
				}
			}
		}
	}
	return false
}
