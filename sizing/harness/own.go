package harness

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
