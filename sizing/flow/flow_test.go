package flow

import (
	"strings"
	"testing"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"github.com/stretchr/testify/require"
)

// rig builds a model from short lines: "battery BAT", "wire 1A BAT.+ F1.1",
// "fuse F1 F1.1 F1.2" and so on; every wire has 10 milliohm.
type rig struct {
	h     *harness.Harness
	terms map[string]harness.TerminalID
	parts map[string]harness.PartID
}

func build(lines string) *rig {
	r := &rig{terms: map[string]harness.TerminalID{"chassis": harness.Chassis}, parts: map[string]harness.PartID{}}
	r.h = &harness.Harness{
		System:    harness.System{Volts: 12, Running: 14.2},
		Terminals: []harness.Terminal{{Part: harness.None, Full: "chassis"}},
		Circuits:  []harness.Circuit{{}},
	}
	for _, line := range strings.Split(strings.TrimSpace(lines), "\n") {
		r.add(strings.Fields(line))
	}
	r.h.States = []harness.State{{Name: "on", Engine: harness.EngineOff, Position: make([]int, len(r.h.Parts))}}
	return r
}

func (r *rig) at(full string) harness.TerminalID {
	if t, ok := r.terms[full]; ok {
		return t
	}
	ref, name, _ := strings.Cut(full, ".")
	p, ok := r.parts[ref]
	if !ok {
		p = harness.PartID(len(r.h.Parts))
		r.parts[ref] = p
		r.h.Parts = append(r.h.Parts, harness.Part{ID: p, Ref: ref, Place: harness.None})
	}
	t := harness.TerminalID(len(r.h.Terminals))
	r.h.Terminals = append(r.h.Terminals, harness.Terminal{ID: t, Part: p, Name: name, Full: full})
	r.h.Parts[p].Terminals = append(r.h.Parts[p].Terminals, t)
	r.terms[full] = t
	return t
}

// add reads "wire NAME FROM TO" or "KIND NAME FROM TO".
func (r *rig) add(f []string) {
	a, b := r.at(f[2]), r.at(f[3])
	if f[0] == "wire" {
		r.h.Wires = append(r.h.Wires, harness.Wire{ID: harness.WireID(len(r.h.Wires)), Name: f[1], From: a, To: b})
		return
	}
	kinds := map[string]harness.Element{
		"battery":    {Kind: harness.EMF, Volts: 12.6, Ohms: 0.005},
		"alternator": {Kind: harness.Charger, Volts: 14.2, Ohms: 0.005, Amps: 45},
		"fuse":       {Kind: harness.FuseLink, Ohms: 0.005},
		"contact":    {Kind: harness.Contact, Ohms: 0.002},
		"innards":    {Kind: harness.Contact, Ohms: 0.002, Innards: true},
		"load":       {Kind: harness.Load, Amps: 5, AtVolts: 12, Behaves: harness.AsResistance},
		"starter":    {Kind: harness.Load, Amps: 180, AtVolts: 12, Behaves: harness.AsResistance},
		"coil":       {Kind: harness.RelayCoil, Ohms: 80, PullIn: 8, DropOut: 1},
		"ground":     {Kind: harness.Resistance, Ohms: 0.001},
		"resistor":   {Kind: harness.Resistance, Ohms: 680},
		"join":       {Kind: harness.Join},
	}
	e := kinds[f[0]]
	e.ID, e.Name, e.A, e.B = harness.ElementID(len(r.h.Elements)), f[1], a, b
	e.Part = r.h.Terminals[a].Part
	if f[0] == "starter" || f[0] == "alternator" {
		r.h.Parts[e.Part].Kind = harness.Kind(f[0])
	}
	r.h.Elements = append(r.h.Elements, e)
	r.h.Parts[e.Part].Elements = append(r.h.Parts[e.Part].Elements, e.ID)
}

func (r *rig) solve(t *testing.T) []network.State {
	t.Helper()
	require.NoError(t, r.h.Verify())
	wires := make([]float64, len(r.h.Wires))
	for i := range wires {
		wires[i] = 0.01
	}
	st, err := network.Solve(r.h, 0, network.Resistances{Wires: wires, Links: make([]float64, len(r.h.Elements))}, network.Options{})
	require.NoError(t, err)
	return []network.State{st}
}

func (r *rig) wires(ids []harness.WireID) string {
	var out []string
	for _, w := range ids {
		out = append(out, r.h.Wires[w].Name)
	}
	return strings.Join(out, " ")
}

func (r *rig) elements(ids []harness.ElementID) string {
	var out []string
	for _, e := range ids {
		out = append(out, r.h.Elements[e].Name)
	}
	return strings.Join(out, " ")
}

func (r *rig) element(name string) harness.ElementID {
	for _, e := range r.h.Elements {
		if e.Name == name {
			return e.ID
		}
	}
	return harness.None
}

