package drawing

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// model builds a harness for tests from a short description, one thing a line:
//
//	part REF KIND place | plain name | terminals
//	contact REF position A B
//	circuit NUMBER name
//	leg STOP STOP …
type model struct {
	h     *harness.Harness
	term  map[string]harness.TerminalID
	place map[string]harness.PlaceID
	part  map[string]*harness.Part
}

var customary = map[harness.Kind]string{
	harness.Battery: "+ -", harness.Alternator: "B+ L case", harness.Starter: "30 50 case", harness.Isolator: "1 2",
	harness.Fuse: "1 2", harness.Breaker: "1 2", harness.Relay: "30 85 86 87", harness.Flasher: "49 49a 31", harness.Switch: "1 2",
	harness.IgnitionSwitch: "30 75 15 50", harness.Motor: "+ -", harness.Lamp: "+ -", harness.Heater: "+ -", harness.Coil: "+ -",
	harness.Solenoid: "+ -", harness.Horn: "+ -", harness.Outlet: "+ -", harness.Sender: "+ -", harness.Gauge: "+ -",
	harness.Diode: "a k", harness.Resistor: "1 2", harness.Capacitor: "1 2", harness.Strap: "1 2", harness.Splice: "", harness.Ground: "",
}

func read(text string) *harness.Harness {
	m := &model{h: &harness.Harness{Terminals: []harness.Terminal{{Part: harness.None, Full: "chassis"}}},
		term: map[string]harness.TerminalID{}, place: map[string]harness.PlaceID{}, part: map[string]*harness.Part{}}
	m.h.Parts = make([]harness.Part, 0, 400)
	for _, line := range strings.Split(text, "\n") {
		f := strings.Fields(line)
		if len(f) == 0 {
			continue
		}
		switch f[0] {
		case "part":
			m.add(line)
		case "contact":
			m.contact(f[1], f[2], f[3], f[4])
		case "circuit":
			m.circuit(f[1], strings.Join(f[2:], " "))
		case "leg":
			m.leg(f[1:])
		}
	}
	if err := m.h.Verify(); err != nil {
		panic(err)
	}
	return m.h
}

func (m *model) add(line string) {
	cells := strings.Split(strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(line), "part")), "|")
	f := strings.Fields(cells[0])
	p := harness.Part{ID: harness.PartID(len(m.h.Parts)), Ref: f[0], Name: f[0], Kind: harness.Kind(f[1]), Place: harness.None}
	if len(f) > 2 {
		p.Place = m.at(strings.Join(f[2:], " "))
	}
	if len(cells) > 1 && strings.TrimSpace(cells[1]) != "" {
		p.Name = strings.TrimSpace(cells[1])
	}
	names := strings.Fields(customary[p.Kind])
	if len(cells) > 2 {
		names = strings.Fields(cells[2])
	}
	m.h.Parts = append(m.h.Parts, p)
	m.part[p.Ref] = &m.h.Parts[p.ID]
	m.terminals(m.part[p.Ref], names)
}

func (m *model) at(name string) harness.PlaceID {
	if _, ok := m.place[name]; !ok {
		m.place[name] = harness.PlaceID(len(m.h.Places))
		m.h.Places = append(m.h.Places, harness.Place{ID: m.place[name], Key: name, Name: name})
	}
	return m.place[name]
}

func (m *model) terminals(p *harness.Part, names []string) {
	switch p.Kind {
	case harness.Splice, harness.Ground:
		m.terminal(p, "", p.Ref, "")
	case harness.Connector:
		for _, n := range names {
			m.terminal(p, n+".in", p.Ref+"."+n+".in", n)
			m.terminal(p, n+".out", p.Ref+"."+n+".out", n)
		}
	case harness.FusePanel:
		p.Panel = &harness.Panel{Feeds: []harness.PanelFeed{{Name: "IN", Positions: names}}}
		m.terminal(p, "IN", p.Ref+".IN", "")
		for _, n := range names {
			m.terminal(p, n, p.Ref+"."+n, "")
		}
	default:
		for _, n := range names {
			m.terminal(p, n, p.Ref+"."+n, "")
		}
	}
	if p.Terminals != nil && strings.HasPrefix(customary[p.Kind], "+ -") && p.Kind != harness.Battery {
		m.h.Elements = append(m.h.Elements, harness.Element{ID: harness.ElementID(len(m.h.Elements)), Part: p.ID, Kind: harness.Load, Name: p.Ref, A: p.Terminals[0], B: p.Terminals[1], Amps: 5})
		p.Elements = append(p.Elements, harness.ElementID(len(m.h.Elements)-1))
	}
}

