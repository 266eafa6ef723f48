package fuses

import (
	"slices"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/ladder"
	"example.com/loomfolio/sizing/unit"
)

// class is some fuses that may be the same.
type class struct {
	spans []span
	fuses []harness.ElementID
}

// mostWays is how many ways to give bodies to the classes are tried, all with each other;
// where there are more, one class after the other changes its body.
const mostWays = 243

// sought gives the plan of the fewest kinds for the spans as they are; nil where nothing may
// change.
func (p *planner) sought() []choose.Rated {
	classes := p.classes()
	if len(classes) == 0 {
		return nil
	}
	best, served := p.everyBody(classes)
	if served == nil {
		best, served = p.bodyByBody(classes)
	}
	out := make([]choose.Rated, len(p.s.H.Elements))
	changed := false
	for c, way := range best {
		body := classes[c].spans[way].body
		for _, f := range classes[c].fuses {
			if r := (choose.Rated{Rating: served[c], Body: body}); r.Rating != p.s.Fuses[f].Rating || r.Body != p.s.Fuses[f].Body {
				out[f], changed = r, true
			}
		}
	}
	if !changed {
		return nil
	}
	return out
}

// classes gathers the free fuses by what they may be, in the order of the elements.
func (p *planner) classes() []class {
	var out []class
	for i := range p.s.H.Elements {
		e := &p.s.H.Elements[i]
		if !p.counts(e) || !p.open(e.ID) {
			continue
		}
		spans := p.spans(e.ID)
		at := slices.IndexFunc(out, func(c class) bool { return slices.Equal(c.spans, spans) })
		if at < 0 {
			at = len(out)
			out = append(out, class{spans: spans})
		}
		out[at].fuses = append(out[at].fuses, e.ID)
	}
	return out
}

// everyBody tries all ways to give bodies to the classes; nil where there are too many.
func (p *planner) everyBody(classes []class) (best []int, served []unit.Ampere) {
	ways := 1
	for _, c := range classes {
		if ways *= len(c.spans); ways > mostWays {
			return nil, nil
		}
	}
	var least count
	for n := range ways {
		way := make([]int, len(classes))
		for c := range classes {
			way[c], n = n%len(classes[c].spans), n/len(classes[c].spans)
		}
		if got, found := p.climbed(classes, way); served == nil || better(found, least) {
			best, served, least = way, got, found
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
			for to := range classes[c].spans {
				way := slices.Clone(best)
				way[c] = to
				if got, found := p.climbed(classes, way); better(found, least) {
					best, served, least, again = way, got, found, true
				}
			}
		}
	}
	return best, served
}

// climbed gives by class the rating of the fewest kinds when each class has the body of a way,
// and how many kinds are bought then.
func (p *planner) climbed(classes []class, way []int) ([]unit.Ampere, count) {
	out, total := make([]unit.Ampere, len(classes)), count{kinds: len(p.free)}
	var bodies []string
	for c := range classes {
		if body := classes[c].spans[way[c]].body; !slices.Contains(bodies, body) {
			bodies = append(bodies, body)
		}
	}
	for _, body := range bodies {
		var in []int
		for c := range classes {
			if classes[c].spans[way[c]].body == body {
				in = append(in, c)
			}
		}
		found := p.oneBody(classes, way, in, body, out)
		total.kinds += found.kinds
		total.sum += found.sum
	}
	return out, total
}

// oneBody lets the ladder serve the classes of one body, and writes their ratings down.
func (p *planner) oneBody(classes []class, way, in []int, body string, out []unit.Ampere) count {
	kinds := p.kindsOf(classes, way, in, body)
	free := make([]bool, len(kinds))
	for k, r := range kinds {
		free[k] = p.free[choose.Rated{Rating: r, Body: body}]
	}
	needs := make([]ladder.Need, len(in))
	for i, c := range in {
		x := classes[c].spans[way[c]]
		least, _ := slices.BinarySearch(kinds, x.least)
		most, _ := slices.BinarySearch(kinds, x.most)
		needs[i] = ladder.Need{Least: least, Most: most, Cost: make([]float64, len(kinds))}
		for k, r := range kinds {
			needs[i].Cost[k] = float64(r) * float64(len(classes[c].fuses))
		}
	}
	curve := ladder.Curve(len(kinds), needs, free)
	k := slices.IndexFunc(curve, func(s ladder.Set) bool { return s.Cost < 1e300 })
	for i, c := range in {
		out[c] = kinds[curve[k].Serving(needs[i])]
	}
	return count{k, curve[k].Cost}
}

// kindsOf lists the ratings of a body that may be bought, ascending: what is listed, and what
// the currents ask for.
func (p *planner) kindsOf(classes []class, way, in []int, body string) []unit.Ampere {
	out := slices.Clone(p.listed[body])
	for _, c := range in {
		if x := classes[c].spans[way[c]]; way[c] == 0 {
			out = append(out, x.least)
		} else {
			out = append(out, x.most)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
