package diagram

import (
	"math"

	"example.com/loomfolio/layout/diagram/track"
)

// channel is one channel with its runs in order from left to right.
type channel struct {
	runs         []track.Run
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
	ch.runs = track.Untie(ch.runs, level, b.r.Grid, b.near())
	ch.runs = track.Arrange(ch.runs, b.near())
	ch.tracks = track.Pack(ch.runs, b.near())
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

func (b *board) runOf(i int, s segment, y1, y2 float64) track.Run {
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
	return track.New(i, left, right)
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
