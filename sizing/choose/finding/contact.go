package finding

import (
	"fmt"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// lightly is the share of its rating up to which a switch that the factors make too weak is
// an advice: switches made for vehicles are rated for lamps and motors as they are. Common
// practice, no source.
const lightly = 0.5

// contacts compares what flows through rated contacts with their rating; a
// switch must be rated by the factors of FAA AC 43.13-1B table 11-4, and is told once.
func (f *inspection) contacts() {
	var worst weakest
	for i := range f.c.Contacts {
		c := &f.c.Contacts[i]
		e, p := &f.H.Elements[c.Element], &f.H.Parts[c.Part]
		if c.Rating <= 0 {
			continue
		}
		amps, wants, state := float64(c.Amps), float64(c.Amps), c.State
		carries := amps
		if p.Is(harness.Switch) || p.Kind == harness.IgnitionSwitch {
			wants, state = float64(c.Wants), c.WantsIn
			carries = max(amps, float64(c.Cranks))
		}
		level := source.Warning
		if amps > float64(p.Rating)*(1+1e-6) {
			level = source.Error
		} else if wants <= float64(p.Rating)*(1+1e-6) {
			continue
		} else if carries <= lightly*float64(p.Rating) {
			level = source.Advice
		}
		worst.add(p, wants, f.overloaded(e, level, carries, wants, state))
	}
	for _, w := range worst {
		f.add(w.said)
	}
}

// weak is the finding of a contact, weakest those that are said: of each part and level that which wants most.
type weak struct {
	part  *harness.Part
	wants float64
	said  source.Problem
}

type weakest []weak

func (l *weakest) add(p *harness.Part, wants float64, said source.Problem) {
	for i := range *l {
		if w := &(*l)[i]; w.part == p && w.said.Level == said.Level {
			if wants > w.wants {
				w.wants, w.said = wants, said
			}
			return
		}
	}
	*l = append(*l, weak{p, wants, said})
}

func (f *inspection) overloaded(e *harness.Element, level source.Level, through, wants float64, state string) source.Problem {
	p := f.PartOf(e.ID)
	text := fmt.Sprintf("%s carries %s in %s and is rated %s", e.Name, unit.Amps(through), state, p.Rating)
	if level != source.Error {
		text += fmt.Sprintf("; for this kind of load it needs %s", unit.Amps(wants))
	}
	span := p.RatingSpan
	if !span.Known() {
		span = p.Span
	}
	return source.Problem{
		Slug: "contact-overloaded", Level: level, Span: span, Summary: text,
		Detail: fmt.Sprintf("add a relay, or use a contact with the rating (FAA AC 43.13-1B table 11-4: lamp ×%.0f, motor ×%.0f, coil ×%.0f)",
			f.factor(e.ID, kind.Lamps), f.factor(e.ID, kind.Motors), f.factor(e.ID, kind.Inductive)),
		Subjects: []string{p.Ref, state},
		Numbers:  []source.Number{number("amps", through), number("wants_a", wants), number("rating_a", float64(p.Rating))},
	}
}

// factor gives the factor of a class of loads at the voltage of a contact's side.
func (f *inspection) factor(contact harness.ElementID, c kind.Class) float64 {
	return rating.SwitchFactor(f.Nominal(contact), string(c))
}
