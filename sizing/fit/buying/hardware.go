package buying

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// tapeWide is the width of loom tape, which goes round with half of it on the turn
// before; common practice, no source.
const tapeWide unit.Millimetre = 19

// numbered puts a part's own number behind what it is bought as.
func numbered(what string, p *harness.Part) string {
	if p.PartNumber == "" {
		return what
	}
	return what + ", No. " + p.PartNumber
}

// atLeast stands before the rating that contacts must have where none is given.
const atLeast = ", at least "

// devices lists bars, diodes, resistors, capacitors, each with the most current
// that it carries, and straps.
func (b *basket) devices() {
	c := b.c
	for i := range b.h.Parts {
		p := &b.h.Parts[i]
		if p.Existing {
			continue
		}
		switch p.Kind {
		case harness.Bus:
			b.add("devices", numbered(b.bar(p), p), 1, "pcs", p.Ref)
		case harness.Diode:
			b.add("devices", numbered("diode that carries "+mostThrough(c, p).String(), p), 1, "pcs", p.Ref)
		case harness.Resistor:
			b.add("devices", numbered(b.resistor(c, p), p), 1, "pcs", p.Ref)
		case harness.Capacitor:
			b.add("devices", numbered(fmt.Sprintf("capacitor for %g V", b.volts(p)), p), 1, "pcs", p.Ref)
		case harness.Strap:
			b.add("straps", numbered(b.strap(p), p), 1, "pcs", p.Ref)
		}
	}
}

// bar is a bus bar with as many studs as it has, or as wires end on it.
func (b *basket) bar(p *harness.Part) string {
	n := p.Studs
	if n == 0 {
		n = len(p.Terminals)
	}
	what := "bus bar, " + unit.Counted(n, "stud")
	if n == 1 {
		what = "insulated junction stud"
	}
	if p.Stud != "" {
		what += " " + p.Stud
	}
	return what
}

// resistor is bought by its resistance and the most power that it turns into heat.
func (b *basket) resistor(c *chosen.Chosen, p *harness.Part) string {
	amps, what := float64(mostThrough(c, p)), "resistor"
	for _, id := range p.Elements {
		if ohms := b.h.Elements[id].Ohms; ohms > 0 {
			what += fmt.Sprintf(" %s for %.2g W at least", ohms, amps*amps*float64(ohms))
		}
	}
	return what
}

// mostThrough is the most current in a part in any state.
func mostThrough(c *chosen.Chosen, p *harness.Part) unit.Ampere {
	most := 0.0
	for s := range c.States {
		for _, e := range p.Elements {
			if a := math.Abs(c.States[s].Amps[e]); !math.IsNaN(a) {
				most = math.Max(most, a)
			}
		}
	}
	return unit.Ampere(most)
}

// strap is a braid with its section, its length and the holes at its ends; what
// the description does not say is left to be measured.
func (b *basket) strap(p *harness.Part) string {
	what := "braid strap"
	if p.Size.Given() {
		what += ", " + p.Size.String()
	}
	length := "length to be measured"
	if p.Length > 0 {
		length = unit.LengthText(p.Length, b.h.Sheet.Imperial) + " long"
	}
	what += ", " + length
	if j := joint.Of(b.h, p.Terminals[0], false); j.Fitting == joint.Ring && j.Size != "" {
		what += ", holes for " + j.Size
	}
	return what
}

// grommets: one for each run that passes from one zone into another.
func (b *basket) grommets(f *fitted.Fitted) {
	runs := slices.DeleteFunc(b.laid(f), func(r *fitted.Run) bool { return !r.Wall })
	for i, bore := range b.bored(runs) {
		b.add("grommets", "grommet, bore "+unit.BoreText(bore, b.h.Sheet.Imperial), 1, "pcs", b.between(runs[i].Run))
	}
}

// between names a run by its places.
func (b *basket) between(id harness.RunID) string {
	run := &b.h.Runs[id]
	return b.h.Places[run.From].Name + " – " + b.h.Places[run.To].Name
}

// boots go over the rings on studs that are live with no fuse before them.
func (b *basket) boots(f *fitted.Fitted) {
	for _, two := range f.Ends {
		for _, e := range two {
			if e.Boot && !harness.IsBuilt(b.kept, int(e.Wire)) {
				b.add("boots", fmt.Sprintf("stud boot over %s with %s cable", e.Fitting, b.c.Wires[e.Wire].Gauge), 1, "pcs", b.ref(e.Terminal))
			}
		}
	}
	for _, id := range harness.Uncapped(b.h) {
		b.add("boots", "insulating cap for the unused tab 87a of a relay", 1, "pcs", b.h.Parts[id].Ref)
	}
}

