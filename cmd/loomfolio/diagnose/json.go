package diagnose

import (
	"encoding/json"
	"io"
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
)

// Diagnosis is a standing as JSON; its fields only grow.
type Diagnosis struct {
	State     string      `json:"state"`
	Notes     []string    `json:"notes"`       // how what was written is understood
	Wrong     []string    `json:"wrong"`       // what is wrong with what was told
	AsItIs    bool        `json:"as_it_is"`    // all of it is so without a fault
	Remaining []Remaining `json:"remaining"`   // the likeliest first
	Odd       []string    `json:"unexplained"` // what the likeliest does not explain
	Both      []string    `json:"two_faults"`  // ids of two that explain all together
	Again     string      `json:"again"`       // a point to be measured once more
	Next      *Next       `json:"next"`        // null where a meter can tell no more
}

// Remaining is a fault that remains.
type Remaining struct {
	ID      string  `json:"id"` // as in figures, faults
	Element string  `json:"element"`
	Kind    string  `json:"kind"`
	What    string  `json:"what"`
	Where   string  `json:"where"`
	Share   float64 `json:"share"` // of 1
	Class   int     `json:"class"` // those of one class read the same everywhere
}

// Next is a measurement.
type Next struct {
	Point   string   `json:"point"`
	Against string   `json:"against"` // "" for the battery's grounded post
	State   string   `json:"state"`
	On      []string `json:"on"`
	Answers []Answer `json:"answers"` // the highest volts first
}

// Answer is a band of readings and what it leaves.
type Answer struct {
	Low    float64  `json:"low_v"`
	High   float64  `json:"high_v"`
	Says   string   `json:"says"`
	Share  float64  `json:"share"`
	Faults []string `json:"faults"`
}

// JSON writes a standing for scripts.
func JSON(w io.Writer, h *harness.Harness, r *result.Result, told Told, s proof.Standing) error {
	p := &printer{w, h, r, told, s}
	d := Diagnosis{State: h.States[told.State].Name, Notes: listed(told.Notes), Wrong: listed(s.Wrong), AsItIs: s.Sound, Odd: []string{}, Both: []string{}, Remaining: []Remaining{}}
	for _, x := range s.Left {
		f := &r.Proof.Faults[x.Fault]
		d.Remaining = append(d.Remaining, Remaining{f.ID, f.Element, string(f.Kind), what(h, f), where(h, f), round(x.Share), x.Class})
	}
	for _, k := range s.Odd {
		d.Odd = append(d.Odd, p.oneTold(k))
	}
	if b := s.Both; b != nil {
		d.Both = p.ids([]int{b.A, b.B})
	}
	if a := s.Again; a != nil {
		d.Again = p.at(a.Point, a.Against)
	}
	if s.Next != nil {
		d.Next = p.nextOf(s.Next)
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(d)
}

// listed is a list that is never null.
func listed(l []string) []string { return append([]string{}, l...) }

// round keeps a share to four digits.
func round(x float64) float64 { return math.Round(x*1e4) / 1e4 }

// ids are the names of faults.
func (p *printer) ids(faults []int) []string {
	out := []string{}
	for _, f := range faults {
		out = append(out, p.r.Proof.Faults[f].ID)
	}
	return out
}

func (p *printer) nextOf(a *proof.Asked) *Next {
	n := &Next{Point: p.name(a.Probe.Point), State: p.h.States[a.State].Name, On: []string{}}
	if a.Probe.Against != proof.None {
		n.Against = p.name(a.Probe.Against)
	}
	for _, l := range a.On {
		n.On = append(n.On, p.h.Elements[l].Name)
	}
	for _, x := range a.Probe.Answers {
		n.Answers = append(n.Answers, Answer{milli(float64(x.Low)), milli(float64(x.High)), x.Says, round(x.Share), p.ids(x.Left)})
	}
	return n
}

func milli(v float64) float64 { return math.Round(v*1e3)/1e3 + 0 }

// name is a point's terminal.
func (p *printer) name(point int) string { return p.h.Terminals[p.r.Proof.Points[point].At].Full }
