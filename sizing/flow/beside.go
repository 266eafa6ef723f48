package flow

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/harness"
)

// feeding is a fuse's side, or an alternator, that feeds into a metal, with the
// contacts between it and the end of a wire there.
type feeding struct {
	side
	charger harness.ElementID // None for a fuse
	through []harness.ElementID
}

// Together is what flows into a wire at most from the side from which a fuse feeds
// it: what the fuse lets through and, added to it, all else that feeds there, apart
// from what no switch or relay ever joins to it. A wire in a ring of metal has one side.
func (p *Passing) Together(fuse harness.ElementID, w harness.WireID) float64 {
	own := p.Into(fuse, w)
	for _, list := range p.ends(w) {
		i := slices.IndexFunc(list, func(f feeding) bool { return f.charger == harness.None && f.fuse == fuse })
		if i < 0 {
			continue
		}
		own = math.Max(own, p.most(list, []feeding{list[i]}, 0))
	}
	return own
}

// Others lists the fuses and alternators that feed a wire from the side of a fuse
// besides it, and are joined to it in some position.
func (p *Passing) Others(fuse harness.ElementID, w harness.WireID) []harness.ElementID {
	var out []harness.ElementID
	for _, list := range p.ends(w) {
		i := slices.IndexFunc(list, func(f feeding) bool { return f.charger == harness.None && f.fuse == fuse })
		if i < 0 {
			continue
		}
		for _, f := range list {
			id := f.fuse
			if f.charger != harness.None {
				id = f.charger
			}
			if id != fuse && p.amps(f) > 0 && p.joined(f, list[i]) && !slices.Contains(out, id) {
				out = append(out, id)
			}
		}
	}
	return out
}

// mostTried is how many feeders are tried in all their combinations; of more, all
// count together.
const mostTried = 12

// most gives the largest sum of feeders that can be joined at once, those taken
// already with them.
func (p *Passing) most(list, taken []feeding, from int) float64 {
	sum := 0.0
	if len(list) > mostTried {
		for _, f := range list {
			sum += p.amps(f)
		}
		return sum
	}
	for _, f := range taken {
		sum += p.amps(f)
	}
	for i := from; i < len(list); i++ {
		f := list[i]
		fits := !slices.ContainsFunc(taken, func(t feeding) bool { return t.side == f.side && t.charger == f.charger || !p.joined(f, t) })
		if fits {
			sum = math.Max(sum, p.most(list, append(slices.Clone(taken), f), i+1))
		}
	}
	return sum
}

func (p *Passing) amps(f feeding) float64 {
	if f.charger != harness.None {
		return overOutput * float64(p.n.h.Elements[f.charger].Amps)
	}
	return p.into[f.fuse][f.end]
}

// joined tells whether the contacts of two ways can be closed at once.
func (p *Passing) joined(a, b feeding) bool {
	for _, x := range a.through {
		for _, y := range b.through {
			if p.n.excludes(x, y) {
				return false
			}
		}
	}
	return true
}

// excludes tells two contacts that no position of their switch, and no state of
// their coil, closes at once.
func (n *Net) excludes(x, y harness.ElementID) bool {
	a, b := n.h.Elements[x].When, n.h.Elements[y].When
	switch {
	case a.Kind == harness.InPosition && b.Kind == harness.InPosition && a.Switch == b.Switch:
		return !slices.ContainsFunc(a.Positions, func(at int) bool { return slices.Contains(b.Positions, at) })
	case a.Kind == harness.Energised && b.Kind == harness.Released, a.Kind == harness.Released && b.Kind == harness.Energised:
		return a.Coil == b.Coil
	}
	return false
}

// ends gives what feeds a wire from each of its ends; nothing where its metal has
// one feeder only.
func (p *Passing) ends(w harness.WireID) [2][]feeding {
	if list, ok := p.fed[w]; ok {
		return list
	}
	var out [2][]feeding
	from, to := p.n.vertex[p.n.h.Wires[w].From], p.n.vertex[p.n.h.Wires[w].To]
	metal := from
	if metal == p.n.chassis {
		metal = to
	}
	if p.feeders(p.region.Root(metal)) > 1 {
		for i, v := range [2]int{from, to} {
			if v != p.n.chassis {
				out[i] = p.feedingAt(v, w)
			}
		}
	}
	p.fed[w] = out
	return out
}

// feeders counts the sides of fuses and the alternators on a metal.
func (p *Passing) feeders(metal int) int {
	count := len(p.on[metal])
	for i := range p.n.h.Elements {
		if e := &p.n.h.Elements[i]; e.Kind == harness.Charger && p.region.Root(p.n.live(e)) == metal {
			count++
		}
	}
	return count
}

// feedingAt walks over metal from a vertex, not over one wire, and gives what feeds
// there with the contacts on the way.
func (p *Passing) feedingAt(from int, but harness.WireID) []feeding {
	var out []feeding
	through := map[int][]harness.ElementID{from: nil}
	p.n.walk(from, func(e edge) bool {
		if e.wire != harness.None {
			return e.wire != but
		}
		return p.n.conducts(e.element)
	}, func(v int) bool {
		for _, i := range p.n.at[v] {
			e := p.n.edges[i]
			if next := e.other(v); e.wire != but || e.wire == harness.None {
				if _, old := through[next]; !old && (e.wire != harness.None || p.n.conducts(e.element)) {
					through[next] = through[v]
					if e.element != harness.None && p.n.h.Elements[e.element].Kind == harness.Contact {
						through[next] = append(slices.Clone(through[v]), e.element)
					}
				}
			}
			if f, ok := p.feedingOver(e, v); ok {
				f.through = through[v]
				out = append(out, f)
			}
		}
		return true
	})
	return out
}

// feedingOver tells an edge by which a vertex is fed.
func (p *Passing) feedingOver(e edge, v int) (feeding, bool) {
	if e.element == harness.None {
		return feeding{}, false
	}
	switch x := &p.n.h.Elements[e.element]; {
	case x.Kind == harness.FuseLink:
		end := 0
		if p.n.vertex[x.B] == v {
			end = 1
		}
		return feeding{side: side{x.ID, end}, charger: harness.None}, true
	case x.Kind == harness.Charger && p.n.live(x) == v:
		return feeding{side: side{harness.None, 0}, charger: x.ID}, true
	}
	return feeding{}, false
}
