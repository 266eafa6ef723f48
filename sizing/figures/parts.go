package figures

import (
	"example.com/loomfolio/sizing/describe/tidy"
	"example.com/loomfolio/sizing/harness"
)

// partList lists the parts as the description has them, so that a description can be made
// of this list and that of the wires.
func (f *filler) partList() {
	says := map[string]string{}
	if f.h.File != nil {
		says = tidy.PartKeys(f.h.File.Text, "kind", "name", "at", "part-number", "notes", "along")
	}
	for _, p := range f.h.Parts {
		out := Part{ID: p.Ref, Kind: string(p.Kind), Number: p.PartNumber, Notes: p.Notes, Says: says[p.Ref]}
		if p.Name != p.Ref {
			out.Name = p.Name
		}
		if p.Place != harness.None {
			out.Place = f.h.Places[p.Place].Key
		}
		f.d.Parts = append(f.d.Parts, out)
	}
}
