package toy

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit"
	"example.com/loomfolio/sizing/fit/buying"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/marker"
	"example.com/loomfolio/sizing/fit/reel"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// wired is a wire of the small model, with what was computed for it.
type wired struct {
	name, from, to, gauge, base, tracer string
	length                              unit.Millimetre
	givenLength, givenGauge             bool
	places                              []harness.PlaceID
}

// Fan is a small fan circuit with a splice, a twisted pair and a wire to the
// bodywork; its figures are invented, since only their printing is tested.
func Fan() page.Ask {
	h := &harness.Harness{
		Info:  harness.Info{Title: "Engine loom"},
		Sheet: harness.Sheet{Paper: "A4"},
		Places: []harness.Place{
			{ID: 0, Key: "bay", Name: "engine bay", Ambient: 105},
			{ID: 1, Key: "nose", Name: "behind the radiator", Ambient: 95},
			{ID: 2, Key: "cabin", Name: "under the dash", Ambient: 60},
		},
		Runs: []harness.Run{
			{ID: 0, From: 0, To: 1, Length: 900, Cover: "braid"}, {ID: 1, From: 0, To: 2, Length: 1460, Flexes: true}, {ID: 2, From: 1, To: 2, Length: 2300},
		},
		Terminals: []harness.Terminal{{ID: 0, Part: harness.None, Name: "chassis", Full: "chassis"}},
		Circuits:  []harness.Circuit{{ID: 0, Key: "fan", Number: "12", Name: "Radiator fan"}, {ID: 1, Key: "sensor", Number: "31", Name: "Coolant temperature"}},
	}
	r := &result.Result{}
	part(h, "K1", harness.Relay, "Fan relay", 0, "30", "87", "85", "86")
	part(h, "MF1", harness.Fuse, "MF1", 0, "1", "2")
	part(h, "FAN", harness.Motor, "Radiator fan", 1, "+", "-")
	part(h, "S1", harness.Splice, "S1", harness.None, "")
	h.Parts[3].Along = &harness.Along{Run: 1, Distance: 300}
	part(h, "ECU", harness.Module, "Engine computer", 2, "temp", "temp-return", "fan-drive")
	part(h, "TS1", harness.Sender, "Coolant sender", 1, "+", "-")
	for _, w := range []wired{
		{"12A", "MF1.2", "K1.30", "4", "RD", "", 415, false, true, nil},
		{"12B", "K1.87", "FAN.+", "4", "OG", "BK", 2785, false, false, []harness.PlaceID{0, 1}},
		{"12C", "FAN.-", "chassis", "4", "BK", "", 360, true, false, nil},
		{"12D", "MF1.2", "S1", "0.5", "RD", "WH", 1460, false, false, []harness.PlaceID{0}},
		{"12E", "S1", "K1.86", "0.5", "RD", "WH", 1905, false, false, []harness.PlaceID{0}},
		{"12F", "S1", "ECU.fan-drive", "0.5", "RD", "WH", 1220, false, false, []harness.PlaceID{2}},
		{"31A", "ECU.temp", "TS1.+", "0.5", "VT", "WH", 3220, false, false, []harness.PlaceID{2, 1}},
		{"31B", "TS1.-", "ECU.temp-return", "0.5", "GY", "BN", 3220, true, true, []harness.PlaceID{1, 2}},
	} {
		add(h, r, w)
	}
	for _, w := range []harness.WireID{6, 7} {
		h.Wires[w].Twist, h.Wires[w].Screen = "pair-1", "foil"
	}
	h.Units = []harness.Unit{{Kind: harness.Screened, Name: "foil", Wires: []harness.WireID{6, 7}}}
	r.Units = []fitted.Unit{{
		Length: 3175, Diameter: 4.8, Twists: []route.Twist{{Name: "pair-1", Wires: []harness.WireID{6, 7}, Lay: 30.48, Factor: 1.0135}},
		Screen: "braid", ScreenLen: 3115, Back: [2]unit.Millimetre{30, 30}, Boot: "6/2 mm, 3:1 adhesive-lined", BootLen: 40,
		Drains: []fitted.Drain{{Terminal: terminal(h, "ECU.temp-return"), With: 7}},
		Parts:  [2][]harness.PartID{{h.Terminals[terminal(h, "ECU.temp")].Part}, {h.Terminals[terminal(h, "TS1.+")].Part}},
	}}
	h.Wires[6].Circuit, h.Wires[7].Circuit = 1, 1
	r.Splices = []fitted.Splice{{Part: 3, Wires: []harness.WireID{3, 4, 5}, AreaSum: 1.5, Size: "uninsulated barrel 1.5 mm² (14 AWG)", Shrink: "6/2 mm, 3:1 adhesive-lined", ShrinkLen: 40, Where: "300 mm from engine bay towards under the dash"}}
	r.Runs = []fitted.Run{
		{Run: 0, Wires: []harness.WireID{1}, Diameter: 3.4, Cover: 6, CoverName: "braid"},
		{Run: 1, Wires: []harness.WireID{3, 4, 5}, Diameter: 6.25, Cover: 10, CoverName: "split tube"}, {Run: 2},
	}
	r.Reels = reels(h, r)
	r.Shopping = shopping(r)
	r.Tracing = colour.Report{Parts: make([]colour.Spot, len(h.Parts)), Runs: make([]colour.Spot, len(h.Runs))}
	near := colour.Near{A: 3, B: 4, Distance: 11.2, Sight: colour.DimLight, Words: "go by the number sleeve"}
	r.Tracing.Runs[1] = colour.Spot{Nets: 3, Reached: 11.2, Bound: 17, Near: []colour.Near{near, near, near, near, near},
		Bundles: []colour.Bundle{{Number: 1, Band: "WH", Wires: []harness.WireID{3}}, {Number: 2, Band: "YE", Wires: []harness.WireID{4, 5}}}}
	return labelled(page.Of(h, r, "A4", page.Bench))
}

