// Package cutlist lays out what is cut and bought: the wires with both their ends and the
// key of their fittings, the shopping list, and the list by which wires are told apart.
//
// In: page.Ask. Out: the pages of one kind of sheet, none when there is nothing to say. It
// holds that every wire has one row with both its ends, that what a fitting and a size of
// wire decide stands once, in the key, and that nothing is computed here beyond sums and
// counts. Anchors set here: sheet/wires, sheet/shopping, sheet/tracing, wire/NAME.
package cutlist

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Wires is one line a wire with both its ends in the order of cutting, then the key of the
// fittings with the pull test, and the work at an end.
func Wires(a page.Ask) []frame.Page {
	if len(a.R.Reels)+len(a.R.Cables) == 0 {
		return ownAlone(a)
	}
	b := page.Open(a.Upright(), "Wires and their ends", "sheet/wires", "In order of cutting: size, insulation, colour, the longest first. "+signs(a))
	p := planned(a)
	b.Table(wireTable(a, p))
	b.Remark(wireRules(a))
	own(a, b)
	if t := planTable(a, p); len(t.Rows) > 0 {
		b.Head("Which length each wire is cut from", 20)
		b.Table(t)
	}
	key(a, b)
	if len(a.R.Stacks) > 0 {
		b.Head2("Studs with several rings", "Torques are dry, and each is for the material and place under it alone: what the part's own sheet says goes first.", 20)
		b.Table(stackTable(a))
	}
	b.Head2("At every end, in this order", "Where no source stands: common practice, no source.", 50)
	b.Spread(workTable(a.H.Sheet.Imperial), 2, 30)
	return b.Close()
}

// wireRules is what holds for all rows.
func wireRules(a page.Ask) string {
	return page.List(" ", "Current flows from A to B.", markerRule(a), givenRule(a), spliceRule(a), builtRule(a), tracingRule(a), customRule(a))
}

// customRule says which colours a convention gave, and for what.
func customRule(a page.Ask) string {
	var titles []string
	wires := map[string][]string{}
	tasks := map[string][]string{}
	for id, c := range a.R.Colours {
		if c.By == "" {
			continue
		}
		key := c.By + "\n" + c.Task
		if len(wires[key]) == 0 {
			if len(tasks[c.By]) == 0 {
				titles = append(titles, c.By)
			}
			tasks[c.By] = append(tasks[c.By], c.Task)
		}
		wires[key] = append(wires[key], a.H.Wires[id].Name)
	}
	var out []string
	for _, title := range titles {
		var said []string
		for _, task := range tasks[title] {
			said = append(said, task+" "+page.Firm(strings.Join(wires[title+"\n"+task], ", ")))
		}
		out = append(out, "Colours by "+title+": "+strings.Join(said, "; ")+".")
	}
	return strings.Join(out, " ")
}

// spliceRule says where the barrels are that wires end in.
func spliceRule(a page.Ask) string {
	where := a.Where("sheet/splices")
	if where == "" || !anyEnd(a, func(e *fitted.End) bool { return e.Crimp == fitted.Barrel }) {
		return ""
	}
	return "Barrels, with all the wires in each: " + where + "."
}

// markerRule says what the markers of a wire read, on the first end to be cut.
func markerRule(a page.Ask) string {
	id := fitted.Order(a.H, a.R.Reels)[0]
	if label := a.R.Ends[id][0].Label; label != "" {
		return "A marker reads: wire, this end → the other end, so first " + strings.ReplaceAll(label, "  ", " ") + "."
	}
	return ""
}

// givenRule says what lengths hold, and which are cut as written.
func givenRule(a page.Ask) string {
	for _, way := range a.R.Ways {
		if way.Given {
			return "A length marked " + given + " is cut as written, regardless of route; other lengths include route, tails and slack."
		}
	}
	return "Lengths include route, tails and slack."
}

// builtRule says what the word in place of a box to tick means, where there is one.
func builtRule(a page.Ask) string {
	n := 0
	for i := range a.H.Wires {
		if a.R.KeptWire(harness.WireID(i)) == harness.Built {
			n++
		}
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("%d of %d are marked built: they are in the vehicle, and neither cut again nor bought.", n, len(a.H.Wires))
}

// cutSums is what is cut of some reels.
func cutSums(reels []fitted.Reel, imperial bool) string {
	sum := page.Total(reels)
	built := ""
	if sum.Built > 0 {
		built = fmt.Sprintf("%d built", sum.Built)
	}
	return page.List(", ", page.Counted(len(sum.Wires), "wire"), built, page.Metres(sum.Need, imperial)+" cut")
}

func copper(g unit.Gram) string { return page.Firm(g.String()) + " copper" }

func pairOf(r fitted.Reel) colour.Pair { return colour.Pair{Base: r.Base, Tracer: r.Tracer} }
