package fusemap

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
)

// outs lists every fuse: what it runs at, its thinnest wire, the most that may be
// fitted, and all that stops when it is out.
func outs(a page.Ask, s *page.Book, outages []Outage) {
	t := &table.Table{Columns: []table.Column{
		{Title: "Fuse"}, {Title: "Rating", Unit: "A", Align: table.Decimal}, {Title: "Runs", Unit: "A", Align: table.Decimal},
		{Title: "Most", Unit: "A", Align: table.Decimal}, {Title: "Thinnest wire", Min: 22},
		{Title: "These stop when it is out", Weight: 2, Min: 50}, {Title: "And, as a relay drops out", Weight: 1, Min: 40},
	}}
	for i, f := range a.R.Fuses {
		if len(f.Feeds)+len(f.Wires) > 0 || a.Part(f.Part) != nil && a.Part(f.Part).Panel == nil {
			t.Rows = append(t.Rows, outRow(a, f, outages[i]))
		}
	}
	if len(t.Rows) == 0 {
		return
	}
	set := t.Settle(s.Room.W)
	s.Head2("Every fuse", "If only some of a row's loads have stopped, the fuse is good: look at what those loads alone share.", max(leastOut, min(set.Height(), s.Rest().H/3)))
	s.Flow(set)
}

func outRow(a page.Ask, f chosen.Fuse, out Outage) table.Row {
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
func stopped(a page.Ask, f chosen.Fuse, out Outage) []string {
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

// Outage is what stops without a fuse, loads by the names of their elements.
type Outage struct {
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
func (o Outage) through(a page.Ask) string {
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
func (o Outage) behindRelays() []string {
	var loads []string
	for _, d := range o.relays {
		loads = append(loads, d.loads...)
	}
	return loads
}

// own are the dead loads without the coils of relays that through names.
func (o Outage) own(a page.Ask) []string {
	return slices.DeleteFunc(slices.Clone(o.direct), func(n string) bool {
		e, ok := a.ElementNamed(n)
		return ok && slices.ContainsFunc(o.relays, func(d dropped) bool { return d.relay.ID == e.Part && len(d.loads) > 0 })
	})
}

func (d dropped) words(a page.Ask) string {
	return a.Named(d.relay) + ": " + strings.Join(gathered(a, "", d.loads, d.loads), ", ")
}

// TakeOut takes each fuse out in turn and finds what stops, by place in the results' fuses.
func TakeOut(a page.Ask) []Outage {
	var states []joins
	for i := range a.R.States {
		states = append(states, joinsIn(a, i))
	}
	coils := coilsOf(a)
	out := make([]Outage, len(a.R.Fuses))
	for i, f := range a.R.Fuses {
		out[i].direct, out[i].shared = withoutFuse(a, states, f)
		out[i].release(a, f, coils)
	}
	return out
}

// coil is a relay's coil with the loads that follow it.
type coil struct {
	harness.Element
	loads []string
}

// coils are all coils in the order of the elements, and where they are found.
type coils struct {
	all   []coil
	named map[string]int
	at    map[harness.TerminalID][]int // by terminal at which they begin or end
}

// coilsOf finds the coils. A load follows a coil where its feed or return leads over
// a contact that the coil makes, or it works only with the coil itself.
func coilsOf(a page.Ask) coils {
	follow := make(map[harness.ElementID][]string)
	makes := contacts(a)
	for _, l := range a.R.Loads {
		for _, c := range coilsOver(a, l, makes) {
			follow[c] = append(follow[c], l.Name)
		}
	}
	out := coils{named: map[string]int{}, at: map[harness.TerminalID][]int{}}
	for _, e := range a.H.Elements {
		if e.Kind == harness.RelayCoil && a.Part(e.Part) != nil {
			i := len(out.all)
			out.all = append(out.all, coil{e, follow[e.ID]})
			out.named[e.Name] = i
			out.at[e.A], out.at[e.B] = append(out.at[e.A], i), append(out.at[e.B], i)
		}
	}
	return out
}

// contacts are the elements that need a coil, by the terminal at which they begin.
func contacts(a page.Ask) [][]harness.Element {
	out := make([][]harness.Element, len(a.H.Terminals))
	for _, e := range a.H.Elements {
		if e.When.Kind == harness.Energised && e.Kind != harness.Load {
			out[e.A] = append(out[e.A], e)
		}
	}
	return out
}

// coilsOver are the coils that a load follows, each once.
func coilsOver(a page.Ask, l chosen.Load, makes [][]harness.Element) []harness.ElementID {
	var out []harness.ElementID
	add := func(c harness.ElementID) {
		if !slices.Contains(out, c) {
			out = append(out, c)
		}
	}
	if when := a.H.Elements[l.Element].When; when.Kind == harness.Energised {
		add(when.Coil)
	}
	on := map[harness.TerminalID]bool{}
	for _, w := range slices.Concat(l.Feed, l.Return) {
		on[a.H.Wires[w].From], on[a.H.Wires[w].To] = true, true
	}
	for t := range on {
		for _, e := range makes[t] {
			if on[e.B] {
				add(e.When.Coil)
			}
		}
	}
	return out
}

// release finds the loads on the contacts of relays whose coil the fuse feeds, from
// relay to relay in the order of the coils; each relay and each load stands once.
func (o *Outage) release(a page.Ask, f chosen.Fuse, coils coils) {
	var due waiting
	gone := map[string]bool{}
	lose := func(names []string) {
		for _, n := range names {
			gone[n] = true
			if i, ok := coils.named[n]; ok {
				due.add(i)
			}
		}
	}
	lose(o.direct)
	for _, w := range f.Wires {
		due.add(coils.at[a.H.Wires[w].From]...)
		due.add(coils.at[a.H.Wires[w].To]...)
	}
	out := map[harness.PartID]bool{}
	for i, ok := due.next(); ok; i, ok = due.next() {
		c := coils.all[i]
		if out[c.Part] {
			continue
		}
		out[c.Part] = true
		loads := slices.DeleteFunc(slices.Clone(c.loads), func(n string) bool { return gone[n] })
		lose(loads)
		o.relays = append(o.relays, dropped{a.Part(c.Part), loads})
	}
}

// waiting is numbers that are taken in rounds, each round in ascending order; what
// was taken, or came too late for a round, is left to the next.
type waiting struct {
	left []int // in ascending order
	from int   // the least that this round may still take
}

func (w *waiting) add(numbers ...int) {
	for _, n := range numbers {
		if at, there := slices.BinarySearch(w.left, n); !there {
			w.left = slices.Insert(w.left, at, n)
		}
	}
}

func (w *waiting) next() (int, bool) {
	if len(w.left) == 0 {
		return 0, false
	}
	at, _ := slices.BinarySearch(w.left, w.from)
	if at == len(w.left) {
		at = 0
	}
	n := w.left[at]
	w.left, w.from = slices.Delete(w.left, at, at+1), n+1
	return n, true
}
