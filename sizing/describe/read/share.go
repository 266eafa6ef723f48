package read

import (
	"fmt"
	"io/fs"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
)

// Given is what is read: a file, and where those lie that it includes.
type Given struct {
	Name    string // of the file, as messages show it
	Text    []byte
	Files   fs.FS              // its folder (package folder says what it holds), nil where there is none
	Joins   map[string]Joining // of the keys at the left edge: how several files' sections are joined
	Variant string             // which of the variants is meant; "" for none, All for everything that they add
}

// Words that stand in the place of a variant's name.
const (
	All  = "all"  // everything that any variant adds
	None = "none" // the description as it stands
)

// shared is what the readers of all files of one description have in common.
type shared struct {
	origins map[*yaml.Node]origin
	joins   map[string]Joining
	files   fs.FS
	loaded  map[string]*loaded // by path from the folder on
	order   []*loaded          // those that are joined, in the order of inclusion
	count   int                // files that were read
	bytes   int                // in all of them
	copies  int                // nodes that are read in more than one place
	full    bool               // more than are allowed
	sizes   map[[2]int]int     // uses made of two, one in the other
}

// origin is where a node is written: in a file other than the description, or as another node.
type origin struct {
	file int
	from *yaml.Node // as it is written, nil for the node itself
	use  int        // of source.File.Uses
}

// OpenAll checks the bytes of a file and of those that it includes, and joins them to one
// mapping, with all templates and repeated entries written out.
func OpenAll(g Given) (r *Reader, top Entry, ok bool) {
	r = &Reader{file: source.NewFile(g.Name, g.Text), left: map[string]bool{}}
	r.shared = &shared{origins: map[*yaml.Node]origin{}, joins: g.Joins, files: g.Files, loaded: map[string]*loaded{}, sizes: map[[2]int]int{}}
	root := r.decoded(g.Text)
	if root == nil {
		return r, Entry{}, false
	}
	root = r.expanded(r.whole(root, g.Variant))
	return r, Entry{value: root}, !r.shared.full
}

// own notes of all nodes of an included file that they are written there.
func (r *Reader) own(n *yaml.Node) {
	if r.number == 0 {
		return
	}
	r.shared.origins[n] = origin{file: r.number}
	for _, c := range n.Content {
		r.own(c)
	}
}

// fileOf gives the number of the file in which a node is written.
func (r *Reader) fileOf(n *yaml.Node) int {
	if o, ok := r.shared.origins[n]; ok {
		return o.file
	}
	return r.number
}

// use adds a use and gives its number.
func (r *Reader) use(u source.Use) int {
	r.file.Uses = append(r.file.Uses, u)
	return len(r.file.Uses)
}

// within gives the use of what is read by one use and then by another.
func (r *Reader) within(inner, outer int) int {
	if inner == 0 || outer == 0 {
		return max(inner, outer)
	}
	if n := r.shared.sizes[[2]int{inner, outer}]; n > 0 {
		return n
	}
	for o := outer; o > 0; o = r.file.Uses[o-1].Span.Use {
		if o == inner {
			return outer // which stands in the inner one: an entry with each: of a template
		}
	}
	u := r.file.Uses[inner-1]
	u.Span.Use = r.within(u.Span.Use, outer)
	n := r.use(u)
	r.shared.sizes[[2]int{inner, outer}] = n
	return n
}

// mostCopies bounds what templates, each: and aliases may make, in values and keys.
const mostCopies = 200_000

// spent counts one more of them, a long text as several, and tells whether there are too many.
func (r *Reader) spent(n *yaml.Node) bool {
	const oneText = 32 // bytes; judgement
	if r.shared.copies += 1 + len(n.Value)/oneText; r.shared.copies > mostCopies && !r.shared.full {
		r.shared.full = true
		r.Say(r.span(n), "too-much", fmt.Sprintf("written out, this makes more than %d values", mostCopies),
			"Write less in one place for reuse: something that is used many times holds something that is used many times.")
	}
	return r.shared.full
}

// copied gives a node as it is read in a use, without what it holds.
func (r *Reader) copied(n *yaml.Node, use int) *yaml.Node {
	from, inner := n, 0
	if o := r.shared.origins[n]; o.from != nil {
		from, inner = o.from, o.use
	}
	out := *n
	out.Content, out.Anchor, out.Alias = nil, "", nil
	r.shared.origins[&out] = origin{file: r.fileOf(from), from: from, use: r.within(inner, use)}
	return &out
}

// unread stands for a value of which all is said.
func unread() *yaml.Node { return &yaml.Node{Kind: yaml.AliasNode, Line: 1, Column: 1} }
