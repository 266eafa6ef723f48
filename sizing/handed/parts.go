package handed

import (
	"fmt"
	"slices"
	"sort"
	"strconv"
	"strings"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/handed/column"
	"example.com/loomfolio/sizing/handed/grid"
	"example.com/loomfolio/sizing/handed/guess"
	"example.com/loomfolio/sizing/handed/spelt"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/unit"
)

// part is a part that a table names.
type part struct {
	ref, kind, name, place string
	draws, rating, number  string
	notes                  string
	says                   string // the rest of its keys, as the format writes them
	terminals              []string
	listed                 []string // of the terminals those that the table of parts has
	tabled                 string   // the kind that the table of parts has
	rows                   []int    // of wires
	row                    int      // of the table of parts, 0 for none
	remark                 string   // what there is to complete
}

// readParts reads the table of parts.
func (m *maker) readParts() error {
	name := m.in.PartsTable
	t, cols, head, err := m.grid("parts", name, m.in.Parts)
	if err != nil {
		return err
	}
	if _, ok := cols["ref"]; !ok {
		return fmt.Errorf("%s: no column says what a part is called; name it: --map \"ref=…\"", name)
	}
	for i, row := range t.Rows {
		if m.idle("parts", row, i == head) {
			continue
		}
		ref := spelt.Ref(cols.Of("ref", row))
		switch {
		case i < head:
			m.skips("parts", name, row, "it stands above the titles")
		case ref == "":
			m.skips("parts", name, row, "the part has no reference")
		case m.parts[read.Folded(ref)] != nil:
			m.skips("parts", name, row, "a part above has this reference")
		default:
			m.fates["parts"][row.Number] = Part
			m.add(m.fromTable(row, cols, ref))
		}
	}
	m.told("parts", name)
	return nil
}

// fromTable takes in a row of the table of parts.
func (m *maker) fromTable(row grid.Row, cols column.Columns, ref string) *part {
	p := &part{ref: ref, row: row.Number, name: cols.Of("name", row), place: cols.Of("place", row), number: cols.Of("part-number", row),
		notes: cols.Of("notes", row), says: cols.Of("says", row)}
	word := cols.Of("kind", row)
	p.kind = guess.Word(word)
	p.tabled = p.kind
	cannot := func(key, cell, why string) {
		c := cols[key]
		m.left = append(m.left, Left{m.in.PartsTable, row.Number, c.Index + 1, c.Title, cell, why})
	}
	if word != "" && p.kind == "" {
		cannot("kind", word, "this is no kind of part that is known")
	}
	for _, f := range []struct {
		key string
		to  *string
		ok  func(string) error
	}{
		{"draws", &p.draws, func(s string) error { _, err := unit.ParseDraw(s); return err }},
		{"rating", &p.rating, func(s string) error { _, err := unit.ParseAmpere(s); return err }},
	} {
		cell := cols.Of(f.key, row)
		if cell == "" || cell == "-" {
			continue
		}
		text, err := spelt.Pointed(cell, true)
		if spelt.Bare(cell) && cols[f.key].Unit != "" {
			text += " " + cols[f.key].Unit
		}
		if err == nil {
			err = f.ok(text)
		}
		if err != nil {
			cannot(f.key, cell, strings.TrimSuffix(err.Error(), "."))
			continue
		}
		*f.to = text
	}
	for _, t := range strings.FieldsFunc(cols.Of("terminals", row), func(c rune) bool { return strings.ContainsRune(",; |", c) }) {
		p.terminals = append(p.terminals, spelt.Sign(t))
	}
	p.listed = slices.Clone(p.terminals)
	if !closed(p.says) {
		cannot("says", p.says, "its brackets and quotes do not close each other")
		p.says = ""
	}
	return p
}

// closed tells of keys as the format writes them that they end what they open, and hold no comment.
func closed(says string) bool {
	open, quote, before := "", rune(0), ' '
	for _, c := range says {
		switch {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' && strings.ContainsRune(" :[{,", before):
			quote = c
		case c == '#' && before == ' ':
			return false
		case c == '[':
			open += "]"
		case c == '{':
			open += "}"
		case c == ']' || c == '}':
			if !strings.HasSuffix(open, string(c)) {
				return false
			}
			open = open[:len(open)-1]
		}
		before = c
	}
	return open == "" && quote == 0
}

func (m *maker) add(p *part) {
	m.parts[read.Folded(p.ref)] = p
	m.order = append(m.order, p)
}

// ends makes a part of every end, and gives terminals to the ends that name none.
func (m *maker) ends() {
	for i := range m.wires {
		for _, e := range []*spelt.End{&m.wires[i].from, &m.wires[i].to} {
			p := m.parts[read.Folded(e.Part)]
			if p == nil {
				p = &part{ref: e.Part}
				m.add(p)
			}
			e.Part = p.ref
			p.rows = append(p.rows, m.wires[i].row)
			if e.Terminal != "" && !slices.Contains(p.terminals, e.Terminal) {
				p.terminals = append(p.terminals, e.Terminal)
			}
		}
	}
	for i := range m.wires {
		m.ratings(&m.wires[i])
	}
	for _, p := range m.order {
		m.settleKind(p)
	}
	m.placeEnds()
}

