package layout

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
)

// stackGap is what lies between two groups on one sheet, with a rule in its middle, mm.
const stackGap = 7

// leastBegun is how much room is left at least for a group of several sheets to begin on that of the one
// before, mm; mostBegun is of how many sheets such a group is at most, and mostTried of how many one
// is tried for the sake of what follows too, where it saves no sheet by itself.
const (
	leastBegun = 45
	mostBegun  = 4
	mostTried  = 3
)

// stack is a group of sheets as it is laid out alone, and how it is with its first sheet begun further down.
type stack struct {
	pages []frame.Page
	again func(above float64) []frame.Page // nil where it always begins a sheet
}

// filled is how the groups so far may be put on sheets.
type filled struct {
	pages  []frame.Page
	starts []int  // the number of the sheet on which each group begins
	under  []bool // whether each begins under the one before
	begun  int    // how many of several sheets do
}

// last is the number of the last sheet of a group, which the next may share.
func (w filled) last(i int) int {
	switch {
	case i+1 == len(w.starts):
		return len(w.pages)
	case w.under[i+1]:
		return w.starts[i+1]
	}
	return w.starts[i+1] - 1
}

// stacked puts groups one after the other on as few sheets as it finds. One that is a single sheet, and
// whose content finds room under that of the sheet before, may go there; one of several may begin there.
// What was found before is followed as far as it goes: which group begins under the one before it; none
// does where that is empty, and all is looked for where it is nil.
func stacked(groups []stack, found []bool) filled {
	ways := []filled{{}}
	for i, g := range groups {
		var next []filled
		for _, w := range ways {
			if found != nil {
				next = append(next, w.follow(g, i < len(found) && found[i]))
				continue
			}
			next = append(next, w.alone(g))
			if more, ok := w.below(g); ok {
				next = append(next, more)
			}
		}
		ways = fewest(next)
	}
	return slices.MinFunc(ways, func(a, b filled) int {
		return cmp.Or(cmp.Compare(len(a.pages), len(b.pages)), cmp.Compare(a.begun, b.begun))
	})
}

// follow puts a group as it was put before, on sheets of its own where that no longer goes.
func (w filled) follow(g stack, under bool) filled {
	if under {
		if more, ok := w.below(g); ok {
			return more
		}
	}
	return w.alone(g)
}

// alone puts a group on sheets of its own.
func (w filled) alone(g stack) filled {
	n := len(w.pages)
	return filled{append(slices.Clone(w.pages), g.pages...), append(slices.Clone(w.starts), n+1), append(slices.Clone(w.under), false), w.begun}
}

// below begins a group on the last sheet so far, where that goes.
func (w filled) below(g stack) (filled, bool) {
	n := len(w.pages)
	if n == 0 {
		return w, false
	}
	last := w.pages[n-1]
	out := filled{slices.Clone(w.pages[:n-1]), append(slices.Clone(w.starts), n), append(slices.Clone(w.under), true), w.begun}
	switch {
	case len(g.pages) == 1 && room(last, g.pages[0]):
		out.pages = append(out.pages, under(last, g.pages[0]))
		return out, true
	case g.mayBegin(last):
		pages := g.again(above(last))
		if pages[0].Bottom > last.Bottom && pages[0].Bottom <= last.Frame.Body.Bottom()+1 {
			out.pages = append(append(out.pages, joined(last, pages[0], pages[0].Marks, pages[0].Bottom)), pages[1:]...)
			out.begun++
			return out, true
		}
	}
	return w, false
}

// fewest keeps of some ways those that may become the best: of the fewest sheets and of one more, the way
// that leaves most room and the one that begins fewest groups under others. The first of equals stays.
func fewest(ways []filled) []filled {
	least := len(slices.MinFunc(ways, func(a, b filled) int { return cmp.Compare(len(a.pages), len(b.pages)) }).pages)
	var out []filled
	for count := least; count <= least+1; count++ {
		var of []filled
		for _, w := range ways {
			if len(w.pages) == count {
				of = append(of, w)
			}
		}
		if len(of) == 0 {
			continue
		}
		roomy := slices.MinFunc(of, func(a, b filled) int { return cmp.Or(cmp.Compare(a.end(), b.end()), cmp.Compare(a.begun, b.begun)) })
		plain := slices.MinFunc(of, func(a, b filled) int { return cmp.Or(cmp.Compare(a.begun, b.begun), cmp.Compare(a.end(), b.end())) })
		out = append(out, roomy)
		if plain.begun < roomy.begun {
			out = append(out, plain)
		}
	}
	return out
}

// end is how far down the last sheet is filled; one that nothing may follow on is full.
func (w filled) end() float64 {
	last := w.pages[len(w.pages)-1]
	if last.Bottom == 0 || last.Frame.Lying() {
		return math.Inf(1)
	}
	return last.Bottom
}

// above is how far down its body a page is filled, with the space under it.
func above(p frame.Page) float64 { return p.Bottom + stackGap - p.Frame.Body.Y }

// mayBegin tells whether a group can begin on a page, under what stands there.
func (g stack) mayBegin(p frame.Page) bool {
	if g.again == nil || len(g.pages) > mostBegun || p.Bottom == 0 || p.Frame.Lying() || p.Frame.First {
		return false
	}
	first, last := g.pages[0], g.pages[len(g.pages)-1]
	if first.Bottom == 0 || first.Frame.Lying() || first.Frame.W != p.Frame.W || p.Frame.Body.H-above(p) < leastBegun {
		return false
	}
	return len(g.pages) <= mostTried || above(p)+last.Bottom-last.Frame.Body.Y <= p.Frame.Body.H
}

// room tells whether a page's content fits under that of another.
func room(p, q frame.Page) bool {
	if p.Bottom == 0 || q.Bottom == 0 || p.Frame.Lying() != q.Frame.Lying() || p.Frame.W != q.Frame.W {
		return false
	}
	return p.Bottom+stackGap+q.Bottom-q.Frame.Body.Y <= p.Frame.Body.Bottom()
}

// under sets a page's content under that of another.
func under(p, q frame.Page) frame.Page {
	dy := p.Bottom + stackGap - q.Frame.Body.Y
	return joined(p, q, sheet.Move(q.Marks, p.Frame.Body.X-q.Frame.Body.X, dy), q.Bottom+dy)
}

// joined is a page with the marks of another under its own, a rule between them.
func joined(p, q frame.Page, marks []sheet.Mark, bottom float64) frame.Page {
	var c sheet.Canvas
	c.Add(p.Marks...)
	body := p.Frame.Body
	c.Line(body.X, p.Bottom+stackGap/2-1, body.Right(), p.Bottom+stackGap/2-1, sheet.Solid(sheet.Medium))
	c.Add(marks...)
	p.Marks, p.Bottom = c.Marks, bottom
	p.Also = append(slices.Clip(p.Also), heading(q))
	p.Title += " · " + q.Title
	p.Groups = append(slices.Clip(p.Groups), q.Groups...)
	p.Tabs = append(slices.Clip(p.Tabs), q.Tabs...)
	return p
}
