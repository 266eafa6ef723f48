package figures

import "example.com/loomfolio/sizing/harness"

// OpenEnd is an end that is not traced, or a box that nobody knows, the one to be traced first
// first.
type OpenEnd struct {
	ID       string   `json:"id"`
	Kind     string   `json:"kind"` // open-end unknown
	Name     string   `json:"name"`
	Ends     []string `json:"ends"`
	Wires    []string `json:"wires"`
	LiveIn   string   `json:"live_in"` // the first state in which it is live, "" where none is known
	Fuse     string   `json:"fuse"`    // before it; "" where it is live and none is known, or not live
	RatingA  float64  `json:"rating_a"`
	Hangs    []string `json:"hangs"`    // loads that work only through it, as far as is known
	Perhaps  []string `json:"perhaps"`  // ends that the description calls by the same words
	Alike    []string `json:"alike"`    // ends whose wires have the same colour and size
	Readings float64  `json:"readings"` // that cannot be judged for its sake
	Points   float64  `json:"points"`
	Why      string   `json:"why"`
}

// Measured is a reading beside what a sound loom reads: V, or ohms with the battery off. A figure
// that nobody can say, or that has no end, is null in JSON and empty in a table.
type Measured struct {
	At      string   `json:"at"`
	Against string   `json:"against"` // "" for battery minus, of a positive ground its plus
	State   string   `json:"state"`   // "" for ohms
	Unit    string   `json:"unit"`    // V, ohm
	Read    *float64 `json:"read"`
	Is      *float64 `json:"is"`
	Low     *float64 `json:"low"`
	High    *float64 `json:"high"`
	Meter   float64  `json:"meter"` // the most by which a cheap meter is off
	Verdict string   `json:"verdict"`
	Says    string   `json:"says"`
}

// Stretch is a piece of a load's way on which more is lost than the wires can explain.
type Stretch struct {
	From      string   `json:"from"`
	To        string   `json:"to"`
	Load      string   `json:"load"`
	State     string   `json:"state"`
	LostV     float64  `json:"lost_v"`
	ExplainsV float64  `json:"explains_v"`
	Suspects  []string `json:"suspects"` // wires, contacts, fuses, grounds: the likeliest first
	Draws     []string `json:"draws"`    // what nobody knows and may draw through it
	NeedsA    float64  `json:"needs_a"`  // what that must draw
}

func (f *filler) found() {
	d := f.d
	d.OpenEnds, d.Measured, d.Stretches = []OpenEnd{}, []Measured{}, []Stretch{}
	stock := &f.r.Proof.Found
	for i := range stock.Open {
		o := &stock.Open[i]
		p := &f.h.Parts[o.Part]
		out := OpenEnd{
			ID: p.Ref, Kind: string(p.Kind), Name: p.Name, Ends: []string{}, Wires: f.names(o.Wires), LiveIn: o.State, Fuse: o.Fuse, RatingA: float64(o.Rating),
			Hangs: append([]string{}, o.Hangs...), Perhaps: f.refs(o.Perhaps), Alike: f.refs(o.Alike), Readings: float64(o.Reads), Points: float64(o.Points), Why: o.Why,
		}
		for _, t := range o.Ends {
			out.Ends = append(out.Ends, f.full(t))
		}
		d.OpenEnds = append(d.OpenEnds, out)
	}
	for i := range stock.Measured {
		m, x := &stock.Measured[i], &f.h.Measured[i]
		out := Measured{
			At: f.full(x.At), Unit: "V", Read: known(float64(x.Volts)), Is: known(m.Is), Low: known(m.Low), High: known(m.High),
			Meter: m.Meter, Verdict: string(m.Verdict), Says: m.Says,
		}
		if x.Against != harness.None {
			out.Against = f.full(x.Against)
		}
		if x.Dead {
			out.Unit, out.Read = "ohm", known(float64(x.Ohms))
		} else {
			out.State = f.h.States[x.State].Name
		}
		d.Measured = append(d.Measured, out)
	}
	for i := range stock.Stretches {
		x := &stock.Stretches[i]
		out := Stretch{
			From: f.full(x.From), To: f.full(x.To), Load: f.h.Elements[x.Load].Name, State: f.h.States[x.State].Name,
			LostV: float64(x.Lost), ExplainsV: float64(x.Explains), Suspects: []string{}, Draws: f.refs(x.Draws), NeedsA: float64(x.Needs),
		}
		for _, s := range x.Suspects {
			out.Suspects = append(out.Suspects, s.Name)
		}
		d.Stretches = append(d.Stretches, out)
	}
}

func (f *filler) refs(list []harness.PartID) []string {
	out := []string{}
	for _, id := range list {
		out = append(out, f.h.Parts[id].Ref)
	}
	return out
}

// known is a figure to be printed, nil for one that has no end or that nobody can say.
func known(x float64) *float64 {
	if finite(x) != x {
		return nil
	}
	x = rounded(x, precision{0, 3})
	return &x
}
