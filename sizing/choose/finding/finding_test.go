package finding_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/rig"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Every finding of the package, each with a small harness that is wrong in that
// way, and what it is blamed on.
func TestFindings(t *testing.T) {
	sound := func() *rig.Rig { return rig.Fan(unit.Metric, 10, 2000) }
	part := func(b *rig.Rig, ref string) *harness.Part { return &b.H.Parts[b.Parts[ref]] }
	cases := []struct {
		slug    string
		level   source.Level
		subject string
		make    func() *rig.Rig
	}{
		{"unprotected-feed", source.Error, "1A", func() *rig.Rig { b := sound(); b.Ways[0].Length = 800; return b }},
		{"unprotected-feed", source.Warning, "2A", rig.Charged},
		{"unfused-cranking-cable", source.Advice, "2B", rig.Charged},
		{"fuse-too-big", source.Error, "F1", func() *rig.Rig {
			b := sound()
			b.Given("1B", unit.Gauge{System: unit.Metric, Size: "0.5"})
			part(b, "F1").Rating = 40
			return b
		}},
		{"fuse-too-small", source.Error, "F1", func() *rig.Rig { b := sound(); part(b, "F1").Rating = 7.5; return b }},
		{"fuse-too-small", source.Warning, "F1", func() *rig.Rig {
			b := sound()
			part(b, "FAN").Starts = unit.Start{Amps: 60, For: 6}
			part(b, "F1").Rating, part(b, "F1").Body = 15, "blade"
			return b
		}},
		{"parallel-fuses", source.Warning, "F2", func() *rig.Rig {
			b := sound()
			b.Fuse("F2")
			b.Wire("2A", "BAT.+", "F2.1", 100)
			b.Wire("2B", "F2.2", "SW.1", 900)
			b.H.States = nil // the states place every part
			b.State("running fan", harness.EngineOff, "SW")
			return b
		}},
		{"fed-from-two-fuses", source.Warning, "F2", func() *rig.Rig { return twiceFed(false) }},
		{"fed-from-two-fuses", source.Advice, "2B", linkedBatteries},
		{"breaker-cycles-unfused", source.Warning, "F1", func() *rig.Rig {
			b := sound()
			part(b, "F1").Kind, part(b, "F1").BreakerType = harness.Breaker, "1"
			return b
		}},
		{"holder-too-small", source.Warning, "F1", func() *rig.Rig {
			b := sound()
			part(b, "F1").Rating, part(b, "F1").Body, part(b, "F1").Holder = 40, "blade", 30
			return b
		}},
		{"short-may-not-open", source.Warning, "F1", func() *rig.Rig {
			b := sound()
			b.Given("1C", unit.Gauge{System: unit.Metric, Size: "0.5"})
			b.Ways[2].Length = 12000
			part(b, "F1").Rating = 15
			return b
		}},
		{"short-too-slow", source.Warning, "1B", func() *rig.Rig {
			b := sound()
			b.Given("1B", unit.Gauge{System: unit.Metric, Size: "0.5"})
			part(b, "F1").Rating, part(b, "F1").Body = 80, "maxi"
			return b
		}},
		{"drop-over-limit", source.Warning, "FAN", func() *rig.Rig { b := rig.Fan(unit.Metric, 150, 60000); return b }},
		{"gauge-given-too-thin", source.Warning, "1C", func() *rig.Rig {
			b := rig.Fan(unit.Metric, 5, 12000)
			b.Given("1C", unit.Gauge{System: unit.Metric, Size: "1"})
			return b
		}},
		{"gauge-given-too-thin", source.Error, "1C", func() *rig.Rig {
			b := rig.Fan(unit.Metric, 40, 300)
			b.Given("1C", unit.Gauge{System: unit.Metric, Size: "0.5"})
			return b
		}},
		{"gauge-given-too-thin", source.Advice, "1D", func() *rig.Rig {
			b := rig.Fan(unit.Metric, 0.2, 300)
			b.Given("1D", unit.Gauge{System: unit.Metric, Size: "0.35"})
			return b
		}},
		{"wire-too-hot", source.Error, "1C", func() *rig.Rig { b := rig.Fan(unit.Metric, 600, 300); return b }},
		{"wire-too-weak-for-fuse", source.Error, "1C", func() *rig.Rig {
			b := sound()
			b.H.Practice.WireTypes = []harness.WireType{{Name: "thin reel", Class: 105, Sizes: []harness.WireTypeSize{{Size: unit.Gauge{System: unit.Metric, Size: "0.5"}}}}}
			for i := range b.H.Wires {
				if b.H.Wires[i].Name == "1C" {
					b.H.Wires[i].Insulation = "thin reel"
				}
			}
			return b
		}},
		{"contact-overloaded", source.Error, "SW", func() *rig.Rig { b := sound(); part(b, "SW").Rating = 6; return b }},
		{"contact-overloaded", source.Warning, "SW", func() *rig.Rig { b := sound(); part(b, "SW").Rating = 15; return b }}, // motor ×2: 20 A
		{"load-never-on", source.Warning, "FAN", func() *rig.Rig { b := sound(); b.H.States = b.H.States[:1]; return b }},
		{"floating-load", source.Error, "LAMP", func() *rig.Rig {
			b := sound()
			b.Load("LAMP", harness.Lamp, 5, harness.AsLamp)
			b.Wire("2A", "SW.2", "LAMP.+", 500)
			b.At("LAMP.-")
			return b.Again()
		}},
		{"unfed-load", source.Error, "LAMP", func() *rig.Rig {
			b := sound()
			b.Load("LAMP", harness.Lamp, 5, harness.AsLamp)
			b.Wire("2A", "LAMP.-", "G1", 500)
			return b.Again()
		}},
		{"relay-chatter", source.Error, "K1", buzzer},
		{"alternator-overloaded", source.Warning, "driving", func() *rig.Rig {
			b := rig.Charged()
			b.Load("HEAT", harness.Heater, 60, harness.AsCurrent)
			b.Wire("3A", "FM.2", "HEAT.+", 500)
			b.Wire("3B", "HEAT.-", "G1", 500)
			return b.Again()
		}},
		{"alternator-overloaded", source.Advice, "driving", func() *rig.Rig {
			b := rig.Charged()
			b.Load("HEAT", harness.Heater, 60, harness.AsCurrent)
			b.Wire("3A", "FM.2", "HEAT.+", 500)
			b.Wire("3B", "HEAT.-", "G1", 500)
			b = b.Again()
			horn := b.Part("HB", harness.Switch) // a horn push, pressed: it lasts seconds
			horn.Momentary, horn.Positions = true, []string{"off", "pressed"}
			for i := range b.H.States {
				b.H.States[i].Position = append(b.H.States[i].Position, 1)
			}
			return b
		}},
		{"key-off-drain", source.Warning, "RADIO", func() *rig.Rig {
			b := sound()
			b.Load("RADIO", harness.Module, 0.2, harness.AsCurrent)
			b.Wire("2A", "F1.2", "RADIO.+", 500)
			b.Wire("2B", "RADIO.-", "G1", 500)
			return b.Again()
		}},
		{"key-off-drain", source.Advice, "SOCKET", func() *rig.Rig {
			b := sound()
			b.Load("SOCKET", harness.Outlet, 5, harness.AsCurrent)
			b.Wire("2A", "F1.2", "SOCKET.+", 500)
			b.Wire("2B", "SOCKET.-", "G1", 500)
			return b.Again()
		}},
		{"relay-will-not-pull-in", source.Warning, "K1", weakRelay},
		{"relay-sides-swapped", source.Warning, "K1", swappedRelay},
		{"relay-sides-swapped", source.Warning, "K1", loadThroughCoil},
		{"short-circuit", source.Error, "SW.1-3", litSwitch},
		{"open-contact-live", source.Advice, "K1", func() *rig.Rig {
			b := relay("K1.86", "K1.85")
			coil := b.H.Parts[b.Parts["K1"]].Elements[0]
			b.Element("K1", "K1.30-87", "K1.30", "K1.87", harness.Element{Kind: harness.Contact, Ohms: 0.002, When: harness.Condition{Kind: harness.Energised, Coil: coil}})
			b.Element("K1", "K1.30-87a", "K1.30", "K1.87a", harness.Element{Kind: harness.Contact, Ohms: 0.002, When: harness.Condition{Kind: harness.Released, Coil: coil}})
			b.H.Parts[b.Parts["K1"]].Suppression = "none"
			b.Switched("SW")
			b.H.Wires[1].To = b.At("SW.1") // the fuse feeds the switch, the switch the coil
			b.Wire("1E", "SW.2", "K1.86", 300)
			b.Wire("1F", "F1.2", "K1.30", 300)
			return b.Again()
		}},
		{"gauge-on-shared-ground", source.Advice, "GAUGE", func() *rig.Rig { return liftedGauge(0.05) }},
		{"contact-never-closed", source.Advice, "SW", func() *rig.Rig { b := sound(); b.H.States = b.H.States[:1]; return b }},
		{"isolator-does-not-kill", source.Advice, "ISO", func() *rig.Rig { return isolated("BUS") }},
	}
	for _, c := range cases {
		t.Run(c.slug, func(t *testing.T) {
			_, ps := c.make().Choose(t)
			var found []string
			for _, p := range ps {
				if p.Slug == c.slug && p.Level == c.level {
					found = append(found, p.Subjects...)
					require.True(t, p.Span.Known(), "it points at a place")
					require.NotEmpty(t, p.Detail)
				}
			}
			require.Contains(t, found, c.subject, "%v", rig.Slugs(ps))
		})
	}
}