// ratings gives a fuse the rating and a load the draw that stand in the row of a wire
// which ends on it; what belongs to neither of the two ends is noted beside the wire.
func (m *maker) ratings(w *wire) {
	for _, f := range []struct {
		cell, what string
		column     string
		fits       func(kind.Row) bool
		ok         func(string) bool
		of         func(*part) *string
	}{
		{w.fuse, "fuse", "fuse", func(k kind.Row) bool { return k.Kind == harness.Fuse }, func(s string) bool { _, err := unit.ParseAmpere(s); return err == nil },
			func(p *part) *string { return &p.rating }},
		{w.amps, "load", "amps", func(k kind.Row) bool { return k.Inside == kind.Load }, func(s string) bool { _, err := unit.ParseDraw(s); return err == nil },
			func(p *part) *string { return &p.draws }},
	} {
		if f.cell == "" {
			continue
		}
		var at []*part
		for _, e := range []spelt.End{w.from, w.to} {
			p := m.parts[read.Folded(e.Part)]
			k := p.tabled
			if k == "" {
				k = guess.Kind(p.ref, p.name, p.terminals)
			}
			if row, known := kind.Of(harness.Kind(k)); known && f.fits(row) && p.says == "" {
				at = append(at, p)
			}
		}
		if len(at) != 1 || !f.ok(f.cell) || *f.of(at[0]) != "" && *f.of(at[0]) != f.cell {
			w.notes = append(w.notes, f.what+": "+f.cell)
			if len(at) == 1 {
				m.cannot(w.row, m.titles[f.column], f.cell, "it is none for "+at[0].ref+", or a row above says otherwise")
			}
			continue
		}
		*f.of(at[0]) = f.cell
	}
}

// settleKind says of a part what it is, as far as that is plain.
func (m *maker) settleKind(p *part) {
	p.kind, p.remark = p.tabled, ""
	if p.kind != "" && p.says != "" || p.kind == guess.Unknown {
		return
	}
	word := p.kind
	if word == "" {
		word = guess.Kind(p.ref, p.name, p.terminals)
	}
	p.kind = word
	if word == "" {
		p.kind, p.remark = guess.Unknown, "complete: what kind of part this is"
		return
	}
	row, _ := kind.Of(harness.Kind(word))
	if lacks := lacksOf(p, row); lacks != "" {
		p.kind, p.remark = guess.Unknown, "complete: kind: "+word+", "+lacks
	}
}

// lacksOf says what a part of a kind needs and the tables do not tell.
func lacksOf(p *part, row kind.Row) string {
	usual := strings.Fields(row.Terminals)
	if row.Kind == harness.Relay {
		usual = append(usual, "87a")
	}
	if row.Kind == harness.Bus || row.Kind == harness.Connector {
		usual = nil
	}
	for _, t := range p.terminals {
		if len(usual) > 0 && !slices.Contains(usual, t) {
			return "which has the terminals " + strings.Join(usual, ", ") + "; here are " + strings.Join(p.terminals, ", ")
		}
	}
	for _, key := range strings.Fields(row.Needs) {
		switch {
		case key == "draws" && p.draws != "", key == "cavities" && len(p.terminals) > 0, key == "output" && p.rating != "":
		case key == "positions" && len(p.terminals) == 2:
		default:
			return key + ": …"
		}
	}
	return ""
}

// one tells of a kind that it has one terminal, which no stop names.
func single(k string) bool { return k == string(harness.Ground) || k == string(harness.Splice) }

// reach finds once more what the parts are, by the wires that are not left out.
func (m *maker) reach() {
	for _, p := range m.order {
		p.terminals = slices.Clone(p.listed)
	}
	for i := range m.wires {
		for _, e := range []spelt.End{m.wires[i].from, m.wires[i].to} {
			p := m.parts[read.Folded(e.Part)]
			if e.Terminal != "" && !m.dropped[m.wires[i].row] && !slices.Contains(p.terminals, e.Terminal) {
				p.terminals = append(p.terminals, e.Terminal)
			}
		}
	}
	for _, p := range m.order {
		m.settleKind(p)
	}
}

// placeEnds gives every end a terminal, where its part has more than one.
func (m *maker) placeEnds() {
	count := map[string]int{}
	given := map[string]bool{}
	for i := range m.wires {
		w := &m.wires[i]
		for _, e := range []*spelt.End{&w.from, &w.to} {
			other := w.to
			if e == &w.to {
				other = w.from
			}
			p := m.parts[read.Folded(e.Part)]
			if single(p.kind) {
				e.Terminal = ""
				continue
			}
			if e.Terminal != "" || p.kind == string(harness.Bus) {
				continue
			}
			e.Terminal = m.terminal(p, e == &w.to, m.parts[read.Folded(other.Part)].kind == string(harness.Ground), count)
			given[p.ref] = true
			if !slices.Contains(p.terminals, e.Terminal) {
				p.terminals = append(p.terminals, e.Terminal)
			}
		}
	}
	var refs []string
	for ref := range given {
		refs = append(refs, ref)
	}
	sort.Strings(refs)
	if len(refs) > 0 {
		m.say("ends without a terminal were given one, at %s", strings.Join(refs, ", "))
	}
}

// terminal gives one to an end that names none: of fuses and the like 1 where a wire
// arrives and 2 where it leaves, of what has + and - the minus towards ground, else the
// next number that is free.
func (m *maker) terminal(p *part, arrives, toGround bool, count map[string]int) string {
	row, known := kind.Of(harness.Kind(p.kind))
	switch usual := row.Terminals; {
	case known && usual == "+ -" && toGround:
		return "-"
	case known && usual == "+ -":
		return "+"
	case known && (usual == "1 2" || usual == "a k"):
		if arrives {
			return strings.Fields(usual)[0]
		}
		return strings.Fields(usual)[1]
	}
	for {
		count[p.ref]++
		if t := strconv.Itoa(count[p.ref]); !slices.Contains(p.terminals, t) {
			return t
		}
	}
}

// used are the parts that stand in the description: those of the table, and those on
// which a wire ends.
func (m *maker) used() []*part {
	var out []*part
	for _, p := range m.order {
		if p.row > 0 || slices.ContainsFunc(p.rows, func(r int) bool { return !m.dropped[r] }) {
			out = append(out, p)
		}
	}
	return out
}
