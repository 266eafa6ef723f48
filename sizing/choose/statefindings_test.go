package choose

import (
	"testing"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
	"github.com/stretchr/testify/require"
)

// relayParts adds a relay K1 with a make contact to a fused battery with a
// switch and a fan of 20 A.
func relayParts(ohms unit.Ohm) *bench {
	b := newBench(unit.Metric)
	b.battery("BAT")
	b.fuse("F1")
	b.switched("SW")
	b.load("FAN", harness.Motor, 20, harness.AsMotor)
	b.part("K1", harness.Relay).Rating = 40
	coil := b.element("K1", "K1.coil", "K1.86", "K1.85", harness.Element{Kind: harness.RelayCoil, Ohms: ohms, PullIn: 8, DropOut: 1.2})
	b.element("K1", "K1.30-87", "K1.30", "K1.87", harness.Element{Kind: harness.Contact, Ohms: 0.002, When: harness.Condition{Kind: harness.Energised, Coil: coil}})
	b.ground("G1")
	b.ground("G2")
	b.wire("1A", "BAT.+", "F1.1", 100)
	b.wire("1B", "BAT.-", "G2", 100)
	return b
}

// weakRelay has a relay whose coil gets its current over a long thin wire.
func weakRelay() *bench {
	b := relayParts(2)
	b.wire("2A", "F1.2", "SW.1", 300)
	b.wire("2B", "SW.2", "K1.86", 80000)
	b.wire("2C", "K1.85", "G1", 300)
	b.wire("2D", "F1.2", "K1.30", 300)
	b.wire("2E", "K1.87", "FAN.+", 300)
	b.wire("2F", "FAN.-", "G1", 300)
	b.given("2B", unit.Gauge{System: unit.Metric, Size: "0.5"})
	b.state("parked", harness.EngineOff)
	b.state("on", harness.EngineOff, "SW")
	return b
}

// swappedRelay feeds the coil for ever and switches the fan through the contacts.
func swappedRelay() *bench {
	b := relayParts(80)
	b.wire("2A", "F1.2", "K1.86", 300)
	b.wire("2B", "K1.85", "G1", 300)
	b.wire("2C", "F1.2", "SW.1", 300)
	b.wire("2D", "SW.2", "K1.30", 300)
	b.wire("2E", "K1.87", "FAN.+", 300)
	b.wire("2F", "FAN.-", "G1", 300)
	b.state("parked", harness.EngineOff)
	b.state("on", harness.EngineOff, "SW")
	return b
}

// loadThroughCoil feeds the fan through the coil, and grounds the contacts.
func loadThroughCoil() *bench {
	b := relayParts(80)
	b.wire("2A", "F1.2", "K1.86", 300)
	b.wire("2B", "K1.85", "FAN.+", 300)
	b.wire("2C", "FAN.-", "G1", 300)
	b.wire("2D", "F1.2", "SW.1", 300)
	b.wire("2E", "SW.2", "K1.30", 300)
	b.wire("2F", "K1.87", "G1", 300)
	b.state("parked", harness.EngineOff)
	return b
}

// litSwitch is a switch on the ground side of its lamp, whose third terminal
// was meant for its own light and is fed from the battery.
func litSwitch() *bench {
	b := newBench(unit.Metric)
	b.battery("BAT")
	b.fuse("F1")
	b.switched("SW")
	b.element("SW", "SW.1-3", "SW.1", "SW.3", harness.Element{Kind: harness.Contact, Ohms: 0.002,
		When: harness.Condition{Kind: harness.InPosition, Switch: b.parts["SW"], Positions: []int{1}}})
	b.load("LAMP", harness.Lamp, 4, harness.AsLamp)
	b.ground("G1")
	b.ground("G2")
	b.wire("1A", "BAT.+", "F1.1", 100)
	b.wire("1B", "F1.2", "LAMP.+", 500)
	b.wire("1C", "LAMP.-", "SW.1", 500)
	b.wire("1D", "SW.2", "G1", 300)
	b.wire("1E", "F1.2", "SW.3", 500)
	b.wire("1F", "BAT.-", "G2", 100)
	b.state("parked", harness.EngineOff)
	b.state("on", harness.EngineOff, "SW")
	return b
}

