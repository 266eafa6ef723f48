package change

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Held compares what the record holds with what is to be, and says what to do.
// The sheets show what is to be.
func Held(h *harness.Harness, r *result.Result) source.Problems {
	k := &holding{h: h, r: r}
	for i := range h.Wires {
		w := &h.Wires[i]
		switch w.Kept.State {
		case harness.Built:
			k.built(w)
		case harness.Planned:
			for _, c := range changes(h, r, w) {
				if c.what != "colour" || c.given { // a colour that gives way says so itself
					k.planned(w.Name, c.what+" "+c.was+" → "+c.now)
				}
			}
		}
	}
	for i := range r.Fuses {
		k.fuse(&r.Fuses[i])
	}
	k.summed()
	return k.out
}

type holding struct {
	h       *harness.Harness
	r       *result.Result
	names   []string // of planned wires and fuses that change
	changes []string
	out     source.Problems
}

func (k *holding) planned(name, change string) {
	k.names, k.changes = append(k.names, name), append(k.changes, name+": "+change)
}

// summed is one advice on all that was planned and changes.
func (k *holding) summed() {
	const most = 12
	if len(k.changes) == 0 {
		return
	}
	text := strings.Join(k.changes[:min(most, len(k.changes))], ", ")
	if more := len(k.changes) - most; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	k.out = append(k.out, source.Problem{
		Slug: "planned-changed", Level: source.Advice, Subjects: k.names, Gathers: true,
		Summary: "planned before and changed now: " + text,
		Detail:  "nothing of it is built; run loomfolio freeze to write the new values down, or mark as built what is",
	})
}

func (k *holding) built(w *harness.Wire) {
	var otherwise []change
	for _, c := range changes(k.h, k.r, w) {
		if c.what == "gauge" && !c.given {
			k.tooThin(w)
			continue
		}
		otherwise = append(otherwise, c)
	}
	if len(otherwise) > 0 {
		k.otherwise(w, otherwise)
	}
	k.tooShort(w)
}

// tooThin speaks of a wire that has to be replaced: an error where heat or its
// fuse asks for more copper, a warning where the drop alone does.
func (k *holding) tooThin(w *harness.Wire) {
	c := &k.r.Wires[w.ID]
	level := source.Warning
	has := rating.AreaOf(w.Kept.Gauge)
	if has < rating.AreaOf(c.Wants.Heat) || has < rating.AreaOf(c.Wants.Protection) {
		level = source.Error
	}
	k.out = append(k.out, source.Problem{
		Slug: "built-too-thin", Level: level, Span: w.Span, Subjects: []string{w.Name},
		Summary: fmt.Sprintf("%s is built as %s and now needs %s: pull and replace", w.Kept.Name, w.Kept.Gauge, c.Gauge),
		Detail:  c.Reason + ". Once it is replaced, loomfolio freeze --built " + w.Name + " writes it down",
		Numbers: []source.Number{{Name: "built_mm2", Value: float64(has)}, {Name: "wants_mm2", Value: float64(c.Area)}, {Name: "amps", Value: float64(c.Amps)}},
	})
}

func (k *holding) tooShort(w *harness.Wire) {
	has, wants := w.Kept.Length, k.r.Ways[w.ID].Wants
	if has <= 0 || wants <= has+halfMillimetre {
		return
	}
	text := func(mm unit.Millimetre) string { return unit.LengthText(mm, k.h.Sheet.Imperial) }
	k.out = append(k.out, source.Problem{
		Slug: "built-too-short", Level: source.Warning, Span: w.Span, Subjects: []string{w.Name},
		Summary: fmt.Sprintf("%s is built %s long and now needs %s, %s more", w.Kept.Name, text(has), text(wants), text(wants-has)),
		Detail:  "measure whether it reaches; where it does not, replace it, or join a piece to it at a splice that the description names",
		Numbers: []source.Number{{Name: "built_mm", Value: float64(has)}, {Name: "wants_mm", Value: float64(wants)}},
	})
}

// halfMillimetre is what the rounding of a written length may hide.
const halfMillimetre unit.Millimetre = 0.5

func (k *holding) otherwise(w *harness.Wire, changes []change) {
	var says, is []string
	for _, c := range changes {
		says, is = append(says, c.what+" "+c.now), append(is, c.was)
	}
	at := w.Span
	for _, span := range []source.Span{w.ColourSpan, w.GaugeSpan, w.InsulationSpan} {
		if span.Known() {
			at = span
		}
	}
	k.out = append(k.out, source.Problem{
		Slug: "built-otherwise", Level: source.Warning, Span: at, Subjects: []string{w.Name},
		Summary: fmt.Sprintf("the description says of %s: %s; built as %s", w.Name, strings.Join(says, ", "), strings.Join(is, ", ")),
		Detail:  "rewire it and write that down with loomfolio freeze --built " + w.Name + ", or correct the description",
	})
}

// fuse compares one fuse: a fitted one is to be replaced, a planned one is changed.
func (k *holding) fuse(f *chosen.Fuse) {
	kept := k.h.Elements[f.Element].Kept
	if kept.State == "" || !fuseChanged(f, kept) {
		return
	}
	was, now := fuseText(kept.Rating, kept.Body), fuseText(f.Rating, f.Body)
	if kept.State == harness.Planned {
		k.planned(f.Name, was+" → "+now)
		return
	}
	p := &k.h.Parts[f.Part]
	problem := source.Problem{
		Slug: "built-fuse", Level: source.Warning, Span: p.Span, Subjects: []string{f.Name},
		Summary: fmt.Sprintf("%s is fitted as %s and now needs %s: replace the fuse", f.Name, was, now),
		Detail:  f.Reason + ". Once it is replaced, loomfolio freeze --built " + f.Name + " writes it down",
		Numbers: []source.Number{{Name: "fitted_a", Value: float64(kept.Rating)}, {Name: "wants_a", Value: float64(f.Rating)}, {Name: "most_allowed_a", Value: float64(f.MostAllowed)}},
	}
	if f.Given {
		problem.Summary = fmt.Sprintf("the description says %s for %s; %s is fitted", now, f.Name, was)
		problem.Detail = "replace the fuse and write that down with loomfolio freeze --built " + f.Name + ", or correct the description"
	}
	if kept.Body == f.Body && kept.Rating > f.MostAllowed {
		problem.Level = source.Error // the wires behind it do not stand it
	}
	k.out = append(k.out, problem)
}

func fuseText(r unit.Ampere, body string) string { return r.String() + " " + body }
