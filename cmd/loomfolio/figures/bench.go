package figures

import (
	"math"
	"strings"

	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit"
	"example.com/loomfolio/sizing/harness"
)

// CutRow is one wire in the order of the cut list. From counts the lengths that are
// cut from, through all reels; 0 for a wire that is longer than any.
type CutRow struct {
	Order    int     `json:"order"`
	From     int     `json:"from"`
	FromMM   float64 `json:"from_mm"`
	Shelf    bool    `json:"shelf"` // that length is a left-over
	Wire     string  `json:"wire"`
	System   string  `json:"system"`
	Gauge    string  `json:"gauge"`
	Wall     string  `json:"insulation"`
	Colour   string  `json:"colour"`       // letters
	Words    string  `json:"colour_words"` // "orange, black tracer"
	LengthMM float64 `json:"length_mm"`
	StripAMM float64 `json:"strip_a_mm"`
	EndA     string  `json:"end_a"`
	FittingA string  `json:"fitting_a"`
	StripBMM float64 `json:"strip_b_mm"`
	EndB     string  `json:"end_b"`
	FittingB string  `json:"fitting_b"`
	LabelA   string  `json:"label_a"`
	LabelB   string  `json:"label_b"`
}

// Label is one label, in the order in which they are printed: wire by wire as they are
// cut, end a, then b, then those of parts, whose wire and end are empty.
type Label struct {
	Order    int     `json:"order"`
	Kind     string  `json:"kind"` // wire, fuse, relay, part
	Wire     string  `json:"wire"`
	End      string  `json:"end"`
	Part     string  `json:"part"`
	Line1    string  `json:"line_1"`
	Line2    string  `json:"line_2"`
	As       string  `json:"as"`        // wrap, flag, sleeve, flat
	Sleeve   string  `json:"sleeve"`    // printed, or clear over a wrapped label; "" for none
	SleeveMM float64 `json:"sleeve_mm"` // its bore as supplied; 0 for none
	WidthMM  float64 `json:"width_mm"`  // of one face, across the wire; of a sleeve as it lies flat
	LengthMM float64 `json:"length_mm"`
	WireMM   float64 `json:"wire_mm"` // diameter of the wire
}

func (f *filler) cuts() {
	before := 0
	for i := range f.r.Reels {
		reel := &f.r.Reels[i]
		for _, w := range reel.Wires {
			row := f.cut(w)
			row.Order = len(f.d.Cuts) + 1
			row.Colour, row.Words = pairText(reel)
			for n, c := range reel.Cuts {
				for _, id := range c.Wires {
					if id == w {
						row.From, row.FromMM, row.Shelf = before+n+1, float64(c.Whole), c.Shelf
					}
				}
			}
			f.d.Cuts = append(f.d.Cuts, row)
		}
		before += len(reel.Cuts)
	}
}

func pairText(r *fit.Reel) (letters, words string) {
	if r.Base == "" {
		return "", ""
	}
	p := colour.Pair{Base: r.Base, Tracer: r.Tracer}
	return p.String(), colour.Words(p)
}

func (f *filler) cut(id harness.WireID) CutRow {
	w, c, ends := f.h.Wires[id], f.r.Wires[id], f.r.Ends[id]
	fitting := func(e fit.End) string { return strings.TrimSuffix(e.Fitting+", "+e.Crimp, ", ") }
	return CutRow{
		Wire: w.Name, System: c.Gauge.System.String(), Gauge: c.Gauge.Size, Wall: c.Insulation, LengthMM: float64(f.r.Ways[id].Length),
		StripAMM: float64(ends[0].Strip), EndA: f.full(w.From), FittingA: fitting(ends[0]), LabelA: ends[0].Label,
		StripBMM: float64(ends[1].Strip), EndB: f.full(w.To), FittingB: fitting(ends[1]), LabelB: ends[1].Label,
	}
}

func (f *filler) labels() {
	for _, x := range f.r.Labels {
		out := Label{
			Order: len(f.d.Labels) + 1, Kind: x.Kind, End: x.End, Line1: x.Name, Line2: x.Second(), As: x.As,
			WidthMM: math.Round(float64(x.Face)*100) / 100, LengthMM: float64(x.Long), WireMM: float64(x.Round), SleeveMM: float64(x.Tube.Supplied),
		}
		if x.Wire != harness.None {
			out.Wire = f.h.Wires[x.Wire].Name
		}
		if x.Part != harness.None {
			out.Part = f.h.Parts[x.Part].Ref
		}
		if x.Tube.Inch != "" {
			out.Sleeve = x.Tube.Name(f.h.Sheet.Imperial)
		}
		f.d.Labels = append(f.d.Labels, out)
	}
}
