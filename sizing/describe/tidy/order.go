package tidy

import (
	"slices"
	"sort"
	"strings"

	"example.com/loomfolio/sizing/describe"
)

// tables gives for each section the place of its keys in the format's tables.
var tables = func() map[string]map[string]int {
	out := map[string]map[string]int{}
	for _, k := range describe.Keys() {
		if out[k.Section] == nil {
			out[k.Section] = map[string]int{}
		}
		out[k.Section][k.Name] = len(out[k.Section])
	}
	return out
}()

// section is where in the format a value stands.
type section struct {
	path  string
	named bool // the keys are names that the person chose
	inner bool // it is an item of a list of that path
	depth int
}

// named are the sections whose keys are names.
var named = strings.Fields("places screens cables parts circuits states templates variants practice.cable-types practice.wire-types")

// spread are sections that take a line an entry, however short they are.
var spread = strings.Fields("places runs screens cables parts circuits circuits.legs states accept templates variants practice practice.cable-types practice.wire-types")

// at finds the section of a path: a template has sections of its own, as the file has.
func at(path string, depth int) section {
	s := section{path: path, depth: depth}
	if _, known := tables[path]; !known && !slices.Contains(spread, path) {
		if _, last, nested := cutLast(path); nested && slices.Contains(named, last) {
			s.path = last
		}
	}
	s.named = slices.Contains(named, s.path)
	return s
}

func cutLast(path string) (before, last string, ok bool) {
	i := strings.LastIndex(path, ".")
	if i < 0 {
		return "", path, false
	}
	return path[:i], path[i+1:], true
}

// below gives the section of a key's value.
func (s section) below(key string) section {
	switch {
	case s.named:
		return section{path: s.path, depth: s.depth + 1}
	case s.path == "":
		return at(key, s.depth+1)
	}
	return at(s.path+"."+key, s.depth+1)
}

// item gives the section of a list's item.
func (s section) item() section { return section{path: s.path, depth: s.depth + 1, inner: true} }

// inLines tells whether a box of the section takes a line an entry at least.
func (s section) inLines(b *box) bool {
	switch {
	case s.depth == 0:
		return true
	case slices.Contains(spread, s.path) && (s.depth == strings.Count(s.path, ".")+1 || s.named):
		return true
	case s.path == "circuits":
		return b.entries[0].key != nil
	case s.path == "circuits.legs":
		return !s.inner
	case b.holdsSections():
		return true
	}
	return s.depth == 1 && b.deep() && !s.tabled()
}

// holdsSections tells whether a key of a box is one of those that take a line an entry,
// as in a template.
func (b *box) holdsSections() bool {
	return slices.ContainsFunc(b.entries, func(e *entry) bool {
		return e.key != nil && e.in != nil && slices.Contains([]string{"parts", "circuits", "places", "runs"}, e.key.Value)
	})
}

func (s section) tabled() bool { return tables[s.path] != nil }

// deep tells whether an entry of a box is a box.
func (b *box) deep() bool {
	return slices.ContainsFunc(b.entries, func(e *entry) bool { return e.in != nil })
}

// order puts the keys of each section in the order of its table; names, and keys that
// it does not know, keep theirs.
func order(b *box, s section) {
	if table := tables[s.path]; table != nil && !s.named && b.entries[0].key != nil {
		rank := func(e *entry) int {
			if n, ok := table[e.key.Value]; ok {
				return n
			}
			return len(table)
		}
		header := b.header(s, rank)
		sort.SliceStable(b.entries, func(i, j int) bool { return rank(b.entries[i]) < rank(b.entries[j]) })
		b.entries[0].before = append(header, b.entries[0].before...)
	}
	for _, e := range b.entries {
		if e.in != nil {
			order(e.in, s.under(e))
		}
	}
}

// under gives the section of an entry's value.
func (s section) under(e *entry) section {
	if e.key == nil {
		return s.item()
	}
	return s.below(e.key.Value)
}

// header takes off the comment at the head of the file, which stays there whatever
// comes first. It ends at its last empty line.
func (b *box) header(s section, rank func(*entry) int) []string {
	first := b.entries[0]
	if s.depth > 0 || rank(first) == 0 {
		return nil
	}
	lines := first.before
	if first.gap {
		lines = append(lines, "")
	}
	end := 0
	for i, line := range lines {
		if line == "" && i > 0 {
			end = i + 1
		}
	}
	if end > 0 {
		first.before, first.gap = slices.Clone(lines[end:]), false
	}
	return slices.Clone(lines[:end])
}
