package loom

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/layout/loom/branch"
	"example.com/loomfolio/layout/loom/placing"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

func (a drawer) length(mm unit.Millimetre) string { return unit.LengthText(mm, a.H.Sheet.Imperial) }

// across is a bundle's diameter: "⌀ 14.2 mm".
func (a drawer) across(mm unit.Millimetre) string {
	if a.H.Sheet.Imperial {
		return "⌀ " + unit.FineText(mm)
	}
	return "⌀ " + page.Figure(float64(mm), 1) + " mm"
}

// drawer is the ask with the words of the loom.
type drawer struct {
	page.Ask
	known map[wording][]placing.Block // labels of places that were worded already; nil: none is kept
}

// wording is what the label of a place depends on.
type wording struct {
	branch.Node
	short bool
}

// parts lists the parts at a place, splices apart, in the order of the description.
func (a drawer) parts(p harness.PlaceID) (parts, splices []*harness.Part) {
	for _, id := range a.PartsAt(p) {
		if part := &a.H.Parts[id]; part.Kind == harness.Splice {
			splices = append(splices, part)
		} else {
			parts = append(parts, part)
		}
	}
	return parts, splices
}

// refs are the references of parts as words that lead to them.
func (a drawer) refs(parts []*harness.Part) []placing.Word {
	var out []placing.Word
	for i, p := range parts {
		w := placing.Word{Said: p.Ref, To: partAnchors(p)}
		if i < len(parts)-1 {
			w.Said += ","
		}
		out = append(out, w)
	}
	return out
}

// partAnchors are the places that say more of a part, the best first.
func partAnchors(p *harness.Part) []string {
	var out []string
	for _, kind := range []string{"splice/", "ground/", "connector/", "part/"} {
		out = append(out, kind+p.Ref)
	}
	return out
}

// cover is what goes over a run, with its least inside diameter: "braid 26 mm inside".
func (a drawer) cover(r harness.RunID) string {
	f := a.R.Runs[r]
	if f.CoverName == "" {
		return "no cover"
	}
	if f.Cover == 0 {
		return f.CoverName
	}
	return f.CoverName + " " + unit.BoreText(f.Cover, a.H.Sheet.Imperial) + " inside"
}

// runBlocks are the labels of a run, best liked first: its letter, which leads to
// its row in the list of runs, and its length.
func (a drawer) runBlocks(r harness.RunID) []placing.Block {
	letter := placing.Word{Said: page.Letter(r), To: []string{a.rowAnchor(r)}}
	long := placing.Word{Said: page.Firm(a.length(a.H.Runs[r].Length))}
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
	parts, splices := a.parts(node.Place)
	if short || node.Repeated || len(parts)+len(splices) == 0 {
		return []placing.Block{placing.BlockOf(1, head...)}
	}
	var out []placing.Block
	for n := 1; n <= 9; n++ {
		rows := append(slices.Clone(head), placing.Balanced(a.refs(parts), n)...)
		if len(splices) > 0 {
			words := a.refs(splices)
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

// spliceBlock names a splice along a run with its distance from the run's start.
func (a drawer) spliceBlock(p *harness.Part) placing.Block {
	from := a.H.Places[a.H.Runs[p.Along.Run].From].Name
	head := placing.Row{Words: []placing.Word{{Said: p.Ref, To: partAnchors(p)}}, Style: sheet.Strong(sheet.SizeBody)}
	return placing.BlockOf(1, head, placing.Plain(fmt.Sprintf("%s from %s", a.length(p.Along.Distance), from)))
}

// along lists the splices on a run.
func (a drawer) along(r harness.RunID) []*harness.Part {
	var out []*harness.Part
	for _, id := range a.PartsAlong(r) {
		out = append(out, &a.H.Parts[id])
	}
	return out
}
