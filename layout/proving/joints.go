package proving

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// little is the limit, V, that is told once for all parts with a limit up to it: a hundredth of
// the system's volts, far below what a joint takes that costs its load a tenth.
func (s *sheets) little() unit.Volt {
	return unit.Volt(max(1, math.Floor(float64(s.H.System.Volts)/100/0.05+1e-6)) * 0.05)
}

// legs sets what the whole feed and return of each load may cost; loads with the same limits
// in a state share them.
func (s *sheets) legs(l *list) {
	all := s.ways()
	if len(all) == 0 {
		return
	}
	l.sub("Drop of feed / return, load on, V", s.how())
	for state := range s.H.States {
		var runs []run
		for i, x := range all {
			if x.state != state || slices.ContainsFunc(all[:i], x.like) {
				continue
			}
			runs = append(runs, limit(x.limits()))
			for _, y := range all[i:] {
				if x.like(y) {
					runs = append(runs, small(page.Firm(s.load(y.load)+" "+blank)))
				}
			}
		}
		if len(runs) > 0 {
			l.add(table.Strong(page.StateLetter(state)), runs...)
		}
	}
}

// how says where the leads go: red is on the more positive end.
func (s *sheets) how() string {
	feed, back := "red on "+s.live()+", black on the load's feed", "red on the load's return, black on "+s.grounded()
	if s.H.System.PositiveEarth {
		feed, back = "red on the load's feed, black on "+s.live(), "red on "+s.grounded()+", black on the load's return"
	}
	return "2 V range. Feed: " + feed + ". Return: " + back + ". At most so many volts; more: measure each part of that way, below."
}

// parts sets what each wire, fuse and contact may cost, where it is more than little.
func (s *sheets) parts(l *list) {
	by := make([][]run, len(s.H.States))
	any := false
	for _, x := range s.p.Sections {
		any = any || !x.Whole
		if !x.Whole && x.Most > s.little() {
			by[x.State] = append(by[x.State], limit(atMost(x.Most)), small(page.Firm(x.What)))
		}
	}
	if !any {
		return
	}
	l.sub("Drop across each part, load on, V", "2 V range, red on the end nearer to battery +. Each wire, fuse and contact at most "+atMost(s.little())+page.NoBreak+"V, but:")
	for state, runs := range by {
		if len(runs) > 0 {
			l.add(table.Strong(page.StateLetter(state)), runs...)
		}
	}
}

// way is the whole feed and return of a load; nil where there is none of its own.
type way struct {
	load       harness.ElementID
	state      int
	feed, back *proof.Section
}

// ways are those of all loads, by state.
func (s *sheets) ways() []way {
	var out []way
	for i := range s.p.Sections {
		x := &s.p.Sections[i]
		if !x.Whole {
			continue
		}
		k := slices.IndexFunc(out, func(l way) bool { return l.load == x.Load && l.state == x.State })
		if k < 0 {
			k = len(out)
			out = append(out, way{load: x.Load, state: x.State})
		}
		if s.toLoad(x) {
			out[k].feed = x
		} else {
			out[k].back = x
		}
	}
	slices.SortStableFunc(out, func(a, b way) int { return cmp.Compare(a.state, b.state) })
	return out
}

// toLoad tells a feed from a return: it has an end at the load's live side.
func (s *sheets) toLoad(x *proof.Section) bool {
	live := s.H.Live(&s.H.Elements[x.Load])
	return x.From == live || x.To == live
}

// limits are at most so much in the feed, at most so much in the return.
func (x way) limits() string {
	return limitOf(x.feed) + page.NoBreak + "/" + page.NoBreak + limitOf(x.back)
}

func (x way) like(y way) bool { return x.state == y.state && x.limits() == y.limits() }

func limitOf(x *proof.Section) string {
	if x == nil {
		return "–"
	}
	return atMost(x.Most)
}

// load is a load by its reference, with its terminal where the part has several.
func (s *sheets) load(id harness.ElementID) string {
	e := s.H.Elements[id]
	p := s.Part(e.Part)
	if p == nil {
		return e.Name
	}
	return page.Firm(page.List(".", p.Ref, s.LoadDetail(e)))
}
