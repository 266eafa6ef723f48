package finding

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// ownSizes asks once for the sizes of the vehicle's own wires of which nobody says any: the
// figures hold for wires that are as thick as they need to be, and these may not be.
func (f *inspection) ownSizes() {
	by := map[unit.Gauge][]harness.WireID{}
	var sizes []unit.Gauge
	var names []string
	at := source.Span{}
	for i := range f.H.Wires {
		w := &f.H.Wires[i]
		if !w.Existing || w.Gauge.Given() {
			continue
		}
		if len(names) == 0 {
			at = w.Span
		}
		g := f.c.Wires[i].Gauge
		if by[g] == nil {
			sizes = append(sizes, g)
		}
		by[g], names = append(by[g], w.ID), append(names, w.Name)
	}
	if len(names) == 0 {
		return
	}
	slices.SortStableFunc(sizes, func(a, b unit.Gauge) int {
		return int(1e4 * (rating.AreaOf(b) - rating.AreaOf(a)))
	})
	var needs []string
	for _, g := range sizes {
		needs = append(needs, g.String()+": "+strings.Join(f.names(by[g]), ", "))
	}
	f.add(source.Problem{
		Slug: "existing-size-unknown", Level: source.Warning, Span: at,
		Summary:  fmt.Sprintf("nobody says how thick %s of the vehicle's own %s; %s at least %s", unit.Counted(len(names), "wire"), are(len(names)), need(len(names)), strings.Join(needs, "; ")),
		Detail:   "measure the copper (strands × π/4 × the diameter of one squared) and write gauge: at the stop where each arrives; until then nothing here says that they carry their loads, and one that is thinner may burn",
		Subjects: names, Gathers: true, Numbers: []source.Number{number("wires", float64(len(names)))},
	})
}

// ownRatings asks once for the ratings of the vehicle's own fuses: what is behind one is
// reckoned as if it were the right one.
func (f *inspection) ownRatings() {
	var words, names []string
	at := source.Span{}
	for i := range f.c.Fuses {
		x := &f.c.Fuses[i]
		e := &f.H.Elements[x.Element]
		if x.Given || !f.H.OwnFuse(e) || len(x.Wires) == 0 && x.Amps < demand.OnFrom {
			continue
		}
		if len(names) == 0 {
			at = f.fuseSpan(x)
		}
		names = append(names, x.Name)
		words = append(words, fmt.Sprintf("%s %s", x.Name, x.Rating))
	}
	if len(names) == 0 {
		return
	}
	f.add(source.Problem{
		Slug: "existing-fuse-unread", Level: source.Warning, Span: at,
		Summary:  fmt.Sprintf("nobody says what %s of the vehicle's own %s rated; what is behind is reckoned with %s", unit.Counted(len(names), "fuse"), are(len(names)), strings.Join(words, ", ")),
		Detail:   "read it off the fuse and write rating: (of a panel's under fuses:); one that is rated higher does not guard these wires",
		Subjects: names, Gathers: true, Numbers: []source.Number{number("fuses", float64(len(names)))},
	})
}

func need(n int) string {
	if n == 1 {
		return "it needs"
	}
	return "they need"
}

func are(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// allOwn tells whether wires are all the vehicle's own.
func (f *inspection) allOwn(wires []harness.WireID) bool {
	return !slices.ContainsFunc(wires, func(w harness.WireID) bool { return !f.H.Wires[w].Existing })
}
