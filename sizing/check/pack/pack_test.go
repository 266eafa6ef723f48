package pack_test

import (
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/source"
)

// checked is a description of batteries and their legs, taken through the check.
func checked(t *testing.T, volts int, earth, parts, legs string) (*harness.Harness, source.Problems) {
	t.Helper()
	d, ps := describe.Parse("pack.yaml", fmt.Appendf(nil, `loomfolio: 1
title: Pack
system: {volts: %d, earth: %s}
parts:
  G0: {kind: ground}
  G1: {kind: ground}
  L: {kind: lamp, draws: 10 W}
  F: {kind: fuse}
%s
circuits:
  one: {number: 1, legs: [%s]}
`, volts, earth, "  "+strings.Join(strings.Split(strings.TrimSpace(parts), "; "), "\n  "), legs))
	require.Empty(t, ps)
	return check.Check(d)
}

// two, three and four batteries without anything said of them.
const (
	two   = "B1: {kind: battery}; B2: {kind: battery}"
	three = two + "; B3: {kind: battery}"
	four  = three + "; B4: {kind: battery}"
)

// Batteries in series share the system's voltage, those in parallel hold it all.
func TestSharesAreThoseOfTheString(t *testing.T) {
	for _, c := range []struct {
		says   string
		volts  int
		earth  string
		parts  string
		legs   string
		shares string
	}{
		{"one alone", 12, "negative", "B1: {kind: battery}", "[B1.+, F, L, G1], [B1.-, G0]", "1"},
		{"two in a lorry", 24, "negative", two, "[G0, B1.-], [B1.+, B2.-], [B2.+, F, L, G1]", "1/2 1/2"},
		{"earthed on plus", 24, "positive", two, "[G0, B1.+], [B1.-, B2.+], [B2.-, F, L, G1]", "1/2 1/2"},
		{"two in parallel", 12, "negative", two, "[G0, B1.-], [B2.-, G0], [B1.+, B2.+, F, L, G1]", "1 1"},
		{"through a fuse", 24, "negative", two + "; FL: {kind: fuse, body: bolt}", "[G0, B1.-], [B1.+, FL, B2.-], [B2.+, F, L, G1]", "1/2 1/2"},
		{"through an isolator", 24, "negative", two + "; ISO: {kind: isolator}", "[G0, ISO, B1.-], [B1.+, B2.-], [B2.+, F, L, G1]", "1/2 1/2"},
		{"with an isolator in the link", 24, "negative", two + "; ISO: {kind: isolator}", "[G0, B1.-], [B1.+, ISO, B2.-], [B2.+, F, L, G1]", "1/2 1/2"},
		{"with a switch in the link", 24, "negative", two + "; SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}", "[G0, B1.-], [B1.+, SW, B2.-], [B2.+, F, L, G1]", "1/2 1/2"},
		{"both minus leads to grounds", 12, "negative", two, "[G0, B1.-], [B2.-, G1], [B1.+, B2.+], [B1.+, F, L, G1]", "1 1"},
		{"four, two and two", 24, "negative", four, "[G0, B1.-], [G0, B3.-], [B1.+, B2.-], [B3.+, B4.-], [B2.+, B4.+], [B2.+, F, L, G1]", "1/2 1/2 1/2 1/2"},
		{"the same with the middles joined", 24, "negative", four, "[G0, B1.-], [G0, B3.-], [B1.+, B2.-], [B3.+, B4.-], [B1.+, B3.+], [B2.+, B4.+], [B2.+, F, L, G1]", "1/2 1/2 1/2 1/2"},
		{"four in series", 48, "negative", four, "[G0, B1.-], [B1.+, B2.-], [B2.+, B3.-], [B3.+, B4.-], [B4.+, F, L, G1]", "1/4 1/4 1/4 1/4"},
		{"two beside one of the whole", 24, "negative", three, "[G0, B1.-], [B1.+, B2.-], [G0, B3.-], [B3.+, B2.+], [B2.+, F, L, G1]", "1/2 1/2 1"},
		{"a tapped one", 24, "negative", two + "; T: {kind: lamp, draws: 5 W}", "[G0, B1.-], [B1.+, B2.-], [B2.+, F, L, G1], [B1.+, T, G1]", "1/2 1/2"},
		{"each says its own", 24, "negative", "B1: {kind: battery, emf: 12.6 V}; B2: {kind: battery, emf: 12.6 V}", "[G0, B1.-], [B1.+, B2.-], [B2.+, F, L, G1]", "1/2 1/2"},
		{"a 12 V one that says so", 24, "negative", two + "; B3: {kind: battery, emf: 12.6 V}", "[G0, B1.-], [B1.+, B2.-], [G0, B3.-], [B2.+, F, L, G1], [B3.+, L]", "1/2 1/2 1/2"},
		{"one earthed the wrong way round", 24, "negative", two + "; T: {kind: lamp, draws: 5 W}", "[G0, B1.-], [G0, B2.+], [B1.+, F, L, G1], [B2.-, T, G1]", "1 1"},
		{"one says its own for both", 24, "negative", "B1: {kind: battery, emf: 12.8 V}; B2: {kind: battery}", "[G0, B1.-], [B1.+, B2.-], [B2.+, F, L, G1]", "1/2 1/2"},
		{"of lithium", 12, "negative", "B1: {kind: battery, emf: 13.3 V}", "[B1.+, F, L, G1], [B1.-, G0]", "1"},
		{"two islands", 12, "negative", two + "; T: {kind: lamp, draws: 5 W}", "[G0, B1.-], [B1.+, F, L, G1], [B2.+, T, B2.-]", "1 1"},
	} {
		h, ps := checked(t, c.volts, c.earth, c.parts, c.legs)
		require.NotNil(t, h, "%s: %v", c.says, ps)
		require.NotContains(t, fmt.Sprint(ps), "battery-share-assumed", c.says)
		var shares []string
		for _, e := range h.Elements {
			if e.Kind != harness.EMF {
				continue
			}
			share := "1"
			if e.Holds() != 1 {
				share = fmt.Sprintf("1/%.0f", 1/float64(e.Holds()))
			}
			shares = append(shares, share)
			if !strings.Contains(c.parts, "emf") {
				require.InDelta(t, 1.05*float64(c.volts)*float64(e.Holds()), float64(e.Volts), 1e-9, c.says)
				require.InDelta(t, 0.005*float64(c.volts)*float64(e.Holds())/12, float64(e.Ohms), 1e-9, c.says)
			}
		}
		require.Equal(t, c.shares, strings.Join(shares, " "), c.says)
	}
}

