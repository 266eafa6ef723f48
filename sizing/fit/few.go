package fit

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/kinds"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/ladder"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// few tells whether few kinds are bought, instead of the least that serves each place.
func (f *fitter) few() bool { return f.h.Practice.Buy.Fewest() }

// fewBarrels takes the barrels of splices from the ranges in which they are sold, as few
// kinds as hold all sums and still grip them.
func (f *fitter) fewBarrels() {
	if !f.few() {
		return
	}
	ranges := rating.Ranges(rating.Barrels)
	var at []int
	var needs []kinds.Need
	for i := range f.out.Splices {
		if s := &f.out.Splices[i]; len(s.Wires) > 0 && s.Number == "" {
			at = append(at, i)
			needs = append(needs, held(ranges, s.AreaSum, 0))
		}
	}
	for n, k := range kinds.Pick(even(len(ranges)), needs) {
		if k >= 0 {
			f.barrel(&f.out.Splices[at[n]], ranges[k])
		}
	}
}

// barrel fits a splice with a barrel of a range, and finds the tube over it again; where none
// passes over it the barrel by the sum stays.
func (f *fitter) barrel(s *fitted.Splice, r rating.Range) {
	with := *s
	with.Size = "uninsulated barrel " + r.Metric
	if f.h.Sheet.Imperial {
		with.Size = "uninsulated barrel " + r.AWG
	}
	with.Shrink = ""
	before := f.spliceNeeds[s.Part]
	f.spliceTube(&with, r.To)
	if with.Shrink == "" && s.Shrink != "" {
		f.spliceNeeds[s.Part] = before
		return
	}
	*s, f.barrels[s.Part] = with, r
	f.used = append(f.used, r.Source)
}

// held gives the ranges that hold copper of an area in a wire of an outside, each at the cost
// of its own size.
func held(ranges []rating.Range, area unit.SquareMillimetre, over unit.Millimetre) kinds.Need {
	out := kinds.Need{}
	for k, r := range ranges {
		if r.Holds(area, over) {
			out[k] = float64(r.To) + float64(r.OverTo)
		}
	}
	return out
}

// even weighs all kinds alike.
func even(n int) []float64 { return slices.Repeat([]float64{1}, n) }

// fewCrimps takes contacts by range, few colours of sleeves, and one kind of yellow sleeve.
func (f *fitter) fewCrimps() {
	if !f.few() {
		return
	}
	of := map[string][]*fitted.End{}
	var order []string
	for _, e := range f.allEnds() {
		if e.Crimp == openBarrel && e.Part == "" && !e.Second {
			if of[e.Fitting] == nil {
				order = append(order, e.Fitting)
			}
			of[e.Fitting] = append(of[e.Fitting], e)
		}
	}
	for _, fitting := range order {
		f.contacts(of[fitting])
	}
	f.fewSleeves()
	f.yellow()
}

// allEnds gives the ends of all wires, then those of drains with a fitting of their own.
func (f *fitter) allEnds() []*fitted.End {
	var out []*fitted.End
	for i := range f.out.Ends {
		out = append(out, &f.out.Ends[i][0], &f.out.Ends[i][1])
	}
	for i := range f.out.Units {
		for n := range f.out.Units[i].Drains {
			if d := &f.out.Units[i].Drains[n]; d.With == harness.None {
				out = append(out, &d.Fitting)
			}
		}
	}
	return out
}

// contacts takes the fewest ranges for the contacts of one family; a wire that lies in no
// range keeps a contact of its own size. The size stays what die and crimp height go by.
func (f *fitter) contacts(ends []*fitted.End) {
	ranges := rating.Ranges(rating.Contacts)
	needs := make([]kinds.Need, len(ends))
	for i, e := range ends {
		needs[i] = held(ranges, f.crimped(e), e.Over)
	}
	for i, k := range kinds.Pick(even(len(ranges)), needs) {
		if k >= 0 {
			ends[i].Range = ranges[k].Name(f.h.Sheet.Gauge)
		}
	}
}

// crimped is the copper in an end's crimp: of all wires in it, and of a drain.
func (f *fitter) crimped(e *fitted.End) unit.SquareMillimetre {
	if f.drainOnly(e) {
		return f.drainArea()
	}
	sum := f.together(f.out.Sharing(e))
	if e.Drain != "" {
		sum += f.drainArea()
	}
	return sum
}

// drainOnly tells the fitting of a drain from the end of a wire.
func (f *fitter) drainOnly(e *fitted.End) bool {
	two := &f.out.Ends[e.Wire]
	return e != &two[0] && e != &two[1]
}

// yellow names the yellow sleeves by the range that begins at 2.5 mm² where one of them holds
// less than 4 mm², all of them: one kind.
func (f *fitter) yellow() {
	const named = 3.9 // mm², of which 4 is rounded
	usual, _ := rating.SleeveRange("yellow", unit.Metric)
	var ends []*fitted.End
	thin := false
	for _, e := range f.allEnds() {
		if e.Crimp == "yellow insulated" && e.Size == usual.Range && e.Part == "" {
			ends = append(ends, e)
			thin = thin || f.crimped(e) < named
		}
	}
	if !thin {
		return
	}
	wide := rating.Wide()
	for _, e := range ends {
		e.Reason = strings.ReplaceAll(e.Reason, usual.Range, wide.Range)
		e.Size = wide.Range
		e.Sources = append(e.Sources, wide.Source)
	}
}

// fewCovers takes the covers of each kind from the bores that are easily found, as few as
// go over all runs and are not too wide for one; then what the cover's outside decides is found again.
func (f *fitter) fewCovers() {
	if !f.few() {
		return
	}
	of := map[string][]*fitted.Run{}
	var order []string
	for i := range f.out.Runs {
		r := &f.out.Runs[i]
		if r.Cover == 0 {
			continue
		}
		if of[r.CoverName] == nil {
			order = append(order, r.CoverName)
		}
		of[r.CoverName] = append(of[r.CoverName], r)
	}
	for _, cover := range order {
		f.covers(of[cover])
	}
}

// covers chooses the bores of one kind of cover.
func (f *fitter) covers(runs []*fitted.Run) {
	bores := rating.Bores(f.h.Sheet.Imperial)
	var needs []ladder.Need
	for _, r := range runs {
		needs = append(needs, f.bores(r, bores))
	}
	set := ladder.Fewest(len(bores), needs)
	for i, r := range runs {
		k := set.Serving(needs[i])
		if needs[i].Most < needs[i].Least || k < 0 {
			continue
		}
		r.Cover = bores[k].Bore
		f.used = append(f.used, bores[k].Source)
		r.Boot, r.BootLen = "", 0
		f.edges(r)
	}
}

// bores gives the bores that serve a run: wide enough for its bundle, not so wide that it
// rattles or that no tube closes the cover's end.
func (f *fitter) bores(r *fitted.Run, bores []rating.Bore) ladder.Need {
	out := ladder.Need{Least: len(bores), Most: -1}
	length := float64(f.h.Runs[r.Run].Length)
	least := rating.CoverBore(r.Diameter)
	for k, b := range bores {
		out.Cost = append(out.Cost, float64(b.Bore)*length)
		if b.Bore < least {
			continue
		}
		out.Least = min(out.Least, k)
		_, ends := tubeOver(outside(r.CoverName, r.Diameter, b.Bore), r.Diameter)
		if float64(b.Bore) <= rating.MostBore*float64(r.Diameter) && (ends || r.Boot == "") {
			out.Most = k
		}
	}
	return out
}

// openBarrel is the crimp of a contact, and of other fittings that are rolled.
const openBarrel = "open barrel"
