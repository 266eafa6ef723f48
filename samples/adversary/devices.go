package adversary

import "fmt"

// kinds of devices, how often each is taken, and what is needed for it.
var kinds = []struct {
	weight int
	name   string
	add    func(*grower, string)
}{
	{5, "switched", (*grower).switched},
	{5, "relayed", (*grower).relayed},
	{2, "ground-relayed", (*grower).groundRelayed},
	{2, "lamps", (*grower).lamps},
	{2, "beams", (*grower).beams},
	{1, "changed-over", (*grower).changedOver},
	{2, "indicators", (*grower).indicators},
	{2, "gauge", (*grower).gauge},
	{2, "warning", (*grower).warning},
	{2, "module", (*grower).module},
	{2, "diode", (*grower).diode},
	{2, "horns", (*grower).horns},
	{1, "brake", (*grower).brake},
	{1, "two-speed", (*grower).twoSpeed},
	{1, "capacitor", (*grower).capacitor},
	{1, "leisure", (*grower).leisure},
	{1, "inverter", (*grower).inverter},
	{1, "jumper", (*grower).jumper},
}

// devices adds three to nine, each of some kinds at most once.
func (g *grower) devices() {
	once := map[string]bool{"indicators": true, "leisure": true, "beams": true, "changed-over": true, "brake": true, "horns": true, "inverter": true, "two-speed": true, "capacitor": true}
	used := map[string]bool{}
	for range 3 + g.rand.IntN(7) {
		sum := 0
		for _, k := range kinds {
			sum += k.weight
		}
		n := g.rand.IntN(sum)
		for _, k := range kinds {
			if n -= k.weight; n < 0 {
				if !used[k.name] || !once[k.name] {
					k.add(g, k.name)
				}
				used[k.name] = true
				break
			}
		}
	}
}

// note keeps a device for whoever breaks it.
func (g *grower) note(d Device) {
	d.Circuit = g.Circuits[len(g.Circuits)-1]
	g.Devices = append(g.Devices, &d)
	g.total += d.Amps
}

// toggle is a switch with two terminals that a driver turns on. Its rating is that of
// FAA AC 43.13-1B table 11-4 for the kind of load.
func (g *grower) toggle(at, title, kind string, amps float64) string {
	name := g.name("SW")
	e := g.part(name, "switch", at, "name", title, "positions", "{off: [], on: [[1, 2]]}")
	if amps > 3 || g.chance(30) {
		e.Set("rating", g.rated(kind, amps))
	}
	g.turnedOn = append(g.turnedOn, Field{name, `"on"`})
	return name
}

// load is one load of a current that suits its kind.
func (g *grower) load(kind, at, title string, amps float64) string {
	letters := map[string]string{"motor": "M", "lamp": "L", "heater": "H", "outlet": "OUT", "horn": "HRN", "solenoid": "Y", "coil": "C"}[kind]
	name := g.name(letters)
	e := g.part(name, kind, at, "name", title, "draws", g.draw(amps))
	if kind == "motor" && g.chance(60) {
		e.Set("starts", fmt.Sprintf("%s A for 0.%d s", num(g.round(amps*2.5)), 2+g.rand.IntN(3)))
	}
	if kind == "lamp" && g.chance(25) {
		e.Set("behaves", "current")
	}
	if amps > 9 {
		e.Set("stud", "M6")
	}
	return name
}

// rated is a contact's rating for a kind of load, in steps of 5 A.
func (g *grower) rated(kind string, amps float64) string {
	factor := map[string]float64{"lamp": 5, "motor": 2, "solenoid": 2, "coil": 2, "horn": 2}[kind]
	if g.Volts >= 24 {
		factor = map[string]float64{"lamp": 8, "motor": 3, "solenoid": 4, "coil": 4, "horn": 4, "outlet": 2, "heater": 2}[kind]
	}
	return fmt.Sprintf("%d A", int(amps*1.1*max(factor, 1))/5*5+5)
}