// Unusual strings are said, high ones refused.
func TestStringsThatAreDoubtful(t *testing.T) {
	series := func(n int) string {
		legs := "[G0, B1.-]"
		for i := 1; i < n; i++ {
			legs += fmt.Sprintf(", [B%d.+, B%d.-]", i, i+1)
		}
		return legs + fmt.Sprintf(", [B%d.+, F, L, G1]", n)
	}
	emf := func(v ...string) string {
		var parts []string
		for i, e := range v {
			parts = append(parts, fmt.Sprintf("B%d: {kind: battery, emf: %s}", i+1, e))
		}
		return strings.Join(parts, "; ")
	}
	for _, c := range []struct {
		volts             int
		parts, legs, slug string
		words             string
	}{
		{12, two, series(2), "battery-share-assumed", "B1 and B2 are in series in a system of 12 V, and each is taken as one of 6 V"},
		{6, three, series(3), "battery-share-assumed", "one of 2 V"},
		{24, three, series(3), "battery-share-assumed", "one of 8 V"},
		{12, three + "; B4: {kind: battery}; B5: {kind: battery, emf: 2 V}", series(4), "battery-share-assumed", "no battery is made for 3 V"},
		{12, "B1: {kind: battery, emf: 12.6 V}; B2: {kind: battery}", series(2), "battery-share-assumed", "B1 and B2 are in series in a system of 12 V, and each is taken as one of 12 V"},
		{48, three, series(3), "voltage-out-of-scope", "B1, B2 and B3 in series give 170.4 V"},
		{48, emf("50 V", "12.6 V"), series(2), "voltage-out-of-scope", "B1 and B2 in series give"},
		{24, emf("25 V", "25 V", "25 V"), series(3), "voltage-out-of-scope", "B1, B2 and B3 in series give"},
		{12, emf("12.6 V", "12.6 V", "12.6 V", "12.6 V", "12.6 V"), series(5), "voltage-out-of-scope", "in series give"},
		{48, two + "; B3: {kind: battery, emf: 12.6 V}", series(3), "battery-share-assumed", "B1, B2 and B3 are in series in a system of 48 V, and each is taken as one of 12 V"},
		{24, two + "; SW: {kind: switch, positions: {off: [], boost: [[1, 2]]}}; B3: {kind: battery, emf: 48 V}", "[G0, B1.-], [B1.+, F, L, G1], [G0, B2.-], [B2.+, L], [B3.-, SW.1], [SW.2, B2.+]", "voltage-out-of-scope", "B1 and B3 in series give"},
	} {
		_, ps := checked(t, c.volts, "negative", c.parts, c.legs)
		found := 0
		for _, p := range ps {
			if p.Slug == "battery-share-assumed" || p.Slug == "voltage-out-of-scope" {
				found++
				require.Equal(t, c.slug, p.Slug, c.words)
				require.Contains(t, p.Summary, c.words)
				require.True(t, p.Span.Known())
			}
		}
		require.Equal(t, 1, found, "%s: %v", c.words, ps)
	}
}

