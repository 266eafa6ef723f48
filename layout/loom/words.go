package loom

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/layout/loom/laid"

	"example.com/loomfolio/layout/loom/branch"
	"example.com/loomfolio/layout/loom/placing"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
)

// drawer is the ask with the words of the loom.
type drawer struct {
	laid.Words
	known map[wording][]placing.Block // labels of places that were worded already; nil: none is kept
}

// wording is what the label of a place depends on.
type wording struct {
	branch.Node
	short bool
}

// runBlocks are the labels of a run, best liked first: its letter, which leads to
// its row in the list of runs, and its length.
func (a drawer) runBlocks(r harness.RunID) []placing.Block {
	letter := placing.Word{Said: page.Letter(r), To: []string{a.rowAnchor(r)}}
	long := placing.Word{Said: page.Firm(a.Length(a.H.Runs[r].Length))}
	style := sheet.Strong(sheet.SizeBody)
	flat := placing.BlockOf(1, placing.Row{Words: []placing.Word{letter, {}, long}, Style: style})
	tall := placing.BlockOf(1, placing.Row{Words: []placing.Word{letter}, Style: style}, placing.Row{Words: []placing.Word{long}, Style: style})
	tall.Less = 1.5
	return []placing.Block{flat, tall}
}

// placeBlocks are the labels of a place with its parts, at several widths.
func (a drawer) placeBlocks(t branch.Tree, n int, short bool) []placing.Block {
	key := wording{t.Nodes[n], short}
	if blocks, ok := a.known[key]; ok {
		return blocks
	}
	blocks := a.wordPlace(key.Node, short)
	if a.known != nil {
		a.known[key] = blocks
	}
	return blocks
}

func (a drawer) wordPlace(node branch.Node, short bool) []placing.Block {
	name := a.H.Places[node.Place].Name
	if node.Arrives {
		return []placing.Block{placing.BlockOf(1, placing.Plain("joins at"), placing.Strong(name))}
	}
	head := []placing.Row{placing.Strong(name)}
	if node.Elsewhere {
		head = append(head, placing.Plain("continued on the other part"))
	}
	parts, splices := a.Parts(node.Place)
	if short || node.Repeated || len(parts)+len(splices) == 0 {
		return []placing.Block{placing.BlockOf(1, head...)}
	}
	var out []placing.Block
	for n := 1; n <= 9; n++ {
		rows := append(slices.Clone(head), placing.Balanced(a.Refs(parts), n)...)
		if len(splices) > 0 {
			words := a.Refs(splices)
			words[0].Said = page.Firm("splices: " + words[0].Said)
			rows = append(rows, placing.Balanced(words, (n+2)/3)...)
		}
		b := placing.BlockOf(1, rows...)
		wide := 0.0 // under the name, which may be wider
		for _, r := range rows[1:] {
			wide = max(wide, r.Width())
		}
		if b.Less = 1.5 * math.Abs(math.Log2(wide/(2.2*b.H))); len(out) == 0 || b.H != out[len(out)-1].H {
			out = append(out, b)
		}
	}
	slices.SortStableFunc(out, func(x, y placing.Block) int { return cmp.Compare(x.Less, y.Less) })
	return out
}
