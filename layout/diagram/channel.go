package diagram

import (
	"math"
	"slices"
)

// run is one vertical piece of wire in a channel. Left and right are the heights
// at which level pieces reach it from either edge of the channel.
type run struct {
	seg         int
	left, right []float64
	lo, hi      float64
	track       int
	second      bool // the later half of a wire that is led by a detour
	half        bool // the earlier half
}

func newRun(seg int, left, right []float64) run {
	all := append(slices.Clone(left), right...)
	return run{seg: seg, left: left, right: right, lo: slices.Min(all), hi: slices.Max(all)}
}

// channel is one channel with its runs in order from left to right.
type channel struct {
	runs         []run
	tracks       int
	zoneL, zoneR float64 // level stretches at the edges
	least        float64 // width that flags on straight wires need
	x, width     float64
}

// route gives every segment of a channel its tracks.
func (b *board) route(c int) channel {
	ch := channel{least: b.r.Gap}
	var level []float64
	for i, s := range b.segs {
		if s.channel != c {
			continue
		}
		y1, y2 := b.yOf(s.from), b.yOf(s.to)
		level = append(level, y1, y2)
		if !b.straight(s) {
			ch.runs = append(ch.runs, b.runOf(i, s, y1, y2))
		}
	}
	ch.runs = b.untie(ch.runs, level)
	ch.runs = arrange(ch.runs, b.near())
	ch.tracks = pack(ch.runs, b.near())
	if ch.tracks > 0 {
		ch.zoneL, ch.zoneR = b.r.Stub, b.r.Stub
	}
	for _, s := range b.segs {
		if s.channel == c {
			b.reserve(&ch, s)
		}
	}
	return ch
}

// near is the distance below which two level pieces count as one on the other.
func (b *board) near() float64 { return b.r.Track - 0.1 }

func (b *board) runOf(i int, s segment, y1, y2 float64) run {
	var left, right []float64
	for _, e := range []struct {
		y float64
		l bool
	}{{y1, s.fromL}, {y2, s.toL}} {
		if e.l {
			left = append(left, e.y)
		} else {
			right = append(right, e.y)
		}
	}
	return newRun(i, left, right)
}

// reserve widens the channel for the segment's flag: the stretch at the edge
// where the flag stands, or the whole where the wire runs straight and alone.
func (b *board) reserve(ch *channel, s segment) {
	if s.flag == noFlag {
		return
	}
	need := b.g.Wires[s.wire].Flag + 2*flagAside
	if b.straight(s) && b.quiet(*ch, b.yOf(s.from)) {
		ch.least = math.Max(ch.least, need-b.nook(s.from)-b.nook(s.to))
		return
	}
	end, left := s.flagged()
	if need -= b.nook(end); left {
		ch.zoneL = math.Max(ch.zoneL, need)
	} else {
		ch.zoneR = math.Max(ch.zoneR, need)
	}
}

// flagAside is kept free before and after a flag, mm.
const flagAside = 0.4

// mustPrecede tells whether a has to lie to the left of c: a level piece that
// reaches a from the left would otherwise lie on one that reaches c from the right.
func mustPrecede(a, c run, near float64) bool {
	if a.seg == c.seg {
		return a.half && c.second
	}
	for _, l := range a.left {
		for _, r := range c.right {
			if math.Abs(l-r) < near {
				return true
			}
		}
	}
	return false
}

// untie breaks rings of such demands by leading one wire in two steps, over a
// level piece at a free height.
func (b *board) untie(runs []run, level []float64) []run {
	for range len(runs) + 1 {
		ring := leftOver(runs, b.near())
		at := slices.IndexFunc(ring, func(i int) bool {
			r := runs[i]
			return len(r.left) == 1 && len(r.right) == 1 && !r.half && !r.second
		})
		if at < 0 {
			return runs
		}
		r := runs[ring[at]]
		mid := b.freeLevel(level, (r.left[0]+r.right[0])/2)
		level = append(level, mid)
		first, second := newRun(r.seg, r.left, []float64{mid}), newRun(r.seg, []float64{mid}, r.right)
		first.half, second.second = true, true
		runs[ring[at]] = first
		runs = append(runs, second)
	}
	return runs
}

// freeLevel is the height nearest to want that keeps off all the given ones.
func (b *board) freeLevel(level []float64, want float64) float64 {
	want = math.Round(want/b.r.Grid) * b.r.Grid
	for d := 0; d < 400; d++ {
		for _, y := range []float64{want + float64(d)*b.r.Grid/2, want - float64(d)*b.r.Grid/2} {
			free := !slices.ContainsFunc(level, func(l float64) bool { return math.Abs(l-y) < b.near() })
			if free && y > 0 {
				return y
			}
		}
	}
	return want
}

// leftOver gives the runs that no order satisfies: those left when runs without
// an unmet demand are taken away one after another.
func leftOver(runs []run, near float64) []int {
	var rest []int
	for i := range runs {
		rest = append(rest, i)
	}
	for {
		at := slices.IndexFunc(rest, func(i int) bool {
			return !slices.ContainsFunc(rest, func(j int) bool { return i != j && mustPrecede(runs[j], runs[i], near) })
		})
		if at < 0 {
			return rest
		}
		rest = slices.Delete(rest, at, at+1)
	}
}

// crossed is how many crossings a pair makes with a to the left of c.
func crossed(a, c run) int {
	n := 0
	for _, y := range a.right {
		if y > c.lo && y < c.hi {
			n++
		}
	}
	for _, y := range c.left {
		if y > a.lo && y < a.hi {
			n++
		}
	}
	return n
}

// arrange orders the runs from left to right: demands first, then few crossings.
func arrange(runs []run, near float64) []run {
	var out []run
	rest := slices.Clone(runs)
	for len(rest) > 0 {
		at := slices.IndexFunc(rest, func(r run) bool {
			return !slices.ContainsFunc(rest, func(o run) bool { return o.distinct(r) && mustPrecede(o, r, near) })
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

func (r run) distinct(o run) bool { return r.seg != o.seg || r.second != o.second }

// bubble moves one run to where it crosses less; it tells whether it found one.
func bubble(runs []run, near float64) bool {
	for i := range runs {
		gain, best, to := 0, 0, i
		for j := i + 1; j < len(runs) && !mustPrecede(runs[i], runs[j], near); j++ {
			gain += crossed(runs[i], runs[j]) - crossed(runs[j], runs[i])
			if gain > best {
				best, to = gain, j
			}
		}
		gain = 0
		for j := i - 1; j >= 0 && !mustPrecede(runs[j], runs[i], near); j-- {
			gain += crossed(runs[j], runs[i]) - crossed(runs[i], runs[j])
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

// pack gives each run the leftmost track that its order allows and returns how
// many tracks there are.
func pack(runs []run, near float64) int {
	tracks := 0
	for i := range runs {
		t := 0
		for _, o := range runs[:i] {
			if mustPrecede(o, runs[i], near) || (o.lo < runs[i].hi+near && runs[i].lo < o.hi+near) {
				t = max(t, o.track+1)
			}
		}
		runs[i].track = t
		tracks = max(tracks, t+1)
	}
	return tracks
}