// Two loads behind one main fuse, one with a fuse of its own.
const branched = `
battery BAT BAT.+ BAT.-
fuse MF MF.1 MF.2
fuse F1 F1.1 F1.2
contact SW SW.1 SW.2
load L1 L1.+ L1.-
load L2 L2.+ L2.-
ground G1 G1 chassis
ground G2 G2 chassis
wire 1A BAT.+ MF.1
wire 1B MF.2 S1
wire 1C S1 F1.1
wire 1D F1.2 SW.1
wire 1E SW.2 L1.+
wire 1F L1.- G1
wire 2A S1 L2.+
wire 2B L2.- G1
wire 1G BAT.- G2`

func TestPaths(t *testing.T) {
	r := build(branched)
	st := r.solve(t)
	c := In(r.h, &st[0])
	feed, back := c.Feed(r.element("L1")), c.Return(r.element("L1"))
	require.Equal(t, "1A 1B 1C 1D 1E", r.wires(feed.Wires))
	require.Equal(t, "MF F1 SW", r.elements(feed.Elements))
	require.Equal(t, "MF F1", r.elements(feed.Fuses(r.h)))
	require.Equal(t, r.element("BAT"), feed.Source)
	require.Equal(t, "1F 1G", r.wires(back.Wires))
	require.Equal(t, "G1 G2", r.elements(back.Elements))
	require.Equal(t, r.element("BAT"), back.Source)
}

func TestSeries(t *testing.T) {
	r := build(branched)
	groups := NewNet(r.h).Series(r.solve(t), nil, func(harness.ElementID) bool { return false })
	by := map[int]string{}
	for w, g := range groups {
		by[g] += r.h.Wires[w].Name + " "
	}
	require.Equal(t, map[int]string{0: "1A 1B ", 1: "1C 1D 1E 1F ", 2: "2A 2B ", 3: "1G "}, by,
		"series ends at the splice and goes on through the loads")
}

func TestGuards(t *testing.T) {
	r := build(branched)
	g := NewNet(r.h).Guards()
	for name, want := range map[string]string{"1A": "", "1B": "MF", "1C": "MF", "2A": "MF", "1D": "F1", "1E": "F1", "1F": "", "1G": ""} {
		for _, w := range r.h.Wires {
			if w.Name == name {
				require.Equal(t, want, r.elements(g.Of[w.ID]), name)
			}
		}
	}
	require.Equal(t, "1B 1C 2A", r.wires(g.Wires[r.element("MF")]))
	require.Equal(t, "1A", r.wires(g.Legs[r.element("MF")]))
	require.Len(t, g.Bare, 1)
	require.Equal(t, "1A", r.wires(g.Bare[0].Chain))
}

// What an open switch hides is guarded all the same; suppression across a coil
// is no way for a feed.
func TestGuardsHoldInEveryPosition(t *testing.T) {
	r := build(`
battery BAT BAT.+ BAT.-
fuse F1 F1.1 F1.2
coil K1.coil K1.86 K1.85
resistor K1.res K1.86 K1.85
wire 1A BAT.+ F1.1
wire 1B F1.2 K1.86
wire 1C K1.85 BAT.-`)
	g := NewNet(r.h).Guards()
	require.Equal(t, "1B", r.wires(g.Wires[r.element("F1")]), "the coil's return is not fed through the resistor")
	require.Len(t, g.Bare, 1)
}

func TestStarterAndAlternator(t *testing.T) {
	r := build(`
alternator ALT ALT.B+ ALT.case
battery BAT BAT.+ BAT.-
starter ST ST.30 ST.case
join block ALT.case ST.case
join body ST.case chassis
ground G1 G1 chassis
load L L.+ L.-
wire 1A ALT.B+ ST.30
wire 1B BAT.+ ST.30
wire 1C BAT.- G1
wire 1D ST.30 L.+
wire 1E L.- G1`)
	g := NewNet(r.h).Guards()
	kind := map[string]string{}
	for _, b := range g.Bare {
		switch {
		case b.Cranking:
			kind[r.wires([]harness.WireID{b.Wire})] = "cranking"
		case b.Output:
			kind[r.wires([]harness.WireID{b.Wire})] = "output"
		default:
			kind[r.wires([]harness.WireID{b.Wire})] = r.wires(b.Chain)
		}
	}
	require.Equal(t, map[string]string{"1A": "output", "1B": "cranking", "1D": "1B 1D"}, kind)
	earth, live := NewNet(r.h).EarthLeads(r.element("BAT"))
	require.Equal(t, "1C", r.wires(earth))
	require.Equal(t, "1B", r.wires(live))
}

func TestEarthLeadsGoThroughTheBus(t *testing.T) {
	r := build(`
battery BAT BAT.+ BAT.-
fuse F1 F1.1 F1.2
load L1 L1.+ L1.-
join BUS BUS.a BUS.b
ground G1 G1 chassis
wire A BAT.+ F1.1
wire B F1.2 L1.+
wire N BAT.- BUS.a
wire O BUS.b G1
wire P L1.- BAT.-`)
	earth, live := NewNet(r.h).EarthLeads(r.element("BAT"))
	require.Equal(t, "N O", r.wires(earth), "the load's own return is no earth lead")
	require.Equal(t, "A", r.wires(live))
}
