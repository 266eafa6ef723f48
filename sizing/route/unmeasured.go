package route

import (
	"fmt"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// unmeasured advises, place by place, where wires join parts of one place and
// nothing but the slack gives them a length: cut so, they hardly reach.
func (f *finder) unmeasured(ways []Way) {
	at := make([][]harness.WireID, len(f.h.Places))
	for i := range ways {
		w := &f.h.Wires[i]
		if place := f.slackOnly(w, &ways[i]); place != harness.None {
			at[place] = append(at[place], w.ID)
		}
	}
	for i, wires := range at {
		if len(wires) > 0 {
			f.advise(&f.h.Places[i], wires, ways[wires[0]])
		}
	}
}

// slackOnly gives the place of a wire with no stretch of run and no tail, else None; a
// jumper within one part needs neither.
func (f *finder) slackOnly(w *harness.Wire, way *Way) harness.PlaceID {
	from, to := f.h.PartOf(w.From), f.h.PartOf(w.To)
	joined := from.Kind == harness.Splice && to.Kind == harness.Splice
	if from.ID == to.ID || way.Given || way.Length == 0 || len(way.Shares) > 0 || from.Tail+to.Tail > 0 || joined {
		return harness.None
	}
	return from.Place
}

func (f *finder) advise(p *harness.Place, wires []harness.WireID, first Way) {
	names := make([]string, len(wires))
	for i, id := range wires {
		names[i] = f.h.Wires[id].Name
	}
	counted, are := fmt.Sprintf("%d wires", len(wires)), "are"
	if len(wires) == 1 {
		counted, are = "1 wire", "is"
	}
	f.problems = append(f.problems, source.Problem{
		Slug: "slack-only", Level: source.Advice, Span: p.Span, Subjects: append([]string{p.Name}, names...),
		Summary: fmt.Sprintf("%s at %s %s no longer than the slack, %s: nothing says how far the parts there lie from the loom",
			counted, p.Name, are, f.text(first.Length)),
		Detail: fmt.Sprintf("measure it and write it at the place or at each part: %s: {tail: %s}", p.Key, f.example()),
	})
}

func (f *finder) example() string {
	if f.h.Sheet.Imperial {
		return `8"`
	}
	return "200 mm"
}