// housings hold the contacts of a part that is no connector of the loom's own.
func (b *basket) housings(f *fitted.Fitted) {
	ways := map[harness.PartID]int{}
	family := map[harness.PartID]string{}
	for _, two := range f.Ends {
		for _, e := range two {
			p := b.h.PartOf(e.Terminal)
			if p == nil || p.Kind == harness.Connector || e.Kind != joint.Contact || harness.IsBuilt(b.kept, int(e.Wire)) {
				continue
			}
			ways[p.ID], family[p.ID] = len(p.Terminals), e.On
		}
	}
	for i := range b.h.Parts {
		p := &b.h.Parts[i]
		if n := ways[p.ID]; n > 0 && !p.Existing {
			b.add("connectors", strings.TrimSuffix("plug housing, "+unit.Counted(n, "way")+", "+family[p.ID], ", "), 1, "pcs", p.Ref)
		}
	}
}

// specimens are the spare crimps of each lot that are pulled: of all fittings of
// its barrel that of which most are bought.
func (b *basket) specimens(f *fitted.Fitted) {
	for _, lot := range f.Lots {
		if lot.Crimp == fitted.Barrel {
			b.add("terminals", barrelItem(lot.Size, lot.Part), float64(lot.Specimens), "pcs", pullTest)
			continue
		}
		best := ""
		for _, two := range f.Ends {
			for _, e := range two {
				key := terminalItem(&e)
				if !lot.Same(f.LotOf(&e, b.c.Wires)) {
					continue
				}
				if best == "" || b.counted("terminals", key) > b.counted("terminals", best) {
					best = key
				}
			}
		}
		b.add("terminals", best, float64(lot.Specimens), "pcs", pullTest)
	}
}

const pullTest = "pull test"

func (b *basket) counted(group, what string) float64 {
	if i, ok := b.at[[2]string{group, what}]; ok {
		return b.items[i].Count
	}
	return 0
}

// TerminalLine is the line of the shopping list that an end's fitting stands in.
func TerminalLine(e *fitted.End) string { return terminalItem(e) }

// BarrelLine is the line of a splice's barrel.
func BarrelLine(s *fitted.Splice) string { return barrelItem(s.Size, s.Number) }

// Between is what the list calls a run: the names of its places.
func Between(h *harness.Harness, id harness.RunID) string { return (&basket{h: h}).between(id) }

// terminalItem is what an end's fitting is bought as.
func terminalItem(e *fitted.End) string {
	what := e.Fitting + ", " + e.Crimp
	if size := cmp.Or(e.Range, e.Size); size != "" {
		what += ", " + strings.Replace(size, "mm2", "mm²", 1)
	}
	if e.Part != "" {
		what = e.Part + ", " + what
	}
	return what
}

func barrelItem(size, number string) string {
	if number != "" {
		return number + ", splice, " + size
	}
	return "splice, " + size
}

// tapeThick is that of tape; common practice, no source.
const tapeThick unit.Millimetre = 0.13

// underShrink is the tape that the wires get under the heat-shrink over both ends of a cover.
func underShrink(r *fitted.Run) unit.Millimetre {
	layers := math.Ceil(float64((r.Taped - r.Diameter) / 2 / tapeThick))
	return unit.Millimetre(2*layers) * unit.Millimetre(math.Pi) * r.Taped
}

// tape is how much goes round a bundle over a length, half of it on the turn before.
func tape(bundle, length unit.Millimetre) unit.Millimetre {
	return unit.Millimetre(math.Pi * float64(bundle) * float64(length) / float64(tapeWide/2))
}

// studs counts what holds the rings of a ground: nut, spring washer and, on a coat,
// the toothed washer.
func (b *basket) studs(f *fitted.Fitted) {
	for _, g := range f.Grounds {
		if !b.someLeft(g.Rings) || b.h.Parts[g.Part].Existing {
			continue
		}
		ref := b.h.Parts[g.Part].Ref
		b.add("washers", "spring washer "+g.Stud, 1, "pcs", ref)
		b.add("nuts", "nut "+g.Stud, 1, "pcs", ref)
		if strings.HasPrefix(g.Washer, "star washer") {
			b.add("washers", "star washer "+g.Stud, 1, "pcs", ref)
		}
	}
}

// spares adds the spare fuses that a panel's description names, and one more of each
// other rating (common practice, no source).
func (b *basket) spares() {
	named := map[string]float64{}
	for i := range b.h.Parts {
		p := &b.h.Parts[i]
		if p.Panel == nil || p.Existing {
			continue
		}
		for _, text := range p.Panel.Spare {
			if amps, err := unit.ParseAmpere(text); err == nil {
				what := fuseItem(p.Body, amps)
				b.add("fuses", what, 0, "pcs", "")
				named[what]++
			}
		}
	}
	for i := range b.items {
		if it := &b.items[i]; it.Group == "fuses" && isFuse(it.What) {
			n := max(1, named[it.What])
			it.Count += n
			b.users[i] = append([]string{fmt.Sprintf("%.0f spare", n)}, b.users[i]...)
		}
	}
}

// fuseItem is what a fuse is bought as: "blade fuse 10 A, red".
func fuseItem(body string, amps unit.Ampere) string {
	if body == "" {
		body = "blade"
	}
	what := body + " fuse " + amps.String()
	if f, ok := rating.FuseOf(body, amps); ok && f.Colour != "" {
		what += ", " + f.Colour
	}
	return what
}
