package tree

import (
	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// Book is the fault dictionary as it is asked (fault.Book).
type Book interface {
	Faults() []proof.Fault
	Suspects(load harness.ElementID, state int) ([]int, error)
	In(state, fault int) (*fault.Seen, error)
	Sound(state int) *fault.Seen
}

// All chooses the measurements for every load that has a ladder, in their order. The error
// is one of the solver.
func All(h *harness.Harness, p *proof.Proof, book Book) ([]proof.Tree, error) {
	var out []proof.Tree
	faults := book.Faults()
	for _, l := range p.Ladders {
		suspects, err := book.Suspects(l.Load, l.State)
		if err != nil {
			return nil, err
		}
		seen, err := seenIn(book, l.State, suspects)
		if err != nil {
			return nil, err
		}
		out = append(out, Of(Case{
			Harness: h, Points: p.Points, Faults: faults, Load: l.Load, State: l.State, Suspects: suspects,
			Volts: func(suspect, point int) float64 { return seen[suspect].At(point) },
			Sound: book.Sound(l.State).At,
		}))
	}
	return out, nil
}

// seenIn is what is seen with each of some faults in a state.
func seenIn(book Book, state int, faults []int) ([]*fault.Seen, error) {
	out := make([]*fault.Seen, len(faults))
	for i, f := range faults {
		seen, err := book.In(state, f)
		if err != nil {
			return nil, err
		}
		out[i] = seen
	}
	return out, nil
}