// A given gauge that is too thin for its heat, its fuse and its drop is told once, with the size that each needs.
func TestAGivenGaugeIsToldOnce(t *testing.T) {
	b := rig.Fan(unit.Metric, 40, 6000)
	b.Given("1C", unit.Gauge{System: unit.Metric, Size: "0.5"})
	_, ps := b.Choose(t)
	var told []source.Problem
	for _, p := range ps {
		if slices.Contains(p.Subjects, "1C") && p.Level != source.Advice {
			told = append(told, p)
		}
	}
	require.Len(t, told, 1, "%v", rig.Slugs(ps))
	require.Equal(t, "gauge-given-too-thin", told[0].Slug)
	require.Regexp(t, `the wire needs [0-9.]+ mm² for the heat, [0-9.]+ mm² for its fuse, [0-9.]+ mm² for the drop`, told[0].Detail)
}

// relay is a relay with a diode across its coil; its coil is fed on one
// terminal and grounded on the other.
func relay(fed, grounded string) *rig.Rig {
	b := rig.New(unit.Metric)
	b.Battery("BAT")
	b.Fuse("F1")
	b.Part("K1", harness.Relay).Suppression = "diode"
	b.Element("K1", "K1.coil", "K1.86", "K1.85", harness.Element{Kind: harness.RelayCoil, Ohms: 80, PullIn: 8, DropOut: 1.2})
	b.Element("K1", "K1.diode", "K1.85", "K1.86", harness.Element{Kind: harness.Rectifier, Volts: 0.7, Ohms: 0.01})
	b.Ground("G1")
	b.Ground("G2")
	b.Wire("1A", "BAT.+", "F1.1", 100)
	b.Wire("1B", "F1.2", fed, 1000)
	b.Wire("1C", grounded, "G1", 300)
	b.Wire("1D", "BAT.-", "G2", 300)
	b.H.Parts[b.Parts["F1"]].Rating = 5
	b.State("parked", harness.EngineOff)
	return b
}

