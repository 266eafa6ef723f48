package cutlist

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/cutlist/tradeoff"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/purchase"
)

// pairColumn is the least width of a column of pairs, mm.
const pairColumn = 49.0

// fewer tells whether reels are saved, so that only the pairs on the sleeve are listed.
func fewer(a page.Ask) bool { return a.R.Purchase.For == "few" || a.R.Purchase.For == "numbers" }

// numbered tells whether number sleeves tell all wires apart, so that no pairs are listed.
func numbered(a page.Ask) bool { return a.R.Purchase.For == "numbers" }

// pairsHead counts the pairs on the sleeve: "10 pairs at parts (3 of them by rule) and 15 in runs".
func pairsHead(a page.Ask) string {
	var parts, runs, ruleParts, ruleRuns int
	for _, p := range a.R.Purchase.Pairs {
		all, rule := &runs, &ruleRuns
		if p.Part != harness.None {
			all, rule = &parts, &ruleParts
		}
		*all++
		if p.ByRule {
			*rule++
		}
	}
	return tradeoff.Pairs(parts, ruleParts, runs, ruleRuns)
}

// pairTable lists the pairs that only their number sleeves tell apart, in the order in which they come; those by
// rule are told in a sentence.
func pairTable(a page.Ask) *table.Table {
	t := &table.Table{Tight: true, Columns: []table.Column{{Title: "Wire"}, {Title: "and"}, {Title: "Colours", Weight: 1}, {Title: "Meet at"}}}
	for _, p := range a.R.Purchase.Pairs {
		if !p.ByRule {
			t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{traceCell(a, p.A), traceCell(a, p.B), coloursOf(a, p), {S: meets(a, p)}}})
		}
	}
	return t
}

// coloursOf is the colour that a pair has in common, or both with how far they are apart.
func coloursOf(a page.Ask, p purchase.Pair) table.Cell {
	one, other := a.Pair(p.A), a.Pair(p.B)
	cell := briefly(one)
	if one != other {
		cell.S += fmt.Sprintf(", %s (%.1f)", other, p.Distance)
	}
	return cell
}

// meets is where a pair comes together: "X1", "run C".
func meets(a page.Ask, p purchase.Pair) string {
	if part := a.Part(p.Part); part != nil {
		return page.Firm(part.Ref)
	}
	return page.Firm("run " + page.Letter(p.Run))
}

// byRule names the pairs to which rules leave no choice.
func byRule(a page.Ask) string { return told(a, "Alike by rule: ", true) }

// onSleeve names the pairs that only their number sleeves tell apart, where they have no list.
func onSleeve(a page.Ask) string { return told(a, "Alike, so go by the number sleeve: ", false) }

// told names pairs in a sentence with where they meet, those by rule or the others; "" for none.
func told(a page.Ask, head string, rule bool) string {
	var out []string
	for _, p := range a.R.Purchase.Pairs {
		if p.ByRule == rule {
			out = append(out, page.Firm(a.H.Wires[p.A].Name+" and "+a.H.Wires[p.B].Name)+" ("+meets(a, p)+")")
		}
	}
	if len(out) == 0 {
		return ""
	}
	return head + strings.Join(out, ", ") + "."
}

// heldApart says of all other wires what their colours promise.
func heldApart(a page.Ask) string {
	text := fmt.Sprintf("Other wires that are held apart by colour differ by %d or more (CIEDE2000)", sleeved)
	if where := a.Where("sheet/shopping"); where != "" {
		text += "; which these are: " + where
	}
	return text + "."
}
