package choose

import (
	"testing"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
	"github.com/stretchr/testify/require"
)

// The findings of the package, each with small harnesses that are wrong in that way, and
// what it is blamed on (rules.txt has a description for each).
func TestFindings(t *testing.T) {
	sound := func() *bench { return fan(unit.Metric, 10, 2000) }
	part := func(b *bench, ref string) *harness.Part { return &b.h.Parts[b.parts[ref]] }
	cases := []struct {
		slug    string
		level   source.Level
		subject string
		make    func() *bench
	}{
		{"unprotected-feed", source.Error, "1A", func() *bench { b := sound(); b.ways[0].Length = 800; return b }},
		{"unprotected-feed", source.Warning, "2A", charged},
		{"unfused-cranking-cable", source.Advice, "2B", charged},
		{"fuse-too-big", source.Error, "F1", func() *bench {
			b := sound()
			b.given("1B", unit.Gauge{System: unit.Metric, Size: "0.5"})
			part(b, "F1").Rating = 40
			return b
		}},
		{"fuse-too-small", source.Error, "F1", func() *bench { b := sound(); part(b, "F1").Rating = 7.5; return b }},
		{"fuse-too-small", source.Warning, "F1", func() *bench {
			b := sound()
			part(b, "FAN").Starts = unit.Start{Amps: 60, For: 6}
			part(b, "F1").Rating, part(b, "F1").Body = 15, "blade"
			return b
		}},
		{"parallel-fuses", source.Warning, "F2", func() *bench {
			b := sound()
			b.fuse("F2")
			b.wire("2A", "BAT.+", "F2.1", 100)
			b.wire("2B", "F2.2", "SW.1", 900)
			b.h.States = nil // the states place every part
			b.state("running fan", harness.EngineOff, "SW")
			return b
		}},
		{"fed-from-two-fuses", source.Warning, "F2", func() *bench { return twiceFed(false) }},
		{"fed-from-two-fuses", source.Advice, "2B", linkedBatteries},
		{"breaker-cycles-unfused", source.Warning, "F1", func() *bench {
			b := sound()
			part(b, "F1").Kind, part(b, "F1").BreakerType = harness.Breaker, "1"
			return b
		}},
		{"holder-too-small", source.Warning, "F1", func() *bench {
			b := sound()
			part(b, "F1").Rating, part(b, "F1").Body, part(b, "F1").Holder = 40, "blade", 30
			return b
		}},
		{"short-may-not-open", source.Warning, "F1", func() *bench {
			b := sound()
			b.given("1C", unit.Gauge{System: unit.Metric, Size: "0.5"})
			b.ways[2].Length = 12000
			part(b, "F1").Rating = 15
			return b
		}},
		{"short-too-slow", source.Warning, "1B", func() *bench {
			b := sound()
			b.given("1B", unit.Gauge{System: unit.Metric, Size: "0.5"})
			part(b, "F1").Rating, part(b, "F1").Body = 80, "maxi"
			return b
		}},
		{"drop-over-limit", source.Warning, "FAN", func() *bench { b := fan(unit.Metric, 150, 60000); return b }},
		{"gauge-given-too-thin", source.Warning, "1C", func() *bench {
			b := sound()
			b.given("1C", unit.Gauge{System: unit.Metric, Size: "0.5"})
			return b
		}},
		{"gauge-given-too-thin", source.Error, "1C", func() *bench {
			b := fan(unit.Metric, 40, 300)
			b.given("1C", unit.Gauge{System: unit.Metric, Size: "0.5"})
			return b
		}},
		{"gauge-given-too-thin", source.Advice, "1D", func() *bench {
			b := fan(unit.Metric, 0.2, 300)
			b.given("1D", unit.Gauge{System: unit.Metric, Size: "0.35"})
			return b
		}},
		{"wire-too-hot", source.Error, "1C", func() *bench { b := fan(unit.Metric, 600, 300); return b }},
		{"wire-too-weak-for-fuse", source.Error, "1C", func() *bench {
			b := sound()
			b.h.Practice.WireTypes = []harness.WireType{{Name: "thin reel", Class: 105, Sizes: []harness.WireTypeSize{{Size: unit.Gauge{System: unit.Metric, Size: "0.5"}}}}}
			for i := range b.h.Wires {
				if b.h.Wires[i].Name == "1C" {
					b.h.Wires[i].Insulation = "thin reel"
				}
			}
			return b
		}},
		{"contact-overloaded", source.Error, "SW", func() *bench { b := sound(); part(b, "SW").Rating = 6; return b }},
		{"contact-overloaded", source.Warning, "SW", func() *bench { b := sound(); part(b, "SW").Rating = 15; return b }}, // motor ×2: 20 A
		{"load-never-on", source.Warning, "FAN", func() *bench { b := sound(); b.h.States = b.h.States[:1]; return b }},
		{"floating-load", source.Error, "LAMP", func() *bench {
			b := sound()
			b.load("LAMP", harness.Lamp, 5, harness.AsLamp)
			b.wire("2A", "SW.2", "LAMP.+", 500)
			b.at("LAMP.-")
			return again(b)
		}},
		{"unfed-load", source.Error, "LAMP", func() *bench {
			b := sound()
			b.load("LAMP", harness.Lamp, 5, harness.AsLamp)
			b.wire("2A", "LAMP.-", "G1", 500)
			return again(b)
		}},
		{"relay-chatter", source.Error, "K1", buzzer},
		{"diode-relay-backwards", source.Error, "K1", func() *bench { return relay("K1.85", "K1.86") }},
		{"alternator-overloaded", source.Warning, "driving", func() *bench {
			b := charged()
			b.load("HEAT", harness.Heater, 60, harness.AsCurrent)
			b.wire("3A", "FM.2", "HEAT.+", 500)
			b.wire("3B", "HEAT.-", "G1", 500)
			return again(b)
		}},
		{"key-off-drain", source.Warning, "RADIO", func() *bench {
			b := sound()
			b.load("RADIO", harness.Outlet, 0.2, harness.AsCurrent)
			b.wire("2A", "F1.2", "RADIO.+", 500)
			b.wire("2B", "RADIO.-", "G1", 500)
			return again(b)
		}},
		{"relay-will-not-pull-in", source.Warning, "K1", weakRelay},
		{"relay-sides-swapped", source.Warning, "K1", swappedRelay},
		{"relay-sides-swapped", source.Warning, "K1", loadThroughCoil},
		{"short-circuit", source.Error, "SW.1-3", litSwitch},
		{"open-contact-live", source.Advice, "K1", func() *bench {
			b := relay("K1.86", "K1.85")
			coil := b.h.Parts[b.parts["K1"]].Elements[0]
			b.element("K1", "K1.30-87", "K1.30", "K1.87", harness.Element{Kind: harness.Contact, Ohms: 0.002, When: harness.Condition{Kind: harness.Energised, Coil: coil}})
			b.element("K1", "K1.30-87a", "K1.30", "K1.87a", harness.Element{Kind: harness.Contact, Ohms: 0.002, When: harness.Condition{Kind: harness.Released, Coil: coil}})
			b.h.Parts[b.parts["K1"]].Suppression = "none"
			b.switched("SW")
			b.h.Wires[1].To = b.at("SW.1") // the fuse feeds the switch, the switch the coil
			b.wire("1E", "SW.2", "K1.86", 300)
			b.wire("1F", "F1.2", "K1.30", 300)
			return again(b)
		}},
		{"gauge-on-shared-ground", source.Advice, "GAUGE", func() *bench { return liftedGauge(0.05) }},
		{"contact-never-closed", source.Advice, "SW", func() *bench { b := sound(); b.h.States = b.h.States[:1]; return b }},
		{"isolator-does-not-kill", source.Advice, "ISO", func() *bench { return isolated("BUS") }},
	}
	for _, c := range cases {
		t.Run(c.slug, func(t *testing.T) {
			_, ps := c.make().choose(t)
			var found []string
			for _, p := range ps {
				if p.Slug == c.slug && p.Level == c.level {
					found = append(found, p.Subjects...)
					require.True(t, p.Span.Known(), "it points at a place")
					require.NotEmpty(t, p.Detail)
				}
			}
			require.Contains(t, found, c.subject, "%v", slugsOf(ps))
		})
	}
}

