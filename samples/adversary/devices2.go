package adversary

import "fmt"

// beams are dipped and main beam of two lamps each, from a light and a dip switch.
func (g *grower) beams(kind string) {
	amps := g.amps(3.9)
	feed, fuse := g.fused(false, "Beam", 2*amps, 0)
	g.part("LS", "switch", "dash", "name", "Light switch", "positions", "{off: [], head: [[30, 56]]}", "rating", g.rated("lamp", 2*amps))
	g.part("DIP", "switch", "dash", "name", "Dip switch", "positions", "{dipped: [[56, 56b]], main: [[56, 56a]]}", "rating", g.rated("lamp", 2*amps))
	var lamps [4]string
	for i, title := range []string{"Dipped left", "Dipped right", "Main left", "Main right"} {
		lamps[i] = g.load("lamp", "nose", title, amps)
		g.Part(lamps[i]).Set("behaves", "")
	}
	low, high := g.splice("nose", "Dipped"), g.splice("nose", "Main")
	g.circuit("Head lamps", "light", append(feed, leg("LS.30 LS.56 DIP.56 DIP.56b", low, lamps[0], g.back("nose", ""))...),
		leg(low, lamps[1], g.back("nose", "")), leg("DIP.56a", high, lamps[2], g.back("nose", "")), leg(high, lamps[3], g.back("nose", "")))
	g.note(Device{Kind: kind, Load: lamps[0], Switch: "LS", Fuse: fuse, Place: "nose", Amps: amps})
	g.total += amps
	g.turnedOn = append(g.turnedOn, Field{"LS", "head"})
	g.extra = append(g.extra, Fields{{"LS", "head"}, {"DIP", "main"}})
}

// changedOver is a changeover relay between two loads, a lamp on each contact.
func (g *grower) changedOver(kind string) {
	amps := g.amps(3)
	feed, fuse := g.fused(true, "Day lamp", amps, 0)
	control, _ := g.fused(true, "Day lamp control", 0.5, 0)
	g.ignFed += amps
	k := g.relay("Day lamp", "40 A")
	g.Part(k).Set("changeover", "true")
	sw := g.toggle("dash", "Day lamp switch", "coil", 0)
	a, b := g.load("lamp", "nose", "Spot lamp", amps), g.load("lamp", "nose", "Day lamp", amps)
	g.circuit("Day lamps", "light", append(feed, leg(k+".30", k+".87", a, g.back("nose", ""))...),
		leg(k+".87a", b, g.back("nose", "")), append(control, leg(sw, k+".86", k+".85", g.back("bay", ""))...))
	g.extra = append(g.extra, Fields{})
	g.total += amps
	g.note(Device{Kind: kind, Load: a, Switch: sw, Relay: k, Fuse: fuse, Place: "nose", Amps: amps, Key: true})
}

// indicators are two 21 W lamps a side on a flasher, half of them with a hazard
// switch that changes the flasher's feed over.
func (g *grower) indicators(kind string) {
	amps := g.amps(1.5)
	feed, fuse := g.fused(true, "Indicator", 2*amps, 0)
	g.ignFed += 2 * amps
	g.part("FLS", "flasher", "dash", "name", "Flasher", "needs", num(g.round(amps*1.4))+" A")
	g.part("IND", "switch", "dash", "name", "Indicator stalk", "positions", "{off: [], left: [[49a, L]], right: [[49a, R]]}")
	legs := []Leg{append(feed, leg("FLS.49 FLS.49a IND.49a")...), leg("FLS.31", g.back("dash", ""))}
	hazard := g.chance(50)
	if hazard {
		live, _ := g.fused(false, "Hazard", 4*amps, 0)
		g.part("HAZ", "switch", "dash", "tab", "9.5", "name", "Hazard switch", "positions", "{off: [[15, 49]], on: [[30, 49], [49a, L], [49a, R]]}", "rating", g.rated("lamp", 4.4*amps))
		legs[0] = append(feed, leg("HAZ.15 HAZ.49 FLS.49 FLS.49a IND.49a")...)
		legs = append(legs, append(live, leg("HAZ.30")...), leg("FLS.49a HAZ.49a"))
		g.extra = append(g.extra, Fields{{"HAZ", `"on"`}})
	}
	var first string
	for _, side := range []string{"L", "R"} {
		s := g.splice("dash", "Indicator "+side)
		front, rear := g.bulb("nose", "Front indicator "+side, amps), g.bulb("rear", "Rear indicator "+side, amps)
		legs = append(legs, leg("IND."+side, s, front, g.back("nose", "")), leg(s, rear, g.back("rear", "")))
		if hazard {
			legs = append(legs, leg("HAZ."+side, s))
		}
		first = front
	}
	g.circuit("Indicators", "light", legs...)
	g.turnedOn = append(g.turnedOn, Field{"IND", "left"}, Field{"IND", "right"})
	g.note(Device{Kind: kind, Load: first, Switch: "IND", Fuse: fuse, Place: "nose", Amps: amps, Key: true})
	g.total += 3 * amps
}

