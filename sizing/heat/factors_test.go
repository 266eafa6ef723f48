package heat

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/loomfolio/sizing/unit"
	"github.com/stretchr/testify/require"
)

// packing is the diameter of the smallest circle round equal circles over
// theirs (best known packings, from 1 to 20 wires).
var packing = [...]float64{0, 1, 2, 2.1547, 2.4142, 2.7013, 3, 3, 3.3048, 3.6131, 3.8130, 3.9238, 4.0296, 4.2361, 4.3284, 4.5214, 4.6154, 4.7920, 4.8637, 4.8637, 5.1223}

// alike is a bundle of equal wires; over 20 by 1.2 times the root of the count
// (common practice, no source).
func alike(w Wire, wires int, air unit.Celsius) Bundle {
	over := 1.2 * math.Sqrt(float64(wires))
	if wires < len(packing) {
		over = packing[wires]
	}
	b := Bundle{Diameter: unit.Millimetre(over) * w.Outside, Air: air}
	for range wires {
		b.Wires = append(b.Wires, w)
	}
	return b
}

func all(amps float64, wires int) []unit.Ampere {
	out := make([]unit.Ampere, wires)
	for i := range out {
		out[i] = unit.Ampere(amps)
	}
	return out
}

// together gives the current that the first so many wires may carry at once, by bisection.
func together(b Bundle, loaded int, limit unit.Celsius) float64 {
	low, high := 0.0, 2000.0
	for range 60 {
		middle := (low + high) / 2
		if b.Balance(all(middle, loaded)).Conductors[0] > limit {
			high = middle
		} else {
			low = middle
		}
	}
	return low
}

func factor(w Wire, wires, loaded int, limit, air unit.Celsius) float64 {
	return together(alike(w, wires, air), loaded, limit) / float64(w.Current(limit, air))
}

// usual are wires of vehicles: ISO 6722 thin wall 0.5, 1.5 and 6 mm2 at 105 C,
// SAE J1128 GXL 14 gauge at 125 C, all in 30 C as the tables of factors.
var usual = []struct {
	name  string
	wire  Wire
	limit unit.Celsius
}{
	{"0.5 mm2", wireOf(1.0, 1.6, 37.1), 105}, {"1.5 mm2", wireOf(1.6, 2.4, 12.7), 105},
	{"6 mm2", wireOf(3.2, 4.3, 3.14), 105}, {"14 GXL", wireOf(1.8, 3.0, 9.37), 125},
}

func factorText() string {
	var b strings.Builder
	counts := []int{2, 3, 4, 5, 6, 7, 8, 9, 10, 15, 20, 25, 30, 40, 50}
	b.WriteString("wires  ")
	for _, n := range counts {
		fmt.Fprintf(&b, " %5d", n)
	}
	b.WriteString("\n")
	for _, u := range usual {
		fmt.Fprintf(&b, "%-7s", u.name)
		for _, n := range counts {
			fmt.Fprintf(&b, " %5.2f", factor(u.wire, n, n, u.limit, 30))
		}
		b.WriteString("\n")
	}
	return b.String()
}

// A comparison, not a fit: nothing in the model was set by these tables. They
// are steps for any wire in any place, NEC's for house wiring of which not all
// is loaded to the full; the model has every wire loaded, in the middle.
func TestBundleFactorsAreOfTheSameOrder(t *testing.T) {
	for _, r := range table(t, "factors.csv") {
		from, to, published := int(figure(t, r["wires_from"])), int(figure(t, r["wires_to"])), figure(t, r["factor"])
		for _, u := range usual {
			for n := from; n <= to; n++ {
				share := factor(u.wire, n, n, u.limit, 30) / published
				require.Greater(t, share, 0.6, "%s, %d wires of %s", r["source"], n, u.name)
				require.Less(t, share, 1.2, "%s, %d wires of %s", r["source"], n, u.name)
			}
		}
	}
}

// FAA AC 43.13-1B figure 11-6, worked example: 8 wires loaded to 60 % (5 of 8
// to the full) carry 0.60 of the single current; 14 AWG of 200 C in 50 C.
func TestAircraftBundleExample(t *testing.T) {
	w := wireOf(1.8, 2.6, 3.06/0.3048)
	require.InDelta(t, 0.60, factor(w, 8, 5, 200, 50), 0.05)
}

// FAA AC 43.13-1B table 11-9, 105 C in 70 C: 33 or more wires loaded to 20 % (7
// to the full). The table is for 60 000 ft, where thin air cools less, so at
// sea level the wires must carry more, and not twice as much.
func TestAircraftBundleTable(t *testing.T) {
	for _, r := range []struct{ conductor, outside, ohm1000ft, amps float64 }{
		{1.0, 1.8, 9.88, 4}, {1.2, 2.0, 6.23, 6}, {1.5, 2.3, 4.81, 7}, {1.8, 2.6, 3.06, 10}, {2.3, 3.2, 2.02, 13}, {3.0, 3.9, 1.26, 17},
	} {
		b := alike(wireOf(r.conductor, r.outside, r.ohm1000ft/0.3048), 33, 70)
		got := together(b, 7, 105)
		require.Greater(t, got, r.amps)
		require.Less(t, got, 2*r.amps)
	}
}
