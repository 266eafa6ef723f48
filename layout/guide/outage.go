package guide

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/harness"
)

// outs lists every fuse: what it runs at, its thinnest wire, the most that may be
// fitted, and all that stops when it is out.
func outs(a page.Ask, s *sheaf) {
	t := &table.Table{Columns: []table.Column{
		{Title: "Fuse"}, {Title: "Rating", Unit: "A", Align: table.Decimal}, {Title: "Runs", Unit: "A", Align: table.Decimal},
		{Title: "Most", Unit: "A", Align: table.Decimal}, {Title: "Thinnest wire", Min: 22},
		{Title: "These stop when it is out", Weight: 2, Min: 50}, {Title: "And, as a relay drops out", Weight: 1, Min: 40},
	}}
	for _, f := range a.R.Fuses {
		if len(f.Feeds)+len(f.Wires) > 0 || a.Part(f.Part) != nil && a.Part(f.Part).Panel == nil {
			t.Rows = append(t.Rows, outRow(a, f))
		}
	}
	if len(t.Rows) == 0 {
		return
	}
	s.head2("Every fuse", "If only some of a row's loads have stopped, the fuse is good: look at what those loads alone share.", max(leastOut, min(t.Height(s.room.W), s.next().H/3)))
	s.table(t)
}

func outRow(a page.Ask, f choose.Fuse) table.Row {
	out := behind(a, f)
	direct, through := strings.Join(stopped(a, f, out), ", "), out.through(a)
	if out.shared {
		direct, through = "nothing at once: what it feeds has another supply", ""
	}
	thinnest := ""
	if f.Smallest >= 0 && int(f.Smallest) < len(a.H.Wires) {
		thinnest = a.H.Wires[f.Smallest].Name + ", " + a.Gauge(f.Smallest)
	}
	amps := func(x float64) table.Cell {
		if x <= 0 {
			return table.Text("–")
		}
		return table.Text(page.Amps(x))
	}
	return table.Row{Cells: []table.Cell{
		{S: f.Name, Bold: true, Link: a.Link("fuse/" + f.Name)}, table.Text(strings.TrimSuffix(ratingWords(f), " A")), amps(float64(f.Amps)),
		table.Text(strings.TrimSuffix(mostWords(f), " A")), table.Text(orWord(thinnest, "–")), table.Text(capital(orWord(direct, "–"))), table.Text(through),
	}}
}

func mostWords(f choose.Fuse) string {
	if f.MostAllowed <= 0 {
		return "–"
	}
	return f.MostAllowed.String()
}

// stopped names what loses its supply.
func stopped(a page.Ask, f choose.Fuse, out outage) []string {
	return gathered(a, f.Name, out.direct, out.own(a))
}

// gathered names loads: whole panels first, then positions of panels, all of whose
// loads are among those that are dead, then the loads to be told that are on none of these.
func gathered(a page.Ask, without string, gone, tell []string) []string {
	dead := map[string]bool{}
	for _, n := range gone {
		dead[n] = true
	}
	var whole, some []string
	told := map[string]bool{}
	for i := range a.H.Parts {
		p := &a.H.Parts[i]
		if p.Panel == nil {
			continue
		}
		down, all := deadPositions(a, without, p, dead)
		switch {
		case len(down) < 2:
			continue
		case all:
			whole = append(whole, "the "+lower(a.Named(p)))
		default:
			some = append(some, a.Named(p)+" "+ranges(positions(down)))
		}
		for _, d := range down {
			for _, n := range d.Feeds {
				told[n] = true
			}
		}
	}
	var words []string
	if len(whole) > 0 {
		words = append(words, "everything on "+page.And(whole))
	}
	rest := slices.DeleteFunc(slices.Clone(tell), func(n string) bool { return told[n] })
	return append(append(words, some...), loadNames(a, rest)...)
}

// deadPositions are the positions of a panel all of whose loads are dead, the fuse
// that is out left aside; all tells whether no other position feeds anything.
func deadPositions(a page.Ask, without string, p *harness.Part, dead map[string]bool) (down []choose.Fuse, all bool) {
	all = true
	for _, x := range a.R.Fuses {
		if x.Part != p.ID || len(x.Feeds) == 0 {
			continue
		}
		lives := slices.ContainsFunc(x.Feeds, func(n string) bool { return !dead[n] })
		if lives || x.Name == without {
			all = false
			continue
		}
		down = append(down, x)
	}
	return down, all
}

