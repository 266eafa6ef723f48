package drawing

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// randomCar writes a test model with one circuit of at least so many wires:
// loads behind fuses, switches, relays, connectors and splices.
func randomCar(wires int, seed uint64) string {
	rng := rand.New(rand.NewPCG(seed, uint64(wires)))
	var parts, legs strings.Builder
	parts.WriteString("part BAT battery tray | Battery\npart FP fuse-panel dash | Dash panel | 1 2 3 4 5 6 7 8\npart G1 ground left inner wing\npart G2 ground boot floor\n")
	parts.WriteString("part X1 connector bulkhead | Front loom | 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20 21 22 23 24 25 26 27 28 29 30 31 32 33 34 35 36 37 38 39 40\n")
	cavity, made := 0, 0
	for n := 0; made < wires; n++ {
		from := []string{"BAT.+", fmt.Sprintf("FP.%d", 1+rng.IntN(8))}[min(rng.IntN(4), 1)]
		chain := []string{from}
		if from == "BAT.+" {
			fmt.Fprintf(&parts, "part MF%d fuse tray | Main fuse %d\n", n, n)
			chain = append(chain, fmt.Sprintf("MF%d", n))
		}
		chain = append(chain, randomMiddle(rng, n, &parts, &legs)...)
		if rng.IntN(3) == 0 && cavity < 39 {
			cavity++
			chain = append(chain, fmt.Sprintf("X1.%d", cavity))
		}
		kind := []string{"lamp", "motor", "horn", "heater", "solenoid", "gauge", "outlet"}[rng.IntN(7)]
		fmt.Fprintf(&parts, "part L%d %s %s | %s %d\n", n, kind, []string{"cabin", "left front wing", "rear valance"}[rng.IntN(3)], kind, n)
		chain = append(chain, fmt.Sprintf("L%d.+", n), fmt.Sprintf("L%d.-", n), []string{"G1", "G2"}[rng.IntN(2)])
		fmt.Fprintf(&legs, "leg %s\n", strings.Join(chain, " "))
		if rng.IntN(3) == 0 {
			fmt.Fprintf(&parts, "part M%d lamp dash | Tell-tale %d\n", n, n)
			fmt.Fprintf(&legs, "leg %s M%d.+ M%d.- G1\n", chain[len(chain)-3], n, n)
			made += 2
		}
		made += len(chain) - 2
	}
	randomKnot(rng, &parts, &legs)
	return parts.String() + "circuit 7 Random\n" + legs.String()
}

// randomMiddle is a switch, a relay with its coil's leg, or a splice with a branch.
func randomMiddle(rng *rand.Rand, n int, parts, legs *strings.Builder) []string {
	switch rng.IntN(6) {
	case 4:
		return randomSwitch(rng, n, parts, legs)
	case 5:
		return randomModule(rng, n, parts, legs)
	case 0:
		fmt.Fprintf(parts, "part S%d switch dash | Switch %d\ncontact S%d off - -\ncontact S%d on 1 2\n", n, n, n, n)
		return []string{fmt.Sprintf("S%d.1", n), fmt.Sprintf("S%d.2", n)}
	case 1:
		fmt.Fprintf(parts, "part K%d relay bulkhead | Relay %d\n", n, n)
		fmt.Fprintf(legs, "leg FP.%d K%d.86 K%d.85 G2\n", 1+rng.IntN(8), n, n)
		return []string{fmt.Sprintf("K%d.30", n), fmt.Sprintf("K%d.87", n)}
	case 2:
		fmt.Fprintf(parts, "part J%d splice loom\npart W%d lamp tail | Lamp %d\n", n, n, n)
		return []string{fmt.Sprintf("J%d", n)}
	}
	return nil
}

// randomSwitch has three to six positions, each with an outlet of its own; one leads
// on, the others to lamps.
func randomSwitch(rng *rand.Rand, n int, parts, legs *strings.Builder) []string {
	out := 2 + rng.IntN(4)
	fmt.Fprintf(parts, "part P%d switch dash | Selector %d | %s\ncontact P%d off - -\n", n, n, "1 2 3 4 5 6 7"[:2*out+1], n)
	for i := range out {
		fmt.Fprintf(parts, "contact P%d p%d 1 %d\n", n, i, i+2)
	}
	for i := 1; i < out; i++ {
		fmt.Fprintf(parts, "part PL%d_%d lamp dash | Lamp %d of %d\n", n, i, i, n)
		fmt.Fprintf(legs, "leg P%d.%d PL%d_%d.+ PL%d_%d.- G1\n", n, i+2, n, i, n, i)
	}
	return []string{fmt.Sprintf("P%d.1", n), fmt.Sprintf("P%d.2", n)}
}

// randomModule has up to eight pins; besides the way through, sensors hang between
// two of its pins, which makes rings.
func randomModule(rng *rand.Rand, n int, parts, legs *strings.Builder) []string {
	sensors := 1 + rng.IntN(3)
	pins := []string{"in", "out"}
	for i := range sensors {
		pins = append(pins, fmt.Sprintf("a%d", i), fmt.Sprintf("b%d", i))
		fmt.Fprintf(parts, "part Q%d_%d sender engine | Sensor %d of %d\n", n, i, i, n)
		fmt.Fprintf(legs, "leg C%d.a%d Q%d_%d.+ Q%d_%d.- C%d.b%d\n", n, i, n, i, n, i, n, i)
	}
	fmt.Fprintf(parts, "part C%d module dash | Module %d | %s\n", n, n, strings.Join(pins, " "))
	return []string{fmt.Sprintf("C%d.in", n), fmt.Sprintf("C%d.out", n)}
}

// randomKnot joins three splices in a ring, as a ring main does.
func randomKnot(rng *rand.Rand, parts, legs *strings.Builder) {
	if rng.IntN(4) > 0 {
		return
	}
	parts.WriteString("part R1 splice loom\npart R2 splice loom\npart R3 splice loom\n")
	legs.WriteString("leg FP.1 R1 R2 R3 R1\n")
}
