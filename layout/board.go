package layout

import (
	"fmt"
	"slices"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/loom/board"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// onBoard is the ask with the runs as they are on the board: the vehicle's own wires lie in the
// vehicle.
func onBoard(a page.Ask) page.Ask {
	r := *a.R
	r.Runs = slices.Clone(r.Runs)
	for i := range r.Runs {
		r.Runs[i].Wires = a.Made(r.Runs[i].Wires)
	}
	a.R = &r
	return a
}

// Board lays the loom out at full size, on sheets to be glued together or on one large
// page. It fails on an unknown paper, and where the description has no runs.
func Board(h *harness.Harness, r *result.Result, o Options) (*sheet.Packet, error) {
	ask, err := asked(h, r, o)
	if err != nil {
		return nil, err
	}
	sheets, err := board.Sheets(onBoard(ask), block(h), o.Fold)
	if err != nil {
		return nil, err
	}
	p := &sheet.Packet{
		Title: h.Info.Title + ", loom board", Subject: subject(h), Author: h.Info.Builder, Date: date(h), Caution: caution.Short(h)[0],
		Sheets: sheets,
	}
	if err := sheet.Verify(*p); err != nil {
		return nil, fmt.Errorf("the board cannot be drawn: %w", err)
	}
	return p, nil
}
