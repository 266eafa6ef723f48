package figures

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// Fault is one thing that is broken, solved in a state, and what a meter shows then.
type Fault struct {
	ID       string             `json:"id"`
	Element  string             `json:"element"` // a wire's id, an element's, a part's
	Kind     string             `json:"kind"`    // open joint short welded burnt stuck unearthed shorted flat disconnected dead
	State    string             `json:"state"`
	Load     string             `json:"load"`      // that it was looked at for, "" for none
	CostsPct float64            `json:"costs_pct"` // of a joint or burnt contact: of that load's voltage
	Ohms     float64            `json:"ohm"`       // of a joint or burnt contact, on top of what is there when sound; of what touches
	TouchA   float64            `json:"touch_a"`   // through what touches, before a fuse opens
	Blown    []string           `json:"blown"`     // fuses that it opens, the first to go first
	Dead     []string           `json:"dead"`      // loads that are on and do not work
	Weak     []string           `json:"weak"`      // loads that are on with less than nine tenths of their voltage
	Extra    []string           `json:"extra"`     // loads that work though they are not on
	Readings map[string]float64 `json:"readings"`  // volts by point: those that move, and those on the ways of these loads
	Floating []string           `json:"floating"`  // points where nothing defines a voltage
	Says     string             `json:"says"`      // what no reading shows: that no fuse opens, that a relay buzzes
	Weight   float64            `json:"weight"`    // how likely, against a visible crimp's 1
	Why      string             `json:"why"`       // of the weight
}

// Ladder is what is measured for one load with it on.
type Ladder struct {
	Load  string   `json:"load"`
	State string   `json:"state"`
	Rungs []Rung   `json:"rungs"`
	Rest  []string `json:"rest"` // faults that leave every rung right
}

// Rung is one point of a ladder.
type Rung struct {
	Point string    `json:"point"`
	Volts float64   `json:"volts"`
	LowV  float64   `json:"low_v"`
	HighV float64   `json:"high_v"`
	Means []Meaning `json:"means"`
}

// Meaning is a band of readings and the faults that give it.
type Meaning struct {
	LowV   float64  `json:"low_v"`
	HighV  float64  `json:"high_v"`
	Faults []string `json:"faults"`
}

// Group is what dies together.
type Group struct {
	State  string   `json:"state"`
	Dead   []string `json:"dead"`
	Weak   []string `json:"weak"`
	Extra  []string `json:"extra"`
	Live   []string `json:"live"` // though they share wires or contacts with these
	Faults []string `json:"faults"`
}

func (f *filler) elements(ids []harness.ElementID) []string {
	out := []string{}
	for _, id := range ids {
		out = append(out, f.h.Elements[id].Name)
	}
	return out
}

func (f *filler) ids(faults []int) []string {
	out := []string{}
	for _, n := range faults {
		out = append(out, f.r.Proof.Faults[n].ID)
	}
	return out
}

func (f *filler) point(n int) string { return f.full(f.r.Proof.Points[n].At) }

func (f *filler) faults() {
	for i := range f.r.Proof.Faults {
		x := &f.r.Proof.Faults[i]
		out := Fault{
			ID: x.ID, Element: x.Element, Kind: string(x.Kind), State: f.h.States[x.State].Name,
			CostsPct: 100 * float64(x.Costs), Ohms: float64(x.Ohms), TouchA: float64(x.Amps),
			Blown: f.elements(x.Blown), Dead: f.elements(x.Dead), Weak: f.elements(x.Weak), Extra: f.elements(x.Extra),
			Says: x.Says, Weight: x.Weight, Why: x.Why,
		}
		if x.Load != harness.None {
			out.Load = f.h.Elements[x.Load].Name
		}
		out.Readings, out.Floating = f.readings(x.Volts)
		f.d.Faults = append(f.d.Faults, out)
	}
}

// readings parts what a meter shows from what floats.
func (f *filler) readings(list []proof.Shows) (map[string]float64, []string) {
	volts, floating := map[string]float64{}, []string{}
	for _, s := range list {
		if s.Float {
			floating = append(floating, f.point(s.Point))
		} else {
			volts[f.point(s.Point)] = float64(s.Volts)
		}
	}
	return volts, floating
}

func (f *filler) ladders() {
	for _, l := range f.r.Proof.Ladders {
		out := Ladder{Load: f.h.Elements[l.Load].Name, State: f.h.States[l.State].Name, Rungs: []Rung{}, Rest: f.ids(l.Rest)}
		for _, r := range l.Rungs {
			rung := Rung{Point: f.point(r.Point), Volts: float64(r.Volts), LowV: float64(r.Low), HighV: float64(r.High), Means: []Meaning{}}
			for _, m := range r.Means {
				rung.Means = append(rung.Means, Meaning{float64(m.Low), float64(m.High), f.ids(m.Faults)})
			}
			out.Rungs = append(out.Rungs, rung)
		}
		f.d.Ladders = append(f.d.Ladders, out)
	}
}

func (f *filler) together() {
	for _, t := range f.r.Proof.Together {
		f.d.Together = append(f.d.Together, Group{
			f.h.States[t.State].Name, f.elements(t.Dead), f.elements(t.Weak), f.elements(t.Extra), f.elements(t.Live), f.ids(t.Faults),
		})
	}
}
