package read

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
)

// template is what is written once and used with other values.
type template struct {
	name     Word
	with     []parameter
	sections []piece // as they are written
}

// parameter is one mark of a template.
type parameter struct {
	name  string
	def   string
	given bool // it has a default
}

func (t *template) parameters() []string {
	var out []string
	for _, p := range t.with {
		out = append(out, p.name)
	}
	return out
}

const holdsTemplate = "a name for each template, with its parameters and sections: headlamp: {with: [side], parts: …}"

// read takes in the templates.
func (x *expander) read(n *yaml.Node) {
	key := Word{Text: "templates", Span: x.span(n)}
	for _, e := range x.Entries(Entry{Key: key, value: n}, holdsTemplate, true) {
		t := &template{name: e.Key}
		for _, part := range x.Entries(e, "its parameters with: […], and sections such as parts: and circuits:", false) {
			switch {
			case part.Key.Text == "with":
				t.with = x.parameters(part)
			case x.holds(part.Key.Text):
				t.sections = append(t.sections, piece{key: x.keyOf(e.value, part.Key.Text), value: part.value})
			default:
				x.unknownKey(part.Key, append([]string{"with"}, x.sections()...))
			}
		}
		if x.templates[t.name.Text] == nil {
			x.names = append(x.names, t.name.Text)
		}
		x.templates[t.name.Text] = t
	}
}

func (x *expander) keyOf(n *yaml.Node, name string) *yaml.Node {
	key, _ := under(n, name)
	return key
}

const holdsWith = "a list of parameters, such as [side, {at: front}]"

// parameters reads what a template takes; {at: front} has a default.
func (x *expander) parameters(e Entry) []parameter {
	var out []parameter
	var words []Word
	for _, item := range x.Items(e, holdsWith) {
		if !item.IsMap() {
			if w, ok := x.Line(item, "a parameter"); ok && x.mayMark(w) {
				words, out = append(words, w), append(out, parameter{name: w.Text})
			}
			continue
		}
		for _, p := range x.Entries(item, "a parameter with what it is where nothing is said", false) {
			if w, ok := x.Line(p, "what it is where nothing is said"); ok && x.mayMark(p.Key) && x.mayStand([]Word{w}) {
				words, out = append(words, p.Key), append(out, parameter{p.Key.Text, w.Text, true})
			}
		}
	}
	x.Distinct(words)
	if len(out) > mostMarks {
		x.Say(e.Key.Span, "bad-parameter", fmt.Sprintf("the template has %d parameters", len(out)), fmt.Sprintf("Up to %d are read: make several templates of it.", mostMarks))
		return nil
	}
	return out
}

// uses writes the templates out that are used.
func (x *expander) uses(root, list *yaml.Node) {
	key := Word{Text: "use", Span: x.span(list)}
	for _, e := range x.Items(Entry{Key: key, value: list}, "a list such as [{template: headlamp, side: left}]") {
		if x.shared.full {
			return
		}
		x.useOne(root, e)
	}
}

// useOne writes one use out, or several where it has each:.
func (x *expander) useOne(root *yaml.Node, e Entry) {
	name, given, ok := x.call(e)
	if !ok {
		return
	}
	t := x.templates[name.Text]
	if t == nil {
		x.Say(name.Span, "unknown-template", fmt.Sprintf("there is no template %q", name.Text), Guess(name.Text, x.names)+"The templates are: "+listed(x.names)+".")
		return
	}
	rounds, each := x.rounds(e.value)
	if !each {
		rounds = []round{{map[string]string{}, name.Span}}
	}
	for _, n := range rounds {
		all, ok := x.settled(t, name, given, n)
		if !ok {
			return
		}
		x.put(root, t, all, x.use(round{all, n.at}, fmt.Sprintf("used here, template %q", name.Text)))
	}
}

func listed(names []string) string {
	if len(names) == 0 {
		return "none"
	}
	return strings.Join(names, ", ")
}

