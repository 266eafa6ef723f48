package buying

import (
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// cables are bought by the metre, sheath and all.
func (b *basket) cables(cables []fitted.Cable) {
	for i := range cables {
		c := &cables[i]
		if c.ToCut() == 0 {
			continue
		}
		for _, id := range c.Units {
			if !harness.BuiltUnit(&b.h.Units[id], b.kept) {
				b.add("cables", fitted.CableName(c.Type, b.h.Sheet.Imperial), 0, "m", b.h.Units[id].Name)
			}
		}
		it := &b.items[len(b.items)-1]
		it.Count, it.Buy = float64(c.Need)/1000, float64(c.Buy)/1000
	}
}

// screens are the braid or foil that is drawn over wires, the tubes over their cut
// ends and those of sheaths, and the fittings of drains.
func (b *basket) screens(f *fitted.Fitted) {
	screens := b.screenNames(f)
	for i := range f.Units {
		u, m := &f.Units[i], &b.h.Units[i]
		if harness.BuiltUnit(m, b.kept) {
			continue
		}
		if u.Screen != "" {
			b.add("cover", screens[i], float64(u.ScreenLen)/1000, "m", m.Name)
		}
		if u.Boot != "" {
			b.add("shrink", u.Boot, 2*float64(u.BootLen)/1000, "m", m.Name)
		}
		for _, d := range u.Drains {
			if d.With == harness.None {
				b.add("terminals", terminalItem(&d.Fitting), 1, "pcs", b.ref(d.Terminal))
			}
			if d.Length > 0 && d.From == "" {
				b.add("cover", "wire "+fitted.DrainGauge(b.h.Sheet.Gauge).String()+" for drains, in a sleeve", float64(d.Length)/1000, "m", m.Name)
			}
		}
	}
}

// screenNames gives what is drawn over each unit; where few kinds are bought one braid goes
// over wires that differ, as it closes on them.
func (b *basket) screenNames(f *fitted.Fitted) []string {
	out := make([]string, len(f.Units))
	var braids []int
	var over []unit.Millimetre
	for i := range f.Units {
		u := &f.Units[i]
		out[i] = ScreenName(u, b.h)
		if u.Screen == "braid" && b.h.Practice.Buy.Fewest() && !harness.BuiltUnit(&b.h.Units[i], b.kept) {
			braids, over = append(braids, i), append(over, screened(u, b.h))
		}
	}
	sizes := upTo(own(over), over, rating.MostScreen)
	for n, i := range braids {
		least := over[n]
		for k, size := range sizes {
			if size == sizes[n] {
				least = min(least, over[k])
			}
		}
		if least < sizes[n] {
			out[i] = "screening braid with jacket, over wires " + b.across(least, sizes[n])
		}
	}
	return out
}

// screened is what a screen goes over, to a tenth of a mm.
func screened(u *fitted.Unit, h *harness.Harness) unit.Millimetre {
	return tenthOf(u.Diameter - 2*h.Practice.ScreenWall)
}

// ScreenName is what is drawn over a unit: "braid with jacket over wires of 3.2 mm".
func ScreenName(u *fitted.Unit, h *harness.Harness) string {
	jacket := " with jacket, over wires of "
	if u.Screen == "foil" {
		jacket = " with drain and jacket, over wires of "
	}
	return "screening " + u.Screen + jacket + unit.AcrossText(screened(u, h), h.Sheet.Imperial)
}

func tenthOf(mm unit.Millimetre) unit.Millimetre {
	return unit.Millimetre(int(float64(mm)*10+0.5)) / 10
}
