package guide

import (
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/colour"
)

// colours shows each colour that occurs, with its letters and its name, under a heading and down
// as many columns as fit, and gives where they end.
func colours(a page.Ask, c *sheet.Canvas, r sheet.Rect) float64 {
	used := coloursUsed(a)
	remark := "Letters by IEC 60757: the insulation, after the slash its tracer (stripe). Shades differ between makers: go by letters and name."
	if slices.ContainsFunc(used, ours) {
		remark += " TN, LBU and LGN are letters of our own, not in IEC 60757."
	}
	top := heading(c, r, "Colours", remark) + 0.6
	const high = 4.8
	least := 0.0
	for _, l := range used {
		least = max(least, named(&sheet.Canvas{}, 0, 0, l))
	}
	across := max(1, min(int(r.W/least), len(used)))
	rows := (len(used) + across - 1) / across
	for i, l := range used {
		named(c, r.X+r.W/float64(across)*float64(i/rows), top+high*float64(i%rows), l)
	}
	return top + high*float64(rows)
}

// named draws a colour with its letters and its name behind, and gives how wide they are.
func named(c *sheet.Canvas, x, y float64, letters string) float64 {
	const swatch = 8
	page.Swatch(c, sheet.Rect{X: x, Y: y + 0.4, W: swatch, H: 3.2}, colour.Pair{Base: letters})
	at := swatch + 1.2
	c.Text(x+at, y+3.2, letters, sheet.Strong(sheet.SizeBody))
	at += typeface.Width(letters, sheet.Bold, sheet.SizeBody) + 1.2
	c.Text(x+at, y+3.2, colour.Name(letters), sheet.Plain(sheet.SizeBody))
	return at + typeface.Width(colour.Name(letters), sheet.Regular, sheet.SizeBody) + 2
}

// coloursUsed are the letters of insulations and tracers, in the order of the code.
func coloursUsed(a page.Ask) []string {
	met := map[string]bool{}
	for _, w := range a.H.Wires {
		p := a.Pair(w.ID)
		met[p.Base], met[p.Tracer] = true, true
	}
	var used []string
	for _, l := range colour.Letters() {
		if met[l] {
			used = append(used, l)
		}
	}
	return used
}

// ours tells whether a colour's letters are none of IEC 60757.
func ours(l string) bool { return l == "TN" || l == "LBU" || l == "LGN" }