// again makes the states fit parts that were added after them.
func again(b *bench) *bench {
	for i := range b.h.States {
		for len(b.h.States[i].Position) < len(b.h.Parts) {
			b.h.States[i].Position = append(b.h.States[i].Position, 0)
		}
	}
	return b
}

// charged is a battery, a starter whose stud takes the alternator's output, and
// a fuse near the battery.
func charged() *bench {
	b := newBench(unit.Metric)
	b.battery("BAT")
	b.starter("ST", 180)
	b.alternator("ALT", 45)
	b.fuse("FM")
	b.load("HEATER", harness.Heater, 20, harness.AsCurrent)
	b.ground("G1")
	b.ground("G2")
	b.h.Circuits = append(b.h.Circuits, harness.Circuit{ID: 1, Key: "start", Class: "start"})
	b.wire("2A", "ALT.B+", "ST.30", 900)
	b.wire("2B", "BAT.+", "ST.30", 1500).Circuit = 1
	b.wire("2C", "BAT.+", "FM.1", 150)
	b.wire("2D", "FM.2", "HEATER.+", 1500)
	b.wire("2E", "HEATER.-", "G1", 300)
	b.wire("2F", "BAT.-", "G2", 400)
	b.state("parked", harness.EngineOff)
	b.state("driving", harness.EngineRunning)
	b.state("starting", harness.EngineCranking)
	return b
}

