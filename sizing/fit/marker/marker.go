// Package marker makes the labels: what each says, and how it is made for its wire,
// of clear tube, a flag, a printed sleeve or the shop's own labels.
package marker

import (
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// labelled are the kinds of parts that get a label, besides the positions of fuse
// panels, in the order of the sheet: what one looks for behind a dashboard or in the
// loom and what does not show by itself what it is.
var labelled = [...]harness.Kind{
	harness.Fuse, harness.Breaker, harness.Relay, harness.Flasher, harness.ElectronicFlasher, harness.LatchingRelay, harness.Timer, harness.GlowTimer, harness.Stabiliser, harness.Isolator, harness.FusePanel, harness.Bus,
	harness.Connector, harness.Ground, harness.Splice, harness.Diode, harness.Resistor, harness.Capacitor,
}

// Heights of a face in mm; common practice, no source. The least (harness.LeastFace)
// holds capitals of 2 mm, leastCut those with LabelEdge above them and below, as paper is
// cut; a thicker wire than fills the most takes it as a patch.
const (
	leastCut  = 3.6
	LeastFace = float64(harness.LeastFace)
	LabelEdge = float64(harness.LabelEdge)
	mostWrap  = 10
	flagFace  = 7.5
	flatFace  = 12.5
	panelFace = 18
)

// Labels gives every label: those of the wires in cutting order, first end first,
// then the panels' fuses, then the parts that are labelled, kind by kind. Wires that
// kept (by WireID, nil for none) says are built have theirs.
func Labels(h *harness.Harness, c chosen.Chosen, reels []fitted.Reel, kept []harness.KeptState) []fitted.Label {
	var out []fitted.Label
	for _, w := range fitted.Order(h, reels) {
		if harness.IsBuilt(kept, int(w)) {
			continue
		}
		out = append(out, wireLabel(h, &c, w, 0), wireLabel(h, &c, w, 1))
	}
	if h.Practice.Buy.Fewest() {
		fewTubes(out)
	}
	for i := range h.Parts {
		if h.Parts[i].Panel != nil && !h.Parts[i].Existing {
			out = append(out, panelLabels(h, &c, &h.Parts[i])...)
		}
	}
	for _, kind := range labelled {
		for i := range h.Parts {
			if p := &h.Parts[i]; p.Kind == kind && !h.InOwnLoom(p) {
				out = append(out, partLabel(h, &c, p))
			}
		}
	}
	return out
}

// wireLabel is the marker of one end; side 0 is where the current comes from.
func wireLabel(h *harness.Harness, c *chosen.Chosen, id harness.WireID, side int) fitted.Label {
	w := &h.Wires[id]
	here, there := w.From, w.To
	if side == 1 {
		here, there = there, here
	}
	l := fitted.Label{
		Kind: fitted.WireLabel, Wire: id, End: string(rune('a' + side)), Part: h.Terminals[here].Part,
		Name: w.Name, Here: h.Terminals[here].Full, There: h.Terminals[there].Full,
		Round: c.Wires[id].Diameter, Long: h.Practice.Labels.Length,
	}
	if p := h.PartOf(there); p != nil && p.Name != p.Ref {
		l.Plain = p.Name
	}
	l.As, l.Face, l.Tube = Made(h.Practice.Labels.As, l.Round)
	if s := h.Practice.Labels.Sheet; s != nil {
		if as, face, ok := MadeOn(s, h.Practice.Labels.As, l.Round); ok {
			l.As, l.Face, l.Tube, l.Long, l.OnSheet = as, face, rating.Shrink{}, s.Wide, true
		}
	}
	return l
}

// MadeOn chooses how a marker is made of one of the shop's labels, for a wire of a
// diameter; false where the label does not serve it: a sleeve that is too tight or that
// shrinks to half its bore and is still loose, a flag that does not reach round the wire.
func MadeOn(s *harness.LabelSheet, wish string, diameter unit.Millimetre) (as string, face unit.Millimetre, ok bool) {
	d, printed := float64(diameter), float64(s.Printed())
	round := math.Min(math.Pi/2*d, math.Min(mostWrap, printed/2-LabelEdge))
	switch {
	case wish == fitted.Sleeve:
		bore := 2 / math.Pi * float64(s.High)
		return fitted.Sleeve, s.Printed(), d <= bore && d >= bore/2
	case wish != fitted.Flag && round >= LeastFace:
		return fitted.Wrap, unit.Millimetre(round), true
	}
	face = unit.Millimetre((printed-float64(FlagBand(diameter)))/2 - LabelEdge)
	return fitted.Flag, face, face >= harness.LeastFace
}

// FlagBand is what of a flag goes round the wire, to a tenth of a mm.
func FlagBand(wire unit.Millimetre) unit.Millimetre {
	return unit.Millimetre(math.Max(1, math.Round(math.Pi*float64(wire)*10)/10))
}

// Made chooses how a marker is made for a wire of a diameter, by the
// practice's wish: a face is half the way round the wire, or a tube's width while
// it lies flat, π/2 times its bore. Where that holds no capitals of 2 mm the marker is a flag.
func Made(wish string, diameter unit.Millimetre) (as string, face unit.Millimetre, tube rating.Shrink) {
	tube, ok := markerTube(diameter)
	round, flat := math.Pi/2*float64(diameter), math.Pi/2*float64(tube.Supplied)
	switch {
	case wish == fitted.Sleeve && ok && flat >= leastCut:
		return fitted.Sleeve, unit.Millimetre(flat), tube
	case wish != fitted.Flag && round >= leastCut:
		return fitted.Wrap, unit.Millimetre(math.Min(round, mostWrap)), tube
	}
	return fitted.Flag, flagFace, rating.Shrink{}
}

// markerTube is the thinnest single-wall tube that goes over a wire and grips it.
func markerTube(wire unit.Millimetre) (rating.Shrink, bool) {
	return rating.ShrinkFor("2:1 single wall", wire, wire)
}

// panelLabels are those of a panel, position by position as they are seen.
func panelLabels(h *harness.Harness, c *chosen.Chosen, p *harness.Part) []fitted.Label {
	var out []fitted.Label
	for _, row := range p.Panel.Layout {
		for _, position := range row {
			for i := range c.Fuses {
				if f := &c.Fuses[i]; f.Part == p.ID && f.Position == position && f.Rating > 0 && len(f.Feeds)+len(f.Wires) > 0 {
					out = append(out, fuseLabel(h, f))
				}
			}
		}
	}
	return out
}

func fuseLabel(h *harness.Harness, f *chosen.Fuse) fitted.Label {
	l := fitted.Label{
		Kind: fitted.FuseLabel, Wire: harness.None, Part: f.Part, Position: f.Position, Name: f.Position + "  " + f.Rating.String(),
		Plain: strings.Join(loadParts(h, f.Feeds), ", "), Feeds: f.Feeds, As: fitted.Flat, Face: panelFace, Long: h.Practice.Labels.Pitch,
	}
	if l.Long == 0 {
		l.Long = rating.Pitch(f.Body)
	}
	return l
}

// loadParts names the parts of some loads in plain words, each once.
func loadParts(h *harness.Harness, loads []string) []string {
	var out []string
	for _, name := range loads {
		for i := range h.Elements {
			if e := &h.Elements[i]; e.Name == name && !slices.Contains(out, h.Parts[e.Part].Name) {
				out = append(out, h.Parts[e.Part].Name)
			}
		}
	}
	return out
}

// partLabel is that of a part; of a fuse or breaker in a line with its rating, and
// where it has no plain name of its own with what it feeds.
func partLabel(h *harness.Harness, c *chosen.Chosen, p *harness.Part) fitted.Label {
	l := fitted.Label{Kind: fitted.PartLabel, Wire: harness.None, Part: p.ID, Name: p.Ref, As: fitted.Flat, Face: flatFace, Long: h.Practice.Labels.Length}
	if p.Kind == harness.Relay {
		l.Kind = fitted.RelayLabel
	}
	if p.Name != p.Ref {
		l.Plain = p.Name
	}
	if p.Place != harness.None {
		l.Here = h.Places[p.Place].Name
	}
	if p.Along != nil {
		run := &h.Runs[p.Along.Run]
		l.Here = h.Places[run.From].Name + " – " + h.Places[run.To].Name
	}
	for i := range c.Fuses {
		if f := &c.Fuses[i]; f.Part == p.ID && f.Position == "" && f.Rating > 0 {
			l.Kind, l.Name, l.Feeds = fitted.FuseLabel, p.Ref+"  "+f.Rating.String(), f.Feeds
			if l.Plain == "" {
				l.Plain = strings.Join(loadParts(h, f.Feeds), ", ")
			}
		}
	}
	return l
}

// Line gives the text on one end of a wire as one line; side 0 is where the current comes from.
func Line(h *harness.Harness, c *chosen.Chosen, w harness.WireID, side int) string {
	l := wireLabel(h, c, w, side)
	return l.Name + "  " + l.Second()
}
