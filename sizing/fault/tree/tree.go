// Package tree makes of a load that does not work the next measurements.
//
// In: the faults that leave the load dead or weak in a state, with what a meter would show
// at each point. Out: a tree of measurements (proof.Tree) that leads to the class of faults
// that a meter can tell apart from the rest, cheap in minutes by how likely each is.
//
// A measurement is the meter on a point against battery negative, or across two points,
// load connected and on. Its answers are bands of volts: readings that are closer than Near
// and Part say are one answer, so that whatever a cheap meter and the state of the battery
// leave open cannot lead astray.
package tree

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/sizing/fault/probe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// Case is a load that does not work.
type Case struct {
	Harness  *harness.Harness
	Points   []proof.Point
	Faults   []proof.Fault
	Load     harness.ElementID
	State    int
	Rungs    []int                            // of its ladder, from the feed on: points
	Suspects []int                            // into Faults
	Volts    func(suspect, point int) float64 // by place in Suspects; NaN where nothing defines any
	Sound    func(point int) float64          // without a fault
	Calls    []float64                        // by suspect, how likely it is told by these words; nil for all alike
}

// Of chooses the measurements.
func Of(c Case) proof.Tree {
	t := proof.Tree{Load: c.Load, State: c.State, Suspects: c.Suspects}
	if len(c.Suspects) == 0 {
		return t
	}
	asks := c.Asks()
	found := probe.Best(c.Problem(asks))
	t.Mean, t.Most, t.Classes = found.Mean, found.Most, len(found.Classes)
	t.Entropy = probe.Entropy(c.weights(found.Classes))
	t.Root = c.probe(asks, found.Root)
	return t
}

// Problem is the case in numbers.
func (c Case) Problem(asks []Ask) probe.Problem {
	var p probe.Problem
	for i := range c.Suspects {
		p.Weights = append(p.Weights, c.weight(i))
	}
	for _, a := range asks {
		p.Tests = append(p.Tests, probe.Test{Cost: a.Minutes, Answer: a.Answer})
	}
	return p
}

// slight is the least weight that a fault has.
const slight = 1e-6

// weight is that of a suspect.
func (c Case) weight(i int) float64 {
	w := max(c.Faults[c.Suspects[i]].Weight, slight)
	if c.Calls != nil {
		w *= c.Calls[i]
	}
	return w
}

// weights are those of classes.
func (c Case) weights(classes [][]int) []float64 {
	out := make([]float64, len(classes))
	for k, class := range classes {
		for _, i := range class {
			out[k] += c.weight(i)
		}
	}
	return out
}

// probe gives a node of the tree as a measurement.
func (c Case) probe(asks []Ask, n *probe.Node) *proof.Probe {
	if n == nil {
		return nil
	}
	a := asks[n.Test]
	p := &proof.Probe{Point: a.Point, Against: a.Against}
	for _, b := range n.Branches {
		band := a.Bands[b.Answer]
		p.Answers = append(p.Answers, proof.Answer{
			Low: band.Low, High: band.High, Says: band.Says, Share: b.Share, Left: c.likeliest(b.Left), Next: c.probe(asks, b.Next),
		})
	}
	slices.Reverse(p.Answers) // the highest first, as one looks for it
	return p
}

// likeliest are suspects as faults, the likeliest first.
func (c Case) likeliest(suspects []int) []int {
	suspects = slices.Clone(suspects)
	slices.SortStableFunc(suspects, func(a, b int) int { return cmp.Compare(c.weight(b), c.weight(a)) })
	out := make([]int, len(suspects))
	for k, i := range suspects {
		out[k] = c.Suspects[i]
	}
	return out
}

// shown is what the meter shows: where nothing defines a voltage it reads next to nothing.
func shown(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return v
}

// source is the highest voltage of the sound state at any point, V; negative where plus is
// grounded, as the meter shows it.
func (c Case) source() unit.Volt {
	most := 0.0
	for p := range c.Points {
		most = max(most, math.Abs(shown(c.Sound(p))))
	}
	if c.Harness.System.PositiveEarth {
		return unit.Volt(-most)
	}
	return unit.Volt(most)
}
