// Package part makes of one written part what the model has of it: its terminals and
// what lies between them. The customary terminals follow DIN 72552. Figures that a part
// has unless the description gives them stand in figures.go with their source.
package part

import (
	"example.com/loomfolio/sizing/check/say"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/source"
)

// Next are the first free numbers of the model, on from which those of a part count, and
// what stops call its terminals.
type Next struct {
	Terminal harness.TerminalID
	Element  harness.ElementID
	Named    []string
}

// Made is a part with all that was made of it.
type Made struct {
	Part      harness.Part // with the numbers of its terminals and elements, its positions, its panel and its face
	Terminals []harness.Terminal
	Elements  []harness.Element
	Open      bool // a bus whose terminals are those that stops name
	Problems  source.Problems
}

// Sides are the voltages on board: the main one, and that of a terminal; At is nil while
// nothing is known of others.
type Sides struct {
	Main harness.System
	At   func(harness.TerminalID) harness.System
}

// Make takes over what is written of a part that has its number, its kind and its place,
// and gives its terminals and elements. What is written wrongly is left out, and a problem.
// The voltage that something in it is made for is that of the side on which it lies.
func Make(w *describe.Part, p harness.Part, sys Sides, next Next) Made {
	b := &builder{w: w, p: &p, sys: sys.Main, at: sys.At, next: next, by: map[string]harness.TerminalID{}, roles: map[string][]harness.TerminalID{}}
	fields(w, b.p)
	row, _ := kind.Of(p.Kind)
	p.Like, b.also = row.Like, row.Also
	b.terminals(append(b.customary(row), b.optional(row.Recipe)...))
	b.standIns()
	build := insides[row.Inside]
	if len(w.Inside) > 0 {
		b.inside()
	}
	switch {
	case row.Recipe != nil && len(row.Recipe.Pieces) > 0 && len(w.Inside) == 0:
		b.recipe(row.Recipe)
	case build != nil && (len(w.Inside) == 0 || isSource(p.Kind)):
		build(b)
	}
	b.face()
	b.body()
	b.made.Part, b.made.Problems = p, b.Problems
	return b.made
}

// builder makes one part's terminals and elements.
type builder struct {
	say.Report
	w     *describe.Part
	p     *harness.Part
	sys   harness.System
	at    func(harness.TerminalID) harness.System
	next  Next
	by    map[string]harness.TerminalID   // by Full name
	also  string                          // other names of terminals, as its kind has them
	roles map[string][]harness.TerminalID // by customary name: the terminals that stand for it
	made  Made
}

// side is the voltage of the first of some terminals that lies on another side than the
// main one.
func (b *builder) side(of ...harness.TerminalID) harness.System {
	for _, t := range of {
		if b.at == nil {
			break
		}
		if s := b.at(t); s.Volts != b.sys.Volts || s.Running != b.sys.Running {
			return s
		}
	}
	return b.sys
}

// own is the voltage of the side on which the whole part lies.
func (b *builder) own() harness.System { return b.side(b.p.Terminals...) }

// terminals makes the customary terminals, or the written ones.
func (b *builder) terminals(customary []string) {
	names := customary
	if len(b.w.Terminals) > 0 {
		names = nil
		for _, t := range b.w.Terminals {
			names = append(names, t.Text)
		}
	}
	if b.p.Changeover && b.p.Kind == harness.Relay && len(b.w.Terminals) == 0 {
		names = append(append([]string(nil), names...), "87a")
	}
	for _, n := range names {
		b.terminal(n)
	}
	for _, in := range b.w.Inside {
		for _, w := range append([]read.Word{in.From, in.To}, in.Join...) {
			if w.Given() && len(b.w.Terminals) == 0 {
				b.terminal(w.Text)
			}
		}
	}
}

// terminal gives the terminal of that name, made when there is none yet.
func (b *builder) terminal(name string) harness.TerminalID {
	full := b.p.Ref + "." + name
	if name == "" {
		full = b.p.Ref
	}
	return b.add(name, full, "")
}

func (b *builder) add(name, full, cavity string) harness.TerminalID {
	if id, ok := b.by[full]; ok {
		return id
	}
	id := b.next.Terminal + harness.TerminalID(len(b.made.Terminals))
	b.made.Terminals = append(b.made.Terminals, harness.Terminal{ID: id, Part: b.p.ID, Name: name, Full: full, Cavity: cavity})
	b.p.Terminals = append(b.p.Terminals, id)
	b.by[full] = id
	return id
}

// has gives a terminal that exists; ok is false when the part was written without it.
func (b *builder) has(name string) (harness.TerminalID, bool) {
	id, ok := b.by[b.p.Ref+"."+name]
	return id, ok
}

// called gives the name of one of the part's own terminals.
func (b *builder) called(t harness.TerminalID) string {
	return b.made.Terminals[t-b.next.Terminal].Name
}

// element adds an element to the part.
func (b *builder) element(e harness.Element) harness.ElementID {
	e.ID, e.Part = b.next.Element+harness.ElementID(len(b.made.Elements)), b.p.ID
	b.made.Elements = append(b.made.Elements, e)
	b.p.Elements = append(b.p.Elements, e.ID)
	return e.ID
}

// between makes an element's name from the part and its two terminals.
func (b *builder) between(a, z string) string { return Between(b.p.Ref, a, z) }

// Between names an element of a part by the terminals that it lies between.
func Between(ref, a, z string) string { return ref + "." + a + "-" + z }

// Names lists what terminals are called, the two sides of a cavity by its one name.
func Names(of []harness.Terminal) []string {
	var names []string
	seen := map[string]bool{}
	for _, t := range of {
		name := t.Name
		if t.Cavity != "" {
			name = t.Cavity
		}
		if name != "" && !seen[name] {
			names = append(names, name)
			seen[name] = true
		}
	}
	return names
}