func (m *model) terminal(p *harness.Part, name, full, cavity string) {
	id := harness.TerminalID(len(m.h.Terminals))
	m.h.Terminals = append(m.h.Terminals, harness.Terminal{ID: id, Part: p.ID, Name: name, Full: full, Cavity: cavity})
	m.term[full] = id
	p.Terminals = append(p.Terminals, id)
}

func (m *model) contact(ref, position, a, b string) {
	p := m.part[ref]
	at := -1
	for i, n := range p.Positions {
		if n == position {
			at = i
		}
	}
	if at < 0 {
		at = len(p.Positions)
		p.Positions = append(p.Positions, position)
	}
	if a == "-" {
		return
	}
	id := harness.ElementID(len(m.h.Elements))
	m.h.Elements = append(m.h.Elements, harness.Element{ID: id, Part: p.ID, Kind: harness.Contact, Name: fmt.Sprintf("%s.%s-%s/%s", ref, a, b, position),
		A: m.term[ref+"."+a], B: m.term[ref+"."+b], When: harness.Condition{Kind: harness.InPosition, Switch: p.ID, Positions: []int{at}}})
	p.Elements = append(p.Elements, id)
}

func (m *model) circuit(number, name string) {
	m.h.Circuits = append(m.h.Circuits, harness.Circuit{ID: harness.CircuitID(len(m.h.Circuits)), Key: "c" + number, Number: number, Name: name})
}

func (m *model) leg(stops []string) {
	c := &m.h.Circuits[len(m.h.Circuits)-1]
	leg := harness.Leg{}
	_, last := m.halt(stops[0])
	for _, s := range stops[1:] {
		in, out := m.halt(s)
		if m.h.Terminals[last].Part != m.h.Terminals[in].Part {
			w := harness.Wire{ID: harness.WireID(len(m.h.Wires)), Circuit: c.ID, Leg: len(c.Legs), From: last, To: in,
				Name: fmt.Sprintf("%s%s", c.Number, letters(len(c.Wires)))}
			m.h.Wires = append(m.h.Wires, w)
			c.Wires = append(c.Wires, w.ID)
			leg.Wires = append(leg.Wires, w.ID)
		}
		last = out
	}
	c.Legs = append(c.Legs, leg)
}

func letters(n int) string {
	if n < 26 {
		return string(rune('A' + n))
	}
	return letters(n/26-1) + letters(n%26)
}

// halt gives where the current arrives and where it goes on.
func (m *model) halt(stop string) (in, out harness.TerminalID) {
	if id, ok := m.term[stop]; ok {
		return id, id
	}
	if id, ok := m.term[stop+".in"]; ok {
		return id, m.term[stop+".out"]
	}
	p, ok := m.part[stop]
	if !ok {
		panic("no stop " + stop)
	}
	return p.Terminals[0], p.Terminals[len(p.Terminals)-1]
}

// results makes up results for a model, so that every word has something to say.
func results(h *harness.Harness) *result.Result {
	r := &result.Result{}
	colours := []colour.Pair{{Base: "RD"}, {Base: "RD", Tracer: "WH"}, {Base: "OG", Tracer: "BK"}, {Base: "BU", Tracer: "YE"}, {Base: "GN"}, {Base: "YE"}, {Base: "WH"}, {Base: "VT", Tracer: "WH"}, {Base: "BN"}}
	sizes := []chosen.Wire{{Gauge: unit.Gauge{Size: "0.75"}, Area: 0.75}, {Gauge: unit.Gauge{Size: "2.5"}, Area: 2.5}, {Gauge: unit.Gauge{Size: "6"}, Area: 6}}
	for i, w := range h.Wires {
		pair := colours[i%len(colours)]
		if p := h.PartOf(w.To); p.Kind == harness.Ground {
			pair = colour.Pair{Base: "BK"}
		}
		r.Colours = append(r.Colours, colour.Choice{Pair: pair})
		r.Wires = append(r.Wires, sizes[(i/3)%3])
	}
	st := network.State{Name: "driving"}
	for i := range h.Terminals {
		st.Volts = append(st.Volts, 14.2-float64(i%7)*0.1)
	}
	for i := range h.Elements {
		st.Amps = append(st.Amps, 5)
		if e := &h.Elements[i]; e.Kind == harness.Load {
			r.Loads = append(r.Loads, chosen.Load{Element: e.ID, Name: e.Name, Amps: 5, On: []string{"driving"}})
		}
	}
	r.States = []network.State{st}
	for _, p := range h.Parts {
		switch p.Kind {
		case harness.Fuse:
			r.Fuses = append(r.Fuses, chosen.Fuse{Part: p.ID, Rating: 30, Body: "maxi", BodyColour: "green"})
		case harness.FusePanel:
			for _, pos := range p.Panel.Feeds[0].Positions {
				r.Fuses = append(r.Fuses, chosen.Fuse{Part: p.ID, Position: pos, Rating: 10, Body: "blade", BodyColour: "red"})
			}
		}
	}
	return r
}

