package adversary

import "fmt"

// breaker gives kind and body of a fuse for so much current: at 48 V breakers, since
// a vehicle's common fuse bodies are made for 32 V (ISO 8820-3, UL 275).
func (g *grower) fusePart(name, at, title string, amps float64) *Entry {
	switch {
	case g.Volts == 48:
		return g.part(name, "breaker", at, "name", title, "type", "3")
	case amps > 45:
		return g.part(name, "fuse", at, "name", title, "body", "bolt", "stud", "M8")
	case amps > 22:
		return g.part(name, "fuse", at, "name", title, "body", "maxi")
	}
	e := g.part(name, "fuse", at, "name", title)
	if g.Volts == 6 && amps > 11 {
		e.Set("body", "maxi")
	} else if g.Volts == 6 {
		e.Set("body", "glass")
	} else if g.chance(30) {
		e.Set("body", pick(g.rand, "mini", "blade"))
	}
	return e
}

// supply is the battery, its ground, isolator, main fuse, power post and starter.
func (g *grower) supply() {
	g.part("BAT", "battery", "tray", "name", "Battery", "capacity", pick(g.rand, "60 Ah", "75 Ah", "90 Ah"), "stud", "M8")
	g.fusePart("MF1", "tray", "Main fuse", 80)
	g.part("PP", "bus", "tray", "name", "Power post", "stud", "M8")
	g.start = g.chance(65) && g.Volts < 48
	g.isolated = g.chance(45)
	class := "charge"
	if g.start {
		class = "start"
	}
	if g.Wired {
		g.part("NEG", "bus", "tray", "name", "Minus bar", "stud", "M8")
		g.circuit("Battery ground", class, leg("NEG.bat BAT.-/300"))
	} else {
		g.part("G0", "ground", "tray", "name", "Battery ground", "stud", "M10")
		g.circuit("Battery ground", class, leg("G0 BAT.-/300"))
	}
	feed := leg("BAT.+ MF1/150 PP.in")
	if g.isolated {
		g.part("ISO", "isolator", "tray", "name", "Battery isolator", "rating", "300 A", "stud", "M10")
		feed = leg("BAT.+ ISO.1/90 ISO.2 MF1/80 PP.in")
	}
	g.circuit("Battery feed", "charge", feed)
	if g.start {
		g.starter()
	}
}

// post is a new stop at the power post.
func (g *grower) post() string { return "PP." + g.name("p") }

// starter is the starter with its cable, its engine ground and what works it.
func (g *grower) starter() {
	from := "BAT.+"
	if g.isolated {
		from = "ISO.2"
	}
	amps := min(g.amps(float64(g.tens(120, 190))), g.crankable())
	back := g.back("engine", "M10")
	if g.Positive || g.chance(25) {
		g.outsideStarter(from, back, amps)
		return
	}
	g.part("ST", "starter", "engine", "name", "Starter", "draws", num(amps)+" A", "solenoid", num(g.amps(12))+" A")
	g.circuit("Starter cable", "start", leg(from, "ST.30"), leg("ST.case", back))
}

// crankable is what copper of 50 mm² brings to the starter and back within 0.4 V.
func (g *grower) crankable() float64 {
	way := float64(g.distance[[2]string{"tray", "engine"}]+800) / 1000
	if g.Wired {
		way *= 2
	}
	return float64(int(0.4 / (way * 0.01724 / 50)))
}

// outsideStarter is one without a solenoid: a switch under the foot, or a solenoid on the bulkhead.
func (g *grower) outsideStarter(from, back string, amps float64) {
	g.part("ST", "starter", "engine", "name", "Starter", "terminals", "[case, 30]", "inside",
		fmt.Sprintf("[{from: 30, to: case, draws: %s A, behaves: motor}]", num(amps)))
	g.part("SOL", "relay", "bay", "name", "Starter solenoid", "rating", "400 A", "stud", "M8")
	g.circuit("Starter cable", "start", leg(from, "SOL.30 SOL.87 ST.30"), leg("ST.case", back))
}

