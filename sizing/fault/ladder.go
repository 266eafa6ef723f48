package fault

import (
	"cmp"
	"math"
	"slices"

	"example.com/loomfolio/sizing/fault/way"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/testplan/point"
	"example.com/loomfolio/sizing/unit"
)

// What a cheap meter adds to a reading, where the plan of the tests gives no limits: half
// a percent and two digits of 0.01 V; and what source, loads and contacts may differ by;
// judgement, not published.
const (
	meterPart  = 0.005
	meterFloor = 0.02
	spread     = 0.3
)

// meter is the error of a cheap meter at a reading, V.
func meter(volts float64) float64 { return meterPart*math.Abs(volts) + meterFloor }

// Ladders gives for every load that some state turns on the points from its source to it
// and on to ground, with what a wrong reading means where all above are right.
func (b *Book) Ladders() []proof.Ladder {
	b.laddersOnce.Do(b.makeLadders)
	return b.ladders
}

func (b *Book) makeLadders() {
	at, limits := point.At(b.h, b.r.Proof.Points), b.limits()
	for i := range b.ways.List {
		x := &b.ways.List[i]
		if !x.Load {
			continue
		}
		l := proof.Ladder{Load: x.Draw, State: x.State}
		for _, p := range b.order(x, at) {
			l.Rungs = append(l.Rungs, b.rung(p, x.State, limits))
		}
		b.mean(&l)
		b.ladders = append(b.ladders, l)
	}
}

// order lists the points of a way from the source on, each once.
func (b *Book) order(x *way.Way, at []int) []int {
	var out []int
	for _, s := range append(b.ways.Feed(b.h, x), b.ways.Back(b.h, x)...) {
		for _, t := range []harness.TerminalID{s.From, s.To} {
			if at[t] != proof.None && !slices.Contains(out, at[t]) {
				out = append(out, at[t])
			}
		}
	}
	return out
}

// limits are those of the plan of the tests, by point and state.
func (b *Book) limits() map[[2]int]*proof.Reading {
	out := map[[2]int]*proof.Reading{}
	for i := range b.r.Proof.Readings {
		x := &b.r.Proof.Readings[i]
		out[[2]int{x.Point, x.State}] = x
	}
	return out
}

// rung is a point with what is right there.
func (b *Book) rung(p, state int, limits map[[2]int]*proof.Reading) proof.Rung {
	v := shows(b.Sound(state).At(p))
	if x := limits[[2]int{p, state}]; x != nil && !x.Floats {
		return proof.Rung{Point: p, Volts: x.Volts, Low: x.Low, High: x.High}
	}
	off := meter(v) + spread
	return proof.Rung{Point: p, Volts: unit.Volt(v), Low: unit.Volt(v - off), High: unit.Volt(v + off)}
}

// shows is what a meter shows where nothing defines a voltage: nothing.
func shows(volts float64) float64 {
	if math.IsNaN(volts) {
		return 0
	}
	return volts
}

// mean says of each suspect at which rung it shows first, out of the limits by more than
// the meter's error, and reads what.
func (b *Book) mean(l *proof.Ladder) {
	found := make([][]reads, len(l.Rungs))
	for _, f := range b.Suspects(l.Load, l.State) {
		seen := b.In(l.State, f)
		n := slices.IndexFunc(l.Rungs, func(r proof.Rung) bool {
			v := shows(seen.At(r.Point))
			return v < float64(r.Low)-meter(v) || v > float64(r.High)+meter(v)
		})
		if n < 0 {
			l.Rest = append(l.Rest, f)
			continue
		}
		found[n] = append(found[n], reads{f, shows(seen.At(l.Rungs[n].Point))})
	}
	for n := range l.Rungs {
		l.Rungs[n].Means = bands(found[n])
	}
}

// reads is a fault with what it makes a rung read.
type reads struct {
	fault int
	volts float64
}

// bands parts readings where a meter can tell them apart, the highest first; the faults of
// a band keep their order.
func bands(list []reads) []proof.Meaning {
	byVolts := slices.Clone(list)
	slices.SortStableFunc(byVolts, func(x, y reads) int { return cmp.Compare(y.volts, x.volts) })
	var out []proof.Meaning
	for i := 0; i < len(byVolts); {
		n := i + 1
		for n < len(byVolts) && byVolts[n-1].volts-byVolts[n].volts <= 2*meter(byVolts[n-1].volts) {
			n++
		}
		high, low := byVolts[i].volts, byVolts[n-1].volts
		m := proof.Meaning{Low: unit.Volt(low - meter(low)), High: unit.Volt(high + meter(high))}
		for _, r := range list {
			if r.volts <= high && r.volts >= low {
				m.Faults = append(m.Faults, r.fault)
			}
		}
		out = append(out, m)
		i = n
	}
	return out
}
