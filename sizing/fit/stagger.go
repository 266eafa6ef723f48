package fit

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

const (
	// apart is the clear loom between the tubes of two splices, mm; common practice,
	// no source: NASA workmanship guidance 4.07 asks for the stagger and names no length.
	apart unit.Millimetre = 10
	// mostInBarrel is how many wires are put into one barrel; common practice, no
	// source: more of them hide a strand that was left out.
	mostInBarrel = 8
)

// stagger holds the splices against what keeps a loom round and whole: none
// where it bends in use, none beside another, none with more wires than its
// barrel holds. It finds how far each is moved.
func (f *fitter) stagger() {
	byRun := make([][]*fitted.Splice, len(f.h.Runs))
	byPlace := make([][]*fitted.Splice, len(f.h.Places))
	for i := range f.out.Splices {
		s := &f.out.Splices[i]
		p := &f.h.Parts[s.Part]
		if len(s.Wires) == 0 || f.allOwn(s.Wires) {
			continue
		}
		f.overFilled(s, p)
		f.batteryCable(s, p)
		switch {
		case p.Along != nil:
			f.inFlex(p)
			byRun[p.Along.Run] = append(byRun[p.Along.Run], s)
		case p.Place != harness.None:
			byPlace[p.Place] = append(byPlace[p.Place], s)
		}
	}
	for run, list := range byRun {
		f.spread(harness.RunID(run), list)
	}
	for place, list := range byPlace {
		f.fanOut(harness.PlaceID(place), list, byRun)
	}
	if len(f.out.Splices) > 0 {
		f.used = append(f.used, "nasa-stagger")
	}
}

func (f *fitter) overFilled(s *fitted.Splice, p *harness.Part) {
	n := len(s.Wires)
	if n <= mostInBarrel {
		return
	}
	f.problems = append(f.problems, source.Problem{
		Slug: "splice-over-filled", Level: source.Warning, Span: p.Span,
		Summary:  fmt.Sprintf("%d wires meet in %s; a barrel holds %d at most (common practice, no source)", n, p.Ref, mostInBarrel),
		Detail:   "make two splices with one wire between them, or use a bus",
		Subjects: append([]string{p.Ref}, f.names(s.Wires)...), Numbers: []source.Number{{Name: "wires", Value: float64(n)}},
	})
}

// batteryCable reports a splice in a cable that cranks the engine and that no fuse
// guards: battery cables are not spliced (17 NYCRR 720.6(b)).
func (f *fitter) batteryCable(s *fitted.Splice, p *harness.Part) {
	var cables []harness.WireID
	for _, w := range s.Wires {
		if f.h.Circuits[f.h.Wires[w].Circuit].Class == "start" && f.c.Wires[w].ProtectedBy == "" {
			cables = append(cables, w)
		}
	}
	if len(cables) == 0 {
		return
	}
	f.problems = append(f.problems, source.Problem{
		Slug: "battery-cable-spliced", Level: source.Warning, Span: p.Span,
		Summary:  fmt.Sprintf("%s joins %s, which crank the engine with no fuse before them: battery cables are not spliced (17 NYCRR 720.6(b))", p.Ref, strings.Join(f.names(cables), " and ")),
		Detail:   "use one cable from end to end, or a stud: a bus in place of the splice",
		Subjects: append([]string{p.Ref}, f.names(cables)...),
	})
}

func (f *fitter) names(wires []harness.WireID) []string {
	var out []string
	for _, w := range wires {
		out = append(out, f.h.Wires[w].Name)
	}
	return out
}

// inFlex reports a splice where the loom bends (NASA workmanship guidance 4.07).
func (f *fitter) inFlex(p *harness.Part) {
	r := &f.h.Runs[p.Along.Run]
	if !r.Flexes {
		return
	}
	f.problems = append(f.problems, source.Problem{
		Slug: "splice-in-flex", Level: source.Warning, Span: p.Span,
		Summary:  fmt.Sprintf("%s lies in the run %s, which flexes in use: a crimp there works loose or breaks its wires", p.Ref, f.runName(r.ID)),
		Detail:   "put it into a run that lies still: at one of the run's places, or along: another run",
		Subjects: []string{p.Ref}, Others: []source.Note{{Span: r.Span, Text: "this run flexes"}},
	})
}

