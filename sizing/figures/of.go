package figures

import (
	"math"
	"reflect"

	"example.com/loomfolio/sizing/fault/outage"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
)

// Of fills the object from the model and the results.
func Of(h *harness.Harness, r *result.Result) Document {
	d := Document{
		Loomfolio: 1, Title: h.Info.Title, Revision: h.Info.Revision, Variant: h.Info.Variant, Digest: h.Digest,
		Wires: []Wire{}, Parts: []Part{}, Loads: []Load{}, Fuses: []Fuse{}, Relays: []Relay{}, Contacts: []Contact{}, Grounds: []Ground{},
		Splices: []Splice{}, Ends: []End{}, Runs: []Run{}, States: []State{}, Reels: []Reel{},
		Cuts: []CutRow{}, Labels: []Label{}, Shopping: []Item{}, Budgets: []Budget{}, TestPoints: []TestPoint{}, Sections: []TestSection{}, Power: []TestStep{}, Beeps: []TestBeep{}, Apart: []TestApart{},
		FuseAmps: []TestAmps{}, CoilAmps: []TestAmps{}, KeyOffAmps: []TestAmps{}, Faults: []Fault{}, Ladders: []Ladder{}, Together: []Group{}, LiveWhen: []LiveWhen{}, Sneaks: []Sneak{}, Spares: []Spare{}, Changes: []Change{}, Findings: []Finding{}, Accepted: []Finding{}, Sources: []Source{},
	}
	f := &filler{h: h, r: r, d: &d}
	for _, fill := range []func(){f.wires, f.partList, f.loads, f.fuses, f.relays, f.contacts, f.grounds, f.bodies, f.splices, f.ends, f.runs, f.states, f.reels, f.cuts, f.units, f.labels, f.proved, f.rest, f.purchase, f.faults, f.ladders, f.together, f.live, f.sneaks, f.spares, f.changes, f.found} {
		fill()
	}
	round(reflect.ValueOf(&d).Elem(), "")
	return d
}

type filler struct {
	h *harness.Harness
	r *result.Result
	d *Document
}

func (f *filler) names(ids []harness.WireID) []string {
	out := []string{}
	for _, id := range ids {
		out = append(out, f.h.Wires[id].Name)
	}
	return out
}

func (f *filler) full(t harness.TerminalID) string { return f.h.Terminals[t].Full }

func (f *filler) run(id harness.RunID) string {
	r := f.h.Runs[id]
	return f.h.Places[r.From].Key + "-" + f.h.Places[r.To].Key
}

func (f *filler) wires() {
	for i, w := range f.h.Wires {
		c, way, col := f.r.Wires[i], f.r.Ways[i], f.r.Colours[i]
		out := Wire{
			ID: w.Name, Circuit: f.h.Circuits[w.Circuit].Key, From: f.full(w.From), To: f.full(w.To),
			LengthMM: float64(way.Length), GivenLength: way.Given,
			System: c.Gauge.System.String(), Gauge: c.Gauge.Size, AreaMM2: float64(c.Area), DiameterMM: float64(c.Diameter),
			Insulation: c.Insulation, Amps: float64(c.Amps), State: c.State, DropV: float64(c.Drop), Drop20CV: float64(c.Cold),
			TemperatureC: float64(c.Temperature), HottestIn: c.HottestIn, AmpacityA: float64(c.Ampacity), ResistanceO: float64(c.Resistance),
			ProtectedBy: c.ProtectedBy, Base: col.Pair.Base, Tracer: col.Pair.Tracer, Runs: []string{}, Reason: c.Reason,
			Wants: Wants{c.Wants.Drop.Size, c.Wants.Heat.Size, c.Wants.Protection.Size, c.Wants.Handling.Size},
			Below: neighbour(c.Below), Kept: string(f.r.KeptWire(w.ID)), Found: col.Found.String(),
			Least: c.Least.Size, Bought: c.Bought,
			Number: f.h.Circuits[w.Circuit].Number, CircuitName: f.h.Circuits[w.Circuit].Name, Class: f.h.Circuits[w.Circuit].Class,
		}
		for _, s := range way.Shares {
			out.Runs = append(out.Runs, f.run(s.Run))
		}
		f.d.Wires = append(f.d.Wires, out)
	}
}

func (f *filler) loads() {
	for _, l := range f.r.Loads {
		nominal := float64(f.h.SystemOf(&f.h.Elements[l.Element]).Volts)
		f.d.Loads = append(f.d.Loads, Load{
			ID: l.Name, Amps: float64(l.Amps), State: l.State, Volts: float64(l.Volts),
			FeedDropV: float64(l.FeedDrop), ReturnDropV: float64(l.ReturnDrop), OtherDropV: float64(l.OtherDrop), Drop20CV: float64(l.Cold),
			DropPct:  100 * float64(l.FeedDrop+l.ReturnDrop) / nominal,
			LimitPct: 100 * float64(l.Limit) / nominal, ProtectedBy: l.ProtectedBy,
		})
	}
}