// buzzer feeds a coil through its own released contact.
func buzzer() *rig.Rig {
	b := relay("K1.30", "K1.85")
	b.H.Parts[b.Parts["K1"]].Suppression = "none"
	coil := b.H.Parts[b.Parts["K1"]].Elements[0]
	b.Element("K1", "K1.30-87a", "K1.30", "K1.87a", harness.Element{Kind: harness.Contact, Ohms: 0.002, When: harness.Condition{Kind: harness.Released, Coil: coil}})
	b.Wire("1E", "K1.87a", "K1.86", 100)
	return b
}

// A charged car: the alternator's cable is sized for what a flat battery takes.
func TestFlatBatteryHeatsTheOutputCable(t *testing.T) {
	b := rig.Charged()
	c, ps := b.Choose(t)
	w := b.WireOf(t, c, "2A")
	require.Equal(t, "driving, battery flat", w.State)
	require.InDelta(t, 45, float64(w.Amps), 1)
	require.GreaterOrEqual(t, float64(w.Ampacity), float64(w.Amps))
	require.Nil(t, rig.Find(ps, "alternator-overloaded"))
	require.True(t, b.WireOf(t, c, "2F").Area >= b.WireOf(t, c, "2B").Area, "battery's earth lead no thinner than its live lead")
	start := b.WireOf(t, c, "2B")
	require.Less(t, float64(start.Amps), 60.0, "the seconds of cranking do not count for heat")
	for _, l := range c.Loads {
		require.LessOrEqual(t, float64(l.FeedDrop+l.ReturnDrop), float64(l.Limit)*1.000001, l.Name)
	}
	require.Equal(t, unit.Ampere(45), c.Budgets[1].Alternator)
	require.True(t, c.Budgets[0].KeyOff)
}