func (f *fitter) runName(id harness.RunID) string {
	r := &f.h.Runs[id]
	return f.h.Places[r.From].Name + " – " + f.h.Places[r.To].Name
}

// tubeLength is how much of the loom a splice takes up.
func tubeLength(s *fitted.Splice) unit.Millimetre {
	if s.ShrinkLen > 0 {
		return s.ShrinkLen
	}
	return 2 * barrelStrip(s.AreaSum)
}

// between is the least distance between the middles of two splices, to 5 mm upward.
func between(a, b *fitted.Splice) unit.Millimetre {
	return upTo5((tubeLength(a)+tubeLength(b))/2 + apart)
}

// spread moves the splices of one run apart where their given distances bunch,
// each as little as it must, and reports it once a run.
func (f *fitter) spread(run harness.RunID, list []*fitted.Splice) {
	at := func(s *fitted.Splice) unit.Millimetre { return f.h.Parts[s.Part].Along.Distance }
	slices.SortStableFunc(list, func(a, b *fitted.Splice) int { return cmp.Compare(at(a), at(b)) })
	want := make([]unit.Millimetre, len(list))
	for i, s := range list {
		s.Into, want[i] = run, at(s)
		if i > 0 {
			want[i] = max(want[i], want[i-1]+between(list[i-1], s))
		}
	}
	most := f.h.Runs[run].Length
	for i := len(list) - 1; i >= 0; i-- {
		want[i] = min(want[i], most)
		if i > 0 && want[i]-want[i-1] < between(list[i-1], list[i]) {
			most = want[i] - between(list[i-1], list[i])
		} else {
			most = f.h.Runs[run].Length
		}
	}
	f.sayBunched(run, list, want)
}

func (f *fitter) sayBunched(run harness.RunID, list []*fitted.Splice, want []unit.Millimetre) {
	var moved, refs []string
	var first *harness.Part
	for i, s := range list {
		p := &f.h.Parts[s.Part]
		refs = append(refs, p.Ref)
		s.Shift = want[i] - p.Along.Distance
		if s.Shift == 0 {
			continue
		}
		if first == nil {
			first = p
		}
		moved = append(moved, fmt.Sprintf("%s to %s", p.Ref, unit.LengthText(max(0, want[i]), f.h.Sheet.Imperial)))
	}
	if first == nil {
		return
	}
	detail := "move " + strings.Join(moved, ", ")
	if want[0] < 0 {
		detail = "the run is too short for all of them: move some into another run"
	}
	f.problems = append(f.problems, source.Problem{
		Slug: "splices-together", Level: source.Warning, Span: first.Span,
		Summary:  fmt.Sprintf("%s lie side by side in the run %s, so that the bundle swells; their tubes need %s of loom between them", strings.Join(refs, ", "), f.runName(run), unit.LengthText(apart, f.h.Sheet.Imperial)),
		Detail:   detail,
		Subjects: refs,
	})
}

// fanOut moves the splices of one place out along the runs that their wires
// take, so that no two lie side by side: the one with most copper stays. What is
// farther out than the slack reaches is better written along its run.
// Those that lie along such a run keep their distance, and the others pass them; one
// that is written too near the place for what stays there is reported.
func (f *fitter) fanOut(place harness.PlaceID, list []*fitted.Splice, byRun [][]*fitted.Splice) {
	slices.SortStableFunc(list, func(a, b *fitted.Splice) int { return cmp.Compare(b.AreaSum, a.AreaSum) })
	if len(list) > 0 {
		f.sayNear(place, list[0], byRun)
	}
	last := map[harness.RunID]*fitted.Splice{}
	reach := map[harness.RunID]unit.Millimetre{}
	for i, s := range list {
		if i == 0 {
			continue
		}
		for _, run := range f.leaving(place, s) {
			out := between(list[0], s)
			if last[run] != nil {
				out = reach[run] + between(last[run], s)
			}
			out = f.past(place, run, byRun[run], s, out)
			if s.Into == harness.None || out < s.Shift {
				s.Into, s.Shift = run, out
			}
		}
		if s.Into != harness.None {
			last[s.Into], reach[s.Into] = s, s.Shift
			f.sayFar(place, s)
		}
	}
}

