package board

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/loom/branch"
	"example.com/loomfolio/layout/loom/placing"

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
func (a *board) free(p harness.PlaceID) []free {
	var out []free
	parts, _ := a.Parts(p)
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
func (a *board) nailBlocks(t branch.Tree, n int) []placing.Block {
	node := t.Nodes[n]
	head := placing.Row{Words: []placing.Word{{Said: a.H.Places[node.Place].Name}}, Style: sheet.Strong(sheet.SizeTitle)}
	if node.Arrives {
		return []placing.Block{placing.BlockOf(1, large("joins at the nail of"), head)}
	}
	var out []placing.Block
	for _, wide := range []float64{80, 110, 150} {
		rows := []placing.Row{head}
		for _, f := range a.free(node.Place) {
			lead := placing.Word{Said: a.Length(f.mm) + " past the nail:"}
			rows = append(rows, placing.Wrapped(append([]placing.Word{lead}, bare(a.Refs(f.parts))...), sheet.Plain(sheet.SizeHead), wide)...)
		}
		if _, splices := a.Parts(node.Place); len(splices) > 0 {
			rows = append(rows, placing.Wrapped(append([]placing.Word{{Said: "at the nail:"}}, bare(a.Refs(splices))...), sheet.Plain(sheet.SizeHead), wide)...)
		}
		b := placing.BlockOf(1, rows...)
		b.Less = 2 * float64(len(out))
		out = append(out, b)
	}
	return out
}

// bare takes the links off words: a board has no other sheets to lead to.
func bare(words []placing.Word) []placing.Word {
	for i := range words {
		words[i].To = nil
	}
	return words
}

// legBlocks are the labels of a leg: its run with all figures and the wires in it.
func (a *board) legBlocks(l branch.Leg) []placing.Block {
	run, f := a.H.Runs[l.Run], a.R.Runs[l.Run]
	head := placing.Row{Words: []placing.Word{{Said: fmt.Sprintf("%s  %s", page.Letter(l.Run), a.Length(run.Length))}}, Style: sheet.Strong(sheet.SizeTitle)}
	says := []string{page.Counted(len(f.Wires), "wire")}
	if len(f.Wires) > 0 {
		says = append(says, a.Across(f.Diameter), a.Cover(l.Run))
	}
	if run.Flexes {
		says = append(says, "flexes in use")
	}
	ends := large(a.H.Places[run.From].Name + " – " + a.H.Places[run.To].Name)
	var words []placing.Word
	for _, w := range f.Wires {
		words = append(words, placing.Word{Said: a.H.Wires[w].Name})
	}
	var out []placing.Block
	for _, wide := range []float64{90, 130, 170} {
		rows := append([]placing.Row{head, ends, large(strings.Join(says, ", "))}, placing.Wrapped(words, sheet.Plain(sheet.SizeHead), wide)...)
		b := placing.BlockOf(1, rows...)
		b.Less = 2 * float64(len(out))
		out = append(out, b)
	}
	return out
}

// large is a row that reads at arm's length.
func large(s string) placing.Row {
	return placing.Row{Words: []placing.Word{{Said: s}}, Style: sheet.Plain(sheet.SizeHead)}
}

// gapBlock says how long a stretch with a break actually is, and what of it is left out.
func (a *board) gapBlock(g branch.Gap) placing.Block {
	head := placing.Row{Words: []placing.Word{{Said: a.Length(unit.Millimetre(g.Whole)) + " actual"}}, Style: sheet.Strong(sheet.SizeHead)}
	return placing.BlockOf(1, head, large(a.Length(unit.Millimetre(g.Out))+" left out"))
}

// tagBlock names a leg and its ends in one row.
func (a *board) tagBlock(l branch.Leg) placing.Block {
	run := a.H.Runs[l.Run]
	return placing.BlockOf(1, large(page.Letter(l.Run)+"  "+a.H.Places[run.From].Name+" – "+a.H.Places[run.To].Name))
}
