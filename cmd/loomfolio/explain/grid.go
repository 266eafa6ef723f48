package explain

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"example.com/loomfolio/sizing/harness"
)

// gridWidth is what a grid may take beside the two blanks before it.
const gridWidth = 97

// grid prints rows of cells under their heads; the first column is named again
// where the rest needs several grids one under the other.
func (x *explainer) grid(rows [][]string) {
	if len(rows) < 2 || len(rows[0]) < 2 {
		return
	}
	widths := make([]int, len(rows[0]))
	for _, r := range rows {
		for i, cell := range r {
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	for from := 1; from < len(widths); {
		to, room := from, gridWidth-widths[0]
		for to < len(widths) && (to == from || room >= widths[to]+2) {
			room -= widths[to] + 2
			to++
		}
		fmt.Fprintln(x.w)
		for _, r := range rows {
			x.gridLine(r, widths, from, to)
		}
		from = to
	}
	fmt.Fprintln(x.w)
}

func (x *explainer) gridLine(cells []string, widths []int, from, to int) {
	line := "  " + padded(cells[0], widths[0])
	for i := from; i < to; i++ {
		line += "  " + strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cells[i])) + cells[i]
	}
	fmt.Fprintln(x.w, strings.TrimRight(line, " "))
}

// states prints a part's currents and volts in every state.
func (x *explainer) states(p *harness.Part) {
	var elements []harness.ElementID
	for _, id := range p.Elements {
		switch x.h.Elements[id].Kind {
		case harness.Join, harness.Open:
		case harness.Contact:
			if switches(p.Kind) {
				elements = append(elements, id)
			}
		default:
			elements = append(elements, id)
		}
	}
	if len(elements) > mostElements {
		elements = nil // each can be asked for by its own name
	}
	var terminals []harness.TerminalID
	for _, t := range p.Terminals {
		if len(x.wiresAt(t)) > 0 {
			terminals = append(terminals, t)
		}
	}
	x.grid(x.stateRows(elements, terminals))
}

// mostElements of a part have a column each.
const mostElements = 6

// stateRows are the states with the position of the part's switch, the current
// of elements and the volts of terminals.
func (x *explainer) stateRows(elements []harness.ElementID, terminals []harness.TerminalID) [][]string {
	head := []string{"in state"}
	for _, id := range elements {
		head = append(head, x.elementHead(id))
	}
	for _, t := range terminals {
		head = append(head, x.h.Terminals[t].Full)
	}
	rows := [][]string{head}
	for i := range x.r.States {
		s := &x.r.States[i]
		row := []string{s.Name}
		for _, id := range elements {
			row = append(row, current(x.sign(id)*s.Amps[id]))
		}
		for _, t := range terminals {
			row = append(row, x.potentialIn(i, t))
		}
		rows = append(rows, row)
	}
	return rows
}

// elementHead names an element's column: a source delivers, and what is called
// as one of its terminals is told from that terminal's volts.
func (x *explainer) elementHead(id harness.ElementID) string {
	e := &x.h.Elements[id]
	switch {
	case x.sign(id) < 0:
		return e.Name + " gives"
	case e.Name == x.h.Terminals[e.A].Full || e.Name == x.h.Terminals[e.B].Full:
		return "current"
	}
	return e.Name
}

// sign turns the current of a source round: what it delivers counts as positive.
func (x *explainer) sign(id harness.ElementID) float64 {
	if k := x.h.Elements[id].Kind; k == harness.EMF || k == harness.Charger || k == harness.Converter {
		return -1
	}
	return 1
}

// current is 0 below a milliampere: what leaks between two grounds.
func current(a float64) string {
	if math.IsNaN(a) || math.Abs(a) < 1e-3 {
		return "0"
	}
	return fmt.Sprintf("%.3g A", a)
}

func potential(v float64) string {
	if math.IsNaN(v) {
		return "floating"
	}
	if math.Abs(v) < 0.005 {
		v = 0
	}
	return fmt.Sprintf("%.2f V", v)
}

// wireRows are the states with a wire's current and drop.
func (x *explainer) wireRows(id harness.WireID) [][]string {
	w := &x.h.Wires[id]
	rows := [][]string{{"in state", "current", x.h.Terminals[w.From].Full, x.h.Terminals[w.To].Full}}
	for i := range x.r.States {
		s := &x.r.States[i]
		rows = append(rows, []string{s.Name, current(s.WireAmps[id]), x.potentialIn(i, w.From), x.potentialIn(i, w.To)})
	}
	return rows
}

func (x *explainer) wiresAt(t harness.TerminalID) []string {
	var out []string
	for _, w := range x.h.Wires {
		if w.From == t || w.To == t {
			out = append(out, w.Name)
		}
	}
	return out
}

// ends says which wires end on each terminal.
func (x *explainer) ends(p *harness.Part) {
	var out []string
	for _, t := range p.Terminals {
		if wires := x.wiresAt(t); len(wires) > 0 {
			out = append(out, fmt.Sprintf("%s: %s", x.h.Terminals[t].Full, strings.Join(wires, " ")))
		}
	}
	if len(out) > 0 && p.Kind != harness.Connector && p.Kind != harness.Splice && p.Kind != harness.Ground {
		x.line("wires", "%s", strings.Join(out, " · "))
	}
}
