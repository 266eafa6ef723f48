package asfound

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/loose"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// carries is what a fuse may carry continuously over its rating (SAE J1284: 110 %).
const carries = 1.1

// fedThrough reports wires that may be fed through an unknown box by a fuse that lets more
// through than they carry: nobody knows what lies between the terminals of the box, so the
// safe reading is that all of them are one.
func (s *survey) fedThrough() {
	for i := range s.out.Open {
		o := &s.out.Open[i]
		if !o.Box {
			continue
		}
		fuse, rating := s.largest(o.Ends)
		if rating <= 0 {
			continue
		}
		for _, w := range s.beyond(o.Ends) {
			if has := s.r.Wires[w].Ampacity; float64(rating)*carries > float64(has)*(1+1e-6) {
				s.mayBeFed(o.Part, w, fuse, rating)
			}
		}
	}
}

// largest is the fuse with the highest rating that feeds one of some terminals.
func (s *survey) largest(ends []harness.TerminalID) (fuse string, rating unit.Ampere) {
	for i := range s.h.Wires {
		w := &s.h.Wires[i]
		if !slices.Contains(ends, w.From) && !slices.Contains(ends, w.To) {
			continue
		}
		if name := s.r.Wires[i].ProtectedBy; name != "" && s.rating(name) > rating {
			fuse, rating = name, s.rating(name)
		}
	}
	return fuse, rating
}

// beyond lists the wires on the metal of some terminals, up to fuses, loads and posts, that
// no fuse and no ground is known to reach.
func (s *survey) beyond(ends []harness.TerminalID) []harness.WireID {
	near := loose.Beyond(s.h, ends)
	var out []harness.WireID
	for i := range s.h.Wires {
		w := &s.h.Wires[i]
		if near.Has(w.From) && s.r.Wires[i].ProtectedBy == "" && s.worked.Unsure(w.From) {
			out = append(out, w.ID)
		}
	}
	return out
}

func (s *survey) mayBeFed(box harness.PartID, w harness.WireID, fuse string, rating unit.Ampere) {
	wire := &s.h.Wires[w]
	at := wire.Span
	if wire.GaugeSpan.Known() {
		at = wire.GaugeSpan
	}
	x := &s.r.Wires[w]
	s.add(source.Problem{
		Slug: "fed-through-unknown", Level: source.Warning, Span: at, Subjects: []string{wire.Name, s.ref(box), fuse},
		Summary: fmt.Sprintf("%s (%s) is good for %s, and %s (%s) may feed it through %s: nobody knows what is in there",
			wire.Name, x.Gauge, unit.Amps(float64(x.Ampacity)), fuse, rating, s.ref(box)),
		Detail:  fmt.Sprintf("find out whether %s protects it; until then put a fuse of up to %s where it leaves %s", s.ref(box), unit.Amps(float64(x.Ampacity)/carries), s.ref(box)),
		Numbers: []source.Number{number("ampacity_a", float64(x.Ampacity)), number("rating_a", float64(rating))},
	})
}
