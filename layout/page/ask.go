// Package page holds what all sheets of a packet are made from (the model, the
// results, the paper, the reader), the book that they are filled with, and the small
// drawings that several of them share: the swatch of a wire's colour, references to other sheets.
//
// Sheets are laid out in passes: in the first no reference can be looked up, in
// the next ones the places found before are known. Anchors are named
//
//	sheet/NAME        first page of a kind of sheet (sheet/wires, sheet/tests, sheet/as-found)
//	circuit/KEY       a circuit's diagram
//	part/REF          a part's tile in a diagram (the first one)
//	drawn/NAME        a wire's flag on its diagram
//	wire/NAME         a wire's row in wires and their ends
//	index/NAME        a wire's row in the index
//	fuse/NAME         a fuse in the fuse map
//	ground/REF        a ground's stack
//	connector/REF     a connector's face
//	splice/REF        a splice
//	run/FROM-TO       a run of the loom on the map, by the keys of its places
//	laid/FROM-TO      its row in the list of runs
//	ladder/REF        the ladder of a part's loads; ladder/POINT that of what feeds several
//	place/KEY         a place on the map of the loom
//	photo/REF         a part's photograph; photo/place/KEY that of a place
package page

import (
	"fmt"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// The three readers.
const (
	Bench    = "bench"
	Customer = "customer"
	Archive  = "archive"
)

// Ask is what a sheet is made from; Of makes one.
type Ask struct {
	H     *harness.Harness
	R     *result.Result
	Paper string                 // A4, A3, letter, tabloid
	Big   string                 // of the large sheets: A3, tabloid, A2, A1, A0, roll; "" the one that goes with Paper
	For   string                 // Bench, Customer or Archive
	Known map[string]frame.Place // anchors found in the pass before; nil in the first
	Above float64                // of the first upright sheet, mm from the top of its body: what stands there already
	found *index
}

// Upright is the frame of a table sheet, Landscape that of a drawing sheet.
func (a Ask) Upright() frame.Frame { return a.frame(false) }

// Landscape is the frame of a drawing sheet.
func (a Ask) Landscape() frame.Frame { return a.frame(true) }

// LargePaper is the paper of the large sheets.
func (a Ask) LargePaper() string {
	if a.Big != "" {
		return a.Big
	}
	return unit.LargePaper(a.Paper)
}

// Large is the frame of a large sheet, lying; that of a roll is as long as it is high.
func (a Ask) Large() frame.Frame {
	f, err := frame.Of(a.LargePaper(), true)
	if err != nil { // the paper's name was checked by the front door
		f, _ = frame.Of("A3", true)
	}
	return f
}

func (a Ask) frame(landscape bool) frame.Frame {
	f, err := frame.Of(a.Paper, landscape)
	if err != nil { // the paper's name was checked by the front door
		f, _ = frame.Of("A4", landscape)
	}
	if !landscape {
		f.Taken = a.Above
	}
	return f
}

// Link gives the anchor when it stands somewhere in this packet, else "".
func (a Ask) Link(anchor string) string {
	if _, ok := a.Known[anchor]; ok {
		return anchor
	}
	return ""
}

// Where gives "sheet 7, C3" for an anchor, or "" while it is not known.
func (a Ask) Where(anchor string) string {
	p, ok := a.Known[anchor]
	if !ok {
		return ""
	}
	return fmt.Sprintf("sheet %d, %s", p.Sheet, p.Zone)
}
