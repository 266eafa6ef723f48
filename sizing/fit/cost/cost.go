// Package cost tells what a loom costs and what is left of it. In: the model and the results, the
// shopping list with them. Out: purchase.Cost, which is money where the description has prices,
// metres, pieces, masses in g and minutes to build, by group of the shopping list and by circuit;
// and purchase.Left, which is what lies on the shelf after the build. Money, metres, pieces and
// minutes are of what is still to be bought and made, masses of the whole loom.
//
// A circuit pays for the wires, ends and fuses that are its own. What serves several is shared: a
// reel by the lengths that are cut from it, spare and waste with them; a cable by its cores that
// are used; terminals and tube by the ends that they are for; a fuse by the wires that it protects; a
// part, such as a panel, relay or connector, by the wires' ends on it; cover, clamps and what else
// goes round a run by the wires in it; the rest by the number of wires. Packs are shared whole.
package cost

import (
	"math"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// Of sums up what the loom costs.
func Of(h *harness.Harness, r *result.Result) purchase.Cost {
	m := massOf(h, r)
	c := purchase.Cost{Currency: h.Practice.Currency, Spread: Spread, Copper: m.copper, Cores: m.cores, Wire: m.wire, Cable: m.cable, Cover: m.cover}
	for i := range r.Shopping {
		line(&c, &r.Shopping[i])
	}
	for i := range r.Reels {
		if r.Reels[i].Buy > 0 {
			c.Reels++
		}
	}
	for i := range c.Groups {
		c.Groups[i].Mass = m.groups[c.Groups[i].Name]
	}
	c.Circuits = circuits(h, r, m)
	c.Operation = operations(h, r)
	for _, o := range c.Operation {
		c.Minutes += o.Minutes
	}
	return c
}

// line adds a line of the shopping list to the whole and to its group.
func line(c *purchase.Cost, it *fitted.Item) {
	if !it.Bought() {
		return
	}
	if n := len(c.Groups); n == 0 || c.Groups[n-1].Name != it.Group {
		c.Groups = append(c.Groups, purchase.Sum{Name: it.Group})
	}
	g := &c.Groups[len(c.Groups)-1]
	if it.Unit == "m" {
		g.Metres += it.Buy
	} else {
		g.Pieces += int(it.Buy + 0.5)
		c.Pieces += int(it.Buy + 0.5)
	}
	if it.Group == "wire" || it.Group == "cables" {
		c.Metres += it.Buy
	}
	g.Money += it.Sum
	c.Money += it.Sum
	c.Priced = c.Priced || it.Priced
	if !it.Priced {
		c.Unpriced++
	}
}

// mass is what is known of the masses.
type mass struct {
	copper, cores, wire, cable, cover unit.Gram
	wires                             []unit.Gram // by WireID, with insulation; of a core its share of the cable
	groups                            map[string]unit.Gram
}

func massOf(h *harness.Harness, r *result.Result) mass {
	m := mass{wires: make([]unit.Gram, len(h.Wires)), groups: map[string]unit.Gram{}}
	core := h.OffReels()
	for i := range r.Wires {
		w, long := &r.Wires[i], r.Ways[i].Length
		copper := rating.CopperMass(w.Area, long)
		if h.Wires[i].Existing {
			continue // the vehicle's own
		}
		if core[i] {
			m.cores += copper
			continue
		}
		m.copper += copper
		m.wires[i] = copper + rating.InsulationMass(w.Insulation, strands(w.Gauge, w.Diameter), w.Diameter, long)
		m.wire += m.wires[i]
	}
	for i := range r.Units {
		m.unit(h, &r.Units[i])
	}
	m.covers(h, r)
	m.groups["wire"], m.groups["cables"] = m.wire, m.cable
	return m
}

// strands is the diameter over the strands of a gauge; of one that no table has what leaves a usual wall.
func strands(g unit.Gauge, outside unit.Millimetre) unit.Millimetre {
	if c, ok := rating.AnyConductor(g); ok {
		return min(c.Copper, outside)
	}
	return outside * 0.7
}

// unit weighs a cable, or the screen over wires.
func (m *mass) unit(h *harness.Harness, u *fitted.Unit) {
	of := &h.Units[u.Unit]
	if of.Kind == harness.Cabled {
		var copper unit.SquareMillimetre
		for _, c := range of.Type.Cores {
			copper += rating.AreaOf(c.Size)
		}
		whole := rating.CableMass(of.Type.Diameter, copper, u.Length)
		m.cable += whole
		for _, w := range of.Wires {
			m.wires[w] = whole / unit.Gram(len(of.Wires))
		}
		return
	}
	if u.Screen != "" {
		m.over("cover", rating.CoverMass("screening "+u.Screen, u.Diameter-2*h.Practice.ScreenWall, u.ScreenLen))
	}
}

func (m *mass) over(group string, g unit.Gram) {
	m.cover += g
	m.groups[group] += g
}

// covers weighs what goes over the runs.
func (m *mass) covers(h *harness.Harness, r *result.Result) {
	for i := range r.Runs {
		run := &r.Runs[i]
		switch long := h.Runs[run.Run].Length; {
		case run.CoverName == "":
		case fitted.Taped(run.CoverName):
			m.over("tape", rating.CoverMass("tape", 0, tapeOn(run.Diameter, long)))
		default:
			m.over("cover", rating.CoverMass(run.CoverName, run.Cover, long))
		}
	}
}

// tapeWide is the width of the tape that the table weighs.
const tapeWide = 19

// tapeOn is the length of tape round a bundle, half of it on the turn before.
func tapeOn(bundle, long unit.Millimetre) unit.Millimetre {
	return unit.Millimetre(math.Pi * float64(bundle) * float64(long) / (tapeWide / 2.0))
}
