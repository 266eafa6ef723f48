package layout

import (
	"errors"
	"fmt"
	"slices"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/fusemap"
	"example.com/loomfolio/layout/label"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// Labels lays out what is stuck on, at its true size: the wires' markers on the shop's own label
// sheets or roll where the practice has them, the strips to be cut out on the packet's paper, the fuse
// cards, and the warnings for what is fed twice. It fails where there is nothing to label.
func Labels(h *harness.Harness, r *result.Result, o Options) (*sheet.Packet, error) {
	ask, err := asked(h, r, o)
	if err != nil {
		return nil, err
	}
	pages := slices.Concat(label.Sheets(ask), label.Labels(ask), fusemap.Cards(ask), label.Warnings(ask))
	if len(pages) == 0 {
		return nil, errors.New("nothing in this loom takes a label")
	}
	p := &sheet.Packet{
		Title: h.Info.Title + ", labels", Subject: subject(h), Author: h.Info.Builder, Date: date(h), Caution: caution.Short(h)[0],
		Sheets: frame.Bind(pages, block(h)),
	}
	if err := sheet.Verify(*p); err != nil {
		return nil, fmt.Errorf("the labels cannot be drawn: %w", err)
	}
	return p, nil
}
