package table

import (
	"math"
	"strings"

	"example.com/loomfolio/layout/typeface"
)

// number tells whether the cell is a single line beginning with a figure, perhaps after a sign.
func (c Cell) number() bool {
	s := strings.TrimLeft(c.S, "+-−±<>≤≥≈~ \u00a0")
	return s != "" && s[0] >= '0' && s[0] <= '9' && !strings.Contains(s, "\n")
}

// cut splits a number before its decimal point, or before what follows its figures:
// "1.25 A" gives "1" and ".25 A", "1 460" stays whole.
func cut(s string) (before, after string) {
	seen := false
	for i, r := range s {
		digit := r >= '0' && r <= '9'
		seen = seen || digit
		if !seen || digit {
			continue
		}
		if (r == ' ' || r == '\u00a0' || r == '\u202f' || r == '\u2009') && nextDigit(s[i:]) {
			continue // grouping of thousands
		}
		return s[:i], s[i:]
	}
	return s, ""
}

func nextDigit(s string) bool {
	rest := strings.TrimLeft(s, " \u00a0\u202f\u2009")
	return rest != "" && rest[0] >= '0' && rest[0] <= '9'
}

// decimals is the room that the numbers of a column need before and after their points.
func (t *Table) decimals(column int) (before, after float64) {
	for _, row := range t.Rows {
		c, span := row.at(column)
		if row.Kind == Group || span != 1 || !c.number() {
			continue
		}
		b, a := cut(c.S)
		face, size := c.face(row.Kind), t.size(c)
		before = math.Max(before, typeface.Width(b, face, size))
		after = math.Max(after, typeface.Width(a, face, size))
	}
	return before, after
}
