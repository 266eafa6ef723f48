package loom

import (
	"cmp"
	"fmt"
	"math"
	"slices"

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
	known map[wording][]block // labels of places that were worded already; nil: none is kept
}

// wording is what the label of a place depends on.
type wording struct {
	node
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
func (a drawer) refs(parts []*harness.Part) []word {
	var out []word
	for i, p := range parts {
		w := word{s: p.Ref, to: partAnchors(p)}
		if i < len(parts)-1 {
			w.s += ","
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
func (a drawer) runBlocks(r harness.RunID) []block {
	letter := word{s: page.Letter(r), to: []string{a.rowAnchor(r)}}
	long := word{s: page.Firm(a.length(a.H.Runs[r].Length))}
	style := sheet.Strong(sheet.SizeBody)
	flat := blockOf(1, row{words: []word{letter, {}, long}, style: style})
	tall := blockOf(1, row{words: []word{letter}, style: style}, row{words: []word{long}, style: style})
	tall.less = 1.5
	return []block{flat, tall}
}

// placeBlocks are the labels of a place with its parts, at several widths.
func (a drawer) placeBlocks(t tree, n int, short bool) []block {
	key := wording{t.nodes[n], short}
	if blocks, ok := a.known[key]; ok {
		return blocks
	}
	blocks := a.wordPlace(key.node, short)
	if a.known != nil {
		a.known[key] = blocks
	}
	return blocks
}

func (a drawer) wordPlace(node node, short bool) []block {
	name := a.H.Places[node.place].Name
	if node.arrives {
		return []block{blockOf(1, plain("joins at"), strong(name))}
	}
	head := []row{strong(name)}
	if node.elsewhere {
		head = append(head, plain("continued on the other part"))
	}
	parts, splices := a.parts(node.place)
	if short || node.repeated || len(parts)+len(splices) == 0 {
		return []block{blockOf(1, head...)}
	}
	var out []block
	for n := 1; n <= 9; n++ {
		rows := append(slices.Clone(head), balanced(a.refs(parts), n)...)
		if len(splices) > 0 {
			words := a.refs(splices)
			words[0].s = page.Firm("splices: " + words[0].s)
			rows = append(rows, balanced(words, (n+2)/3)...)
		}
		b := blockOf(1, rows...)
		wide := 0.0 // under the name, which may be wider
		for _, r := range rows[1:] {
			wide = max(wide, r.width())
		}
		if b.less = 1.5 * math.Abs(math.Log2(wide/(2.2*b.h))); len(out) == 0 || b.h != out[len(out)-1].h {
			out = append(out, b)
		}
	}
	slices.SortStableFunc(out, func(x, y block) int { return cmp.Compare(x.less, y.less) })
	return out
}

// spliceBlock names a splice along a run with its distance from the run's start.
func (a drawer) spliceBlock(p *harness.Part) block {
	from := a.H.Places[a.H.Runs[p.Along.Run].From].Name
	head := row{words: []word{{p.Ref, partAnchors(p)}}, style: sheet.Strong(sheet.SizeBody)}
	return blockOf(1, head, plain(fmt.Sprintf("%s from %s", a.length(p.Along.Distance), from)))
}

// along lists the splices on a run.
func (a drawer) along(r harness.RunID) []*harness.Part {
	var out []*harness.Part
	for _, id := range a.PartsAlong(r) {
		out = append(out, &a.H.Parts[id])
	}
	return out
}
