package figures

import "example.com/loomfolio/sizing/harness"

// Change is what follows if something is changed later; numbers by their names, which end
// in the unit.
type Change struct {
	Circuit string             `json:"circuit"` // "" where it is none's
	Part    string             `json:"part"`
	Alters  string             `json:"alters"` // larger more-lamps led-flashers led-charge battery-moved second-battery charging
	If      string             `json:"if"`
	Then    string             `json:"then"`
	First   string             `json:"first"` // the rule that gives out first: continuous start heat contact unrated; "" for none
	At      string             `json:"at"`    // of which fuse, wire, contact, load or state
	Wires   []string           `json:"wires"` // that have to grow then
	Numbers map[string]float64 `json:"numbers"`
}

// Spare is how much more one load may draw, or a source that charges may give.
type Spare struct {
	ID       string   `json:"id"`
	NowA     float64  `json:"now_a"`
	UpToA    float64  `json:"up_to_a"` // every rule is kept
	SafeA    float64  `json:"safe_a"`  // no fuse opens, no contact is overloaded, no wire of its own gets too hot
	LostV    float64  `json:"lost_v"`  // at safe_a
	AllowedV float64  `json:"allowed_v"`
	Warm     []string `json:"warm"` // wires beside that have to grow for safe_a
	Limits   []Limit  `json:"limits"`
}

// Limit is one thing that gives out as a load grows, the first first.
type Limit struct {
	Rule  string  `json:"rule"` // continuous start heat beside contact unrated drop alternator key-off
	At    string  `json:"at"`
	UpToA float64 `json:"up_to_a"`
}

func (f *filler) changes() {
	for i := range f.r.Proof.Changes {
		c := &f.r.Proof.Changes[i]
		out := Change{Alters: string(c.Alters), If: c.If, Then: c.Then, First: c.First, At: c.At, Wires: append([]string{}, c.Names...), Numbers: map[string]float64{}}
		if c.Circuit != harness.None {
			out.Circuit = f.h.Circuits[c.Circuit].Key
		}
		if c.Part != harness.None {
			out.Part = f.h.Parts[c.Part].Ref
		}
		for _, n := range c.Numbers {
			out.Numbers[n.Name] = finite(n.Value)
		}
		f.d.Changes = append(f.d.Changes, out)
	}
}

func (f *filler) spares() {
	for i := range f.r.Spares {
		s := &f.r.Spares[i]
		out := Spare{
			ID: f.h.Elements[s.Element].Name, NowA: float64(s.Amps), UpToA: float64(s.UpTo), SafeA: float64(s.Safe),
			LostV: float64(s.Lost), AllowedV: float64(s.Allowed), Warm: []string{}, Limits: []Limit{},
		}
		for _, t := range s.Warm {
			out.Warm = append(out.Warm, f.h.Wires[t.Wire].Name)
		}
		for _, l := range s.Limits {
			out.Limits = append(out.Limits, Limit{l.Rule, l.Name, float64(l.UpTo)})
		}
		f.d.Spares = append(f.d.Spares, out)
	}
}
