package branch

import "math"

// Gap is what is left out of a leg.
type Gap struct {
	At    float64 // where it is in the drawn leg, mm from its start
	Out   float64 // mm that are left out
	Whole float64 // of the actual stretch, from one thing on the leg to the next, mm
}

const (
	foldFrom = 400 // a stretch from this length on is folded, mm
	foldTo   = 200 // what is drawn of it at least, mm
)

// Fold takes the middle out of each long stretch between stops.
func (l *Leg) Fold(stops []float64, tick float64) {
	left := 0.0
	for i, from := range stops[:len(stops)-1] {
		whole := stops[i+1] - from
		if whole < foldFrom {
			continue
		}
		out := math.Floor((whole-foldTo)/tick) * tick
		l.Gaps = append(l.Gaps, Gap{At: from - left + (whole-out)/2, Out: out, Whole: whole})
		left += out
	}
	l.MM -= left
}

// Drawn is where a place on the run lies in the drawn leg, mm from its start.
func (l Leg) Drawn(mm float64) float64 {
	left := 0.0
	for _, g := range l.Gaps {
		if mm > g.At+left {
			left += g.Out
		}
	}
	return mm - left
}
