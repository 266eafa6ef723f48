package choose

import (
	"fmt"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// feederReason says, of a fuse that other fuses hang on, what it is sized for:
// what runs at once. Its branches may add up to more, since each wire behind
// them has a fuse of its own; a state that takes more than the feeder's share is
// a finding (fuse-too-small). Common practice, no source.
func (s *sizer) feederReason(e *harness.Element, f *Fuse) string {
	sum, n := s.BranchSum(e.ID)
	if n < 2 || sum <= f.Rating {
		return ""
	}
	return fmt.Sprintf("; its %d fuses add up to %s: it is sized for the %s that run at once, not for their sum", n, sum, unit.Ampere(unit.Round(f.Amps, 1)))
}

// branchSum adds up the fuses that hang on a fuse.
func (s *sizer) BranchSum(id harness.ElementID) (sum unit.Ampere, n int) {
	for _, b := range s.Branches[id] {
		if !s.Spare(&s.H.Elements[b]) {
			sum += s.Fuses[b].Rating
			n++
		}
	}
	return sum, n
}

// feederAdvice is what a feeder that is too small needs besides a larger fuse.
func (f *inspection) feederAdvice(fuse *chosen.Fuse) string {
	sum, n := f.BranchSum(fuse.Element)
	if n < 2 {
		return ""
	}
	return fmt.Sprintf("; its %d fuses add up to %s, and %s of that runs at once in %s: move some to another feeder", n, sum, unit.Amps(float64(fuse.Amps)), fuse.State)
}
