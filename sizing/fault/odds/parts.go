package odds

import (
	"math"

	"example.com/loomfolio/sizing/fault/cause"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/rating"
)

// asOpen is how many faults share what keeps a relay from pulling in: coil open, armature
// stuck, contact open and burnt at each level.
const asOpen = 3.0 + float64(len(cause.Levels))

// contact gives the terms of a fuse, a cavity or a pair of contacts.
func (o *Odds) contact(c *cause.Cause, e *harness.Element) []term {
	p := &o.h.Parts[e.Part]
	switch p.Kind {
	case harness.Fuse, harness.FusePanel, harness.Breaker:
		if c.Kind == proof.Open {
			return []term{{"clip", 1, rating.FaultShare("connection", "open")}, {"element", 1, rating.FaultShare("fuse", "open")}}
		}
		return []term{{"clip", 1, joint("connection")}}
	case harness.Connector:
		if c.Kind == proof.Open {
			return []term{{o.way(p), 1, rating.FaultShare("connection", "open")}}
		}
		return []term{{o.way(p), 1, joint("connection")}}
	case harness.Relay, harness.Flasher:
		if c.Kind == proof.Welded {
			return []term{{"relay", 1, rating.FaultShare("relay", "welded")}}
		}
		return []term{{"relay", 1, rating.FaultShare("relay", "open") / asOpen}}
	}
	if c.Kind == proof.Welded {
		return []term{{o.switched(p, e), 1, rating.FaultShare("switch", "welded")}}
	}
	return []term{{o.switched(p, e), 1, rating.FaultShare("switch", "open") / (1 + float64(len(cause.Levels)))}}
}

// switched is the row of a switch's contact.
func (o *Odds) switched(p *harness.Part, e *harness.Element) string {
	switch {
	case p.Kind == harness.IgnitionSwitch:
		return "ignition"
	case p.Kind == harness.Isolator:
		return "isolator"
	case o.most(e.ID) > 5:
		return "switch-heavy"
	}
	return "switch-light"
}

// element gives the terms of everything else.
func (o *Odds) element(c *cause.Cause, e *harness.Element) []term {
	p := &o.h.Parts[e.Part]
	mode := string(c.Kind)
	switch e.Kind {
	case harness.RelayCoil:
		row := "relay"
		if p.Kind == harness.Starter {
			row = "starter"
		}
		if c.Kind == proof.Shorted {
			return []term{{row, 1, rating.FaultShare("relay", mode)}}
		}
		return []term{{row, 1, rating.FaultShare("relay", "open") / asOpen}}
	case harness.Rectifier:
		return []term{{"resistor", 1, rating.FaultShare("diode", mode)}}
	case harness.Charger, harness.Converter:
		return []term{{"alternator", 1, rating.FaultShare("alternator", "dead")}}
	case harness.Load:
		if p.Kind == harness.Lamp && c.Kind == proof.Shorted && e.Behaves == harness.AsLamp { // in its holder: a filament only opens
			return []term{{"holder", 1, rating.FaultShare("connection", "short") / 2}}
		}
		row, modes := o.load(p, e)
		share := rating.FaultShare(modes, mode)
		if c.Kind == proof.Open { // whoever hears nothing at full volts does not see which
			share += rating.FaultShare(modes, "idle")
		}
		return []term{{row, 1, share}}
	}
	return o.resistance(c, p)
}

// resistance gives the terms of a ground point, a strap or a resistor.
func (o *Odds) resistance(c *cause.Cause, p *harness.Part) []term {
	row := map[harness.Kind]string{harness.Strap: "strap", harness.Ground: "ground-cabin"}[p.Kind]
	if p.BodyGround {
		row = "ground-cabin"
	}
	if row == "ground-cabin" && o.harsh(p) {
		row = "ground-outside"
	}
	switch {
	case row == "":
		return []term{{"resistor", 1, rating.FaultShare("resistor", string(c.Kind))}}
	case c.Kind == proof.Joint:
		return []term{{row, 1, joint("connection")}}
	}
	return []term{{row, 1, rating.FaultShare("connection", "open")}}
}

// load gives the row of a load and that of its modes.
func (o *Odds) load(p *harness.Part, e *harness.Element) (row, modes string) {
	switch p.Kind {
	case harness.Lamp:
		if e.Behaves != harness.AsLamp {
			return "led", "led"
		}
		return o.filament(e), "filament"
	case harness.Starter:
		return "starter", "motor"
	case harness.Motor:
		return "motor", "motor"
	case harness.Solenoid, harness.Horn, harness.Coil:
		return "solenoid", "solenoid"
	case harness.Sender:
		return "sender", "variable"
	case harness.Gauge, harness.Module, harness.Flasher:
		return "gauge", "gauge"
	}
	return "heater", "resistor"
}

// filament is the row of a lamp: one that is on in a third of the states is taken as one
// that is on much; judgement, not published.
func (o *Odds) filament(e *harness.Element) string {
	on := 0
	for i := range o.states {
		if math.Abs(o.states[i].Amps[e.ID]) > 0.05 {
			on++
		}
	}
	if 3*on >= len(o.states) {
		return "filament-much"
	}
	return "filament-rare"
}
