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

// most is how many things of one kind a line names; of more it says how many there are besides.
const most = 5

// some joins as many of the words as a line names.
func some(words []string) string {
	if len(words) > most {
		return strings.Join(words[:most], ", ") + fmt.Sprintf(" and %d more", len(words)-most)
	}
	return page.And(words)
}

// where is a part with its place: "Isolator (ISO), Battery shelf".
func where(a page.Ask, p *harness.Part) string {
	return page.List(", ", a.Named(p), page.PlaceOf(a, p))
}

// power says how everything is made dead: by the isolators, the battery's lead, the main fuses.
func power(a page.Ask) []string {
	var out []string
	for _, p := range ofKind(a, harness.Isolator) {
		out = append(out, "Isolator: "+where(a, p)+": turn it off")
	}
	if len(out) > most {
		out = append(out[:most:most], fmt.Sprintf("and %d more isolators", len(out)-most))
	}
	lead := "No isolator: take the " + caution.LastOn(a.H) + " lead off the battery"
	if len(out) > 0 {
		lead = "If it cannot be turned: the " + caution.LastOn(a.H) + " lead off the battery"
	}
	out = append(out, lead)
	var batteries []string
	for _, p := range ofKind(a, harness.Battery) {
		batteries = append(batteries, where(a, p))
	}
	if len(batteries) > 0 {
		out = append(out, plural(len(batteries), "Battery", "Batteries")+": "+some(batteries))
	}
	if mains := mainFuses(a); len(mains) > 0 {
		out = append(out, plural(len(mains), "Main fuse", "Main fuses")+": "+some(mains))
	}
	return out
}

func plural(n int, one, several string) string {
	if n == 1 {
		return one
	}
	return several
}

func ofKind(a page.Ask, k harness.Kind) []*harness.Part {
	var out []*harness.Part
	for i := range a.H.Parts {
		if p := &a.H.Parts[i]; p.Kind == k {
			out = append(out, p)
		}
	}
	return out
}

// mainFuses are those with no fuse before them: one of their wires is guarded by none.
func mainFuses(a page.Ask) []string {
	var out []string
	for _, f := range a.R.Fuses {
		p := a.Part(f.Part)
		if p == nil || p.Panel != nil || !unguarded(a, p) {
			continue
		}
		out = append(out, page.List(", ", f.Name+" "+rated(f), page.PlaceOf(a, p)))
	}
	return out
}

func unguarded(a page.Ask, p *harness.Part) bool {
	return slices.ContainsFunc(p.Terminals, func(t harness.TerminalID) bool {
		return slices.ContainsFunc(a.WiresOn(t), func(w harness.WireID) bool { return a.R.Wires[w].ProtectedBy == "" })
	})
}

func rated(f chosen.Fuse) string {
	if f.Rating <= 0 {
		return body(f)
	}
	return page.Firm(f.Rating.String() + " " + body(f))
}

// live names what stays live with one fuse out, what gives current beside the first battery, and
// the studs with no fuse before them.
func live(a page.Ask) []string {
	var out []string
	for _, t := range a.FedTwice() {
		out = append(out, "Fed from two places: take out "+page.And(t.Fuses)+" before work there")
	}
	sources := a.Sources()
	for i, id := range sources {
		if p := a.Part(id); i > 0 {
			out = append(out, where(a, p)+" gives current by itself")
		}
	}
	if len(out) > most {
		out = append(out[:most:most], fmt.Sprintf("and %d more", len(out)-most))
	}
	var studs []string
	for _, t := range a.LiveStuds() {
		full, _ := a.Stop(t)
		studs = append(studs, full)
	}
	if len(studs) > 0 {
		out = append(out, "Live with no fuse before: "+some(studs))
	}
	return out
}

// battery says how the battery comes off and how it is helped by another; common practice, no source.
func battery(a page.Ask) []string {
	lead := caution.LastOn(a.H)
	volts := page.Firm(page.Trimmed(math.Round(float64(a.H.System.Volts)*10)/10, 1) + " V")
	first, last, black := "plus to plus (red)", "the helping battery's minus", "minus (black)"
	if a.H.System.PositiveEarth {
		first, last, black = "minus to minus (black)", "the helping battery's plus", "plus (red)"
	}
	end := "bare metal of this engine, away from the battery"
	if a.H.System.WiredReturn {
		end = "the far end of the flat battery's own " + black + " lead"
	}
	return []string{
		"Off: all switches off, " + lead + " lead first. On: that lead last.",
		"Jump start from " + volts + " only. All off, vehicles not touching.",
		"First " + first + ", the flat battery before the helping one.",
		"Then " + last + ", and last " + end + ".",
		"Start; take the leads off in reverse order.",
	}
}