// bulb is a lamp with a filament of 21 W, at 6 V of 15 W.
func (g *grower) bulb(at, title string, amps float64) string {
	name, watts := g.name("L"), "21 W"
	if g.Volts == 6 {
		watts = "15 W"
	}
	g.part(name, "lamp", at, "name", title, "draws", watts)
	return name
}

// gauge is a gauge in series with its sender.
func (g *grower) gauge(kind string) {
	title := fmt.Sprintf("Consumer %d", len(g.Devices)+1)
	feed, fuse := g.fused(true, title, 0.2, 0)
	at := pick(g.rand, "rear", "engine")
	one, two := g.name("GA"), g.name("SE")
	g.part(one, "gauge", "dash", "name", title+" gauge", "draws", "0.1 A")
	g.part(two, "sender", at, "name", title+" sender", "draws", "0.1 A")
	class := "sense"
	if g.Volts == 6 || g.Wired { // 1 % is less than the leads lose that it shares with others
		class = ""
	}
	g.circuit(title, class, append(feed, leg(one, two, g.back(at, ""))...))
	g.note(Device{Kind: kind, Load: one, Fuse: fuse, Place: at, Amps: 0.1, Key: true})
}

// warning is a lamp that a switch on the engine grounds.
func (g *grower) warning(kind string) {
	title := fmt.Sprintf("Consumer %d", len(g.Devices)+1)
	feed, fuse := g.fused(true, title, 0.2, 0)
	lamp, sw := g.name("L"), g.name("SW")
	g.part(lamp, "lamp", "dash", "name", title+" lamp", "draws", "1.2 W")
	g.part(sw, "switch", "engine", "name", title+" switch", "positions", "{closed: [[1, 2]], open: []}")
	g.circuit(title, "light", append(feed, leg(lamp, sw, g.back("engine", ""))...))
	g.note(Device{Kind: kind, Load: lamp, Switch: sw, Fuse: fuse, Place: "dash", Amps: g.round(1.2 / g.Running), Key: true})
}

// module is a control unit behind the key that works down to a voltage.
func (g *grower) module(kind string) {
	amps := g.amps(0.5 + float64(g.rand.IntN(30))/10)
	title := fmt.Sprintf("Consumer %d", len(g.Devices)+1)
	feed, fuse := g.fused(true, title, amps, 0)
	g.ignFed += amps
	name := g.name("U")
	e := g.part(name, "module", "bay", "name", title+" unit", "inside", fmt.Sprintf("[{from: 15, to: 31, draws: %s A}]", num(amps)))
	if g.chance(50) {
		e.Set("works-above", num(g.round(g.Volts*0.45))+" V")
	}
	g.circuit(title, "", append(feed, leg(name+".15", name+".31", g.back("bay", ""))...))
	g.note(Device{Kind: kind, Load: name, Fuse: fuse, Place: "bay", Amps: amps, Key: true})
}

// diode keeps a small load's current from running back.
func (g *grower) diode(kind string) {
	amps := g.amps(0.5 + float64(g.rand.IntN(15))/10)
	title := fmt.Sprintf("Consumer %d", len(g.Devices)+1)
	feed, fuse := g.fused(true, title, amps, 0)
	g.ignFed += amps
	d, sw := g.name("D"), g.toggle("dash", title+" switch", "lamp", amps)
	g.part(d, "diode", "dash", "name", title+" diode")
	at := g.place()
	load := g.load(pick(g.rand, "lamp", "heater"), at, title, amps)
	g.circuit(title, "light", append(feed, leg(sw, d, load, g.back(at, ""))...))
	g.note(Device{Kind: kind, Load: load, Switch: sw, Relay: d, Fuse: fuse, Place: at, Amps: amps, Key: true})
}
