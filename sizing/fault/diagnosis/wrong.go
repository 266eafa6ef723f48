package diagnosis

import (
	"fmt"

	"example.com/loomfolio/sizing/fault/tree"
	"example.com/loomfolio/sizing/proof"
)

// wrong says what is wrong with what was told: what contradicts itself, and what says nothing.
func (e *evidence) wrong() []string {
	var out []string
	for i, s := range e.told.Symptoms {
		out = append(out, e.wrongSymptom(s, e.told.Symptoms[:i])...)
	}
	for i, r := range e.told.Reads {
		out = append(out, e.wrongRead(r, e.told.Reads[:i])...)
	}
	return out
}

func (e *evidence) wrongSymptom(s Symptom, before []Symptom) []string {
	name, state := e.Harness.Elements[s.Load].Name, e.Harness.States[s.State].Name
	var out []string
	if s.Works != Live && !e.On(s.Load, s.State) {
		out = append(out, fmt.Sprintf("%s is off in state %s when all is well: that it does not work there says nothing", name, state))
	}
	for _, b := range before {
		if b.Load == s.Load && b.State == s.State && b.Works != s.Works {
			out = append(out, fmt.Sprintf("%s is told to be both %s and %s in state %s: if it comes and goes, say so", name, b.Works, s.Works, state))
		}
	}
	return out
}

// String is as one says it.
func (w Works) String() string { return [...]string{"dead", "weak", "live"}[w] }

func (e *evidence) wrongRead(r proof.Read, before []proof.Read) []string {
	name := e.point(r.Point)
	if r.Against != proof.None {
		name += " against " + e.point(r.Against)
	}
	var out []string
	if most := e.most[r.State]; float64(r.Volts) > 1.25*most || float64(r.Volts) < -1.25*most {
		out = append(out, fmt.Sprintf("%.4g V at %s is more than any source gives in state %s (%.1f V): measure it again", float64(r.Volts), name, e.Harness.States[r.State].Name, most))
	}
	if e.swapped(r) {
		out = append(out, fmt.Sprintf("%.4g V at %s is what it reads in a sound vehicle with red and black swapped", float64(r.Volts), name))
	}
	for _, b := range before {
		if b.Point == r.Point && b.Against == r.Against && b.State == r.State && off(b, r) {
			out = append(out, fmt.Sprintf("%s is told to read both %.4g V and %.4g V: if it comes and goes, say so", name, float64(b.Volts), float64(r.Volts)))
		}
	}
	return out
}

// swapped tells whether a reading is that of the sound vehicle with the other sign.
func (e *evidence) swapped(r proof.Read) bool {
	v := at(r, e.Book.Sound(r.State))
	return max(v, -v) > 1 && near(-float64(r.Volts), v, v) > Shows
}

// off tells whether two readings differ by more than a meter leaves open.
func off(a, b proof.Read) bool {
	x, y := float64(a.Volts), float64(b.Volts)
	return max(x-y, y-x) > tree.Apart(x, y)
}

func (e *evidence) point(p int) string {
	return e.Harness.Terminals[e.Points[p].At].Full
}
