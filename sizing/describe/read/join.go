package read

import (
	"fmt"
	"slices"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
)

// Joining says how one section of several files becomes one.
type Joining int

// The ways. By each way the description stands before the files that it includes.
const (
	Put     Joining = iota // lists one behind the other, names with names; a name stands in one file only
	Deeper                 // the same, and the keys of a name that stands in several
	Over                   // key by key, and what a file says counts before what it includes
	Alike                  // every file says the same
	Alone                  // it stands in the description itself only
	Nowhere                // it is for the reading alone, and for no section
)

// JoinedBy says of a key how its sections are joined.
func JoinedBy[T any](way Joining, k Key[T]) Key[T] {
	k.joins = way
	return k
}

// Joins gives the ways of a table of keys.
func Joins[T any](keys []Key[T]) map[string]Joining {
	out := map[string]Joining{}
	for _, k := range keys {
		out[k.Name] = k.joins
	}
	return out
}

// piece is a value, and the file in which it stands.
type piece struct {
	key, value *yaml.Node
	in         *loaded
}

// join makes one mapping of the sections of all files.
func (r *Reader) join() *yaml.Node {
	top := r.shared.order[0].root
	if len(r.shared.order) == 1 {
		return r.without(top)
	}
	out := &yaml.Node{Kind: yaml.MappingNode, Line: top.Line, Column: top.Column}
	r.shared.origins[out] = origin{from: top}
	at := map[string]int{}
	joined := map[string]*joint{}
	for _, f := range r.shared.order {
		for _, p := range r.pieces(f) {
			name := p.key.Value
			switch j := joined[name]; {
			case r.shared.joins[name] == Nowhere:
			case r.shared.joins[name] == Alone && f != r.shared.order[0]:
				r.Say(r.span(p.key), "include-clash", fmt.Sprintf("%q stands in an included file", name), "Write it into the description itself: it is not taken from files that are included.")
			case j == nil || j.first.in == f: // a key given twice in one file is said of the table
				at[name] = len(out.Content) + 1
				joined[name] = &joint{Reader: r, way: r.shared.joins[name], first: p, owner: map[string]piece{}}
				out.Content = append(out.Content, p.key, joined[name].begin(p))
			default:
				out.Content[at[name]] = j.add(out.Content[at[name]], p, "")
			}
		}
	}
	return out
}

// without leaves out of a file alone what is for the reading only.
func (r *Reader) without(top *yaml.Node) *yaml.Node {
	if top.Kind != yaml.MappingNode || !slices.ContainsFunc(top.Content, func(n *yaml.Node) bool { return r.shared.joins[n.Value] == Nowhere }) {
		return top
	}
	out := r.copied(top, 0)
	for i := 0; i+1 < len(top.Content); i += 2 {
		if r.shared.joins[top.Content[i].Value] != Nowhere {
			out.Content = append(out.Content, top.Content[i], top.Content[i+1])
		}
	}
	return out
}

// pieces gives the sections of one file.
func (r *Reader) pieces(f *loaded) []piece {
	var out []piece
	if f.root == nil {
		return nil
	}
	for i := 0; i+1 < len(f.root.Content); i += 2 {
		out = append(out, piece{f.root.Content[i], f.root.Content[i+1], f})
	}
	return out
}

// joint is one section while it is joined.
type joint struct {
	*Reader
	way   Joining
	first piece
	owner map[string]piece // by the way of keys to it, what stands in the result
}

// begin takes the first file's section.
func (j *joint) begin(p piece) *yaml.Node {
	j.own(p, "")
	return p.value
}

// own notes where a value and what it holds come from.
func (j *joint) own(p piece, way string) {
	j.owner[way] = p
	if p.value.Kind != yaml.MappingNode {
		return
	}
	for i := 0; i+1 < len(p.value.Content); i += 2 {
		j.own(piece{p.value.Content[i], p.value.Content[i+1], p.in}, way+"\x00"+p.value.Content[i].Value)
	}
}

// add joins another file's value to what is there, and gives both.
func (j *joint) add(have *yaml.Node, p piece, way string) *yaml.Node {
	switch {
	case missing(p.value) || p.value.Kind == yaml.AliasNode:
		j.Say(j.span(p.key), "empty-value", fmt.Sprintf("%q has no value", p.key.Value), "Write what belongs to it, or leave the key out.")
		return have
	case missing(have) || have.Kind == yaml.AliasNode:
		return have // said by its table
	case have.Kind == yaml.MappingNode && p.value.Kind == yaml.MappingNode:
		return j.mappings(have, p, way)
	case have.Kind == yaml.SequenceNode && p.value.Kind == yaml.SequenceNode && j.way == Put:
		out := j.copied(have, 0)
		out.Content = slices.Concat(have.Content, p.value.Content)
		return out
	}
	j.clash(have, p, way)
	return have
}

// mappings joins two mappings by their keys.
func (j *joint) mappings(have *yaml.Node, p piece, way string) *yaml.Node {
	out := j.copied(have, 0)
	out.Content, out.Style = slices.Clone(j.plain(have)), 0
	content, places := j.plain(p.value), map[string]int{}
	for i := 0; i+1 < len(out.Content); i += 2 {
		if _, twice := places[out.Content[i].Value]; !twice {
			places[out.Content[i].Value] = i
		}
	}
	for i := 0; i+1 < len(content); i += 2 {
		at, have := places[content[i].Value]
		inner := way + "\x00" + content[i].Value
		one := piece{content[i], content[i+1], p.in}
		deep := j.way != Put
		if have && deep && j.owner[inner].in != p.in {
			out.Content[at+1] = j.add(out.Content[at+1], one, inner)
			continue
		}
		if !have {
			j.own(one, inner)
		}
		out.Content = append(out.Content, content[i], content[i+1])
	}
	return out
}

// plain gives the keys and values of a mapping, those in brackets without what a comma cut off.
func (j *joint) plain(n *yaml.Node) []*yaml.Node {
	if n.Style&yaml.FlowStyle != 0 {
		return j.commas(n.Content)
	}
	return n.Content
}

func indexOf(content []*yaml.Node, key string) int {
	for i := 0; i+1 < len(content); i += 2 {
		if content[i].Value == key {
			return i
		}
	}
	return -1
}

// clash settles which of two values counts, or says that nobody can know.
func (j *joint) clash(have *yaml.Node, p piece, way string) {
	old := j.owner[way]
	note := source.Note{Span: j.span(old.key), Text: "it was given here first"}
	switch {
	case same(have, p.value):
	case j.way == Alike || have.Kind != p.value.Kind && j.way != Over:
		j.Say(j.span(p.key), "include-clash", fmt.Sprintf("%q says something else in another file", p.key.Value), "Keep it in one of the two, or say the same in both.", note)
	case j.way == Deeper || !slices.Contains(p.in.under, old.in.path):
		j.Say(j.span(p.key), "include-clash", fmt.Sprintf("%q is given in two files that are included", p.key.Value),
			"Keep it in one of the two, or write what counts into the file that includes both.", note)
	}
}

// same tells whether two values are written alike.
func same(a, b *yaml.Node) bool {
	return a.Kind == b.Kind && a.Value == b.Value && slices.EqualFunc(a.Content, b.Content, same)
}
