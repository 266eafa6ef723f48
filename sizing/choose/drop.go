package choose

import "math"

// ladder is the steps that one group of wires may stand on: its sizes, thinnest
// first, with ohm per metre and the mass of copper of the whole group in grams.
type ladder struct {
	ohms  []float64
	grams []float64
	floor int // no lower step is allowed
}

// term is a group's part in a drop: amperes times metres.
type term struct {
	group int
	load  float64
}

// demand is one load in one state: its drop may not pass the limit.
type demand struct {
	fixed float64 // V, in wires whose gauge is given
	terms []term
	limit float64 // V
}

func (d *demand) drop(ls []ladder, at []int) float64 {
	v := d.fixed
	for _, t := range d.terms {
		v += t.load * ls[t.group].ohms[at[t.group]]
	}
	return v
}

// met allows for rounding: a drop of exactly the limit is within it.
func (d *demand) met(drop float64) bool { return drop <= d.limit*(1+1e-9)+1e-12 }

// least chooses a step for every group so that all demands are met with little
// copper. From the floors up, it takes the step that lowers the excess most per
// gram; then it steps down whatever can be, dearest first; then it tries each
// single step up that lets others come down. Demands that no step can meet are
// met as far as steps go. Same input, same choice: ties go to the first group.
func least(ls []ladder, demands []demand) []int {
	o := newOptimum(ls, demands)
	o.climb()
	o.trim()
	o.exchange()
	return o.at
}

type optimum struct {
	ls      []ladder
	demands []demand
	at      []int
	drops   []float64
	uses    [][]use // by group
}

// use is where a group stands in a demand.
type use struct {
	demand int
	load   float64
}

func newOptimum(ls []ladder, demands []demand) *optimum {
	o := &optimum{ls: ls, demands: demands, at: make([]int, len(ls)), drops: make([]float64, len(demands)), uses: make([][]use, len(ls))}
	for g := range ls {
		o.at[g] = ls[g].floor
	}
	for i := range demands {
		o.drops[i] = demands[i].drop(ls, o.at)
		for _, t := range demands[i].terms {
			o.uses[t.group] = append(o.uses[t.group], use{i, t.load})
		}
	}
	return o
}

// move puts a group on a step and brings the drops up to date.
func (o *optimum) move(g, to int) {
	change := o.ls[g].ohms[to] - o.ls[g].ohms[o.at[g]]
	for _, u := range o.uses[g] {
		o.drops[u.demand] += u.load * change
	}
	o.at[g] = to
}

// gain is the excess that one step up takes away, per gram.
func (o *optimum) gain(g int) float64 {
	to := o.at[g] + 1
	if to >= len(o.ls[g].ohms) {
		return 0
	}
	change := o.ls[g].ohms[o.at[g]] - o.ls[g].ohms[to]
	less := 0.0
	for _, u := range o.uses[g] {
		if excess := o.drops[u.demand] - o.demands[u.demand].limit; !o.demands[u.demand].met(o.drops[u.demand]) {
			less += math.Min(excess, u.load*change)
		}
	}
	return less / math.Max(o.ls[g].grams[to]-o.ls[g].grams[o.at[g]], 1e-9)
}

func (o *optimum) climb() {
	for {
		best, most := -1, 0.0
		for g := range o.ls {
			if v := o.gain(g); v > most*(1+1e-12) {
				best, most = g, v
			}
		}
		if best < 0 {
			return
		}
		o.move(best, o.at[best]+1)
	}
}

// canFall tells whether a step down breaks no demand that is met now, and makes
// none that is not met worse.
func (o *optimum) canFall(g int) bool {
	if o.at[g] <= o.ls[g].floor {
		return false
	}
	change := o.ls[g].ohms[o.at[g]-1] - o.ls[g].ohms[o.at[g]]
	for _, u := range o.uses[g] {
		if u.load > 0 && !o.demands[u.demand].met(o.drops[u.demand]+u.load*change) {
			return false
		}
	}
	return true
}

// trim steps groups down while any can, the one that saves most copper first.
func (o *optimum) trim() {
	for {
		best, most := -1, 0.0
		for g := range o.ls {
			if !o.canFall(g) {
				continue
			}
			if saved := o.ls[g].grams[o.at[g]] - o.ls[g].grams[o.at[g]-1]; saved > most*(1+1e-12) {
				best, most = g, saved
			}
		}
		if best < 0 {
			return
		}
		o.move(best, o.at[best]-1)
	}
}

func (o *optimum) mass() float64 {
	sum := 0.0
	for g, i := range o.at {
		sum += o.ls[g].grams[i]
	}
	return sum
}

// Most rounds of exchange, and most groups for which it is tried: beyond, the
// gain is small against the time.
const (
	exchangeRounds = 20
	exchangeGroups = 150
)

// exchange tries every single step up, trims, and keeps the best while copper
// goes down.
func (o *optimum) exchange() {
	if len(o.ls) > exchangeGroups {
		return
	}
	for range exchangeRounds {
		best, lightest := -1, o.mass()*(1-1e-9)
		for g := range o.ls {
			if m, ok := o.tried(g); ok && m < lightest {
				best, lightest = g, m
			}
		}
		if best < 0 {
			return
		}
		o.move(best, o.at[best]+1)
		o.trimBut(best)
	}
}

// tried gives the copper after a step up of one group and a trim of the others.
func (o *optimum) tried(g int) (float64, bool) {
	if o.at[g]+1 >= len(o.ls[g].ohms) || len(o.uses[g]) == 0 {
		return 0, false
	}
	at, drops := append([]int(nil), o.at...), append([]float64(nil), o.drops...)
	o.move(g, o.at[g]+1)
	o.trimBut(g)
	mass := o.mass()
	o.at, o.drops = at, drops
	return mass, true
}

// trimBut trims with one group held at its step.
func (o *optimum) trimBut(g int) {
	floor := o.ls[g].floor
	o.ls[g].floor = o.at[g]
	o.trim()
	o.ls[g].floor = floor
}
