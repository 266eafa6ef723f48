// Package pack finds which batteries are in series, and shares the system's
// voltage among them. In: the model with its wires, and which batteries say their own
// EMF. Out: each battery's share, EMF and inner resistance in the model, and the
// problems found. Units: V, ohm. Always holds: a battery that says its EMF keeps it;
// batteries in parallel hold the whole voltage each.
//
// Method: terminals joined by metal (wires, fuses, joints, isolators that are on, and
// the contacts of switches and relays as long as they do not bridge a battery) are one
// net; a battery leads from the net of its minus to that of its plus. As many are in
// series with it as the longest chain through it has.
package pack

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/check/say"
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// made are the voltages, V, that a battery is made for; common practice, no source.
var made = [...]unit.Volt{2, 4, 6, 8, 12, 24}

// usual is the least of them that a vehicle's series string is made of as a rule.
const usual unit.Volt = 12

// dangerous is where direct current begins to kill (IEC 61140, UN Regulation 100).
const dangerous unit.Volt = 60

// Given tells what a battery's description says itself.
type Given struct{ EMF, Inner bool }

// Share gives each battery of a series string its share of the system's voltage.
func Share(h *harness.Harness, given func(harness.PartID) Given) source.Problems {
	p := &pack{h: h, nets: netsOf(h), given: given, plusAt: map[int][]*harness.Element{}, minusAt: map[int][]*harness.Element{}}
	for i := range h.Elements {
		if e := &h.Elements[i]; e.Kind == harness.EMF && p.plusNet(e) != p.minusNet(e) {
			p.batteries = append(p.batteries, e)
			p.plusAt[p.plusNet(e)] = append(p.plusAt[p.plusNet(e)], e)
			p.minusAt[p.minusNet(e)] = append(p.minusAt[p.minusNet(e)], e)
		}
	}
	for _, e := range p.batteries {
		p.share(e)
	}
	p.tooHigh()
	return p.Problems
}

// pack is the batteries with the nets that they lie between.
type pack struct {
	say.Report
	h         *harness.Harness
	nets      forest.Forest
	given     func(harness.PartID) Given
	batteries []*harness.Element
	plusAt    map[int][]*harness.Element // by net: the batteries whose plus it is
	minusAt   map[int][]*harness.Element
	told      bool
}

// share gives a battery that says no EMF its part of the system's voltage.
func (p *pack) share(e *harness.Element) {
	says := p.given(e.Part)
	chain := p.chain(e)
	n := len(chain)
	if says.EMF || n < 2 {
		return
	}
	each := p.h.System.Volts / unit.Volt(n)
	if !isMade(each) {
		p.doubt(e, chain, "no battery is made for "+each.String()+": each is taken as one of "+p.h.System.Volts.String())
		return
	}
	if each < usual {
		p.doubt(e, chain, "each is taken as one of "+each.String())
	}
	e.Share = unit.Fraction(1 / float64(n))
	e.Volts *= unit.Volt(e.Share)
	if !says.Inner {
		e.Ohms *= unit.Ohm(e.Share)
	}
}

func isMade(v unit.Volt) bool {
	for _, m := range made {
		if v > m*0.999 && v < m*1.001 {
			return true
		}
	}
	return false
}

// doubt says once what unusual batteries were taken as.
func (p *pack) doubt(e *harness.Element, chain []*harness.Element, taken string) {
	if p.told {
		return
	}
	p.told = true
	p.Say(source.Warning, "battery-share-assumed", p.h.Parts[e.Part].Span,
		"say emf: for each of them (12.6 V for a full 12 V battery, 6.3 V for a 6 V one); batteries in parallel have plus at plus and minus at minus",
		"%s are in series in a system of %s, and %s", p.names(chain), p.h.System.Volts, taken)
}

func (p *pack) names(chain []*harness.Element) string {
	var names []string
	for _, e := range chain {
		names = append(names, p.h.Parts[e.Part].Ref)
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// chain is the longest chain of batteries through one, from minus to plus; the
// battery alone where they close a ring.
func (p *pack) chain(e *harness.Element) []*harness.Element {
	below, okB := longest(p.minusNet(e), p.plusAt, p.minusNet, count, 0)
	above, okA := longest(p.plusNet(e), p.minusAt, p.plusNet, count, 0)
	if !okA || !okB {
		return []*harness.Element{e}
	}
	chain := append(below, e)
	for i := len(above) - 1; i >= 0; i-- {
		chain = append(chain, above[i])
	}
	return chain
}

func count(*harness.Element) float64 { return 1 }

// most is the longest chain that is followed: who has more batteries in one is in a ring.
const most = 64

// longest follows batteries from a net on, and gives the chain that weighs most, its
// farthest first. It is not ok where the chain comes to no end.
func longest(net int, at map[int][]*harness.Element, next func(*harness.Element) int, weight func(*harness.Element) float64, depth int) (best []*harness.Element, ok bool) {
	if depth > most {
		return nil, false
	}
	heaviest := 0.0
	seen := map[int]bool{}
	for _, e := range at[net] {
		beyond := next(e)
		if seen[beyond] {
			continue // another in parallel
		}
		seen[beyond] = true
		chain, ok := longest(beyond, at, next, weight, depth+1)
		if !ok {
			return nil, false
		}
		if w := sum(chain, weight) + weight(e); w > heaviest {
			best, heaviest = append(chain, e), w
		}
	}
	return best, true
}

func sum(chain []*harness.Element, weight func(*harness.Element) float64) (total float64) {
	for _, e := range chain {
		total += weight(e)
	}
	return total
}

// tooHigh refuses the chain whose EMFs, or charging voltages, add up to most, where
// that is a high voltage. What it was taken as is then no matter.
func (p *pack) tooHigh() {
	var worst []*harness.Element
	for _, e := range p.batteries {
		below, ok := longest(p.minusNet(e), p.plusAt, p.minusNet, p.volts, 0)
		if chain := append(below, e); ok && len(chain) > 1 && sum(chain, p.volts) > sum(worst, p.volts) {
			worst = chain
		}
	}
	total := unit.Volt(sum(worst, p.volts))
	if total < dangerous {
		return
	}
	p.Problems = nil
	p.Fail("voltage-out-of-scope", p.h.Parts[worst[len(worst)-1].Part].Span,
		fmt.Sprintf("Nothing here covers %s and above: that belongs to a qualified person and to other rules. If the batteries are smaller, say emf: for each; batteries in parallel have plus at plus and minus at minus.", dangerous),
		"%s in series give %s", p.names(worst), total)
}

// volts is the most that a battery gives: its EMF, or its charging voltage.
func (p *pack) volts(e *harness.Element) float64 {
	return max(float64(e.Volts), float64(p.h.System.Running)*float64(e.Holds()))
}

func (p *pack) minusNet(e *harness.Element) int { return p.nets.Root(int(e.B)) }

func (p *pack) plusNet(e *harness.Element) int { return p.nets.Root(int(e.A)) }
