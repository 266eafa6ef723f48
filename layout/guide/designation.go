package guide

import (
	"maps"
	"slices"
	"strconv"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// designations says what the terminal numbers of this harness stand for.
func designations(a page.Ask) []item {
	used := numbered(a)
	var out []item
	for _, name := range slices.SortedFunc(maps.Keys(used), unit.Natural) {
		meaning, key := rating.Designation(name)
		for _, doc := range rating.SourcesOf([]string{key}) {
			if doc.Status == rating.FromMemory {
				meaning += memorySign
			}
		}
		out = append(out, item{label: name, text: meaning, hang: 8, size: sheet.SizeNote, clear: 0.4})
	}
	return out
}

func designationRemark(a page.Ask) string {
	remark := "DIN 72552, by published lists (" + memorySign + " from memory), of terminals, not of wires."
	if a.H.System.PositiveEarth {
		remark += " The standard speaks of negative ground: in this vehicle plus and minus change places."
	}
	return remark
}

// numbered gathers the numbers of terminals that DIN 72552 has.
func numbered(a page.Ask) map[string]bool {
	out := map[string]bool{}
	for i := range a.H.Parts {
		p := &a.H.Parts[i]
		if !standard(a.H, p) {
			continue
		}
		for _, t := range p.Terminals {
			name := a.H.Terminals[t].Name
			if meaning, _ := rating.Designation(name); meaning != "" && !single(name) {
				out[name] = true
			}
		}
	}
	return out
}

// standard tells whether a part's terminals are named by DIN 72552: none is a
// number that it does not know, as the pins of a plug are.
func standard(h *harness.Harness, p *harness.Part) bool {
	switch p.Kind {
	case harness.Connector, harness.Bus, harness.Splice, harness.FusePanel, harness.Ground, harness.Battery:
		return false
	}
	for _, t := range p.Terminals {
		name := h.Terminals[t].Name
		if _, err := strconv.Atoi(name); err != nil {
			continue
		}
		if meaning, _ := rating.Designation(name); meaning == "" {
			return false
		}
	}
	return true
}

// single tells whether a name is one sign, which numbers and letters of other
// customs are too: the 1 and 2 of a switch, the L of an alternator.
func single(name string) bool { return len(name) == 1 }
