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
		w := word{s: p.Ref, link: a.partLink(p)}
		if i < len(parts)-1 {
			w.s += ","
		}
		out = append(out, w)
	}
	return out
}

func (a drawer) partLink(p *harness.Part) string {
	for _, kind := range []string{"splice/", "ground/", "connector/", "part/"} {
		if to := a.Link(kind + p.Ref); to != "" {
			return to
		}
	}
	return ""
}

// cover is what goes over a run, with its bore: "braid, bore 26 mm".
func (a drawer) cover(r harness.RunID) string {
	f := a.R.Runs[r]
	if f.CoverName == "" {
		return "no cover"
	}
	if f.Cover == 0 {
		return f.CoverName
	}
	return f.CoverName + " " + unit.BoreText(f.Cover, a.H.Sheet.Imperial)
}

// runBlocks are the labels of a run, best liked first.
func (a drawer) runBlocks(r harness.RunID, short bool) []block {
	run, f := a.H.Runs[r], a.R.Runs[r]
	head := strong(page.Letter(r) + "  " + a.length(run.Length))
	if short {
		return []block{blockOf(1, head)}
	}
	if len(f.Wires) == 0 {
		return []block{blockOf(1, head, plain("no wires"))}
	}
	count := page.Counted(len(f.Wires), "wire") + ", " + a.across(f.Diameter)
	rows := []row{head, plain(count), plain(a.cover(r))}
	flat := []row{head, plain(count + ", " + a.cover(r))}
	if run.Flexes {
		rows, flat = append(rows, plain("bends in use")), append(flat, plain("bends in use"))
	}
	return liked([]float64{0, 1.5, 40}, blockOf(1, rows...), blockOf(1, flat...), blockOf(1, head))
}

// liked says how much less each block is liked than the best.
func liked(less []float64, blocks ...block) []block {
	for i := range blocks {
		blocks[i].less = less[i]
	}
	return blocks
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
		head = append(head, plain("goes on, see the other sheet"))
	}
	parts, splices := a.parts(node.place)
	if short || node.repeated || len(parts)+len(splices) == 0 {
		return []block{blockOf(1, head...)}
	}
	var out []block
	for n := 1; n <= 9; n++ {
		rows := append(slices.Clone(head), balanced(a.refs(parts), n)...)
		if len(splices) > 0 {
			lead := []word{{s: "splices:"}}
			rows = append(rows, balanced(append(lead, a.refs(splices)...), (n+2)/3)...)
		}
		b := blockOf(1, rows...)
		if b.less = 1.5 * math.Abs(math.Log2(b.w/(2.2*b.h))); len(out) == 0 || b.h != out[len(out)-1].h {
			out = append(out, b)
		}
	}
	slices.SortStableFunc(out, func(x, y block) int { return cmp.Compare(x.less, y.less) })
	return out
}

// spliceBlock names a splice along a run with its distance from the run's start.
func (a drawer) spliceBlock(p *harness.Part) block {
	from := a.H.Places[a.H.Runs[p.Along.Run].From].Name
	head := row{words: []word{{p.Ref, a.partLink(p)}}, style: sheet.Strong(sheet.SizeBody)}
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