func (f *filler) fuses() {
	for i, u := range f.r.Fuses {
		out := Fuse{
			ID: u.Name, Part: f.h.Parts[u.Part].Ref, Position: u.Position, Body: u.Body, RatingA: float64(u.Rating),
			BodyColour: u.BodyColour, Amps: float64(u.Amps), Feeds: append([]string{}, u.Feeds...),
			MostAllowedA: finite(float64(u.MostAllowed)), ClearsShortS: float64(u.ClearsIn), ProspectiveA: float64(u.Prospective), Reason: u.Reason, BreakerType: u.Type,
			Below: neighbour(u.Below), Above: neighbour(u.Above), Kept: string(f.r.KeptFuse(i)), SpareA: float64(u.Spare),
			LeastA: float64(u.Rating), Bought: u.Bought,
		}
		if u.Least > 0 {
			out.LeastA = float64(u.Least)
		}
		if u.Smallest != harness.None {
			out.SmallestWire = f.h.Wires[u.Smallest].Name
		}
		f.outage(&out, f.r.Outages[i])
		f.d.Fuses = append(f.d.Fuses, out)
	}
}

// outage tells what stops without a fuse.
func (f *filler) outage(out *Fuse, o outage.Outage) {
	out.Stops, out.Shared, out.DropsOut = append([]string{}, o.Stops...), o.Shared, []Drop{}
	for _, d := range o.Drops {
		out.DropsOut = append(out.DropsOut, Drop{f.h.Parts[d.Relay].Ref, append([]string{}, d.Loads...)})
	}
}

// finite keeps a number that JSON can write; infinity (nothing to protect) becomes 0.
func finite(v float64) float64 {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return 0
	}
	return v
}

func (f *filler) relays() {
	for _, u := range f.r.Relays {
		f.d.Relays = append(f.d.Relays, Relay{f.h.Parts[u.Part].Ref, float64(u.Coil), float64(u.Contact), float64(u.Rating)})
	}
}

func (f *filler) grounds() {
	for _, g := range f.r.Grounds {
		f.d.Grounds = append(f.d.Grounds, Ground{
			ID: f.h.Parts[g.Part].Ref, Rings: f.names(g.Rings), Amps: float64(g.Amps), LiftV: float64(g.Lift), Surface: g.Surface, Washer: g.Washer,
			State: g.State, CrankA: float64(g.Crank), CrankIn: g.CrankIn, LiftIn: g.LiftIn, SteadyV: float64(g.Steady), SteadyIn: g.SteadyIn, Stud: g.Stud, StudWhy: g.StudWhy,
		})
	}
}

func (f *filler) bodies() {
	for _, b := range f.r.Bodies {
		p := &f.h.Parts[b.Part]
		f.d.Bodies = append(f.d.Bodies, Body{
			ID: p.Ref, Terminal: f.full(p.BodyAt), Ohm: float64(b.Ohms), Amps: float64(b.Amps), State: b.State,
			LiftV: float64(b.Lift), LiftIn: b.LiftIn, Surface: b.Surface, Washer: b.Washer,
		})
	}
}

func (f *filler) splices() {
	for _, s := range f.r.Splices {
		f.d.Splices = append(f.d.Splices, Splice{f.h.Parts[s.Part].Ref, f.names(s.Wires), float64(s.AreaSum), s.Size, s.Shrink, float64(s.Shift)})
	}
}

func (f *filler) ends() {
	for i := range f.r.Ends {
		for _, e := range f.r.Ends[i] {
			f.d.Ends = append(f.d.Ends, End{
				Wire: f.h.Wires[i].Name, End: e.End, Part: f.full(e.Terminal), Terminal: e.Fitting, Crimp: e.Crimp, Size: e.Size,
				StripMM: float64(e.Strip), PullN: e.Pull, Shrink: e.Shrink, ShrinkMM: float64(e.ShrinkLen), Label: e.Label,
				Number: e.Part, Die: e.Die, OverMM: float64(e.Over),
			})
		}
	}
}

func (f *filler) runs() {
	for _, u := range f.r.Runs {
		r := f.h.Runs[u.Run]
		f.d.Runs = append(f.d.Runs, Run{
			f.h.Places[r.From].Key, f.h.Places[r.To].Key, float64(r.Length), f.names(u.Wires), float64(u.Diameter), float64(u.Cover),
			float64(u.BendLeast), float64(u.Hole), f.passFrom(&u), float64(u.Outside), float64(u.Grommet), float64(u.Clear), u.Boot, u.Clamps,
			f.r.Tracing.Runs[u.Run].Reached, f.r.Tracing.Runs[u.Run].Bound,
		})
	}
}

