package alteration

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// cableFrom is the least metal of what counts as a starter's cable, mm²: 8 gauge.
const cableFrom unit.SquareMillimetre = 8

// batteryMoved says how long the starter's cables may be in which size, by what they may
// lose while the engine is cranked.
func (n *notes) batteryMoved() []proof.Change {
	for i := range n.r.Loads {
		l := &n.r.Loads[i]
		e := &n.h.Elements[l.Element]
		if n.h.Parts[e.Part].Kind != harness.Starter || n.doubted(l) || l.Limit <= 0 || len(l.Feed) == 0 {
			continue
		}
		if m, ok := n.moved(e, append(append([]harness.WireID(nil), l.Feed...), l.Return...), l.Limit); ok {
			m.Circuit = n.circuitOf(l)
			if l.ProtectedBy == "" {
				m.Then += "; the live cable has no fuse: covered and clamped all its length"
			}
			return []proof.Change{m}
		}
	}
	return nil
}

// moved reckons with some wires of a starter; false where no state cranks it, or where they
// hold no cable.
func (n *notes) moved(e *harness.Element, wires []harness.WireID, limit unit.Volt) (proof.Change, bool) {
	amps := 0.0
	for i := range n.r.States {
		if a := math.Abs(n.r.States[i].Amps[e.ID]); a > amps { // false for NaN
			amps = a
		}
	}
	metres, thickest, names := 0.0, harness.WireID(harness.None), []string{}
	for _, w := range wires {
		if c := &n.r.Wires[w]; c.Area >= cableFrom {
			metres += float64(n.r.Ways[w].Length) / 1000
			names = append(names, n.h.Wires[w].Name)
			if thickest == harness.None || c.Area > n.r.Wires[thickest].Area {
				thickest = w
			}
		}
	}
	if amps <= 0 || thickest == harness.None {
		return proof.Change{}, false
	}
	texts, numbers := n.reaches(amps, limit, n.r.Wires[thickest].Gauge)
	imperial := n.h.Sheet.Imperial
	return proof.Change{
		Part: e.Part, Alters: proof.BatteryMoved, Names: names, Numbers: append([]proof.Number{number("now_a", amps), number("allowed_v", float64(limit)), number("now_m", metres)}, numbers...),
		If: "the battery moved",
		Then: fmt.Sprintf("live and ground cables of the starter together (%s now) at %s and %s: %s; each fuse stays within %s of the post",
			unit.FarText(unit.Millimetre(1000*metres), imperial), unit.Amps(amps), limit, strings.Join(texts, ", "), unit.LengthText(openFeed, imperial)),
	}, len(texts) > 0
}

// openFeed is how far from a battery a fuse may be where the wire lies open: 33 CFR
// 183.455(b), 7 in.
const openFeed unit.Millimetre = 178

// reaches gives the greatest length of cable, in the size in hand and the next two, that
// loses no more than is allowed, the copper at 20 C (SAE J541).
func (n *notes) reaches(amps float64, limit unit.Volt, now unit.Gauge) (texts []string, numbers []proof.Number) {
	from, known := rating.AnyConductor(now)
	if !known {
		return nil, nil
	}
	for _, c := range rating.Sizes(now.System) {
		if c.Area < from.Area*0.999 || len(texts) == 3 {
			continue
		}
		most := unit.Round(math.Floor(10*float64(limit)/(amps*float64(c.Resistance)))/10, 1)
		texts = append(texts, fmt.Sprintf("%s %s", c.Gauge, unit.FarText(unit.Millimetre(1000*most), n.h.Sheet.Imperial)))
		numbers = append(numbers, number("most_m_"+c.Gauge.Size, most))
	}
	return texts, numbers
}

// secondBattery speaks of one more battery in a vehicle that has one and charges it.
func (n *notes) secondBattery() []proof.Change {
	var charger *harness.Element
	batteries := 0
	for i := range n.h.Elements {
		switch e := &n.h.Elements[i]; {
		case e.Kind == harness.EMF:
			batteries++
		case e.Kind == harness.Charger && n.h.Parts[e.Part].Kind == harness.Alternator && charger == nil:
			charger = e
		}
	}
	if charger == nil || batteries != 1 {
		return nil
	}
	least, most := n.left()
	if least == harness.None {
		return nil
	}
	p := &n.h.Parts[charger.Part]
	out := proof.Change{
		Circuit: n.circuitAt(charger.B, charger.A), Part: p.ID, Alters: proof.SecondBattery, At: n.h.States[least].Name, Names: []string{},
		If:      "a second battery",
		Numbers: []proof.Number{number("output_a", float64(charger.Amps)), number("left_a", n.spared(least)), number("left_most_a", n.spared(most)), number("cranking_a", n.cranking())},
	}
	out.Then = fmt.Sprintf("only through a relay that closes while %s charges, or a DC-DC converter, with a fuse at each battery", p.Ref)
	if crank := n.cranking(); crank > 0 {
		out.Then += fmt.Sprintf(" (a plain cable carries part of the %s of cranking)", unit.Amps(crank))
	}
	out.Then += fmt.Sprintf("; to charge it %s is left in %s", down(unit.Ampere(n.spared(least))), n.h.States[least].Name)
	if most != least {
		out.Then += fmt.Sprintf(", %s in %s", down(unit.Ampere(n.spared(most))), n.h.States[most].Name)
	}
	return []proof.Change{out}
}

// left gives the running states that leave least and most of what the alternators give,
// None where there is none.
func (n *notes) left() (least, most int) {
	least, most = harness.None, harness.None
	for i, b := range n.r.Budgets {
		if b.Alternator <= 0 || n.h.States[i].Engine != harness.EngineRunning {
			continue
		}
		if least == harness.None || n.spared(i) < n.spared(least) {
			least = i
		}
		if most == harness.None || n.spared(i) > n.spared(most) {
			most = i
		}
	}
	return least, most
}

// spared is what the alternators have left in a state, A.
func (n *notes) spared(state int) float64 {
	return max(0, float64(n.r.Budgets[state].Alternator-n.r.Budgets[state].Loads))
}

// cranking gives what the starters take, A.
func (n *notes) cranking() (most float64) {
	for i := range n.h.Elements {
		e := &n.h.Elements[i]
		if e.Kind != harness.Load || n.h.Parts[e.Part].Kind != harness.Starter {
			continue
		}
		for j := range n.r.States {
			if a := math.Abs(n.r.States[j].Amps[e.ID]); a > most { // false for NaN
				most = a
			}
		}
	}
	return most
}

// charging speaks of a larger alternator, regulator or charger.
func (n *notes) charging() []proof.Change {
	var out []proof.Change
	for i := range n.r.Spares {
		s := &n.r.Spares[i]
		e := &n.h.Elements[s.Element]
		p := &n.h.Parts[e.Part]
		if e.Kind != harness.Charger || s.Safe <= 0 || n.blamed[p.Ref] || n.blamed[e.Name] || n.weak(s) {
			continue
		}
		c := n.spare(n.circuitAt(e.A, e.B), s)
		c.Alters = proof.Charging
		out = append(out, c)
	}
	return out
}
