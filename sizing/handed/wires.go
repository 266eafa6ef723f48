package handed

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/handed/column"
	"example.com/loomfolio/sizing/handed/grid"
	"example.com/loomfolio/sizing/handed/spelt"
)

// wire is a row that is one.
type wire struct {
	row                            int
	name                           string
	from, to                       spelt.End
	circuit, number, called, class string
	gauge, colour, length          string
	insulation                     string
	fuse, amps                     string // the fuse's rating and the load's draw, where its row has them
	notes                          []string
}

// readWires reads the table of wires.
func (m *maker) readWires() error {
	name := m.in.WiresTable
	t, cols, head, err := m.grid("wires", name, m.in.Wires)
	if err != nil {
		return err
	}
	if _, ok := cols["from"]; !ok {
		return fmt.Errorf("%s: no column says where a wire comes from; name it: --map \"from=…,to=…\"", name)
	}
	if _, ok := cols["to"]; !ok {
		return fmt.Errorf("%s: no column says where a wire goes; name it: --map \"from=…,to=…\"", name)
	}
	m.titles = cols
	ours := head >= 0 && slices.Contains(t.Rows[head].Cells, "given_length")
	q := m.quantities(t, cols, head, ours)
	named := map[string]bool{}
	for i, row := range t.Rows {
		if m.idle("wires", row, i == head) {
			continue
		}
		m.cells[row.Number] = shown(row)
		if i < head {
			m.skips("wires", name, row, "it stands above the titles")
			continue
		}
		if why := lacking(cols, row); why != "" {
			m.skips("wires", name, row, why)
			continue
		}
		m.wires = append(m.wires, m.wire(row, cols, q, named))
		m.fates["wires"][row.Number] = Wire
	}
	m.told("wires", name)
	m.ends()
	return nil
}

// lacking says what a row has not that a wire needs.
func lacking(cols column.Columns, row grid.Row) string {
	from, to := spelt.EndOf(cols.Of("from", row), cols.Of("from-terminal", row)), spelt.EndOf(cols.Of("to", row), cols.Of("to-terminal", row))
	switch {
	case cols.Of("from", row) == "" && cols.Of("to", row) == "":
		return "neither end is there"
	case cols.Of("from", row) == "" || from.Part == "":
		return "where it comes from is not there"
	case cols.Of("to", row) == "" || to.Part == "":
		return "where it goes is not there"
	case grid.Fold(from.Part) == grid.Fold(to.Part) && from.Terminal == to.Terminal:
		return "both ends are the same"
	}
	return ""
}

// wire takes in a row.
func (m *maker) wire(row grid.Row, cols column.Columns, q quantities, named map[string]bool) wire {
	w := wire{row: row.Number, circuit: cols.Of("circuit", row), number: cols.Of("circuit-number", row), called: cols.Of("circuit-name", row), class: cols.Of("class", row)}
	w.from = spelt.EndOf(cols.Of("from", row), cols.Of("from-terminal", row))
	w.to = spelt.EndOf(cols.Of("to", row), cols.Of("to-terminal", row))
	w.name = cols.Of("wire", row)
	if named[grid.Fold(w.name)] && w.name != "" {
		m.cannot(row.Number, cols["wire"], w.name, "the name is taken by a wire above, and this one goes without")
		w.name = ""
	}
	named[grid.Fold(w.name)] = true
	w.gauge = m.quantity(row, cols, "gauge", func(cell string) (string, error) {
		if q.ours {
			return spelt.Gauge(cell, row.Cell(q.system), q.commas)
		}
		return spelt.Gauge(cell, q.size, q.commas)
	}, &w)
	w.length = m.quantity(row, cols, "length", q.length, &w)
	w.insulation = strings.ToLower(cols.Of("insulation", row))
	if w.insulation != "" && !known(w.insulation) {
		w.notes = append(w.notes, "insulation: "+cols.Of("insulation", row))
	}
	if w.class != "" && !slices.Contains(classes, w.class) {
		m.cannot(row.Number, cols["class"], w.class, "the built-in practice has no such class")
		w.class = ""
	}
	m.colour(row, cols, q, &w)
	w.fuse = q.current(cols.Of("fuse", row), cols["fuse"].Unit)
	if !q.ours { // there it is the current of the wire
		w.amps = q.current(cols.Of("amps", row), cols["amps"].Unit)
	}
	if note := cols.Of("notes", row); note != "" {
		w.notes = append(w.notes, note)
	}
	return w
}

// classes are those of the built-in practice: its limits for drops.
var classes = strings.Fields("default start sense charge control light")

