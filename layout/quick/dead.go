package quick

import (
	"fmt"
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
)

// tried are the loads that one starts from: the lamps, or all where there are none.
func (t teller) tried() (loads []chosen.Load, lamps bool) {
	for _, l := range t.R.Loads {
		if p := t.Part(t.H.Elements[l.Element].Part); p != nil && p.Kind == harness.Lamp {
			loads = append(loads, l)
		}
	}
	if len(loads) == 0 {
		return t.R.Loads, false
	}
	return loads, true
}

func (t teller) deadTitle() string {
	if _, lamps := t.tried(); lamps {
		return "Lamps dead: start here"
	}
	return "Dead: start here"
}

// dead says where to look first, from the battery on: what all share, what a panel shares,
// the ground of a place, what is one load's own.
func (t teller) dead() []string {
	loads, lamps := t.tried()
	if len(loads) == 0 {
		return nil
	}
	all, one := "All of them", "One alone: its fuse, its plug, its ground."
	if lamps {
		all, one = "All lamps", "One lamp: its bulb, its fuse, its plug."
	}
	var out []string
	if main := t.shared(loads); main >= 0 {
		f := t.R.Fuses[main]
		if t.lost(main, loads) < len(loads) {
			all = "Most of them"
		}
		out = append(out, all+": "+page.List(" ", f.Name, rated(f), bracketed(page.PlaceOf(t.Ask, t.Part(f.Part))))+", then the battery's leads.")
	} else {
		out = append(out, all+": the battery and its leads.")
	}
	if posts := t.livePosts(); len(posts) > 0 {
		out = append(out, "Nuts tight at "+t.some(posts)+"?")
	}
	if feeds := t.panelFeeds(loads); len(feeds) > 0 {
		out = append(out, "A whole panel: "+t.some(feeds)+".")
	}
	if grounds := t.groundsOf(loads); len(grounds) > 0 {
		out = append(out, "One corner dim or dead: its ground, "+t.some(grounds)+".")
	}
	return append(out, one)
}

// lost tells which of the loads a fuse takes with it.
func (t teller) lost(i int, loads []chosen.Load) int {
	o, n := t.R.Outages[i], 0
	if o.Shared {
		return 0
	}
	behind := o.Behind()
	for _, l := range loads {
		if slices.Contains(o.Stops, l.Name) || slices.Contains(behind, l.Name) {
			n++
		}
	}
	return n
}

// shared is the fuse that takes most of the loads with it, half of them at least; of several the
// first. −1 where there is none.
func (t teller) shared(loads []chosen.Load) int {
	best, most := -1, 0
	for i := range t.R.Fuses {
		if n := t.lost(i, loads); n > most && 2*n >= len(loads) {
			best, most = i, n
		}
	}
	return best
}

// livePosts are the buses that stand under voltage in some state.
func (t teller) livePosts() []string {
	var out []string
	for _, p := range t.ofKind(harness.Bus) {
		hot := slices.ContainsFunc(p.Terminals, func(at harness.TerminalID) bool {
			for i := range t.R.States {
				if v := t.R.States[i].Volts; int(at) < len(v) && max(float64(v[at]), -float64(v[at])) > float64(t.H.SystemAt(at).Volts)/2 {
					return true
				}
			}
			return false
		})
		if hot {
			out = append(out, t.where(p))
		}
	}
	return out
}

// panelFeeds are the panels whose fuses feed the loads, each with the fuses next before those.
func (t teller) panelFeeds(loads []chosen.Load) []string {
	var out []string
	for _, id := range t.Panels() {
		var feeding []int
		for _, i := range t.FusesOf(id) {
			if t.lost(i, loads) > 0 {
				feeding = append(feeding, i)
			}
		}
		if before := t.before(id, feeding); len(before) > 0 {
			out = append(out, fmt.Sprintf("%s by %s", t.Plain(t.Part(id)), page.And(before)))
		}
	}
	return out
}

// before are the fuses next before some of a panel's; where none takes one of those down alone,
// the one next before the panel.
func (t teller) before(panel harness.PartID, feeding []int) []string {
	var ids []int
	for _, i := range feeding {
		if n := t.next(panel, []int{i}); n >= 0 && !slices.Contains(ids, n) {
			ids = append(ids, n)
		}
	}
	if n := t.next(panel, t.FusesOf(panel)); len(ids) == 0 && len(feeding) > 0 && n >= 0 {
		ids = []int{n}
	}
	slices.Sort(ids)
	var out []string
	for _, i := range ids {
		out = append(out, page.Firm(t.R.Fuses[i].Name+" "+t.R.Fuses[i].Rating.String()))
	}
	return out
}

// next is the fuse before a panel: of those outside it that take down what one of its fuses feeds, the one
// that takes least. −1 where there is none.
func (t teller) next(panel harness.PartID, own []int) int {
	best, least := -1, 0
	for i, f := range t.R.Fuses {
		if f.Part == panel || t.R.Outages[i].Shared {
			continue
		}
		stops := t.R.Outages[i].Stops
		takes := slices.ContainsFunc(own, func(k int) bool { return contains(stops, t.R.Outages[k].Stops) })
		if n := len(stops); takes && (best < 0 || n < least) {
			best, least = i, n
		}
	}
	return best
}

// contains tells whether all of some names, one at least, are among others.
func contains(all, some []string) bool {
	return len(some) > 0 && !slices.ContainsFunc(some, func(n string) bool { return !slices.Contains(all, n) })
}

// groundsOf are the grounds at which the loads' current enters the bodywork, with their places,
// those of most loads first.
func (t teller) groundsOf(loads []chosen.Load) []string {
	count := map[harness.PartID]int{}
	var ids []harness.PartID
	for _, l := range loads {
		id := t.groundOf(l)
		if id == harness.None {
			continue
		}
		if count[id] == 0 {
			ids = append(ids, id)
		}
		count[id]++
	}
	slices.SortStableFunc(ids, func(x, y harness.PartID) int { return count[y] - count[x] })
	var out []string
	for _, id := range ids {
		p := t.Part(id)
		out = append(out, page.List(" ", p.Ref, bracketed(page.PlaceOf(t.Ask, p))))
	}
	return out
}

// groundOf is the first ground on a load's way back; None where there is none.
func (t teller) groundOf(l chosen.Load) harness.PartID {
	for _, w := range l.Return {
		for _, at := range []harness.TerminalID{t.H.Wires[w].From, t.H.Wires[w].To} {
			if p := t.H.PartOf(at); p != nil && p.Kind == harness.Ground {
				return p.ID
			}
		}
	}
	return harness.None
}
