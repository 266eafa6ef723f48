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
func (s *sizer) feederReason(e *harness.Element, f *fusing) string {
	sum, n := s.branchSum(e.ID)
	if n < 2 || sum <= f.rating {
		return ""
	}
	return fmt.Sprintf("; its %d fuses add up to %s: it is sized for the %s that run at once, not for their sum", n, sum, unit.Ampere(round(f.amps, 1)))
}

// branchSum adds up the fuses that hang on a fuse.
func (s *sizer) branchSum(id harness.ElementID) (sum unit.Ampere, n int) {
	for _, b := range s.branches[id] {
		if !s.spare(&s.h.Elements[b]) {
			sum += s.fuses[b].rating
			n++
		}
	}
	return sum, n
}

// feederAdvice is what a feeder that is too small needs besides a larger fuse.
func (f *inspection) feederAdvice(fuse *chosen.Fuse) string {
	sum, n := f.branchSum(fuse.Element)
	if n < 2 {
		return ""
	}
	return fmt.Sprintf("; its %d fuses add up to %s, and %s of that runs at once in %s: move some to another feeder", n, sum, amps(float64(fuse.Amps)), fuse.State)
}
