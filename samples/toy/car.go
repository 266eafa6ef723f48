package toy

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// bench makes a small harness by hand; the figures are invented, since only their printing is tested.
type bench struct {
	h *harness.Harness
	r *result.Result
}

func (b *bench) place(key, name string) harness.PlaceID {
	id := harness.PlaceID(len(b.h.Places))
	b.h.Places = append(b.h.Places, harness.Place{ID: id, Key: key, Name: name})
	return id
}

func (b *bench) part(ref string, kind harness.Kind, name string, at harness.PlaceID, terminals ...string) *harness.Part {
	p := harness.Part{ID: harness.PartID(len(b.h.Parts)), Ref: ref, Kind: kind, Name: name, Place: at}
	for _, t := range terminals {
		id := harness.TerminalID(len(b.h.Terminals))
		x := harness.Terminal{ID: id, Part: p.ID, Name: t, Full: ref + "." + t}
		if kind == harness.Connector {
			x.Cavity, _, _ = strings.Cut(t, ".")
		}
		if t == "" {
			x.Full = ref
		}
		b.h.Terminals = append(b.h.Terminals, x)
		p.Terminals = append(p.Terminals, id)
	}
	b.h.Parts = append(b.h.Parts, p)
	return &b.h.Parts[p.ID]
}

func (b *bench) find(full string) harness.TerminalID {
	for _, t := range b.h.Terminals {
		if t.Full == full {
			return t.ID
		}
	}
	return harness.Chassis
}

func (b *bench) wire(name, from, to, gauge, pair string) harness.WireID {
	id := harness.WireID(len(b.h.Wires))
	base, tracer, _ := strings.Cut(pair, "/")
	b.h.Wires = append(b.h.Wires, harness.Wire{ID: id, Name: name, From: b.find(from), To: b.find(to)})
	b.r.Wires = append(b.r.Wires, chosen.Wire{Gauge: unit.Gauge{Size: gauge}})
	b.r.Colours = append(b.r.Colours, colour.Choice{Pair: colour.Pair{Base: base, Tracer: tracer}})
	b.r.Ways = append(b.r.Ways, route.Way{Length: 1250})
	return id
}

func (b *bench) element(e harness.Element) harness.ElementID {
	e.ID = harness.ElementID(len(b.h.Elements))
	b.h.Elements = append(b.h.Elements, e)
	return e.ID
}

// Car is a model with a fuse panel of so many positions, a load on each but the
// last, a relay, a connector and two grounds.
func Car(positions, states int) page.Ask {
	b := &bench{&harness.Harness{}, &result.Result{}}
	b.h.Terminals = []harness.Terminal{{Part: harness.None, Name: "chassis", Full: "chassis"}}
	b.h.Info = harness.Info{Title: "Whole loom", Revision: "B", Date: "2026-11-02", VehicleName: "Kestrel GT", VehicleIdentity: "KG-014", Customer: "Aunt Odile", Builder: "Cousin Bram"}
	b.h.System = harness.System{Volts: 12, Running: 14.2}
	b.h.Practice = harness.Practice{
		Drop:   map[string]unit.DropLimit{"default": {Fraction: 0.03}, "start": {Volts: 0.5}},
		Method: "computed", Ampacity: "computed", Insulation: "thin-wall-125", EachEnd: 50, Dress: 0.05, RoundUp: 5, FuseLoad: 0.75, Pull: "ul-486a", GroundColour: "BK", FeedColour: "RD",
	}
	b.supply(positions)
	b.states(states)
	b.loads(positions)
	b.findings()
	b.r.Outages = fault.Outages(b.h, chosen.Chosen{Fuses: b.r.Fuses, Loads: b.r.Loads, States: b.r.States})
	return page.Of(b.h, b.r, "A4", page.Archive)
}

