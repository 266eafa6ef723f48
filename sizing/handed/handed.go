// Package handed makes a description out of tables that people hand over: a from-to list
// of wires and a list of parts, as a spreadsheet saves them. Bytes in; out come the text
// of a description to be completed, what was guessed, and what could not be understood.
// Every row is a wire in the description or in that list.
package handed

import (
	"errors"
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/handed/column"
	"example.com/loomfolio/sizing/handed/grid"
	"example.com/loomfolio/sizing/unit"
)

// Input is what is handed over. Either table may be missing.
type Input struct {
	Name       string // of the description, for its title
	Wires      []byte
	Parts      []byte
	Map        map[string]string // our column: the title of theirs, or its number
	WiresTable string            // names of the tables, for what is said
	PartsTable string
}

// Fate is what became of a row.
type Fate string

// The fates.
const (
	Wire    Fate = "wire"
	Part    Fate = "part"
	Titles  Fate = "titles"
	Empty   Fate = "empty"
	Total   Fate = "total"
	Skipped Fate = "not understood"
)

// Left is what could not be understood: a row, or one cell of it.
type Left struct {
	Table  string
	Row    int
	Column int    // from 1; 0 is the whole row
	Title  string // of the column
	Cell   string // what stands there; of a row all cells
	Why    string
}

func (l Left) String() string {
	at := fmt.Sprintf("%s, row %d", l.Table, l.Row)
	if l.Column > 0 {
		at += fmt.Sprintf(", column %d %q", l.Column, l.Title)
	}
	return fmt.Sprintf("%s: %s: %s", at, l.Why, l.Cell)
}

// Result is the description that was made.
type Result struct {
	Text  []byte
	Said  []string // what was guessed, a line each
	Left  []Left
	Wires int
	Parts int
	Fates map[string]map[int]Fate // by table, wires or parts, and row
}

// errNothing says that neither table is there.
var errNothing = errors.New("there is no table to read")

// maker makes a description of tables.
type maker struct {
	in         Input
	said       []string
	left       []Left
	dropped    map[int]bool // rows of wires that are left out for what they say
	wires      []wire
	parts      map[string]*part // by folded reference
	order      []*part
	places     map[string]string // as their first part writes them, by folded name
	fates      map[string]map[int]Fate
	titles     column.Columns // of the wires' table
	system     system
	cells      map[int]string // the rows of wires as they stand
	insulation string         // of most wires
}

// system is what the tables tell of the vehicle as a whole.
type system struct {
	gauge    string // mm2 awg sae
	imperial bool
}

// Describe makes a description. An error says that a table is not to be read at all: too
// big, or without columns that say where a wire comes from and where it goes.
func Describe(in Input) (Result, error) {
	if in.Wires == nil && in.Parts == nil {
		return Result{}, errNothing
	}
	m := &maker{in: in, parts: map[string]*part{}, dropped: map[int]bool{}, cells: map[int]string{},
		fates: map[string]map[int]Fate{"wires": {}, "parts": {}}}
	if in.Parts != nil {
		if err := m.readParts(); err != nil {
			return Result{}, err
		}
	}
	if in.Wires != nil {
		if err := m.readWires(); err != nil {
			return Result{}, err
		}
	}
	text, err := m.settle()
	if err != nil {
		return Result{}, err
	}
	res := Result{Text: text, Said: m.said, Left: m.left, Fates: m.fates}
	for _, w := range m.wires {
		if !m.dropped[w.row] {
			res.Wires++
		}
	}
	res.Parts = len(m.used())
	return res, nil
}

// grid reads a table and finds its columns.
func (m *maker) grid(table, name string, data []byte) (grid.Table, column.Columns, int, error) {
	t, err := grid.Read(data)
	if err != nil {
		return t, nil, 0, fmt.Errorf("%s: %w", name, err)
	}
	given := map[string]string{}
	for _, key := range column.Keys(table) {
		if title, ok := m.in.Map[key]; ok {
			given[key] = title
		}
	}
	cols, head, said := column.Find(table, t, given)
	for _, s := range append(t.Said, said...) {
		m.said = append(m.said, name+": "+s)
	}
	return t, cols, head, nil
}

// cannot notes a cell that is not understood.
func (m *maker) cannot(row int, c column.Column, cell, why string) {
	m.left = append(m.left, Left{Table: m.in.WiresTable, Row: row, Column: c.Index + 1, Title: c.Title, Cell: cell, Why: why})
}

// skips notes a row that is left out.
func (m *maker) skips(table, name string, row grid.Row, why string) {
	m.fates[table][row.Number] = Skipped
	m.left = append(m.left, Left{Table: name, Row: row.Number, Cell: shown(row), Why: why})
}

// shown gives a row as one line.
func shown(row grid.Row) string { return strings.Join(row.Cells, " | ") }

var totals = map[string]bool{"total": true, "totals": true, "sum": true, "summe": true, "gesamt": true, "gesamtsumme": true, "somme": true, "totale": true, "suma": true, "somma": true, "totaal": true, "som": true}

// idle tells of a row that it is none of the table: titles, empty, a total.
func (m *maker) idle(table string, row grid.Row, isHead bool) bool {
	switch {
	case isHead:
		m.fates[table][row.Number] = Titles
	case row.Empty():
		m.fates[table][row.Number] = Empty
	default:
		for _, c := range row.Cells {
			if c != "" {
				if totals[grid.Fold(c)] {
					m.fates[table][row.Number] = Total
					return true
				}
				break
			}
		}
		return false
	}
	return true
}

// told counts the rows that are none of a table.
func (m *maker) told(table, name string) {
	count := map[Fate]int{}
	for _, f := range m.fates[table] {
		count[f]++
	}
	if n := count[Empty]; n > 0 {
		m.said = append(m.said, name+": passed over: "+unit.Counted(n, "empty row"))
	}
	if n := count[Total]; n > 0 {
		m.said = append(m.said, name+": passed over: "+unit.Counted(n, "row")+" of totals")
	}
}
