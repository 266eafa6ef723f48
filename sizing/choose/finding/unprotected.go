package finding

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// crankingCables names the unfused cable to the starter, as advice.
func (f *inspection) crankingCables() {
	var wires []harness.WireID
	for _, b := range f.Guards.Bare {
		if b.Cranking {
			wires = append(wires, b.Wire)
		}
	}
	if len(wires) == 0 {
		return
	}
	f.add(source.Problem{
		Slug: "unfused-cranking-cable", Level: source.Advice, Span: f.H.Wires[wires[0]].Span,
		Summary:  "the cable from battery to starter has no fuse, as is usual: " + strings.Join(f.names(wires), ", "),
		Detail:   "keep it short, clamp it, cover it where it passes metal, and put an isolator at the battery",
		Subjects: f.names(wires), Gathers: true, Numbers: []source.Number{number("length_mm", 1000*f.Along(wires))},
	})
}

// unprotected reports feeds without a fuse, one finding for what hangs on one wire.
func (f *inspection) unprotected() {
	after := map[harness.WireID][]harness.WireID{}
	var firsts []harness.WireID
	for _, b := range f.Guards.Bare {
		if b.Cranking || !f.tooFar(b.Chain) {
			continue
		}
		if b.Output {
			if f.H.Elements[b.Source].Kind == harness.EMF {
				f.outputCable(b.Wire)
			}
			continue // fused at the battery's end; the alternator limits itself
		}
		first := f.firstTooFar(b.Chain)
		if after[first] == nil {
			firsts = append(firsts, first)
		}
		after[first] = append(after[first], b.Wire)
	}
	for _, first := range firsts {
		f.unprotectedFrom(first, after[first])
	}
}

// tooFar measures the chain from the last starter or alternator cable in it,
// whose stud counts as the source.
func (f *inspection) tooFar(chain []harness.WireID) bool {
	mm, sheathed := 0.0, true
	for _, w := range chain {
		if f.exempt(w) {
			continue
		}
		mm += float64(f.Ways[w].Length)
		sheathed = sheathed && f.Sheathed(w)
	}
	for _, w := range chain[len(chain)-1:] {
		if f.exempt(w) {
			mm = float64(f.Ways[w].Length)
			sheathed = f.Sheathed(w)
		}
	}
	return mm > protect.SheathedFeed || mm > protect.OpenFeed && !sheathed
}

func (f *inspection) exempt(w harness.WireID) bool {
	for _, b := range f.Guards.Bare {
		if b.Wire == w {
			return b.Cranking || b.Output
		}
	}
	return false
}

func (f *inspection) firstTooFar(chain []harness.WireID) harness.WireID {
	for i, w := range chain {
		if !f.exempt(w) && f.tooFar(chain[:i+1]) {
			return w
		}
	}
	return chain[len(chain)-1]
}

func (f *inspection) outputCable(w harness.WireID) {
	f.add(source.Problem{
		Slug: "unprotected-feed", Level: source.Warning, Span: f.H.Wires[w].Span,
		Summary:  fmt.Sprintf("the alternator's output cable %s has no fuse: a short draws the battery's whole current through it", f.wireName(w)),
		Detail:   "put a fuse above the alternator's output at the battery's end of the cable",
		Subjects: []string{f.wireName(w)}, Numbers: []source.Number{number("length_mm", float64(f.Ways[w].Length))},
	})
}

func (f *inspection) unprotectedFrom(first harness.WireID, wires []harness.WireID) {
	length := float64(f.Ways[first].Length)
	more := ""
	if len(wires) > 1 {
		more = fmt.Sprintf(", nor do %d wires behind it", len(wires)-1)
	}
	f.add(source.Problem{
		Slug: "unprotected-feed", Level: source.Error, Span: f.H.Wires[first].Span,
		Summary:  fmt.Sprintf("%s (%s) has no fuse between it and its source%s", f.wireName(first), unit.Millimetre(length), more),
		Detail:   "put a fuse within 178 mm of the source, or within 1016 mm when the wire is sheathed all the way (33 CFR 183.455)",
		Subjects: f.names(wires), Numbers: []source.Number{number("length_mm", length)},
	})
}
