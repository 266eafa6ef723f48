package rig

import (
	"fmt"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Fan is a battery, a fuse close to it, a switch, a fan and a ground.
func Fan(system unit.System, amps unit.Ampere, feed unit.Millimetre) *Rig {
	b := New(system)
	b.Battery("BAT")
	b.Fuse("F1")
	b.Switched("SW")
	b.Load("FAN", harness.Motor, amps, harness.AsMotor)
	b.Ground("G1")
	b.Ground("G2")
	b.Wire("1A", "BAT.+", "F1.1", 100)
	b.Wire("1B", "F1.2", "SW.1", feed/2-100)
	b.Wire("1C", "SW.2", "FAN.+", feed/2)
	b.Wire("1D", "FAN.-", "G1", 1)
	b.Wire("1E", "BAT.-", "G2", 1)
	b.State("parked", harness.EngineOff)
	b.State("running fan", harness.EngineOff, "SW")
	return b
}

// BesideAlternator is a heater that a battery feeds through MF, and an alternator
// of 45 A through CF of a rating.
func BesideAlternator(rating unit.Ampere) *Rig {
	b := New(unit.Metric)
	b.Battery("BAT")
	b.Alternator("ALT", 45)
	b.Fuse("CF").Rating = rating
	b.Fuse("MF").Rating = 60
	b.Load("HEATER", harness.Heater, 20, harness.AsCurrent)
	b.Ground("G1")
	b.Wire("1A", "BAT.+", "MF.1", 100)
	b.Wire("1B", "MF.2", "HEATER.+", 100)
	b.Wire("2A", "ALT.B+", "CF.1", 100)
	b.Wire("2B", "CF.2", "HEATER.+", 900)
	b.Wire("3A", "HEATER.-", "G1", 100)
	b.Wire("3B", "BAT.-", "G1", 100)
	b.State("driving", harness.EngineRunning)
	return b
}

// Split is an alternator with two batteries and a switch in the cable between them.
func Split() *Rig {
	b := New(unit.Metric)
	b.Battery("BAT1")
	b.Battery("BAT2")
	b.Alternator("ALT", 45)
	b.Fuse("F1")
	b.Fuse("F2")
	b.Switched("LINK")
	for _, g := range []string{"G1", "G2"} {
		b.Ground(g)
	}
	b.Load("PUMP", harness.Motor, 6, harness.AsMotor)
	b.Wire("1A", "ALT.B+", "BAT1.+", 600)
	b.Wire("2A", "BAT1.+", "F1.1", 100)
	b.Wire("2B", "F1.2", "LINK.1", 2000)
	b.Wire("2C", "LINK.2", "F2.1", 2000)
	b.Wire("2D", "F2.2", "BAT2.+", 100)
	b.Wire("3A", "BAT1.-", "G1", 300)
	b.Wire("3B", "BAT2.-", "G2", 300)
	b.Wire("4A", "LINK.2", "PUMP.+", 500)
	b.Wire("4B", "PUMP.-", "G2", 300)
	b.State("parked", harness.EngineOff)
	b.State("linked", harness.EngineOff, "LINK")
	b.State("driving", harness.EngineRunning, "LINK")
	return b
}

// Charged is a battery, a starter whose stud takes the alternator's output, and
// a fuse near the battery.
func Charged() *Rig {
	b := New(unit.Metric)
	b.Battery("BAT")
	b.Starter("ST", 180)
	b.Alternator("ALT", 45)
	b.Fuse("FM")
	b.Load("HEATER", harness.Heater, 20, harness.AsCurrent)
	b.Ground("G1")
	b.Ground("G2")
	b.H.Circuits = append(b.H.Circuits, harness.Circuit{ID: 1, Key: "start", Class: "start"})
	b.Wire("2A", "ALT.B+", "ST.30", 900)
	b.Wire("2B", "BAT.+", "ST.30", 1500).Circuit = 1
	b.Wire("2C", "BAT.+", "FM.1", 150)
	b.Wire("2D", "FM.2", "HEATER.+", 1500)
	b.Wire("2E", "HEATER.-", "G1", 300)
	b.Wire("2F", "BAT.-", "G2", 400)
	b.State("parked", harness.EngineOff)
	b.State("driving", harness.EngineRunning)
	b.State("starting", harness.EngineCranking)
	return b
}

// Wide is a car with many circuits: each a fuse off a bus, a switch, a lamp and
// a ground of its own; four wires a circuit.
func Wide(circuits int) *Rig {
	b := New(unit.Metric)
	b.Battery("BAT")
	b.Fuse("MAIN")
	b.Part("BUS", harness.Bus)
	b.Ground("G0")
	b.Wire("0A", "BAT.+", "MAIN.1", 150)
	b.Wire("0B", "MAIN.2", "BUS.a", 1200)
	b.Wire("0C", "BAT.-", "G0", 300)
	on := []string{}
	for i := 1; i <= circuits; i++ {
		n := fmt.Sprint(i)
		b.Fuse("F" + n)
		b.Switched("S" + n)
		b.Load("L"+n, harness.Lamp, unit.Ampere(1+i%7), harness.AsLamp)
		b.Ground("G" + n + "x")
		b.Wire(n+"A", "BUS.a", "F"+n+".1", 60)
		b.Wire(n+"B", "F"+n+".2", "S"+n+".1", unit.Millimetre(500+90*(i%13)))
		b.Wire(n+"C", "S"+n+".2", "L"+n+".+", unit.Millimetre(800+140*(i%11)))
		b.Wire(n+"D", "L"+n+".-", "G"+n+"x", 300)
		if i%3 == 0 {
			on = append(on, "S"+n)
		}
	}
	b.State("parked", harness.EngineOff)
	b.State("night", harness.EngineOff, on...)
	return b
}
