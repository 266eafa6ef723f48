package fit

import (
	"cmp"
	"fmt"
	"math"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/marker"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// jointOf says what a terminal takes.
func (f *fitter) jointOf(t harness.TerminalID) joint.Joint {
	p := f.h.PartOf(t)
	if p != nil && p.Kind == harness.Ground && p.Stud == "" && p.Family == "" && p.Fitting == "" && p.Tab == "" {
		return joint.On(f.h, f.grounded[p.ID].name)
	}
	j := joint.Of(f.h, t, p != nil && f.bodies[p.ID] == "bolt")
	if thick := f.thickestOn(t); p != nil && !j.Given && !j.Takes(thick) && mayHaveStud(p, j) {
		stud := joint.On(f.h, studFor(thick, f.h.Sheet.Imperial))
		if !f.onlyOwn(t) {
			f.studAssumed(p, t, j, stud)
		}
		return stud
	}
	return j
}

// mayHaveStud tells a part whose terminals nobody described and that is made with studs as
// well: not a housing's contact, nor a panel's position.
func mayHaveStud(p *harness.Part, j joint.Joint) bool {
	return p.Panel == nil && p.Kind != harness.Connector && (j.Fitting == joint.Receptacle || j.Fitting == joint.Contact)
}

// studFor gives the stud that a ring for an area is made for; common practice, no source.
func studFor(area unit.SquareMillimetre, imperial bool) string {
	metric, inches := "M10", "3/8"
	switch {
	case area <= 25:
		metric, inches = "M6", "1/4"
	case area <= 70:
		metric, inches = "M8", "5/16"
	}
	if imperial {
		return inches
	}
	return metric
}

// thickestOn gives the area of the thickest wire that ends on a terminal.
func (f *fitter) thickestOn(t harness.TerminalID) unit.SquareMillimetre {
	if f.thick == nil {
		f.thick = map[harness.TerminalID]unit.SquareMillimetre{}
		for i := range f.h.Wires {
			for _, end := range []harness.TerminalID{f.h.Wires[i].From, f.h.Wires[i].To} {
				f.thick[end] = max(f.thick[end], f.c.Wires[i].Area)
			}
		}
	}
	return f.thick[t]
}

// studAssumed says once a part that its wires ask for a stud.
func (f *fitter) studAssumed(p *harness.Part, t harness.TerminalID, usual, stud joint.Joint) {
	if f.assumed[p.ID] {
		return
	}
	if f.assumed == nil {
		f.assumed = map[harness.PartID]bool{}
	}
	f.assumed[p.ID] = true
	f.problems = append(f.problems, source.Problem{
		Slug: "stud-assumed", Level: source.Advice, Span: p.Span, Subjects: []string{p.Ref},
		Summary: fmt.Sprintf("the wire at %s is too thick for the usual %s: a stud %s is assumed", f.h.Terminals[t].Full, fittingText(usual, f.h.Sheet.Imperial), stud.Size),
		Detail:  "look at the part and write what its terminals are: stud: " + stud.Size + ", or a wider tab:",
	})
}

// end fits one end of a wire.
func (f *fitter) end(w *harness.Wire, which string, t harness.TerminalID) fitted.End {
	j := f.jointOf(t)
	wire := &f.c.Wires[w.ID]
	c := conductorOf(wire)
	e := fitted.End{Wire: w.ID, End: which, Terminal: t, Label: marker.Line(f.h, f.c, w.ID, int(which[0]-'a')), Kind: j.Fitting, On: j.Size, Fitting: fittingText(j, f.h.Sheet.Imperial), Sources: []string{"common"}}
	if p := f.h.PartOf(t); p != nil && p.Kind == harness.OpenEnd {
		e.Kind, e.On, e.Fitting, e.Crimp, e.Sources = "", "", "not traced", fitted.AsFound, nil
		e.Reason = "nobody has traced where it leads: insulate it where it hangs loose"
		return e
	}
	if f.ownEnd(w, t) {
		e.Crimp, e.Reason, e.Sources = fitted.AsFound, "the vehicle's own: it stays as it is", nil
		return e
	}
	f.checkJoint(w, which, t, j, wire)
	f.crimp(&e, j, wire, c)
	e.Boot = f.live(&e)
	if e.ToMake() {
		e.Pull, e.PullList = f.pull(&e, c)
	}
	return e
}

// fittingText names what goes on a terminal as the trade does: "M8 ring", "1/4 in
// ring", "6.3 mm female spade", "0.250 in female spade", "crimp contact, 2-way family".
func fittingText(j joint.Joint, imperial bool) string {
	name := map[string]string{joint.Receptacle: "female spade", joint.Contact: "crimp contact"}[j.Fitting]
	name = cmp.Or(name, j.Fitting)
	switch {
	case j.Size == "":
		return name
	case j.Fitting == joint.Contact:
		return name + ", " + j.Size
	case j.Fitting == joint.Receptacle:
		return tabText(j.Size, imperial) + " " + name
	}
	return rating.StudText(j.Size) + " " + name
}

// tabText names a tab's width: "6.3 mm", or "0.250 in" where the trade has one for it.
func tabText(tab string, imperial bool) string {
	if inch := rating.TabInch(tab); imperial && inch != "" {
		return inch + " in"
	}
	return tab + " mm"
}

// crimp chooses how the fitting is crimped, and strip and shrink with it.
func (f *fitter) crimp(e *fitted.End, j joint.Joint, wire *chosen.Wire, c rating.Conductor) {
	switch {
	case !j.Takes(wire.Area):
		e.Crimp, e.Size = fitted.NoneFits, wire.Gauge.String()
		e.Reason = "no " + e.Fitting + " takes " + e.Size + ": settle the part's terminal first"
		return
	case f.shop(e, j, wire, c):
		f.hole(e, j)
		return
	case j.Fitting == joint.Contact:
		e.Crimp, e.Size, e.Over = "open barrel", wire.Gauge.String(), wire.Diameter
		e.Reason = fmt.Sprintf("the contact of its housing, with the wire range that holds %s and an insulation grip for %s", wire.Gauge, unit.AcrossText(wire.Diameter, f.h.Sheet.Imperial))
		e.Strip, _ = rating.Strip("barrel", c.Area)
		return
	case j.Fitting == joint.Ferrule:
		e.Crimp, e.Size = "ferrule", wire.Gauge.String()
		e.Reason = "strands under a screw need a ferrule; its force is that of a wire in a screw terminal"
		e.Strip, _ = rating.Strip("ferrule", c.Area)
		return
	case j.Fitting == joint.SpliceBarrel:
		e.Crimp = fitted.Barrel
		e.Reason = "all wires of the splice in one barrel"
		e.Strip = barrelStrip(c.Area)
		return
	}
	f.sleeved(e, j, wire, c)
	f.hole(e, j)
}

// sleeved takes the insulated crimp of the colour that the part gives, else of
// the colour for the wire; where there is none, a bare one.
func (f *fitter) sleeved(e *fitted.End, j joint.Joint, wire *chosen.Wire, c rating.Conductor) {
	if p := f.h.PartOf(e.Terminal); p != nil && p.Sleeve != "" {
		f.givenSleeve(e, p, c)
		return
	}
	sleeve, ok := rating.SleeveOf(c)
	switch {
	case f.openBarrel(e, j, wire, c):
	case ok:
		e.Crimp, e.Size = sleeve.Colour+" insulated", sleeve.Range
		e.Doubt = sleeveDoubt(sleeve, c)
		e.Reason = cmp.Or(e.Doubt, sleeve.Colour+" takes "+sleeve.Range)
		e.Strip, _ = rating.Strip("insulated", c.Area)
		e.Sources = append(e.Sources, sleeve.Source)
	case c.Area < 0.5:
		red, _ := rating.SleeveRange("red", c.Gauge.System)
		e.Crimp, e.Size = "red insulated", red.Range
		e.Reason = wire.Gauge.String() + " is thinner than red: strip twice the length and fold the strands back"
		strip, _ := rating.Strip("insulated", c.Area)
		e.Strip, e.Folded = 2*strip, true
		e.Sources = append(e.Sources, "sleeve-colours")
	default:
		f.bare(e, j, wire, c)
	}
}

// givenSleeve obeys the colour that a part's description names, and reports a
// wire for which that colour is not made.
func (f *fitter) givenSleeve(e *fitted.End, p *harness.Part, c rating.Conductor) {
	takes, _ := rating.SleeveRange(p.Sleeve, c.Gauge.System)
	e.Sources = append(e.Sources, takes.Source)
	if rating.SleeveFits(p.Sleeve, c) {
		e.Crimp, e.Size = p.Sleeve+" insulated", takes.Range
		e.Reason = p.Sleeve + " is given for " + p.Ref + ", and takes " + takes.Range
		e.Strip, _ = rating.Strip("insulated", c.Area)
		return
	}
	e.Crimp, e.Size = fitted.NoneFits, c.Gauge.String()
	e.Reason = p.Sleeve + " is given for " + p.Ref + ", and does not take " + c.Gauge.String()
	instead := "an uninsulated one with heat-shrink over it"
	if s, ok := rating.SleeveOf(c); ok {
		instead = s.Colour + " (" + s.Range + ")"
	}
	name := f.h.Wires[e.Wire].Name
	f.problems = append(f.problems, source.Problem{
		Slug: "terminal-does-not-fit", Level: source.Error, Span: p.SleeveSpan,
		Summary:  fmt.Sprintf("%s is %s at %s, and a %s sleeve takes %s", name, c.Gauge, f.h.Terminals[e.Terminal].Full, p.Sleeve, takes.Range),
		Detail:   "leave sleeve: out, or write the one that fits: " + instead,
		Subjects: []string{name, f.h.Terminals[e.Terminal].Full},
		Numbers:  []source.Number{{Name: "area_mm2", Value: float64(c.Area)}},
	})
}

// hole says which hole a ring needs.
func (f *fitter) hole(e *fitted.End, j joint.Joint) {
	if s, ok := rating.StudOf(j.Size); ok && j.Fitting == joint.Ring {
		e.Reason += fmt.Sprintf("; hole %s for %s", unit.AcrossText(s.Hole, f.h.Sheet.Imperial), s.Name)
		e.Sources = append(e.Sources, s.Sources[0])
	}
}

// sleeveDoubt says why this colour where two colours claim a size, or none does.
func sleeveDoubt(s rating.Sleeve, c rating.Conductor) string {
	size := c.Gauge.String()
	numbered := c.Gauge.System != unit.Metric
	switch {
	case s.Colour == "blue" && (numbered && c.Gauge.Size == "16" || !numbered && c.Gauge.Size == "1.5"):
		return size + ": both red and blue cover it; blue is used, it fills red to the limit"
	case s.Colour == "yellow" && !numbered && c.Gauge.Size == "3":
		return size + " falls between blue and yellow: yellow is used, as for 12 AWG; prove by pull test"
	}
	return ""
}

// bare fits a wire that no insulated crimp takes: an uninsulated barrel with
// shrink over it.
func (f *fitter) bare(e *fitted.End, j joint.Joint, wire *chosen.Wire, c rating.Conductor) {
	e.Crimp, e.Size = "uninsulated lug", c.Gauge.String()
	if p := f.h.PartOf(e.Terminal); p != nil && j.Fitting == joint.Ring {
		if row, _ := kind.Of(p.Kind); row.Lug && !f.few() { // the trade sells one lug for both
			e.Crimp = "battery lug"
		}
	}
	if j.Fitting == joint.ButtSplice {
		e.Crimp = "uninsulated butt"
	}
	e.Reason = "no insulated crimp takes " + c.Gauge.String() + ": an uninsulated one is used, with heat-shrink over it, slid on before the joint is made"
	e.Strip, _ = rating.Strip("lug", c.Area)
	f.shrinkOver(e, max(barrelOver(c.Area), wire.Diameter), wire.Diameter, e.Strip)
}

// barrelOver is the outside of an uninsulated barrel for an area; common practice, no source.
func barrelOver(area unit.SquareMillimetre) unit.Millimetre { return 1.35*copperBore(area) + 1 }

// copperBore is the bore of a barrel for an area, at 75 % fill; common practice, no source.
func copperBore(area unit.SquareMillimetre) unit.Millimetre {
	return unit.Millimetre(math.Sqrt(float64(area) / 0.75 * 4 / math.Pi))
}

func (f *fitter) shrinkOver(e *fitted.End, largest, smallest, covered unit.Millimetre) {
	s, ok := tubeOver(largest, smallest)
	if !ok {
		e.Reason += "; no listed heat-shrink fits: tape it"
		return
	}
	e.Shrink = s.Name(f.h.Sheet.Imperial)
	e.ShrinkLen = shrinkLength(covered, smallest)
	e.Sources = append(e.Sources, s.Source, "shrink-rule")
}

// tubeOver gives a tube that passes and grips; where none does so with room to
// spare, one whose bore just equals a limit.
func tubeOver(largest, smallest unit.Millimetre) (rating.Shrink, bool) {
	if s, ok := rating.ShrinkFor("", largest, smallest); ok {
		return s, true
	}
	const hair = 1e-6
	return rating.ShrinkFor("", largest-hair, smallest+hair)
}

// shrinkLength covers a length and two wire diameters, at least 6 mm, on both
// sides of it (from memory).
func shrinkLength(covered, wire unit.Millimetre) unit.Millimetre {
	return cutLong(covered + 2*max(6, 2*wire))
}

// cutLong is how long a tube is cut that is to cover a length when it has shrunk along
// too, by 15 % at most (sellers give 5 to 15 %), up to the next 5 mm.
func cutLong(shrunk unit.Millimetre) unit.Millimetre {
	return unit.Millimetre(5 * math.Ceil(float64(shrunk)/0.85/5-1e-9))
}

// pull gives the force that the crimp must hold, by the practice's list.
func (f *fitter) pull(e *fitted.End, c rating.Conductor) (float64, string) {
	list := f.h.Practice.Pull
	switch {
	case e.Crimp == "ferrule":
		list = "ul-486e" // it is the screw that holds
	case list == "":
		list = "ul-486a"
	}
	force, key := rating.Pull(list, c)
	if key == "" {
		return 0, ""
	}
	e.Sources = append(e.Sources, key)
	return force, key
}

// checkJoint reports a wire that no terminal for its tab or stud takes.
func (f *fitter) checkJoint(w *harness.Wire, which string, t harness.TerminalID, j joint.Joint, wire *chosen.Wire) {
	full := f.h.Terminals[t].Full
	span := w.Span
	if w.GaugeSpan.Known() {
		span = w.GaugeSpan
	}
	if _, known := rating.StudOf(j.Size); j.Fitting == joint.Ring && !known {
		f.problems = append(f.problems, source.Problem{
			Slug: "terminal-does-not-fit", Level: source.Warning, Span: f.h.PartOf(t).Span,
			Summary:  fmt.Sprintf("no ring is listed for the stud %s of %s", j.Size, full),
			Detail:   "write the stud as M3 to M12, #6, #8, #10, 1/4, 5/16, 3/8 or 1/2",
			Subjects: []string{w.Name, full},
		})
	}
	if j.Takes(wire.Area) {
		return
	}
	f.unfit = append(f.unfit, misfit{wire: w, at: full, span: span, joint: j, area: wire.Area})
}

// live tells a stud that stands under voltage with no fuse before it: no wire on
// it is guarded, and in some state it is at half the nominal voltage or more.
func (f *fitter) live(e *fitted.End) bool {
	if e.Kind != joint.Ring || f.c.Wires[e.Wire].ProtectedBy != "" {
		return false
	}
	for i := range f.c.States {
		volts := f.c.States[i].Volts
		if int(e.Terminal) < len(volts) && math.Abs(volts[e.Terminal]) > float64(f.h.SystemAt(e.Terminal).Volts)/2 {
			return true
		}
	}
	return false
}
