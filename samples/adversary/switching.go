package adversary

import "slices"

func isolatorBypassed(x *breaking) bool {
	if x.Part("ISO") == nil {
		return false
	}
	x.add("FX", "fuse", "tray", "body", "bolt", "rating", "80 A", "stud", "M8")
	x.more("Second feed", "charge", leg("BAT.+ FX/150 PP.x1/150"))
	return x.say("the isolator kills nothing", "isolator-bypassed", "ISO")
}

func isolatorBridged(x *breaking) bool {
	if x.Part("ISO") == nil {
		return false
	}
	x.more("Bridge", "charge", leg("BAT.+ ISO.2/60"))
	return x.say("the isolator kills nothing", "isolator-bypassed", "ISO", "BAT")
}

// keyLost takes away the wire from the key's run terminal.
func keyLost(x *breaking) bool {
	for _, c := range x.Circuits {
		if c.Name == "Ignition" {
			c.Legs = slices.DeleteFunc(c.Legs, func(l Leg) bool { return l[0].To == "IGN.15" })
		}
	}
	if x.of("module", "gauge", "warning", "diode", "brake", "indicators") == nil {
		return false
	}
	names := []string{"IGN", "PI", "FP"}
	for _, d := range x.Devices {
		names = append(names, d.Load, d.Relay)
	}
	return x.say("what hangs on the key is fed by nothing", "unfed-load", names...)
}

func switchBridged(x *breaking) bool {
	d := x.device(func(d *Device) bool { return d.Kind == "switched" })
	if d == nil {
		return false
	}
	x.add("SZ", "splice", x.Part(d.Switch).Get("at"))
	x.more("Stray wire", "", leg(d.Switch+".1", "SZ", d.Switch+".2"))
	return x.say("the switch no longer turns it off", "switch-bypassed", d.Switch)
}

// keyJoined joins what the key feeds in its first position to what it feeds at run.
func keyJoined(x *breaking) bool {
	x.more("Stray wire", "", leg("IGN.75", "IGN.15/100"))
	return x.say("the ignition is live at accessory", "switch-bypassed", "IGN")
}

// starterOnRun feeds the starter's control from the terminal that is live at run.
func starterOnRun(x *breaking) bool {
	p, ok := x.spot("IGN.50")
	if !ok || x.Part("SOL") != nil || x.Part("ST") == nil {
		return false
	}
	p.put(1, "IGN.15")
	return x.say("the starter stays engaged", "starter-while-running", "ST")
}

// keyTurned swaps the wires at the key's feed and its run terminal.
func keyTurned(x *breaking) bool {
	in, ok := x.spot("IGN.30")
	out, found := x.spot("IGN.15")
	if !ok || !found || len(x.Stops("IGN.30")) > 1 || len(x.Stops("IGN.15")) > 1 {
		return false
	}
	in.put(1, "IGN.15")
	out.put(1, "IGN.30")
	return x.say("the key feeds nothing at accessory and start", "fed-at-outlet", "IGN")
}

// fedRound joins the loads of a live and a keyed device behind their switches.
func fedRound(x *breaking) bool {
	live := x.device(func(d *Device) bool { return d.Kind == "switched" && !d.Key })
	key := x.device(func(d *Device) bool { return d.Kind == "switched" && d.Key })
	if live == nil || key == nil {
		return false
	}
	x.more("Stray wire", "", leg(x.exit(live.Switch), x.exit(key.Switch)))
	return x.say("each switch turns both on, and the key no longer turns it off", "sneak-path parallel-fuses fed-from-two-fuses",
		live.Load, key.Load, live.Switch, key.Switch, live.Fuse, key.Fuse)
}

func switchToGround(x *breaking) bool {
	d := x.device(func(d *Device) bool { return d.Kind == "switched" })
	if d == nil {
		return false
	}
	x.more("Stray wire", "", leg(x.exit(d.Switch), x.groundOf()))
	return x.say("turning it on makes a short", "short-circuit", d.Switch, d.Fuse, d.Load)
}

// lampsInSeries feeds the second lamp from the first.
func lampsInSeries(x *breaking) bool {
	d := x.of("lamps")
	if d == nil {
		return false
	}
	second := d.Circuit.Legs[1][1].To
	p, _ := x.spot(d.Load)
	splice := Spot{p.Circuit, p.Leg, p.Row - 1}
	x.remove(splice.Stop().To)
	splice.put(2, d.Load, second)
	d.Circuit.Legs = d.Circuit.Legs[:1]
	for _, e := range x.OfKind("ground") {
		if len(x.Stops(e.Name)) == 0 {
			x.remove(e.Name)
		}
	}
	return x.say("both glow at half their voltage", "loads-in-series", d.Load, second)
}

func flasherLow(x *breaking) bool {
	d := x.of("indicators")
	if d == nil {
		return false
	}
	for _, p := range x.OfKind("lamp") {
		if name := p.Get("name"); len(name) > 16 && (name[:15] == "Front indicator" || name[:14] == "Rear indicator") {
			p.Set("draws", "2 W")
			p.Set("behaves", "current")
		}
	}
	return x.say("it does not flash", "flasher-load-low", "FLS")
}

