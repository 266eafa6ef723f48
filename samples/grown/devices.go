package grown

import "fmt"

// supply is the battery, the alternator, the starter and the rails.
func (v *vehicle) supply() {
	v.part("BAT", "kind: battery, at: p0, capacity: 90 Ah, stud: M8")
	v.part("MF1", "kind: fuse, name: Main fuse, at: p0, body: bolt, stud: M8")
	v.part("MF2", "kind: fuse, name: Charging fuse, at: p0, body: bolt, stud: M8")
	v.part("PP", "kind: bus, name: Power post, at: p1, stud: M8, studs: 40")
	v.part("ALT", "kind: alternator, name: Alternator, at: p1, output: 120 A")
	v.part("ST", "kind: starter, name: Starter, at: p1, draws: 160 A, solenoid: 12 A")
	v.part("IGN", "kind: ignition-switch, name: Ignition switch, at: p2, rating: 50 A")
	v.part("KI", "kind: relay, name: Ignition relay, at: p2, rating: 70 A")
	v.part("FI", "kind: fuse, name: Ignition fuse, at: p1, body: maxi")
	v.part("FR", "kind: fuse, name: Ignition relay fuse, at: p1, body: maxi")
	v.part("PI", "kind: bus, name: Ignition rail, at: p2, stud: M6, studs: 40")
	v.part("G0", "kind: ground, name: Battery ground, at: p0, stud: M10")
	v.part("GE", "kind: ground, name: Engine ground, at: p1, stud: M10")
	v.circuit("Battery feed", "charge", "BAT.+ MF1/100 PP.in")
	v.circuit("Battery and engine ground", "start", "G0 BAT.-/300", "ST.case GE/400")
	v.circuit("Starter cable", "start", "BAT.+ ST.30")
	v.circuit("Starter control", "control", "IGN.50 ST.50")
	v.circuit("Alternator", "charge", "ALT.B+ MF2 PP.alt/200")
	v.circuit("Ignition", "", "PP.i FI/100 IGN.30", "IGN.15 KI.86 KI.85 GE", "PP.k FR/100 KI.30 KI.87 PI.in")
}

// device adds one: three in ten are motors behind a relay, three pairs of lamps on a
// splice, two gauges with their sender, one a module, one a heater.
func (v *vehicle) device(n int) {
	at := 2 + v.random.IntN(len(v.parent)-2)
	switch n % 10 {
	case 0, 1, 2:
		v.motor(n, at, v.parent[at])
	case 3, 4, 5:
		v.lamps(n, at)
	case 6, 7:
		v.gauge(n, at)
	case 8:
		v.part(fmt.Sprintf("U%d", n), "kind: module, name: Module %d, at: p%d, inside: [{from: 15, to: 31, draws: %.2f A}]", n, at, v.draws())
		v.circuit(fmt.Sprintf("Module %d", n), "", fmt.Sprintf("%s U%d.15 U%d.31 %s", v.fused(), n, n, v.ground(at)))
	default:
		v.part(fmt.Sprintf("H%d", n), "kind: heater, name: Heater %d, at: p%d, draws: %.2f A", n, at, v.draws())
		v.circuit(fmt.Sprintf("Heater %d", n), "", fmt.Sprintf("%s %s %s H%d %s", v.fused(), v.switched(n), v.through(at), n, v.ground(at)))
	}
}

func (v *vehicle) motor(n, at, near int) {
	v.part(fmt.Sprintf("K%d", n), "kind: relay, name: Relay %d, at: p%d", n, near)
	v.part(fmt.Sprintf("L%d", n), "kind: motor, name: Motor %d, at: p%d, draws: %.2f A", n, at, v.draws())
	load := fmt.Sprintf("%s K%d.30 K%d.87 %s L%d %s", v.fused(), n, n, v.through(near), n, v.ground(at))
	coil := fmt.Sprintf("%s %s K%d.86 K%d.85 %s", v.fused(), v.switched(n), n, n, v.ground(near))
	v.circuit(fmt.Sprintf("Motor %d", n), "", load, coil)
}

func (v *vehicle) lamps(n, at int) {
	draws := v.draws()
	for _, side := range []string{"A", "B"} {
		v.part(fmt.Sprintf("%s%d", side, n), "kind: lamp, name: Lamp %d%s, at: p%d, draws: %.2f A", n, side, at, draws)
	}
	v.part(fmt.Sprintf("J%d", n), "kind: splice, name: Lamp splice %d, at: p%d", n, at)
	first := fmt.Sprintf("%s %s %s J%d A%d %s", v.fused(), v.switched(n), v.through(at), n, n, v.ground(at))
	v.circuit(fmt.Sprintf("Lamps %d", n), "light", first, fmt.Sprintf("J%d B%d %s", n, n, v.ground(at)))
}

func (v *vehicle) gauge(n, at int) {
	v.part(fmt.Sprintf("D%d", n), "kind: gauge, name: Gauge %d, at: p2, draws: 0.1 A", n)
	v.part(fmt.Sprintf("E%d", n), "kind: sender, name: Sender %d, at: p%d, draws: 0.1 A", n, at)
	v.circuit(fmt.Sprintf("Gauge %d", n), "sense", fmt.Sprintf("%s D%d %s E%d %s", v.fused(), n, v.through(at), n, v.ground(at)))
}

// switched makes a switch at the dashboard that is on in every third state.
func (v *vehicle) switched(n int) string {
	ref := fmt.Sprintf("S%d", n)
	v.part(ref, "kind: switch, name: Switch %d, at: p2, positions: {off: [], on: [[1, 2]]}", n)
	for i := range v.on {
		if (n+i)%3 == 0 {
			v.on[i] = append(v.on[i], ref)
		}
	}
	return ref
}
