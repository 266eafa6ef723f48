package fuses

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/ladder"
	"example.com/loomfolio/sizing/unit"
)

// class is some fuses that may be the same.
type class struct {
	offers []offer
	fuses  []harness.ElementID
}

// mostWays is how many ways to give bodies to the classes are tried, all with each other;
// where there are more, one class after the other changes its body.
const mostWays = 243

// sought gives the plan that comes to least with what is offered; nil where nothing is offered
// or nothing changes.
func (p *planner) sought() []choose.Rated {
	classes, ok := p.classes()
	if !ok {
		return nil
	}
	way, served := p.everyBody(classes)
	if served == nil {
		way, served = p.bodyByBody(classes)
	}
	out, changed := make([]choose.Rated, len(p.s.H.Elements)), false
	for c := range classes {
		r := choose.Rated{Rating: served[c], Body: classes[c].offers[way[c]].body}
		for _, f := range classes[c].fuses {
			if r != p.now(f) {
				out[f], changed = r, true
			}
		}
	}
	if !changed {
		return nil
	}
	return out
}

// classes gathers the free fuses by what they may be, in the order of the elements; false where
// there are none, or one may be nothing.
func (p *planner) classes() ([]class, bool) {
	var out []class
	for _, f := range p.movable() {
		offers := p.offers(f)
		if len(offers) == 0 {
			return nil, false
		}
		at := slices.IndexFunc(out, func(c class) bool { return slices.EqualFunc(c.offers, offers, same) })
		if at < 0 {
			at = len(out)
			out = append(out, class{offers: offers})
		}
		out[at].fuses = append(out[at].fuses, f)
	}
	return out, len(out) > 0
}

func same(a, b offer) bool {
	return a.body == b.body && slices.Equal(a.ratings, b.ratings) && slices.Equal(a.grams, b.grams)
}

// everyBody tries all ways to give bodies to the classes; nil where there are too many.
func (p *planner) everyBody(classes []class) (best []int, served []unit.Ampere) {
	ways := 1
	for _, c := range classes {
		if ways *= len(c.offers); ways > mostWays {
			return nil, nil
		}
	}
	least := math.Inf(1)
	for n := range ways {
		way := make([]int, len(classes))
		for c := range classes {
			way[c], n = n%len(classes[c].offers), n/len(classes[c].offers)
		}
		if got, sum := p.climbed(classes, way); sum < least-1e-9 {
			best, served, least = way, got, sum
		}
	}
	return best, served
}

// bodyByBody changes the body of one class after the other as long as that helps.
func (p *planner) bodyByBody(classes []class) (best []int, served []unit.Ampere) {
	best = make([]int, len(classes))
	served, least := p.climbed(classes, best)
	for again := true; again; {
		again = false
		for c := range classes {
			for to := range classes[c].offers {
				way := slices.Clone(best)
				way[c] = to
				if got, sum := p.climbed(classes, way); sum < least-1e-9 {
					best, served, least, again = way, got, sum, true
				}
			}
		}
	}
	return best, served
}

// climbed gives by class the rating that comes to least when each class has the body of a way,
// and what all come to, beside what is bought in any case.
func (p *planner) climbed(classes []class, way []int) (served []unit.Ampere, sum float64) {
	served = make([]unit.Ampere, len(classes))
	var bodies []string
	for c := range classes {
		if body := classes[c].offers[way[c]].body; !slices.Contains(bodies, body) {
			bodies = append(bodies, body)
		}
	}
	for _, body := range bodies {
		var in []int
		for c := range classes {
			if classes[c].offers[way[c]].body == body {
				in = append(in, c)
			}
		}
		sum += p.oneBody(classes, way, in, body, served)
	}
	return served, sum
}

// oneBody lets the ladder serve the classes of one body, and writes their ratings down.
func (p *planner) oneBody(classes []class, way, in []int, body string, served []unit.Ampere) float64 {
	kinds := slices.Clone(p.listed[body])
	for _, c := range in {
		kinds = append(kinds, classes[c].offers[way[c]].ratings...)
	}
	slices.Sort(kinds)
	kinds = slices.Compact(kinds)
	free, needs := make([]bool, len(kinds)), make([]ladder.Need, len(in))
	for k, r := range kinds {
		free[k] = p.free[choose.Rated{Rating: r, Body: body}]
	}
	for i, c := range in {
		needs[i] = need(&classes[c].offers[way[c]], len(classes[c].fuses), kinds)
	}
	best, sum := ladder.Set{}, math.Inf(1)
	for k, set := range ladder.Curve(len(kinds), needs, free) {
		if now := set.Cost + p.perKind()*float64(k); now < sum-1e-9 {
			best, sum = set, now
		}
	}
	for i, c := range in {
		served[c] = kinds[best.Serving(needs[i])]
	}
	return sum
}

// need is an offer to so many fuses, for the ladder. Between two ratings of the offer the upper
// one's copper counts.
func need(o *offer, fuses int, kinds []unit.Ampere) ladder.Need {
	least, _ := slices.BinarySearch(kinds, o.ratings[0])
	most, _ := slices.BinarySearch(kinds, o.ratings[len(o.ratings)-1])
	out := ladder.Need{Least: least, Most: most, Cost: make([]float64, len(kinds))}
	for k, r := range kinds {
		at, _ := slices.BinarySearch(o.ratings, r)
		at = min(at, len(o.ratings)-1)
		out.Cost[k] = float64(fuses) * (o.grams[at] + hardly*float64(r))
	}
	return out
}
