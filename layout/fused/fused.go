// Package fused words what hangs on a fuse: what is lost with it, at once and as relays drop
// out, whole panels and positions of panels told by their names.
//
// In: page.Ask, a fuse and its outage. Out: words.
package fused

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fault/outage"
	"example.com/loomfolio/sizing/harness"
)

// Lost says what loses its supply at once without a fuse; where that is the coils of relays
// alone, these.
func Lost(a page.Ask, f chosen.Fuse, out outage.Outage) string {
	if out.Shared {
		return "Nothing at once: what it feeds has another supply"
	}
	words := stopped(a, f, out)
	if len(words) == 0 {
		words = coils(a, out, a.Named)
	}
	words = append(words, unknown(a, f)...)
	return page.Capital(page.Or(strings.Join(words, ", "), "Nothing that is described"))
}

// unknown names what hangs on a fuse and nobody knows.
func unknown(a page.Ask, f chosen.Fuse) []string {
	for _, b := range a.R.Proof.Found.Blind {
		if a.R.Fuses[b.Fuse].Element != f.Element {
			continue
		}
		var refs []string
		for _, id := range b.Parts {
			refs = append(refs, a.Part(id).Ref)
		}
		draws := " draws"
		if len(refs) > 1 {
			draws = " draw"
		}
		return []string{"not known what " + page.And(refs) + draws}
	}
	return nil
}

// coils names the parts of what stops.
func coils(a page.Ask, out outage.Outage, named func(*harness.Part) string) []string {
	var words []string
	for _, n := range out.Stops {
		if e, ok := a.ElementNamed(n); ok {
			words = append(words, named(a.Part(e.Part)))
		}
	}
	return words
}

// ByRelay says what stops as relays drop out; of one of several supplies what it feeds.
func ByRelay(a page.Ask, f chosen.Fuse, out outage.Outage) string {
	if out.Shared {
		return list("Feeds: ", stopped(a, f, out))
	}
	words := through(a, out)
	if strings.Join(words, ", ") == Lost(a, f, out) {
		return ""
	}
	return list("By relay: ", words)
}

func list(head string, words []string) string {
	if len(words) == 0 {
		return ""
	}
	return head + strings.Join(words, ", ")
}

// Feeds are the plain names of all that a fuse feeds, over relays too, each once.
func Feeds(a page.Ask, f chosen.Fuse, out outage.Outage) []string {
	behind := out.Behind()
	words := gathered(a, f.Name, slices.Concat(out.Stops, behind), slices.Concat(own(a, out), behind))
	if len(words) == 0 {
		words = coils(a, out, a.Plain)
	}
	words = append(words, unknown(a, f)...)
	var once []string
	for _, w := range words {
		if w = page.Capital(w); !slices.Contains(once, w) {
			once = append(once, w)
		}
	}
	return once
}

// Gathered names loads in plain words, whole panels and positions of panels together.
func Gathered(a page.Ask, loads []string) []string { return gathered(a, "", loads, loads) }

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
			some = append(some, a.Plain(p)+page.NoBreak+p.Ref+"."+page.Ranges(positions(down)))
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

// through names what stops as relays drop out, relay by relay; of many relays the loads alone.
func through(a page.Ask, o outage.Outage) []string {
	var words, loads []string
	for _, d := range o.Drops {
		if len(d.Loads) > 0 {
			words = append(words, dropped(a, d))
			loads = append(loads, d.Loads...)
		}
	}
	if len(words) > mostRelays {
		return gathered(a, "", loads, loads)
	}
	if len(words) > 1 {
		return []string{strings.Join(words, "; ")}
	}
	return words
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
	p := a.Part(d.Relay)
	loads := strings.Join(gathered(a, "", d.Loads, d.Loads), ", ")
	if loads == a.Plain(p) { // a starter, by its own solenoid
		return a.Named(p)
	}
	return p.Ref + " " + loads
}
