// Package column finds out which column of a table is which, by its titles.
package column

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/loomfolio/sizing/handed/grid"
)

// columnsCSV lists for each of our columns the titles that people give it, the likeliest
// first; common practice, no source.
//
//go:embed columns.csv
var columnsCSV string

// columnRows are its rows: table, our name, titles.
var columnRows = titlesOf(grid.Own(columnsCSV))

// titlesOf parts the titles of each row.
func titlesOf(rows [][]string) []columnRow {
	var out []columnRow
	for _, r := range rows {
		out = append(out, columnRow{r[0], r[1], strings.Split(r[2], "|")})
	}
	return out
}

type columnRow struct {
	table, key string
	titles     []string
}

// Keys gives our names of the columns of a table, wires or parts.
func Keys(table string) []string {
	var out []string
	for _, row := range columnRows {
		if row.table == table {
			out = append(out, row.key)
		}
	}
	return out
}

// Column is a column that was found.
type Column struct {
	Index int
	Title string
	Unit  string // that its title names, such as mm; "" for none
}

// Columns are those of a table, by our names.
type Columns map[string]Column

// Of gives what a row holds in one of our columns.
func (c Columns) Of(key string, row grid.Row) string {
	at, ok := c[key]
	if !ok {
		return ""
	}
	return unguarded(row.Cell(at.Index))
}

// unguarded takes off the apostrophe by which a spreadsheet is kept from reckoning.
func unguarded(cell string) string {
	if rest, ok := strings.CutPrefix(cell, "'"); ok && rest != "" {
		return rest
	}
	return cell
}

// Find finds the row of titles and which column is which. A given title, or a column's
// number, goes before all guesses; "-" says that there is none.
func Find(table string, t grid.Table, given map[string]string) (found Columns, head int, said []string) {
	const looked = 30 // rows in which the titles may stand
	head = -1
	for i, row := range t.Rows[:min(len(t.Rows), looked)] {
		if c := match(table, row, given); len(c) > max(len(found), 1) {
			found, head = c, i
		}
	}
	if found == nil {
		found = Columns{}
	}
	for key, title := range given {
		if n, err := strconv.Atoi(title); err == nil && n > 0 && n <= 1000 {
			found[key] = Column{Index: n - 1, Title: strconv.Itoa(n)}
			if c, ok := named(head, t, n-1); ok {
				found[key] = c
			}
		}
	}
	if head >= 0 {
		said = append(said, fmt.Sprintf("row %d has the titles", t.Rows[head].Number))
	}
	for _, key := range Keys(table) {
		if c, ok := found[key]; ok {
			said = append(said, fmt.Sprintf("column %d %q is read as %s", c.Index+1, c.Title, key))
		}
	}
	return found, head, append(said, unread(t, head, found)...)
}

// named gives a column with the title that stands over it.
func named(head int, t grid.Table, i int) (Column, bool) {
	if head < 0 {
		return Column{}, false
	}
	title := t.Rows[head].Cell(i)
	_, unit := unitOf(grid.Fold(title))
	return Column{Index: i, Title: title, Unit: unit}, title != ""
}

// unread names the columns that nothing is read from.
func unread(t grid.Table, head int, found Columns) []string {
	if head < 0 {
		return nil
	}
	var names []string
	for i, title := range t.Rows[head].Cells {
		taken := false
		for _, c := range found {
			taken = taken || c.Index == i
		}
		if !taken && title != "" {
			names = append(names, strconv.Quote(title))
		}
	}
	if len(names) == 0 {
		return nil
	}
	return []string{"not read: " + strings.Join(names, ", ")}
}

// match takes a row as titles.
func match(table string, row grid.Row, given map[string]string) Columns {
	out := Columns{}
	taken := map[int]bool{}
	take := func(key string, i int, unit string) {
		out[key] = Column{i, row.Cells[i], unit}
		taken[i] = true
	}
	for key, title := range given {
		for i, cell := range row.Cells {
			if _, unit := unitOf(grid.Fold(cell)); grid.Fold(cell) == grid.Fold(title) && cell != "" {
				take(key, i, unit)
			}
		}
	}
	names := make([]string, len(row.Cells))
	for i, cell := range row.Cells {
		names[i] = grid.Fold(cell)
	}
	for _, line := range columnRows {
		if _, ok := given[line.key]; ok || line.table != table {
			continue
		}
		best, at, unit := 1<<20, -1, ""
		for i, name := range names {
			if n, u := titled(name, line.titles); n < best && !taken[i] {
				best, at, unit = n, i, u
			}
		}
		if at >= 0 {
			take(line.key, at, unit)
		}
	}
	return out
}

// titled tells which of some titles a folded cell is, and the unit that it names; 1<<20 for none.
func titled(name string, titles []string) (n int, unit string) {
	if name == "" {
		return 1 << 20, ""
	}
	short, unit := unitOf(name)
	if i := slices.Index(titles, name); i >= 0 {
		return i, unit
	}
	if i := slices.Index(titles, short); i >= 0 {
		return i, unit
	}
	return 1 << 20, ""
}

var units = map[string]string{"mm2": "mm2", "qmm": "mm2", "awg": "awg", "ga": "ga", "mm": "mm", "cm": "cm", "m": "m", "in": "in", "inch": "in", "inches": "in",
	"ft": "ft", "feet": "ft", "a": "A", "amp": "A", "amps": "A", "w": "W", "watt": "W", "v": "V"}

// unitOf parts a folded title from the unit at its end.
func unitOf(name string) (short, unit string) {
	fields := strings.Fields(name)
	if n := len(fields); n > 0 {
		if u, ok := units[fields[n-1]]; ok {
			if n == 1 {
				return name, u
			}
			return strings.Join(fields[:n-1], " "), u
		}
	}
	return name, ""
}

// Mapping reads which column is which: "from=Von,to=Nach", or a table of two columns.
func Mapping(text string) (map[string]string, error) {
	out := map[string]string{}
	known := append(Keys("wires"), Keys("parts")...)
	for _, line := range strings.FieldsFunc(text, func(c rune) bool { return c == '\n' || c == '\r' }) {
		pieces := []string{line}
		if strings.Contains(line, "=") {
			pieces = strings.Split(line, ",")
		}
		for _, piece := range pieces {
			i := strings.IndexAny(piece, "=,;\t")
			if i < 0 {
				return nil, fmt.Errorf("%q does not say which column is which: write from=Von", strings.TrimSpace(piece))
			}
			ours, yours := strings.TrimSpace(piece[:i]), strings.Trim(strings.TrimSpace(piece[i+1:]), `"`)
			if !slices.Contains(known, ours) {
				return nil, fmt.Errorf("%q is none of our columns: %s", ours, strings.Join(Keys("wires"), ", "))
			}
			out[ours] = yours
		}
	}
	return out, nil
}
