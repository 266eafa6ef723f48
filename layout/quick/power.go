package quick

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
)

// some joins as many of the words as a sentence names; of more it says how many there are besides.
func (t teller) some(words []string) string {
	if n := t.names; len(words) > n {
		return strings.Join(words[:n], ", ") + fmt.Sprintf(" and %d more", len(words)-n)
	}
	return page.And(words)
}

// where is a part with its place: "Battery isolator ISO (Battery shelf)".
func (t teller) where(p *harness.Part) string {
	if t.brief {
		return page.List(" ", p.Ref, bracketed(page.PlaceOf(t.Ask, p)))
	}
	return page.List(" ", page.Called(p), p.Ref, bracketed(page.PlaceOf(t.Ask, p)))
}

func bracketed(s string) string {
	if s == "" {
		return ""
	}
	return "(" + s + ")"
}

// power says how everything is made dead: by the isolators, the battery's lead, the main fuses.
func (t teller) power() []string {
	var isolators, batteries []string
	for _, p := range t.ofKind(harness.Isolator) {
		isolators = append(isolators, t.where(p))
	}
	for _, p := range t.ofKind(harness.Battery) {
		batteries = append(batteries, t.where(p))
	}
	lead := "No isolator: take"
	var out []string
	if n := len(isolators); n > 0 {
		out = append(out, plural(n, "Isolator", "Isolators")+", turn off: "+t.some(isolators))
		lead = "Else take"
	}
	if n := len(batteries); n > 0 {
		out = append(out, lead+" the "+caution.LastOn(t.H)+" lead off "+t.some(batteries))
	}
	if mains := t.mainFuses(); len(mains) > 0 {
		out = append(out, plural(len(mains), "Main fuse", "Main fuses")+": "+t.some(mains))
	}
	return out
}

func plural(n int, one, several string) string {
	if n == 1 {
		return one
	}
	return several
}

func (t teller) ofKind(k harness.Kind) []*harness.Part {
	var out []*harness.Part
	for i := range t.H.Parts {
		if p := &t.H.Parts[i]; p.Kind == k {
			out = append(out, p)
		}
	}
	return out
}

// mainFuses are those with no fuse before them, one of whose wires is guarded by none, that make
// something dead: with one between two supplies out, all stays live.
func (t teller) mainFuses() []string {
	var out []string
	for i, f := range t.R.Fuses {
		p := t.Part(f.Part)
		if p == nil || p.Panel != nil || !t.unguarded(p) || t.R.Outages[i].Shared {
			continue
		}
		out = append(out, page.List(" ", f.Name, rated(f), bracketed(page.PlaceOf(t.Ask, p))))
	}
	return out
}

func (t teller) unguarded(p *harness.Part) bool {
	return slices.ContainsFunc(p.Terminals, func(at harness.TerminalID) bool {
		return slices.ContainsFunc(t.WiresOn(at), func(w harness.WireID) bool { return t.R.Wires[w].ProtectedBy == "" })
	})
}

func rated(f chosen.Fuse) string {
	if f.Rating <= 0 {
		return body(f)
	}
	return page.Firm(f.Rating.String() + " " + body(f))
}

// live names what stays live with one fuse out, what gives current beside the first battery, and
// the parts with a stud that is live with no fuse before it.
func (t teller) live() []string {
	var out []string
	for _, x := range t.FedTwice() {
		out = append(out, "Fed from two places: take out "+page.And(x.Fuses)+" before work there")
	}
	if n := t.names; len(out) > n {
		out = append(out[:n:n], fmt.Sprintf("and %d more", len(out)-n))
	}
	var sources []string
	for i, id := range t.Sources() {
		if i > 0 {
			sources = append(sources, t.where(t.Part(id)))
		}
	}
	if len(sources) > 0 {
		out = append(out, "By themselves give current too: "+t.some(sources))
	}
	var studs []string
	for _, at := range t.LiveStuds() {
		if name := t.H.PartOf(at).Ref; !slices.Contains(studs, name) {
			studs = append(studs, name)
		}
	}
	if len(studs) > 0 {
		out = append(out, "Live studs with no fuse before: "+t.some(studs))
	}
	return out
}

// battery says how the battery comes off and how it is helped by another; common practice, no source.
func (t teller) battery() []string {
	lead := caution.LastOn(t.H)
	volts := page.Firm(page.Trimmed(math.Round(float64(t.H.System.Volts)*10)/10, 1) + " V")
	first, last := "plus to plus", "the helping minus"
	if t.H.System.PositiveEarth {
		first, last = "minus to minus", "the helping plus"
	}
	end := "bare metal of this engine, off the battery"
	if t.H.System.WiredReturn {
		end = "the far end of the flat battery's return lead"
	}
	return []string{
		"Off: " + lead + " lead first. On: that lead last.",
		"Jump start from " + volts + " only, all off, vehicles apart.",
		"Lead 1: " + first + ", the flat battery first. Lead 2: " + last + ", then " + end + ".",
		"Start; take the leads off in reverse order.",
	}
}
