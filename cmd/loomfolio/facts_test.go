package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// fact is something that a reader looks for, and the group of sheets where he looks.
type fact struct{ group, what string }

// factsOf lists what the archive tells of a harness; what each room of sheets says of every one in
// full is held by its own tests.
func factsOf(h *harness.Harness, r *result.Result) []fact {
	var all []fact
	say := func(group string, words ...string) {
		for _, w := range words {
			all = append(all, fact{group, w})
		}
	}
	for i, w := range h.Wires {
		say("wires", w.Name, h.Terminals[w.From].Full, h.Terminals[w.To].Full)
		say("wires", strings.TrimSuffix(page.Length(r.Ways[i].Length, h.Sheet.Imperial), " in"))
		say("diagrams", w.Name)
		say("index", w.Name)
	}
	for _, p := range h.Parts {
		say("index", p.Ref)
	}
	for _, c := range h.Circuits {
		say("diagrams", c.Name)
	}
	for _, f := range r.Fuses {
		if f.Rating > 0 {
			say("fuse-map", f.Rating.String())
		}
	}
	for _, relay := range r.Relays {
		say("fuse-map", h.Parts[relay.Part].Ref)
	}
	for _, g := range r.Grounds {
		say("grounds", h.Parts[g.Part].Ref, g.Stud, g.Prep)
		for _, w := range g.Rings {
			say("grounds", h.Wires[w].Name)
		}
	}
	for _, s := range r.Splices {
		say("splices", h.Parts[s.Part].Ref)
		for _, w := range s.Wires {
			say("splices", h.Wires[w].Name)
		}
	}
	for _, lot := range r.Lots {
		say("wires", lot.Crimp)
	}
	for _, p := range h.Parts {
		if p.Kind == harness.Connector {
			say("connectors", p.Ref, p.Name)
		}
	}
	for _, p := range h.Places {
		say("loom", p.Name)
	}
	for _, item := range r.Shopping {
		if item.Gauge == (unit.Gauge{}) { // wire stands there by size and colour
			say("shopping", strings.FieldsFunc(item.What, func(r rune) bool { return r == ' ' || r == ',' })...) // what several have in common stands over them
		}
	}
	return all
}

// TestEveryFactHasItsSheet: the archive has each fact where it is looked for.
func TestEveryFactHasItsSheet(t *testing.T) {
	for _, s := range samples.List() {
		h, r := kept(t, s.Name)
		p := planned(t, s.Name, layout.Archive, "")
		said := map[string]string{}
		for _, f := range factsOf(h, r) {
			if said[f.group] == "" {
				var text strings.Builder
				for _, x := range texts(p, f.group) {
					text.WriteString(x.S + " ")
				}
				said[f.group] = squeezedWords(text.String())
				require.NotEmpty(t, said[f.group], "%s has no sheets of %s", s.Name, f.group)
			}
			require.True(t, strings.Contains(said[f.group], squeezedWords(f.what)), "%s: %q on the sheets of %s", s.Name, f.what, f.group)
		}
	}
}

// squeezedWords leaves out what lines break at.
func squeezedWords(s string) string {
	return strings.ToLower(toy.Squeezed(strings.NewReplacer("–", "-", "\u2011", "-").Replace(s)))
}

// TestFactsStandOnce: a wire has one row, one place in the index; a fuse, a ground and a splice one card.
func TestFactsStandOnce(t *testing.T) {
	for _, s := range samples.List() {
		h, r := kept(t, s.Name)
		p := planned(t, s.Name, layout.Archive, "")
		rows, index := bold(p, "wires"), bold(p, "index")
		for _, w := range h.Wires {
			require.Equal(t, 1, rows[w.Name]+rows[w.Name+"*"], "%s: the row of wire %s", s.Name, w.Name)
			require.GreaterOrEqual(t, index[w.Name], 1, "%s: wire %s in the index", s.Name, w.Name)
		}
		grounds, splices := bold(p, "grounds"), bold(p, "splices")
		for _, g := range r.Grounds {
			if len(g.Rings) > 0 {
				require.Equal(t, 1, grounds[h.Parts[g.Part].Ref], "%s: ground %s", s.Name, h.Parts[g.Part].Ref)
			}
		}
		for _, sp := range r.Splices {
			if len(sp.Wires) > 0 {
				require.Equal(t, 1, splices[h.Parts[sp.Part].Ref], "%s: splice %s", s.Name, h.Parts[sp.Part].Ref)
			}
		}
	}
}