// With positive earth and a wired return the choice is the same.
func TestPositiveEarth(t *testing.T) {
	b := rig.Fan(unit.SAE, 20, 8*rig.Foot)
	c, _ := b.Choose(t)
	p := rig.New(unit.SAE)
	p.H.System.PositiveEarth = true
	p.Part("BAT", harness.Battery).Capacity = 60
	p.Element("BAT", "BAT", "BAT.+", "BAT.-", harness.Element{Kind: harness.EMF, Volts: 12.6, Ohms: 0.005})
	p.Fuse("F1")
	p.Switched("SW")
	p.Load("FAN", harness.Motor, 20, harness.AsMotor)
	p.Ground("G1")
	p.Ground("G2")
	p.Wire("1A", "BAT.-", "F1.1", 100)
	p.Wire("1B", "F1.2", "SW.1", 4*rig.Foot-100)
	p.Wire("1C", "SW.2", "FAN.-", 4*rig.Foot)
	p.Wire("1D", "FAN.+", "G1", 1)
	p.Wire("1E", "BAT.+", "G2", 1)
	p.State("parked", harness.EngineOff)
	p.State("running fan", harness.EngineOff, "SW")
	got, ps := p.Choose(t)
	require.Empty(t, rig.Slugs(ps))
	for i := range c.Wires {
		require.Equal(t, c.Wires[i].Gauge, got.Wires[i].Gauge, b.H.Wires[i].Name)
		require.Equal(t, c.Wires[i].ProtectedBy, got.Wires[i].ProtectedBy)
	}
}

// A lamp between the key and the alternator's field terminal limits what flows
// through it; a short on its wire is one before it and opens the fuse.
func TestChargeLampHidesNoShort(t *testing.T) {
	b := rig.Charged()
	b.Switched("KEY")
	b.Fuse("F2").Rating = 5
	b.Load("LAMP", harness.Lamp, 0.17, harness.AsLamp)
	b.Element("ALT", "ALT.field", "ALT.D", "chassis", harness.Element{Kind: harness.Contact, Ohms: 1, Innards: true})
	b.Wire("4A", "FM.2", "F2.1", 100)
	b.Wire("4B", "F2.2", "KEY.1", 900)
	b.Wire("4C", "KEY.2", "LAMP.+", 900)
	b.Wire("4D", "LAMP.-", "ALT.D", 1500)
	for i := range b.Again().H.States {
		b.H.States[i].Position[b.Parts["KEY"]] = min(i, 1)
	}
	c, ps := b.Choose(t)
	require.Nil(t, rig.Find(ps, "short-may-not-open"))
	require.Greater(t, float64(rig.FuseNamed(t, c, "F2").Prospective), 100.0)
	require.Greater(t, float64(rig.FuseNamed(t, c, "FM").Prospective), 100.0, "a feeder too")
}

// twiceFed is a fan whose feed comes through F1 and, behind another switch, F2
// off a panel of its own; parted, each feed has its own side of a changeover.
func twiceFed(parted bool) *rig.Rig {
	b := rig.Fan(unit.Metric, 10, 2000)
	b.Fuse("MF").Rating = 60
	b.Fuse("F2").Rating = 20
	p := b.Switched("S2")
	if parted {
		p.Positions = []string{"left", "right"}
		other := b.Element("S2", "S2.3-2", "S2.3", "S2.2", harness.Element{Kind: harness.Contact, Ohms: 0.002})
		b.H.Elements[other].When = harness.Condition{Kind: harness.InPosition, Switch: b.Parts["S2"], Positions: []int{0}}
		b.Wire("3D", "F1.2", "S2.3", 500)
	}
	b.Wire("3A", "BAT.+", "MF.1", 100)
	b.Wire("3B", "MF.2", "F2.1", 100)
	b.Wire("3C", "F2.2", "S2.1", 500)
	b.Load("LAMP", harness.Lamp, 2, harness.AsLamp)
	if parted {
		b.Wire("3E", "S2.2", "LAMP.+", 500)
	} else {
		b.Wire("3E", "S2.2", "F1.2", 500)
		b.Wire("3G", "F1.2", "LAMP.+", 500)
	}
	b.Wire("3F", "LAMP.-", "G1", 100)
	b.H.States = nil
	b.State("parked", harness.EngineOff)
	b.State("both on", harness.EngineOff, "SW", "S2")
	return b
}

