package page

import (
	"strings"

	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/unit"
)

// Bore is the least inside diameter to take, a dash where there is none; its column
// has the unit.
func Bore(mm unit.Millimetre, imperial bool) table.Cell {
	if mm == 0 {
		return table.Text("–")
	}
	text, _, _ := strings.Cut(strings.ReplaceAll(unit.BoreText(mm, imperial), " in", ""), " mm")
	return table.Text(text)
}