// relay is a relay with a diode across its coil; its coil is fed on one
// terminal and grounded on the other.
func relay(fed, grounded string) *bench {
	b := newBench(unit.Metric)
	b.battery("BAT")
	b.fuse("F1")
	b.part("K1", harness.Relay).Suppression = "diode"
	b.element("K1", "K1.coil", "K1.86", "K1.85", harness.Element{Kind: harness.RelayCoil, Ohms: 80, PullIn: 8, DropOut: 1.2})
	b.element("K1", "K1.diode", "K1.85", "K1.86", harness.Element{Kind: harness.Rectifier, Volts: 0.7, Ohms: 0.01})
	b.ground("G1")
	b.ground("G2")
	b.wire("1A", "BAT.+", "F1.1", 100)
	b.wire("1B", "F1.2", fed, 1000)
	b.wire("1C", grounded, "G1", 300)
	b.wire("1D", "BAT.-", "G2", 300)
	b.h.Parts[b.parts["F1"]].Rating = 5
	b.state("parked", harness.EngineOff)
	return b
}

// buzzer feeds a coil through its own released contact.
func buzzer() *bench {
	b := relay("K1.30", "K1.85")
	b.h.Parts[b.parts["K1"]].Suppression = "none"
	coil := b.h.Parts[b.parts["K1"]].Elements[0]
	b.element("K1", "K1.30-87a", "K1.30", "K1.87a", harness.Element{Kind: harness.Contact, Ohms: 0.002, When: harness.Condition{Kind: harness.Released, Coil: coil}})
	b.wire("1E", "K1.87a", "K1.86", 100)
	return b
}

func TestRightWayRoundIsSilent(t *testing.T) {
	_, ps := relay("K1.86", "K1.85").choose(t)
	require.Nil(t, find(ps, "diode-relay-backwards"))
}

// A charged car: the alternator's cable is sized for what a flat battery takes.
func TestFlatBatteryHeatsTheOutputCable(t *testing.T) {
	b := charged()
	c, ps := b.choose(t)
	w := b.wireOf(t, c, "2A")
	require.Equal(t, "driving, flat battery", w.State)
	require.InDelta(t, 45, float64(w.Amps), 1)
	require.GreaterOrEqual(t, float64(w.Ampacity), float64(w.Amps))
	require.Nil(t, find(ps, "alternator-overloaded"))
	require.True(t, b.wireOf(t, c, "2F").Area >= b.wireOf(t, c, "2B").Area, "battery's earth lead no thinner than its live lead")
	start := b.wireOf(t, c, "2B")
	require.Less(t, float64(start.Amps), 60.0, "the seconds of cranking do not count for heat")
	for _, l := range c.Loads {
		require.LessOrEqual(t, float64(l.FeedDrop+l.ReturnDrop), float64(l.Limit)*1.000001, l.Name)
	}
	require.Equal(t, unit.Ampere(45), c.Budgets[1].Alternator)
	require.True(t, c.Budgets[0].KeyOff)
}