func (g *grower) round(a float64) float64 { return float64(int(a*10+0.5)) / 10 }

func (g *grower) place() string { return pick(g.rand, "bay", "dash", "nose", "rear") }

// key tells whether a device of so much goes behind the key.
func (g *grower) behindKey(amps float64) bool {
	if g.chance(55) && g.ignFed+amps < g.ignMost {
		g.ignFed += amps
		return true
	}
	return false
}

// switched is a small load behind a switch.
func (g *grower) switched(kind string) {
	at := g.place()
	amps := g.suited(g.amps(1+float64(g.rand.IntN(60))/10), "tray", "dash", at)
	what := pick(g.rand, "motor", "lamp", "heater", "outlet", "solenoid")
	title := fmt.Sprintf("Consumer %d", len(g.Devices)+1)
	key := g.behindKey(amps)
	area := g.area(amps, "tray", "dash", at)
	feed, fuse := g.fused(key, title, amps, area)
	sw := g.toggle("dash", title+" switch", what, amps)
	load := g.load(what, at, title, amps)
	g.roomy(area, sw, load)
	way := append(feed, leg(sw)...)
	if g.chance(25) && at != "dash" && area < 1.5 {
		way = append(way, leg(g.plug(at))...)
	}
	g.circuit(title, g.light(what), append(way, leg(load, g.back(at, ""))...))
	g.note(Device{Kind: kind, Load: load, Switch: sw, Fuse: fuse, Place: at, Amps: amps, Key: key})
}

func (g *grower) light(kind string) string {
	if kind == "lamp" && g.chance(70) {
		return "light"
	}
	return ""
}

// plug is the next cavity of the connector at a place.
func (g *grower) plug(at string) string {
	name := "X" + at[:1]
	if g.Part(name) == nil {
		g.part(name, "connector", at, "name", "Connector "+at, "cavities", "16")
	}
	g.count["cavity "+name]++
	return fmt.Sprintf("%s.%d", name, g.count["cavity "+name])
}

// relay is a relay with or without suppression.
func (g *grower) relay(title, rating string) string {
	name := g.name("K")
	e := g.part(name, "relay", "bay", "name", title+" relay", "rating", rating)
	if s := pick(g.rand, "", "", "resistor", "diode"); s != "" {
		e.Set("suppression", s)
	}
	return name
}

// contacts is the way through a relay, either way round.
func (g *grower) contacts(k string) string {
	if g.chance(30) {
		return k + ".87 " + k + ".30"
	}
	return k + ".30 " + k + ".87"
}

// relayed is a larger load behind a relay that a switch works on its live side.
func (g *grower) relayed(kind string) {
	at := g.place()
	amps := g.suited(g.amps(6+float64(g.rand.IntN(100))/10), "tray", "bay", at)
	area := g.area(amps, "tray", "bay", at)
	what := pick(g.rand, "motor", "motor", "heater", "outlet")
	title := fmt.Sprintf("Consumer %d", len(g.Devices)+1)
	feed, fuse := g.fused(false, title, amps, area)
	control, _ := g.fused(true, title+" control", 0.5, 0)
	k := g.relay(title, g.relayRating(amps))
	sw := g.toggle("dash", title+" switch", "coil", 0)
	load := g.load(what, at, title, amps)
	g.roomy(area, k, load)
	g.circuit(title, "", append(feed, leg(g.contacts(k), load, g.back(at, ""))...),
		append(control, leg(sw, k+".86", k+".85", g.back("bay", ""))...))
	g.note(Device{Kind: kind, Load: load, Switch: sw, Relay: k, Fuse: fuse, Place: at, Amps: amps})
}

func (g *grower) relayRating(amps float64) string {
	if amps > 13 {
		return "70 A"
	}
	return "40 A"
}