// worksAbove makes a unit need more than a battery gives that turns a starter.
func worksAbove(x *breaking) bool {
	d := x.of("module")
	if d == nil || x.Part("ST") == nil || len(x.States) == 0 {
		return false
	}
	x.Part(d.Load).Set("works-above", num(x.Volts*1.03)+" V")
	return x.say("the unit drops out while cranking", "below-working-voltage", d.Load)
}

// keyUnrated puts 18 A on an ignition switch without a rating.
func keyUnrated(x *breaking) bool {
	if x.Volts == 48 || x.Positive {
		return false
	}
	x.Part("IGN").Set("rating", "")
	x.add("HX", "heater", "dash", "draws", "18 A", "stud", "M6")
	x.add("FX", "fuse", "dash", "body", "maxi")
	x.add("SX", "switch", "dash", "positions", "{off: [], on: [[1, 2]]}", "rating", "50 A", "stud", "M6")
	x.more("Heater", "", leg("IGN.15 FX/150 SX HX", x.dashGround()))
	for _, s := range x.States {
		if s.Set.Get("IGN") == "run" {
			s.Set = s.Set.With("SX", `"on"`)
		}
	}
	return x.say("the key's contacts burn", "contact-unrated", "IGN")
}

func (x *breaking) dashGround() string {
	if x.Wired {
		return "NEG.x3"
	}
	x.add("GZ", "ground", "dash", "stud", "M6")
	return "GZ"
}

func switchOverloaded(x *breaking) bool {
	d := x.device(func(d *Device) bool { return d.Kind == "switched" && d.Amps > 3 })
	if d == nil {
		return false
	}
	x.Part(d.Switch).Set("rating", "2 A")
	return x.say("its contacts burn", "contact-overloaded", d.Switch)
}

func relayOverloaded(x *breaking) bool {
	d := x.relayOf("relayed", "ground-relayed")
	if d == nil || d.Amps < 4 {
		return false
	}
	x.Part(d.Relay).Set("rating", "3 A")
	return x.say("its contacts weld", "contact-overloaded", d.Relay)
}

// drainAtRest feeds a unit that belongs behind the key from the live side.
func drainAtRest(x *breaking) bool {
	if x.Volts == 48 {
		return false
	}
	x.add("UX", "module", "dash", "inside", "[{from: 15, to: 31, draws: 0.9 A}]")
	x.add("FX", "fuse", "tray")
	x.more("Unit", "", leg("PP.x1 FX/150 UX.15 UX.31", x.dashGround()))
	return x.say("the battery is flat in days", "key-off-drain", "UX", "system", "FX")
}

func alternatorSmall(x *breaking) bool {
	d := x.device(func(d *Device) bool { return d.Switch != "" && d.Amps > 4 })
	if d == nil || x.Part("ALT") == nil || len(x.States) == 0 || x.Part("REG") != nil || x.Part("CHG") != nil {
		return false
	}
	x.Part("ALT").Set("output", "2 A")
	return x.say("the battery goes flat on the road", "alternator-overloaded", "ALT", "system")
}

// cavityTwice leads another circuit through a cavity that is taken.
func cavityTwice(x *breaking) bool {
	d := x.device(func(d *Device) bool { return d.Kind == "module" })
	var taken string
	for _, c := range x.OfKind("connector") {
		taken = c.Name + ".1"
	}
	if taken == "" || d == nil {
		return false
	}
	p, _ := x.spot(d.Load)
	p.put(0, taken)
	return x.say("two circuits meet in one contact", "cavity-used-twice", taken, taken[:2])
}

func tooHot(x *breaking) bool {
	if x.Bare {
		return false
	}
	d := x.device(func(d *Device) bool { return d.Place == "nose" && d.Amps > 2 })
	if d == nil {
		return false
	}
	x.Practice = x.Practice.With("insulation", "thin-wall-105")
	for _, p := range x.Places {
		if p.Name == "nose" {
			p.Set("ambient", "110 C")
		}
	}
	return x.say("the insulation cooks", "wire-too-hot wire-too-weak-for-fuse")
}

func tooShort(x *breaking) bool {
	d := x.device(func(d *Device) bool { return d.Place == "rear" && d.Kind == "switched" })
	if d == nil || x.Bare {
		return false
	}
	s, name := x.arriving(d.Load)
	s.Fields = s.With("length", "80 mm")
	x.out.Advice = true
	return x.say("the wire does not reach", "shorter-than-way", name, d.Load)
}

func airbag(x *breaking) bool {
	d := x.of("module")
	if d == nil {
		return false
	}
	x.Part(d.Load).Set("name", "Airbag unit")
	return x.say("a wrong wire fires it", "airbag-refused", d.Load)
}

func wireTwice(x *breaking) bool {
	d := x.device(func(d *Device) bool { return d.Kind == "switched" })
	if d == nil {
		return false
	}
	p, _ := x.spot(d.Load)
	from, to := x.exit(p.leg()[p.Row-1].To), x.entry(d.Load)
	x.more("Again", "", leg(from, to))
	return x.say("one wire is described twice", "doubled-wire", from+">"+to, d.Load)
}
