package choose

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
)

// Unsettled ends the rounds with other sizes than those that were settled on.
func Unsettled(h *harness.Harness, ways []route.Way, s *Settled, at []int) (*Settled, error) {
	now, err := newChooser(h, ways, s.Pins).unsettled(at, s.Round)
	if err != nil {
		return nil, err
	}
	return &Settled{Round: now, Shorts: now.Shorts(), Drawn: now.ByWire()}, nil
}

// Still is by how much a temperature may change where it stands still, K.
const Still = still