// liftedGauge is a gauge that shares its ground, of some ohms, with 10 A of lamps.
func liftedGauge(joint unit.Ohm) *bench {
	b := newBench(unit.Metric)
	b.battery("BAT")
	b.fuse("F1")
	b.switched("SW")
	b.load("GAUGE", harness.Gauge, 0.1, harness.AsResistance)
	b.load("LAMPS", harness.Lamp, 10, harness.AsCurrent)
	b.ground("G1")
	b.ground("G2")
	b.h.Elements[b.h.Parts[b.parts["G1"]].Elements[0]].Ohms = joint
	b.wire("1A", "BAT.+", "F1.1", 100)
	b.wire("1B", "F1.2", "GAUGE.+", 500)
	b.wire("1C", "GAUGE.-", "G1", 100)
	b.wire("1D", "F1.2", "SW.1", 500)
	b.wire("1E", "SW.2", "LAMPS.+", 500)
	b.wire("1F", "LAMPS.-", "G1", 100)
	b.wire("1G", "BAT.-", "G2", 100)
	b.state("day", harness.EngineOff)
	b.state("night", harness.EngineOff, "SW")
	return b
}

// isolated is a battery with an isolator in its lead, an alternator on the bus
// behind it or on the battery, and an ignition coil behind the key.
func isolated(output string) *bench {
	b := newBench(unit.Metric)
	b.battery("BAT")
	iso := b.part("ISO", harness.Isolator)
	iso.Positions = []string{"on", "off"}
	b.element("ISO", "ISO.1-2", "ISO.1", "ISO.2", harness.Element{Kind: harness.Contact, Ohms: 0.002,
		When: harness.Condition{Kind: harness.InPosition, Switch: b.parts["ISO"], Positions: []int{0}}})
	b.alternator("ALT", 45)
	b.fuse("F1")
	key := b.part("IGN", harness.IgnitionSwitch)
	key.Positions = []string{"off", "run"}
	b.element("IGN", "IGN.30-15", "IGN.30", "IGN.15", harness.Element{Kind: harness.Contact, Ohms: 0.002,
		When: harness.Condition{Kind: harness.InPosition, Switch: b.parts["IGN"], Positions: []int{1}}})
	b.load("COIL", harness.Coil, 4, harness.AsResistance)
	b.ground("G1")
	b.ground("G2")
	b.wire("1A", "BAT.+", "ISO.1", 100)
	b.wire("1B", "ISO.2", "F1.1", 100)
	at := map[string]string{"BUS": "ISO.2", "BAT": "BAT.+"}[output]
	b.wire("1C", "ALT.B+", at, 900)
	b.wire("1D", "F1.2", "IGN.30", 500)
	b.wire("1E", "IGN.15", "COIL.+", 500)
	b.wire("1F", "COIL.-", "G1", 300)
	b.wire("1G", "BAT.-", "G2", 300)
	b.state("parked", harness.EngineOff)
	b.state("driving", harness.EngineRunning, "IGN")
	return b
}

// What is right gives none of these findings.
func TestSoundStatesAreSilent(t *testing.T) {
	right := relayParts(80)
	right.wire("2A", "F1.2", "SW.1", 300)
	right.wire("2B", "SW.2", "K1.86", 300)
	right.wire("2C", "K1.85", "G1", 300)
	right.wire("2D", "F1.2", "K1.30", 300)
	right.wire("2E", "K1.87", "FAN.+", 300)
	right.wire("2F", "FAN.-", "G1", 300)
	right.state("parked", harness.EngineOff)
	right.state("on", harness.EngineOff, "SW")
	for name, b := range map[string]*bench{
		"a relay as it should be": right, "a good ground": liftedGauge(0.001), "the alternator on the battery": isolated("BAT"), "two batteries": split(), "a starter": charged(),
	} {
		_, ps := b.choose(t)
		for _, slug := range []string{"relay-will-not-pull-in", "relay-sides-swapped", "short-circuit", "open-contact-live", "gauge-on-shared-ground", "contact-never-closed", "isolator-does-not-kill"} {
			require.Nil(t, find(ps, slug), "%s: %s", name, slug)
		}
	}
}

