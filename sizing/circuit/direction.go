package circuit

import "math"

const (
	stale       = 0.1 // part by which a slope in the factor may differ from the present one
	mostUpdates = 16  // more changes than this and the matrix is factorised afresh
)

// direction solves the linear network of the slopes for the step.
func (w *work) direction() error {
	w.group()
	w.loosen()
	if err := w.refresh(); err != nil {
		return err
	}
	for n, row := range w.row {
		if row >= 0 {
			w.step[row] = -w.spare[n]
		}
	}
	w.factor.solve(w.step)
	w.steady()
	return nil
}

// steady takes the pinned node's step from all nodes of a floating island, so
// that the pinned node stays exactly where it is.
func (w *work) steady() {
	home := w.groups[w.network.Reference]
	for n, root := range w.groups {
		if root != home && int(root) != n {
			w.step[w.row[n]] -= w.step[w.row[root]]
		}
	}
	for n, root := range w.groups {
		if root != home && int(root) == n {
			w.step[w.row[n]] = 0
		}
	}
}

// refresh brings the factor to the present slopes: a few changes by updates,
// many, or what the updates cannot do, by factorising afresh. Slopes that
// differ little stay as they are in the factor: it only says where to go, and
// the balance says when one is there.
func (w *work) refresh() error {
	if !w.factor.ready || w.exact || !w.update() {
		return w.afresh()
	}
	return nil
}

// changed lists the elements whose slope is not as in the factor, nil where
// there are too many.
func (w *work) changed() (list []int, few bool) {
	for i, slope := range w.slope {
		held := w.factor.held[i]
		if slope == held || math.Abs(slope-held) <= stale*max(slope, held) {
			continue
		}
		if list = append(list, i); len(list) > mostUpdates {
			return nil, false
		}
	}
	return list, true
}

// update brings the factor to the present slopes step by step: what is added
// first, so that the matrix stays positive definite all the way.
func (w *work) update() bool {
	list, few := w.changed()
	if !few {
		return false
	}
	grow, shed, few := w.pinning()
	if !few {
		return false
	}
	for _, row := range grow {
		if w.factor.pins[row] = true; !w.factor.update(row, -1, 1) {
			return false
		}
	}
	for _, up := range []bool{true, false} {
		for _, i := range list {
			if by := w.slope[i] - w.factor.held[i]; (by > 0) == up && !w.shift(i, by) {
				return false
			}
		}
	}
	for _, row := range shed {
		if w.factor.pins[row] = false; !w.factor.update(row, -1, -1) {
			return false
		}
	}
	return true
}

func (w *work) shift(i int, by float64) bool {
	b := &w.branches[i]
	w.factor.held[i] += by
	return b.a == b.b || w.factor.update(w.row[b.a], w.row[b.b], by)
}

// pinning lists the rows that must be pinned and those that must not be any more.
func (w *work) pinning() (grow, shed []int, few bool) {
	home := w.home()
	for n, row := range w.row {
		if row < 0 {
			continue
		}
		switch pin := int(w.groups[n]) == n && n != home; {
		case pin && !w.factor.pins[row]:
			grow = append(grow, row)
		case !pin && w.factor.pins[row]:
			shed = append(shed, row)
		}
	}
	return grow, shed, len(grow)+len(shed) <= mostUpdates
}

// afresh factorises the matrix of the present slopes. One node of each island
// that the reference does not hold is pinned: nothing flows through the pin,
// since what is left over in an island sums to nothing.
func (w *work) afresh() error {
	f := w.factor
	clear(f.diagonal)
	clear(f.above)
	for i, g := range w.slope {
		f.held[i] = g
		b := &w.branches[i]
		if g == 0 || b.a == b.b {
			continue
		}
		if row := w.row[b.a]; row >= 0 {
			f.diagonal[row] += g
		}
		if row := w.row[b.b]; row >= 0 {
			f.diagonal[row] += g
		}
		if slot := w.slot[i]; slot >= 0 {
			f.above[slot] -= g
		}
	}
	home := w.home()
	for n, row := range w.row {
		if row < 0 {
			continue
		}
		f.pins[row] = int(w.groups[n]) == n && n != home
		if f.pins[row] {
			f.diagonal[row]++
		}
	}
	return f.factorise()
}

// loosen gives elements of constant current a slope for this step's direction
// alone, where such currents push at an island that nothing holds, until none
// is pushed. The balance never sees it.
func (w *work) loosen() {
	steady := w.away()
	for more := len(steady) > 0; more; {
		pushed := w.pushed(steady)
		more = false
		for _, i := range steady {
			e := &w.elements[i]
			if w.slope[i] == 0 && (pushed[w.groups.root(e.A)] || pushed[w.groups.root(e.B)]) {
				w.slope[i] = math.Abs(w.amps[i]) / math.Max(1, math.Abs(w.volts[e.A]-w.volts[e.B]))
				more = true
			}
		}
		for _, i := range steady {
			if w.slope[i] > 0 {
				w.groups.join(w.elements[i].A, w.elements[i].B)
				w.grouped = false
			}
		}
	}
	if !w.grouped {
		w.groups.flatten()
	}
}

// away lists the elements of constant current, where one of them ends on an
// island that the reference does not hold.
func (w *work) away() []int {
	var steady []int
	home, any := w.home(), false
	for _, i := range w.bent {
		if w.slope[i] == 0 && w.amps[i] != 0 {
			e := &w.elements[i]
			steady = append(steady, i)
			any = any || int(w.groups[e.A]) != home || int(w.groups[e.B]) != home
		}
	}
	if !any {
		return nil
	}
	return steady
}

// pushed tells which islands, by their root, the constant currents leave out of balance.
func (w *work) pushed(steady []int) map[int]bool {
	push := map[int]float64{}
	total := 0.0
	for _, i := range steady {
		push[w.groups.root(w.elements[i].A)] += w.amps[i]
		push[w.groups.root(w.elements[i].B)] -= w.amps[i]
		total += math.Abs(w.amps[i])
	}
	out := map[int]bool{}
	home := w.home()
	for root, amps := range push {
		out[root] = root != home && math.Abs(amps) > 16*epsilon*total
	}
	return out
}