// A battery put in backwards beside another closes a ring, and shares nothing.
func TestARingSharesNothing(t *testing.T) {
	h, ps := checked(t, 12, "negative", two, "[G0, B1.-], [G0, B2.+], [B1.+, B2.-], [B1.+, F, L, G1]")
	require.NotNil(t, h, "%v", ps)
	for _, e := range h.Elements {
		if e.Kind == harness.EMF {
			require.InDelta(t, 12.6, float64(e.Volts), 1e-9)
		}
	}
}

// Random packs of one to four strings of two or four batteries, their middles joined or
// not, fuses, isolators and switches in the links: at rest they give the system's voltage,
// and no battery gives another anything.
func TestRandomPacksGiveTheSystemsVoltage(t *testing.T) {
	for seed := range 60 {
		r := rand.New(rand.NewSource(int64(seed)))
		volts, n := 24, 2
		if r.Intn(2) == 0 {
			volts, n = 48, 4
		}
		rows, parts, legs := 1+r.Intn(4), "T: {kind: lamp, draws: 5 W}", "[F.2, T, G1]"
		for s := range rows {
			below := "G0"
			for i := range n {
				name := fmt.Sprintf("B%d%d", s, i)
				parts += fmt.Sprintf("; %s: {kind: battery, capacity: %d Ah}", name, 20+r.Intn(100))
				link := ""
				switch r.Intn(5) {
				case 0:
					link, parts = fmt.Sprintf("I%s, ", name), parts+fmt.Sprintf("; I%s: {kind: isolator}", name)
				case 1:
					link, parts = fmt.Sprintf("F%s, ", name), parts+fmt.Sprintf("; F%s: {kind: fuse}", name)
				case 2:
					link, parts = fmt.Sprintf("S%s, ", name), parts+fmt.Sprintf("; S%s: {kind: switch, positions: {on: [[1, 2]], off: []}}", name)
				}
				legs += fmt.Sprintf(", [%s, %s%s.-]", below, link, name)
				below = name + ".+"
				if s > 0 && i < n-1 && r.Intn(3) == 0 {
					legs += fmt.Sprintf(", [B%d%d.+, %s]", s-1, i, below)
				}
			}
			legs += ", [" + below + ", F.1]"
		}
		h, ps := checked(t, volts, "negative", parts, legs+", [F.2, L, G1]")
		require.NotNil(t, h, "seed %d: %v", seed, ps)
		ohms := make([]float64, len(h.Wires))
		for i := range ohms {
			ohms[i] = 0.001
		}
		state, err := network.Solve(h, 0, network.Resistances{Wires: ohms, Links: open(h, "F")}, network.Options{})
		require.NoError(t, err)
		for _, term := range h.Terminals {
			if term.Full == "F.1" {
				require.InDelta(t, 1.05*float64(volts), state.Volts[term.ID], 1e-9, "seed %d", seed)
			}
		}
		for _, e := range h.Elements {
			if e.Kind == harness.EMF {
				require.InDelta(t, 0, state.Amps[e.ID], 1e-9, "seed %d: %s", seed, e.Name)
			}
		}
	}
}

// open takes an element out, by its name.
func open(h *harness.Harness, name string) []float64 {
	out := make([]float64, len(h.Elements))
	for i, e := range h.Elements {
		if e.Name == name {
			out[i] = math.Inf(1)
		}
	}
	return out
}
