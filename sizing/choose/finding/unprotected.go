package finding

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// crankingCables names the unfused cable to the starter, and those between batteries in
// series, as advice.
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
		Summary:  "the cable " + f.cranked() + " has no fuse, as is usual: " + strings.Join(f.names(wires), ", "),
		Detail:   "keep it short, clamp it, cover it where it passes metal, and put an isolator at the battery",
		Subjects: f.names(wires), Gathers: true, Numbers: []source.Number{number("length_mm", 1000*f.Along(wires))},
	})
}

// cranked says what such a cable joins.
func (f *inspection) cranked() string {
	for i := range f.H.Parts {
		if f.H.Parts[i].Kind == harness.Starter {
			return "from battery to starter"
		}
	}
	return "between batteries"
}

// unprotected reports feeds without a fuse, one finding for what hangs on one wire. A wire
// that carries all that alternators, regulators and chargers and the fuses of others let into
// it at either end needs none against them: they limit themselves.
func (f *inspection) unprotected() {
	after := map[harness.WireID][]harness.WireID{}
	var firsts []flow.Bare
	var leads []harness.WireID
	feeding := f.Net.Feeding(func(id harness.ElementID) float64 { return float64(f.Fuses[id].Rating) })
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
		if b.Limited && float64(f.c.Wires[b.Wire].Ampacity) >= feeding.Most(b.Wire) {
			leads = with(leads, b.Chain[0]) // it carries more than can flow into it
			continue
		}
		first := f.firstTooFar(b.Chain)
		if after[first] == nil {
			firsts = append(firsts, flow.Bare{Wire: first, Source: b.Source})
		}
		after[first] = append(after[first], b.Wire)
	}
	for i := range firsts {
		f.unprotectedFrom(&firsts[i], after[firsts[i].Wire])
	}
	for _, w := range leads {
		f.ownFuse(w)
	}
}

func with(list []harness.WireID, w harness.WireID) []harness.WireID {
	if slices.Contains(list, w) {
		return list
	}
	return append(list, w)
}

// ownFuse advises a fuse where a machine's lead meets others: without one a short in the lead
// takes all of them down.
func (f *inspection) ownFuse(w harness.WireID) {
	f.add(source.Problem{
		Slug: "unprotected-feed", Level: source.Advice, Span: f.H.Wires[w].Span,
		Summary:  fmt.Sprintf("%s brings the current of a source that limits itself to others with no fuse of its own; what lies behind carries it", f.wireName(w)),
		Detail:   "a fuse where it meets them keeps the rest alive when this lead is chafed",
		Subjects: f.names([]harness.WireID{w}),
	})
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
		Summary:  fmt.Sprintf("the "+f.machine()+"'s output cable %s has no fuse: a short draws the battery's whole current through it", f.wireName(w)),
		Detail:   "put a fuse rated above the alternator's output at the battery's end of the cable",
		Subjects: []string{f.wireName(w)}, Numbers: []source.Number{number("length_mm", float64(f.Ways[w].Length))},
	})
}

func (f *inspection) unprotectedFrom(first *flow.Bare, wires []harness.WireID) {
	length := float64(f.Ways[first.Wire].Length)
	post, level := f.post(first.Source), source.Error
	if f.allOwn(wires) {
		level = source.Warning // it was there before
	}
	f.add(source.Problem{
		Slug: "unprotected-feed", Level: level, Span: f.H.Wires[first.Wire].Span,
		Summary: fmt.Sprintf("%s (%s%s) has no fuse between it and %s%s", f.wireName(first.Wire), f.feedOf(first.Wire), unit.LengthText(unit.Millimetre(length), f.H.Sheet.Imperial), post, f.behind(first.Wire, wires)),
		Detail: fmt.Sprintf("put a fuse within %s of %s, or within %s when the wire is sheathed all the way (33 CFR 183.455)",
			unit.LengthText(protect.OpenFeed, f.H.Sheet.Imperial), post, unit.LengthText(protect.SheathedFeed, f.H.Sheet.Imperial)),
		Subjects: f.names(wires), Numbers: []source.Number{number("length_mm", length)},
	})
}

// post names the live terminal of a source.
func (f *inspection) post(id harness.ElementID) string {
	live := f.H.Elements[id].A
	if f.H.System.PositiveEarth {
		live = f.H.Elements[id].B
	}
	return f.H.Terminals[live].Full
}

// feedOf names the fuses that a wire leads to.
func (f *inspection) feedOf(w harness.WireID) string {
	far, _ := f.Net.Taps(w)
	if len(far) == 0 {
		return ""
	}
	var fuses []string
	for _, id := range far {
		fuses = append(fuses, f.H.Elements[id].Name)
	}
	return "feed of " + source.Some(fuses, "") + ", "
}

// behind names the wires that hang on the first of them.
func (f *inspection) behind(first harness.WireID, wires []harness.WireID) string {
	more := slices.DeleteFunc(slices.Clone(wires), func(w harness.WireID) bool { return w == first })
	switch names := source.Some(f.names(more), " wires"); len(more) {
	case 0:
		return ""
	case 1:
		return ", nor has " + names + " behind it"
	default:
		return ", nor have " + names + " behind it"
	}
}
