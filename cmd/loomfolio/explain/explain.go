// Package explain prints why a wire, fuse, load, relay, switch, ground, splice
// or connector is as it is: the figures, the rule that decided, why its
// neighbours were not taken, and the sources. In: the model, the results and a
// name. Out: plain text for a terminal, no line over 100 columns, lengths in
// the units of the description's sheet.
package explain

import (
	"fmt"
	"io"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
)

// Explain writes what is known of a wire, part, load or panel position. An
// unknown name is an error that offers the nearest one.
func Explain(w io.Writer, h *harness.Harness, r *result.Result, name string) error {
	x := &explainer{w: w, h: h, r: r, printed: map[string]bool{}}
	if !x.wire(name) && !x.part(name) && !x.element(name) {
		near := source.Nearest(name, Names(h))
		if near != "" {
			return fmt.Errorf("nothing is called %q; did you mean %s?", name, near)
		}
		return fmt.Errorf("nothing is called %q; explain with the file alone lists every name", name)
	}
	x.findings(name)
	x.printSources()
	return nil
}

type explainer struct {
	w       io.Writer
	h       *harness.Harness
	r       *result.Result
	cited   []citation
	printed map[string]bool
}

// findings prints those that speak of the name, and then those that were accepted.
func (x *explainer) findings(name string) {
	for _, p := range x.r.Findings {
		if slices.Contains(p.Subjects, name) {
			x.line(p.Level.String(), "%s. %s", p.Summary, capital(p.Detail))
		}
	}
	for _, p := range x.r.Accepted {
		if slices.Contains(p.Subjects, name) {
			x.line("accepted", "%s, because %s", p.Summary, p.Because)
		}
	}
}

func (x *explainer) part(name string) bool {
	for i := range x.h.Parts {
		p := &x.h.Parts[i]
		if p.Ref != name {
			continue
		}
		fmt.Fprintf(x.w, "%s: %s (%s)%s\n", p.Ref, p.Name, p.Kind, x.where(p))
		x.fuses(p)
		for _, l := range x.r.Loads {
			if x.h.Elements[l.Element].Part == p.ID {
				x.load(l)
			}
		}
		x.coils(p)
		x.contacts(p)
		x.ground(p)
		x.body(p)
		x.splice(p)
		x.cavities(p)
		x.ends(p)
		x.unknown(p)
		x.states(p)
		return true
	}
	return false
}

// element explains one fuse, load or contact of a part by its own name.
func (x *explainer) element(name string) bool {
	for i := range x.h.Elements {
		e := &x.h.Elements[i]
		if e.Name != name || !explained(e) {
			continue
		}
		p := &x.h.Parts[e.Part]
		fmt.Fprintf(x.w, "%s, of %s: %s (%s)%s\n", e.Name, p.Ref, p.Name, p.Kind, x.where(p))
		for _, f := range x.r.Fuses {
			if f.Element == e.ID {
				x.fuse(f)
			}
		}
		for _, l := range x.r.Loads {
			if l.Element == e.ID {
				x.load(l)
			}
		}
		for _, c := range x.r.Contacts {
			if c.Element == e.ID {
				x.contact(c)
			}
		}
		if e.Kind == harness.RelayCoil {
			x.coil(e)
		}
		x.grid(x.stateRows([]harness.ElementID{e.ID}, []harness.TerminalID{e.A, e.B}))
		return true
	}
	return false
}

func explained(e *harness.Element) bool {
	switch e.Kind {
	case harness.FuseLink, harness.Load, harness.Contact, harness.RelayCoil:
		return true
	}
	return false
}

func (x *explainer) where(p *harness.Part) string {
	if p.Place == harness.None {
		return ""
	}
	place := x.h.Places[p.Place]
	return fmt.Sprintf(", at %s (%s)", place.Name, x.celsius(place.Ambient))
}
