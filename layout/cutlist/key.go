package cutlist

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/unit"
)

// Room to write by hand, mm.
const (
	readingRoom = 8.2
	signRoom    = 60.0
	lotHigh     = 5.8
	closePad    = 0.3 // over and under a row of one line
)

// keyColumn is how wide a column of the key is at least, mm.
const keyColumn = 78.0

// key sets what a fitting and a size of wire decide, lot by lot, with the pull test.
func key(a page.Ask, b *page.Book) {
	lots := lotsOf(a)
	if len(lots) == 0 {
		return
	}
	forces := page.ForcesOf(a)
	b.Head2("Key of fittings and pull test", "A lot is one barrel, one wire and one tool, whatever the ring or spade in front of it. Make at least two test crimps of each, insulation grip left open, and pull each "+
		"to the force (after "+page.And(forces.Names)+"), then on until it fails; write down what it held (MIL-T-7928: two specimens at least, "+pullSpeed(a.H.Sheet.Imperial)+
		" a minute). A splice is pulled at its thinnest wire, and so is a fitting with several wires in it, crimped as in the loom.", 40)
	n := page.Abreast(b.Room.W, keyColumn, page.ColumnGap)
	if mostSpecimens(a.R.Lots) > fewSpecimens {
		n = 1
	}
	b.Spread(keyTable(a, lots, forces), n, 30)
	b.Table(signTable())
	if more := doubts(a); len(more) > 0 {
		b.Remark(page.List(" ", more...))
	}
}

// fewSpecimens are as many readings as a row has room for where two columns stand abreast.
const fewSpecimens = 2

// signTable is the line on which whoever pulls the crimps signs for all lots.
func signTable() *table.Table {
	return &table.Table{NoHead: true, NoZebra: true, Rigid: true, Columns: []table.Column{{}, {}, {}, {}}, Rows: []table.Row{{High: 7, Cells: []table.Cell{
		table.Text("Pulled by"), {Draw: table.Blank(signRoom)}, table.Text("Date"), {Draw: table.Blank(signRoom / 2)},
	}}}}
}

// lot is a lot of crimps with the fittings that it is made with.
type lot struct {
	fitted.Lot
	fittings []string // in full, each once
	count    map[string]int
	shrink   []string // over its barrels
	over     []string // outside of its wires, for the insulation grip
}

// lotsOf finds the fittings of each lot.
func lotsOf(a page.Ask) []lot {
	var lots []lot
	for _, l := range a.R.Lots {
		lots = append(lots, lot{Lot: l, count: map[string]int{}})
	}
	all := fitted.Fitted{Ends: a.R.Ends}
	for i := range a.R.Ends {
		for end := range 2 {
			e := &a.R.Ends[i][end]
			if e.Second || e.Crimp == fitted.NoneFits {
				continue
			}
			of := all.LotOf(e, a.R.Wires)
			for n := range lots {
				if lots[n].Same(of) {
					lots[n].add(a, e)
				}
			}
		}
	}
	return lots
}

// add counts an end in.
func (l *lot) add(a page.Ask, e *fitted.End) {
	imperial := a.H.Sheet.Imperial
	l.fittings = once(l.fittings, e.Fitting)
	l.count[e.Fitting]++
	if e.Shrink != "" {
		l.shrink = once(l.shrink, e.Shrink+", "+page.Piece(e.ShrinkLen, imperial))
	}
	if e.Over > 0 {
		l.over = once(l.over, outside+page.NoBreak+page.Across(e.Over, imperial).S)
	}
}

func once(list []string, s string) []string {
	for _, o := range list {
		if o == s {
			return list
		}
	}
	return append(list, s)
}

// outside is the sign of a wire's outside diameter.
const outside = "⌀"

// fittingRoom keeps a count and a fitting in one line, mm.
const fittingRoom = 36.0

