package fit

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// misfit is a wire's end that is too thick for all terminals of its tab or housing.
type misfit struct {
	wire  *harness.Wire
	at    string // the terminal's full name
	span  source.Span
	joint joint.Joint
	area  unit.SquareMillimetre
}

// cause names what makes a wire so thick: itself where its gauge is given, else the fuse
// that guards it, else its circuit.
func (f *fitter) cause(m *misfit) string {
	by := f.c.Wires[m.wire.ID].ProtectedBy
	switch {
	case m.wire.GaugeSpan.Known():
		return "wire " + m.wire.Name
	case by != "":
		return "fuse " + by
	}
	return fmt.Sprint("circuit ", m.wire.Circuit)
}

// misfits reports them, one finding a cause with its places. What the description says of a
// terminal is an error, what the program takes for granted of it a warning.
func (f *fitter) misfits() {
	type key struct {
		cause string
		given bool
	}
	of := map[key][]*misfit{}
	var order []key
	for i := range f.unfit {
		m := &f.unfit[i]
		k := key{f.cause(m), m.joint.Given}
		if of[k] == nil {
			order = append(order, k)
		}
		of[k] = append(of[k], m)
	}
	for _, k := range order {
		f.doesNotFit(of[k])
	}
}

func (f *fitter) doesNotFit(ends []*misfit) {
	first, level := ends[0], source.Warning
	if first.joint.Given {
		level = source.Error
	}
	var also, subjects []string
	for i, m := range ends {
		if i > 0 {
			also = append(also, m.wire.Name+" at "+m.at)
		}
		subjects = append(subjects, m.wire.Name, m.at)
	}
	most := first.joint.Most()
	f.problems = append(f.problems, source.Problem{
		Slug: "terminal-does-not-fit", Level: level, Span: first.span,
		Summary: fmt.Sprintf("%s is %s at %s, where a %s takes %s at most%s", first.wire.Name, f.c.Wires[first.wire.ID].Gauge, first.at,
			fittingText(first.joint, f.h.Sheet.Imperial), f.areaText(most), asWell(also)),
		Detail:   "say what the part takes (stud: M5, or a wider tab:), run a short thinner wire from a stud, or lower the load",
		Subjects: subjects,
		Numbers:  []source.Number{{Name: "area_mm2", Value: float64(first.area)}, {Name: "most_mm2", Value: float64(most)}},
	})
}

// asWell names up to four more places of one cause, and counts the rest.
func asWell(places []string) string {
	const most = 4
	switch n := len(places); {
	case n == 0:
		return ""
	case n > most:
		return fmt.Sprintf("; too thick too: %s and %d more ends", strings.Join(places[:most], ", "), n-most)
	}
	return "; too thick too: " + strings.Join(places, ", ")
}
