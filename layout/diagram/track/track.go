// Package track orders the upright pieces of wire in a channel between two columns: from
// left to right, so that no two wires lie on one another and few cross, and each on a track
// of its own where their heights overlap (channel routing by tracks with order constraints;
// an old method of printed-circuit layout). Millimetres, y down.
package track

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/sheet"
)

// Run is one vertical piece of wire in a channel. Left and right are the heights
// at which level pieces reach it from either edge of the channel.
type Run struct {
	Seg         int // the number that the caller gave the wire
	Left, Right []float64
	Lo, Hi      float64
	Track       int
	Second      bool // the later half of a wire that is led by a detour
	Half        bool // the earlier half
}

// New is the vertical piece of the wire with that number, between the heights at which level
// pieces reach it.
func New(seg int, left, right []float64) Run {
	all := append(slices.Clone(left), right...)
	return Run{Seg: seg, Left: left, Right: right, Lo: slices.Min(all), Hi: slices.Max(all)}
}

// Precedes tells whether a has to lie to the left of c: a level piece that
// reaches a from the left would otherwise lie on one that reaches c from the right.
func Precedes(a, c Run, near float64) bool {
	if a.Seg == c.Seg {
		return a.Half && c.Second
	}
	for _, l := range a.Left {
		for _, r := range c.Right {
			if math.Abs(l-r) < near {
				return true
			}
		}
	}
	return false
}

// Untie breaks rings of such demands by leading one wire in two steps, over a
// level piece at a free height of the grid, mm.
func Untie(runs []Run, level []float64, grid, near float64) []Run {
	for range len(runs) + 1 {
		ring := leftOver(runs, near)
		at := slices.IndexFunc(ring, func(i int) bool {
			r := runs[i]
			return len(r.Left) == 1 && len(r.Right) == 1 && !r.Half && !r.Second
		})
		if at < 0 {
			return runs
		}
		r := runs[ring[at]]
		mid := freeLevel(level, (r.Left[0]+r.Right[0])/2, grid, near)
		level = append(level, mid)
		first, second := New(r.Seg, r.Left, []float64{mid}), New(r.Seg, []float64{mid}, r.Right)
		first.Half, second.Second = true, true
		runs[ring[at]] = first
		runs = append(runs, second)
	}
	return runs
}

// freeLevel is the height nearest to want that keeps off all the given ones.
func freeLevel(level []float64, want, grid, near float64) float64 {
	want = math.Round(want/grid) * grid
	for d := 0; d < 400; d++ {
		for _, y := range []float64{want + float64(d)*grid/2, want - float64(d)*grid/2} {
			free := !slices.ContainsFunc(level, func(l float64) bool { return math.Abs(l-y) < near })
			if free && y > 0 {
				return y
			}
		}
	}
	return want
}

// leftOver gives the runs that no order satisfies: those left when runs without
// an unmet demand are taken away one after another.
func leftOver(runs []Run, near float64) []int {
	var rest []int
	for i := range runs {
		rest = append(rest, i)
	}
	for {
		at := slices.IndexFunc(rest, func(i int) bool {
			return !slices.ContainsFunc(rest, func(j int) bool { return i != j && Precedes(runs[j], runs[i], near) })
		})
		if at < 0 {
			return rest
		}
		rest = slices.Delete(rest, at, at+1)
	}
}

// Crossed is how many crossings a pair makes with a to the left of c.
func Crossed(a, c Run) int {
	n := 0
	for _, y := range a.Right {
		if y > c.Lo && y < c.Hi {
			n++
		}
	}
	for _, y := range c.Left {
		if y > a.Lo && y < a.Hi {
			n++
		}
	}
	return n
}

// Arrange orders the runs from left to right: demands first, then few crossings.
func Arrange(runs []Run, near float64) []Run {
	var out []Run
	rest := slices.Clone(runs)
	for len(rest) > 0 {
		at := slices.IndexFunc(rest, func(r Run) bool {
			return !slices.ContainsFunc(rest, func(o Run) bool { return o.distinct(r) && Precedes(o, r, near) })
		})
		at = max(at, 0)
		out = append(out, rest[at])
		rest = slices.Delete(rest, at, at+1)
	}
	for range 4 * len(out) {
		if !bubble(out, near) {
			return out
		}
	}
	return out
}

func (r Run) distinct(o Run) bool { return r.Seg != o.Seg || r.Second != o.Second }

// bubble moves one run to where it crosses less; it tells whether it found one.
func bubble(runs []Run, near float64) bool {
	for i := range runs {
		gain, best, to := 0, 0, i
		for j := i + 1; j < len(runs) && !Precedes(runs[i], runs[j], near); j++ {
			gain += Crossed(runs[i], runs[j]) - Crossed(runs[j], runs[i])
			if gain > best {
				best, to = gain, j
			}
		}
		gain = 0
		for j := i - 1; j >= 0 && !Precedes(runs[j], runs[i], near); j-- {
			gain += Crossed(runs[j], runs[i]) - Crossed(runs[i], runs[j])
			if gain > best {
				best, to = gain, j
			}
		}
		if best > 0 {
			copy(runs, slices.Insert(slices.Delete(slices.Clone(runs), i, i+1), to, runs[i]))
			return true
		}
	}
	return false
}

// Pack gives each run the leftmost track that its order allows and returns how
// many tracks there are.
func Pack(runs []Run, near float64) int {
	tracks := 0
	for i := range runs {
		t := 0
		for _, o := range runs[:i] {
			if Precedes(o, runs[i], near) || (o.Lo < runs[i].Hi+near && runs[i].Lo < o.Hi+near) {
				t = max(t, o.Track+1)
			}
		}
		runs[i].Track = t
		tracks = max(tracks, t+1)
	}
	return tracks
}

// Tidy drops repeated points and those in the middle of a straight piece.
func Tidy(path []sheet.Point) []sheet.Point {
	var out []sheet.Point
	for _, p := range path {
		if n := len(out); n > 0 && Same(out[n-1], p) {
			continue
		}
		if n := len(out); n > 1 && inLine(out[n-2], out[n-1], p) {
			out[n-1] = p
			continue
		}
		out = append(out, p)
	}
	return out
}

// Same tells whether two points are one.
func Same(a, b sheet.Point) bool { return math.Abs(a.X-b.X) < 1e-6 && math.Abs(a.Y-b.Y) < 1e-6 }

func inLine(a, b, c sheet.Point) bool {
	level := math.Abs(a.Y-b.Y) < 1e-6 && math.Abs(b.Y-c.Y) < 1e-6 && (b.X-a.X)*(c.X-b.X) >= 0
	plumb := math.Abs(a.X-b.X) < 1e-6 && math.Abs(b.X-c.X) < 1e-6 && (b.Y-a.Y)*(c.Y-b.Y) >= 0
	return level || plumb
}
