package power

import (
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
)

// thick lists the cables that small loads make thick, with what a higher limit would save; wires
// of which the same is said share a row.
func thick(a page.Ask, s *page.Book) {
	t := thickTable(a)
	if len(t.Rows) == 0 {
		return
	}
	s.Head2("What makes cables thick", "Each of these is so thick for loads that are small beside the rest. A class with a wider limit (practice: drop) for their circuits, or a thicker wire of their own, would let it be thinner.", 16)
	s.Table(t)
}

func thickTable(a page.Ask) *table.Table {
	together := strings.NewReplacer(" %", page.NoBreak+"%", " mm", page.NoBreak+"mm", " A", page.NoBreak+"A")
	t := &table.Table{Columns: []table.Column{{Title: "Wires", Weight: 1}, {Title: "Size"}, {Title: "Carries", Weight: 2}, {Title: "A higher limit", Weight: 3}}}
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
			t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{{}, table.Text(page.Firm(c.Gauge.String())), table.Text(together.Replace(c.Loads)), table.Text(together.Replace(page.Sentence(c.Saves)))}})
		}
		names[i] = append(names[i], a.H.Wires[w].Name)
	}
	for i := range t.Rows {
		t.Rows[i].Cells[0] = table.Strong(page.List(", ", names[i]...))
	}
	return t
}
