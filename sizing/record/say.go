package record

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

func (m *matcher) say(level source.Level, slug string, at source.Span, summary, detail string, names ...string) {
	m.out.Problems = append(m.out.Problems, source.Problem{Slug: slug, Level: level, Span: at, Summary: summary, Detail: detail, Subjects: names})
}

func (m *matcher) described(w *harness.Wire) string {
	return m.h.Terminals[w.From].Full + " → " + m.h.Terminals[w.To].Full
}

// standing says what a line holds: "12B (2.5 mm², OG/BK, built, K1.87 → FAN.+)".
func (l *Wire) standing() string {
	return fmt.Sprintf("%s (%s, %s, %s, %s → %s)", l.Name, l.Gauge, colourText(l.Base, l.Tracer), l.State, l.From, l.To)
}

// edited says that the text is another than freeze wrote: a hand, or a fault of the disk.
func (m *matcher) edited() {
	if m.r.Edited {
		m.say(source.Advice, "record-edited", source.Span{}, "the as-built record was changed since it was written",
			"if that was you, run loomfolio freeze to seal it; if not, compare it with the copy beside it")
	}
}

func (m *matcher) sayTaken(w *harness.Wire, l *Wire) {
	m.say(source.Advice, "wire-taken-as", w.Span,
		fmt.Sprintf("the wire %s is taken as %s: one circuit, one end and one length", m.described(w), l.standing()),
		"confirm it: if it is the same, run loomfolio freeze to write its new end down, or say "+m.inStop(w, l)+"; if it is another, take the line of "+l.Name+" out of the record", l.Name)
}

// inStop shows how the description says that a wire was a certain line.
func (m *matcher) inStop(w *harness.Wire, l *Wire) string {
	from, to := m.ends(w, true)
	at, was := w.To, l.To
	if to == l.To && from != l.From {
		at, was = w.From, l.From
	}
	name := m.h.Terminals[at].Full
	for _, side := range []string{".in", ".out"} {
		name, was = strings.TrimSuffix(name, side), strings.TrimSuffix(was, side)
	}
	return fmt.Sprintf("{to: %s, was: %s}", name, was)
}

func (m *matcher) sayUnsure(w *harness.Wire, lines []int) {
	var names, ways, texts []string
	for _, i := range lines {
		l := &m.r.Wires[i]
		names, texts, ways = append(names, l.Name), append(texts, l.standing()), append(ways, m.inStop(w, l))
	}
	m.say(source.Warning, "wire-unsure", w.Span,
		fmt.Sprintf("the wire %s may be %s", m.described(w), strings.Join(texts, " or ")),
		"it is taken as a new wire meanwhile; say which it is in the stop: "+strings.Join(ways, " or "), names...)
}

func (m *matcher) sayPiece(l *Wire, best harness.WireID, chain []harness.WireID) {
	detail := "the others are new wires; measure the pieces before the old wire is cut"
	if l.State == harness.Planned {
		detail = "the others are new wires"
	}
	m.say(source.Advice, "wire-split", m.h.Wires[best].Span,
		fmt.Sprintf("%s is now %d pieces; the longest, %s, keeps name, gauge and colour", l.standing(), len(chain), m.described(&m.h.Wires[best])), detail, l.Name)
}

// gone lists in one advice the wires that are in the vehicle and in no circuit.
func (m *matcher) gone() {
	var lines []*Wire
	for i := range m.r.Wires {
		if l := &m.r.Wires[i]; !m.taken[i] && !m.asked[i] && l.State != harness.Planned {
			lines = append(lines, l)
		}
	}
	if len(lines) == 0 {
		return
	}
	slices.SortFunc(lines, func(a, b *Wire) int {
		return cmp.Or(cmp.Compare(len(a.Name), len(b.Name)), cmp.Compare(a.Name, b.Name)) // 2A before 12A
	})
	var names, texts []string
	for _, l := range lines {
		names, texts = append(names, l.Name), append(texts, l.standing())
	}
	m.say(source.Advice, "wire-gone", source.Span{}, "built and no longer described: "+strings.Join(texts, ", "),
		"pull each out, or cap both of its ends and tie it back; where an end only has another name, say so in the stop: {to: NEW.terminal, was: OLD.terminal}", names...)
	m.out.Problems[len(m.out.Problems)-1].Gathers = true
}
