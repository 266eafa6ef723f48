package explain

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
)

// unknown says of an open end or an unknown box what hangs on it, and how urgent it is to
// trace it; of any part what was measured there.
func (x *explainer) unknown(p *harness.Part) {
	f := &x.r.Proof.Found
	for i := range f.Open {
		o := &f.Open[i]
		if o.Part != p.ID {
			continue
		}
		x.line("not known", "what it does and draws: nothing lies between its terminals in any figure")
		if !o.Box {
			x.line("", "where it leads: a loose end is insulated, a live one has its fuse pulled first")
		}
		x.line("trace", "number %d of %d, %d points: %s", i+1, len(f.Open), o.Points, o.Why)
	}
	for i := range f.Measured {
		m, r := &f.Measured[i], &x.h.Measured[i]
		if x.h.Terminals[r.At].Part != p.ID && (r.Against == harness.None || x.h.Terminals[r.Against].Part != p.ID) {
			continue
		}
		state := "battery off"
		if !r.Dead {
			state = x.h.States[r.State].Name
		}
		text := string(m.Verdict)
		if m.Says != "" {
			text = m.Says
		}
		x.line("measured", "%s, %s: %s", x.pointOf(r), state, text)
	}
	for i := range f.Blind {
		if b := &f.Blind[i]; x.r.Fuses[b.Fuse].Part == p.ID {
			x.line("not known", "what draws through %s besides: %s", x.r.Fuses[b.Fuse].Name, strings.Join(x.refsOf(b.Parts), ", "))
		}
	}
}

// pointOf names a reading: "FAN.+ 10.6 V".
func (x *explainer) pointOf(r *harness.Reading) string {
	at := x.h.Terminals[r.At].Full
	if r.Against != harness.None {
		at += " to " + x.h.Terminals[r.Against].Full
	}
	if r.Dead {
		return at + " " + r.Ohms.String()
	}
	return at + " " + r.Volts.String()
}

func (x *explainer) refsOf(list []harness.PartID) []string {
	var out []string
	for _, id := range list {
		out = append(out, x.h.Parts[id].Ref)
	}
	return slices.Compact(out)
}

// potentialIn is the volts of a terminal in a state; nobody knows those of what hangs on an
// unknown end alone.
func (x *explainer) potentialIn(state int, t harness.TerminalID) string {
	if x.r.Proof.Found.At(state, t) {
		return "not known"
	}
	return potential(x.r.States[state].Volts[t])
}