func (b *bench) supply(positions int) {
	tray, dash, nose := b.place("tray", "Battery tray"), b.place("dash", "Behind the dash"), b.place("nose", "Radiator support")
	b.h.Circuits = []harness.Circuit{{Key: "all", Number: "12", Name: "Radiator fan", Class: "default"}}
	b.part("BAT", harness.Battery, "Battery", tray, "+", "-").Capacity = 60
	b.part("MF1", harness.Fuse, "Main fuse", tray, "1", "2")
	var out, layout []string
	for i := range positions {
		out = append(out, fmt.Sprint(i+1))
	}
	layout = out
	panel := b.part("FP", harness.FusePanel, "Fuse panel", dash, append([]string{"in"}, out...)...)
	panel.Panel = &harness.Panel{Feeds: []harness.PanelFeed{{Name: "in", Positions: out}}}
	for i := 0; i < len(layout); i += 12 {
		panel.Panel.Layout = append(panel.Panel.Layout, layout[i:min(i+12, len(layout))])
	}
	b.part("K1", harness.Relay, "Fan relay", dash, "30", "85", "86", "87")
	x := b.part("X1", harness.Connector, "Bulkhead connector", dash, "1.in", "1.out", "2.in", "2.out", "3.in", "3.out", "4.in", "4.out", "5.in", "5.out", "6.in", "6.out")
	x.Cavities, x.Sealed, x.Family = []string{"1", "2", "3", "4", "5", "6"}, true, "6-way family"
	b.part("G1", harness.Ground, "G1", nose, "")
	b.part("G2", harness.Ground, "Dash ground", dash, "")
	b.wire("12A", "BAT.+", "MF1.1", "10", "RD")
	b.wire("12B", "MF1.2", "FP.in", "10", "RD")
	b.element(harness.Element{Kind: harness.EMF, Name: "BAT", Part: 0})
	b.element(harness.Element{Kind: harness.RelayCoil, Name: "K1.coil", Part: 3, A: b.find("K1.86"), B: b.find("K1.85")})
	b.element(harness.Element{Kind: harness.Contact, Name: "K1.30-87", Part: 3, A: b.find("K1.30"), B: b.find("K1.87"), When: harness.Condition{Kind: harness.Energised, Coil: 1}})
	b.r.Relays = []chosen.Relay{{Part: 3, Coil: 0.15, Contact: 20.3, Rating: 40}}
	b.r.Fuses = []chosen.Fuse{{Name: "MF1", Part: 1, Body: "bolt", Rating: 60, Amps: 41.5, Smallest: 1, MostAllowed: 80, Wires: []harness.WireID{0, 1}}}
}

func (b *bench) states(n int) {
	names := []string{"parked", "driving", "driving at night", "starting", "all on, engine running"}
	for i := range n {
		name := fmt.Sprintf("load %d alone", i)
		if i < len(names) {
			name = names[i]
		}
		b.h.States = append(b.h.States, harness.State{Name: name, Engine: harness.EngineOff, Position: make([]int, 20)})
		budget := chosen.Budget{State: i, Loads: unit.Ampere(0.02 + 9.5*float64(i)), Sources: map[string]unit.Ampere{"BAT": 0.025}, KeyOff: i == 0}
		if i == 0 {
			budget.Days = 50
			budget.Drains = []chosen.Drain{
				{Fuse: 1, Name: "MF1", Amps: 0.02, Share: 0.8, Loads: []string{"Radio"}},
				{Fuse: harness.None, Amps: 0.005, Share: 0.2, Loads: []string{"Clock"}},
			}
		}
		if i == 1 || i == 4 {
			budget.Alternator = 30
			b.h.States[i].Engine = harness.EngineRunning
		}
		b.r.Budgets = append(b.r.Budgets, budget)
	}
}

var wares = []struct {
	name, colour, body string
	amps, rating       unit.Ampere
}{
	{"Radiator fan", "light brown / tan", "mini", 3.2, 5}, {"Dipped beam, left headlamp", "red", "blade", 4.6, 10}, {"Dipped beam, right headlamp", "brown", "blade", 4.6, 7.5},
	{"Fuel pump", "blue (light blue)", "blade", 8.1, 15}, {"Windscreen wiper motor", "yellow", "blade", 12, 20}, {"Heater blower", "clear", "blade", 14, 25},
	{"Heated rear window", "green (light green)", "blade", 18, 30}, {"Horn", "orange", "maxi", 25, 40}, {"Instruments", "grey", "mini", 0.4, 2}, {"Radio", "violet", "mini", 1.9, 3}, {"Clock", "pink", "mini", 0.01, 4},
}

