package fusemap

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fault/outage"
	"example.com/loomfolio/sizing/harness"
)

// outs lists every fuse: what it runs at, its thinnest wire, the most that may be
// fitted, and all that stops when it is out.
func outs(a page.Ask, s *page.Book) {
	t := &table.Table{Columns: []table.Column{
		{Title: "Fuse"}, {Title: "Rating", Unit: "A", Align: table.Decimal}, {Title: "Load", Unit: "A", Align: table.Decimal},
		{Title: "Max. fuse", Unit: "A", Align: table.Decimal}, {Title: "Thinnest wire", Min: 22},
		{Title: "Lost if it blows", Weight: 2, Min: 50}, {Title: "Also lost through a relay", Weight: 1, Min: 40},
	}}
	for i, f := range a.R.Fuses {
		if len(f.Feeds)+len(f.Wires) > 0 || a.Part(f.Part) != nil && a.Part(f.Part).Panel == nil {
			t.Rows = append(t.Rows, outRow(a, f, a.R.Outages[i]))
		}
	}
	if len(t.Rows) == 0 {
		return
	}
	set := t.Settle(s.Room.W)
	s.Head2("Every fuse", "If only some of a row's loads have stopped, the fuse is probably good: check what only those loads share.", max(leastOut, min(set.Height(), s.Rest().H/3)))
	s.Flow(set)
}

func outRow(a page.Ask, f chosen.Fuse, out outage.Outage) table.Row {
	direct, through := strings.Join(stopped(a, f, out), ", "), through(a, out)
	if out.Shared {
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
		table.Text(strings.TrimSuffix(mostWords(f), " A")), table.Text(page.Or(thinnest, "–")), table.Text(page.Capital(page.Or(direct, "–"))), table.Text(through),
	}}
}

func mostWords(f chosen.Fuse) string {
	if f.MostAllowed <= 0 {
		return "–"
	}
	return f.MostAllowed.String()
}

// stopped names what loses its supply.
func stopped(a page.Ask, f chosen.Fuse, out outage.Outage) []string {
	return gathered(a, f.Name, out.Stops, own(a, out))
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
	for _, id := range a.Panels() {
		p := &a.H.Parts[id]
		down, all := deadPositions(a, id, without, dead)
		switch {
		case len(down) < 2:
			continue
		case all:
			whole = append(whole, "the "+lower(a.Named(p)))
		default:
			some = append(some, a.Named(p)+" "+page.Ranges(positions(down)))
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
	return append(append(words, some...), page.LoadNames(a, rest)...)
}

// deadPositions are the positions of a panel all of whose loads are dead, the fuse
// that is out left aside; all tells whether no other position feeds anything.
func deadPositions(a page.Ask, panel harness.PartID, without string, dead map[string]bool) (down []*chosen.Fuse, all bool) {
	all = true
	for _, i := range a.FusesOf(panel) {
		x := &a.R.Fuses[i]
		if len(x.Feeds) == 0 {
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

func positions(fuses []*chosen.Fuse) []string {
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

// mostRelays is how many relays a list names; of more it names the loads alone.
const mostRelays = 3

// through names what stops as relays drop out.
func through(a page.Ask, o outage.Outage) string {
	var words, loads []string
	for _, d := range o.Drops {
		if len(d.Loads) > 0 {
			words = append(words, dropped(a, d))
			loads = append(loads, d.Loads...)
		}
	}
	if len(words) > mostRelays {
		return strings.Join(gathered(a, "", loads, loads), ", ")
	}
	return strings.Join(words, "; ")
}

// own are the dead loads without the coils of relays that through names.
func own(a page.Ask, o outage.Outage) []string {
	return slices.DeleteFunc(slices.Clone(o.Stops), func(n string) bool {
		e, ok := a.ElementNamed(n)
		return ok && slices.ContainsFunc(o.Drops, func(d outage.Drop) bool { return d.Relay == e.Part && len(d.Loads) > 0 })
	})
}

// dropped names a relay with what it takes along.
func dropped(a page.Ask, d outage.Drop) string {
	return a.Named(a.Part(d.Relay)) + ": " + strings.Join(gathered(a, "", d.Loads, d.Loads), ", ")
}
