package page

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
)

// Part gives a part of the model by its ID, or nil for none.
func (a Ask) Part(id harness.PartID) *harness.Part {
	if id < 0 || int(id) >= len(a.H.Parts) {
		return nil
	}
	return &a.H.Parts[id]
}

// Named is a part as a person looks for it: "Radiator fan (FAN)", or the
// reference alone where no name was given.
func (a Ask) Named(p *harness.Part) string {
	if p == nil {
		return "chassis"
	}
	if p.Name == "" || p.Name == p.Ref {
		return p.Ref
	}
	return fmt.Sprintf("%s (%s)", p.Name, p.Ref)
}

// Plain is a part's plain name without its reference.
func (a Ask) Plain(p *harness.Part) string {
	if p == nil {
		return "chassis"
	}
	if p.Name == "" {
		return p.Ref
	}
	return p.Name
}

// At is the plain name of the place where a part sits, "" when it has none.
func (a Ask) At(p *harness.Part) string {
	if p == nil || p.Place < 0 || int(p.Place) >= len(a.H.Places) {
		return ""
	}
	pl := a.H.Places[p.Place]
	if pl.Name == "" {
		return pl.Key
	}
	return pl.Name
}

// Stop is a terminal as it is found on the vehicle: its full name and its
// part's plain name ("FAN.+", "Radiator fan").
func (a Ask) Stop(t harness.TerminalID) (full, plain string) {
	if t == harness.Chassis || int(t) >= len(a.H.Terminals) || t < 0 {
		return "chassis", ""
	}
	p := a.H.PartOf(t)
	full = a.H.Terminals[t].Full
	if p != nil && p.Name != p.Ref {
		plain = p.Name
	}
	return full, plain
}

// Pair is the colour chosen for a wire; the given one where none was chosen yet.
func (a Ask) Pair(w harness.WireID) colour.Pair {
	if int(w) < len(a.R.Colours) && a.R.Colours[w].Pair.Base != "" {
		return a.R.Colours[w].Pair
	}
	return colour.Pair{Base: a.H.Wires[w].Base, Tracer: a.H.Wires[w].Tracer}
}

// Gauge is the size chosen for a wire as printed, "" when there is none.
func (a Ask) Gauge(w harness.WireID) string {
	if int(w) >= len(a.R.Wires) {
		return a.H.Wires[w].Gauge.String()
	}
	if x := &a.H.Wires[w]; x.Existing && !x.Gauge.Given() {
		return "≥" + NoBreak + a.R.Wires[w].Gauge.String() // nobody says how thick it is
	}
	return a.R.Wires[w].Gauge.String()
}

// Made leaves out the vehicle's own wires, which are there already.
func (a Ask) Made(wires []harness.WireID) []harness.WireID {
	var out []harness.WireID
	for _, w := range wires {
		if !a.H.Wires[w].Existing {
			out = append(out, w)
		}
	}
	return out
}

// Own are the vehicle's own wires, in their order.
func (a Ask) Own() []harness.WireID {
	var out []harness.WireID
	for i := range a.H.Wires {
		if a.H.Wires[i].Existing {
			out = append(out, harness.WireID(i))
		}
	}
	return out
}

// LoadWords is the plain name of a load by the name of its element; where its part
// holds several, what tells it from its brothers follows ("Headlamp left 56a").
func (a Ask) LoadWords(name string) string {
	e, ok := a.ElementNamed(name)
	if !ok {
		return name
	}
	p := a.Part(e.Part)
	return strings.TrimSpace(a.Plain(p) + " " + a.LoadDetail(e))
}

// LoadDetail tells a load from the others of its part: the terminal that they do
// not share, else what the element's name adds to the part's; "" where there is nothing to tell.
func (a Ask) LoadDetail(e harness.Element) string {
	p := a.Part(e.Part)
	if p == nil || e.Name == p.Ref {
		return ""
	}
	from, to, n := map[harness.TerminalID]bool{}, map[harness.TerminalID]bool{}, 0
	for _, id := range a.ElementsOf(e.Part) {
		if o := a.H.Elements[id]; o.Kind == e.Kind {
			from[o.A], to[o.B] = true, true
			n++
		}
	}
	switch {
	case n > 1 && len(from) == n && len(to) == 1:
		return a.H.Terminals[e.A].Name
	case n > 1 && len(to) == n && len(from) == 1:
		return a.H.Terminals[e.B].Name
	}
	return strings.TrimPrefix(strings.TrimPrefix(e.Name, p.Ref), ".")
}

// Figure prints a number with so many places after the point, "-" becoming a true minus.
func Figure(x float64, places int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "–"
	}
	s := strconv.FormatFloat(x, 'f', places, 64)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return strings.Replace(s, "-", "−", 1)
}

// Amps prints a current without its unit: hundredths below 10 A, tenths below
// 100 A, whole above; what is there but rounds to nothing is "<0.01".
func Amps(x float64) string {
	switch {
	case x > 0 && x < 0.005:
		return "<0.01"
	case math.Abs(x) < 10:
		return Figure(x, 2)
	case math.Abs(x) < 100:
		return Figure(x, 1)
	}
	return Figure(x, 0)
}

// Counted is "1 wire", "3 wires": the plural takes an s.
func Counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// And joins words: "a", "a and b", "a, b and c".
func And(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return strings.Join(words, "")
}

// Letter is what a run of the loom is called on the map and in the lists: A to Z,
// then AA, AB and on.
func Letter(r harness.RunID) string {
	if r < 26 {
		return string(rune('A' + r))
	}
	return Letter(r/26-1) + Letter(r%26)
}

// RunAnchor is the anchor of a run.
func (a Ask) RunAnchor(r harness.RunID) string {
	run := a.H.Runs[r]
	return "run/" + a.H.Places[run.From].Key + "-" + a.H.Places[run.To].Key
}

// Sentence begins with a capital and ends with a stop.
func Sentence(s string) string {
	if s == "" {
		return ""
	}
	switch s[len(s)-1] {
	case '.', '!', '?':
		return Capital(s)
	}
	return Capital(s) + "."
}

// Capital makes the first letter a capital, unless it begins a name.
func Capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' || named(s) {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// named tells whether the first word is a name to be left as it is, such as a
// key with a colon or a number after its letters.
func named(s string) bool {
	for _, r := range s {
		switch {
		case r == ' ':
			return false
		case r == ':' || r == '.' || r >= '0' && r <= '9' || r >= 'A' && r <= 'Z':
			return true
		}
	}
	return false
}

// Or is a text, or another where there is none.
func Or(s, instead string) string {
	if s == "" {
		return instead
	}
	return s
}

// Grounded tells whether anything returns through the bodywork.
func (a Ask) Grounded() bool {
	return !a.H.System.WiredReturn || slices.ContainsFunc(a.H.Parts, func(p harness.Part) bool { return p.Kind == harness.Ground })
}
