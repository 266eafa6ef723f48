package adversary

import "fmt"

// horns are two behind a relay that a button grounds.
func (g *grower) horns(kind string) {
	amps := g.amps(4)
	feed, fuse := g.fused(false, "Horn", 2*amps, g.area(2*amps, "tray", "bay", "nose"))
	control, _ := g.fused(false, "Horn control", 0.5, 0)
	k := g.relay("Horn", "40 A")
	b := g.name("SW")
	g.part(b, "switch", "dash", "name", "Horn button", "momentary", "true", "positions", "{up: [], pressed: [[1, 2]]}")
	one, two, s := g.load("horn", "nose", "Horn high", amps), g.load("horn", "nose", "Horn low", amps), g.splice("nose", "Horns")
	area := g.area(2*amps, "tray", "bay", "nose")
	g.roomy(area, k)
	g.roomy(area/2, one, two)
	g.circuit("Horns", "", append(feed, leg(k+".30", k+".87", s, one, g.back("nose", ""))...), leg(s, two, g.back("nose", "")),
		append(control, leg(k+".86", k+".85", b, g.back("dash", ""))...))
	g.turnedOn = append(g.turnedOn, Field{b, "pressed"})
	g.note(Device{Kind: kind, Load: one, Switch: b, Relay: k, Fuse: fuse, Place: "nose", Amps: amps})
	g.total += amps
}

// brake is two brake lamps, through the rear connector.
func (g *grower) brake(kind string) {
	amps := g.amps(1.5)
	feed, fuse := g.fused(true, "Brake lamp", 2*amps, 0)
	g.ignFed += 2 * amps
	sw := g.name("SW")
	g.part(sw, "switch", "dash", "name", "Brake switch", "momentary", "true", "positions", "{released: [], pressed: [[1, 2]]}")
	one, two, s := g.bulb("rear", "Brake lamp left", amps), g.bulb("rear", "Brake lamp right", amps), g.splice("rear", "Brake lamps")
	g.circuit("Brake lamps", "light", append(feed, leg(sw, g.plug("rear"), s, one, g.back("rear", ""))...), leg(s, two, g.back("rear", "")))
	g.turnedOn = append(g.turnedOn, Field{sw, "pressed"})
	g.note(Device{Kind: kind, Load: one, Switch: sw, Fuse: fuse, Place: "rear", Amps: amps, Key: true})
	g.total += amps
}

// twoSpeed is a blower whose switch chooses one of two windings.
func (g *grower) twoSpeed(kind string) {
	amps := g.amps(6)
	feed, fuse := g.fused(true, "Blower", amps, 0)
	g.ignFed += amps
	g.part("BLS", "switch", "dash", "name", "Blower switch", "positions", "{off: [], slow: [[B, 1]], fast: [[B, 2]]}", "rating", g.rated("motor", amps))
	g.part("BLW", "motor", "dash", "name", "Blower", "terminals", "[1, 2, 31]", "inside",
		fmt.Sprintf("[{from: 1, to: 31, draws: %s A}, {from: 2, to: 31, draws: %s A}]", num(g.round(amps/2)), num(amps)))
	g.circuit("Blower", "", append(feed, leg("BLS.B BLS.1 BLW.1 BLW.31", g.back("dash", ""))...), leg("BLS.2 BLW.2"))
	g.turnedOn = append(g.turnedOn, Field{"BLS", "slow"}, Field{"BLS", "fast"})
	g.note(Device{Kind: kind, Load: "BLW", Switch: "BLS", Fuse: fuse, Place: "dash", Amps: amps, Key: true})
}

// capacitor is a heater with a capacitor beside it against noise.
func (g *grower) capacitor(kind string) {
	amps := g.amps(2)
	feed, fuse := g.fused(true, "Ignition coil", amps, 0)
	g.ignFed += amps
	g.part("CO", "coil", "engine", "name", "Ignition coil", "draws", num(amps)+" A")
	g.part("CAP", "capacitor", "engine", "name", "Suppressor")
	g.part("PTS", "switch", "engine", "name", "Contact breaker", "positions", "{closed: [[1, 2]], open: []}")
	g.circuit("Ignition coil", "", append(feed, leg("CO.+ CO.- PTS.1 PTS.2", g.back("engine", ""))...), leg("CO.-", "CAP", g.back("engine", "")))
	g.note(Device{Kind: kind, Load: "CO", Switch: "PTS", Fuse: fuse, Place: "engine", Amps: amps, Key: true})
}

