package figures

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit/fitted"
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
	Unit     string  `json:"unit"` // the twist, screen or cable in which it is
	Core     string  `json:"core"` // of a cable; it is cut with that
}

// Unit is one twist, screen or cable. End a is where its first wire begins; the take-up
// is the length of a wire over that of its twist.
type Unit struct {
	Name       string    `json:"name"`
	Kind       string    `json:"kind"` // twist, screen, cable
	Type       string    `json:"type"` // of a cable
	Wires      []string  `json:"wires"`
	LengthMM   float64   `json:"length_mm"`
	DiameterMM float64   `json:"diameter_mm"`
	LayMM      []float64 `json:"lay_mm"` // by twist
	TakeUp     []float64 `json:"take_up"`
	Screen     string    `json:"screen"` // braid, foil, "" where none is put on
	ScreenMM   float64   `json:"screen_mm"`
	BackAMM    float64   `json:"back_a_mm"` // screen or sheath cut back
	BackBMM    float64   `json:"back_b_mm"`
	Drains     []string  `json:"drains"`
	Spare      []string  `json:"spare_cores"`
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

// cuts lists the wires in the order of the cut list. The core of a cable is cut with
// that and from no reel.
func (f *filler) cuts() {
	reels := make([]int, len(f.h.Wires)) // by wire: one more than its reel's index
	first := make([]int, len(f.r.Reels)) // lengths before those of the reel
	for i := range f.r.Reels {
		if i > 0 {
			first[i] = first[i-1] + len(f.r.Reels[i-1].Cuts)
		}
		for _, w := range f.r.Reels[i].Wires {
			reels[w] = i + 1
		}
	}
	of := f.h.UnitOf()
	for _, w := range fitted.Order(f.h, f.r.Reels) {
		row := f.cut(w)
		row.Order = len(f.d.Cuts) + 1
		if n := reels[w] - 1; n >= 0 {
			f.from(&row, w, &f.r.Reels[n], first[n])
		}
		if of[w] != harness.None {
			f.within(&row, w, &f.h.Units[of[w]])
		}
		f.d.Cuts = append(f.d.Cuts, row)
	}
}

// from says from which length a wire is cut.
func (f *filler) from(row *CutRow, w harness.WireID, reel *fitted.Reel, before int) {
	for n, c := range reel.Cuts {
		if slices.Contains(c.Wires, w) {
			row.From, row.FromMM, row.Shelf = before+n+1, float64(c.Whole), c.Shelf
		}
	}
}

// within says in which unit a wire is, and which core of a cable.
func (f *filler) within(row *CutRow, w harness.WireID, u *harness.Unit) {
	row.Unit = u.Name
	if u.Type != nil {
		row.Core = u.Type.Cores[f.h.Wires[w].Core].Mark
	}
}

// units lists the twists, screens and cables.
func (f *filler) units() {
	for i := range f.h.Units {
		u, made := &f.h.Units[i], &f.r.Units[i]
		row := Unit{
			Name: u.Name, Kind: string(u.Kind), Wires: f.names(u.Wires), LengthMM: float64(made.Length), DiameterMM: float64(made.Diameter),
			Screen: made.Screen, ScreenMM: float64(made.ScreenLen), BackAMM: float64(made.Back[0]), BackBMM: float64(made.Back[1]),
		}
		for _, t := range made.Twists {
			row.LayMM = append(row.LayMM, float64(t.Lay))
			row.TakeUp = append(row.TakeUp, t.Factor)
		}
		for _, d := range made.Drains {
			row.Drains = append(row.Drains, f.full(d.Terminal))
		}
		if u.Type != nil {
			row.Type = u.Type.Name
			for _, n := range f.h.Spare(u) {
				row.Spare = append(row.Spare, u.Type.Cores[n].Mark)
			}
		}
		f.d.Units = append(f.d.Units, row)
	}
}

func (f *filler) cut(id harness.WireID) CutRow {
	w, c, ends := f.h.Wires[id], f.r.Wires[id], f.r.Ends[id]
	fitting := func(e fitted.End) string { return strings.TrimSuffix(e.Fitting+", "+e.Crimp, ", ") }
	pair := f.r.Colours[id].Pair
	letters, words := "", ""
	if pair.Base != "" {
		letters, words = pair.String(), colour.Words(pair)
	}
	return CutRow{
		Wire: w.Name, Colour: letters, Words: words, System: c.Gauge.System.String(), Gauge: c.Gauge.Size, Wall: c.Insulation, LengthMM: float64(f.r.Ways[id].Length),
		StripAMM: float64(ends[0].Strip), EndA: f.full(w.From), FittingA: fitting(ends[0]), LabelA: ends[0].Label,
		StripBMM: float64(ends[1].Strip), EndB: f.full(w.To), FittingB: fitting(ends[1]), LabelB: ends[1].Label,
	}
}

func (f *filler) labels() {
	for _, x := range f.r.Labels {
		out := Label{
			Order: len(f.d.Labels) + 1, Kind: x.Kind, End: x.End, Line1: x.Name, Line2: x.Second(), As: x.As,
			WidthMM: float64(x.Face), LengthMM: float64(x.Long), WireMM: float64(x.Round), SleeveMM: float64(x.Tube.Supplied),
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
