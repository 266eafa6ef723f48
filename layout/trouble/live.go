package trouble

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// pattern are the nets that are live in the same columns.
type pattern struct {
	when []proof.Lives
	nets []*proof.Live
}

// patterns gathers the nets, those that are fed in most columns first; those that are ground
// throughout, or never live, are left out.
func (t teller) patterns() []pattern {
	var out []pattern
	for i := range t.R.Proof.Live {
		l := &t.R.Proof.Live[i]
		if never(l.When) {
			continue
		}
		at := slices.IndexFunc(out, func(p pattern) bool { return slices.Equal(p.when, l.When) })
		if at < 0 {
			at = len(out)
			out = append(out, pattern{when: l.When})
		}
		out[at].nets = append(out[at].nets, l)
	}
	slices.SortStableFunc(out, func(a, b pattern) int {
		return cmp.Or(cmp.Compare(b.count(proof.Fed), a.count(proof.Fed)), cmp.Compare(b.count(proof.Behind), a.count(proof.Behind)))
	})
	return out
}

// never tells that a net is live in no column.
func never(when []proof.Lives) bool {
	return !slices.Contains(when, proof.Fed) && !slices.Contains(when, proof.Behind)
}

func (p pattern) count(l proof.Lives) int {
	n := 0
	for _, x := range p.when {
		if x == l {
			n++
		}
	}
	return n
}

// said are the wires of a pattern by number, following letters joined, and terminals on which none ends.
func (t teller) wired(p pattern) string {
	var names, bare []string
	for _, l := range p.nets {
		for _, w := range l.Wires {
			names = append(names, t.H.Wires[w].Name)
		}
		if len(l.Wires) == 0 {
			bare = append(bare, page.Firm(t.say.Terminal(l.Net)))
		}
	}
	slices.SortFunc(names, unit.Natural)
	return strings.Join(append(page.Spans(slices.Compact(names)), bare...), ", ")
}

// Sizes of the matrix, mm.
const (
	markWide   = 4.0 // a column
	doubleWide = 6.6 // one whose name takes two lines
	markHigh   = 3.3
	mostNamed  = 23   // a column's name, upright
	nameLeads  = 3.05 // base line to base line of names
)

// grid are the middles of the columns, from the left, and the width of all.
type grid struct {
	middles []float64
	wide    float64
}

// gridOf gives a column with a name of two lines more width.
func gridOf(names []string) grid {
	var g grid
	for _, n := range names {
		w := markWide
		if len(upright(n)) > 1 {
			w = doubleWide
		}
		g.middles = append(g.middles, g.wide+w/2)
		g.wide += w
	}
	return g
}

// setLive sets the matrix of nets against columns. Nets that no source ever reaches but through a load
// stand in one row.
func (t teller) setLive(s *page.Book) {
	patterns := t.patterns()
	if len(patterns) == 0 {
		return
	}
	names := t.R.Proof.When
	g := gridOf(names)
	heading := table.Heading("", "")
	heading.Cells[0] = table.Cell{S: "Live when", Size: sheet.SizeHead, Note: liveKey}
	heading.Cells[1].Draw = columnNames(names, g)
	rows := []table.Row{heading}
	var behind pattern
	for _, p := range patterns {
		if p.count(proof.Fed) == 0 {
			behind.nets = append(behind.nets, p.nets...)
			continue
		}
		rows = append(rows, table.Row{Cells: []table.Cell{
			{S: t.wired(p), Size: sheet.SizeNote},
			{Draw: &table.Drawing{W: g.wide, H: markHigh, Draw: func(c *sheet.Canvas, r sheet.Rect) { marks(c, r, g, p.when) }}},
		}})
	}
	if len(behind.nets) > 0 {
		rows = append(rows, table.Row{Cells: []table.Cell{{S: t.wired(behind), Size: sheet.SizeNote}, {S: behindWords, Size: sheet.SizeNote}}})
	}
	m := &table.Table{Columns: []table.Column{{Weight: 1}, {Align: table.Right}}, Rows: rows, NoHead: true, Tight: true, Pad: 0.05}
	s.Need(mostNamed + headRoom)
	s.Down(1)
	s.Table(m)
	if still := t.still(); len(still) > 0 {
		s.Remark("Still live with the fuse out: " + strings.Join(still, "; ") + ".")
	}
}

// still names by fuse the wires behind it that are live though it is out.
func (t teller) still() []string {
	var out []string
	for _, w := range t.R.Proof.Without {
		var p pattern
		for _, i := range w.Still {
			p.nets = append(p.nets, &t.R.Proof.Live[i])
		}
		if len(p.nets) > 0 {
			out = append(out, page.Firm(t.H.Elements[w.Fuse].Name)+": "+t.wired(p))
		}
	}
	return out
}

// behindWords stand for the marks of nets that no source reaches.
const behindWords = "volts through a load or coil, in some states"

// liveKey is what the marks of the matrix mean.
const liveKey = "Disc: live. Ring: volts through a load or coil alone. Bar: part of the return. Point: not live. Wires that are never live are left out."

// columnNames draws the names of the columns upright over them.
func columnNames(names []string, g grid) *table.Drawing {
	high := 0.0
	for _, n := range names {
		for _, l := range upright(n) {
			high = math.Max(high, typeface.Width(l, note.Face, note.Size))
		}
	}
	return &table.Drawing{W: g.wide, H: high + 1, Draw: func(c *sheet.Canvas, r sheet.Rect) {
		for i, n := range names {
			lines := upright(n)
			x := r.X + g.middles[i] + note.Size*typeface.CapHeight/2 - nameLeads*float64(len(lines)-1)/2
			for k, l := range lines {
				c.Text(x+nameLeads*float64(k), r.Bottom()-0.5, l, sheet.Style{Size: note.Size, Colour: sheet.Ink, Turn: 90})
			}
		}
	}}
}

// upright is a column's name in one line, or in two where it is long.
func upright(name string) []string {
	lines := typeface.Wrap(name, note.Face, note.Size, mostNamed)
	if len(lines) > 2 {
		lines = []string{lines[0], typeface.Fit(strings.Join(lines[1:], " "), note.Face, note.Size, mostNamed)}
	}
	return lines
}

// marks draws one row of the matrix.
func marks(c *sheet.Canvas, r sheet.Rect, g grid, when []proof.Lives) {
	for i, l := range when {
		x, y := r.X+g.middles[i], r.Y+r.H/2
		switch l {
		case proof.Fed:
			c.Circle(x, y, 1.25, sheet.Filled(sheet.Ink))
		case proof.Behind:
			c.Circle(x, y, 1.1, sheet.Both(sheet.Solid(sheet.Medium), sheet.White))
		case proof.Ground:
			c.Line(x-1.1, y, x+1.1, y, sheet.Solid(sheet.Medium))
		default:
			c.Circle(x, y, 0.22, sheet.Filled(sheet.Rule))
		}
	}
}
