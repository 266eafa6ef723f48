package drawing

import (
	"example.com/loomfolio/layout/diagram"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/sizing/harness"
)

// loopDeep is how far a jumper's bend reaches to the left, mm.
const loopDeep = 2.5

// loop draws a jumper: a bend to the left of its part, from which a wire leads to either
// terminal. The first of them carries the flag.
func (b *builder) loop(w harness.WireID) {
	at := len(b.g.nodes)
	loopHigh := b.symbolForm().Pitch
	tile := symbol.Tile{W: loopDeep, H: loopHigh + 2*loopDeep, Pins: []symbol.Pin{
		{Terminal: b.s.h.Wires[w].To, Side: symbol.East, X: loopDeep, Y: loopDeep},
		{Terminal: b.s.h.Wires[w].From, Side: symbol.East, X: loopDeep, Y: loopDeep + loopHigh},
	}}
	var c sheet.Canvas
	b.s.drawWire(&c, w, []sheet.Point{{X: loopDeep, Y: loopDeep}, {X: 1, Y: loopDeep}, {X: 1, Y: loopDeep + loopHigh}, {X: loopDeep, Y: loopDeep + loopHigh}})
	tile.Marks = c.Marks
	b.g.nodes = append(b.g.nodes, node{part: harness.None, kind: asTag, from: harness.None, tile: tile})
	d := nodeOf(tile)
	b.groups++
	for i := range d.Pins { // either end may lie above
		d.Pins[i].Group = b.groups
	}
	b.g.Nodes = append(b.g.Nodes, d)
	flag := b.s.flag(w, b.form).w
	b.g.Wires = append(b.g.Wires, diagram.Wire{From: diagram.End{Node: at, Pin: 0}, To: b.ends.to[w], Flag: flag}, diagram.Wire{From: diagram.End{Node: at, Pin: 1}, To: b.ends.from[w]})
	b.g.wires = append(b.g.wires, w, w)
}
