package adversary

import "slices"

func feedThinned(x *breaking) bool {
	d := x.device(func(d *Device) bool { return d.Amps > 6 && (d.Kind == "switched" || d.Kind == "relayed") })
	if d == nil {
		return false
	}
	s, name := x.arriving(d.Load)
	s.Fields = s.With("gauge", "0.22 mm2")
	return x.say("the feed overheats", "gauge-given-too-thin", name)
}

func returnThinned(x *breaking) bool {
	d := x.device(func(d *Device) bool { return d.Amps > 6 && (d.Kind == "switched" || d.Kind == "relayed") })
	if d == nil {
		return false
	}
	s, name := x.leaving(d.Load)
	s.Fields = s.With("gauge", "0.22 mm2")
	return x.say("the return overheats", "gauge-given-too-thin", name)
}

func sourceReturnThinned(x *breaking) bool {
	for _, n := range []string{"REG", "CHG"} {
		if s, name := x.arriving(n); s != nil && x.Part(n) != nil {
			s.Fields = s.With("gauge", "0.5 mm2")
			return x.say("the charging current overheats the minus lead", "gauge-given-too-thin", name)
		}
	}
	return false
}

func batteryGroundThinned(x *breaking) bool {
	if x.Part("ST") == nil {
		return false
	}
	s, name := x.arriving("BAT")
	s.Fields = s.With("gauge", "2.5 mm2")
	return x.say("the starter's current burns the battery's ground lead", "gauge-given-too-thin", name)
}

func regulatorStarved(x *breaking) bool {
	if x.Part("REG") == nil {
		return false
	}
	s, name := x.leaving("REG")
	p, _ := x.spot("REG.B+")
	fuse := p.leg()[p.Row+1].To
	s.Fields = s.With("gauge", "0.75 mm2").With("length", "6 m")
	return x.say("the battery never gets its charging voltage", "regulator-starved gauge-given-too-thin", name, fuse, "REG")
}

// crimpMismatch asks for a yellow crimp on wire of 16 gauge.
func crimpMismatch(x *breaking) bool {
	d := x.loaded(0, "lamp", "heater", "outlet")
	if d == nil {
		return false
	}
	x.Part(d.Load).Set("sleeve", "yellow")
	x.Part(d.Load).Set("stud", "")
	s, name := x.arriving(d.Load)
	s.Fields = s.With("gauge", "1 mm2")
	return x.say("a yellow crimp on thin wire pulls off", "terminal-does-not-fit", name, d.Load)
}

// feederAdded puts a charger on a post whose branch is given for the main fuse alone.
func feederAdded(x *breaking) bool {
	p, ok := x.spot("FB")
	if !ok || x.Part("ALT") != nil {
		return false
	}
	x.Part("MF1").Set("rating", "200 A")
	x.Part("FP").Set("stud", "M8")
	p.put(1)
	x.remove("FB")
	p.Stop().Fields = Fields{{"gauge", "50 mm2"}}
	x.add("CX", "alternator", "tray", "output", "120 A", "regulated", num(x.Running)+" V", "terminals", "[B+, B-]")
	x.add("FX", "fuse", "tray", "body", "bolt", "rating", "200 A", "stud", "M8")
	x.more("Added charger", "charge", leg("CX.B+ FX/150 PP.x1/150"), leg(x.groundTray(), "CX.B-/300"))
	return x.say("main fuse and charger together feed the branch", "gauge-given-too-thin fuse-too-big wire-too-weak-for-fuse unprotected-feed",
		p.wire(x.Sketch), "PP", "FX", "MF1")
}

func (x *breaking) groundTray() string {
	if x.Wired {
		return "NEG.x2"
	}
	x.add("GY", "ground", "tray", "stud", "M8")
	return "GY"
}

func seriesBattery(x *breaking) bool {
	p, ok := x.spotAt("BAT.-")
	if !ok {
		return false
	}
	volts := num(x.Volts*1.05) + " V"
	x.add("BAT3", "battery", "tray", "capacity", "60 Ah", "emf", volts)
	x.Part("BAT").Set("emf", volts)
	p.put(1, "BAT3.-/300")
	p.Circuit.Legs = append(p.Circuit.Legs, leg("BAT3.+ BAT.-/300"))
	return x.say("every load gets twice its voltage", "over-voltage voltage-out-of-scope")
}

