package explain

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
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

// groups are the headings under which parts are listed.
var groups = []struct {
	title string
	kinds []harness.Kind
}{
	{"supply", []harness.Kind{harness.Battery, harness.Alternator, harness.Isolator, harness.Bus}},
	{"fuses", []harness.Kind{harness.Fuse, harness.FusePanel, harness.Breaker}},
	{"relays", []harness.Kind{harness.Relay, harness.Flasher}},
	{"switches", []harness.Kind{harness.Switch, harness.IgnitionSwitch}},
	{"grounds", []harness.Kind{harness.Ground}},
	{"splices", []harness.Kind{harness.Splice}},
	{"connectors", []harness.Kind{harness.Connector}},
	{"others", []harness.Kind{harness.Diode, harness.Resistor, harness.Capacitor, harness.Strap}},
}

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
	listed := map[harness.Kind]bool{}
	for _, g := range groups {
		var refs []string
		for _, k := range g.kinds {
			listed[k] = true
		}
		for i := range h.Parts {
			if slices.Contains(g.kinds, h.Parts[i].Kind) {
				refs = append(refs, h.Parts[i].Ref)
			}
		}
		x.names(g.title, refs)
	}
	var loads, positions []string
	for i := range h.Parts {
		if !listed[h.Parts[i].Kind] {
			loads = append(loads, h.Parts[i].Ref)
		}
	}
	for i := range h.Elements {
		if e := &h.Elements[i]; e.Kind == harness.FuseLink && e.Position != "" {
			positions = append(positions, e.Name)
		}
	}
	x.names("loads", loads)
	x.names("positions", positions)
}

func (x *explainer) names(title string, names []string) {
	if len(names) > 0 {
		x.line(title, "%s", strings.Join(names, " "))
	}
}
