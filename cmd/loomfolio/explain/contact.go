package explain

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// coils explains the coils of a relay.
func (x *explainer) coils(p *harness.Part) {
	for _, id := range p.Elements {
		if e := &x.h.Elements[id]; e.Kind == harness.RelayCoil {
			x.coil(e)
		}
	}
}

func (x *explainer) coil(e *harness.Element) {
	a, b := &x.h.Terminals[e.A], &x.h.Terminals[e.B]
	most, in := 0.0, ""
	plus := map[string]bool{}
	for i := range x.r.States {
		s := &x.r.States[i]
		amps := math.Abs(s.Amps[e.ID])
		if math.IsNaN(amps) || amps < 1e-3 {
			continue
		}
		if amps > most {
			most, in = amps, s.Name
		}
		if s.Volts[e.A] > s.Volts[e.B] {
			plus[a.Name] = true
		} else {
			plus[b.Name] = true
		}
	}
	x.line("coil "+a.Name+"-"+b.Name, "%s; closes from %s, opens below %s", e.Ohms, e.PullIn, e.DropOut)
	if most == 0 {
		x.line("", "no state energises it")
		return
	}
	x.line("", "%s at most, in %s; %s", amps(most), in, plusText(plus, a.Name, b.Name, x.h.Parts[e.Part].Suppression))
}

// plusText says which terminal of a coil is plus.
func plusText(plus map[string]bool, a, b, suppression string) string {
	text := "plus is on " + a
	switch {
	case plus[a] && plus[b]:
		text = "plus is now on " + a + ", now on " + b
	case plus[b]:
		text = "plus is on " + b
	}
	if suppression == "diode" {
		return text + "; the diode across it needs plus on 86"
	}
	return text
}

// contacts explains every pair of contacts that carries something, and names
// the others.
func (x *explainer) contacts(p *harness.Part) {
	if !switches(p.Kind) {
		return
	}
	var idle []string
	for _, c := range x.r.Contacts {
		if c.Part != p.ID {
			continue
		}
		if c.Amps < 1e-3 {
			idle = append(idle, c.Name)
			continue
		}
		x.contact(c)
	}
	if len(idle) > 0 {
		x.line("no current", "%s: in no state", strings.Join(idle, ", "))
	}
}

// switches tells a part whose contacts open and close; a connector's do not,
// and an alternator's stand for its regulator.
func switches(k harness.Kind) bool { return kind.RoleOf(k) == kind.Switches }

func (x *explainer) contact(c chosen.Contact) {
	p := &x.h.Parts[c.Part]
	rated := "no rating given"
	if c.Rating > 0 {
		rated = "rated " + c.Rating.String()
	}
	name := strings.TrimPrefix(c.Name, p.Ref+".")
	x.line("contact "+name, "%s at most, in %s; %s", c.Amps, orDash(c.State), rated)
	if len(c.Loads) == 0 {
		return
	}
	var loads []string
	for i, l := range c.Loads {
		if i == mostLoads && len(c.Loads) > mostLoads+1 {
			loads = append(loads, fmt.Sprintf("%d more", len(c.Loads)-i))
			break
		}
		loads = append(loads, x.switched(p, l))
	}
	if p.Kind == harness.Isolator {
		x.line("leads to", "%s", strings.Join(loads, ", "))
		return // it is not what turns them on
	}
	x.line("switches", "%s", strings.Join(loads, ", "))
	x.line("needs", "a rating of %s for what it switches in %s%s", c.Wants, c.WantsIn, verdict(c, p.Kind))
	x.cite("rating of contacts", "ac43-11-4")
}

// switched is a load behind a contact, with its factor where it is the contact
// that turns it on.
func (x *explainer) switched(p *harness.Part, l chosen.Switched) string {
	if p.Kind == harness.Isolator {
		return fmt.Sprintf("%s %s", l.Name, l.Amps)
	}
	return fmt.Sprintf("%s %s (%s ×%g)", l.Name, l.Amps, l.Kind, l.Factor)
}

// mostLoads of a contact are listed before the rest is counted.
const mostLoads = 8

// verdict compares the rating wanted with the one given. The table is written
// for switches: a relay's own data say what its contact makes.
func verdict(c chosen.Contact, kind harness.Kind) string {
	relay := kind == harness.Relay || kind == harness.Flasher
	switch {
	case c.Rating <= 0:
		return ""
	case c.Wants <= c.Rating*(1+1e-6):
		return ": met"
	case relay:
		return ": not met by the table for switches; see the relay's own data for this kind of load"
	}
	return ": not met"
}