// keyTable has one row a barrel and size of wire, under a heading for each crimp with its tool, and
// room for the readings of its specimens.
func keyTable(a page.Ask, lots []lot, forces page.Forces) *table.Table {
	imperial, kind, common := a.H.Sheet.Imperial, tubeKind(lots), commonUnit(lots)
	t := &table.Table{Tight: true, Company: true, Columns: []table.Column{
		{Title: "Wire", Unit: common}, {Title: "Fittings", Unit: fittingSigns(lots, kind, imperial), Min: fittingRoom, Weight: 1}, {Title: "Hold", Unit: firstUnit(imperial), Align: table.Decimal},
	}}
	for n := range mostSpecimens(a.R.Lots) {
		t.Columns = append(t.Columns, table.Column{Title: fmt.Sprintf("No. %d", n+1), Unit: firstUnit(imperial)})
	}
	head := ""
	for i := range lots {
		if h := crimpHead(&lots[i]); h != head {
			head = h
			t.Rows = append(t.Rows, table.Heading(h, lots[i].Tool))
		}
		t.Rows = append(t.Rows, lotRow(&lots[i], forces, kind, common))
	}
	return t
}

// commonUnit is the unit of the lots' sizes where they share one: "mm²".
func commonUnit(lots []lot) string {
	common := ""
	for i := range lots {
		_, u, _ := strings.Cut(lots[i].Gauge.String(), " ")
		if i > 0 && u != common {
			return ""
		}
		common = u
	}
	return common
}

// bareSize is a size without the unit that its column has.
func bareSize(s, common string) string {
	if common == "" {
		return s
	}
	return strings.TrimSuffix(s, " "+common)
}

// tubeKind is the kind of all heat-shrink of the key, "3:1 adhesive-lined"; "" where there are several.
func tubeKind(lots []lot) string {
	kind := ""
	for i := range lots {
		for _, s := range lots[i].shrink {
			parts := strings.Split(s, ", ")
			if k := strings.Join(parts[1:len(parts)-1], ", "); kind == "" {
				kind = k
			} else if k != kind {
				return ""
			}
		}
	}
	return kind
}

// fittingSigns says what the signs beside the fittings mean.
func fittingSigns(lots []lot, kind string, imperial bool) string {
	heat, over := "", ""
	for i := range lots {
		if len(lots[i].shrink) > 0 {
			heat = page.List(" ", shrunk+page.NoBreak+"heat-shrink", kind)
		}
		if len(lots[i].over) > 0 {
			over = outside + page.NoBreak + "outside diameter, " + page.SizeUnit(imperial)
		}
	}
	return page.List("; ", heat, over)
}

// crimpHead names what is crimped, and for which sizes where it serves several.
func crimpHead(l *lot) string {
	switch {
	case l.Fitting == "splice" && strings.HasPrefix(l.Size, fitted.Barrel):
		return page.Dotted("Splice", fitted.Barrel)
	case l.Fitting == "splice":
		return "Splice"
	case ranges(l):
		return page.Dotted(page.Capital(l.Crimp), page.Firm(page.Ranged(l.Size)))
	}
	return page.Capital(l.Crimp)
}

// ranges tells whether a crimp serves several sizes.
func ranges(l *lot) bool { return strings.Contains(l.Size, "-") && l.Fitting != "splice" }

func mostSpecimens(lots []fitted.Lot) int {
	most := 0
	for _, l := range lots {
		most = max(most, l.Specimens)
	}
	return most
}

// firstUnit is the unit in which the readings are written.
func firstUnit(imperial bool) string {
	if imperial {
		return "lbf"
	}
	return "N"
}

func lotRow(l *lot, forces page.Forces, kind, common string) table.Row {
	wire := table.Strong(page.Firm(bareSize(l.Gauge.String(), common)))
	if l.Beside != "" {
		wire.Note = page.Firm("with " + bareSize(l.Beside, common))
	}
	if l.Fitting != "splice" && !ranges(l) && l.Size != l.Gauge.String() {
		wire.Note = page.List(", ", wire.Note, page.Firm(page.Ranged(l.Size)))
	}
	cells := []table.Cell{wire, {S: fittingsOf(l, kind), Size: sheet.SizeNote, Note: forceNote(l, forces)}, forceCell(l, forces)}
	for range l.Specimens {
		cells = append(cells, table.Cell{Draw: table.Blank(readingRoom)})
	}
	return table.Row{High: lotHigh, Cells: cells}
}

