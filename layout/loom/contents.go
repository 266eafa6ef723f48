package loom

import (
	"math"
	"strings"

	"example.com/loomfolio/layout/loom/placing"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

// The wires in each run stand under the list in columns, a paragraph a run.
const (
	contentsColumns = 3
	letterRoom      = 7 // from a run's letter to its wires, mm
)

// contents sets the wires in each run and gives the height that they take.
func (a drawer) contents(c *sheet.Canvas, r sheet.Rect) float64 {
	c.Text(r.X, r.Y+sheet.SizeBody*typeface.CapHeight+0.3, "Wires in each run", sheet.Strong(sheet.SizeBody))
	top := r.Y + sheet.SizeBody*placing.Leading + 1
	wide := (r.W - (contentsColumns-1)*placing.Gutter) / contentsColumns
	said := a.paragraphs(wide - letterRoom)
	high := columnHeight(said)
	x, y := r.X, top
	for i, lines := range said {
		need := float64(len(lines)) * sheet.SizeBody * placing.Leading
		if y+need > top+high+1e-6 {
			x, y = x+wide+placing.Gutter, top
		}
		base := y + placing.Rise*sheet.SizeBody
		c.Text(x, base, page.Letter(a.R.Runs[i].Run), sheet.Strong(sheet.SizeBody))
		for j, line := range lines {
			line.Draw(c, x+letterRoom, y+float64(j)*sheet.SizeBody*placing.Leading, nil)
		}
		y += need
	}
	return top + high - r.Y
}

// paragraphs are the wires of each run in lines of a width.
func (a drawer) paragraphs(wide float64) [][]placing.Row {
	var out [][]placing.Row
	for _, r := range a.R.Runs {
		words := a.wireRanges(r.Wires)
		if len(words) == 0 {
			words = []placing.Word{{Said: "no wires"}}
		}
		out = append(out, placing.Wrapped(words, sheet.Plain(sheet.SizeBody), wide))
	}
	return out
}

// columnHeight is the least height at which paragraphs fill no more columns than there are.
func columnHeight(paragraphs [][]placing.Row) float64 {
	longest, sum := 0, 0
	for _, p := range paragraphs {
		longest, sum = max(longest, len(p)), sum+len(p)
	}
	for most := max(longest, int(math.Ceil(float64(sum)/contentsColumns))); ; most++ {
		columns, filled := 1, 0
		for _, p := range paragraphs {
			if filled += len(p); filled > most {
				columns, filled = columns+1, len(p)
			}
		}
		if columns <= contentsColumns {
			return float64(most) * sheet.SizeBody * placing.Leading
		}
	}
}

// wireRanges lists the wires of a run, following ones of a circuit as a range: 12A–F.
func (a drawer) wireRanges(wires []harness.WireID) []placing.Word {
	var out []placing.Word
	for i := 0; i < len(wires); {
		j := i
		for j+1 < len(wires) && follows(a.H.Wires[wires[j]].Name, a.H.Wires[wires[j+1]].Name) {
			j++
		}
		text := a.H.Wires[wires[i]].Name
		if _, last := named(a.H.Wires[wires[j]].Name); j > i {
			text += "–" + last
		}
		if j < len(wires)-1 {
			text += ","
		}
		out = append(out, placing.Word{Said: text})
		i = j + 1
	}
	return out
}

// named parts a wire's name into its circuit and the letter in it.
func named(name string) (circuit, letter string) {
	at := strings.TrimRight(name, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
	return at, name[len(at):]
}

// follows tells whether a wire's name is the next in a circuit: letters run from A to Z
// without I and O.
func follows(name, next string) bool {
	circuit, x := named(name)
	other, y := named(next)
	if circuit == "" || circuit != other || len(x) != 1 || len(y) != 1 {
		return false
	}
	step := x[0] + 1
	if step == 'I' || step == 'O' {
		step++
	}
	return y[0] == step
}
