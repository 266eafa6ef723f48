package route

import (
	"fmt"
	"slices"
	"strings"

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
			f.advise(&f.h.Places[i], wires, ways)
		}
	}
}

// slackOnly gives the place of a wire with no stretch of run and no tail, else None; a
// jumper within one part needs neither.
func (f *finder) slackOnly(w *harness.Wire, way *Way) harness.PlaceID {
	from, to := f.h.PartOf(w.From), f.h.PartOf(w.To)
	joined := from.Kind == harness.Splice && to.Kind == harness.Splice
	if from.ID == to.ID || way.Given || way.Taken || way.Length == 0 || len(way.Shares) > 0 || from.Tail+to.Tail > 0 || joined {
		return harness.None
	}
	return from.Place
}

func (f *finder) advise(p *harness.Place, wires []harness.WireID, ways []Way) {
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
			counted, p.Name, are, f.text(ways[wires[0]].Length)),
		Detail: f.toMeasure(p, wires, ways),
	})
}

// toMeasure says what to write: a tail for the place, and lengths of their own for wires
// with no fuse before them, which a tail would make longer than is allowed.
func (f *finder) toMeasure(p *harness.Place, wires []harness.WireID, ways []Way) string {
	bare := bare(f.h)
	short := f.kept(p, bare, ways)
	text := fmt.Sprintf("measure it and write it at the place or at each part: %s: {tail: %s}", p.Key, f.example())
	if len(short) == 0 {
		return text
	}
	own := "with no fuse before a wire it must stay short, " + f.text(openFeed) + " from the source where no sheath covers it (33 CFR 183.455): " +
		"give it a length of its own, " + strings.Join(short, ", ")
	if !slices.ContainsFunc(wires, func(w harness.WireID) bool { return !bare[w] }) {
		return "measure it; " + own
	}
	return fmt.Sprintf("measure it and write it at the place: %s: {tail: %s}; %s", p.Key, f.example(), own)
}

// openFeed is how long a wire may be before its fuse, mm: 7 in (33 CFR 183.455).
const openFeed = 178

// kept writes the stops of the wires without a fuse before them that a tail of the place would
// make longer, each with the length that it has now.
func (f *finder) kept(p *harness.Place, bare []bool, ways []Way) []string {
	var out []string
	for i := range ways {
		w := &f.h.Wires[i]
		if bare[i] && !ways[i].Given && ways[i].Length > 0 && (f.follows(w.From, p) || f.follows(w.To, p)) {
			out = append(out, fmt.Sprintf("{to: %s, length: %s} (%s)", f.written(w), f.text(ways[i].Length), w.Name))
		}
	}
	return out
}

// follows tells whether the place's tail would be that of a terminal's part.
func (f *finder) follows(t harness.TerminalID, p *harness.Place) bool {
	part := f.h.PartOf(t)
	return part.Place == p.ID && part.Tail == 0 && part.Kind != harness.Splice
}

// written is the stop where a wire arrives as the description has it.
func (f *finder) written(w *harness.Wire) string {
	if text := f.h.File.At(w.Span); text != "" {
		return text
	}
	return f.h.Terminals[w.To].Full
}

func (f *finder) example() string {
	if f.h.Sheet.Imperial {
		return `8"`
	}
	return "200 mm"
}
