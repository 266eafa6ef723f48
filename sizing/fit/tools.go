package fit

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// openBarrel fits a ring, spade or bullet that is rolled round its wire, with heat-shrink over
// it, where the shop has the tool for that and none for insulated ones; false elsewhere.
func (f *fitter) openBarrel(e *fitted.End, j joint.Joint, wire *chosen.Wire, c rating.Conductor) bool {
	has := f.h.Practice.Tools
	_, insulated := rating.ToolFor(has, "insulated", c.Area)
	_, rolled := rating.ToolFor(has, openBarrel, c.Area)
	if insulated || !rolled || j.Fitting == joint.ButtSplice {
		return false
	}
	e.Crimp, e.Size, e.Over = openBarrel, wire.Gauge.String(), wire.Diameter
	e.Reason = "the shop has no tool for insulated ones: one that is rolled round the wire, with heat-shrink over it, slid on before"
	e.Strip, _ = rating.Strip("barrel", c.Area)
	f.shrinkOver(e, max(barrelOver(c.Area), wire.Diameter), wire.Diameter, 2*e.Strip)
	return true
}

// makes is what a crimp counts as among tools.
func makes(crimp string) string {
	switch {
	case strings.HasSuffix(crimp, " insulated"):
		return "insulated"
	case crimp == fitted.Barrel:
		return "barrel"
	case crimp == openBarrel, crimp == "ferrule":
		return crimp
	case crimp == fitted.NoneFits, crimp == fitted.AsFound:
		return ""
	}
	return "lug"
}

// crimp is one crimp for which a tool is needed.
type crimp struct {
	at, makes, own string
	area           unit.SquareMillimetre
	span           source.Span
}

// tools counts the crimping tools that the build needs, and says once which crimps none of
// those that the shop has makes.
func (f *fitter) tools() {
	count := map[rating.Tool]int{}
	var missing []crimp
	own := map[string]int{}
	for _, c := range f.allCrimps() {
		t, ok := rating.ToolFor(f.h.Practice.Tools, c.makes, c.area)
		switch {
		case c.own != "":
			own[c.own]++
		case ok:
			t.Makes, t.From, t.To = "", 0, 0
			count[t]++
		default:
			missing = append(missing, c)
		}
	}
	for _, t := range rating.Tools() {
		t.Makes, t.From, t.To = "", 0, 0
		if n := count[t]; n > 0 {
			f.out.Tools = append(f.out.Tools, fitted.Tool{Word: t.Word, Name: t.Name, Crimps: n})
			delete(count, t)
		}
	}
	for _, name := range sortedKeys(own) {
		f.out.Tools = append(f.out.Tools, fitted.Tool{Name: name, Crimps: own[name]})
	}
	if len(f.h.Practice.Tools) > 0 && len(missing) > 0 {
		f.toolMissing(missing)
	}
}

func sortedKeys(m map[string]int) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// allCrimps lists the crimps of all ends, one for wires that share a fitting, and of splices.
func (f *fitter) allCrimps() []crimp {
	var out []crimp
	for _, e := range f.allEnds() {
		if what := makes(e.Crimp); what != "" && what != "barrel" && !e.Second {
			out = append(out, crimp{at: f.h.Terminals[e.Terminal].Full, makes: what, own: e.Tool, area: f.crimped(e), span: f.h.Wires[e.Wire].Span})
		}
	}
	for i := range f.out.Splices {
		if s := &f.out.Splices[i]; len(s.Wires) > 0 && s.Number == "" && !f.allOwn(s.Wires) {
			p := &f.h.Parts[s.Part]
			out = append(out, crimp{at: p.Ref, makes: "barrel", area: s.AreaSum, span: p.Span})
		}
	}
	return out
}

// toolMissing says which crimps are left without a tool.
func (f *fitter) toolMissing(missing []crimp) {
	var words, subjects, lacking []string
	for _, c := range missing {
		subjects = append(subjects, c.at)
		if name := toolName(c); !slices.Contains(lacking, name) {
			lacking = append(lacking, name)
			words = append(words, fmt.Sprintf("%s at %s (%s)", name, c.at, unit.AreaText(c.area, f.h.Sheet.Imperial)))
		}
	}
	f.problems = append(f.problems, source.Problem{
		Slug: "tool-missing", Level: source.Warning, Span: missing[0].span,
		Summary:  fmt.Sprintf("the shop's tools do not make %s: %s", unit.Counted(len(missing), "crimp"), strings.Join(words, ", ")),
		Detail:   "add the tool to tools:, have these made, or buy the wires with their ends on",
		Subjects: subjects, Gathers: true, Numbers: []source.Number{{Name: "crimps", Value: float64(len(missing))}},
	})
}

// toolName names the usual tool for a crimp, "no known tool" where none is listed.
func toolName(c crimp) string {
	if t, ok := rating.ToolFor(nil, c.makes, c.area); ok {
		return "a " + t.Name
	}
	return "a tool for " + c.makes + " crimps"
}
