package part

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// customary are the terminals of a part that says nothing of them: those of its kind, of
// which some go by other names where stops use these, and those that are there only where
// a stop names them.
func (b *builder) customary(row kind.Row) []string {
	names := strings.Fields(row.Terminals)
	if row.Kind == harness.Dynamo && b.w.Control.Text == builtIn {
		names, b.also = strings.Fields("B+ 61 case"), "51=B+ A=B+ B=B+ D+=61 L=61 WL=61 E~case D-~case 31~case"
	}
	if row.Kind == harness.Stator {
		return b.next.Named
	}
	named := func(name string) bool { return slices.Contains(b.next.Named, name) }
	var out []string
	for _, name := range names {
		stood := false
		for _, a := range b.others() {
			if a.instead && a.of == name && named(a.name) {
				stood = true
				out = append(out, a.name)
			}
		}
		if !stood || named(name) {
			out = append(out, name)
		}
	}
	for _, a := range b.others() {
		if named(a.name) && !slices.Contains(out, a.name) {
			out = append(out, a.name)
		}
	}
	return out
}

// other is one more name of a kind's terminals: of a terminal of its own, of one joined to
// a customary one, or of one in its place.
type other struct {
	name, of string
	instead  bool
}

func (b *builder) others() []other {
	var out []other
	for _, word := range strings.Fields(b.also) {
		if name, of, ok := strings.Cut(word, "="); ok {
			out = append(out, other{name, of, true})
			continue
		}
		name, of, _ := strings.Cut(word, "~")
		if name == "" { // "~1" is a name
			name, of = word, ""
		}
		out = append(out, other{name, of, false})
	}
	return out
}

// standIns notes which terminals stand for each customary one, and joins those that stand
// for the same.
func (b *builder) standIns() {
	if b.also == "" {
		return
	}
	for _, t := range b.made.Terminals {
		role := b.roleOf(t.Name)
		b.roles[role] = append(b.roles[role], t.ID)
	}
	for _, t := range b.made.Terminals {
		if same := b.roles[b.roleOf(t.Name)]; same[0] == t.ID {
			b.joinAll(same)
		}
	}
}

// roleOf gives the customary terminal that a name stands for.
func (b *builder) roleOf(name string) string {
	for _, o := range b.others() {
		if o.name == name && o.of != "" {
			return o.of
		}
	}
	return name
}

// joinAll joins terminals to the first of them.
func (b *builder) joinAll(same []harness.TerminalID) {
	for _, t := range same[1:] {
		b.element(harness.Element{Kind: harness.Join, Name: b.unique(b.between(b.called(same[0]), b.called(t))), A: same[0], B: t})
	}
}

// role gives the terminal that stands for a customary one.
func (b *builder) role(name string) (harness.TerminalID, bool) {
	if same := b.roles[name]; len(same) > 0 {
		return same[0], true
	}
	return b.has(name)
}
