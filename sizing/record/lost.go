package record

import "example.com/loomfolio/sizing/harness"

// Lost tells whether something that was built, or built once, stands in the old record
// and no longer in the new one as it was: a wire with its size, colour and length, or a
// fuse. Both are read or made; neither is changed.
func Lost(old, now Record) bool {
	has := map[string]bool{}
	for _, line := range built(now) {
		has[line] = true
	}
	for _, line := range built(old) {
		if !has[line] {
			return true
		}
	}
	return false
}

// built writes a line for everything that is or was built: what it is called and how it
// is made, without its place in the description and in the text.
func built(r Record) []string {
	var out []string
	for _, w := range r.Wires {
		if w.State != harness.Planned {
			w.Key, w.State, w.Imperial, w.Sleeves = Key{}, harness.Built, false, nil
			out = append(out, wireLine(w))
		}
	}
	for _, f := range r.Fuses {
		if f.State != harness.Planned {
			out = append(out, fuseLine(f))
		}
	}
	return out
}
