package figures

import "example.com/loomfolio/sizing/choose/chosen"

// Neighbour is the size or rating beside a chosen one, and the rules that it
// breaks; size is "" where there is none.
type Neighbour struct {
	Size  string `json:"size"`
	Fails []Fail `json:"fails"`
}

// Fail is one rule that a neighbour breaks: what the rule compares (has) with
// its limit, in A, V, mm2 or s. Both are 0 for a rule that is another wire's.
type Fail struct {
	Rule  string  `json:"rule"`
	Of    string  `json:"of"`
	Has   float64 `json:"has"`
	Limit float64 `json:"limit"`
	Text  string  `json:"text"`
}

func neighbour(n chosen.Neighbour) Neighbour {
	out := Neighbour{Size: n.Size, Fails: []Fail{}}
	for _, f := range n.Fails {
		out.Fails = append(out.Fails, Fail{f.Rule, f.Of, finite(f.Has), finite(f.Limit), f.Text})
	}
	return out
}

// Contact is one pair of contacts of a switch, relay or isolator.
type Contact struct {
	ID      string   `json:"id"`
	Part    string   `json:"part"`
	Amps    float64  `json:"amps"`
	State   string   `json:"state"`
	Loads   []string `json:"loads"`
	WantsA  float64  `json:"wants_a"` // by FAA AC 43.13-1B table 11-4
	RatingA float64  `json:"rating_a"`
}

func (f *filler) contacts() {
	for _, c := range f.r.Contacts {
		out := Contact{ID: c.Name, Part: f.h.Parts[c.Part].Ref, Amps: float64(c.Amps), State: c.State, Loads: []string{}, WantsA: float64(c.Wants), RatingA: float64(c.Rating)}
		for _, l := range c.Loads {
			out.Loads = append(out.Loads, l.Name)
		}
		f.d.Contacts = append(f.d.Contacts, out)
	}
}
