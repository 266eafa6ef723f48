package read

import (
	"fmt"
	"regexp"
	"slices"
	"sort"
	"strings"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
)

// Bounds of what is written out.
const (
	mostRounds = 200 // of each
	mostMarks  = 50
)

var (
	mark     = regexp.MustCompile(`<([A-Za-z][A-Za-z0-9-]*)>`)
	markName = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9-]*$`)
)

// expander writes out templates and what has each:.
type expander struct {
	*Reader
	templates map[string]*template
	names     []string            // of the templates, in order
	made      map[*yaml.Node]bool // lists and mappings that are made here alone
}

// expanded gives the mapping with everything written out.
func (r *Reader) expanded(root *yaml.Node) *yaml.Node {
	x := &expander{Reader: r, templates: map[string]*template{}, made: map[*yaml.Node]bool{}}
	if _, value := under(root, "templates"); value != nil {
		x.read(value)
	}
	out := r.copied(root, 0)
	for i := 0; i+1 < len(root.Content); i += 2 {
		key, value := root.Content[i], root.Content[i+1]
		if key.Value == "templates" || key.Value == "use" {
			continue
		}
		if x.holds(key.Value) {
			value = x.section(value)
		}
		out.Content = append(out.Content, key, value)
	}
	if _, value := under(root, "use"); value != nil {
		x.uses(out, value)
	}
	return out
}

// holds tells of a section that it may be written by templates, and its entries with each:.
func (x *expander) holds(name string) bool {
	way, known := x.shared.joins[name]
	return known && (way == Put || way == Deeper) && name != "templates" && name != "use"
}

// sections lists them, for people.
func (x *expander) sections() []string {
	var out []string
	for name := range x.shared.joins {
		if x.holds(name) {
			out = append(out, name)
		}
	}
	sort.Strings(out)
	return out
}

// round is one of what there is of each: the values of its marks, and where they stand.
type round struct {
	with map[string]string
	at   source.Span
}

// use makes one use of a round, that stands in another, 0 for none.
func (x *expander) use(n round, what string) int {
	var said []string
	for name, value := range n.with {
		said = append(said, fmt.Sprintf("<%s> is %.40s", name, value))
	}
	sort.Strings(said)
	text := what
	if len(said) > 0 {
		text += ": " + source.Some(said, "")
	}
	return x.Reader.use(source.Use{Span: n.at, Text: text, With: n.with})
}

// section writes out the entries of a section that have each:.
func (x *expander) section(n *yaml.Node) *yaml.Node {
	out, changed := x.copied(n, 0), false
	switch n.Kind {
	case yaml.MappingNode:
		for i := 0; i+1 < len(n.Content) && !x.shared.full; i += 2 {
			made, more := x.entry(n.Content[i], n.Content[i+1])
			out.Content, changed = append(out.Content, made...), changed || more
		}
	case yaml.SequenceNode:
		out.Content, changed = x.items(n.Content, "")
	}
	if !changed {
		delete(x.shared.origins, out)
		return n
	}
	return out
}

// entry writes out one key with its value.
func (x *expander) entry(key, value *yaml.Node) (out []*yaml.Node, changed bool) {
	rounds, each := x.rounds(value)
	if !each {
		x.bare(key)
		if legs, more := x.legs(value); more {
			return []*yaml.Node{key, legs}, true
		}
		return []*yaml.Node{key, value}, false
	}
	for _, n := range rounds {
		use := x.use(n, "this one")
		k, v := x.filled(key, n.with, use), x.filled(x.less(value, "each"), n.with, use)
		x.left(k, n.with)
		v, _ = x.legs(v)
		x.left(v, n.with)
		out = append(out, k, v)
	}
	return out, true
}

// bare refuses a name or stop with a mark for which nothing is put in.
func (x *expander) bare(key *yaml.Node) {
	if m := mark.FindString(key.Value); m != "" {
		x.Say(x.span(key), "mark-left", fmt.Sprintf("nothing says what %s stands for", m),
			fmt.Sprintf("Write each: {%s: [left, right]} among the keys that it belongs to (of a leg: {each: …, leg: [stops]}), or the name without < and >.", strings.Trim(m, "<>")))
	}
}

// legs writes out the legs of a circuit that have each:.
func (x *expander) legs(n *yaml.Node) (*yaml.Node, bool) {
	key, value := under(n, "legs")
	if key == nil || value.Kind != yaml.SequenceNode {
		return n, false
	}
	for _, leg := range value.Content {
		for _, stop := range leg.Content {
			if leg.Kind == yaml.SequenceNode && stop.Kind == yaml.ScalarNode {
				x.bare(stop)
			}
		}
	}
	items, changed := x.items(value.Content, "leg")
	if !changed {
		return n, false
	}
	list := x.copied(value, 0)
	list.Content = items
	out := x.copied(n, 0)
	for i := 0; i+1 < len(n.Content); i += 2 {
		if out.Content = append(out.Content, n.Content[i], n.Content[i+1]); n.Content[i+1] == value {
			out.Content[len(out.Content)-1] = list
		}
	}
	return out, true
}

// items writes out the items of a list that have each:; what is meant stands under a key of
// theirs, or is what they hold besides.
func (x *expander) items(list []*yaml.Node, within string) (out []*yaml.Node, changed bool) {
	for _, item := range list {
		rounds, each := x.rounds(item)
		if !each {
			out = append(out, item)
			continue
		}
		changed = true
		body := x.body(item, within)
		if body == nil || len(rounds) == 0 {
			out = append(out, unread())
			continue
		}
		for _, n := range rounds {
			v := x.filled(body, n.with, x.use(n, "this one"))
			x.left(v, n.with)
			out = append(out, v)
		}
	}
	return out, changed
}

// body is what is meant by an item with each:; nil where nobody can know, which is said.
func (x *expander) body(item *yaml.Node, within string) *yaml.Node {
	if within == "" {
		return x.less(item, "each")
	}
	var body *yaml.Node
	for _, e := range x.Entries(Entry{Key: Word{Text: "legs", Span: x.span(item)}, value: item}, "each: and "+within+":", false) {
		switch e.Key.Text {
		case within:
			body = e.value
		case "each":
		default:
			x.unknownKey(e.Key, []string{"each", within})
			return nil
		}
	}
	if body == nil {
		x.Say(x.span(item), "bad-each", "a leg with each: lacks its stops", "Write them under "+within+": {each: {side: [left, right]}, "+within+": [F1, LAMP-<side>.+]}")
	}
	return body
}

// less is a mapping without one of its keys.
func (x *expander) less(n *yaml.Node, name string) *yaml.Node {
	i := indexOf(n.Content, name)
	if n.Kind != yaml.MappingNode || i < 0 {
		return n
	}
	out := x.copied(n, 0)
	out.Content = slices.Delete(slices.Clone(n.Content), i, i+2)
	return out
}

// rounds reads each: of a mapping; each tells whether there is one.
func (x *expander) rounds(n *yaml.Node) (out []round, each bool) {
	key, value := under(n, "each")
	if key == nil {
		return nil, false
	}
	const wants = "marks with the list of what they stand for, such as each: {side: [left, right]}"
	first := ""
	for _, e := range x.Entries(Entry{Key: Word{Text: key.Value, Span: x.span(key)}, value: value}, wants, false) {
		words := x.Words(e, "a list, such as [left, right]")
		if !x.mayMark(e.Key) || !x.mayStand(words) {
			return nil, true
		}
		if len(out) > 0 && len(out[0].with) >= mostMarks {
			x.Say(e.Key.Span, "bad-each", fmt.Sprintf("there are more than %d marks", mostMarks), "Write fewer.")
			return nil, true
		}
		if out == nil {
			first, out = e.Key.Text, make([]round, len(words))
		}
		if len(words) == 0 || len(words) > mostRounds || len(words) != len(out) {
			x.Say(e.Key.Span, "bad-each", fmt.Sprintf("%q has %d values and %q %d", e.Key.Text, len(words), first, len(out)),
				fmt.Sprintf("Write lists of the same length, of 1 to %d values: they go in pairs, the first with the first.", mostRounds))
			return nil, true
		}
		for i, w := range words {
			if out[i].with == nil {
				out[i] = round{map[string]string{}, w.Span}
			}
			out[i].with[e.Key.Text] = w.Text
		}
	}
	return out, true
}

// mayMark refuses names that no mark could have.
func (x *expander) mayMark(w Word) bool {
	if markName.MatchString(w.Text) {
		return true
	}
	x.Say(w.Span, "bad-parameter", fmt.Sprintf("%q cannot be a mark", w.Text), "Use letters, digits and dashes, a letter first: side is put in for <side>.")
	return false
}

// mayStand refuses values that hold marks themselves.
func (x *expander) mayStand(words []Word) bool {
	for _, w := range words {
		if m := mark.FindString(w.Text); m != "" {
			x.Say(w.Span, "mark-left", fmt.Sprintf("nothing says here what %s stands for", m), "Write what it stands for.")
			return false
		}
	}
	return true
}

// filled gives a node as it is read in a use, with the values of its marks put in.
func (x *expander) filled(n *yaml.Node, with map[string]string, use int) *yaml.Node {
	if x.spent(n) {
		return unread()
	}
	out := x.copied(n, use)
	if n.Kind == yaml.ScalarNode && strings.Contains(n.Value, "<") {
		if len(n.Value)+strings.Count(n.Value, "<")*longest(with) > mostFilled {
			x.Say(x.span(n), "too-much", "with what is put in, this text becomes too long", "Write it shorter.")
			return unread()
		}
		if out.Value = (source.Use{With: with}).Fill(n.Value); x.spent(out) {
			return unread()
		}
	}
	for _, c := range n.Content {
		if out.Content = append(out.Content, x.filled(c, with, use)); x.shared.full {
			break
		}
	}
	return out
}

func longest(with map[string]string) int {
	most := 0
	for _, value := range with {
		most = max(most, len(value))
	}
	return most
}

// mostFilled bounds a text with what is put in, in bytes.
const mostFilled = 20_000

// left refuses marks for which nothing was put in.
func (x *expander) left(n *yaml.Node, with map[string]string) {
	if n.Kind == yaml.ScalarNode {
		if m := mark.FindStringSubmatch(n.Value); m != nil {
			var names []string
			for name := range with {
				names = append(names, name)
			}
			sort.Strings(names)
			x.Say(x.span(n), "mark-left", fmt.Sprintf("nothing says what %s stands for", m[0]), Guess(m[1], names)+"The marks here are: "+marks(names)+".")
		}
	}
	for _, c := range n.Content {
		x.left(c, with)
	}
}

// marks lists names as they stand in texts.
func marks(names []string) string {
	if len(names) == 0 {
		return "none"
	}
	return "<" + strings.Join(names, ">, <") + ">"
}