// labelled gives a model its labels, on wires of made-up diameters.
func labelled(a page.Ask) page.Ask {
	a.H.Practice.Labels = harness.Labels{As: fitted.Wrap, Length: 40}
	c := chosen.Chosen{Wires: slices.Clone(a.R.Wires)}
	for i := range c.Wires {
		c.Wires[i].Diameter = map[string]unit.Millimetre{"0.5": 1.6, "1.5": 2.4, "2.5": 3, "4": 3.7, "25": 9.3}[c.Wires[i].Gauge.Size]
	}
	a.R.Labels = marker.Labels(a.H, c, a.R.Reels, nil)
	return page.Of(a.H, a.R, a.Paper, a.For)
}

func part(h *harness.Harness, ref string, kind harness.Kind, name string, place harness.PlaceID, terminals ...string) {
	p := harness.Part{ID: harness.PartID(len(h.Parts)), Ref: ref, Kind: kind, Name: name, Place: place}
	for _, t := range terminals {
		full := ref + "." + t
		if t == "" {
			full = ref
		}
		id := harness.TerminalID(len(h.Terminals))
		p.Terminals = append(p.Terminals, id)
		h.Terminals = append(h.Terminals, harness.Terminal{ID: id, Part: p.ID, Name: t, Full: full})
	}
	h.Parts = append(h.Parts, p)
}

func terminal(h *harness.Harness, full string) harness.TerminalID {
	for _, t := range h.Terminals {
		if t.Full == full {
			return t.ID
		}
	}
	panic("no terminal " + full)
}

func add(h *harness.Harness, r *result.Result, w wired) {
	id := harness.WireID(len(h.Wires))
	wire := harness.Wire{ID: id, Name: w.name, From: terminal(h, w.from), To: terminal(h, w.to), Insulation: "thin-wall", Core: harness.None}
	h.Wires = append(h.Wires, wire)
	r.Ways = append(r.Ways, route.Way{Length: w.length, Given: w.givenLength, Places: w.places})
	r.Wires = append(r.Wires, chosen.Wire{Gauge: unit.Gauge{Size: w.gauge}, Insulation: "thin-wall", Given: w.givenGauge})
	r.Colours = append(r.Colours, colour.Choice{Pair: colour.Pair{Base: w.base, Tracer: w.tracer}})
	r.Ends = append(r.Ends, [2]fitted.End{endOf(h, w, id, "a", wire.From), endOf(h, w, id, "b", wire.To)})
}

func endOf(h *harness.Harness, w wired, id harness.WireID, which string, t harness.TerminalID) fitted.End {
	e := fitted.End{Wire: id, End: which, Terminal: t, Fitting: "6.3 mm female spade", Crimp: "blue insulated", Size: "1.5-2.5 mm2",
		Strip: 6.5, Pull: 222.4, PullList: "ul-486a", Label: fmt.Sprintf("%s  %s → %s", w.name, w.from, w.to)}
	switch p := h.PartOf(t); {
	case p == nil:
		e.Fitting, e.Crimp, e.Size, e.Shrink, e.ShrinkLen = "M8 ring", "battery lug", "4 mm2", "9/3 mm, 3:1 adhesive-lined", 30
	case p.Kind == harness.Splice:
		e.Fitting, e.Crimp = "butt splice", "in S1"
	case p.Kind == harness.Module:
		e.Fitting, e.Crimp, e.Strip, e.Pull = "crimp contact, 26-way family", "open barrel", 4.5, 57.8
	}
	return e
}

