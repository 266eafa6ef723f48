// Package trial takes sizes in hand and says what follows of them. In: the model, the
// ways, and by wire the place of a size on its shelf. Out: every state solved with them,
// the temperature of each conductor, and the resistances that a drop is counted with.
// Units: A, V, C, ohm of whole wires, m. Always holds: a Base does not change while
// sizes are tried, nor does a Solved or a Trial once it is made; a round makes new ones.
// Method: the solver of package network on each declared state, and besides, for the heat
// alone, with flat batteries; each wire at the temperature that the round before gave it.
package trial

import (
	"slices"

	"example.com/loomfolio/sizing/choose/shelf"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/heat"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// Base is what stays the same whatever sizes are tried.
type Base struct {
	H        *harness.Harness
	Ways     []route.Way // by WireID
	Net      *flow.Net
	Owner    *flow.Owner
	Owns     []flow.Own // by ElementID, of loads and coils: the way that is meant, whatever the switches do
	Guards   flow.Guards
	Branches [][]harness.ElementID // by ElementID: the fuses that hang on a fuse

	Shelf []shelf.Shelf // by WireID
	Keys  []string      // by WireID: which shelf
	Kinds []heat.Wire   // the sections of all sizes on the shelves

	Places []Ambient          // by WireID
	Runs   [][]harness.WireID // by RunID: the wires in it
	Cables [][]harness.WireID // the cores of each cable
	Leads  []Leads            // of each source, in the order of the elements, and of the links between batteries
	plan   []Solving          // what is to be solved, not solved yet
}

// New lays the ground for trials. Held gives by WireID the gauge that a wire has
// already, given or kept.
func New(h *harness.Harness, ways []route.Way, held []unit.Gauge) *Base {
	shelves := shelf.New(h, held)
	b := &Base{H: h, Ways: ways, Net: flow.NewNet(h), Shelf: shelves.Of, Keys: shelves.Keys, Kinds: shelves.Kinds}
	b.Guards, b.Branches = b.Net.Guards(), b.Net.Branches()
	b.own()
	for i := range h.Wires {
		b.Places = append(b.Places, hottest(h, ways, &h.Wires[i]))
	}
	b.Runs, b.Cables, b.Leads = inRuns(h, ways), inCables(h), leadsOf(h, b.Net)
	b.plan = b.solvings()
	return b
}

// On is the same ground with other shelves, made of sizes that are on those of b, and with
// ways of other lengths.
func (b *Base) On(ways []route.Way, shelves []shelf.Shelf) *Base {
	out := *b
	out.Ways, out.Shelf = ways, shelves
	return &out
}

// own finds the way that is meant for every load and coil.
func (b *Base) own() {
	b.Owner, b.Owns = b.Net.Owner(), make([]flow.Own, len(b.H.Elements))
	for i := range b.H.Elements {
		if e := &b.H.Elements[i]; flow.Draws(e) {
			b.Owns[i] = b.Owner.Of(e.ID, nil)
		}
	}
}

// Ambient is the hottest place that a wire passes.
type Ambient struct {
	Celsius unit.Celsius
	Place   harness.PlaceID
}

// hottest looks at the places of the way and at those of both parts; a wire
// without any place lies in 30 C (33 CFR 183.425 table 5).
func hottest(h *harness.Harness, ways []route.Way, w *harness.Wire) Ambient {
	at := append([]harness.PlaceID(nil), ways[w.ID].Places...)
	for _, t := range []harness.TerminalID{w.From, w.To} {
		if p := h.PartOf(t); p != nil && p.Place != harness.None {
			at = append(at, p.Place)
		}
	}
	if len(at) == 0 {
		return Ambient{30, harness.None}
	}
	best := Ambient{h.Places[at[0]].Ambient, at[0]}
	for _, p := range at[1:] {
		if h.Places[p].Ambient > best.Celsius {
			best = Ambient{h.Places[p].Ambient, p}
		}
	}
	return best
}

// inRuns lists the wires of each run.
func inRuns(h *harness.Harness, ways []route.Way) [][]harness.WireID {
	out := make([][]harness.WireID, len(h.Runs))
	for w := range h.Wires {
		for _, share := range ways[w].Shares {
			out[share.Run] = append(out[share.Run], harness.WireID(w))
		}
	}
	return out
}

// inCables lists the wires of each cable: they lie together whatever runs it passes.
func inCables(h *harness.Harness) [][]harness.WireID {
	var out [][]harness.WireID
	for i := range h.Units {
		if u := &h.Units[i]; u.Kind == harness.Cabled {
			out = append(out, u.Wires)
		}
	}
	return out
}

// Leads are the wires at a source: on its earth side, and those that end on its live
// side. Those on the earth side are no thinner than the heaviest of the others.
type Leads struct {
	Earth, Live []harness.WireID
	Battery     bool // 8 gauge at least (NEC 552.10)
}

// leadsOf gives the leads of every battery and alternator, in the order of the elements,
// and of the links between batteries in series.
func leadsOf(h *harness.Harness, net *flow.Net) []Leads {
	var out []Leads
	all := []harness.WireID(nil)
	for i := range h.Elements {
		e := &h.Elements[i]
		if !e.Gives() {
			continue
		}
		earth, live := net.EarthLeads(e.ID)
		out = append(out, Leads{earth, live, e.Kind == harness.EMF && !h.System.WiredReturn})
		if e.Kind == harness.EMF {
			all = append(append(all, earth...), live...)
		}
	}
	if links := net.Links(); len(links) > 0 {
		all = slices.DeleteFunc(all, func(w harness.WireID) bool { return slices.Contains(links, w) })
		out = append(out, Leads{Earth: links, Live: all, Battery: true})
	}
	return out
}

// Metres gives a wire's length in m; a wire of no length counts as 1 mm, since the
// solver needs a resistance.
func (b *Base) Metres(w harness.WireID) float64 { return max(float64(b.Ways[w].Length), 1) / 1000 }

// Nominal is the voltage by which the side is named that an element is made for.
func (b *Base) Nominal(e harness.ElementID) unit.Volt { return b.H.SystemOf(&b.H.Elements[e]).Volts }

// ByRule tells that a published rule sizes the wires one by one.
func (b *Base) ByRule() bool { return b.H.Practice.Method != "computed" }

// Feet in a metre.
const Feet = 1 / 0.3048

// PartOf gives the part that an element belongs to.
func (b *Base) PartOf(e harness.ElementID) *harness.Part { return &b.H.Parts[b.H.Elements[e].Part] }

// Along adds up the lengths of some wires, m.
func (b *Base) Along(wires []harness.WireID) float64 {
	sum := 0.0
	for _, w := range wires {
		sum += b.Metres(w)
	}
	return sum
}

// ElementsOf lists the elements of a kind, in order.
func (b *Base) ElementsOf(kind harness.ElementKind) []harness.ElementID {
	var out []harness.ElementID
	for i := range b.H.Elements {
		if b.H.Elements[i].Kind == kind {
			out = append(out, harness.ElementID(i))
		}
	}
	return out
}
