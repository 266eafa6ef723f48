package harness

import "fmt"

// Verify checks what always holds of a model; a breach is a programming error
// in package check, not in the user's file.
func (h *Harness) Verify() error {
	checks := []func() error{h.verifyTerminals, h.verifyParts, h.verifyElements, h.verifyWires, h.verifyUnits, h.verifyStates}
	for _, check := range checks {
		if err := check(); err != nil {
			return err
		}
	}
	return nil
}

func (h *Harness) verifyTerminals() error {
	if len(h.Terminals) == 0 || h.Terminals[0].Part != None {
		return fmt.Errorf("harness: terminal 0 is not the chassis")
	}
	for i, t := range h.Terminals {
		if int(t.ID) != i {
			return fmt.Errorf("harness: terminal %d has ID %d", i, t.ID)
		}
		if i > 0 && (t.Part < 0 || int(t.Part) >= len(h.Parts)) {
			return fmt.Errorf("harness: terminal %s has no part", t.Full)
		}
	}
	return nil
}

func (h *Harness) terminal(t TerminalID) bool { return t >= 0 && int(t) < len(h.Terminals) }

func (h *Harness) verifyParts() error {
	for i, p := range h.Parts {
		if int(p.ID) != i {
			return fmt.Errorf("harness: part %d has ID %d", i, p.ID)
		}
		if p.Place != None && int(p.Place) >= len(h.Places) {
			return fmt.Errorf("harness: part %s has no such place", p.Ref)
		}
		for _, t := range p.Terminals {
			if !h.terminal(t) || h.Terminals[t].Part != p.ID {
				return fmt.Errorf("harness: part %s does not own terminal %d", p.Ref, t)
			}
		}
	}
	return nil
}

func (h *Harness) verifyElements() error {
	names := map[string]bool{}
	for i, e := range h.Elements {
		if int(e.ID) != i {
			return fmt.Errorf("harness: element %d has ID %d", i, e.ID)
		}
		if !h.terminal(e.A) || !h.terminal(e.B) || e.A == e.B {
			return fmt.Errorf("harness: element %s has bad ends", e.Name)
		}
		if names[e.Name] {
			return fmt.Errorf("harness: two elements are named %s", e.Name)
		}
		names[e.Name] = true
		if e.Kind == Converter && (e.Input < 0 || int(e.Input) >= len(h.Elements) || h.Elements[e.Input].Kind != Load || !(e.Efficiency > 0 && e.Efficiency <= 1)) {
			return fmt.Errorf("harness: converter %s has no input", e.Name)
		}
		if e.Side < 0 || e.Side > 0 && e.Side >= len(h.Systems) {
			return fmt.Errorf("harness: element %s is on no side", e.Name)
		}
		c := e.When
		if (c.Kind == Energised || c.Kind == Released) && (c.Coil < 0 || int(c.Coil) >= len(h.Elements) || h.Elements[c.Coil].Kind != RelayCoil) {
			return fmt.Errorf("harness: element %s follows no coil", e.Name)
		}
		if c.Kind == InPosition && (c.Switch < 0 || int(c.Switch) >= len(h.Parts)) {
			return fmt.Errorf("harness: element %s follows no switch", e.Name)
		}
	}
	return nil
}

func (h *Harness) verifyWires() error {
	names := map[string]bool{}
	for i, w := range h.Wires {
		if int(w.ID) != i {
			return fmt.Errorf("harness: wire %d has ID %d", i, w.ID)
		}
		if !h.terminal(w.From) || !h.terminal(w.To) || w.From == w.To || w.From == Chassis || w.To == Chassis {
			return fmt.Errorf("harness: wire %s has bad ends", w.Name)
		}
		if names[w.Name] {
			return fmt.Errorf("harness: two wires are named %s", w.Name)
		}
		names[w.Name] = true
		if w.Circuit < 0 || int(w.Circuit) >= len(h.Circuits) {
			return fmt.Errorf("harness: wire %s has no circuit", w.Name)
		}
	}
	return nil
}

func (h *Harness) verifyUnits() error {
	in := map[WireID]bool{}
	for i, u := range h.Units {
		if int(u.ID) != i || len(u.Wires) == 0 || (u.Type != nil) != (u.Kind == Cabled) {
			return fmt.Errorf("harness: unit %s is badly made", u.Name)
		}
		for _, w := range u.Wires {
			if w < 0 || int(w) >= len(h.Wires) || in[w] {
				return fmt.Errorf("harness: unit %s has a wire that is not its own", u.Name)
			}
			in[w] = true
			if c := h.Wires[w].Core; u.Type != nil && (c < 0 || c >= len(u.Type.Cores)) {
				return fmt.Errorf("harness: wire %s has no core in %s", h.Wires[w].Name, u.Name)
			}
		}
	}
	return nil
}

func (h *Harness) verifyStates() error {
	for _, s := range h.States {
		if len(s.Position) != len(h.Parts) {
			return fmt.Errorf("harness: state %s does not place every part", s.Name)
		}
	}
	return nil
}