// linkedBatteries is two batteries joined by a cable with a fuse at each end.
func linkedBatteries() *rig.Rig {
	b := rig.Fan(unit.Metric, 10, 2000)
	b.Battery("AUX")
	b.Fuse("FA").Rating = 30
	b.Fuse("FB").Rating = 30
	b.Wire("2A", "BAT.+", "FA.1", 100)
	b.Wire("2B", "FA.2", "FB.1", 2000)
	b.Wire("2C", "FB.2", "AUX.+", 100)
	b.Wire("2D", "AUX.-", "G2", 100)
	return b.Again()
}

// What is no double feed: a changeover between two feeds, and an alternator's
// fuse beside the battery's.
func TestOneFeedAtATimeIsSilent(t *testing.T) {
	_, ps := twiceFed(true).Choose(t)
	require.Nil(t, rig.Find(ps, "fed-from-two-fuses"), "%v", ps)
	_, ps = rig.BesideAlternator(60).Choose(t)
	require.Nil(t, rig.Find(ps, "fed-from-two-fuses"))
}

// SAE J553: type 1 closes by itself and wants another limiter before it; type 3
// is reset by hand.
func TestBreakerTypes(t *testing.T) {
	b := rig.Fan(unit.Metric, 10, 2000)
	p := &b.H.Parts[b.Parts["F1"]]
	for kind, words := range map[string]string{"1": "cycles while the fault lasts, easily mistaken for a loose connection", "2": "stays open while it has power", "3": "reset by hand"} {
		p.Kind, p.BreakerType = harness.Breaker, kind
		c, ps := b.Choose(t)
		require.Contains(t, rig.FuseNamed(t, c, "F1").Reason, words)
		require.Equal(t, kind, rig.FuseNamed(t, c, "F1").Type)
		require.Equal(t, kind == "1", rig.Find(ps, "breaker-cycles-unfused") != nil, kind)
	}
	p.BreakerType = "1"
	b.Fuse("MF").Rating = 40
	b.H.Wires[0].To = b.At("MF.1")
	b.Wire("1F", "MF.2", "F1.1", 100)
	_, ps := b.Again().Choose(t)
	require.Nil(t, rig.Find(ps, "breaker-cycles-unfused"), "the main fuse limits it")
	b.H.Parts[b.Parts["MF"]].Kind, b.H.Parts[b.Parts["MF"]].BreakerType = harness.Breaker, "1"
	_, ps = b.Choose(t)
	require.NotNil(t, rig.Find(ps, "breaker-cycles-unfused"), "one that cycles itself does not")
}

// A panel's feeder is sized for what runs at once, not for the sum of its fuses;
// one that is too small for that says what hangs on it.
func TestFeederIsSizedForWhatRunsAtOnce(t *testing.T) {
	b := rig.Fan(unit.Metric, 10, 2000)
	b.Fuse("MF")
	b.Fuse("F2").Rating = 30
	b.Load("HEATER", harness.Heater, 15, harness.AsCurrent)
	b.H.Wires[0].To = b.At("MF.1")
	b.Wire("2A", "MF.2", "F1.1", 50)
	b.Wire("2B", "MF.2", "F2.1", 50)
	b.Wire("2C", "F2.2", "HEATER.+", 900)
	b.Wire("2D", "HEATER.-", "G1", 100)
	c, _ := b.Again().Choose(t)
	f := rig.FuseNamed(t, c, "MF")
	require.Equal(t, unit.Ampere(40), f.Rating, "35 A, which would do, is seldom on the shelf")
	require.Contains(t, f.Reason, "its 2 fuses add up to 45 A: it is sized for the 25 A that run at once")
	b.H.Parts[b.Parts["MF"]].Rating = 30
	_, ps := b.Choose(t)
	p := rig.Find(ps, "fuse-too-small")
	require.NotNil(t, p)
	require.Contains(t, p.Detail, "its 2 fuses add up to 45 A, and 25 A of that runs at once")
}