func halfVolts(x *breaking) bool {
	d := x.loaded(0, "lamp", "motor", "heater", "solenoid")
	if d == nil || x.Volts < 12 {
		return false
	}
	x.Part(d.Load).Set("at-volts", num(x.Running/2)+" V")
	return x.say("it gets twice its voltage and burns out", "over-voltage", d.Load)
}

func doubleVolts(x *breaking) bool {
	d := x.loaded(0, "lamp", "heater", "solenoid")
	if d == nil || x.Volts > 24 {
		return false
	}
	x.Part(d.Load).Set("at-volts", num(x.Running*2)+" V")
	return x.say("it gets half its voltage", "below-working-voltage", d.Load)
}

// stateRemoved takes away every state that turns a load on: no wire may get thinner.
func stateRemoved(x *breaking) bool {
	d := x.device(func(d *Device) bool { return d.Switch != "" && (d.Kind == "switched" || d.Kind == "relayed") })
	if d == nil || len(x.States) == 0 {
		return false
	}
	x.out.Sound, x.out.Circuit = x.Clone(), d.Circuit.Key
	for _, s := range x.States {
		s.Set = s.Set.With(d.Switch, "")
	}
	return x.say("what no state turns on must be sized all the same", "load-never-on", d.Load)
}

func groundRemoved(x *breaking) bool {
	d := x.loaded(0, "motor", "lamp", "heater", "outlet", "solenoid", "horn")
	if d == nil {
		return false
	}
	p, _ := x.spot(d.Load)
	p.put(len(p.leg())-p.Row, d.Load)
	return x.say("it finds its way through what else is joined to it", "terminal-without-wire floating-load", d.Load)
}

func minusAdrift(x *breaking) bool {
	if !x.Wired {
		return false
	}
	x.Circuits = slices.DeleteFunc(x.Circuits, func(c *Circuit) bool { return c.Name == "Battery ground" })
	return x.say("nothing returns to the battery", "no-return-to-source", "NEG", "BAT")
}

func leisureAdrift(x *breaking) bool {
	if x.Part("BAT2") == nil {
		return false
	}
	for _, c := range x.Circuits {
		if c.Name == "Leisure battery" {
			c.Legs = c.Legs[:1]
		}
	}
	return x.say("the second battery's return is missing", "no-return-to-source", "BAT2", "LN")
}

func groundUnknown(x *breaking) bool {
	d := x.loaded(0, "motor", "lamp", "heater", "outlet", "solenoid", "horn")
	if d == nil || x.Wired {
		return false
	}
	p, _ := x.spot(d.Load)
	last := Spot{p.Circuit, p.Leg, len(p.leg()) - 1}
	last.put(1, "G77")
	return x.say("a ground that nobody described", "unknown-part", "G77")
}

func engineStrap(x *breaking) bool {
	if x.Part("ST") == nil {
		return false
	}
	for _, c := range x.Circuits {
		if c.Name == "Starter cable" {
			c.Legs = slices.DeleteFunc(c.Legs, func(l Leg) bool { return l[0].To == "ST.case" })
		}
	}
	return x.say("the starter's current returns through throttle cables", "no-engine-strap terminal-without-wire floating-load", "ST", "ALT")
}

// ringStack puts six returns on one ground.
func ringStack(x *breaking) bool {
	g := x.OfKind("ground")
	if x.Wired || len(g) < 3 {
		return false
	}
	at := "G1"
	n := 0
	for _, name := range []string{"G2", "G3", "G4", "G5", "G6"} {
		for _, p := range x.Stops(name) {
			if l := p.leg(); p.Row == len(l)-1 && n < 6 && x.Part(name).Get("stud") == "M6" {
				p.Stop().To = at
				n++
			}
		}
	}
	for _, e := range g {
		if len(x.Stops(e.Name)) == 0 {
			x.remove(e.Name)
		}
	}
	return n+len(x.Stops(at)) > 6 && len(x.Stops(at)) > 6 && x.Part(at) != nil && x.Part(at).Get("stud") == "M6" &&
		x.say("six rings on one stud work loose", "too-many-rings", at)
}
