package loom

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// free is how far the wires of some parts hang out past the nail of their place.
type free struct {
	mm    unit.Millimetre
	parts []*harness.Part
}

// free gathers the parts at a place by how far their wires hang out. Splices lie at
// the nail itself.
func (a drawer) free(p harness.PlaceID) []free {
	var out []free
	parts, _ := a.parts(p)
	for _, part := range parts {
		mm := a.H.Reach(part)
		i := slices.IndexFunc(out, func(f free) bool { return f.mm == mm })
		if i < 0 {
			i = len(out)
			out = append(out, free{mm: mm})
		}
		out[i].parts = append(out[i].parts, part)
	}
	slices.SortStableFunc(out, func(x, y free) int { return int(x.mm - y.mm) })
	return out
}

// nailBlocks are the labels of a nail: the place, and what hangs out there by
// how much, at several widths.
func (a drawer) nailBlocks(t tree, n int) []block {
	node := t.nodes[n]
	head := row{words: []word{{s: a.H.Places[node.place].Name}}, style: sheet.Strong(sheet.SizeTitle)}
	if node.arrives {
		return []block{blockOf(1, large("joins at the nail of"), head)}
	}
	var out []block
	for _, wide := range []float64{80, 110, 150} {
		rows := []row{head}
		for _, f := range a.free(node.place) {
			lead := word{s: a.length(f.mm) + " past the nail:"}
			rows = append(rows, wrapped(append([]word{lead}, bare(a.refs(f.parts))...), sheet.Plain(sheet.SizeHead), wide)...)
		}
		if _, splices := a.parts(node.place); len(splices) > 0 {
			rows = append(rows, wrapped(append([]word{{s: "at the nail:"}}, bare(a.refs(splices))...), sheet.Plain(sheet.SizeHead), wide)...)
		}
		b := blockOf(1, rows...)
		b.less = 2 * float64(len(out))
		out = append(out, b)
	}
	return out
}

// bare takes the links off words: a board has no other sheets to lead to.
func bare(words []word) []word {
	for i := range words {
		words[i].to = nil
	}
	return words
}

// legBlocks are the labels of a leg: its run with all figures and the wires in it.
func (a drawer) legBlocks(l leg) []block {
	run, f := a.H.Runs[l.run], a.R.Runs[l.run]
	head := row{words: []word{{s: fmt.Sprintf("%s  %s", page.Letter(l.run), a.length(run.Length))}}, style: sheet.Strong(sheet.SizeTitle)}
	says := []string{page.Counted(len(f.Wires), "wire")}
	if len(f.Wires) > 0 {
		says = append(says, a.across(f.Diameter), a.cover(l.run))
	}
	if run.Flexes {
		says = append(says, "flexes in use")
	}
	ends := large(a.H.Places[run.From].Name + " – " + a.H.Places[run.To].Name)
	var words []word
	for _, w := range f.Wires {
		words = append(words, word{s: a.H.Wires[w].Name})
	}
	var out []block
	for _, wide := range []float64{90, 130, 170} {
		rows := append([]row{head, ends, large(strings.Join(says, ", "))}, wrapped(words, sheet.Plain(sheet.SizeHead), wide)...)
		b := blockOf(1, rows...)
		b.less = 2 * float64(len(out))
		out = append(out, b)
	}
	return out
}

// large is a row that reads at arm's length.
func large(s string) row {
	return row{words: []word{{s: s}}, style: sheet.Plain(sheet.SizeHead)}
}

// gapBlock says how long a stretch with a break actually is, and what of it is left out.
func (a drawer) gapBlock(g gap) block {
	head := row{words: []word{{s: a.length(unit.Millimetre(g.whole)) + " actual"}}, style: sheet.Strong(sheet.SizeHead)}
	return blockOf(1, head, large(a.length(unit.Millimetre(g.out))+" left out"))
}

// tagBlock names a leg and its ends in one row.
func (a drawer) tagBlock(l leg) block {
	run := a.H.Runs[l.run]
	return blockOf(1, large(page.Letter(l.run)+"  "+a.H.Places[run.From].Name+" – "+a.H.Places[run.To].Name))
}