const fan = `
part BAT battery tray | Battery
part MF1 fuse tray | Main fan fuse
part K1 relay bulkhead | Fan relay
part FAN motor radiator support | Radiator fan
part TS1 switch thermostat housing | Coolant switch
contact TS1 cold - -
contact TS1 hot 1 2
part FP fuse-panel dash | Dash panel | 1 2 3 4 5 6 7 8 9 10 11 12
part G1 ground radiator support
part G2 ground bulkhead
part MF2 fuse tray | Panel fuse
circuit 11 Panel feed
leg BAT.+ MF2 FP.IN
leg BAT.- G1
circuit 12 Radiator fan
leg BAT.+ MF1 K1.30 K1.87 FAN.+ FAN.- G1
leg FP.7 TS1.1 TS1.2 K1.86 K1.85 G2
`

const lights = fan + `
part X1 connector bulkhead | Front loom | 1 2 3 4 5 6 7 8
part LS switch dash | Light switch | B P T H F
contact LS off - -
contact LS side B P
contact LS side B T
contact LS head B P
contact LS head B T
contact LS head B H
contact LS fog B P
contact LS fog B T
contact LS fog B F
contact LS flash B H
part HL lamp left front wing | Left headlamp
part HR lamp right front wing | Right headlamp
part PL lamp left front wing | Left side lamp
part PR lamp right front wing | Right side lamp
part FL lamp rear valance | Rear fog lamp
part TL lamp left rear quarter | Left tail lamp
part TR lamp right rear quarter | Right tail lamp
part S1 splice
part S2 splice
part S3 splice
part G4 ground boot floor
circuit 20 Exterior lamps
leg FP.3 LS.B
leg LS.H S1 X1.1 HL.+ HL.- X1.2 G1
leg S1 X1.3 HR.+ HR.- G1
leg LS.P S2 X1.4 PL.+ PL.- G1
leg S2 X1.5 PR.+ PR.- G1
leg LS.T S3 TL.+ TL.- G4
leg S3 TR.+ TR.- G4
leg LS.F FL.+ FL.- G4
circuit 21 Horn
part HN horn grille | Horn
part HB switch steering column | Horn push
contact HB rest - -
contact HB pressed 1 2
leg FP.4 HB.1 HB.2 HN.+ HN.- G1
circuit 22 Fuel pump
part FPM motor tank | Fuel pump
part IGN ignition-switch dash | Ignition switch
contact IGN off - -
contact IGN accessory 30 75
contact IGN run 30 75
contact IGN run 30 15
contact IGN start 30 15
contact IGN start 30 50
leg MF2.2 IGN.30
leg IGN.15 FPM.+ FPM.- G4
leg IGN.50 STA.50
leg BAT.+ STA.30
leg STA.case G2
circuit 23 Charging
part ALT alternator engine | Alternator
part WL lamp dash | Charge lamp
leg ALT.B+ BAT.+
leg IGN.15 WL.+ WL.- ALT.L
`

var car = strings.Replace(lights, "circuit 20", "part STA starter gearbox | Starter\ncircuit 20", 1)

// panel is a circuit with twelve loads on one panel.
func panel() string {
	text := fan + "circuit 30 Interior and accessories\n"
	for i := range 12 {
		kind := []string{"lamp", "outlet", "heater", "horn", "motor", "gauge"}[i%6]
		text += fmt.Sprintf("part L%d %s cabin %d | Accessory %d\nleg FP.%d L%d.+ L%d.- G2\n", i, kind, i, i, i+1, i, i)
	}
	return text
}