// passFrom names the place whose ends pass a run's hole.
func (f *filler) passFrom(u *fitted.Run) string {
	if len(u.Wires) == 0 {
		return ""
	}
	return f.h.Places[u.PassFrom].Key
}

func (f *filler) states() {
	for _, s := range f.r.States {
		out := State{Name: s.Name, Nodes: map[string]float64{}, AmpsFrom: map[string]float64{}, ResidualA: s.Residual, Floating: []string{}, Elements: []Element{}}
		for t, v := range s.Volts {
			full := f.h.Terminals[t].Full
			if math.IsNaN(v) {
				out.Floating = append(out.Floating, full)
				continue
			}
			out.Nodes[full] = v
		}
		for _, e := range f.h.Elements {
			if e.Gives() {
				out.AmpsFrom[e.Name] = finite(-s.Amps[e.ID])
			}
		}
		for _, e := range s.Elements {
			out.Elements = append(out.Elements, printed(e))
		}
		f.d.States = append(f.d.States, out)
	}
}

func printed(e network.Printed) Element {
	return Element{Name: e.Name, Kind: e.Kind, A: e.A, B: e.B, Value: finite(e.Value), Ohms: finite(e.Ohms)}
}

func (f *filler) reels() {
	for _, u := range f.r.Reels {
		out := Reel{
			Gauge: u.Gauge.Size, Base: u.Base, Tracer: u.Tracer, NeedMM: float64(u.Need), BuyMM: float64(u.Buy), BoundMM: float64(u.Bound),
			Cuts: [][]string{}, From: []Length{}, CopperG: float64(u.Copper),
		}
		for _, c := range u.Cuts {
			out.Cuts = append(out.Cuts, f.names(c.Wires))
			out.From = append(out.From, Length{float64(c.Whole), c.Shelf, float64(c.Over)})
			out.WasteMM += float64(c.Over)
		}
		f.d.Reels = append(f.d.Reels, out)
	}
	for _, it := range f.r.Shopping {
		f.d.Shopping = append(f.d.Shopping, Item{it.Group, it.What, it.Count, it.Unit, it.For, it.Buy, it.Pack, it.Sum})
	}
}

func (f *filler) rest() {
	for _, b := range f.r.Budgets {
		out := Budget{State: f.h.States[b.State].Name, LoadsA: float64(b.Loads), Sources: map[string]float64{}, AlternatorA: float64(b.Alternator), KeyOff: b.KeyOff, Days: finite(b.Days), Drains: []Drain{}, Batteries: []Resting{}}
		for _, d := range b.Drains {
			out.Drains = append(out.Drains, Drain{d.Name, float64(d.Amps), float64(d.Share), append([]string{}, d.Loads...)})
		}
		for _, d := range b.Batteries {
			out.Batteries = append(out.Batteries, Resting{d.Name, finite(float64(d.Amps)), finite(d.Days)})
		}
		for _, s := range b.Behind {
			out.Behind = append(out.Behind, Behind{s.Name, float64(s.Loads), float64(s.Asked), float64(s.Gives), float64(s.Limit)})
		}
		for name, a := range b.Sources {
			out.Sources[name] = float64(a)
		}
		f.d.Budgets = append(f.d.Budgets, out)
	}
	c := &f.r.Purchase.Cost
	f.d.Copper = Copper{float64(f.r.Copper.Mass), float64(f.r.Copper.Bound), float64(c.Copper), float64(c.Cores), float64(f.r.Copper.Mass - c.Copper - c.Cores)}
	f.d.Colours = Colours{f.r.Tracing.LookAlikes, finite(f.r.Tracing.Smallest), finite(f.r.Tracing.Bound)}
	for _, p := range f.r.Findings {
		f.d.Findings = append(f.d.Findings, findingOf(f.h.File, p, ""))
	}
	for _, p := range f.r.Accepted {
		f.d.Accepted = append(f.d.Accepted, findingOf(f.h.File, p.Problem, p.Because))
	}
	for _, s := range f.r.Sources {
		f.d.Sources = append(f.d.Sources, Source{s.Key, s.Title, string(s.Status)})
	}
}

func findingOf(file *source.File, p source.Problem, because string) Finding {
	out := Finding{
		Slug: p.Slug, Level: p.Level.String(), Message: p.Summary, Detail: p.Detail, Because: because,
		Line: p.Span.Start.Line, Column: p.Span.Start.Column, Subjects: append([]string{}, p.Subjects...), Numbers: map[string]float64{},
	}
	if p.Span.File > 0 {
		out.File = file.In(p.Span).Path
	}
	for _, n := range p.Numbers {
		out.Numbers[n.Name] = finite(n.Value)
	}
	return out
}
