package chart

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/layout/diagram/track"
)

// Pitch is the least from the middle of one line of a chart to that of another, mm.
const Pitch = lineApart * step

// near is the distance below which two level lines count as one on the other, mm.
const near = Pitch - 0.1

// tracks is the runs of a channel with what has to lie to the left of what: always, or for
// fewer crossings.
type tracks struct {
	g      *gutter
	before [][]int
	after  [][]int
}

// shorten puts the runs of a channel, which stand in an order with few crossings, in one
// that needs less width: of two that overlap the order is kept only where the other one would
// cross more. Down to a width in mm such orders are given up too, on the longest chain first.
func (g *gutter) shorten(width float64) {
	t := g.demands()
	x, wide := t.schedule()
	for range g.runs {
		if wide <= width {
			break
		}
		if !t.giveUp(x) {
			break
		}
		x, wide = t.schedule()
	}
	g.reorder(x)
}

// reorder puts the runs in the order of their places.
func (g *gutter) reorder(x []float64) {
	order := make([]int, len(g.runs))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(x[a], x[b]) })
	runs := make([]track.Run, len(g.runs))
	for i, k := range order {
		runs[i] = g.runs[k]
	}
	g.runs = runs
}

// squeeze makes channels narrower until all is no wider than w, as long as that is near:
// first each a little, then whole channels, those that give most first.
func (s *scene) squeeze(gutters []gutter, w float64) float64 {
	now := s.across(gutters, 0)
	for range 4 {
		if now <= w || now > 1.2*w {
			return now
		}
		for i := range gutters {
			gutters[i].shorten(gutters[i].narrow(Pitch) * 0.95)
		}
		now = s.across(gutters, 0)
	}
	for range gutters {
		at, gain := 0, 0.0
		var with gutter
		for i, g := range gutters {
			l := g.loose()
			if d := g.narrow(Pitch) - l.narrow(Pitch); d > gain {
				at, gain, with = i, d, l
			}
		}
		if now <= w || gain < Pitch/2 {
			break
		}
		gutters[at] = with
		now = s.across(gutters, 0)
	}
	return now
}

func (g *gutter) demands() tracks {
	n := len(g.runs)
	t := tracks{g: g, before: make([][]int, n), after: make([][]int, n)}
	for i, r := range g.runs {
		for j := i + 1; j < n; j++ {
			if o := g.runs[j]; bars(r, o) && (precedes(r, o) || track.Crossed(o, r) > track.Crossed(r, o)) {
				t.before[j], t.after[i] = append(t.before[j], i), append(t.after[i], j)
			}
		}
	}
	return t
}

// precedes tells whether a run has to precede another whatever it crosses.
func precedes(r, o track.Run) bool { return track.Precedes(r, o, near) }

// overlaps tells whether two runs cannot share a track.
func overlaps(r, o track.Run) bool {
	return r.Lo < o.Hi+near && o.Lo < r.Hi+near
}

// tails is the room that each run needs to its right.
func (t tracks) tails() []float64 {
	tail := make([]float64, len(t.g.runs))
	for i := len(tail) - 1; i >= 0; i-- {
		tail[i] = clearOf(t.g.runs[i], t.g.flags[1])
		for _, j := range t.after[i] {
			tail[i] = math.Max(tail[i], tail[j]+Pitch)
		}
	}
	return tail
}

// schedule gives each run the least free place behind those before it, the one with the
// longest tail first, and the width that this takes.
func (t tracks) schedule() (x []float64, width float64) {
	n := len(t.g.runs)
	tail := t.tails()
	x = make([]float64, n)
	done, waits := make([]bool, n), make([]int, n)
	for i := range waits {
		waits[i] = len(t.before[i])
	}
	for range n {
		next := -1
		for i := range n {
			if !done[i] && waits[i] == 0 && (next < 0 || tail[i] > tail[next]) {
				next = i
			}
		}
		x[next] = t.free(next, x, done)
		done[next] = true
		for _, j := range t.after[next] {
			waits[j]--
		}
	}
	for i, r := range t.g.runs {
		width = math.Max(width, x[i]+clearOf(r, t.g.flags[1]))
	}
	return x, width
}

// free is the least place behind those before a run at which it lies on none that is placed.
func (t tracks) free(i int, x []float64, done []bool) float64 {
	at := clearOf(t.g.runs[i], t.g.flags[0])
	for _, j := range t.before[i] {
		at = math.Max(at, x[j]+Pitch)
	}
	var taken []float64
	for j, o := range t.g.runs {
		if done[j] && overlaps(o, t.g.runs[i]) {
			taken = append(taken, x[j])
		}
	}
	slices.Sort(taken)
	for _, d := range taken {
		if d > at-Pitch+1e-9 && d < at+Pitch-1e-9 {
			at = d + Pitch
		}
	}
	return at
}

// giveUp lets an order go that stands for fewer crossings alone, one on the longest chain;
// false where there is none.
func (t tracks) giveUp(x []float64) bool {
	at, most := -1, 0.0
	for i, r := range t.g.runs {
		if w := x[i] + clearOf(r, t.g.flags[1]); w > most {
			at, most = i, w
		}
	}
	for at >= 0 {
		i := slices.IndexFunc(t.before[at], func(j int) bool { return abuts(x, j, at) && !precedes(t.g.runs[j], t.g.runs[at]) })
		if i >= 0 {
			t.drop(t.before[at][i], at)
			return true
		}
		at = t.behind(x, at)
	}
	return false
}

// loose is the channel with all orders given up that stand for fewer crossings alone.
func (g gutter) loose() gutter {
	t := g.demands()
	for j := range t.before {
		for _, i := range slices.Clone(t.before[j]) {
			if !precedes(g.runs[i], g.runs[j]) {
				t.drop(i, j)
			}
		}
	}
	x, _ := t.schedule()
	g.reorder(x)
	return g
}

func (t tracks) drop(i, j int) {
	t.before[j] = slices.DeleteFunc(t.before[j], func(k int) bool { return k == i })
	t.after[i] = slices.DeleteFunc(t.after[i], func(k int) bool { return k == j })
}

// behind is a run that keeps another from lying further to the left, -1 for none.
func (t tracks) behind(x []float64, at int) int {
	for j, o := range t.g.runs {
		if abuts(x, j, at) && bars(o, t.g.runs[at]) {
			return j
		}
	}
	return -1
}

// abuts tells whether a run lies one track to the left of another.
func abuts(x []float64, j, i int) bool { return math.Abs(x[j]+Pitch-x[i]) < 1e-6 }
