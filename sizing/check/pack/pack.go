// Package pack finds which batteries are in series, and shares the system's
// voltage among them. In: the model with its wires, and which batteries say their own
// EMF. Out: each battery's share, EMF and inner resistance in the model, and the
// problems found. Units: V, ohm. Always holds: a battery that says its EMF keeps it;
// batteries in parallel hold the whole voltage each.
//
// Method: terminals joined by metal (wires, fuses, joints, isolators that are on, and
// the contacts of switches and relays where they bridge no battery) are one
// net; a battery leads from the net of its minus to that of its plus. As many are in
// series with it as the longest chain through it has.
package pack

import (
	"fmt"
	"math"
	"slices"
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
	p := newPack(h, given)
	for _, e := range p.batteries {
		p.share(e)
	}
	p.taps()
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

// share gives a battery that says no EMF its part of the system's voltage: that of one
// in its string that says its own, else as many parts as the string has batteries.
func (p *pack) share(e *harness.Element) {
	chain := p.chain(e)
	n, own := len(chain), p.h.SystemOf(e).Volts
	e.Side = p.h.SideAt(chain[n-1].A)
	system := p.h.SystemOf(e).Volts // that of the whole string
	if p.given(e.Part).EMF || n < 2 {
		return
	}
	part := unit.Fraction(1 / float64(n))
	if i := slices.IndexFunc(chain, func(x *harness.Element) bool { return p.given(x.Part).EMF }); i >= 0 {
		part = chain[i].Holds()
	}
	switch each := system * unit.Volt(part); {
	case !isMade(each) && part < 1:
		p.doubt(e, chain, "no battery is made for "+each.String()+": each is taken as one of "+system.String())
		return
	case each < usual, math.Abs(float64(part)*float64(n)-1) > 0.01:
		p.doubt(e, chain, "each is taken as one of "+each.String())
	}
	e.Share = part
	e.Volts *= unit.Volt(part) * system / own
	if !p.given(e.Part).Inner {
		e.Ohms *= unit.Ohm(float64(part) * float64(system) / float64(own))
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
		"%s are in series in a system of %s, and %s", p.names(chain), p.h.SystemOf(e).Volts, taken)
}

func (p *pack) names(chain []*harness.Element) string {
	var names []string
	for _, e := range chain {
		names = append(names, p.h.Parts[e.Part].Ref)
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// chain is the longest chain of batteries through one, from minus to plus, none of
// it beyond the chassis; the battery alone where they close a ring.
func (p *pack) chain(e *harness.Element) []*harness.Element {
	end := p.nets.Root(int(harness.Chassis))
	below, okB := (&walk{p.plusAt, p.minusNet, count, end, map[int]*found{}}).longest(p.minusNet(e))
	above, okA := (&walk{p.minusAt, p.plusNet, count, end, map[int]*found{}}).longest(p.plusNet(e))
	slices.Reverse(above)
	chain := append(append(below, e), above...)
	if !okA || !okB || p.minusNet(chain[0]) == p.plusNet(chain[len(chain)-1]) {
		return []*harness.Element{e}
	}
	return chain
}

func count(*harness.Element) float64 { return 1 }

// walk follows sources from net to net.
type walk struct {
	at     map[int][]*harness.Element
	next   func(*harness.Element) int
	weight func(*harness.Element) float64
	end    int // the net that it does not go beyond; -1 for none
	found  map[int]*found
}

// found is the chain that weighs most from a net on, its farthest first; it is not
// whole while it is sought, and where the sources close a ring.
type found struct {
	chain []*harness.Element
	whole bool
}

// longest follows sources from a net on, and gives the chain that weighs most. It is
// not ok where they close a ring.
func (w *walk) longest(net int) (best []*harness.Element, ok bool) {
	if was := w.found[net]; was != nil {
		return slices.Clone(was.chain), was.whole
	}
	out := &found{}
	w.found[net] = out
	heaviest := 0.0
	for _, e := range w.at[net] {
		if net == w.end {
			break
		}
		chain, ok := w.longest(w.next(e))
		if !ok {
			return nil, false
		}
		if heavy := sum(chain, w.weight) + w.weight(e); heavy > heaviest {
			out.chain, heaviest = append(chain, e), heavy
		}
	}
	out.whole = true
	return slices.Clone(out.chain), true
}

func sum(chain []*harness.Element, weight func(*harness.Element) float64) (total float64) {
	for _, e := range chain {
		total += weight(e)
	}
	return total
}

// tooHigh refuses the chain of batteries and chargers whose voltages add up to most,
// where that is a high voltage. What they were taken as is then no matter.
func (p *pack) tooHigh() {
	sources := p.sources(harness.EMF, harness.Charger, harness.Converter)
	w := &walk{byNet(sources, p.plusNet), p.minusNet, p.volts, -1, map[int]*found{}}
	var worst []*harness.Element
	for _, e := range sources {
		if chain, ok := w.longest(p.plusNet(e)); ok && len(chain) > 1 && sum(chain, p.volts) > sum(worst, p.volts) {
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

// sources lists the elements of some kinds that lie between two nets.
func (p *pack) sources(kinds ...harness.ElementKind) []*harness.Element {
	var out []*harness.Element
	for i := range p.h.Elements {
		if e := &p.h.Elements[i]; slices.Contains(kinds, e.Kind) && p.plusNet(e) != p.minusNet(e) {
			out = append(out, e)
		}
	}
	return out
}

// byNet sorts sources by one of their two nets.
func byNet(sources []*harness.Element, net func(*harness.Element) int) map[int][]*harness.Element {
	out := map[int][]*harness.Element{}
	for _, e := range sources {
		out[net(e)] = append(out[net(e)], e)
	}
	return out
}

// volts is the most that a source gives: a battery its EMF, or its charging voltage.
func (p *pack) volts(e *harness.Element) float64 {
	if e.Regulates() {
		return float64(e.Volts)
	}
	return max(float64(e.Volts), float64(p.h.SystemOf(e).Running)*float64(e.Holds()))
}

func (p *pack) minusNet(e *harness.Element) int { return p.nets.Root(int(e.B)) }

func (p *pack) plusNet(e *harness.Element) int { return p.nets.Root(int(e.A)) }
