// Package odds says how likely each fault is, against that of a visible crimp.
//
// In: the model, where its wires lie, its solved states, a cause. Out: its weight and the
// rows of the tables that it comes from (rating.FaultWeightOf, rating.FaultShare).
//
// Method: the weight of a kind of part times the share of its failures that are of this
// mode. A bad joint's share is parted evenly among the levels, what keeps a relay from
// pulling in among its coil, its armature and its contacts; judgement, not published. A
// load that is open stands for all that leaves it its volts and no work: stuck or slow,
// seized, wrong; not for a filament that is dim, nor for a sender that is erratic, which
// reads otherwise on its gauge's way. A wire's weight is that of its two ends and of its
// length; a blown fuse has none, being an effect. The place counts by its zone: engine and
// underbody are wet and hot.
package odds

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/sizing/fault/cause"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/route"
)

// Odds knows what the weights hang on.
type Odds struct {
	h      *harness.Harness
	lie    []route.Way // by WireID
	states []network.State
}

// New makes ready.
func New(h *harness.Harness, lie []route.Way, states []network.State) *Odds {
	return &Odds{h, lie, states}
}

// term is a row of the weights, how often it counts, and the share of its failures.
type term struct {
	row   string
	times float64
	share float64
}

// Of gives the weight of a cause, and of what.
func (o *Odds) Of(c *cause.Cause) (float64, string) {
	sum, why := 0.0, []string{}
	for _, t := range o.terms(c) {
		w, ok := rating.FaultWeightOf(t.row)
		if part := w.Weight * t.times * t.share; ok && part > 0 {
			sum += part
			why = append(why, fmt.Sprintf("%.2g of %s", part, w.Part))
		}
	}
	return sum, strings.Join(why, "; ")
}

func (o *Odds) terms(c *cause.Cause) []term {
	switch {
	case c.Wire != harness.None:
		return o.wire(c)
	case len(c.Sources) > 0:
		return []term{{"battery", 1, rating.FaultShare("battery", string(c.Kind))}}
	case c.Kind == proof.Disconnected:
		return o.post(c)
	case c.Kind == proof.Short:
		return []term{{o.way(&o.h.Parts[c.Part]), 1, rating.FaultShare("connection", "short") / 2}}
	case c.Contact != harness.None:
		return o.contact(c, &o.h.Elements[c.Contact])
	case len(c.Cuts) > 0:
		return o.element(c, &o.h.Elements[c.Cuts[0].Element])
	}
	return nil
}

func (o *Odds) post(c *cause.Cause) []term {
	row := "way-engine"
	if o.h.Parts[c.Part].Kind == harness.Battery {
		row = "clamp"
	}
	return []term{{row, 1, rating.FaultShare("connection", "open")}}
}

// wire gives the terms of a wire: of its ends, its length and its flexing runs.
func (o *Odds) wire(c *cause.Cause) []term {
	w := &o.h.Wires[c.Wire]
	ends, cable := 1.0, ""
	switch {
	case c.Kind == proof.Short && strings.Contains(c.Element, "~"):
		ends, cable = 0, "neighbour"
	case c.Kind == proof.Short:
		ends, cable = rating.FaultShare("connection", "short")/2, "short"
	case c.Kind == proof.Joint:
		ends = joint("connection")
	default:
		ends, cable = rating.FaultShare("connection", "open"), "open"
	}
	var out []term
	for _, t := range []harness.TerminalID{w.From, w.To} {
		for _, row := range o.end(t) {
			out = append(out, term{row, 1, ends})
		}
	}
	share := rating.FaultShare("cable", cable)
	return append(out, term{"metre", float64(o.lie[c.Wire].Length) / 1000, share}, term{"flex", o.flexing(c.Wire), share})
}

// joint is the share of one level of bad joints.
func joint(part string) float64 {
	return rating.FaultShare(part, "joint") / float64(len(cause.Levels))
}

// flexing counts the flexing runs that a wire passes.
func (o *Odds) flexing(w harness.WireID) float64 {
	n := 0.0
	for _, s := range o.lie[w].Shares {
		if o.h.Runs[s.Run].Flexes {
			n++
		}
	}
	return n
}

// end lists the rows of what a wire's end is crimped and plugged into. The contacts of a
// connector, a fuse and a ground point count by themselves.
func (o *Odds) end(t harness.TerminalID) []string {
	p := o.h.PartOf(t)
	if p == nil {
		return []string{"crimp"}
	}
	switch p.Basic() {
	case harness.Splice:
		return []string{"hidden"}
	case harness.Relay, harness.Flasher:
		return []string{"crimp", "socket"}
	case harness.Lamp:
		return []string{"crimp", "holder"}
	case harness.Battery:
		return []string{"crimp", "clamp"}
	case harness.Connector, harness.Fuse, harness.FusePanel, harness.Breaker, harness.Ground, harness.Bus, harness.Strap, harness.Isolator, harness.Starter, harness.Alternator, harness.Dynamo, harness.ControlBox, harness.Inverter, harness.Shunt, harness.SplitCharge:
		return []string{"crimp"}
	}
	return []string{"crimp", o.way(p)}
}

// way is the row of a plug's contact at a part; a sealed plug is as good as one indoors.
func (o *Odds) way(p *harness.Part) string {
	if o.harsh(p) && !p.Sealed {
		return "way-engine"
	}
	return "way-cabin"
}

// harsh tells a part in the engine bay or under the body.
func (o *Odds) harsh(p *harness.Part) bool {
	if p.Place == harness.None {
		return false
	}
	zone := strings.ToLower(o.h.Places[p.Place].Zone)
	for _, word := range []string{"engine", "under", "outside", "wheel"} {
		if strings.Contains(zone, word) {
			return true
		}
	}
	return false
}

// most is the largest current through an element in any state, A.
func (o *Odds) most(e harness.ElementID) float64 {
	most := 0.0
	for i := range o.states {
		most = max(most, math.Abs(o.states[i].Amps[e]))
	}
	return most
}
