package cutlist

import (
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/harness"
)

// ownHead is the head of the list of the vehicle's own wires.
const ownHead = "The vehicle's own, not cut"

// ownWords says what is done about them.
const ownWords = "They stay as they are. ≥: nobody says how thick it is; measure the copper, less than this may burn. Write the colour in where none stands."

// own lists the wires that stay as they are, with room to write down what is not known of them.
func own(a page.Ask, b *page.Book) {
	if t := ownTable(a); len(t.Rows) > 0 {
		b.Head2(ownHead, ownWords, 20)
		b.Spread(t, 2, 20)
	}
}

// ownAlone is the list where no wire is cut at all.
func ownAlone(a page.Ask) []frame.Page {
	t := ownTable(a)
	if len(t.Rows) == 0 {
		return nil
	}
	b := page.Open(a.Upright(), ownHead, "sheet/wires", ownWords)
	b.Spread(t, 2, 20)
	return b.Close()
}

// ownTable has a row a wire, those apart that lie in a cable or twist with wires that are made.
func ownTable(a page.Ask) *table.Table {
	t := &table.Table{Tight: true, Columns: []table.Column{{Title: "Wire"}, {Title: "Colour", Min: 18}, {Title: "Size"}, {Title: "From → to", Weight: 1}}}
	of := a.H.UnitOf()
	for _, id := range a.Own() {
		if u := of[id]; u != harness.None && len(a.Made(a.H.Units[u].Wires)) > 0 {
			continue
		}
		w := &a.H.Wires[id]
		t.Rows = append(t.Rows, table.Row{Anchor: "wire/" + w.Name, Cells: []table.Cell{
			{S: page.Firm(w.Name), Bold: true, Link: a.Link("index/" + w.Name)}, ownShade(a, id), table.Text(page.Firm(a.Gauge(id))),
			table.Text(page.Firm(page.FarStop(a, w.From)) + " → " + page.Firm(page.FarStop(a, w.To))),
		}})
	}
	return t
}

// ownShade is the colour that a wire has, or a line to write it on.
func ownShade(a page.Ask, id harness.WireID) table.Cell {
	if a.H.Wires[id].NoColour() {
		return table.Text("_______")
	}
	pair := a.Pair(id)
	return table.Cell{Draw: page.ShortSwatch(pair), S: pair.String()}
}