// away is how far a splice along a run lies from one of its ends.
func (f *fitter) away(place harness.PlaceID, s *fitted.Splice) unit.Millimetre {
	along := f.h.Parts[s.Part].Along
	at := along.Distance + s.Shift
	if f.h.Runs[along.Run].To == place {
		return f.h.Runs[along.Run].Length - at
	}
	return at
}

// past moves a distance from a place on until it is clear of every splice that lies along the run.
func (f *fitter) past(place harness.PlaceID, run harness.RunID, along []*fitted.Splice, s *fitted.Splice, out unit.Millimetre) unit.Millimetre {
	along = slices.Clone(along)
	slices.SortStableFunc(along, func(a, b *fitted.Splice) int { return cmp.Compare(f.away(place, a), f.away(place, b)) })
	for _, other := range along {
		if at, clear := f.away(place, other), between(other, s); out > at-clear && out < at+clear {
			out = at + clear
		}
	}
	return out
}

// sayNear reports splices along the runs of a place that lie beside the one that stays at it.
func (f *fitter) sayNear(place harness.PlaceID, stays *fitted.Splice, byRun [][]*fitted.Splice) {
	for run, along := range byRun {
		r := &f.h.Runs[run]
		if r.From != place && r.To != place {
			continue
		}
		for _, s := range along {
			clear := between(stays, s)
			if f.away(place, s) >= clear {
				continue
			}
			p := &f.h.Parts[s.Part]
			f.problems = append(f.problems, source.Problem{
				Slug: "splices-together", Level: source.Advice, Span: p.Span,
				Summary: fmt.Sprintf("%s lies %s from %s in the run %s, and %s stays there: their tubes lie side by side", p.Ref,
					unit.LengthText(f.away(place, s), f.h.Sheet.Imperial), f.h.Places[place].Name, f.runName(r.ID), f.h.Parts[stays.Part].Ref),
				Detail:   fmt.Sprintf("write it %s from %s", unit.LengthText(clear, f.h.Sheet.Imperial), f.h.Places[place].Name),
				Subjects: []string{p.Ref, f.h.Parts[stays.Part].Ref},
			})
		}
	}
}

// leaving lists the runs that a splice's wires take from its place, most wires
// first; those that bend are left out, as are those too short to lie in.
func (f *fitter) leaving(place harness.PlaceID, s *fitted.Splice) []harness.RunID {
	count := map[harness.RunID]int{}
	var out []harness.RunID
	for _, w := range s.Wires {
		shares := f.ways[w].Shares
		if len(shares) == 0 {
			continue
		}
		share := shares[0]
		if f.h.Terminals[f.h.Wires[w].From].Part != s.Part {
			share = shares[len(shares)-1]
		}
		if f.touches(share, place) {
			if count[share.Run] == 0 {
				out = append(out, share.Run)
			}
			count[share.Run]++
		}
	}
	slices.SortStableFunc(out, func(a, b harness.RunID) int { return cmp.Or(count[b]-count[a], int(a-b)) })
	return out
}

func (f *fitter) touches(share route.Share, place harness.PlaceID) bool {
	r := &f.h.Runs[share.Run]
	return !r.Flexes && (r.From == place || r.To == place)
}

// sayFar advises to write a splice along its run where the wires' slack does not reach it.
func (f *fitter) sayFar(place harness.PlaceID, s *fitted.Splice) {
	p := &f.h.Parts[s.Part]
	if s.Shift <= f.h.Practice.EachEnd {
		return
	}
	r := &f.h.Runs[s.Into]
	other := r.To
	if r.To == place {
		other = r.From
	}
	f.problems = append(f.problems, source.Problem{
		Slug: "splices-together", Level: source.Advice, Span: p.Span,
		Summary: fmt.Sprintf("several splices meet at %s; %s lies %s out into the run %s, farther than the wires' slack of %s", f.h.Places[place].Name, p.Ref,
			unit.LengthText(s.Shift, f.h.Sheet.Imperial), f.runName(s.Into), unit.LengthText(f.h.Practice.EachEnd, f.h.Sheet.Imperial)),
		Detail: fmt.Sprintf("write along: {run: [%s, %s], distance: %s} for it, so that the cut lengths follow",
			f.h.Places[place].Key, f.h.Places[other].Key, unit.LengthText(s.Shift, f.h.Sheet.Imperial)),
		Subjects: []string{p.Ref},
	})
}
