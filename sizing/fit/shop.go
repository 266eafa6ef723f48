package fit

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// shop fits an end with a terminal of the shop's own, the first that takes the
// wire; false where it has none. Where it has others for the same place, an
// advice says that this wire lies outside them.
func (f *fitter) shop(e *fitted.End, j joint.Joint, wire *chosen.Wire, c rating.Conductor) bool {
	own, others := f.shopFor(j, c.Area, wire.Diameter)
	if own == nil {
		if len(others) > 0 && j.Fitting != joint.SpliceBarrel {
			f.outsideShop(e, wire, others)
		}
		return false
	}
	if j.Fitting == joint.SpliceBarrel {
		return false // all its wires share one barrel: see splice
	}
	e.Part, e.Die, e.Tool, e.Size = own.Part, own.Die, own.Tool, own.Range
	e.Reason = fmt.Sprintf("the shop's own %s takes %s", own.Part, own.Range)
	kind := "lug"
	switch {
	case own.Sleeve != "":
		e.Crimp, kind = own.Sleeve+" insulated", "insulated"
	case j.Fitting == joint.Contact:
		e.Crimp, e.Over, kind = "open barrel", wire.Diameter, "barrel"
	case j.Fitting == joint.Ferrule:
		e.Crimp, kind = "ferrule", "ferrule"
	case j.Fitting == joint.ButtSplice:
		e.Crimp = "uninsulated butt"
	default:
		e.Crimp = "uninsulated lug"
	}
	e.Strip = own.Strip
	if e.Strip == 0 {
		e.Strip, _ = rating.Strip(kind, c.Area)
	}
	if kind == "lug" {
		f.shrinkOver(e, max(barrelOver(c.Area), wire.Diameter), wire.Diameter, e.Strip)
	}
	return true
}

// shopFor finds the shop's terminal for a joint, an area and a wire's outside
// (0: whatever it is), and those that go there but do not take the wire.
func (f *fitter) shopFor(j joint.Joint, area unit.SquareMillimetre, over unit.Millimetre) (own *harness.ShopTerminal, others []*harness.ShopTerminal) {
	for i := range f.h.Practice.Terminals {
		s := &f.h.Practice.Terminals[i]
		switch {
		case !j.Holds(s):
		case float64(area) < float64(s.From)*0.98, float64(area) > float64(s.To)*1.02:
			others = append(others, s)
		case over > 0 && (over < s.Thinnest || s.Thickest > 0 && over > s.Thickest):
			others = append(others, s)
		default:
			return s, others
		}
	}
	return nil, others
}

// outsideShop says once for each fitting and wire that the shop's own do not take it.
func (f *fitter) outsideShop(e *fitted.End, wire *chosen.Wire, others []*harness.ShopTerminal) {
	what := e.Fitting + " for " + wire.Gauge.String()
	if f.outside[what] {
		return
	}
	f.outside[what] = true
	var have []string
	for _, s := range others {
		text := s.Part + " " + s.Range
		if s.Thinnest > 0 || s.Thickest > 0 {
			text += fmt.Sprintf(" with insulation of %s to %s", f.wide(s.Thinnest), f.wide(s.Thickest))
		}
		have = append(have, strings.ReplaceAll(text, "mm2", "mm²"))
	}
	name := f.h.Wires[e.Wire].Name
	f.problems = append(f.problems, source.Problem{
		Slug: "no-shop-terminal", Level: source.Advice, Span: others[0].Span,
		Summary: fmt.Sprintf("the shop's own terminals have no %s with insulation of %s (%s at %s)", what, f.wide(wire.Diameter), name, f.h.Terminals[e.Terminal].Full),
		Detail:  "it is taken from the tables; the shop has " + strings.Join(have, ", "), Subjects: []string{name, f.h.Terminals[e.Terminal].Full},
	})
}

func (f *fitter) wide(mm unit.Millimetre) string { return unit.AcrossText(mm, f.h.Sheet.Imperial) }