// colour takes in the colour of a wire, in one column or two.
func (m *maker) colour(row grid.Row, cols column.Columns, q quantities, w *wire) {
	key, cell := "colour", cols.Of("colour", row)
	if base := cols.Of("base", row); base != "" {
		key, cell = "base", base
		if tracer := cols.Of("tracer", row); tracer != "" {
			cell += "/" + tracer
		}
	}
	if cell == "" || cell == "-" {
		return
	}
	letters, ok := q.colours.Read(cell)
	if !ok {
		m.cannot(row.Number, cols[key], cell, "this is no colour that is known")
		w.notes = append(w.notes, "colour: "+cell)
		return
	}
	w.colour = letters
}

// quantities says how a table's figures are read.
type quantities struct {
	ours    bool // a table of figures of our own
	system  int  // its column with the unit of sizes
	colours spelt.Colours
	size    string // the unit of sizes that name none
	commas  bool   // it has decimal commas
	length  func(string) (string, error)
}

// current gives a cell with the unit of its column, with a decimal point.
func (q quantities) current(cell, unit string) string {
	text, err := spelt.Pointed(cell, true)
	if err != nil || cell == "-" {
		return strings.Trim(cell, "-")
	}
	if spelt.Bare(cell) && unit != "" {
		text += " " + unit
	}
	return text
}

// quantity reads one that a column holds; what is none is listed, and noted beside the wire.
func (m *maker) quantity(row grid.Row, cols column.Columns, key string, parse func(string) (string, error), w *wire) string {
	cell := cols.Of(key, row)
	if cell == "" || cell == "-" {
		return ""
	}
	out, err := parse(cell)
	if err != nil {
		m.cannot(row.Number, cols[key], cell, strings.TrimSuffix(err.Error(), "."))
		w.notes = append(w.notes, key+": "+cell)
		return ""
	}
	return out
}

// quantities finds out how the figures of a table are written.
func (m *maker) quantities(t grid.Table, cols column.Columns, head int, ours bool) quantities {
	filled := func(key string) []string {
		var out []string
		for _, row := range t.Rows[head+1:] {
			if c := cols.Of(key, row); c != "" && c != "-" {
				out = append(out, c)
			}
		}
		return out
	}
	q := quantities{ours: ours}
	var set string
	q.colours, set = spelt.ColoursOf(append(filled("colour"), filled("base")...))
	if set != "" {
		m.say("colours are read by the %s letters", strings.ToUpper(set[:1])+set[1:])
	}
	commas := slices.ContainsFunc(append(filled("gauge"), filled("length")...), spelt.Comma)
	if commas {
		m.say("a comma in a figure is read as a decimal comma")
	}
	if ours {
		q.system = slices.Index(t.Rows[head].Cells, "system")
	}
	q.commas, q.size = commas, m.size(t, head, ours, filled("gauge"), cols["gauge"].Unit)
	far := cols["length"].Unit
	if far == "" && spelt.Millimetres(filled("length")) {
		far = "mm"
		m.say("lengths without a unit are read as mm")
	}
	q.length = func(cell string) (string, error) { return spelt.Length(cell, far, commas) }
	return q
}

func (m *maker) say(format string, args ...any) {
	m.said = append(m.said, m.in.WiresTable+": "+fmt.Sprintf(format, args...))
}

// size gives the unit of sizes that name none: that of our own table, of the title, or
// the one that all of them speak for.
func (m *maker) size(t grid.Table, head int, ours bool, cells []string, titled string) string {
	size := map[string]string{"mm2": "mm2", "awg": "awg", "ga": "awg"}[titled]
	if ours {
		size = ourSize(t, head)
	}
	if size == "" {
		if size = spelt.SizeOf(cells); size != "" {
			m.say("sizes without a unit are read as %s", map[string]string{"mm2": "mm²", "awg": "AWG"}[size])
		}
	}
	switch {
	case size == "awg" || size == "sae":
		m.system.gauge, m.system.imperial = size, ours
	case slices.ContainsFunc(cells, func(c string) bool { return strings.Contains(strings.ToLower(c), "awg") }):
		m.system.gauge = "awg"
	}
	return size
}

// ourSize gives the unit of sizes in our own table of figures.
func ourSize(t grid.Table, head int) string {
	at := slices.Index(t.Rows[head].Cells, "system")
	for _, row := range t.Rows[head+1:] {
		if s := row.Cell(at); s == "awg" || s == "sae" {
			return s
		}
	}
	return "mm2"
}
