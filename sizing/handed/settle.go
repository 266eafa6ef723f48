package handed

import (
	"errors"
	"slices"
	"sort"

	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/describe/tidy"
	"example.com/loomfolio/sizing/source"
)

// settle writes the description and takes out of it what its reader refuses, with the
// reader's words, until nothing is refused.
func (m *maker) settle() ([]byte, error) {
	const rounds = 30
	for range rounds {
		d := m.draft()
		text := d.text()
		if len(text) > read.MostBytes {
			return nil, errors.New("the description would have more than 1 MB: hand the table over in pieces")
		}
		_, ps := describe.Parse("", text)
		if !ps.HasErrors() {
			return tidy.Text("", text)
		}
		if !m.mend(d, ps) {
			return nil, errors.New("the description that the tables make is refused: " + ps[0].Summary)
		}
	}
	return nil, errors.New("the tables hold more than can be mended")
}

// mend takes out what the lines with errors come of: of a part first its other keys and
// its name, then all that ends on it. ok is false where a line comes of nothing.
func (m *maker) mend(d *draft, ps source.Problems) (ok bool) {
	mended := map[int]bool{}
	for _, p := range ps {
		n := p.Span.Start.Line
		if p.Level != source.Error || mended[n] {
			continue
		}
		mended[n] = true
		if n < 1 || n > len(d.lines) {
			continue
		}
		switch l := d.lines[n-1]; {
		case l.part != nil && m.strip(l.part, p.Summary):
			ok = true
		case l.part != nil:
			m.drop(l.part.rows, p.Summary)
			m.forget(l.part, p.Summary)
			ok = true
		case l.of != nil:
			m.clear(l, p.Summary)
			ok = true
		case len(l.rows) > 0:
			m.drop(l.rows, p.Summary)
			ok = true
		case m.in.Name != plainTitle:
			m.in.Name, ok = plainTitle, true
		}
	}
	return ok
}

// plainTitle is the title where the given one is refused.
const plainTitle = "Loom"

// strip takes from a part what it may be without; false where nothing is left to take.
func (m *maker) strip(p *part, why string) bool {
	if p.row == 0 || p.says+p.name+p.notes+p.number+p.draws+p.rating+p.place == "" {
		return false
	}
	taken := ""
	switch {
	case p.says != "":
		taken, p.says, p.tabled = p.says, "", ""
	default:
		for _, f := range []*string{&p.name, &p.notes, &p.number, &p.draws, &p.rating, &p.place} {
			if *f != "" {
				taken += " " + *f
			}
			*f = ""
		}
	}
	m.left = append(m.left, Left{Table: m.in.PartsTable, Row: p.row, Cell: taken, Why: why})
	return true
}

// clear takes from a circuit what its wires say of it.
func (m *maker) clear(l line, why string) {
	for i := range m.wires {
		if w := &m.wires[i]; slices.Contains(l.rows, w.row) {
			if cell := *l.of(w); cell != "" {
				m.cannot(w.row, m.titles[l.key], cell, why)
			}
			*l.of(w) = none
		}
	}
}

// drop leaves wires out.
func (m *maker) drop(rows []int, why string) {
	sort.Ints(rows)
	for _, r := range rows {
		if !m.dropped[r] {
			m.dropped[r] = true
			m.fates["wires"][r] = Skipped
			m.left = append(m.left, Left{Table: m.in.WiresTable, Row: r, Cell: m.cells[r], Why: why})
		}
	}
}

// forget leaves a part of the table out.
func (m *maker) forget(p *part, why string) {
	if p.row == 0 {
		return
	}
	m.fates["parts"][p.row] = Skipped
	m.left = append(m.left, Left{Table: m.in.PartsTable, Row: p.row, Cell: p.ref, Why: why})
	p.row = 0
}
