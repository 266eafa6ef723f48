package quick

import (
	"fmt"
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
)

// tried are the loads that one starts from: the lamps, or all where there are none.
func tried(a page.Ask) (loads []chosen.Load, lamps bool) {
	for _, l := range a.R.Loads {
		if p := a.Part(a.H.Elements[l.Element].Part); p != nil && p.Kind == harness.Lamp {
			loads = append(loads, l)
		}
	}
	if len(loads) == 0 {
		return a.R.Loads, false
	}
	return loads, true
}

func deadTitle(a page.Ask) string {
	if _, lamps := tried(a); lamps {
		return "Lamps dead: start here"
	}
	return "Dead: start here"
}

// dead says where to look first, from the battery on: what all share, what a panel shares,
// the ground of a place, what is one load's own.
func dead(a page.Ask) []string {
	loads, lamps := tried(a)
	if len(loads) == 0 {
		return nil
	}
	all, one := "All of them", "One alone: its fuse, its plug, its ground."
	if lamps {
		all, one = "All lamps", "One lamp: its bulb, its fuse, its plug."
	}
	var out []string
	if main := shared(a, loads); main >= 0 {
		f := a.R.Fuses[main]
		out = append(out, all+": "+page.List(", ", f.Name+" "+rated(f), place(a, f))+"; then battery and its leads.")
	} else {
		out = append(out, all+": the battery and its leads.")
	}
	if posts := livePosts(a); len(posts) > 0 {
		out = append(out, "Nuts tight at "+some(posts)+"?")
	}
	if feeds := panelFeeds(a, loads); len(feeds) > 0 {
		out = append(out, "A whole panel: "+some(feeds)+".")
	}
	if grounds := groundsOf(a, loads); len(grounds) > 0 {
		out = append(out, "One corner dim or dead: clean its ground, "+some(grounds)+".")
	}
	return append(out, one)
}

func place(a page.Ask, f chosen.Fuse) string { return page.PlaceOf(a, a.Part(f.Part)) }

// lost tells which of the loads a fuse takes with it.
func lost(a page.Ask, i int, loads []chosen.Load) int {
	o, n := a.R.Outages[i], 0
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
func shared(a page.Ask, loads []chosen.Load) int {
	best, most := -1, 0
	for i := range a.R.Fuses {
		if n := lost(a, i, loads); n > most && 2*n >= len(loads) {
			best, most = i, n
		}
	}
	return best
}

// livePosts are the buses that stand under voltage in some state.
func livePosts(a page.Ask) []string {
	var out []string
	for _, p := range ofKind(a, harness.Bus) {
		hot := slices.ContainsFunc(p.Terminals, func(t harness.TerminalID) bool {
			for i := range a.R.States {
				if v := a.R.States[i].Volts; int(t) < len(v) && max(float64(v[t]), -float64(v[t])) > float64(a.H.System.Volts)/2 {
					return true
				}
			}
			return false
		})
		if hot {
			out = append(out, where(a, p))
		}
	}
	return out
}

// panelFeeds are the panels whose fuses feed the loads, each with the fuse next before it.
func panelFeeds(a page.Ask, loads []chosen.Load) []string {
	var out []string
	for _, id := range a.Panels() {
		own := a.FusesOf(id)
		feeds := slices.ContainsFunc(own, func(i int) bool { return lost(a, i, loads) > 0 })
		before := next(a, id, own)
		if !feeds || before < 0 {
			continue
		}
		f := a.R.Fuses[before]
		out = append(out, fmt.Sprintf("%s by %s", a.Plain(a.Part(id)), page.Firm(f.Name+" "+f.Rating.String())))
	}
	return out
}

// next is the fuse before a panel: of those outside it that take down what one of its fuses feeds, the one
// that takes least. −1 where there is none.
func next(a page.Ask, panel harness.PartID, own []int) int {
	best, least := -1, 0
	for i, f := range a.R.Fuses {
		if f.Part == panel || a.R.Outages[i].Shared {
			continue
		}
		stops := a.R.Outages[i].Stops
		takes := slices.ContainsFunc(own, func(k int) bool { return contains(stops, a.R.Outages[k].Stops) })
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

// groundsOf are the grounds by which the loads' current returns, with their places, those of most loads first.
func groundsOf(a page.Ask, loads []chosen.Load) []string {
	count := map[harness.PartID]int{}
	var ids []harness.PartID
	for _, l := range loads {
		for _, w := range l.Return {
			for _, t := range []harness.TerminalID{a.H.Wires[w].From, a.H.Wires[w].To} {
				p := a.H.PartOf(t)
				if p == nil || p.Kind != harness.Ground {
					continue
				}
				if count[p.ID] == 0 {
					ids = append(ids, p.ID)
				}
				count[p.ID]++
			}
		}
	}
	slices.SortStableFunc(ids, func(x, y harness.PartID) int { return count[y] - count[x] })
	var out []string
	for _, id := range ids {
		p := a.Part(id)
		out = append(out, page.List(" ", p.Ref, page.PlaceOf(a, p)))
	}
	return out
}
