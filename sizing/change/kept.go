// Package change sets what is to be beside what the as-built record holds: it marks
// what is kept, says what to do about the differences, and writes the record anew.
package change

import (
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// KeptPair gives the colours that the record holds of a wire.
func KeptPair(w *harness.Wire) colour.Pair {
	return colour.Pair{Base: w.Kept.Base, Tracer: w.Kept.Tracer}
}

// Mark notes on every wire and fuse whether it is the record's, and says so in
// the reasons.
func Mark(h *harness.Harness, r *result.Result) {
	r.Kept = make([]harness.KeptState, len(h.Wires))
	for i := range h.Wires {
		w := &h.Wires[i]
		if w.Existing {
			r.Kept[i] = harness.Own
			r.Wires[i].Reason = said(harness.Own) + r.Wires[i].Reason
			continue
		}
		if w.Kept.State == "" || len(changes(h, r, w)) > 0 {
			continue
		}
		r.Kept[i] = w.Kept.State
		r.Wires[i].Reason = said(w.Kept.State) + r.Wires[i].Reason
		r.Colours[i].Reason = said(w.Kept.State) + r.Colours[i].Reason
	}
	r.KeptFuses = make([]harness.KeptState, len(r.Fuses))
	for i := range r.Fuses {
		f := &r.Fuses[i]
		if h.OwnFuse(&h.Elements[f.Element]) {
			r.KeptFuses[i] = harness.Own
			f.Reason = said(harness.Own) + f.Reason
			if !f.Given {
				f.Reason = "the vehicle's own, and nobody says what it is rated: read it. What is behind is reckoned with " + strings.TrimPrefix(f.Reason, said(harness.Own))
			}
			continue
		}
		if k := h.Elements[f.Element].Kept; k.State != "" && !fuseChanged(f, k) {
			r.KeptFuses[i] = k.State
			f.Reason = said(k.State) + f.Reason
		}
	}
}

func said(state harness.KeptState) string {
	switch state {
	case harness.Own:
		return "the vehicle's own: "
	case harness.Built:
		return "kept, built: "
	}
	return "kept: "
}

// change is one value of a wire that is no longer as the record has it.
type change struct {
	what     string // gauge
	was, now string
	given    bool // the description gives the new value
}

// changes compares a kept wire with what it is to be. A built wire that is longer
// than its way asks for, or shorter, is another matter: it is there.
func changes(h *harness.Harness, r *result.Result, w *harness.Wire) []change {
	k := &w.Kept
	var out []change
	differ := func(what, was, now string, given bool) {
		if was != now {
			out = append(out, change{what, was, now, given})
		}
	}
	differ("name", k.Name, w.Name, true)
	differ("gauge", k.Gauge.String(), r.Wires[w.ID].Gauge.String(), w.Gauge.Given())
	differ("insulation", k.Insulation, w.Insulation, true)
	differ("colour", KeptPair(w).String(), r.Colours[w.ID].Pair.String(), w.Base != "")
	if k.State == harness.Planned && k.Length > 0 {
		text := func(mm unit.Millimetre) string { return unit.LengthText(mm, h.Sheet.Imperial) }
		differ("length", text(k.Length), text(r.Ways[w.ID].Length), r.Ways[w.ID].Given)
	}
	return out
}

func fuseChanged(f *chosen.Fuse, k harness.KeptFuse) bool {
	return f.Rating != k.Rating || f.Body != k.Body
}