// With positive earth and a wired return the choice is the same.
func TestPositiveEarth(t *testing.T) {
	b := fan(unit.SAE, 20, 8*foot)
	c, _ := b.choose(t)
	p := newBench(unit.SAE)
	p.h.System.PositiveEarth = true
	p.part("BAT", harness.Battery).Capacity = 60
	p.element("BAT", "BAT", "BAT.+", "BAT.-", harness.Element{Kind: harness.EMF, Volts: 12.6, Ohms: 0.005})
	p.fuse("F1")
	p.switched("SW")
	p.load("FAN", harness.Motor, 20, harness.AsMotor)
	p.ground("G1")
	p.ground("G2")
	p.wire("1A", "BAT.-", "F1.1", 100)
	p.wire("1B", "F1.2", "SW.1", 4*foot-100)
	p.wire("1C", "SW.2", "FAN.-", 4*foot)
	p.wire("1D", "FAN.+", "G1", 1)
	p.wire("1E", "BAT.+", "G2", 1)
	p.state("parked", harness.EngineOff)
	p.state("running fan", harness.EngineOff, "SW")
	got, ps := p.choose(t)
	require.Empty(t, slugsOf(ps))
	for i := range c.Wires {
		require.Equal(t, c.Wires[i].Gauge, got.Wires[i].Gauge, b.h.Wires[i].Name)
		require.Equal(t, c.Wires[i].ProtectedBy, got.Wires[i].ProtectedBy)
	}
}

// A lamp between the key and the alternator's field terminal limits what flows
// through it; a short on its wire is one before it and opens the fuse.
func TestChargeLampHidesNoShort(t *testing.T) {
	b := charged()
	b.switched("KEY")
	b.fuse("F2").Rating = 5
	b.load("LAMP", harness.Lamp, 0.17, harness.AsLamp)
	b.element("ALT", "ALT.field", "ALT.D", "chassis", harness.Element{Kind: harness.Contact, Ohms: 1})
	b.wire("4A", "FM.2", "F2.1", 100)
	b.wire("4B", "F2.2", "KEY.1", 900)
	b.wire("4C", "KEY.2", "LAMP.+", 900)
	b.wire("4D", "LAMP.-", "ALT.D", 1500)
	for i := range again(b).h.States {
		b.h.States[i].Position[b.parts["KEY"]] = min(i, 1)
	}
	c, ps := b.choose(t)
	require.Nil(t, find(ps, "short-may-not-open"))
	require.Greater(t, float64(fuseNamed(t, c, "F2").Prospective), 100.0)
	require.Greater(t, float64(fuseNamed(t, c, "FM").Prospective), 100.0, "a feeder too")
}

// twiceFed is a fan whose feed comes through F1 and, behind another switch, F2
// off a panel of its own; parted, each feed has its own side of a changeover.
func twiceFed(parted bool) *bench {
	b := fan(unit.Metric, 10, 2000)
	b.fuse("MF").Rating = 60
	b.fuse("F2").Rating = 20
	p := b.switched("S2")
	if parted {
		p.Positions = []string{"left", "right"}
		other := b.element("S2", "S2.3-2", "S2.3", "S2.2", harness.Element{Kind: harness.Contact, Ohms: 0.002})
		b.h.Elements[other].When = harness.Condition{Kind: harness.InPosition, Switch: b.parts["S2"], Positions: []int{0}}
		b.wire("3D", "F1.2", "S2.3", 500)
	}
	b.wire("3A", "BAT.+", "MF.1", 100)
	b.wire("3B", "MF.2", "F2.1", 100)
	b.wire("3C", "F2.2", "S2.1", 500)
	b.load("LAMP", harness.Lamp, 2, harness.AsLamp)
	if parted {
		b.wire("3E", "S2.2", "LAMP.+", 500)
	} else {
		b.wire("3E", "S2.2", "F1.2", 500)
		b.wire("3G", "F1.2", "LAMP.+", 500)
	}
	b.wire("3F", "LAMP.-", "G1", 100)
	b.h.States = nil
	b.state("parked", harness.EngineOff)
	b.state("both on", harness.EngineOff, "SW", "S2")
	return b
}

