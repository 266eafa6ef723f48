package main

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/result"
)

// everythingIsBoughtOnce holds the pieces under each heading of the printed shopping
// list against what the model has of them, counted here anew.
func everythingIsBoughtOnce(t *testing.T, h *harness.Harness, r *result.Result, shopping []sheet.Text) {
	counted := pieces(t, shopping)
	for heading, want := range map[string]int{
		"Fuses":      fusesOf(h, r),
		"Relays":     partsOf(h, harness.Relay),
		"Switches":   partsOf(h, harness.Switch, harness.IgnitionSwitch, harness.Isolator, harness.Flasher),
		"Devices":    partsOf(h, harness.Bus, harness.Diode, harness.Resistor, harness.Capacitor),
		"Straps":     partsOf(h, harness.Strap),
		"Terminals":  fittingsOf(h, r) + 2*len(r.Lots),
		"Boots":      bootsOf(r),
		"Nuts":       groundsOf(h, false),
		"Washers":    groundsOf(h, false) + groundsOf(h, true),
		"Connectors": housingsOf(h, r),
		"Grommets":   wallsOf(h, r),
		"Clamps":     alongRuns(h, r, 609.6, 1),                  // FAA AC 43.13-1B 11-96a: 24 in
		"Ties":       alongRuns(h, r, 304.8, 0) + 2*splicesOf(r), // 11-158b: 12 in; both sides of a splice
	} {
		require.Equal(t, want, counted[heading], heading)
	}
}

// mostKinds is how many kinds of each group a sample's shopping list may have; with the least
// of everything they are 41, 8, 10 and 5 for kestrel, 45, 7, 11 and 8 for the camper, 13, 4, 4
// and 4 for the tender.
var mostKinds = map[string]map[string]int{
	"kestrel": {"terminals": 30, "shrink": 4, "cover": 6, "clamps": 4},
	"camper":  {"terminals": 28, "shrink": 4, "cover": 8, "clamps": 6},
	"tender":  {"terminals": 14, "shrink": 3, "cover": 4, "clamps": 4}, // one splice takes more copper
}

// fewKindsAreBought holds the kinds on a sample's shopping list to their limits.
func fewKindsAreBought(t *testing.T, name string, r *result.Result) {
	kinds := map[string]int{}
	for _, it := range r.Shopping {
		kinds[it.Group]++
	}
	for group, most := range mostKinds[strings.TrimSuffix(name, ".yaml")] {
		require.LessOrEqual(t, kinds[group], most, "%s: %s", name, group)
	}
}

// bootsOf counts the ends on studs that are live and unfused.
func bootsOf(r *result.Result) int {
	n := 0
	for _, two := range r.Ends {
		for _, e := range two {
			if e.Boot {
				n++
			}
		}
	}
	return n
}

func partsOf(h *harness.Harness, kinds ...harness.Kind) int {
	n := 0
	for _, p := range h.Parts {
		for _, k := range kinds {
			if p.Kind == k {
				n++
			}
		}
	}
	return n
}

// fusesOf counts fuses and breakers, a spare of each kind of fuse, holders and panels.
func fusesOf(h *harness.Harness, r *result.Result) int {
	n := partsOf(h, harness.FusePanel)
	kinds := map[string]int{}
	for _, p := range h.Parts {
		if p.Panel != nil {
			for _, text := range p.Panel.Spare {
				kinds[p.Body+" "+text]++
			}
		}
	}
	for _, f := range r.Fuses {
		if f.Rating <= 0 {
			continue
		}
		n++
		if !f.Breaker {
			kind := f.Body + " " + f.Rating.String()
			kinds[kind] = max(kinds[kind], 1)
		}
		if h.Parts[f.Part].Kind == harness.Fuse {
			n++ // its holder
		}
	}
	for _, spare := range kinds {
		n += spare
	}
	return n
}

// groundsOf counts grounds with wires; toothed: those whose coat must be bared.
func groundsOf(h *harness.Harness, toothed bool) int {
	wired := map[harness.PartID]bool{}
	for _, w := range h.Wires {
		wired[h.Terminals[w.From].Part], wired[h.Terminals[w.To].Part] = true, true
	}
	n := 0
	for _, p := range h.Parts {
		surface := p.Surface
		if surface == "" && p.Place != harness.None {
			surface = h.Places[p.Place].Surface
		}
		if p.Kind == harness.Ground && wired[p.ID] && (!toothed || surface == "painted" || surface == "coated") {
			n++
		}
	}
	return n
}

// housingsOf counts pairs of connectors, housings of other parts, and in sealed
// pairs a seal or a plug for every cavity of both halves.
func housingsOf(h *harness.Harness, r *result.Result) int {
	n := partsOf(h, harness.Connector)
	plugs := map[harness.PartID]bool{}
	for _, two := range r.Ends {
		for _, e := range two {
			if p := h.PartOf(e.Terminal); p != nil && p.Kind != harness.Connector && e.Kind == joint.Contact {
				plugs[p.ID] = true
			}
		}
	}
	for _, p := range h.Parts {
		if p.Kind == harness.Connector && p.Sealed {
			n += 2 * len(p.Cavities)
		}
	}
	return n + len(plugs)
}

func wallsOf(h *harness.Harness, r *result.Result) int {
	n := 0
	for _, run := range r.Runs {
		from, to := h.Places[h.Runs[run.Run].From].Zone, h.Places[h.Runs[run.Run].To].Zone
		if len(run.Wires) > 0 && from != "" && to != "" && from != to {
			n++
		}
	}
	return n
}

// splicesOf counts the splices with wires.
func splicesOf(r *result.Result) int {
	n := 0
	for _, s := range r.Splices {
		if len(s.Wires) > 0 {
			n++
		}
	}
	return n
}

// alongRuns counts one piece a distance in mm along each run with wires, and some more at its end.
func alongRuns(h *harness.Harness, r *result.Result, every float64, more int) int {
	n := 0
	for _, run := range r.Runs {
		if len(run.Wires) > 0 {
			n += int(math.Ceil(float64(h.Runs[run.Run].Length)/every-1e-9)) + more
		}
	}
	return n
}
