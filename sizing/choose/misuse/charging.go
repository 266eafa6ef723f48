package misuse

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// openCircuit is the voltage, for one volt of the system, from which a regulator's figure is
// its setting on open circuit: two-coil boxes are set to 15.8 to 16.4 V, three-coil ones to
// 14.9 to 15.7 V, and hold less with a battery on them (a 1950s British light car handbook;
// the latter from memory).
const openCircuit = 14.9 / 12

// fewPanels is up to how many panels side by side cannot blow a fuse in the lead of one:
// all others together give it less than twice its own current; common practice, no source.
const fewPanels = 2

// charging reports what makes or carries charge and is wired otherwise than it is meant.
func (f *inspection) charging() {
	for i := range f.H.Parts {
		p := &f.H.Parts[i]
		switch p.Kind {
		case harness.ControlBox:
			f.controlBox(p)
		case harness.Inverter:
			f.inverterFeed(p)
		case harness.Shunt:
			f.shunt(p)
		case harness.SplitCharge:
			f.neverCloses(p)
		}
	}
	swapped := slices.ContainsFunc(f.out, func(x source.Problem) bool { return x.Slug == "control-box-swapped" })
	for i := range f.H.Parts {
		if p := &f.H.Parts[i]; p.Kind == harness.Dynamo {
			f.dynamo(p, swapped)
		}
	}
	f.panelFuses()
}

// named gives the terminal of a part that has one of some names; false for none.
func (f *inspection) named(p *harness.Part, names ...string) (harness.TerminalID, bool) {
	for _, t := range p.Terminals {
		if slices.Contains(names, f.H.Terminals[t].Name) {
			return t, true
		}
	}
	return 0, false
}

// liveAt tells a terminal that metal joins to the live side of a battery.
func (f *inspection) liveAt(t harness.TerminalID) bool {
	return slices.ContainsFunc(f.ElementsOf(harness.EMF), func(b harness.ElementID) bool { return f.Net.Bonded(t, f.liveOf(b)) })
}

// dynamo reports one that reaches a battery past every cut-out, unless a box is said to be
// wired wrong, and a voltage that is a
// setting on open circuit.
func (f *inspection) dynamo(p *harness.Part, swapped bool) {
	if d, ok := f.named(p, "D", "D+"); ok && !swapped && f.liveAt(d) && !f.boxed(d) {
		f.add(source.Problem{
			Slug: "no-cut-out", Level: source.Error, Span: p.Span, Subjects: []string{p.Ref},
			Summary: fmt.Sprintf("nothing parts %s from the battery while it stands still: the battery runs back through its armature", p.Ref),
			Detail:  "lead D and F to a control-box and the battery to its A (B, 51); of a dynamo that has its box on it say control: built-in",
		})
	}
	if v := p.Charge.Regulated; v >= unit.Volt(openCircuit*float64(f.H.SystemAt(p.Terminals[0]).Volts)) {
		f.add(source.Problem{
			Slug: "open-circuit-setting", Level: source.Warning, Span: p.Span, Subjects: []string{p.Ref},
			Summary: fmt.Sprintf("%s is what a control box is set to with the battery off, not what %s charges with", v, p.Ref),
			Detail:  "write it as setting: of the control box, and leave regulated: out, or write what a meter shows across the battery while it charges",
			Numbers: []source.Number{number("regulated_v", float64(v))},
		})
	}
}

// boxed tells a terminal that metal joins to D of a control box.
func (f *inspection) boxed(d harness.TerminalID) bool {
	return slices.ContainsFunc(f.H.Parts, func(p harness.Part) bool {
		t, ok := f.named(&p, "D", "D+", "61", "WL")
		return ok && p.Kind == harness.ControlBox && f.Net.Bonded(d, t)
	})
}

// controlBox reports one whose battery and dynamo, or whose dynamo and field, have changed places.
func (f *inspection) controlBox(p *harness.Part) {
	a, okA := f.named(p, "A", "B", "B+", "51")
	d, okD := f.named(p, "D", "D+")
	field, okF := f.named(p, "F", "DF")
	if !okA || !okD || !okF {
		return
	}
	wrong := ""
	switch {
	case f.liveAt(d):
		wrong = fmt.Sprintf("the battery is on %s: it runs back through the dynamo and its field", f.H.Terminals[d].Full)
	case f.onDynamo(a, "D", "D+") && !f.liveAt(a): // with the battery there too it has no cut-out
		wrong = fmt.Sprintf("the dynamo is on %s, where the battery belongs: its cut-out never closes", f.H.Terminals[a].Full)
	case f.onDynamo(field, "D", "D+"):
		wrong = fmt.Sprintf("D of the dynamo is on %s: its whole current goes over the regulator's points", f.H.Terminals[field].Full)
	case f.onDynamo(d, "F", "DF"):
		wrong = fmt.Sprintf("the field of the dynamo is on %s: nothing regulates it", f.H.Terminals[d].Full)
	default:
		return
	}
	f.add(source.Problem{
		Slug: "control-box-swapped", Level: source.Error, Span: p.Span, Subjects: []string{p.Ref}, Summary: wrong,
		Detail: "D of the dynamo goes to D (D+), its field to F (DF), the battery to A (B, 51)",
	})
}

// onDynamo tells a terminal that metal joins to one of a dynamo's.
func (f *inspection) onDynamo(t harness.TerminalID, names ...string) bool {
	return slices.ContainsFunc(f.H.Parts, func(p harness.Part) bool {
		at, ok := f.named(&p, names...)
		return ok && p.Kind == harness.Dynamo && f.Net.Bonded(t, at)
	})
}