// linkedBatteries is two batteries joined by a cable with a fuse at each end.
func linkedBatteries() *bench {
	b := fan(unit.Metric, 10, 2000)
	b.battery("AUX")
	b.fuse("FA").Rating = 30
	b.fuse("FB").Rating = 30
	b.wire("2A", "BAT.+", "FA.1", 100)
	b.wire("2B", "FA.2", "FB.1", 2000)
	b.wire("2C", "FB.2", "AUX.+", 100)
	b.wire("2D", "AUX.-", "G2", 100)
	return again(b)
}

// What is no double feed: a changeover between two feeds, and an alternator's
// fuse beside the battery's.
func TestOneFeedAtATimeIsSilent(t *testing.T) {
	_, ps := twiceFed(true).choose(t)
	require.Nil(t, find(ps, "fed-from-two-fuses"), "%v", ps)
	_, ps = besideAlternator(60).choose(t)
	require.Nil(t, find(ps, "fed-from-two-fuses"))
}

// SAE J553: type 1 closes by itself and wants another limiter before it; type 3
// is reset by hand.
func TestBreakerTypes(t *testing.T) {
	b := fan(unit.Metric, 10, 2000)
	p := &b.h.Parts[b.parts["F1"]]
	for kind, words := range map[string]string{"1": "cycles while the fault lasts, easily mistaken for a loose connection", "2": "stays open while it has power", "3": "reset by hand"} {
		p.Kind, p.BreakerType = harness.Breaker, kind
		c, ps := b.choose(t)
		require.Contains(t, fuseNamed(t, c, "F1").Reason, words)
		require.Equal(t, kind, fuseNamed(t, c, "F1").Type)
		require.Equal(t, kind == "1", find(ps, "breaker-cycles-unfused") != nil, kind)
	}
	p.BreakerType = "1"
	b.fuse("MF").Rating = 40
	b.h.Wires[0].To = b.at("MF.1")
	b.wire("1F", "MF.2", "F1.1", 100)
	_, ps := again(b).choose(t)
	require.Nil(t, find(ps, "breaker-cycles-unfused"), "the main fuse limits it")
	b.h.Parts[b.parts["MF"]].Kind, b.h.Parts[b.parts["MF"]].BreakerType = harness.Breaker, "1"
	_, ps = b.choose(t)
	require.NotNil(t, find(ps, "breaker-cycles-unfused"), "one that cycles itself does not")
}

// A panel's feeder is sized for what runs at once, not for the sum of its fuses;
// one that is too small for that says what hangs on it.
func TestFeederIsSizedForWhatRunsAtOnce(t *testing.T) {
	b := fan(unit.Metric, 10, 2000)
	b.fuse("MF")
	b.fuse("F2").Rating = 30
	b.load("HEATER", harness.Heater, 15, harness.AsCurrent)
	b.h.Wires[0].To = b.at("MF.1")
	b.wire("2A", "MF.2", "F1.1", 50)
	b.wire("2B", "MF.2", "F2.1", 50)
	b.wire("2C", "F2.2", "HEATER.+", 900)
	b.wire("2D", "HEATER.-", "G1", 100)
	c, _ := again(b).choose(t)
	f := fuseNamed(t, c, "MF")
	require.Equal(t, unit.Ampere(35), f.Rating)
	require.Contains(t, f.Reason, "its 2 fuses add up to 45 A: it is sized for the 25 A that run at once")
	b.h.Parts[b.parts["MF"]].Rating = 30
	_, ps := b.choose(t)
	p := find(ps, "fuse-too-small")
	require.NotNil(t, p)
	require.Contains(t, p.Detail, "its 2 fuses add up to 45 A, and 25 A of that runs at once")
}