// Joint 0.05 ohm with 10 A: the ground lifts 0.5 V.
func TestGroundLiftIsHalfAVolt(t *testing.T) {
	_, ps := liftedGauge(0.05).choose(t)
	p := find(ps, "gauge-on-shared-ground")
	require.InDelta(t, 0.5, p.Numbers[0].Value, 0.001)
	require.Contains(t, p.Subjects, "G1")
	require.Contains(t, p.Subjects, "night")
}

// The finding says where the volts are: what the source has, the coil gets, and
// wires and links lose is one sum.
func TestWeakCoilSaysWhereTheVoltsAre(t *testing.T) {
	_, ps := weakRelay().choose(t)
	p := find(ps, "relay-will-not-pull-in")
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
	cranking := func(late bool) *bench {
		b := newBench(unit.Metric)
		b.battery("BAT")
		b.h.Elements[0].Ohms = 0.03 // old and cold: 200 A takes 6 V
		b.fuse("F1")
		b.part("ST", harness.Starter)
		sol := b.element("ST", "ST.solenoid", "ST.50", "ST.case", harness.Element{Kind: harness.RelayCoil, Ohms: 1.2, PullIn: 8, DropOut: 1.2})
		b.element("ST", "ST", "ST.30", "ST.case", harness.Element{Kind: harness.Load, Amps: 200, AtVolts: 12, Behaves: harness.AsMotor, Floor: 4,
			When: harness.Condition{Kind: harness.Energised, Coil: sol}})
		b.element("ST", "ST.block", "ST.case", "chassis", harness.Element{Kind: harness.Join})
		b.element("ST", "ST.bypass", "ST.30", "ST.16", harness.Element{Kind: harness.Contact, Ohms: 0.01,
			When: harness.Condition{Kind: harness.Energised, Coil: sol}})
		b.part("K1", harness.Relay)
		b.element("K1", "K1.coil", "K1.86", "K1.85", harness.Element{Kind: harness.RelayCoil, Ohms: 80, PullIn: 8, DropOut: 1.2})
		b.switched("SS")
		b.ground("G1")
		b.ground("G2")
		b.wire("1A", "BAT.+", "ST.30", 1500)
		b.wire("1B", "BAT.+", "F1.1", 100)
		b.wire("1C", "F1.2", "SS.1", 300)
		b.wire("1D", "SS.2", "ST.50", 300)
		b.wire("1E", map[bool]string{false: "SS.2", true: "ST.16"}[late], "K1.86", 300)
		b.wire("1F", "K1.85", "G1", 300)
		b.wire("1G", "BAT.-", "G2", 300)
		b.state("cranking", harness.EngineCranking, "SS")
		return b
	}
	c, ps := cranking(false).choose(t)
	require.Nil(t, find(ps, "relay-will-not-pull-in"))
	b := cranking(false)
	id := b.h.Parts[b.parts["K1"]].Elements[0]
	e := b.h.Elements[id]
	require.True(t, c.States[0].Energised[id])
	require.Less(t, c.States[0].Volts[e.A]-c.States[0].Volts[e.B], 8.0, "less than it would pull in at")
	c, ps = cranking(true).choose(t)
	require.False(t, c.States[0].Energised[id])
	p := find(ps, "relay-will-not-pull-in")
	require.NotNil(t, p)
	require.Contains(t, p.Subjects, "cranking")
}
