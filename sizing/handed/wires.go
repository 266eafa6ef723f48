package handed

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"example.com/loomfolio/sizing/handed/grid"
	"example.com/loomfolio/sizing/unit"
)

// wire is a row that is one.
type wire struct {
	row                            int
	name                           string
	from, to                       end
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
func lacking(cols columns, row grid.Row) string {
	from, to := endOf(cols.of("from", row), cols.of("from-terminal", row)), endOf(cols.of("to", row), cols.of("to-terminal", row))
	switch {
	case cols.of("from", row) == "" && cols.of("to", row) == "":
		return "neither end is there"
	case cols.of("from", row) == "" || from.part == "":
		return "where it comes from is not there"
	case cols.of("to", row) == "" || to.part == "":
		return "where it goes is not there"
	case fold(from.part) == fold(to.part) && from.terminal == to.terminal:
		return "both ends are the same"
	}
	return ""
}

// wire takes in a row.
func (m *maker) wire(row grid.Row, cols columns, q quantities, named map[string]bool) wire {
	w := wire{row: row.Number, circuit: cols.of("circuit", row), number: cols.of("circuit-number", row), called: cols.of("circuit-name", row), class: cols.of("class", row)}
	w.from = endOf(cols.of("from", row), cols.of("from-terminal", row))
	w.to = endOf(cols.of("to", row), cols.of("to-terminal", row))
	w.name = cols.of("wire", row)
	if named[fold(w.name)] && w.name != "" {
		m.cannot(row.Number, cols["wire"], w.name, "the name is taken by a wire above, and this one goes without")
		w.name = ""
	}
	named[fold(w.name)] = true
	w.gauge = m.quantity(row, cols, "gauge", q.gauge, &w)
	w.length = m.quantity(row, cols, "length", q.length, &w)
	w.insulation = strings.ToLower(cols.of("insulation", row))
	if w.insulation != "" && !known(w.insulation) {
		w.notes = append(w.notes, "insulation: "+cols.of("insulation", row))
	}
	if w.class != "" && !slices.Contains(classes, w.class) {
		m.cannot(row.Number, cols["class"], w.class, "the built-in practice has no such class")
		w.class = ""
	}
	m.colour(row, cols, q, &w)
	w.fuse = q.current(cols.of("fuse", row), cols["fuse"].unit)
	if !q.ours { // there it is the current of the wire
		w.amps = q.current(cols.of("amps", row), cols["amps"].unit)
	}
	if note := cols.of("notes", row); note != "" {
		w.notes = append(w.notes, note)
	}
	return w
}

// classes are those of the built-in practice: its limits for drops.
var classes = strings.Fields("default start sense charge control light")

// colour takes in the colour of a wire, in one column or two.
func (m *maker) colour(row grid.Row, cols columns, q quantities, w *wire) {
	key, cell := "colour", cols.of("colour", row)
	if base := cols.of("base", row); base != "" {
		key, cell = "base", base
		if tracer := cols.of("tracer", row); tracer != "" {
			cell += "/" + tracer
		}
	}
	if cell == "" || cell == "-" {
		return
	}
	letters, ok := q.colours.read(cell)
	if !ok {
		m.cannot(row.Number, cols[key], cell, "this is no colour that is known")
		w.notes = append(w.notes, "colour: "+cell)
		return
	}
	w.colour = letters
}

// quantities says how a table's figures are read.
type quantities struct {
	ours          bool // a table of figures of our own
	colours       reader
	gauge, length func(string) (string, error)
}

// current gives a cell with the unit of its column, with a decimal point.
func (q quantities) current(cell, unit string) string {
	text, err := pointed(cell, true)
	if err != nil || cell == "-" {
		return strings.Trim(cell, "-")
	}
	if bareNumber.MatchString(cell) && unit != "" {
		text += " " + unit
	}
	return text
}

var (
	bareNumber = regexp.MustCompile(`^[0-9]+([.,][0-9]+)?$`)
	comma      = regexp.MustCompile(`([0-9]),([0-9])`)
)

// quantity reads one that a column holds; what is none is listed, and noted beside the wire.
func (m *maker) quantity(row grid.Row, cols columns, key string, parse func(string) (string, error), w *wire) string {
	cell := cols.of(key, row)
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
func (m *maker) quantities(t grid.Table, cols columns, head int, ours bool) quantities {
	column := func(key string) []string {
		var out []string
		for _, row := range t.Rows[head+1:] {
			if c := cols.of(key, row); c != "" && c != "-" {
				out = append(out, c)
			}
		}
		return out
	}
	q := quantities{ours: ours}
	var set string
	q.colours, set = readerOf(append(column("colour"), column("base")...))
	if set != sets[0] {
		m.say("colours are read by the %s letters", strings.ToUpper(set[:1])+set[1:])
	}
	commas := slices.ContainsFunc(append(column("gauge"), column("length")...), comma.MatchString)
	if commas {
		m.say("a comma in a figure is read as a decimal comma")
	}
	size := m.sizeUnit(column("gauge"), cols["gauge"].unit)
	if ours {
		size = m.ourSize(t, head)
	}
	q.gauge = func(cell string) (string, error) { return gaugeOf(cell, size, commas) }
	far := m.farUnit(column("length"), cols["length"].unit)
	q.length = func(cell string) (string, error) { return lengthOf(cell, far, commas) }
	return q
}

func (m *maker) say(format string, args ...any) {
	m.said = append(m.said, m.in.WiresTable+": "+fmt.Sprintf(format, args...))
}

// ourSize gives the unit of sizes in our own table of figures.
func (m *maker) ourSize(t grid.Table, head int) string {
	at := slices.Index(t.Rows[head].Cells, "system")
	for _, row := range t.Rows[head+1:] {
		switch s := row.Cell(at); s {
		case "awg", "sae":
			m.system.gauge, m.system.imperial = s, true
			return s
		}
	}
	return "mm2"
}

// sizeUnit is how a size without a unit is meant: by the title, else mm² where sizes have
// decimals, AWG where all are even from 8 on; else nothing, and each such size is listed.
func (m *maker) sizeUnit(cells []string, titled string) string {
	if titled == "ga" {
		titled = "awg"
	}
	if titled == "mm2" || titled == "awg" {
		return m.sized(titled)
	}
	bare, decimals, even := 0, false, true
	for _, c := range cells {
		if bareNumber.MatchString(c) {
			n, err := strconv.Atoi(c)
			bare, decimals = bare+1, decimals || err != nil
			even = even && err == nil && n >= 8 && n <= 30 && n%2 == 0
		}
		if strings.Contains(strings.ToLower(c), "awg") {
			m.system.gauge = "awg"
		}
	}
	switch {
	case bare == 0:
		return ""
	case decimals:
		m.say("sizes without a unit are read as mm²")
		return "mm2"
	case even && bare > 1 && slices.ContainsFunc(cells, func(c string) bool { return c == "12" || c == "14" || c == "18" || c == "20" }):
		m.say("sizes without a unit are read as AWG")
		return m.sized("awg")
	}
	return ""
}

func (m *maker) sized(size string) string {
	if size == "awg" {
		m.system.gauge = "awg"
	}
	return size
}

// gaugeOf gives a size as the format writes it.
func gaugeOf(cell, size string, commas bool) (string, error) {
	text, err := pointed(strings.ReplaceAll(cell, "²", "2"), commas)
	if err != nil {
		return "", err
	}
	system := unit.Metric
	if size == "sae" {
		system = unit.SAE
	} else if size == "awg" {
		system = unit.AWG
	}
	plainSize := bareNumber.MatchString(cell) || regexp.MustCompile(`^[0-9]+/0$`).MatchString(cell)
	switch {
	case plainSize && size == "":
		return "", fmt.Errorf("nothing says whether this is mm² or AWG")
	case plainSize && size == "sae":
		text += " ga"
	case plainSize:
		text += " " + size
	}
	_, err = unit.ParseGauge(text, system)
	return text, err
}

// farUnit is how a length without a unit is meant: by the title, else mm where all are
// 30 or more; else nothing.
func (m *maker) farUnit(cells []string, titled string) string {
	if titled != "" {
		return titled
	}
	bare, least := 0, 1e9
	for _, c := range cells {
		if bareNumber.MatchString(c) {
			v, _ := strconv.ParseFloat(strings.ReplaceAll(c, ",", "."), 64)
			bare, least = bare+1, min(least, v)
		}
	}
	if bare > 0 && least >= 30 {
		m.say("lengths without a unit are read as mm")
		return "mm"
	}
	return ""
}

// lengthOf gives a length as the format writes it.
func lengthOf(cell, far string, commas bool) (string, error) {
	text, err := pointed(cell, commas)
	if err != nil {
		return "", err
	}
	if bareNumber.MatchString(cell) {
		if far == "" {
			return "", fmt.Errorf("nothing says in which unit this is")
		}
		text += " " + far
	}
	_, err = unit.ParseLength(text)
	return text, err
}

var thousands = regexp.MustCompile(`(^|[^0-9])[1-9][0-9]{0,2}([.,])[0-9]{3}($|[^0-9])`)

// pointed writes a decimal comma as a point. A figure that can be thousands as well, such
// as 1,250, is refused; so is 1.250 in a table with decimal commas.
func pointed(text string, commas bool) (string, error) {
	if f := thousands.FindStringSubmatch(text); f != nil && (f[2] == "," || commas) {
		return "", fmt.Errorf("this can be one and a part, or a thousand")
	}
	return comma.ReplaceAllString(text, "$1.$2"), nil
}
