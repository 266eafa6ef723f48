package fit

import (
	"fmt"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/kinds"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// sleeves are the colours of insulated crimps, thinnest first.
var sleeves = [...]string{"red", "blue", "yellow"}

// fewSleeves takes as few colours as serve the insulated crimps of each fitting: a wire that
// two colours cover takes the one that is bought for others anyway, else its usual one. What is
// crimped together on one tab keeps the usual one, and so does what the shop or the part gives.
func (f *fitter) fewSleeves() {
	of := map[string][]*fitted.End{}
	var order []string
	for _, e := range f.allEnds() {
		if sleeveNumber(e.Crimp) < 0 || e.Part != "" {
			continue
		}
		if of[e.Fitting] == nil {
			order = append(order, e.Fitting)
		}
		of[e.Fitting] = append(of[e.Fitting], e)
	}
	for _, fitting := range order {
		f.sleevesOf(of[fitting])
	}
}

// sleevesOf chooses the colours of one fitting.
func (f *fitter) sleevesOf(ends []*fitted.End) {
	needs := make([]kinds.Need, len(ends))
	for i, e := range ends {
		own := sleeveNumber(e.Crimp)
		needs[i] = kinds.Need{own: 0}
		p := f.h.PartOf(e.Terminal)
		if len(e.With) > 0 || e.Second || e.Drain != "" || p != nil && p.Sleeve != "" {
			continue
		}
		for k, s := range sleeves {
			if k != own && rating.SleeveFits(s, rating.Conductor{Area: f.crimped(e)}) {
				needs[i][k] = 1
			}
		}
	}
	for i, k := range kinds.Pick(even(len(sleeves)), needs) {
		if k >= 0 && k != sleeveNumber(ends[i].Crimp) {
			f.sleeveInstead(ends[i], sleeves[k])
		}
	}
}

// sleeveInstead gives an end the sleeve of another colour that covers it too.
func (f *fitter) sleeveInstead(e *fitted.End, to string) {
	sleeve, _ := rating.SleeveRange(to, f.systemOf(e))
	own := sleeves[sleeveNumber(e.Crimp)]
	e.Crimp, e.Size = to+" insulated", sleeve.Range
	e.Doubt = fmt.Sprintf("%s: both %s and %s cover it; %s is used, a kind less is bought; prove by pull test", f.sizeOf(e), own, to, to)
	e.Reason = e.Doubt
	if j := f.jointOf(e.Terminal); j.Size != "" {
		f.hole(e, j)
	}
	e.Sources = append(e.Sources, sleeve.Source)
}

// systemOf gives the sizes in which an end's wire is sold.
func (f *fitter) systemOf(e *fitted.End) unit.System {
	if f.drainOnly(e) {
		return f.h.Sheet.Gauge
	}
	return f.c.Wires[e.Wire].Gauge.System
}

// sizeOf names the size of an end's wire.
func (f *fitter) sizeOf(e *fitted.End) unit.Gauge {
	if f.drainOnly(e) {
		return fitted.DrainGauge(f.h.Sheet.Gauge)
	}
	return f.c.Wires[e.Wire].Gauge
}

// sleeveNumber gives an insulated crimp's number among the sleeves, -1 for any other crimp.
func sleeveNumber(crimp string) int {
	for i, s := range sleeves {
		if crimp == s+" insulated" {
			return i
		}
	}
	return -1
}
