package finding_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/rig"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// relayParts adds a relay K1 with a make contact to a fused battery with a
// switch and a fan of 20 A.
func relayParts(ohms unit.Ohm) *rig.Rig {
	b := rig.New(unit.Metric)
	b.Battery("BAT")
	b.Fuse("F1")
	b.Switched("SW")
	b.Load("FAN", harness.Motor, 20, harness.AsMotor)
	b.Part("K1", harness.Relay).Rating = 40
	coil := b.Element("K1", "K1.coil", "K1.86", "K1.85", harness.Element{Kind: harness.RelayCoil, Ohms: ohms, PullIn: 8, DropOut: 1.2})
	b.Element("K1", "K1.30-87", "K1.30", "K1.87", harness.Element{Kind: harness.Contact, Ohms: 0.002, When: harness.Condition{Kind: harness.Energised, Coil: coil}})
	b.Ground("G1")
	b.Ground("G2")
	b.Wire("1A", "BAT.+", "F1.1", 100)
	b.Wire("1B", "BAT.-", "G2", 100)
	return b
}

// weakRelay has a relay whose coil gets its current over a long thin wire.
func weakRelay() *rig.Rig {
	b := relayParts(2)
	b.Wire("2A", "F1.2", "SW.1", 300)
	b.Wire("2B", "SW.2", "K1.86", 80000)
	b.Wire("2C", "K1.85", "G1", 300)
	b.Wire("2D", "F1.2", "K1.30", 300)
	b.Wire("2E", "K1.87", "FAN.+", 300)
	b.Wire("2F", "FAN.-", "G1", 300)
	b.Given("2B", unit.Gauge{System: unit.Metric, Size: "0.5"})
	b.State("parked", harness.EngineOff)
	b.State("on", harness.EngineOff, "SW")
	return b
}

// swappedRelay feeds the coil for ever and switches the fan through the contacts.
func swappedRelay() *rig.Rig {
	b := relayParts(80)
	b.Wire("2A", "F1.2", "K1.86", 300)
	b.Wire("2B", "K1.85", "G1", 300)
	b.Wire("2C", "F1.2", "SW.1", 300)
	b.Wire("2D", "SW.2", "K1.30", 300)
	b.Wire("2E", "K1.87", "FAN.+", 300)
	b.Wire("2F", "FAN.-", "G1", 300)
	b.State("parked", harness.EngineOff)
	b.State("on", harness.EngineOff, "SW")
	return b
}

// loadThroughCoil feeds the fan through the coil, and grounds the contacts.
func loadThroughCoil() *rig.Rig {
	b := relayParts(80)
	b.Wire("2A", "F1.2", "K1.86", 300)
	b.Wire("2B", "K1.85", "FAN.+", 300)
	b.Wire("2C", "FAN.-", "G1", 300)
	b.Wire("2D", "F1.2", "SW.1", 300)
	b.Wire("2E", "SW.2", "K1.30", 300)
	b.Wire("2F", "K1.87", "G1", 300)
	b.State("parked", harness.EngineOff)
	return b
}

// litSwitch is a switch on the ground side of its lamp, whose third terminal
// was meant for its own light and is fed from the battery.
func litSwitch() *rig.Rig {
	b := rig.New(unit.Metric)
	b.Battery("BAT")
	b.Fuse("F1")
	b.Switched("SW")
	b.Element("SW", "SW.1-3", "SW.1", "SW.3", harness.Element{Kind: harness.Contact, Ohms: 0.002,
		When: harness.Condition{Kind: harness.InPosition, Switch: b.Parts["SW"], Positions: []int{1}}})
	b.Load("LAMP", harness.Lamp, 4, harness.AsLamp)
	b.Ground("G1")
	b.Ground("G2")
	b.Wire("1A", "BAT.+", "F1.1", 100)
	b.Wire("1B", "F1.2", "LAMP.+", 500)
	b.Wire("1C", "LAMP.-", "SW.1", 500)
	b.Wire("1D", "SW.2", "G1", 300)
	b.Wire("1E", "F1.2", "SW.3", 500)
	b.Wire("1F", "BAT.-", "G2", 100)
	b.State("parked", harness.EngineOff)
	b.State("on", harness.EngineOff, "SW")
	return b
}