// inverter takes constant power from the power post.
func (g *grower) inverter(kind string) {
	if g.Positive || g.Volts == 6 {
		return
	}
	amps := g.amps(30)
	name := g.name("F")
	g.fusePart(name, "tray", "Inverter fuse", 50)
	sw := g.toggle("tray", "Inverter switch", "outlet", amps)
	g.Part(sw).Set("stud", "M8")
	g.part("INV", "outlet", "tray", "name", "Inverter", "draws", num(float64(int(amps*g.Volts)))+" W", "behaves", "power", "stud", "M8")
	g.circuit("Inverter", "", leg(g.post(), name+"/150", sw, "INV", g.back("tray", "M8")))
	g.note(Device{Kind: kind, Load: "INV", Switch: sw, Fuse: name, Place: "tray", Amps: amps})
}

// leisure is a second battery with split charge, mostly a solar regulator, and loads.
func (g *grower) leisure(kind string) {
	if g.Positive || g.Volts == 6 || g.Volts == 48 || g.Part("ALT") == nil {
		return
	}
	g.part("BAT2", "battery", "rear", "name", "Leisure battery", "capacity", "110 Ah", "stud", "M8")
	g.part("SCR", "relay", "rear", "name", "Split-charge relay", "rating", "120 A", "stud", "M6", "suppression", pick(g.rand, "diode", "resistor", "none"))
	g.fusePart("MF10", "tray", "Split-charge fuse front", 60)
	g.fusePart("MF11", "rear", "Split-charge fuse rear", 60)
	g.part("LP", "bus", "rear", "name", "Leisure post", "stud", "M8")
	g.part("LN", "bus", "rear", "name", "Leisure minus bar", "stud", "M8")
	g.fusePart("MF12", "rear", "Leisure fuse", 60)
	g.fusePart("FSC", "engine", "Charging signal fuse", 1)
	g.circuit("Leisure battery", "charge", leg("BAT2.+ MF12/150 LP.in"), leg("LN.bat BAT2.-/300"))
	if g.Wired {
		g.circuit("Leisure ground", "charge", leg("LN.body NEG."+g.name("n")))
	} else {
		g.circuit("Leisure ground", "charge", leg("LN.body", g.back("rear", "M10")))
	}
	g.circuit("Split charge", "charge", leg(g.post(), "MF10/150 SCR.30 SCR.87 MF11 LP.split/150"), leg("ALT.L FSC SCR.86 SCR.85 LN.k"))
	if g.chance(70) {
		g.regulator("REG", "Solar regulator", "Solar", pick(g.rand, "10 A", "20 A"))
	}
	if g.chance(40) {
		g.regulator("CHG", "Charger", "Charger", "25 A")
	}
	for i := range 1 + g.rand.IntN(3) {
		g.living(i + 1)
	}
}

// regulator is a source beside the second battery.
func (g *grower) regulator(name, title, circuit, output string) {
	volts := num(g.round(g.Volts * 1.2))
	g.part(name, "alternator", "rear", "name", title, "output", output, "regulated", volts+" V", "terminals", "[B+, B-]", "stud", "M5")
	f := g.name("F")
	g.fusePart(f, "rear", title+" fuse", 30)
	g.circuit(circuit, "charge", leg(name+".B+", f, "LP."+g.name("q")+"/150"), leg("LN."+g.name("r"), name+".B-"))
}

// living is one load of the second battery, with its return by wire.
func (g *grower) living(n int) {
	amps := g.amps(2 + float64(g.rand.IntN(40))/10)
	title := fmt.Sprintf("Living %d", n)
	what, at := pick(g.rand, "motor", "lamp", "outlet"), pick(g.rand, "dash", "rear")
	f, sw := g.name("F"), g.toggle("rear", title+" switch", what, amps)
	g.fusePart(f, "rear", title+" fuse", amps)
	load := g.load(what, at, title, amps)
	g.roomy(2*g.area(amps, "rear", at), sw, load)
	g.circuit(title, "", leg("LP."+g.name("q"), f+"/150", sw, load, "LN."+g.name("r")))
	g.note(Device{Kind: "living", Load: load, Switch: sw, Fuse: f, Place: "rear", Amps: amps})
}
