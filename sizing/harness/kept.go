package harness

import "example.com/loomfolio/sizing/unit"

// KeptState says how far a kept choice has come.
type KeptState string

// The states of a line of the record; "" is a choice of this run.
const (
	Planned KeptState = "planned"  // not made yet
	Built   KeptState = "built"    // made, and in the vehicle
	Retired KeptState = "retired"  // made once, and no longer described
	Own     KeptState = "existing" // the vehicle's own, which the description calls existing; on no line of the record
)

// Kept is what the as-built record holds of a wire. The zero Kept is a wire that
// the record does not know. A value in the description goes before it; what is
// built goes before a new choice, and so does what is planned as long as it serves.
type Kept struct {
	State      KeptState
	Name       string
	Gauge      unit.Gauge
	Insulation string
	Base       string // colour letters
	Tracer     string
	Length     unit.Millimetre // 0 where the wire has to be cut anew
	Sleeves    []string        // names in the record of wires that look alike where they meet, by choice: number sleeves tell them apart
	Line       int             // of the record, from 1
}

// KeptFuse is what the record holds of a fuse, breaker or panel position.
type KeptFuse struct {
	State  KeptState
	Rating unit.Ampere
	Body   string
	Line   int
}

// IsBuilt tells whether what is kept by an index is in the vehicle, as it was built or as the
// vehicle's own; kept may be nil.
func IsBuilt(kept []KeptState, i int) bool {
	return i < len(kept) && (kept[i] == Built || kept[i] == Own)
}

// OffReels tells by WireID the wires that are cut from no reel: the cores of cables, and the
// vehicle's own.
func (h *Harness) OffReels() []bool {
	out := h.Cores()
	for i := range h.Wires {
		out[i] = out[i] || h.Wires[i].Existing
	}
	return out
}

// NoColour tells a wire of the vehicle's own of which nobody says what colour it has.
func (w *Wire) NoColour() bool { return w.Existing && w.Base == "" }

// OwnFuse tells a fuse that is in the vehicle and stays: one of its own, or in a panel of its
// own one on whose position only its own wires end.
func (h *Harness) OwnFuse(e *Element) bool {
	if e.Part == None || !h.Parts[e.Part].Existing {
		return false
	}
	if h.Parts[e.Part].Panel == nil {
		return true
	}
	return h.onlyOwn(e.B)
}

// InOwnLoom tells a splice, connector or ground that is the vehicle's own: said so, or only its
// own wires end there.
func (h *Harness) InOwnLoom(p *Part) bool {
	if p.Existing || p.Kind != Splice && p.Kind != Connector && p.Kind != Ground {
		return p.Existing
	}
	for _, t := range p.Terminals {
		if h.onlyOwn(t) {
			return !h.someNew(p)
		}
	}
	return false
}

// someNew tells whether a wire that is made ends on a part.
func (h *Harness) someNew(p *Part) bool {
	for i := range h.Wires {
		if w := &h.Wires[i]; !w.Existing && (h.Terminals[w.From].Part == p.ID || h.Terminals[w.To].Part == p.ID) {
			return true
		}
	}
	return false
}

// onlyOwn tells a terminal on which wires end, and none but the vehicle's own.
func (h *Harness) onlyOwn(t TerminalID) bool {
	own := false
	for i := range h.Wires {
		if w := &h.Wires[i]; w.From == t || w.To == t {
			if !w.Existing {
				return false
			}
			own = true
		}
	}
	return own
}

// BuiltUnit tells whether all wires of a unit are in the vehicle.
func BuiltUnit(u *Unit, kept []KeptState) bool {
	for _, w := range u.Wires {
		if !IsBuilt(kept, int(w)) {
			return false
		}
	}
	return true
}