// reels gathers the wires by gauge and colour in the order in which they first come.
func reels(h *harness.Harness, r *result.Result) []fitted.Reel {
	var out []fitted.Reel
	for i := range h.Wires {
		c, g := r.Colours[i].Pair, r.Wires[i].Gauge
		at := -1
		for j, reel := range out {
			if reel.Gauge == g && reel.Base == c.Base && reel.Tracer == c.Tracer {
				at = j
			}
		}
		if at < 0 {
			at = len(out)
			out = append(out, fitted.Reel{Gauge: g, Insulation: "thin-wall", Base: c.Base, Tracer: c.Tracer})
		}
		reel := &out[at]
		reel.Wires = append(reel.Wires, harness.WireID(i))
		reel.Need += r.Ways[i].Length
		reel.Buy = unit.Millimetre(1000 * (int(reel.Need)/1000 + 1))
		reel.Cuts = []fitted.Cut{{Whole: reel.Buy, Wires: reel.Wires, Over: reel.Buy - reel.Need}}
		reel.Copper += unit.Gram(r.Ways[i].Length) / 50
	}
	return out
}

func shopping(r *result.Result) []fitted.Item {
	var items []fitted.Item
	for _, reel := range r.Reels {
		items = append(items, fitted.Item{Group: "wire", What: reel.Gauge.String(), Count: float64(reel.Buy) / 1000, Unit: "m"})
	}
	return append(items,
		fitted.Item{Group: "fuses", What: "midi fuse 40 A, amber", Count: 2, Unit: "pcs", For: "MF1 and a spare"},
		fitted.Item{Group: "terminals", What: "6.3 mm female spade, blue insulated, 1.5-2.5 mm2", Count: 12, Unit: "pcs", For: "K1, FAN, MF1, TS1"},
		fitted.Item{Group: "shrink", What: "6/2 mm, 3:1 adhesive-lined", Count: 0.4, Unit: "m", For: "S1"},
	)
}

// Crowded is the fan circuit with many more wires and long names of terminals.
func Crowded() page.Ask {
	a := Fan()
	part(a.H, "SWLIGHTS", harness.Switch, "Lighting switch on the column, with the long stalk", 2, "headlamps", "sidelamps", "30", "58")
	part(a.H, "FP", harness.FusePanel, "Fuse panel", 2, "1", "2", "3", "feed-ignition")
	stops := []string{"FP.1", "FP.2", "SWLIGHTS.headlamps", "FP.feed-ignition", "SWLIGHTS.sidelamps", "ECU.temp-return", "chassis"}
	letters := []string{"RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "BN", "BK"}
	for i := range 60 {
		w := wired{name: fmt.Sprintf("%d%c", 40+i/4, 'A'+i%4), from: stops[i%7], to: stops[(i+3)%7],
			gauge: []string{"0.5", "1.5", "2.5", "25"}[i/16], base: letters[i%10], length: unit.Millimetre(300 + 191*i), givenLength: i%9 == 0, givenGauge: i%7 == 0}
		if i%2 == 0 {
			w.tracer = letters[(i+4)%10]
		}
		add(a.H, a.R, w)
	}
	a.R.Reels = reels(a.H, a.R)
	a.R.Shopping = shopping(a.R)
	return labelled(a)
}

// Fitted is a model whose fittings, reels and shopping list are those of
// package fit, for gauges and ways that are given.
func Fitted(t testing.TB, a page.Ask) page.Ask {
	t.Helper()
	for i := range a.R.Wires {
		w := &a.R.Wires[i]
		c, ok := rating.ConductorOf(w.Gauge)
		require.True(t, ok, w.Gauge)
		w.Area, w.Diameter = c.Area, c.Copper+1
		if places := a.R.Ways[i].Places; len(places) > 1 {
			a.R.Ways[i].Shares = []route.Share{{Run: 0, Length: a.R.Ways[i].Length}}
		}
	}
	c := chosen.Chosen{Wires: a.R.Wires}
	got, _ := fit.All(a.H, a.R.Ways, c)
	a.R.Ends, a.R.Splices, a.R.Runs, a.R.Units = got.Ends, got.Splices, got.Runs, got.Units
	a.R.Reels = reel.All(a.H, a.R.Ways, a.R.Wires, a.R.Colours, a.R.Kept)
	a.R.Shopping = buying.List(a.H, c, got, a.R.Reels, a.R.Kept, a.R.KeptFuses)
	return a
}
