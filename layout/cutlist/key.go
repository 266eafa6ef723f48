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
	readingRoom = 11.0
	signRoom    = 20.0
	lotHigh     = 8.6
)

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
	b.Table(keyTable(a, lots, forces))
	b.Remark(page.List(" ", append([]string{toolRule(lots)}, doubts(a)...)...))
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
		l.shrink = once(l.shrink, shrunk+page.NoBreak+page.Firm(e.Shrink)+", "+page.Piece(e.ShrinkLen, imperial))
	}
	if e.Over > 0 {
		l.over = once(l.over, page.Across(e.Over, imperial).S+page.NoBreak+page.SizeUnit(imperial))
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

// keyTable has one row a barrel and size of wire, with room for the readings of its specimens.
func keyTable(a page.Ask, lots []lot, forces page.Forces) *table.Table {
	imperial := a.H.Sheet.Imperial
	t := &table.Table{Tight: true, Columns: []table.Column{
		{Title: "Crimp", Unit: "for wire of"}, {Title: "Wire"}, {Title: "Fittings", Unit: shrunk + " heat-shrink", Weight: 1}, {Title: "Crimps", Align: table.Decimal},
		{Title: "To hold", Unit: page.ForceUnit(imperial)},
	}}
	for n := range mostSpecimens(a.R.Lots) {
		t.Columns = append(t.Columns, table.Column{Title: fmt.Sprintf("No. %d", n+1), Unit: firstUnit(imperial)})
	}
	t.Columns = append(t.Columns, table.Column{Title: "Name, date"})
	for i := range lots {
		t.Rows = append(t.Rows, lotRow(&lots[i], forces))
	}
	return t
}

// crimpCell names what is crimped, for which sizes, and the shop's own number and die.
func crimpCell(l *lot) table.Cell {
	name, size, die := page.Capital(l.Crimp), page.Ranged(l.Size), l.Die
	if die != "" {
		die = "die " + die
	}
	if l.Fitting == "splice" {
		name, size = "Splice", "" // its size stands with its barrel
	} else if l.Size == l.Gauge.String() {
		size = ""
	}
	return table.Cell{S: page.Firm(name), Bold: true, Note: page.List(", ", size, page.Firm(l.Part), die)}
}

// toolRule says which tool each crimp takes.
func toolRule(lots []lot) string {
	var tools []string
	crimps := map[string][]string{}
	for _, l := range lots {
		tools = once(tools, l.Tool)
		crimps[l.Tool] = once(crimps[l.Tool], page.Or(l.Part, l.Crimp))
	}
	var out []string
	for _, tool := range tools {
		out = append(out, page.And(crimps[tool])+": "+tool)
	}
	return "Tools: " + strings.Join(out, "; ") + "."
}

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

func lotRow(l *lot, forces page.Forces) table.Row {
	wire := table.Cell{S: page.Firm(l.Gauge.String())}
	if l.Beside != "" {
		wire.Note = "with " + page.Firm(l.Beside)
	}
	cells := []table.Cell{crimpCell(l), wire, {S: fittingsOf(l), Size: sheet.SizeNote}, table.Text(fmt.Sprint(l.Count)), forces.Cell(l.Pull, l.PullList)}
	for range l.Specimens {
		cells = append(cells, table.Cell{Draw: table.Blank(readingRoom)})
	}
	return table.Row{High: lotHigh, Cells: append(cells, table.Cell{Draw: table.Blank(signRoom)})}
}

// fittingsOf lists what is crimped in a lot, with the heat-shrink over it and, for an insulation
// grip, the outside of the wire: "98 × 6.3 mm female spade, 7 × M6 ring".
func fittingsOf(l *lot) string {
	var out []string
	for _, f := range l.fittings {
		out = append(out, page.Firm(fmt.Sprintf("%d × %s", l.count[f], f)))
	}
	over := ""
	if len(l.over) > 0 {
		over = "outside diameter " + page.And(l.over)
	}
	if l.Fitting == "splice" {
		out = append(out, page.Dashed(l.Size))
	}
	return page.List("\n", strings.Join(out, ", "), page.And(l.shrink), over)
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
	t := &table.Table{Tight: true, Columns: []table.Column{
		{Title: "Stud"}, {Title: "Thread"}, {Title: "Rings, from the bottom up", Weight: 1}, {Title: "Tighten to", Unit: torqueUnit(a.H.Sheet.Imperial)}, {Title: "Done", Align: table.Centre},
	}}
	for _, s := range a.R.Stacks {
		var rings []string
		for _, w := range s.Rings {
			rings = append(rings, page.Firm(a.H.Wires[w].Name+" ("+a.Gauge(w)+")"))
		}
		rings = append(rings, a.Drains(s.Terminal)...)
		full, plain := a.Stop(s.Terminal)
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			{S: full, Bold: true, Note: plain}, table.Text(s.Stud), table.Text(page.List(", ", rings...)), table.Noted(torque(s, a.H.Sheet.Imperial), s.On), {Draw: table.TickBox()},
		}})
	}
	return t
}

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
