package adversary

import "fmt"

func mainFuseOut(x *breaking) bool {
	p, _ := x.spot("MF1")
	p.put(1)
	x.remove("MF1")
	return x.say("a chafed feed burns the length of the vehicle", "unprotected-feed", "BAT.+>PP.in", "ISO.2>PP.in", "PP", "BAT")
}

func chargingFuseOut(x *breaking) bool {
	p, ok := x.spot("MF2")
	if !ok {
		return false
	}
	p.put(1)
	x.remove("MF2")
	p.Stop().Fields = nil
	x.out.Advice = true // the main fuse guards the lead where both carry what flows
	return x.say("a chafed alternator lead draws the battery and the alternator", "unprotected-feed", "ALT", "PP", "ALT.B+>PP.alt")
}

// splitFuseOut takes the fuse at one end of the cable between two batteries.
func splitFuseOut(x *breaking) bool {
	p, ok := x.spot("MF12")
	if !ok {
		return false
	}
	p.put(1)
	x.remove("MF12")
	p.Stop().Fields = nil
	return x.say("the second battery's lead has no fuse", "unprotected-feed", "BAT2", "LP", "BAT2.+>LP.in")
}

// branchFuseOut takes a branch's fuse where the wires behind it are given for it.
func branchFuseOut(x *breaking) bool {
	d := x.device(func(d *Device) bool {
		return x.Part(d.Fuse) != nil && d.Kind == "switched" && !d.Key && len(x.Stops(d.Fuse)) == 1
	})
	if d == nil {
		return false
	}
	x.thin(d.Fuse, "0.75 mm2", "18 awg")
	x.Part("MF1").Set("rating", "100 A")
	p, _ := x.spot(d.Fuse)
	p.put(1)
	x.remove(d.Fuse)
	next := Spot{p.Circuit, p.Leg, p.Row}
	return x.say("a short burns thin wire behind a 100 A fuse", "gauge-given-too-thin fuse-too-big wire-too-weak-for-fuse", append(x.inLeg(next), "MF1")...)
}

// thin gives all wires behind a stop, in its leg, a gauge.
func (x *breaking) thin(stop, metric, awg string) {
	p, _ := x.spot(stop)
	l := p.leg()
	for i := p.Row + 1; i < len(l); i++ {
		if l[i].Part() != l[i-1].Part() {
			l[i].Fields = l[i].With("gauge", metric)
		}
	}
}

// inLeg names the wires of a leg from a spot on, and its parts.
func (x *breaking) inLeg(p Spot) []string {
	var out []string
	for i := p.Row; i < len(p.leg()); i++ {
		if i > 0 && p.leg()[i].Part() != p.leg()[i-1].Part() {
			out = append(out, Spot{p.Circuit, p.Leg, i}.wire(x.Sketch))
		}
	}
	return out
}

func (x *breaking) plain() *Device {
	return x.device(func(d *Device) bool { return d.Kind == "switched" && d.Fuse != "" && !x.onPanelTwice(d) })
}

func (x *breaking) onPanelTwice(d *Device) bool { return len(x.Stops(d.Fuse)) == 0 }

func fuseTooLarge(x *breaking) bool {
	d := x.plain()
	if d == nil || x.Volts == 48 {
		return false
	}
	x.thin(d.Fuse, "0.5 mm2", "20 awg")
	if p := x.Part(d.Fuse); p != nil {
		p.Set("body", "maxi")
		p.Set("rating", "40 A")
	} else {
		x.rate(d.Fuse, "30 A")
	}
	p, _ := x.spot(d.Fuse)
	return x.say("the wire burns before the fuse opens", "fuse-too-big gauge-given-too-thin wire-too-weak-for-fuse", append(x.inLeg(p), d.Fuse)...)
}

func fuseOversized(x *breaking) bool {
	d := x.device(func(d *Device) bool { return d.Kind == "switched" && x.Part(d.Fuse) != nil && d.Amps < 7 })
	if d == nil || x.Volts == 48 {
		return false
	}
	x.Part(d.Fuse).Set("body", "maxi")
	x.Part(d.Fuse).Set("rating", "60 A")
	return x.say("the fuse protects a wire that need not be there, and no load", "fuse-oversized", d.Fuse)
}

func fuseDoubled(x *breaking) bool {
	d := x.device(func(d *Device) bool { return d.Kind == "switched" && x.Part(d.Fuse) != nil })
	if d == nil {
		return false
	}
	p, _ := x.spot(d.Fuse)
	from, to := p.leg()[p.Row-1].To, p.leg()[p.Row+1].To
	f := x.Part(d.Fuse)
	e := x.add("FX", f.Kind(), f.Get("at"))
	e.Fields = append(Fields{}, f.Fields...).With("name", "Second fuse")
	x.more("Second feed", "", leg(from, "FX/150", x.entry(to)))
	return x.say("either fuse alone carries on", "parallel-fuses fed-from-two-fuses", d.Fuse, "FX")
}

func fuseTooSmall(x *breaking) bool {
	d := x.device(func(d *Device) bool {
		return d.Amps > 5 && d.Fuse != "" && x.small(d.Fuse) && (d.Kind == "switched" || d.Kind == "relayed")
	})
	if d == nil {
		return false
	}
	x.rate(d.Fuse, "3 A")
	return x.say("it opens as the load is turned on", "fuse-too-small", d.Fuse)
}

func fuseInGround(x *breaking) bool {
	d := x.loaded(0, "motor", "lamp", "heater", "outlet", "solenoid")
	if d == nil || x.Volts == 48 {
		return false
	}
	p, _ := x.spot(d.Load)
	x.add("FX", "fuse", d.Place)
	Spot{p.Circuit, p.Leg, p.Row + 1}.put(0, "FX")
	return x.say("with it out the load's metal is live and the load stays fed", "fuse-in-ground", "FX")
}

func holderTooSmall(x *breaking) bool {
	d := x.device(func(d *Device) bool {
		return x.Part(d.Fuse) != nil && x.small(d.Fuse) && d.Amps > 3 && x.Part(d.Fuse).Kind() == "fuse"
	})
	if d == nil {
		return false
	}
	x.Part(d.Fuse).Set("holder", "3 A")
	x.Part(d.Fuse).Set("rating", fmt.Sprintf("%d A", int(d.Amps/5+1)*5+5))
	return x.say("the holder melts", "holder-too-small", d.Fuse)
}

func bladeAt48(x *breaking) bool {
	d := x.device(func(d *Device) bool { return x.Part(d.Fuse) != nil && x.Volts == 48 })
	if d == nil {
		return false
	}
	f := x.Part(d.Fuse)
	f.Set("kind", "fuse")
	f.Set("type", "")
	f.Set("body", "blade")
	return x.say("a 32 V body does not break an arc at 57 V", "fuse-volts", d.Fuse)
}

// inverterFuse is right at the running voltage and too small at the lowest.
func inverterFuse(x *breaking) bool {
	d := x.of("inverter")
	if d == nil {
		return false
	}
	f := x.Part(d.Fuse)
	f.Set("rating", num(float64(int(d.Amps*x.Volts/x.Running/0.75/5)*5))+" A")
	return x.say("constant power takes more current as the battery empties", "fuse-too-small", d.Fuse)
}
