package trouble

import (
	"math"
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// stem is a stretch of points that several ladders have in common, or that one has alone.
type stem struct {
	rungs []rung
	pass  []int // into Ladders: those that lead over it
	ends  []int // those that end with it
	kids  []*stem
	after []int // of one that begins anew: the points that lead to it
}

// rung is a point with its right readings and what it is when less is read there, or more.
type rung struct {
	point      int
	right      []right
	less, more []int // into Faults
}

// right are the readings that are right with the engine off, running or cranking.
type right struct {
	engine    harness.Engine
	low, high unit.Volt
}

// told is a ladder without the points that tell nothing: how many of the others lie before its
// load, and up to the point behind it.
type told struct {
	rungs     []proof.Rung
	fed, load int
	engine    harness.Engine
}

// stems joins the ladders at the points that they begin with. Where several ways lead to a point,
// as from a battery and from an alternator or from several grounds to the battery's, a stem
// begins anew there: one of feeds, or one of what all return through.
func stems(a page.Ask) (own, returns []*stem) {
	ladders := telling(a)
	root, back, meet := &stem{}, &stem{}, meetings(ladders)
	for i, l := range ladders {
		at, ended := root, false
		for k, r := range l.rungs {
			switch shared := k > 0 && len(meet[r.Point]) > 1; {
			case shared && k < l.fed:
				at = root
			case shared && k >= l.load && !ended:
				at.ends, at, ended = append(at.ends, i), back, true
			}
			at = at.kid(r.Point)
			at.pass = append(at.pass, i)
			at.rungs[0].also(l.engine, r)
		}
		if !ended {
			at.ends = append(at.ends, i)
		}
	}
	for _, k := range slices.Concat(root.kids, back.kids) {
		if m := meet[k.rungs[0].point]; len(m) > 1 {
			k.after = m
		}
		k.join()
	}
	return root.kids, back.kids
}

// telling are the ladders without the points that tell nothing: before the load in no ladder, behind it in this one.
func telling(a page.Ask) []told {
	tells := map[int]bool{}
	for _, l := range a.R.Proof.Ladders {
		for _, r := range l.Rungs {
			tells[r.Point] = tells[r.Point] || len(r.Means) > 0
		}
	}
	var out []told
	for _, l := range a.R.Proof.Ladders {
		fed, load := ends(a, l)
		t := told{engine: engineOf(a, l.State)}
		for k, r := range l.Rungs {
			if len(r.Means) == 0 && (k > fed || !tells[r.Point]) {
				continue
			}
			t.rungs = append(t.rungs, r)
			if k <= fed {
				t.fed++
			}
			if k <= load {
				t.load++
			}
		}
		out = append(out, t)
	}
	return out
}

// ends are the rungs of a ladder at which its load is fed, and behind it; where its terminals are
// none of the points, the last that has half the source's volts, and the next.
func ends(a page.Ask, l proof.Ladder) (fed, load int) {
	e := &a.H.Elements[l.Load]
	if fed = rungAt(a, l, a.H.Live(e)); fed < 0 {
		for k, r := range l.Rungs {
			if math.Abs(float64(r.Volts)) > math.Abs(float64(l.Rungs[0].Volts))/2 {
				fed = k
			}
		}
	}
	return fed, max(fed+1, rungAt(a, l, a.H.Earthed(e)))
}

// rungAt is the rung of a ladder at a terminal, -1 for none.
func rungAt(a page.Ask, l proof.Ladder, t harness.TerminalID) int {
	return slices.IndexFunc(l.Rungs, func(r proof.Rung) bool { return a.R.Proof.Points[r.Point].At == t })
}

// meetings are by point those that lead to it, proof.None where a ladder begins with it.
func meetings(ladders []told) map[int][]int {
	out := map[int][]int{}
	for _, l := range ladders {
		before := proof.None
		for _, r := range l.rungs {
			if !slices.Contains(out[r.Point], before) {
				out[r.Point] = append(out[r.Point], before)
			}
			before = r.Point
		}
	}
	return out
}

// kid is the one that begins with a point.
func (s *stem) kid(point int) *stem {
	for _, k := range s.kids {
		if k.rungs[0].point == point {
			return k
		}
	}
	k := &stem{rungs: []rung{{point: point}}}
	s.kids = append(s.kids, k)
	return k
}

// join makes one stem of points that follow one another in all ladders that pass.
func (s *stem) join() {
	for len(s.kids) == 1 && len(s.ends) == 0 && len(s.kids[0].pass) == len(s.pass) {
		k := s.kids[0]
		s.rungs, s.ends, s.kids = append(s.rungs, k.rungs...), k.ends, k.kids
	}
	for _, k := range s.kids {
		k.join()
	}
}

// all are the ladders that end on a stem or on what hangs on it, in their order.
func (s *stem) all() []int {
	out := slices.Clone(s.ends)
	for _, k := range s.kids {
		out = append(out, k.all()...)
	}
	slices.Sort(out)
	return out
}

// engineOf is what the engine does in a state.
func engineOf(a page.Ask, state int) harness.Engine {
	if state < 0 || state >= len(a.H.States) {
		return harness.EngineOff
	}
	return a.H.States[state].Engine
}

// also takes what another ladder says of the same point.
func (r *rung) also(engine harness.Engine, other proof.Rung) {
	i := slices.IndexFunc(r.right, func(x right) bool { return x.engine == engine })
	if i < 0 {
		r.right = append(r.right, right{engine, other.Low, other.High})
		slices.SortFunc(r.right, func(x, y right) int { return order(x.engine) - order(y.engine) })
	} else {
		r.right[i].low, r.right[i].high = min(r.right[i].low, other.Low), max(r.right[i].high, other.High)
	}
	for _, m := range other.Means {
		if between := math.Abs(float64(m.Low+m.High)) / 2; between > math.Max(math.Abs(float64(other.Low)), math.Abs(float64(other.High))) {
			r.more = append(r.more, m.Faults...)
		} else {
			r.less = append(r.less, m.Faults...)
		}
	}
}

// order is that in which readings stand by what the engine does.
func order(e harness.Engine) int {
	return slices.Index([]harness.Engine{harness.EngineOff, harness.EngineRunning, harness.EngineCranking}, e)
}

// nothing is a reading below which there is nothing, V.
const nothing = 1.0

// grounded tells that nothing is right at a point.
func (r *rung) grounded() bool {
	return math.Abs(float64(r.right[0].low)) < nothing && math.Abs(float64(r.right[0].high)) < 2*nothing
}