// inverterFeed reports an inverter whose feed goes through a key.
func (f *inspection) inverterFeed(p *harness.Part) {
	for _, id := range p.Elements {
		e := &f.H.Elements[id]
		for _, x := range f.Owns[id].Feed.Elements {
			key := f.PartOf(x)
			if e.Name != p.Ref || key.Kind != harness.IgnitionSwitch {
				continue
			}
			f.add(source.Problem{
				Slug: "inverter-through-key", Level: source.Warning, Span: p.Span, Subjects: []string{p.Ref, key.Ref},
				Summary: fmt.Sprintf("%s takes up to %s, and its feed goes through %s", p.Ref, e.Most(), key.Ref),
				Detail:  "feed it from the battery through its own fuse, and let the key work its remote switch, or a relay that is rated for it",
				Numbers: []source.Number{number("most_a", float64(e.Most()))},
			})
			return
		}
	}
}

// shunt reports one on the live side, and returns that end on the battery beside it.
func (f *inspection) shunt(p *harness.Part) {
	battery, ok := f.named(p, "1")
	if !ok {
		return
	}
	for _, id := range f.ElementsOf(harness.EMF) {
		ref := f.PartOf(id).Ref
		if f.Net.Bonded(battery, f.liveOf(id)) {
			f.add(source.Problem{
				Slug: "shunt-in-feed", Level: source.Advice, Span: p.Span, Subjects: []string{p.Ref},
				Summary: fmt.Sprintf("%s lies in the lead of %s that is not grounded: both its sense leads are live", p.Ref, ref),
				Detail:  "put it in the grounded lead, as nearly all monitors ask; where it must stay, fuse both sense leads at the shunt",
			})
			return
		}
		if wires := f.besideShunt(p, battery, f.earth(id)); len(wires) > 0 {
			w := &f.H.Wires[wires[0]]
			f.add(source.Problem{
				Slug: "past-the-shunt", Level: source.Advice, Span: w.Span, Subjects: []string{p.Ref, w.Name},
				Summary: fmt.Sprintf("%s ends on %s itself: what it carries is not counted by %s", w.Name, f.H.Terminals[f.earth(id)].Full, p.Ref),
				Detail:  "bring every return to the other side of the shunt, so that nothing but the shunt is on the battery's terminal",
			})
		}
	}
}

// besideShunt gives the wires on a battery's grounded terminal that do not lead to a shunt
// on it.
func (f *inspection) besideShunt(shunt *harness.Part, battery, earth harness.TerminalID) []harness.WireID {
	onIt, others := false, []harness.WireID(nil)
	for i := range f.H.Wires {
		w := &f.H.Wires[i]
		if w.From != earth && w.To != earth {
			continue
		}
		far := w.From + w.To - earth
		switch p := f.H.PartOf(far); {
		case far == battery:
			onIt = true
		case p == nil || p.Kind != harness.BatteryMonitor && p.Kind != harness.Battery && p.ID != shunt.ID:
			others = append(others, w.ID)
		}
	}
	if !onIt {
		return nil
	}
	return others
}

// neverCloses reports a voltage-sensing relay that stays open in every state in which the
// engine charges.
func (f *inspection) neverCloses(p *harness.Part) {
	for _, id := range p.Elements {
		e := &f.H.Elements[id]
		if e.Kind != harness.RelayCoil || !e.Senses {
			continue
		}
		best, charges := 0.0, false
		for i := range f.States {
			if f.Faulty[i] || !slices.ContainsFunc(f.ElementsOf(harness.Charger), func(c harness.ElementID) bool {
				return f.H.Elements[c].ByEngine() && f.H.States[i].There(f.H.Elements[c].When)
			}) {
				continue
			}
			if charges = true; f.States[i].Energised[id] {
				return
			}
			best = max(best, abs(f.States[i].Volts[e.A]-f.States[i].Volts[e.B]))
		}
		if charges {
			f.add(source.Problem{
				Slug: "split-charge-never-closes", Level: source.Warning, Span: p.Span, Subjects: []string{p.Ref},
				Summary: fmt.Sprintf("%s never closes: it senses %.1f V at most while the engine charges, and closes from %s", p.Ref, best, e.PullIn),
				Detail:  fmt.Sprintf("%s goes to the battery that the alternator charges, %s.87 to the other; of a relay that senses both say senses: both", f.H.Terminals[f.H.Live(e)].Full, p.Ref),
				Numbers: []source.Number{number("sensed_v", best), number("cut_in_v", float64(e.PullIn))},
			})
		}
		return
	}
}

func abs(v float64) float64 { return max(v, -v) }

// panelFuses reports fuses in the leads of so few panels that these cannot blow them.
func (f *inspection) panelFuses() {
	told := map[harness.ElementID]bool{}
	for i := range f.States {
		for _, x := range f.States[i].Besides {
			p := f.PartOf(x.From)
			if p.Kind != harness.SolarPanel || x.Amps > fewPanels*float64(p.Charge.Short)*1.001 {
				continue
			}
			for _, id := range x.Links {
				e := &f.H.Elements[id]
				if e.Kind != harness.FuseLink || told[id] {
					continue
				}
				told[id] = true
				f.add(source.Problem{
					Slug: "fuse-in-panel-lead", Level: source.Advice, Span: f.PartOf(id).RatingPlace(e.Position), Subjects: []string{e.Name},
					Summary: fmt.Sprintf("%s lies in a lead of %s, which gives %s at most: a short never blows it", e.Name, p.Ref, unit.Ampere(x.Amps)),
					Detail:  "the fuse that matters lies between regulator and battery; in panel leads fuses belong from three panels side by side on, and must be made for the panels' voltage",
					Numbers: []source.Number{number("short_a", x.Amps)},
				})
			}
		}
	}
}