// area is about what a drop of 3 % asks of copper at 70 °C over a feed through the
// places and a return of 300 mm.
func (g *grower) area(amps float64, places ...string) float64 {
	way := 600.0
	for i := 1; i < len(places); i++ {
		way += float64(g.distance[[2]string{places[i-1], places[i]}] + 500)
	}
	if g.Wired {
		way *= 2
	}
	return amps * way / 1000 * 0.0206 / (0.03 * g.Volts)
}

// suited gives a draw that copper of 10 mm² serves, halved until it does.
func (g *grower) suited(amps float64, places ...string) float64 {
	for g.area(amps, places...) > 10 {
		amps = g.round(amps / 2)
	}
	return amps
}

// roomy gives studs to parts whose wires are too thick for a tab of 6.3 mm.
func (g *grower) roomy(area float64, parts ...string) {
	for _, name := range parts {
		if e := g.Part(name); e != nil && area > 1.5 {
			e.Set("stud", "M6")
		}
	}
}

// groundRelayed is worked by a switch on the ground side of the coil.
func (g *grower) groundRelayed(kind string) {
	at := g.place()
	amps := g.suited(g.amps(5+float64(g.rand.IntN(80))/10), "tray", "bay", at)
	area := g.area(amps, "tray", "bay", at)
	title := fmt.Sprintf("Consumer %d", len(g.Devices)+1)
	feed, fuse := g.fused(false, title, amps, area)
	control, _ := g.fused(true, title+" control", 0.5, 0)
	k := g.relay(title, g.relayRating(amps))
	sw := g.toggle("dash", title+" switch", "coil", 0)
	load := g.load("motor", at, title, amps)
	g.roomy(area, k, load)
	g.circuit(title, "", append(feed, leg(k+".30", k+".87", load, g.back(at, ""))...),
		append(control, leg(k+".86", k+".85", sw, g.back("dash", ""))...))
	g.note(Device{Kind: kind, Load: load, Switch: sw, Relay: k, Fuse: fuse, Place: at, Amps: amps})
}

// jumper is a relay whose coil is fed by a short wire from its own 30.
func (g *grower) jumper(kind string) {
	at := g.place()
	amps := g.suited(g.amps(5+float64(g.rand.IntN(60))/10), "tray", "bay", at)
	area := g.area(amps, "tray", "bay", at)
	title := fmt.Sprintf("Consumer %d", len(g.Devices)+1)
	feed, fuse := g.fused(false, title, amps, area)
	k := g.relay(title, g.relayRating(amps))
	sw := g.toggle("dash", title+" switch", "coil", 0)
	load := g.load("motor", at, title, amps)
	g.roomy(area, k, load)
	g.circuit(title, "", append(feed, leg(k+".30", k+".87", load, g.back(at, ""))...),
		leg(k+".30", k+".86/60"), leg(k+".85", sw, g.back("dash", "")))
	g.note(Device{Kind: kind, Load: load, Switch: sw, Relay: k, Fuse: fuse, Place: at, Amps: amps})
}

// lamps are two on a splice, with or without a return of their own.
func (g *grower) lamps(kind string) {
	at := g.place()
	amps := g.suited(g.amps(0.4+float64(g.rand.IntN(20))/10), "tray", "dash", at)
	title := fmt.Sprintf("Consumer %d", len(g.Devices)+1)
	key := g.behindKey(2 * amps)
	feed, fuse := g.fused(key, title, 2*amps, 0)
	sw := g.toggle("dash", title+" switch", "lamp", 2*amps)
	one, two, s := g.load("lamp", at, title+" left", amps), g.load("lamp", at, title+" right", amps), g.splice(at, title)
	g.circuit(title, "light", append(feed, leg(sw, s, one, g.back(at, ""))...), leg(s, two, g.back(at, "")))
	g.note(Device{Kind: kind, Load: one, Switch: sw, Fuse: fuse, Place: at, Amps: amps, Key: key})
	g.total += amps
}

func (g *grower) splice(at, title string) string {
	name := g.name("S")
	g.part(name, "splice", at, "name", title+" splice")
	return name
}
