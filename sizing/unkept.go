package sizing

import (
	"slices"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
)

// unkept makes the loom as if there were no record. Where that comes to what the record has, and
// nothing of it is built, it stands with its own reasons and with all that was weighed: writing
// choices down changes nothing. False where there is no record or the loom differs from it.
func unkept(h *harness.Harness) (m made, same bool, err error) {
	if !onlyPlanned(h) {
		return made{}, false, nil
	}
	free := withoutRecord(h)
	l, err := least(free)
	if err != nil {
		return made{}, false, err
	}
	m, err = fewly(free, l)
	return m, err == nil && asKept(h, &m), err
}

// onlyPlanned tells whether the record has every wire as planned.
func onlyPlanned(h *harness.Harness) bool {
	return !slices.ContainsFunc(h.Wires, func(w harness.Wire) bool { return !w.Existing && w.Kept.State != harness.Planned }) &&
		!slices.ContainsFunc(h.Elements, func(e harness.Element) bool { return e.Kept.State == harness.Built })
}

// withoutRecord gives the harness with nothing kept; all else is shared.
func withoutRecord(h *harness.Harness) *harness.Harness {
	out := *h
	out.Wires, out.Elements = slices.Clone(h.Wires), slices.Clone(h.Elements)
	for i := range out.Wires {
		out.Wires[i].Kept = harness.Kept{}
	}
	for i := range out.Elements {
		out.Elements[i].Kept = harness.KeptFuse{}
	}
	return &out
}

// asKept tells whether all sizes, colours and fuses are those of the record.
func asKept(h *harness.Harness, m *made) bool {
	if !agrees(h, m.colours) {
		return false
	}
	for i := range h.Wires {
		if w := &h.Wires[i]; !w.Gauge.Given() && !w.Existing && m.chosen.Wires[i].Gauge != w.Kept.Gauge {
			return false
		}
	}
	return !slices.ContainsFunc(m.chosen.Fuses, func(f chosen.Fuse) bool {
		k := h.Elements[f.Element].Kept
		return k.State != "" && (f.Rating != k.Rating || f.Body != k.Body)
	})
}
