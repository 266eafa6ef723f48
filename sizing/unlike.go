package sizing

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// alike is how far apart, as a share, the voltages of batteries in parallel may be: those of
// different chemistry for one system differ by less. Common practice, no source.
const alike = 0.2

// unlikeSources refuses batteries, or strings of them, of unlike voltage that metal joins in
// parallel whatever the switches do: one drives hundreds of amperes through the other, and
// nothing can be sized for that.
func unlikeSources(h *harness.Harness) source.Problems {
	l := ladder{net: flow.NewNet(h)}
	var above []*harness.Element
	for i := range h.Elements {
		b := &h.Elements[i]
		if b.Kind != harness.EMF {
			continue
		}
		minus, plus := l.rung(b.B), l.rung(b.A)
		if minus == plus { // a short, which is told as one
			continue
		}
		given, joined := plus.volts-minus.volts, plus.ladder == minus.ladder
		if joined && math.Abs(given-float64(b.Volts)) > alike*max(given, float64(b.Volts)) {
			return source.Problems{unlike(h, above, b, given)}
		}
		l.join(minus, plus, float64(b.Volts))
		above = append(above, b)
	}
	return nil
}

func unlike(h *harness.Harness, others []*harness.Element, b *harness.Element, volts float64) source.Problem {
	var names []string
	for _, e := range others {
		names = append(names, e.Name)
	}
	list, give := strings.Join(names, ", "), "gives"
	if len(names) > 1 {
		give = "give"
	}
	return source.Problem{
		Slug: "sources-unlike", Level: source.Error, Span: h.Parts[b.Part].Span,
		Summary:  fmt.Sprintf("%s %s %s and %s gives %s, and they are in parallel: the one empties itself into the other", list, give, unit.Volt(volts), b.Name, b.Volts),
		Detail:   "part them by a switch that joins one at a time, put like ones in series first, or charge one from the other through a converter",
		Subjects: append(names, b.Name),
	}
}

// ladder is the metals that batteries lie between, each so many volts above the foot of its own.
type ladder struct {
	net   *flow.Net
	rungs []*rung
}

type rung struct {
	at     harness.TerminalID
	ladder int
	volts  float64
}

// rung gives that of the metal of a terminal.
func (l *ladder) rung(t harness.TerminalID) *rung {
	for _, r := range l.rungs {
		if l.net.Always(r.at, t) {
			return r
		}
	}
	r := &rung{at: t, ladder: len(l.rungs)}
	l.rungs = append(l.rungs, r)
	return r
}

// join puts the ladder of one rung on that of another, so many volts above it.
func (l *ladder) join(foot, top *rung, volts float64) {
	from, lift := top.ladder, foot.volts+volts-top.volts
	if from == foot.ladder {
		return
	}
	for _, r := range l.rungs {
		if r.ladder == from {
			r.ladder, r.volts = foot.ladder, r.volts+lift
		}
	}
}
