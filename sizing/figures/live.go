package figures

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// LiveWhen is a net and how it stands in each state: fed, behind (volts through a load
// alone), ground, or not live. States are those that are declared and those that are
// reckoned beside them; without tells the fuses that change it, each in the state in which
// it carries most.
type LiveWhen struct {
	Net     string            `json:"net"`
	Points  []string          `json:"points"`
	Wires   []string          `json:"wires"`
	States  map[string]string `json:"states"`
	Without map[string]string `json:"without"`
	Still   []string          `json:"still_without"` // fuses before it that leave it live when they are out
}

// Sneak is a way of the current that nobody meant; finding is the slug that tells it, ""
// where it is told here alone.
type Sneak struct {
	Kind    string   `json:"kind"`
	State   string   `json:"state"`
	Path    []Stop   `json:"path"`
	Loads   []string `json:"loads"`
	Amps    float64  `json:"amps"`
	Says    string   `json:"says"`
	Cure    string   `json:"cure"`
	Finding string   `json:"finding"`
}

// Stop is a stop on a way, and the wire or element that leads on from it.
type Stop struct {
	At      string `json:"at"`
	Wire    string `json:"wire"`
	Element string `json:"element"`
	Against bool   `json:"against"`
}

// Looked is what was enumerated to find sneak paths.
type Looked struct {
	States  int    `json:"states"`
	Changes int    `json:"changes"`
	Pairs   int    `json:"pairs"`
	Solved  int    `json:"solved"`
	Left    string `json:"left"`
}

// stands are the words for how a net stands.
var stands = map[proof.Lives]string{proof.NotLive: "not live", proof.Fed: "fed", proof.Behind: "behind", proof.Ground: "ground"}

func (f *filler) live() {
	p := &f.r.Proof
	for _, n := range p.Live {
		out := LiveWhen{Net: f.full(n.Net), Points: []string{}, Wires: f.names(n.Wires), States: map[string]string{}, Without: map[string]string{}, Still: []string{}}
		for _, t := range n.Points {
			out.Points = append(out.Points, f.full(t))
		}
		for i, l := range n.When {
			out.States[p.When[i]] = stands[l]
		}
		f.d.LiveWhen = append(f.d.LiveWhen, out)
	}
	for _, w := range p.Without {
		name := f.h.Elements[w.Fuse].Name
		for i, net := range w.Nets {
			f.d.LiveWhen[net].Without[name] = stands[w.Lives[i]]
		}
		for _, net := range w.Still {
			f.d.LiveWhen[net].Still = append(f.d.LiveWhen[net].Still, name)
		}
	}
}

func (f *filler) sneaks() {
	l := f.r.Proof.Looked
	f.d.Looked = Looked{l.States, l.Changes, l.Pairs, l.Solved, l.Left}
	for _, s := range f.r.Proof.Sneaks {
		out := Sneak{Kind: s.Kind, State: s.State, Path: []Stop{}, Loads: []string{}, Amps: s.Amps, Says: s.Says, Cure: s.Cure, Finding: s.Slug}
		for _, x := range s.Path {
			out.Path = append(out.Path, f.stop(x))
		}
		for _, id := range s.Loads {
			out.Loads = append(out.Loads, f.h.Elements[id].Name)
		}
		f.d.Sneaks = append(f.d.Sneaks, out)
	}
}

func (f *filler) stop(x proof.Stop) Stop {
	out := Stop{At: f.full(x.At), Against: x.Against}
	if x.Wire != harness.None {
		out.Wire = f.h.Wires[x.Wire].Name
	}
	if x.Element != harness.None {
		out.Element = f.h.Elements[x.Element].Name
	}
	return out
}