// back is where something at a place returns: the minus bar, or a ground there with
// three rings at most. A stud makes a ground of its own.
func (g *grower) back(place, stud string) string {
	if g.Wired {
		return "NEG." + g.name("n")
	}
	if name := g.ground[place]; name != "" && stud == "" && g.rings[name] < 3 {
		g.rings[name]++
		return name
	}
	name := g.name("G")
	e := g.part(name, "ground", place, "name", "Ground "+name)
	if stud == "" {
		stud = "M6"
		g.ground[place], g.rings[name] = name, 1
	}
	e.Set("stud", stud)
	return name
}

// charging is the alternator, fused at the post (33 CFR 183.455 exempts no alternator).
func (g *grower) charging() {
	if !g.start && g.chance(40) {
		return
	}
	g.part("ALT", "alternator", "engine", "name", "Alternator", "output", "60 A")
	g.fusePart("MF2", "tray", "Charging fuse", 60)
	g.circuit("Alternator", "charge", leg("ALT.B+ MF2 PP.alt/150"))
	if !g.start {
		g.circuit("Engine ground", "charge", leg("ALT.case", g.back("engine", "M8")))
	}
}

// key is the ignition switch with what it feeds, and the control of the starter.
func (g *grower) key() {
	g.part("IGN", "ignition-switch", "dash", "name", "Ignition switch", "rating", g.rated("lamp", 12), "stud", "M6")
	g.fusePart("FI", "tray", "Ignition fuse", 30)
	g.ignMost = g.amps(11)
	feed := leg(g.post(), "FI/150", "IGN.30")
	if g.panel {
		g.part("FP", "fuse-panel", "dash", "name", "Fuse panel", "body", g.panelBody())
		g.fusePart("FB", "tray", "Panel fuse", 60)
		g.circuit("Panel feed", "", leg(g.post(), "FB/150", "FP.bat"))
		g.circuit("Ignition", "", feed, leg("IGN.15 FP.ign"))
	} else {
		g.part("PI", "bus", "dash", "name", "Ignition rail", "stud", "M6")
		g.circuit("Ignition", "", feed, leg("IGN.15 PI.in"))
	}
	if g.start {
		g.crank()
	}
}

func (g *grower) panelBody() string {
	if g.Volts == 6 {
		return "glass"
	}
	return pick(g.rand, "blade", "blade", "mini")
}

// crank is what the key's start position works: solenoid or relay.
func (g *grower) crank() {
	if g.Part("SOL") != nil {
		g.circuit("Starter control", "control", leg("IGN.50 SOL.86 SOL.85", g.back("bay", "")))
		return
	}
	if g.chance(40) {
		g.circuit("Starter control", "control", leg("IGN.50 ST.50"))
		return
	}
	g.part("KS", "relay", "bay", "name", "Starter relay", "rating", "40 A")
	g.fusePart("FS", "tray", "Starter control fuse", g.amps(15))
	g.circuit("Starter control", "control", leg(g.post(), "FS/150", "KS.30 KS.87 ST.50"), leg("IGN.50 KS.86 KS.85", g.back("bay", "")))
}

// fused is the feed of a device with its fuse: always live, or behind the key.
func (g *grower) fused(key bool, title string, amps, area float64) (Leg, string) {
	if g.panel && (key && g.ign < 12 || !key && g.bat < 12) && amps < 11 && area < 1.5 {
		n := &g.bat
		if key {
			n = &g.ign
		}
		*n++
		name := fmt.Sprintf("FP.%s%d", map[bool]string{true: "i", false: "b"}[key], *n)
		return leg(name), name
	}
	name := g.name("F")
	if key && !g.panel {
		g.fusePart(name, "dash", title+" fuse", amps)
		return leg("PI."+g.name("p"), name+"/150"), name
	}
	g.fusePart(name, "tray", title+" fuse", amps)
	return leg(g.post(), name+"/150"), name
}