func (b *bench) loads(positions int) {
	g1, g2 := fitted.Ground{Part: 5, Surface: "painted", Stud: "M6", Washer: "star washer on bared metal", Prep: "scrape the paint off to bright metal under the ring", Amps: 32.6, State: "driving at night", Lift: 0.0124}, fitted.Ground{Part: 6, Surface: "bare", Stud: "M8", Amps: 4, Lift: 0.002}
	pairs := []string{"OG/BK", "VT/WH", "BU", "GN/YE", "WH/RD", "YE/BU", "PK", "BN/WH", "GY", "TN/BK"}
	for i := range positions - 1 {
		ware := wares[i%len(wares)]
		ref := fmt.Sprintf("L%d", i+1)
		b.part(ref, harness.Lamp, ware.name, 2, "+", "-")
		e := b.element(harness.Element{Kind: harness.Load, Name: ref, Part: harness.PartID(len(b.h.Parts) - 1)})
		position := fmt.Sprint(i + 1)
		feed, fuse := []harness.WireID{}, chosen.Fuse{Name: "FP." + position, Part: 2, Position: position, Body: ware.body, Rating: ware.rating, BodyColour: ware.colour, Amps: ware.amps, MostAllowed: ware.rating + 5, Feeds: []string{ref}}
		switch i {
		case 0:
			feed = append(feed, b.wire("12C", "FP.1", "K1.30", "2.5", "RD/WH"), b.wire("12D", "K1.87", "L1.+", "2.5", "OG/BK"))
		case 1:
			fuse.Feeds = []string{"K1.coil"}
			fuse.Wires = []harness.WireID{b.wire("12E", "FP.2", "K1.86", "0.5", "VT/WH")}
			b.wire("12Q", "K1.85", "G2", "0.5", "BK")
			feed = fuse.Wires
		case 2, 3, 4, 5:
			c := fmt.Sprint(i - 1)
			feed = append(feed, b.wire("1"+position+"A", "FP."+position, "X1."+c+".in", "1.5", pairs[i]), b.wire("1"+position+"B", "X1."+c+".out", ref+".+", "1.5", pairs[i]))
		default:
			feed = append(feed, b.wire("1"+position+"A", "FP."+position, ref+".+", "1.5", pairs[i%len(pairs)]))
		}
		fuse.Wires, fuse.Smallest = feed, feed[0]
		ground := []string{"G1", "G2"}[min(i/4, 1)]
		back := b.wire("1"+position+"N", ref+".-", ground, "1.5", "BK")
		if ground == "G1" {
			g1.Rings = append(g1.Rings, back)
		} else if len(g2.Rings) < 6 {
			g2.Rings = append(g2.Rings, back)
		}
		if i == 6 {
			fuse.Feeds = append(fuse.Feeds, "L2", "L4", "L5", "L1", "L6")
		}
		b.r.Fuses = append(b.r.Fuses, fuse)
		load := chosen.Load{Element: e, Name: ref, Amps: ware.amps, State: b.h.States[len(b.h.States)-1].Name, Volts: 13.41, FeedDrop: 0.12, ReturnDrop: 0.04, OtherDrop: 0.06, Limit: 0.36, ProtectedBy: fuse.Name, Feed: feed}
		if i == 3 {
			load.StartAmps, load.StartFor = 55, 0.4
		}
		for k, st := range b.h.States {
			if k > 0 && (i+k)%3 > 0 {
				load.On = append(load.On, st.Name)
			}
		}
		b.r.Loads = append(b.r.Loads, load)
	}
	b.r.Grounds = []fitted.Ground{g1, g2}
	b.r.Reels = []fitted.Reel{{Copper: 1260}}
	b.r.Sources = append(rating.SourcesOf([]string{"iso-6722", "fuse-fills", "ambient-rule", "iso-8820-colours"}), rating.SourcesOf([]string{"fuse-memory", "common"})...)
}

func (b *bench) findings() {
	b.r.Findings = source.Problems{
		{Slug: "fuse-above-wire", Level: source.Error, Span: source.At(41, 5, 3), Summary: "the fuse FP.3 of 30 A is larger than wire 13A of 0.5 mm² stands", Detail: "fit 10 A, or take 2.5 mm² for 13A"},
		{Slug: "look-alike", Level: source.Warning, Summary: "13A and 14A look alike where they run together", Detail: "sleeve one of them"},
	}
}

// Worded gives every name of a model so much to say that it must wrap or shrink.
func Worded(a page.Ask) page.Ask {
	const long = " of the emergency warning and rear fog lamp loom with an unbreakableandveryverylongwordindeed"
	h := a.H
	h.Info.Title += long
	h.Info.Customer += long
	h.Info.Notes = strings.Repeat("Keep clear of the exhaust. ", 40)
	for i := range h.Parts {
		h.Parts[i].Name = h.Parts[i].Ref + long
	}
	for i := range h.Places {
		h.Places[i].Name += long
	}
	for i := range h.States {
		h.States[i].Name = fmt.Sprintf("%d%s", i, long)
	}
	for i := range a.R.Loads {
		a.R.Loads[i].State = h.States[0].Name
		a.R.Loads[i].On = []string{h.States[0].Name}
	}
	for i := range a.R.Grounds {
		a.R.Grounds[i].State, a.R.Grounds[i].LiftIn = h.States[0].Name, h.States[0].Name
		a.R.Grounds[i].Prep += long
	}
	for i := range 40 {
		a.R.Findings = append(a.R.Findings, source.Problem{Slug: "long-finding", Level: source.Advice, Summary: fmt.Sprint(i) + long, Detail: strings.Repeat("do it again ", 30)})
	}
	return a
}
