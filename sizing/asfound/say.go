package asfound

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// say reports what follows for whoever works on the vehicle.
func (s *survey) say() {
	s.untraced()
	s.liveEnds()
	s.blindFuses()
	s.fedThrough()
	for i := range s.out.Stretches {
		s.stretch(&s.out.Stretches[i])
	}
	for i := range s.out.Measured {
		s.reading(i)
	}
}

func number(name string, v float64) source.Number { return source.Number{Name: name, Value: v} }

// untraced names once all that nobody knows, and what is best traced first.
func (s *survey) untraced() {
	if len(s.out.Open) == 0 {
		return
	}
	first := &s.out.Open[0]
	ends, boxes, subjects := 0, 0, []string{}
	for i := range s.out.Open {
		o := &s.out.Open[i]
		subjects = append(subjects, s.ref(o.Part))
		if o.Box {
			boxes++
		} else {
			ends++
		}
	}
	var known []string
	if ends > 0 {
		known = append(known, counted(ends, "end is not traced", "ends are not traced"))
	}
	if boxes > 0 {
		known = append(known, counted(boxes, "box is unknown", "boxes are unknown"))
	}
	what := "what they draw and feed"
	if ends+boxes == 1 {
		what = "what it draws and feeds"
	}
	s.add(source.Problem{
		Slug: "not-traced", Level: source.Advice, Span: s.h.Parts[first.Part].Span, Subjects: subjects, Gathers: true,
		Summary: strings.Join(known, " and ") + ": " + what + " is not in any figure",
		Detail:  fmt.Sprintf("trace %s first: %s. The sheet \"As found\" lists all in that order", s.called(first), first.Why),
		Numbers: []source.Number{number("ends", float64(ends)), number("boxes", float64(boxes))},
	})
}

// called names an open question by its name, and by its wire where that is one.
func (s *survey) called(o *proof.Question) string {
	name := s.ref(o.Part)
	if len(o.Wires) != 1 {
		return name
	}
	w := &s.h.Wires[o.Wires[0]]
	words := w.Name
	if w.Base != "" {
		words += " " + colour(w)
	}
	return fmt.Sprintf("%s (%s from %s)", name, words, s.h.Terminals[s.far(w, o)].Full)
}

func colour(w *harness.Wire) string {
	if w.Tracer == "" {
		return w.Base
	}
	return w.Base + "/" + w.Tracer
}

// far is the end of a wire away from an open question.
func (s *survey) far(w *harness.Wire, o *proof.Question) harness.TerminalID {
	if s.h.Terminals[w.From].Part == o.Part {
		return w.To
	}
	return w.From
}

// liveEnds reports ends that are live with no fuse known before them, where that is not said yet.
func (s *survey) liveEnds() {
	for i := range s.out.Open {
		o := &s.out.Open[i]
		if !o.Live() || o.Fuse != "" {
			continue
		}
		w := &s.h.Wires[o.Wires[0]]
		if s.saidOf("unprotected-feed", w.Name) {
			continue
		}
		s.add(source.Problem{
			Slug: "live-end", Level: source.Warning, Span: s.h.Parts[o.Part].Span, Subjects: []string{s.ref(o.Part), w.Name},
			Summary: fmt.Sprintf("%s leads to what nobody knows, is live in %s, and no fuse is known before it", s.called(o), o.State),
			Detail:  "insulate it if it hangs loose, take the battery off before touching it, and put a fuse at its source",
		})
	}
}

// saidOf tells whether something was found before of a wire or a part.
func (s *survey) saidOf(slug, name string) bool {
	return slices.ContainsFunc(s.told, func(p source.Problem) bool { return p.Slug == slug && slices.Contains(p.Subjects, name) })
}

// blindFuses reports fuses whose rating the program chose for what is known behind them.
func (s *survey) blindFuses() {
	for i := range s.out.Blind {
		b := &s.out.Blind[i]
		f := &s.r.Fuses[b.Fuse]
		if b.Given || s.saidOf("existing-fuse-unread", f.Name) {
			continue
		}
		p := &s.h.Parts[f.Part]
		what := "for nothing that is known"
		if len(f.Feeds) > 0 {
			what = fmt.Sprintf("for %s alone (%s)", source.Some(f.Feeds, ""), unit.Amps(float64(f.Amps)))
		}
		s.add(source.Problem{
			Slug: "fuse-for-what-is-known", Level: source.Warning, Span: p.Span, Subjects: append([]string{f.Name}, s.refs(b.Parts)...),
			Summary: fmt.Sprintf("the rating of %s, %s, is chosen %s: not known what %s draws", f.Name, f.Rating, what, source.Some(s.refs(b.Parts), "")),
			Detail:  "write the rating of the fuse that is there, such as rating: 10 A, so that its wires are judged by it; or trace what hangs on it",
			Numbers: []source.Number{number("rating_a", float64(f.Rating)), number("amps", float64(f.Amps))},
		})
	}
}

