package guide

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/colour/convention"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// designRules states the design rules of this harness.
func designRules(a page.Ask) []item { return entriesOf(ruleLines(a)) }

func ruleLines(a page.Ask) [][2]string {
	p := a.H.Practice
	method := map[string]string{
		"computed": "computed, wires together: least copper for drop, heat, protection, handling",
		"abyc-e11": "ABYC E-11, wire by wire: circular mils = 10.75 × amperes × feet ÷ volts allowed, copper at 20 °C",
		"ac43-13":  "FAA AC 43.13-1B, wire by wire: tables 11-6 and 11-9, copper at 20 °C",
	}[p.Method]
	current := map[string]string{
		"abyc":     "the table of ABYC E-11, with its factors for ambient and bundle",
		"computed": "heat balance of each wire in its run, its resistance when hot",
	}[p.Ampacity]
	switch p.Method {
	case "abyc-e11":
		current = "the table of ABYC E-11, with its factors for ambient and bundle"
	case "ac43-13":
		current = "FAA AC 43.13-1B table 11-9, large bundles at 70 °C"
	}
	smallest := "as listed"
	if p.Smallest.Given() {
		smallest = p.Smallest.String()
	}
	series := "one size along unbranched series and cranking cables"
	if p.Mixed {
		series = "wires in series may differ in size"
	}
	imperial := a.H.Sheet.Imperial
	return [][2]string{
		{"Insulation", insulationWords(p.Insulation)},
		{"Pull-out force", pullWords(p.Pull)},
		{"Allowed drop", dropWords(a)},
		{"Method", page.Or(method, p.Method)},
		{"Current rating", current},
		{"Smallest size", smallest + "; " + series},
		{"Fuse load", fmt.Sprintf("continuously at most %s; %s or more, stocked ratings first", p.FuseLoad, p.LeastFuse)},
		{"Length", fmt.Sprintf("run, tails, %s at each end, %s for dressing; rounded up to %s",
			unit.LengthText(p.EachEnd, imperial), p.Dress, unit.LengthText(p.RoundUp, imperial))},
		{"Colours", fmt.Sprintf("grounds %s, battery feeds %s%s%s", page.Or(p.GroundColour, "not fixed"), page.Or(p.FeedColour, "not fixed"), customs(a), repeated(a))},
		{"Twists, screens, cables", unitWords(a)},
	}
}

// customs names the conventions in force, in their order; "" for none.
func customs(a page.Ask) string {
	var titles []string
	for _, c := range a.H.Practice.Conventions {
		if set, ok := convention.Of(c.Set); ok {
			titles = append(titles, set.Title)
		} else {
			titles = append(titles, "own colours")
		}
	}
	if len(titles) == 0 {
		return ""
	}
	how := "; preferred: "
	if a.H.Practice.Insist {
		how = "; always: "
	}
	return how + strings.Join(titles, ", then ")
}

// repeated says that colours are used again where reels are saved; "" where they are not.
func repeated(a page.Ask) string {
	if !a.H.Practice.Buy.Fewest() {
		return ""
	}
	return "; repeated to save reels"
}

// unitWords says how twists and screens are made and what a cable's cores count as;
// "" where there are none.
func unitWords(a page.Ask) string {
	p, imperial := a.H.Practice, a.H.Sheet.Imperial
	var words []string
	has := func(test func(*harness.Unit) bool) bool {
		return slices.ContainsFunc(a.H.Units, func(u harness.Unit) bool { return test(&u) })
	}
	if has(func(u *harness.Unit) bool { return len(a.R.Units[u.ID].Twists) > 0 }) {
		lay := "a lay set by the thickest wire (FAA AC 43.13-1B, from memory)"
		if p.Lay > 0 {
			lay = "a lay of " + unit.LengthText(p.Lay, imperial)
		}
		words = append(words, "wires of a twist are cut to one length, with an allowance for "+lay)
	}
	if has(func(u *harness.Unit) bool { return u.HasScreen() }) {
		words = append(words, "a screen is grounded at one end alone (common practice, no source)")
	}
	if has(func(u *harness.Unit) bool { return u.Kind == harness.Cabled }) {
		words = append(words, "cores of a cable count as a bundle inside its sheath")
	}
	return strings.Join(words, "; ")
}

// dropWords lists the drop limit of each class, in volts too.
func dropWords(a page.Ask) string {
	used := map[string]bool{"default": true}
	for _, c := range a.H.Circuits {
		used[c.Class] = true
	}
	if a.H.Practice.Method == "ac43-13" {
		return "0.5 V at 14 V whatever the class (FAA AC 43.13-1B table 11-6), in proportion at other voltages; feed and return together"
	}
	var words []string
	for _, class := range slices.Sorted(maps.Keys(a.H.Practice.Drop)) {
		if !used[class] {
			continue
		}
		limit := a.H.Practice.Drop[class]
		text := class + " " + limit.String()
		if limit.Volts == 0 {
			text += " (" + dropVolts(a, limit) + ")"
		}
		words = append(words, text)
	}
	return strings.Join(words, "; ") + "; feed and return together"
}

// dropVolts is a share of the nominal voltage in volts, of each where there are several.
func dropVolts(a page.Ask, limit unit.DropLimit) string {
	var out []string
	for _, v := range a.H.Nominals() {
		text := page.Figure(float64(limit.Of(unit.Volt(v))), 2) + " V"
		if a.H.Mixed() {
			text += " of " + unit.Volt(v).String()
		}
		out = append(out, text)
	}
	return strings.Join(out, ", ")
}

func insulationWords(name string) string {
	if in, ok := rating.InsulationOf(name); ok {
		return fmt.Sprintf("%s, class %s", name, in.Class)
	}
	return name
}

func pullWords(list string) string {
	return map[string]string{
		"ul-486a": "UL 486A", "mil-t-7928": "MIL-T-7928", "abyc-e11": "ABYC E-11, for one minute", "nasa-8739": "NASA-STD-8739.4",
	}[list]
}
