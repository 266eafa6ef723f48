package circuit

import (
	"fmt"
	"slices"
)

// How small a part of a pivot may be left after an update; below that too many
// digits are gone, and the matrix is factorised afresh. Steps by a factor with
// fewer digits are a little off, so that one more may be needed.
const (
	carefulPart = 1e-2
	hastyPart   = 1e-9
)

// factor is L and D of a matrix of a given shape, the slopes that it stands
// for, and the room to work it out.
type factor struct {
	*shape
	pivot []float64 // D
	parts []float64 // 1/D
	lower []float64 // L by column
	held  []float64 // by element: the slope it holds, S
	pins  []bool    // by row: held still by one siemens to the reference
	ready bool
	part  float64 // of a pivot that must be left after an update

	diagonal []float64 // in elimination order
	above    []float64 // as shape.aboveRow
	work     []float64 // all zero between uses
}

func (p *Prepared) newFactor() *factor {
	s := p.shape
	return &factor{
		shape: s, part: carefulPart, pivot: make([]float64, s.size), parts: make([]float64, s.size), lower: make([]float64, len(s.lowerRow)),
		held: make([]float64, len(p.network.Elements)), pins: make([]bool, s.size),
		diagonal: make([]float64, s.size), above: make([]float64, len(s.aboveRow)), work: make([]float64, s.size),
	}
}

// set makes it a copy of another of the same shape, without the room to work in.
func (f *factor) set(other *factor) {
	copy(f.pivot, other.pivot)
	copy(f.parts, other.parts)
	copy(f.lower, other.lower)
	copy(f.held, other.held)
	copy(f.pins, other.pins)
	f.ready = other.ready
}

// kept is a copy that can only be read.
func (f *factor) kept() *factor {
	return &factor{
		shape: f.shape, ready: f.ready, pivot: slices.Clone(f.pivot), parts: slices.Clone(f.parts),
		lower: slices.Clone(f.lower), held: slices.Clone(f.held), pins: slices.Clone(f.pins),
	}
}

// factorise writes the matrix as L D L', row by row of L. It fails when the
// matrix is not positive definite.
func (f *factor) factorise() error {
	f.ready = false
	y := f.work
	for k := range f.size {
		for n := f.aboveAt[k]; n < f.aboveAt[k+1]; n++ {
			y[f.aboveRow[n]] = f.above[n]
		}
		d := f.diagonal[k]
		for n := f.rowAt[k]; n < f.rowAt[k+1]; n++ {
			i, spot := f.rowColumn[n], int(f.rowSpot[n])
			yi := y[i]
			y[i] = 0
			f.lower[spot] = 0
			if yi == 0 {
				continue
			}
			for p := f.columnAt[i]; p < spot; p++ {
				y[f.lowerRow[p]] -= f.lower[p] * yi
			}
			l := yi * f.parts[i]
			d -= l * yi
			f.lower[spot] = l
		}
		if !(d > 0) {
			clear(y)
			return fmt.Errorf("circuit: the network has no single answer (pivot %g in row %d)", d, k)
		}
		f.pivot[k], f.parts[k] = d, 1/d
	}
	f.ready = true
	return nil
}

// update adds siemens between two rows, or between one and the reference (-1),
// to the matrix, by changing only the columns on the way from the lower row to
// the root of the elimination tree (Gill, Golub, Murray and Saunders 1974,
// method C1; sparse: Davis and Hager 1999). Where too many digits of a pivot
// would be lost it gives up: the factor is then no longer ready.
func (f *factor) update(a, b int, siemens float64) bool {
	w := f.work
	j := max(a, b)
	for n, row := range [2]int{a, b} {
		if row >= 0 {
			w[row] = float64(1 - 2*n)
			j = min(j, row)
		}
	}
	for j >= 0 {
		from, to := f.columnAt[j], f.columnAt[j+1]
		p := w[j]
		w[j] = 0
		if p != 0 && f.ready {
			d := f.pivot[j]
			now := d + siemens*p*p
			f.ready = now > f.part*d
			gain := siemens * p / now
			siemens *= d / now
			f.pivot[j], f.parts[j] = now, 1/now
			for q := from; q < to; q++ {
				r := f.lowerRow[q]
				w[r] -= p * f.lower[q]
				f.lower[q] += gain * w[r]
			}
		}
		if j = -1; from < to {
			j = int(f.lowerRow[from])
		}
	}
	return f.ready
}

// solve replaces b, in elimination order, by the solution.
func (f *factor) solve(b []float64) {
	from := 0
	for i, to := range f.columnAt[1:] {
		if bi := b[i]; bi != 0 {
			for p, r := range f.lowerRow[from:to] {
				b[r] -= f.lower[from+p] * bi
			}
		}
		from = to
	}
	for i := f.size - 1; i >= 0; i-- {
		x, from := b[i]*f.parts[i], f.columnAt[i]
		for p, r := range f.lowerRow[from:f.columnAt[i+1]] {
			x -= f.lower[from+p] * b[r]
		}
		b[i] = x
	}
}
