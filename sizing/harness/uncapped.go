package harness

// Uncapped lists the changeover relays whose 87a has no wire: it is live whenever
// the coil is off.
func Uncapped(h *Harness) []PartID {
	wired := map[TerminalID]bool{}
	for i := range h.Wires {
		wired[h.Wires[i].From], wired[h.Wires[i].To] = true, true
	}
	var out []PartID
	for i := range h.Parts {
		p := &h.Parts[i]
		for _, t := range p.Terminals {
			if p.Kind == Relay && p.Changeover && h.Terminals[t].Name == "87a" && !wired[t] {
				out = append(out, p.ID)
			}
		}
	}
	return out
}