func positions(fuses []choose.Fuse) []string {
	var names []string
	for _, f := range fuses {
		names = append(names, f.Position)
	}
	return names
}

// lower begins a name with a small letter unless it begins with a name in capitals.
func lower(s string) string {
	if len(s) > 1 && s[1] >= 'a' && s[1] <= 'z' {
		return strings.ToLower(s[:1]) + s[1:]
	}
	return s
}

// outage is what stops without a fuse, loads by the names of their elements.
type outage struct {
	direct []string  // without supply
	shared bool      // the fuse is one of several supplies: nothing stops at once
	relays []dropped // that drop out, in the order of the parts
}

// dropped is a relay that drops out, with the loads that lose their way over its contact.
type dropped struct {
	relay *harness.Part
	loads []string
}

// mostRelays is how many relays a list names; of more it names the loads alone.
const mostRelays = 3

// through names what stops as relays drop out.
func (o outage) through(a page.Ask) string {
	var words, loads []string
	for _, d := range o.relays {
		if len(d.loads) > 0 {
			words = append(words, d.words(a))
			loads = append(loads, d.loads...)
		}
	}
	if len(words) > mostRelays {
		return strings.Join(gathered(a, "", loads, loads), ", ")
	}
	return strings.Join(words, "; ")
}

// behindRelays are all loads that stop as relays drop out.
func (o outage) behindRelays() []string {
	var loads []string
	for _, d := range o.relays {
		loads = append(loads, d.loads...)
	}
	return loads
}

// own are the dead loads without the coils of relays that through names.
func (o outage) own(a page.Ask) []string {
	return slices.DeleteFunc(slices.Clone(o.direct), func(n string) bool {
		e, ok := a.ElementNamed(n)
		return ok && slices.ContainsFunc(o.relays, func(d dropped) bool { return d.relay.ID == e.Part && len(d.loads) > 0 })
	})
}

func (d dropped) words(a page.Ask) string {
	return a.Named(d.relay) + ": " + strings.Join(gathered(a, "", d.loads, d.loads), ", ")
}

// behind finds the loads on a fuse, and those on the contacts of relays whose
// coil it feeds, from relay to relay.
func behind(a page.Ask, f choose.Fuse) outage {
	var out outage
	out.direct, out.shared = withoutFuse(a, f)
	gone := map[string]bool{}
	for _, n := range out.direct {
		gone[n] = true
	}
	reached := map[harness.TerminalID]bool{}
	for _, w := range f.Wires {
		reached[a.H.Wires[w].From], reached[a.H.Wires[w].To] = true, true
	}
	for more := true; more; {
		more = false
		for _, e := range a.H.Elements {
			p := a.Part(e.Part)
			if e.Kind != harness.RelayCoil || p == nil || out.has(p) || !(gone[e.Name] || reached[e.A] || reached[e.B]) {
				continue
			}
			more = true
			out.relays = append(out.relays, dropped{p, takenAlong(a, e, gone)})
		}
	}
	return out
}

func (o outage) has(p *harness.Part) bool {
	return slices.ContainsFunc(o.relays, func(d dropped) bool { return d.relay == p })
}

// takenAlong are the loads that stop as a coil releases and that are not gone
// already; they are counted as gone.
func takenAlong(a page.Ask, coil harness.Element, gone map[string]bool) []string {
	var loads []string
	for _, l := range a.R.Loads {
		if !gone[l.Name] && follows(a, l, coil) {
			gone[l.Name] = true
			loads = append(loads, l.Name)
		}
	}
	return loads
}

// follows tells whether a load's feed or return leads over a contact that the
// coil makes, or the load itself works only with the coil.
func follows(a page.Ask, l choose.Load, coil harness.Element) bool {
	on := map[harness.TerminalID]bool{}
	for _, way := range [][]harness.WireID{l.Feed, l.Return} {
		for _, w := range way {
			on[a.H.Wires[w].From], on[a.H.Wires[w].To] = true, true
		}
	}
	for _, e := range a.H.Elements {
		if e.When.Kind != harness.Energised || e.When.Coil != coil.ID {
			continue
		}
		if e.ID == l.Element || on[e.A] && on[e.B] && e.Kind != harness.Load {
			return true
		}
	}
	return false
}
