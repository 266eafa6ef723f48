package fitted

import (
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// The kinds of labels.
const (
	WireLabel  = "wire"
	FuseLabel  = "fuse"
	RelayLabel = "relay"
	PartLabel  = "part" // all else that one looks for
)

// Label is one marker: on an end of a wire, in the lid of a fuse panel, on a fuse in
// a line, relay, bus, connector, ground or splice.
type Label struct {
	Kind     string
	Wire     harness.WireID  // None for what is no wire's
	End      string          // a or b, of a wire
	Part     harness.PartID  // where this end lands, or what is labelled; None for the bodywork
	Position string          // of a fuse in a panel
	Name     string          // big: "12C", "7 · 10 A", "K1"
	Here     string          // this end's terminal: "K1.87"; of a part its place
	There    string          // the other end's terminal: "FAN.+"
	Plain    string          // the other end's part, or what the fuse feeds, or the part's name
	Feeds    []string        // names of the loads behind a fuse
	As       string          // how it is made: wrap, flag, sleeve, flat
	Round    unit.Millimetre // diameter of the wire
	Long     unit.Millimetre // along the wire, or across the panel
	Face     unit.Millimetre // height of what one look shows
	OnSheet  bool            // it is one of the shop's labels; else cut out of paper
	Tube     rating.Shrink   // clear, over a wrapped marker, or the sleeve that is printed; none else
}

// How labels are made.
const (
	Wrap   = "wrap"   // paper or film round the wire, under clear tube
	Flag   = "flag"   // folded over the wire, the faces stuck together
	Sleeve = "sleeve" // the tube itself is printed while it lies flat
	Flat   = "flat"   // stuck on
)

// Second is the label's second line: "K1.87 → FAN.+ Radiator fan".
func (l Label) Second() string {
	switch {
	case l.Kind == WireLabel:
		return strings.TrimSpace(l.Here + " → " + l.There + " " + l.Plain)
	case l.Plain == "":
		return l.Here
	}
	return strings.TrimSuffix(l.Plain+", "+l.Here, ", ")
}
