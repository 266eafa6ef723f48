package fault

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// reached is every terminal joined to one by a plain search, with one element taken out.
func reached(v *vehicle, from harness.TerminalID, without harness.ElementID) []bool {
	next := v.conductors(0)
	seen := make([]bool, len(next))
	seen[from] = true
	for queue := []harness.TerminalID{from}; len(queue) > 0; queue = queue[1:] {
		for _, c := range next[queue[0]] {
			if !seen[c.to] && (without == harness.None || c.by != without) {
				seen[c.to] = true
				queue = append(queue, c.to)
			}
		}
	}
	return seen
}

// tangle is a random harness of wires, fuses (some of them open contacts) and batteries.
func tangle(r *rand.Rand, terminals int) *vehicle {
	h := &harness.Harness{States: []harness.State{{Engine: harness.EngineOff}}}
	for i := range terminals {
		h.Terminals = append(h.Terminals, harness.Terminal{ID: harness.TerminalID(i), Part: harness.None})
	}
	two := func() (a, b harness.TerminalID) {
		p := r.Perm(terminals)
		return harness.TerminalID(p[0]), harness.TerminalID(p[1])
	}
	for i := range terminals / 2 {
		w := harness.Wire{ID: harness.WireID(i)}
		w.From, w.To = two()
		h.Wires = append(h.Wires, w)
	}
	for i := range terminals {
		e := harness.Element{ID: harness.ElementID(i), Part: harness.None, Name: fmt.Sprint("E", i), Kind: harness.FuseLink}
		e.A, e.B = two()
		switch r.IntN(6) {
		case 0:
			e.Kind = harness.EMF
		case 1:
			e.When = harness.Condition{Kind: harness.EngineIs, Engines: []harness.Engine{harness.EngineRunning}}
		}
		h.Elements = append(h.Elements, e)
	}
	return vehicleOf(h, chosen.Chosen{States: []network.State{{}}})
}

// TestCutsAreThoseOfAPlainSearch: with each fuse of random tangles taken out, the same
// terminals stay joined to a battery's post, and the same go dark, as a plain search finds.
func TestCutsAreThoseOfAPlainSearch(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	split := 0
	for range 300 {
		v := tangle(r, 3+r.IntN(22))
		whole := v.joins(0)
		for _, fuse := range v.h.Elements {
			if fuse.Kind != harness.FuseLink {
				continue
			}
			c := whole.without(fuse)
			still, dark := make([]bool, len(v.h.Terminals)), make([]bool, len(v.h.Terminals))
			sound := reached(v, fuse.A, harness.None)
			for _, e := range v.h.Elements {
				for _, post := range []harness.TerminalID{e.A, e.B} {
					if e.Kind == harness.EMF && sound[post] {
						either(still, reached(v, post, fuse.ID))
					}
				}
			}
			for _, side := range []harness.TerminalID{fuse.A, fuse.B} {
				if !still[side] {
					either(dark, reached(v, side, fuse.ID))
				}
			}
			for x := range v.h.Terminals {
				require.Equal(t, still[x], c.still(harness.TerminalID(x)))
				require.Equal(t, dark[x], c.dark(harness.TerminalID(x)))
			}
			if slices.Contains(still, true) && slices.Contains(dark, true) {
				split++
			}
		}
	}
	require.Greater(t, split, 100, "fuses that part what is fed from what is not")
}

func either(all, more []bool) {
	for i, m := range more {
		all[i] = all[i] || m
	}
}

// rows is a vehicle of so many fuses in series-fed groups, each with a load behind a relay.
func rows(fuses int) (*harness.Harness, chosen.Chosen) {
	h, c := &harness.Harness{States: []harness.State{{Engine: harness.EngineOff}}}, chosen.Chosen{}
	terminal := func() harness.TerminalID {
		h.Terminals = append(h.Terminals, harness.Terminal{ID: harness.TerminalID(len(h.Terminals)), Part: 0})
		return harness.TerminalID(len(h.Terminals) - 1)
	}
	element := func(e harness.Element) harness.ElementID {
		e.ID = harness.ElementID(len(h.Elements))
		h.Elements = append(h.Elements, e)
		return e.ID
	}
	wire := func(from, to harness.TerminalID) harness.WireID {
		h.Wires = append(h.Wires, harness.Wire{ID: harness.WireID(len(h.Wires)), From: from, To: to})
		return harness.WireID(len(h.Wires) - 1)
	}
	ground, plus := terminal(), terminal()
	h.Parts = append(h.Parts, harness.Part{Ref: "BAT"})
	element(harness.Element{Kind: harness.EMF, Name: "BAT", A: plus, B: ground, Part: 0})
	for i := range fuses {
		part := harness.PartID(len(h.Parts))
		h.Parts = append(h.Parts, harness.Part{ID: part, Ref: fmt.Sprint("K", i)})
		in, out, coil, contact, load := terminal(), terminal(), terminal(), terminal(), terminal()
		fuse := element(harness.Element{Kind: harness.FuseLink, Name: fmt.Sprint("F", i), A: in, B: out, Part: part})
		k := element(harness.Element{Kind: harness.RelayCoil, Name: fmt.Sprint("K", i, ".coil"), A: coil, B: ground, Part: part})
		element(harness.Element{Kind: harness.Contact, Name: fmt.Sprint("K", i), A: out, B: contact, Part: part, When: harness.Condition{Kind: harness.Energised, Coil: k}})
		l := element(harness.Element{Kind: harness.Load, Name: fmt.Sprint("L", i), A: load, B: ground, Part: part})
		way := []harness.WireID{wire(plus, in), wire(out, coil), wire(contact, load)}
		c.Fuses = append(c.Fuses, chosen.Fuse{Name: fmt.Sprint("F", i), Element: fuse, Part: part, Feeds: []string{fmt.Sprint("L", i), fmt.Sprint("K", i, ".coil")}, Wires: way})
		c.Loads = append(c.Loads, chosen.Load{Element: l, Name: fmt.Sprint("L", i), Feed: way})
	}
	s := network.State{Amps: make([]float64, len(h.Elements)), Energised: make([]bool, len(h.Elements))}
	for i := range s.Amps {
		s.Amps[i], s.Energised[i] = 1, true
	}
	c.States = []network.State{s}
	return h, c
}

func TestOutagesOfRows(t *testing.T) {
	for i, out := range Outages(rows(5)) {
		require.Equal(t, []string{fmt.Sprint("L", i), fmt.Sprint("K", i, ".coil")}, out.Stops)
		require.False(t, out.Shared)
		require.Len(t, out.Drops, 1)
	}
}

func BenchmarkOutages(b *testing.B) {
	for _, fuses := range []int{100, 300, 1000, 3000} {
		b.Run(fmt.Sprint(fuses), func(b *testing.B) {
			h, c := rows(fuses)
			for b.Loop() {
				Outages(h, c)
			}
		})
	}
}
