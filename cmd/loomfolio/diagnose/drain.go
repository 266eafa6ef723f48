package diagnose

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// drain says, of a vehicle that shows nothing wrong at rest, how to look for what empties its
// battery: volts do not tell.
func (p *printer) drain() {
	for i := range p.r.Budgets {
		if b := &p.r.Budgets[i]; b.State == p.told.State && b.KeyOff {
			p.text("", "If the battery goes flat at rest, volts do not tell why. Its lead should carry %s in this state%s. If it carries more, pull one fuse after the other. If that changes nothing, it lies before the fuses: %s.", rest(b), through(b), strings.Join(p.before(), ", "))
			return
		}
	}
}

// rest is the current of all batteries at rest.
func rest(b *chosen.Budget) string {
	sum := unit.Ampere(0)
	for _, d := range b.Drains {
		sum += d.Amps
	}
	return sum.String()
}

// through says which fuses carry it.
func through(b *chosen.Budget) string {
	var out []string
	for _, d := range b.Drains {
		if d.Fuse != harness.None {
			out = append(out, fmt.Sprintf("%s through %s", d.Amps, d.Name))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return " (" + strings.Join(out, ", ") + ")"
}

// before is what no fuse parts from a battery's live side: wires, and the rectifiers of
// alternators.
func (p *printer) before() []string {
	var out []string
	for i, w := range p.r.Wires {
		x := p.h.Wires[i]
		if w.ProtectedBy == "" && (p.live(x.From) || p.live(x.To)) {
			out = append(out, "wire "+x.Name)
		}
	}
	for i := range p.h.Parts {
		if x := p.h.Parts[i]; x.Kind == harness.Alternator {
			out = append(out, "the rectifier of "+x.Ref)
		}
	}
	return append(out, "the battery itself")
}

// live tells whether a terminal is a battery's live post.
func (p *printer) live(t harness.TerminalID) bool {
	for i := range p.h.Elements {
		if e := &p.h.Elements[i]; e.Kind == harness.EMF && p.h.Live(e) == t {
			return true
		}
	}
	return false
}
