package tree

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// Book is the fault dictionary as it is asked (fault.Book).
type Book interface {
	Faults() []proof.Fault
	Suspects(load harness.ElementID, state int) []int
	In(state, fault int) *fault.Seen
	Sound(state int) *fault.Seen
}

// All chooses the measurements for every load that has a ladder, in their order.
func All(h *harness.Harness, p *proof.Proof, book Book) []proof.Tree {
	var out []proof.Tree
	for _, l := range p.Ladders {
		out = append(out, Of(CaseOf(h, p.Points, book, l)))
	}
	return out
}

// CaseOf is a load that does not work in a state in which it should.
func CaseOf(h *harness.Harness, points []proof.Point, book Book, l proof.Ladder) Case {
	load, state := l.Load, l.State
	suspects := book.Suspects(load, state)
	seen := seenIn(book, state, suspects)
	var rungs []int
	for _, r := range l.Rungs {
		rungs = append(rungs, r.Point)
	}
	return Case{
		Rungs: rungs, Harness: h, Points: points, Faults: book.Faults(), Load: load, State: state, Suspects: suspects,
		Volts: func(suspect, point int) float64 { return seen[suspect].At(point) },
		Sound: book.Sound(state).At, Calls: calls(h, points, load, seen, book.Sound(state)),
	}
}

// seenIn is what is seen with each of some faults in a state.
func seenIn(book Book, state int, faults []int) []*fault.Seen {
	out := make([]*fault.Seen, len(faults))
	for i, f := range faults {
		out[i] = book.In(state, f)
	}
	return out
}

// calls is by fault how likely one says of the load that it does not work.
func calls(h *harness.Harness, points []proof.Point, load harness.ElementID, seen []*fault.Seen, sound *fault.Seen) []float64 {
	const least = .02
	at := LoadAt(h, points, load)
	out := make([]float64, len(seen))
	for i, s := range seen {
		out[i] = 1
		if !slices.Contains(s.Dead, load) {
			out[i] = max(least, CalledDead(at.Lost(s, sound)))
		}
	}
	return out
}

// CalledDead is how likely one says that a load does not work which loses a part of its
// voltage: hardly so at a tenth, surely from three quarters on (judgement, not published).
func CalledDead(lost float64) float64 { return min(1, max(0, (lost-.1)/.65)) }

// Pair is two points, None where there is none.
type Pair struct{ A, B int }

// LoadAt are the points at a load's two terminals.
func LoadAt(h *harness.Harness, points []proof.Point, load harness.ElementID) Pair {
	out := Pair{proof.None, proof.None}
	for i, p := range points {
		switch p.At {
		case h.Elements[load].A:
			out.A = i
		case h.Elements[load].B:
			out.B = i
		}
	}
	return out
}

// Lost is the part of its voltage that what lies between two points loses by a fault, 0 to 1;
// half where a point is missing (judgement, not published).
func (p Pair) Lost(seen, sound *fault.Seen) float64 {
	if p.A == proof.None || p.B == proof.None {
		return .5
	}
	was := math.Abs(Across(sound.At(p.A), sound.At(p.B)))
	if was == 0 {
		return .5
	}
	return min(1, max(0, 1-math.Abs(Across(seen.At(p.A), seen.At(p.B)))/was))
}