// forceCell is the force of a lot, without its unit.
func forceCell(l *lot, forces page.Forces) table.Cell {
	if l.Pull == 0 {
		return table.Text("–")
	}
	first, _ := forces.Both(l.Pull)
	amount, _, _ := strings.Cut(first, page.NoBreak)
	return table.Text(amount)
}

// forceNote names the list of a lot's force where there are several, or says that it was not at hand.
func forceNote(l *lot, forces page.Forces) string {
	if from := forces.From(l.PullList); l.Pull > 0 && from != "" {
		return "force " + strings.ReplaceAll(from, "\n", ", ")
	}
	return ""
}

// fittingsOf lists what is crimped in a lot and how often, with the shop's own number and die, the
// outside of the wire for an insulation grip, and the heat-shrink over it.
func fittingsOf(l *lot, kind string) string {
	var out []string
	for _, f := range l.fittings {
		out = append(out, strings.Replace(page.Firm(fmt.Sprintf("%d × %s", l.count[f], f)), page.NoBreak+"female", " female", 1))
	}
	if l.Fitting == "splice" {
		barrel := strings.TrimPrefix(page.Dashed(l.Size), fitted.Barrel+" ")
		out = append(out, fmt.Sprintf("%d × %s", l.Count, page.Firm(barrel)))
	}
	if l.Part != "" {
		out = append(out, page.Firm(l.Part))
	}
	if l.Die != "" {
		out = append(out, page.Firm("die "+l.Die))
	}
	for _, s := range l.shrink {
		if kind != "" {
			s = strings.Replace(s, ", "+kind, "", 1)
		}
		out = append(out, page.Firm(shrunk+" "+s))
	}
	return page.List(" ", strings.Join(out, ", "), strings.Join(l.over, ", "))
}

// pullSpeed is how far the puller moves in a minute (MIL-T-7928).
func pullSpeed(imperial bool) string {
	return page.Either(imperial, "1 to 2 in", "25 to 50 mm")
}

// doubts are the sizes that two sleeves claim, or none, each with what was decided.
func doubts(a page.Ask) []string {
	var out []string
	for _, two := range a.R.Ends {
		for _, e := range two {
			if e.Doubt != "" {
				out = once(out, page.Sentence(e.Doubt))
			}
		}
	}
	return out
}

// stackTable has one row a stud that holds several rings, from the bottom up.
func stackTable(a page.Ask) *table.Table {
	t := &table.Table{Tight: true, Pad: closePad, Columns: []table.Column{
		{Title: "Stud"}, {}, {Title: "Thread"}, {Title: "Rings, from the bottom up", Weight: 1}, {Title: "Tighten to", Unit: torqueUnit(a.H.Sheet.Imperial)}, {}, {Title: "Done", Align: table.Centre},
	}}
	for _, s := range a.R.Stacks {
		var rings []string
		for _, w := range s.Rings {
			rings = append(rings, page.Firm(a.H.Wires[w].Name+" ("+a.Gauge(w)+")"))
		}
		rings = append(rings, a.Drains(s.Terminal)...)
		full, plain := a.Stop(s.Terminal)
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			table.Strong(full), small(plain), table.Text(s.Stud), table.Text(page.List(", ", rings...)), table.Text(torque(s, a.H.Sheet.Imperial)), small(s.On), {Draw: table.TickBox()},
		}})
	}
	return t
}

// small is a cell in the size of notes.
func small(s string) table.Cell { return table.Cell{S: s, Size: sheet.SizeNote} }

func torqueUnit(imperial bool) string {
	_, name := unit.Torque(1, imperial)
	return name
}

// torque is in the sheet's unit; a dash where no table has one.
func torque(s fitted.Stack, imperial bool) string {
	most, _ := unit.Torque(s.Most, imperial)
	least, _ := unit.Torque(s.Least, imperial)
	switch {
	case s.Most == 0:
		return "–"
	case s.Least < s.Most:
		return least + " to " + most
	}
	return most
}