// liftedGauge is a gauge that shares its ground, of some ohms, with 10 A of lamps.
func liftedGauge(joint unit.Ohm) *rig.Rig {
	b := rig.New(unit.Metric)
	b.Battery("BAT")
	b.Fuse("F1")
	b.Switched("SW")
	b.Load("GAUGE", harness.Gauge, 0.1, harness.AsResistance)
	b.Load("LAMPS", harness.Lamp, 10, harness.AsCurrent)
	b.Ground("G1")
	b.Ground("G2")
	b.H.Elements[b.H.Parts[b.Parts["G1"]].Elements[0]].Ohms = joint
	b.Wire("1A", "BAT.+", "F1.1", 100)
	b.Wire("1B", "F1.2", "GAUGE.+", 500)
	b.Wire("1C", "GAUGE.-", "G1", 100)
	b.Wire("1D", "F1.2", "SW.1", 500)
	b.Wire("1E", "SW.2", "LAMPS.+", 500)
	b.Wire("1F", "LAMPS.-", "G1", 100)
	b.Wire("1G", "BAT.-", "G2", 100)
	b.State("day", harness.EngineOff)
	b.State("night", harness.EngineOff, "SW")
	return b
}

// isolated is a battery with an isolator in its lead, an alternator on the bus
// behind it or on the battery, and an ignition coil behind the key.
func isolated(output string) *rig.Rig {
	b := rig.New(unit.Metric)
	b.Battery("BAT")
	iso := b.Part("ISO", harness.Isolator)
	iso.Positions = []string{"on", "off"}
	b.Element("ISO", "ISO.1-2", "ISO.1", "ISO.2", harness.Element{Kind: harness.Contact, Ohms: 0.002,
		When: harness.Condition{Kind: harness.InPosition, Switch: b.Parts["ISO"], Positions: []int{0}}})
	b.Alternator("ALT", 45)
	b.Fuse("F1")
	key := b.Part("IGN", harness.IgnitionSwitch)
	key.Positions = []string{"off", "run"}
	b.Element("IGN", "IGN.30-15", "IGN.30", "IGN.15", harness.Element{Kind: harness.Contact, Ohms: 0.002,
		When: harness.Condition{Kind: harness.InPosition, Switch: b.Parts["IGN"], Positions: []int{1}}})
	b.Load("COIL", harness.Coil, 4, harness.AsResistance)
	b.Ground("G1")
	b.Ground("G2")
	b.Wire("1A", "BAT.+", "ISO.1", 100)
	b.Wire("1B", "ISO.2", "F1.1", 100)
	at := map[string]string{"BUS": "ISO.2", "BAT": "BAT.+"}[output]
	b.Wire("1C", "ALT.B+", at, 900)
	b.Wire("1D", "F1.2", "IGN.30", 500)
	b.Wire("1E", "IGN.15", "COIL.+", 500)
	b.Wire("1F", "COIL.-", "G1", 300)
	b.Wire("1G", "BAT.-", "G2", 300)
	b.State("parked", harness.EngineOff)
	b.State("driving", harness.EngineRunning, "IGN")
	return b
}

// What is right gives none of these findings.
func TestSoundStatesAreSilent(t *testing.T) {
	right := relayParts(80)
	right.Wire("2A", "F1.2", "SW.1", 300)
	right.Wire("2B", "SW.2", "K1.86", 300)
	right.Wire("2C", "K1.85", "G1", 300)
	right.Wire("2D", "F1.2", "K1.30", 300)
	right.Wire("2E", "K1.87", "FAN.+", 300)
	right.Wire("2F", "FAN.-", "G1", 300)
	right.State("parked", harness.EngineOff)
	right.State("on", harness.EngineOff, "SW")
	for name, b := range map[string]*rig.Rig{
		"a relay as it should be": right, "a good ground": liftedGauge(0.001), "the alternator on the battery": isolated("BAT"), "two batteries": rig.Split(), "a starter": rig.Charged(),
	} {
		_, ps := b.Choose(t)
		for _, slug := range []string{"relay-will-not-pull-in", "relay-sides-swapped", "short-circuit", "open-contact-live", "gauge-on-shared-ground", "contact-never-closed", "isolator-does-not-kill"} {
			require.Nil(t, rig.Find(ps, slug), "%s: %s", name, slug)
		}
	}
}