// call reads which template is used, and with what.
func (x *expander) call(e Entry) (name Word, given []Word, ok bool) {
	if !e.IsMap() {
		name, ok = x.Line(e, "a template")
		return name, nil, ok
	}
	for _, p := range x.Entries(e, "a template and its parameters: {template: headlamp, side: left}", false) {
		if p.Key.Text == "each" {
			continue
		}
		w, one := x.Line(p, "what is put in")
		switch {
		case !one || !x.mayStand([]Word{w}):
			return Word{}, nil, false
		case p.Key.Text == "template":
			name = w
		default:
			given = append(given, p.Key, w)
		}
	}
	if !name.Given() {
		x.lacks(e, given)
	}
	return name, given, name.Given()
}

// lacks says that a use names no template, or names it under a key that is misspelt.
func (x *expander) lacks(e Entry, given []Word) {
	key := []string{"template"}
	for i := 0; i < len(given); i += 2 {
		if Guess(given[i].Text, key) != "" {
			x.unknownKey(given[i], key)
			return
		}
	}
	x.Demand(e, nil, key)
}

// settled gives the value of every parameter.
func (x *expander) settled(t *template, name Word, given []Word, n round) (map[string]string, bool) {
	all := maps.Clone(n.with)
	known := t.parameters()
	for i := 0; i+1 < len(given); i += 2 {
		if _, twice := all[given[i].Text]; twice {
			x.Say(given[i].Span, "bad-parameter", fmt.Sprintf("%q is given, and stands under each: too", given[i].Text), "Keep one of the two.", source.Note{Span: n.at, Text: "its values stand here"})
			return nil, false
		}
		if !slices.Contains(known, given[i].Text) {
			x.Say(given[i].Span, "bad-parameter", fmt.Sprintf("the template %q has no parameter %q", t.name.Text, given[i].Text), x.parametersOf(t, given[i].Text), x.noteOf(t))
			return nil, false
		}
		all[given[i].Text] = given[i+1].Text
	}
	for m := range n.with {
		if !slices.Contains(known, m) {
			x.Say(name.Span, "bad-parameter", fmt.Sprintf("the template %q has no parameter %q", t.name.Text, m), x.parametersOf(t, m), x.noteOf(t))
			return nil, false
		}
	}
	for _, p := range t.with {
		if _, ok := all[p.name]; ok {
			continue
		}
		if !p.given {
			x.Say(name.Span, "bad-parameter", fmt.Sprintf("the template %q needs %q", t.name.Text, p.name), fmt.Sprintf("Write %s: and what is put in for <%s>.", p.name, p.name), x.noteOf(t))
			return nil, false
		}
		all[p.name] = p.def
	}
	return all, true
}

func (x *expander) parametersOf(t *template, word string) string {
	return Guess(word, t.parameters()) + "Its parameters are: " + listed(t.parameters()) + "."
}

func (x *expander) noteOf(t *template) source.Note {
	return source.Note{Span: t.name.Span, Text: "the template is written here"}
}

// put adds the sections of a template to the mapping.
func (x *expander) put(root *yaml.Node, t *template, with map[string]string, use int) {
	for _, s := range t.sections {
		made := x.section(x.filled(s.value, with, use))
		x.left(made, with)
		key, have := under(root, s.key.Value)
		switch {
		case key == nil:
			root.Content = append(root.Content, s.key, made)
		case have.Kind == made.Kind && made.Kind != yaml.ScalarNode:
			x.set(root, s.key.Value, x.both(have, made))
		case made.Kind != yaml.AliasNode:
			x.Say(x.span(made), "wrong-shape", fmt.Sprintf("%q holds %s where %s belongs", s.key.Value, shape(made), shape(have)), "Write it as it stands elsewhere.")
		}
	}
}

func (x *expander) set(root *yaml.Node, name string, value *yaml.Node) {
	root.Content[indexOf(root.Content, name)+1] = value
}

// both gives a mapping or list with what another one holds behind its own.
func (x *expander) both(have, more *yaml.Node) *yaml.Node {
	out := have
	if !x.made[have] {
		out = x.copied(have, 0)
		out.Content, x.made[out] = nil, true
	}
	plain := func(n *yaml.Node) []*yaml.Node {
		if n.Kind == yaml.MappingNode && n.Style&yaml.FlowStyle != 0 {
			return x.commas(n.Content)
		}
		return n.Content
	}
	if out != have {
		out.Content, out.Style = slices.Clone(plain(have)), 0
	}
	out.Content = append(out.Content, plain(more)...)
	return out
}
