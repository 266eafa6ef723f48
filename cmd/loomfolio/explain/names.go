package explain

import (
	"fmt"
	"io"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// Names lists everything that can be asked for: wires, then parts, then what
// has a name of its own inside a part.
func Names(h *harness.Harness) []string {
	var names []string
	for _, w := range h.Wires {
		names = append(names, w.Name)
	}
	for _, p := range h.Parts {
		names = append(names, p.Ref)
	}
	for i := range h.Elements {
		if e := &h.Elements[i]; explained(e) && e.Name != h.Parts[e.Part].Ref {
			names = append(names, e.Name)
		}
	}
	return names
}

// groups are the headings under which parts are listed, loads last.
var groups = [...]string{"supply", "fuses", "relays", "switches", "grounds", "splices", "connectors", "others", "unknown"}

// List writes what can be explained, by group: the circuits' wires, the parts
// by kind (what draws current last), the positions of each fuse panel.
func List(w io.Writer, h *harness.Harness) {
	x := &explainer{w: w, h: h}
	fmt.Fprintf(w, "What can be explained in %s:\n", h.Info.Title)
	var wires []string
	for _, wire := range h.Wires {
		wires = append(wires, wire.Name)
	}
	x.names("wires", wires)
	parts := map[string][]string{}
	for i := range h.Parts {
		row, _ := kind.Of(h.Parts[i].Kind)
		parts[row.List] = append(parts[row.List], h.Parts[i].Ref)
	}
	for _, title := range groups {
		x.names(title, parts[title])
	}
	var positions []string
	for i := range h.Elements {
		if e := &h.Elements[i]; e.Kind == harness.FuseLink && e.Position != "" {
			positions = append(positions, e.Name)
		}
	}
	x.names("loads", parts["loads"])
	x.names("positions", positions)
}

func (x *explainer) names(title string, names []string) {
	if len(names) > 0 {
		x.line(title, "%s", strings.Join(names, " "))
	}
}
