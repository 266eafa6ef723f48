package power

import (
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
)

// thick lists the cables that small loads make thick, with what a higher limit would save; wires
// of which the same is said share a row.
func thick(s *page.Book, t *table.Table) {
	if len(t.Rows) == 0 {
		return
	}
	s.Head2("What makes cables thick", "Each is so thick for loads that are small beside the rest. A class with a wider limit (practice: drop) for their circuits, or a thicker wire of their own, would let it be thinner.", 16)
	s.Table(t)
}

func thickTable(a page.Ask) *table.Table {
	together := strings.NewReplacer(" %", page.NoBreak+"%", " mm", page.NoBreak+"mm", " A", page.NoBreak+"A")
	t := &table.Table{Tight: true, Columns: []table.Column{{Title: "Wires", Min: 14, Max: 24}, {Title: "Carries; a higher limit", Weight: 1}}}
	row := map[string]int{}
	var names [][]string
	for w := range a.R.Wires {
		c := &a.R.Wires[w]
		if c.Saves == "" {
			continue
		}
		i, ok := row[c.Saves]
		if !ok {
			i = len(names)
			row[c.Saves] = i
			names = append(names, nil)
			t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{{Note: page.Firm(c.Gauge.String())}, {Note: together.Replace(page.Sentence(c.Loads) + " " + page.Sentence(c.Saves))}}})
		}
		names[i] = append(names[i], a.H.Wires[w].Name)
	}
	for i := range t.Rows {
		t.Rows[i].Cells[0].S, t.Rows[i].Cells[0].Bold = page.List(", ", names[i]...), true
	}
	return t
}
