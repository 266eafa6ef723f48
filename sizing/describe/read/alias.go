package read

import (
	"fmt"
	"regexp"
	"strings"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
)

// mostNested bounds how many aliases may stand one in what the other names.
const mostNested = 50

// aliases writes out what a file says once and names again: *name, and << for the keys of
// another mapping.
type aliases struct {
	*Reader
	open map[*yaml.Node]bool // what is being written out
	used map[*yaml.Node]bool
}

// written gives a tree without aliases.
func (r *Reader) written(root *yaml.Node) *yaml.Node {
	if !shares(root) {
		return root
	}
	a := &aliases{Reader: r, open: map[*yaml.Node]bool{}, used: map[*yaml.Node]bool{}}
	out := a.node(root, 0)
	a.unused(root, map[string]*yaml.Node{})
	return out
}

// shares tells of a tree that something in it is named, or named again.
func shares(n *yaml.Node) bool {
	if n.Kind == yaml.AliasNode || n.Anchor != "" || merges(n) {
		return true
	}
	for _, c := range n.Content {
		if shares(c) {
			return true
		}
	}
	return false
}

func merges(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Tag == "!!merge" }

// node gives a node as it is read in a use, 0 for where it stands.
func (a *aliases) node(n *yaml.Node, use int) *yaml.Node {
	if n.Kind == yaml.AliasNode {
		return a.alias(n, use)
	}
	if use != 0 && a.spent(n) {
		return unread()
	}
	if n.Anchor != "" && !a.open[n] {
		a.open[n] = true
		defer delete(a.open, n)
	}
	out := a.copied(n, use)
	if n.Kind == yaml.MappingNode {
		out.Content = a.pairs(n, use)
		return out
	}
	for _, c := range n.Content {
		if out.Content = append(out.Content, a.node(c, use)); a.shared.full {
			break
		}
	}
	return out
}

// alias gives what is named, as it is read here.
func (a *aliases) alias(n *yaml.Node, use int) *yaml.Node {
	at := a.token(n)
	at.Use = use
	a.used[n.Alias] = true
	switch {
	case a.spent(n):
		return unread()
	case len(a.open) >= mostNested:
		a.shared.full = true
		a.Say(at, "too-much", fmt.Sprintf("more than %d values named for reuse stand one in the other", mostNested), "Write some of them out.")
		return unread()
	case a.open[n.Alias]:
		a.Say(at, "yaml-alias", fmt.Sprintf("%q stands within what it names", "*"+n.Value),
			"Write the value out. Where a text begins with * put it in quotes.")
		return unread()
	}
	return a.node(n.Alias, a.use(source.Use{Span: at, Text: fmt.Sprintf("%q names it here", "*"+n.Value)}))
}

// pairs gives the keys and values of a mapping, those that << names behind its own.
func (a *aliases) pairs(n *yaml.Node, use int) []*yaml.Node {
	var out, more []*yaml.Node
	for i := 0; i+1 < len(n.Content) && !a.shared.full; i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		if !merges(key) {
			out = append(out, a.node(key, use), a.node(value, use))
			continue
		}
		more = append(more, a.merged(a.node(value, use))...)
	}
	has := map[string]bool{}
	for i := 0; i+1 < len(out); i += 2 {
		has[out[i].Value] = true
	}
	for i := 0; i+1 < len(more); i += 2 {
		if !has[more[i].Value] {
			has[more[i].Value] = true
			out = append(out, more[i], more[i+1])
		}
	}
	return out
}

// merged gives the keys and values that << takes over: those of one mapping, or of several.
func (a *aliases) merged(n *yaml.Node) []*yaml.Node {
	switch n.Kind {
	case yaml.MappingNode:
		return n.Content
	case yaml.AliasNode:
		return nil
	case yaml.SequenceNode:
		var out []*yaml.Node
		for _, c := range n.Content {
			if c.Kind == yaml.SequenceNode {
				a.notMerged(c)
				continue
			}
			out = append(out, a.merged(c)...)
		}
		return out
	}
	a.notMerged(n)
	return nil
}

func (a *aliases) notMerged(n *yaml.Node) {
	a.Say(a.span(n), "wrong-shape", fmt.Sprintf("\"<<\" takes over the keys of a mapping, and this is %s", shape(n)), "Write the name of a mapping, such as <<: *lamp, or a list of them.")
}

// unused points out names that nothing uses, and refuses one that is given twice.
func (a *aliases) unused(n *yaml.Node, first map[string]*yaml.Node) {
	if n.Anchor != "" {
		if old := first[n.Anchor]; old != nil {
			a.Say(a.token(n), "yaml-alias", fmt.Sprintf("%q is given twice", "&"+n.Anchor), "Give one of the two another name.", source.Note{Span: a.token(old), Text: "it was given here first"})
		} else if first[n.Anchor] = n; !a.used[n] && !missing(n) {
			a.Mention(source.Warning, a.token(n), "name-unused", fmt.Sprintf("%q names this value, and nothing uses it", "&"+n.Anchor),
				"Delete it. Where a text begins with & put it in quotes: as it stands that word is not read.")
		}
	}
	for _, c := range n.Content {
		a.unused(c, first)
	}
}

var unknownMark = regexp.MustCompile(`unknown anchor '([^']*)'`)

// noMark says that nothing above has the name of an alias.
func (r *Reader) noMark(name string) *fault {
	at := source.At(1, 1, 1)
	sign := regexp.MustCompile(`(^|[\s\[{,:-])(\*` + regexp.QuoteMeta(name) + `)($|[\s,\]}:])`)
	for i, line := range r.lines {
		code, _, _ := strings.Cut(line, " #")
		if m := sign.FindStringSubmatchIndex(code); m != nil {
			at = source.At(i+1, source.Width(line[:m[4]])+1, source.Width(name)+1)
			break
		}
	}
	return &fault{at, fmt.Sprintf("%q names a value again, and no value above is named %q", "*"+name, "&"+name),
		"Write &" + name + " before the value that is meant, above this line and in the same file, or write the value out. Where a text begins with * put it in quotes."}
}