// Joint 0.05 ohm with 10 A: the ground lifts 0.5 V.
func TestGroundLiftIsHalfAVolt(t *testing.T) {
	_, ps := liftedGauge(0.05).Choose(t)
	p := rig.Find(ps, "gauge-on-shared-ground")
	require.InDelta(t, 0.5, p.Numbers[0].Value, 0.001)
	require.Contains(t, p.Subjects, "G1")
	require.Contains(t, p.Subjects, "night")
}

// The finding says where the volts are: what the source has, the coil gets, and
// wires and links lose is one sum.
func TestWeakCoilSaysWhereTheVoltsAre(t *testing.T) {
	_, ps := weakRelay().Choose(t)
	p := rig.Find(ps, "relay-will-not-pull-in")
	values := map[string]float64{}
	for _, n := range p.Numbers {
		values[n.Name] = n.Value
	}
	require.Less(t, values["coil_v"], 8.0)
	require.Greater(t, values["wires_v"], 4.0, "most is lost in the thin wire")
	require.Less(t, values["links_v"], 0.1)
	require.InDelta(t, 12.6, values["coil_v"]+values["wires_v"]+values["links_v"], 0.05, "the battery loses little inside")
	require.Contains(t, p.Summary, "pulls in from 8.0 V")
}

// A battery pulled down to less than pull-in by the starter: the relay that is
// fed with the starter's solenoid pulled in before and is held; the one whose
// feed comes by way of the starter's own relay comes too late.
func TestHeldWhileCranking(t *testing.T) {
	cranking := func(late bool) *rig.Rig {
		b := rig.New(unit.Metric)
		b.Battery("BAT")
		b.H.Elements[0].Ohms = 0.03 // old and cold: 200 A takes 6 V
		b.Fuse("F1")
		b.Part("ST", harness.Starter)
		sol := b.Element("ST", "ST.solenoid", "ST.50", "ST.case", harness.Element{Kind: harness.RelayCoil, Ohms: 1.2, PullIn: 8, DropOut: 1.2})
		b.Element("ST", "ST", "ST.30", "ST.case", harness.Element{Kind: harness.Load, Amps: 200, AtVolts: 12, Behaves: harness.AsMotor, Floor: 4,
			When: harness.Condition{Kind: harness.Energised, Coil: sol}})
		b.Element("ST", "ST.block", "ST.case", "chassis", harness.Element{Kind: harness.Join})
		b.Element("ST", "ST.bypass", "ST.30", "ST.16", harness.Element{Kind: harness.Contact, Ohms: 0.01,
			When: harness.Condition{Kind: harness.Energised, Coil: sol}})
		b.Part("K1", harness.Relay)
		b.Element("K1", "K1.coil", "K1.86", "K1.85", harness.Element{Kind: harness.RelayCoil, Ohms: 80, PullIn: 8, DropOut: 1.2})
		b.Switched("SS")
		b.Ground("G1")
		b.Ground("G2")
		b.Wire("1A", "BAT.+", "ST.30", 1500)
		b.Wire("1B", "BAT.+", "F1.1", 100)
		b.Wire("1C", "F1.2", "SS.1", 300)
		b.Wire("1D", "SS.2", "ST.50", 300)
		b.Wire("1E", map[bool]string{false: "SS.2", true: "ST.16"}[late], "K1.86", 300)
		b.Wire("1F", "K1.85", "G1", 300)
		b.Wire("1G", "BAT.-", "G2", 300)
		b.State("cranking", harness.EngineCranking, "SS")
		return b
	}
	c, ps := cranking(false).Choose(t)
	require.Nil(t, rig.Find(ps, "relay-will-not-pull-in"))
	b := cranking(false)
	id := b.H.Parts[b.Parts["K1"]].Elements[0]
	e := b.H.Elements[id]
	require.True(t, c.States[0].Energised[id])
	require.Less(t, c.States[0].Volts[e.A]-c.States[0].Volts[e.B], 8.0, "less than it would pull in at")
	c, ps = cranking(true).Choose(t)
	require.False(t, c.States[0].Energised[id])
	p := rig.Find(ps, "relay-will-not-pull-in")
	require.NotNil(t, p)
	require.Contains(t, p.Subjects, "cranking")
}
