package marker

import (
	"slices"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/kinds"
	"example.com/loomfolio/sizing/rating"
)

// fewTubes takes as few kinds of clear tube over the markers as pass over and grip all wires.
// A printed sleeve keeps its own, since its width decides what is printed.
func fewTubes(labels []fitted.Label) {
	tubes := slices.DeleteFunc(rating.Shrinks(), func(t rating.Shrink) bool { return t.Family != rating.SingleWall })
	needs := make([]kinds.Need, len(labels))
	for i, l := range labels {
		needs[i] = kinds.Need{}
		for k, t := range tubes {
			if l.Tube.Inch != "" && l.As != fitted.Sleeve && t.Serves(l.Round, l.Round) {
				needs[i][k] = float64(t.Supplied * l.Long)
			}
		}
	}
	for i, k := range kinds.Pick(slices.Repeat([]float64{1}, len(tubes)), needs) {
		if k >= 0 {
			labels[i].Tube = tubes[k]
		}
	}
}
