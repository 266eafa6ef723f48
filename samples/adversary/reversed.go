package adversary

// loadReversed puts a load with a polarity in the wrong way round.
func loadReversed(x *breaking) bool {
	d := x.loaded(0, "motor", "horn", "outlet", "solenoid")
	if d == nil {
		return false
	}
	x.turn(d.Load, ".-", ".+")
	return x.say("a motor turns backwards, electronics die", "load-reversed", d.Load)
}

// turn writes out a bare stop with its terminals.
func (x *breaking) turn(part, first, second string) {
	p, _ := x.spot(part)
	p.put(1, part+first, part+second)
}

func lampReversed(x *breaking) bool {
	d := x.loaded(0, "lamp", "heater")
	if d == nil {
		return false
	}
	x.turn(d.Load, ".-", ".+")
	return x.say("its case is live, an LED stays dark", "load-reversed", d.Load)
}

func moduleReversed(x *breaking) bool {
	d := x.of("module")
	if d == nil {
		return false
	}
	p, _ := x.spot(d.Load)
	p.put(2, d.Load+".31", d.Load+".15")
	return x.say("the unit dies", "load-reversed", d.Load)
}

func diodeReversed(x *breaking) bool {
	d := x.of("diode")
	if d == nil {
		return false
	}
	x.turn(d.Relay, ".k", ".a")
	return x.say("the load never works", "diode-reversed", d.Relay)
}

func gaugeReversed(x *breaking) bool {
	d := x.of("gauge")
	if d == nil {
		return false
	}
	x.turn(d.Load, ".-", ".+")
	return x.say("it points the wrong way", "load-reversed", d.Load)
}

func batteryReversed(x *breaking) bool {
	x.rename("BAT.+", "BAT.x")
	x.rename("BAT.-", "BAT.+")
	x.rename("BAT.x", "BAT.-")
	return x.say("every unit in the vehicle dies, the alternator burns", "battery-reversed", "BAT")
}

// rename gives a stop another name wherever it is.
func (x *breaking) rename(from, to string) {
	for _, p := range x.Stops(from) {
		if p.Stop().To == from {
			p.Stop().To = to
		}
	}
}

func sourceReversed(x *breaking) bool {
	if x.Part("REG") == nil {
		return false
	}
	x.rename("REG.B+", "REG.x")
	x.rename("REG.B-", "REG.B+")
	x.rename("REG.x", "REG.B-")
	return x.say("battery and regulator in series round the loop: its fuse, or it, burns", "source-reversed", "REG")
}

func relayDiodeReversed(x *breaking) bool {
	d := x.device(func(d *Device) bool { return x.has(d.Relay, "suppression", "diode") && x.names(d.Relay) == 4 })
	if d == nil {
		return false
	}
	k := d.Relay
	x.rename(k+".86", k+".x")
	x.rename(k+".85", k+".86")
	x.rename(k+".x", k+".85")
	return x.say("the switch shorts through the diode", "diode-relay-backwards", k)
}

func (x *breaking) has(part, key, value string) bool {
	p := x.Part(part)
	return p != nil && p.Kind() == "relay" && p.Get(key) == value
}

func (x *breaking) relayOf(kinds ...string) *Device {
	d := x.of(kinds...)
	if d == nil || x.Part(d.Relay) == nil || x.Part(d.Relay).Kind() != "relay" {
		return nil
	}
	return d
}

func relaySidesSwapped(x *breaking) bool {
	d := x.relayOf("relayed")
	if d == nil {
		return false
	}
	k := d.Relay
	x.Part(k).Set("suppression", "")
	for _, s := range [][2]string{{".30", ".86"}, {".87", ".85"}} {
		x.rename(k+s[0], k+".x")
		x.rename(k+s[1], k+s[0])
		x.rename(k+".x", k+s[1])
	}
	return x.say("the load gets its current through the coil and the switch makes a short", "relay-sides-swapped", k, d.Switch)
}

func commonExchanged(x *breaking) bool {
	d := x.relayOf("changed-over")
	if d == nil {
		return false
	}
	k := d.Relay
	x.rename(k+".30", k+".x")
	x.rename(k+".87", k+".30")
	x.rename(k+".x", k+".87")
	return x.say("the two lamps are joined at rest, and only one is ever fed", "changeover-common", k)
}

func changeoverUnsaid(x *breaking) bool {
	d := x.relayOf("changed-over")
	if d == nil {
		return false
	}
	x.Part(d.Relay).Set("changeover", "")
	return x.say("a plain relay has no 87a", "break-terminal-hidden", d.Relay)
}

// relayChatters puts the break contact of a relay before its own coil.
func relayChatters(x *breaking) bool {
	d := x.relayOf("relayed")
	if d == nil {
		return false
	}
	p, ok := x.spotAt(d.Relay + ".86")
	if !ok {
		return false
	}
	x.add("KX", "relay", "bay", "changeover", "true", "rating", "40 A")
	p.put(0, "KX.30", "KX.87a")
	p.Circuit.Legs = append(p.Circuit.Legs, leg(d.Relay+".86", "KX.86", "KX.85", x.groundOf()))
	return x.say("a relay that breaks its own feed buzzes until it burns", "relay-chatter", "KX", d.Relay)
}

// groundOf is a fresh ground at the bulkhead, or the minus bar.
func (x *breaking) groundOf() string {
	if x.Wired {
		return "NEG.x1"
	}
	if x.Part("GX") == nil {
		x.add("GX", "ground", "bay", "stud", "M6")
	}
	return "GX"
}

// coilInSeries puts a resistor of the coil's size into the coil's lead.
func coilInSeries(x *breaking) bool {
	d := x.relayOf("relayed", "ground-relayed")
	if d == nil {
		return false
	}
	ohms := num(x.Volts * x.Volts * 1.2)
	x.add("RX", "resistor", "bay", "value", ohms+" ohm")
	p, ok := x.spotAt(d.Relay + ".86")
	if !ok {
		return false
	}
	p.put(0, "RX")
	return x.say("the relay does not pull in", "relay-will-not-pull-in", d.Relay)
}

func (x *breaking) spotAt(stop string) (Spot, bool) {
	for _, p := range x.Stops(stop) {
		if p.Stop().To == stop && p.Row > 0 {
			return p, true
		}
	}
	return Spot{}, false
}

func coilWithoutGround(x *breaking) bool {
	d := x.relayOf("relayed")
	if d == nil {
		return false
	}
	p, ok := x.spotAt(d.Relay + ".85")
	if !ok {
		return false
	}
	p.put(len(p.leg()) - p.Row)
	return x.say("the relay never works", "terminal-without-wire floating-load", d.Relay)
}
