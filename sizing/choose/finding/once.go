package finding

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// onceAWire leaves one finding of a given gauge that breaks several rules, the gravest and
// among those the first, with the size that each rule needs.
func (f *inspection) onceAWire() {
	for i := range f.H.Wires {
		w := harness.WireID(i)
		if !f.Given(w) {
			continue
		}
		var mine []int
		for k := range f.out {
			if f.ofGauge(&f.out[k], w) {
				mine = append(mine, k)
			}
		}
		if len(mine) < 2 {
			continue
		}
		kept := slices.MinFunc(mine, func(a, b int) int { return int(f.out[a].Level) - int(f.out[b].Level) })
		if f.out[kept].Slug != tooThinSlug {
			continue
		}
		f.out[kept].Detail = "the wire needs " + needs(&f.c.Wires[w]) + "; " + f.thicker(w)
		for _, k := range mine {
			f.out[kept].Subjects = joined(f.out[kept].Subjects, f.out[k].Subjects)
		}
		f.drop(mine, kept)
	}
}

const tooThinSlug = "gauge-given-too-thin"

// ofGauge tells a finding that a thicker wire would cure.
func (f *inspection) ofGauge(p *source.Problem, w harness.WireID) bool {
	return (p.Slug == tooThinSlug || p.Slug == "short-too-slow") && p.Level != source.Advice && len(p.Subjects) > 0 && p.Subjects[0] == f.wireName(w)
}

// drop takes findings out, all but one.
func (f *inspection) drop(out []int, but int) {
	kept := f.out[:0:0]
	for k := range f.out {
		if k == but || !slices.Contains(out, k) {
			kept = append(kept, f.out[k])
		}
	}
	f.out = kept
}

// needs names the size for each rule that asks for one.
func needs(c *chosen.Wire) string {
	var parts []string
	for _, rule := range []struct{ size, name string }{
		{c.Wants.Heat.String(), "the heat"}, {c.Wants.Protection.String(), "its fuse"}, {c.Wants.Drop.String(), "the drop"},
	} {
		if strings.TrimSpace(rule.size) != "" {
			parts = append(parts, fmt.Sprintf("%s for %s", rule.size, rule.name))
		}
	}
	return strings.Join(parts, ", ")
}

// joined adds the words of one list that another does not have.
func joined(list, more []string) []string {
	list = slices.Clone(list)
	for _, s := range more {
		if !slices.Contains(list, s) {
			list = append(list, s)
		}
	}
	return list
}