// stretch reports where more is lost than the wires can explain, with the joints to look at.
func (s *survey) stretch(x *proof.Stretch) {
	r := &s.h.Measured[x.Reading]
	m := &s.out.Measured[x.Reading]
	back := x.Before == proof.None && m.Verdict == proof.High
	from, side := "the source", "before "+s.pointText(r)
	if x.Before != proof.None {
		from = s.pointText(&s.h.Measured[x.Before])
		side = "between " + from + " and " + s.pointText(r)
	} else if back {
		side = "between " + s.pointText(r) + " and the battery"
	}
	names := []string{s.pointText(r), s.h.Elements[x.Load].Name, s.h.States[x.State].Name}
	for _, spot := range x.Suspects {
		names = append(names, spot.Name)
	}
	s.add(source.Problem{
		Slug: "reading-off", Level: source.Warning, Span: r.Span, Subjects: names,
		Summary: fmt.Sprintf("%s more is lost %s in %s than the wires can explain: %s read, a sound loom reads %s or more",
			volt(float64(x.More())), side, s.h.States[x.State].Name, readingText(r), volt(math.Abs(s.expected(x)))),
		Detail:  s.look(x),
		Numbers: []source.Number{number("more_v", float64(x.More())), number("lost_v", float64(x.Lost)), number("explained_v", float64(x.Explains))},
	})
	if back {
		p := &s.said[len(s.said)-1]
		p.Summary = strings.Replace(p.Summary, " or more", " or less", 1)
	}
}

// expected is what the reading of a stretch should be at the least, on the return at the most.
func (s *survey) expected(x *proof.Stretch) float64 {
	r, m := &s.h.Measured[x.Reading], &s.out.Measured[x.Reading]
	v := s.shown(r, m.Is)
	more := float64(x.More())
	if s.h.System.PositiveEarth != (x.Before == proof.None && m.Verdict == proof.High) {
		more = -more
	}
	return v + more
}

// look says where to look: the likeliest joints, and what untraced may draw instead.
func (s *survey) look(x *proof.Stretch) string {
	const most = 3
	var spots []string
	for _, p := range x.Suspects[:min(most, len(x.Suspects))] {
		if len(x.Suspects) == 1 {
			spots = append(spots, p.What)
			continue
		}
		spots = append(spots, fmt.Sprintf("%s (%.0f %%)", p.What, 100*p.Share))
	}
	text := "measure across each joint there with the load on"
	if len(spots) > 0 {
		text = "look at " + strings.Join(spots, ", then ")
		if more := len(x.Suspects) - most; more > 0 {
			text += fmt.Sprintf(", then %d more", more)
		}
	}
	if len(x.Draws) > 0 {
		text += fmt.Sprintf("; or it is the current of %s, which nobody knows: %s more would explain it; pull it off and read again", source.Some(s.refs(x.Draws), ""), unit.Amps(float64(x.Needs)))
	}
	return text
}

// reading reports a reading that is off and on no stretch that was told.
func (s *survey) reading(i int) {
	r, m := &s.h.Measured[i], &s.out.Measured[i]
	if s.onStretch(i) {
		return
	}
	at := s.pointText(r)
	p := source.Problem{Level: source.Warning, Span: r.Span, Subjects: []string{at}}
	if !r.Dead {
		at += " in " + s.h.States[r.State].Name
		p.Subjects = append(p.Subjects, s.h.States[r.State].Name)
	}
	switch m.Verdict {
	case proof.Low, proof.High:
		p.Slug = "reading-off"
		p.Detail = "look at the joints between the two points, grounds first, and read again with the load on"
		if !r.Dead && r.Against == harness.None {
			p.Detail = "read the battery's posts in the same state, then from there on, so that it shows where it is lost"
		}
	case proof.OffState:
		p.Slug, p.Detail = "reading-off-state", "see that the switches stood as the state says; if they did, look for what feeds it from elsewhere, or for an open fuse, contact or wire before it"
	case proof.Opposed:
		p.Slug, p.Detail = "readings-opposed", "read both again within a minute, with the same black lead; take out the one that was wrong"
	default:
		return
	}
	p.Summary = fmt.Sprintf("%s at %s: %s", readingText(r), at, m.Says)
	if !math.IsInf(m.Is, 0) && !math.IsNaN(m.Is) {
		p.Numbers = []source.Number{number("should_be", m.Is), number("low", m.Low), number("high", m.High)}
	}
	p.Numbers = slices.DeleteFunc(p.Numbers, func(n source.Number) bool { return math.IsInf(n.Value, 0) || math.IsNaN(n.Value) })
	s.add(p)
}
