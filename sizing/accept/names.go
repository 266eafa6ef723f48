package accept

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// names are those of the model, by place in the file and by circuit.
type names struct {
	h        *harness.Harness
	at       map[source.Span][]string
	circuits map[string]map[string]bool // by key, number and name of a circuit: its wires
	wires    map[string]bool
}

func namesOf(h *harness.Harness) *names {
	n := &names{h: h, at: map[source.Span][]string{}, circuits: map[string]map[string]bool{}, wires: map[string]bool{}}
	n.ofWires()
	for i := range h.Parts {
		n.put(h.Parts[i].Span, h.Parts[i].Ref)
	}
	for i := range h.Places {
		n.put(h.Places[i].Span, h.Places[i].Key, h.Places[i].Name)
	}
	for i := range h.Units {
		n.put(h.Units[i].Span, h.Units[i].Name)
		n.put(h.Units[i].Said, h.Units[i].Name)
	}
	for i := range h.States {
		n.put(h.States[i].Span, h.States[i].Name)
	}
	for i := range h.Runs {
		from, to := h.Places[h.Runs[i].From].Key, h.Places[h.Runs[i].To].Key
		n.put(h.Runs[i].Span, from+"-"+to, to+"-"+from)
	}
	return n
}

func (n *names) ofWires() {
	for i := range n.h.Wires {
		w := &n.h.Wires[i]
		n.wires[w.Name] = true
		for _, at := range []source.Span{w.Span, w.GaugeSpan, w.ColourSpan, w.FoundSpan, w.InsulationSpan} {
			n.put(at, w.Name)
		}
	}
	for i := range n.h.Circuits {
		c := &n.h.Circuits[i]
		n.put(c.Span, c.Key, c.Number, c.Name)
		of := map[string]bool{}
		for _, w := range c.Wires {
			of[n.h.Wires[w].Name] = true
		}
		for _, name := range []string{c.Key, c.Number, c.Name} {
			n.circuits[name] = of
		}
	}
}

func (n *names) put(at source.Span, list ...string) {
	if at.Known() {
		n.at[at] = append(n.at[at], list...)
	}
}

// of gives every name that a finding concerns.
func (n *names) of(p *source.Problem) []string {
	all := append(slices.Clone(p.Subjects), n.at[p.Span]...)
	if text := n.text(p.Span); text != "" {
		all = append(all, text)
	}
	return all
}

// first is the name by which a finding is best accepted, "" for none.
func (n *names) first(p *source.Problem) string {
	if all := n.of(p); len(all) > 0 {
		return all[0]
	}
	return ""
}

// text is what stands at a place in the description, without quotes.
func (n *names) text(at source.Span) string {
	return strings.Trim(n.h.File.At(at), `"'`)
}

// concerns tells whether a finding concerns a name; one without any is meant by no name.
func (n *names) concerns(p *source.Problem, name string) bool {
	all := n.of(p)
	if name == "" {
		return len(all) == 0
	}
	return slices.ContainsFunc(all, func(s string) bool { return covers(name, s) }) || n.within(p, name)
}

// covers tells whether a name that is accepted takes in a subject.
func (n *names) covers(name, subject string) bool {
	return covers(name, subject) || n.circuits[name][subject]
}

// covers tells of a name that it is the subject, or the part whose terminal that is.
func covers(name, subject string) bool {
	return name == subject || strings.HasPrefix(subject, name+".")
}

// within tells whether all wires of which a finding speaks are of one circuit.
func (n *names) within(p *source.Problem, circuit string) bool {
	of, some := n.circuits[circuit], false
	for _, s := range p.Subjects {
		if n.wires[s] && !of[s] {
			return false
		}
		some = some || n.wires[s]
	}
	return some
}
