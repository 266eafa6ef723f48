package guide

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// designations says what the terminal numbers of this harness stand for.
func designations(a page.Ask, s *page.Book) {
	used := numbered(a)
	if len(used) == 0 {
		return
	}
	t := &table.Table{Columns: []table.Column{{Title: "Terminal"}, {Title: "Stands for", Weight: 1}, {Title: "On", Weight: 0.6}}}
	for _, name := range slices.SortedFunc(maps.Keys(used), unit.Natural) {
		meaning, key := rating.Designation(name)
		cell := table.Text(meaning)
		for _, doc := range rating.SourcesOf([]string{key}) {
			if doc.Status == rating.FromMemory {
				cell.Note = string(doc.Status)
			}
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Strong(name), cell, table.Text(counted(used[name], mostUsers))}})
	}
	remark := "By DIN 72552, as published lists have it. A number belongs to a terminal, so a wire may begin at one and end at another; which side is live is for the diagram to say."
	if a.H.System.PositiveEarth {
		remark += " The standard speaks of negative ground: in this vehicle plus and minus change places."
	}
	s.Whole("Terminal numbers", remark, t)
}

// mostUsers is how many parts are named behind a terminal number.
const mostUsers = 4

// counted lists some words, and how many more there are.
func counted(words []string, most int) string {
	if len(words) <= most+1 {
		return strings.Join(words, ", ")
	}
	return strings.Join(words[:most], ", ") + " and " + strconv.Itoa(len(words)-most) + " more"
}

// numbered gathers the parts by the numbers of their terminals that DIN 72552 has.
func numbered(a page.Ask) map[string][]string {
	out := map[string][]string{}
	for i := range a.H.Parts {
		p := &a.H.Parts[i]
		if !standard(a.H, p) {
			continue
		}
		for _, t := range p.Terminals {
			name := a.H.Terminals[t].Name
			if meaning, _ := rating.Designation(name); meaning != "" && !single(name) {
				out[name] = append(out[name], p.Ref)
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
