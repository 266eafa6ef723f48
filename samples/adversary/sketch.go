// Package adversary is for tests: it grows sound descriptions as careful people write
// them, and breaks each in one place. It imports nothing of the program. A description
// is a small model (Sketch) that is written out as the text of the format, so that
// whoever breaks it knows the place and what a careful electrician would say of it.
//
// A sketch is thought with the minus on the bodywork, each leg from the live side to
// the ground. Positive turns it round as it is written: see turn.go. The same seed
// gives the same text. No description here is an advice on how to wire a car.
package adversary

import (
	"fmt"
	"slices"
	"strings"
)

// Field is one key with its value as it is written.
type Field struct{ Key, Value string }

// Fields is what is said of one thing, in order.
type Fields []Field

// Get gives a value, "" where the key is not there.
func (f Fields) Get(key string) string {
	for _, x := range f {
		if x.Key == key {
			return x.Value
		}
	}
	return ""
}

// With gives the fields with one value set; "" takes the key away.
func (f Fields) With(key, value string) Fields {
	out := slices.Clone(f)
	at := slices.IndexFunc(out, func(x Field) bool { return x.Key == key })
	switch {
	case value == "" && at >= 0:
		return slices.Delete(out, at, at+1)
	case value == "":
		return out
	case at >= 0:
		out[at].Value = value
		return out
	}
	return append(out, Field{key, value})
}

func (f Fields) String() string {
	var out []string
	for _, x := range f {
		out = append(out, x.Key+": "+x.Value)
	}
	return "{" + strings.Join(out, ", ") + "}"
}

// Entry is a part or a place.
type Entry struct {
	Name string
	Fields
}

// Set changes one value; "" takes the key away.
func (e *Entry) Set(key, value string) { e.Fields = e.Fields.With(key, value) }

// Kind is the part's kind.
func (e *Entry) Kind() string { return e.Get("kind") }

// Stop is one stop of a leg, with what is said of the wire that arrives there.
type Stop struct {
	To string
	Fields
}

// Part is the name of the stop's part.
func (s Stop) Part() string {
	name, _, _ := strings.Cut(s.To, ".")
	return name
}

func (s Stop) String() string {
	if len(s.Fields) == 0 {
		return s.To
	}
	return append(Fields{{"to", s.To}}, s.Fields...).String()
}

// Leg is the stops that the current passes.
type Leg []Stop

// Circuit is one circuit; its number is its place in the sketch.
type Circuit struct {
	Key, Name, Class string
	Legs             []Leg
}

// State is one state: switches and engine.
type State struct {
	Name string
	Set  Fields
}

// Device is one thing that the vehicle does, for whoever breaks it.
type Device struct {
	Kind                             string
	Load, Switch, Relay, Fuse, Place string
	Amps                             float64 // that Load draws
	Key                              bool    // behind the key
	Circuit                          *Circuit
}

// Sketch is a whole description.
type Sketch struct {
	Seed            uint64
	Volts           float64
	Running         float64
	Positive, Wired bool
	FromGround      bool // with Positive: legs are written from the ground
	Bare            bool // no places and runs: every length is given
	Sheet, Practice Fields
	Places          []*Entry
	Runs            []Fields
	Parts           []*Entry
	Circuits        []*Circuit
	States          []*State
	Devices         []*Device
	distance        map[[2]string]int // mm between places over the runs
}

// Part gives a part, nil where there is none.
func (s *Sketch) Part(name string) *Entry {
	for _, p := range s.Parts {
		if p.Name == name {
			return p
		}
	}
	return nil
}

// OfKind gives the parts of the kinds.
func (s *Sketch) OfKind(kinds ...string) []*Entry {
	var out []*Entry
	for _, p := range s.Parts {
		if slices.Contains(kinds, p.Kind()) {
			out = append(out, p)
		}
	}
	return out
}

// Spot is a stop's place in a sketch.
type Spot struct {
	Circuit  *Circuit
	Leg, Row int
}

// Stop gives the stop, to be read or changed.
func (p Spot) Stop() *Stop { return &p.Circuit.Legs[p.Leg][p.Row] }

// Stops lists the spots that pass all of the tests: "BAT.+" or the bare part "BAT".
func (s *Sketch) Stops(name string) []Spot {
	var out []Spot
	for _, c := range s.Circuits {
		for i, leg := range c.Legs {
			for j, stop := range leg {
				if stop.To == name || stop.Part() == name {
					out = append(out, Spot{c, i, j})
				}
			}
		}
	}
	return out
}

// Text writes the description.
func (s *Sketch) Text() string {
	t := s.turned()
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("loomfolio: 1\ntitle: Grown loom %d\nrevision: A\ndate: 2026-11-02", s.Seed)
	line("vehicle: {name: Kestrel GT, identity: KG-%04d}\nsheet: %s", s.Seed%10000, t.Sheet)
	line("system: %s", t.system())
	if len(t.Practice) > 0 {
		line("practice: %s", t.Practice)
	}
	entries(&b, "places", t.Places)
	if len(t.Runs) > 0 {
		line("runs:")
		for _, r := range t.Runs {
			line("  - %s", r)
		}
	}
	entries(&b, "parts", t.Parts)
	line("circuits:")
	for i, c := range t.Circuits {
		c.write(&b, i+1)
	}
	if len(t.States) > 0 {
		line("states:")
		for _, x := range t.States {
			line("  %s: %s", x.Name, x.Set)
		}
	}
	return b.String()
}

func (s *Sketch) system() Fields {
	earth, way := "negative", "chassis"
	if s.Positive {
		earth = "positive"
	}
	if s.Wired {
		way = "wired"
	}
	return Fields{{"volts", num(s.Volts)}, {"running", num(s.Running) + " V"}, {"earth", earth}, {"return", way}}
}

func entries(b *strings.Builder, head string, list []*Entry) {
	if len(list) > 0 {
		fmt.Fprintf(b, "%s:\n", head)
	}
	for _, e := range list {
		fmt.Fprintf(b, "  %s: %s\n", e.Name, e.Fields)
	}
}

func (c *Circuit) write(b *strings.Builder, number int) {
	fmt.Fprintf(b, "  %s:\n    number: %d\n    name: %s\n", c.Key, number, c.Name)
	if c.Class != "" {
		fmt.Fprintf(b, "    class: %s\n", c.Class)
	}
	b.WriteString("    legs:\n")
	for _, leg := range c.Legs {
		var stops []string
		for _, s := range leg {
			stops = append(stops, s.String())
		}
		fmt.Fprintf(b, "      - [%s]\n", strings.Join(stops, ", "))
	}
}

// num writes a figure without needless noughts.
func num(x float64) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.2f", x), "0"), ".")
}
