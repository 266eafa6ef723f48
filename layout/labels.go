package layout

import (
	"errors"
	"fmt"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/label"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// Labels lays the wires' markers out on the shop's own label sheets or roll, and
// nothing else. It fails where the practice has none, or no wire is left to be marked.
func Labels(h *harness.Harness, r *result.Result, o Options) (*sheet.Packet, error) {
	if h.Practice.Labels.Sheet == nil {
		return nil, errors.New("the practice names no label sheets: write labels: {sheet: {…}} or {roll: {…}} there, or print the strips of the packet")
	}
	ask, err := asked(h, r, o)
	if err != nil {
		return nil, err
	}
	pages := label.Sheets(ask)
	if len(pages) == 0 {
		return nil, errors.New("no marker goes on these labels")
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
