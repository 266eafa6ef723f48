package tradeoff

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/unit"
)

// Heading is what heads the choices.
const Heading = "What was weighed, and what it comes to"

// Taken says which choice was taken and why: "Taken: 7 sizes, 28 reels, 6.20 kg of copper …".
func (s Sheet) Taken() string {
	c := s.taken()
	text := fmt.Sprintf("Taken: %s, %s, %s of copper", page.Counted(len(c.Sizes), "size"), page.Counted(c.Reels, "reel"), s.weight(c.Copper))
	if s.P.Least > 0 {
		text += fmt.Sprintf(" (%s times the least)", page.Figure(float64(c.Copper/s.P.Least), 2))
	}
	if on := sleeves(c); s.numbers() {
		text += ", all wires told apart by the number sleeve"
	} else if on != "" {
		text += ", " + on + " told apart by the sleeve alone"
	}
	if s.P.Why != "" {
		text += ": " + s.P.Why
	}
	return text + "."
}

// weighed says what the sums count.
func (s Sheet) weighed() string {
	w := s.P.Weights
	parts := []string{"a reel (one colour of one size, however long) 1"}
	if w.Money {
		parts = []string{"reels and copper at their prices, a size without one at the dearest"}
	}
	add := func(format string, x float64) {
		if x > 0 {
			parts = append(parts, fmt.Sprintf(format, page.Trimmed(x, 3)))
		}
	}
	if !w.Money {
		add("a tracer %s more", w.Tracer)
	}
	if !s.numbers() {
		add("a pair that the sleeve alone tells apart %s at a part", w.PartPair)
		add("in a run %s", w.RunPair)
	}
	if w.Copper > 0 && !w.Money {
		parts = append(parts, unit.MassText(w.Copper, s.Imperial)+" of copper 1")
	}
	if w.Metre > 0 && !w.Money {
		parts = append(parts, "a "+s.lengthName()+" "+page.Trimmed(s.perLength(w.Metre), 3))
	}
	add("a size more %s", w.Size)
	add("a kind of crimp %s", w.Kind)
	if w.Money && len(parts) > 1 {
		parts[len(parts)-1] += ", each in the shortest length of the cheapest wire"
	}
	return strings.Join(parts, ", ")
}

// perLength is a weight by the metre, or by the foot on an imperial sheet.
func (s Sheet) perLength(x float64) float64 {
	if s.Imperial {
		return x * 0.3048
	}
	return x
}

func (s Sheet) lengthName() string {
	if s.Imperial {
		return "foot"
	}
	return "metre"
}

// bounds says, size by size, how many reels are bought and how few there could be.
func (s Sheet) bounds() string {
	var out []string
	place := func(b purchase.Bound) int { return slices.Index(s.taken().Sizes, b.Gauge) }
	sorted := slices.SortedStableFunc(slices.Values(s.P.Bounds), func(a, b purchase.Bound) int { return place(a) - place(b) })
	for _, b := range sorted {
		out = append(out, page.Firm(b.Gauge.String()+": "+boundText(b)))
	}
	return strings.Join(out, "; ")
}

func boundText(b purchase.Bound) string {
	if b.Reels < b.Least {
		return fmt.Sprintf("%d, by colour alone %d", b.Reels, b.Least)
	}
	if b.Reels == b.Least {
		return fmt.Sprintf("%d, no fewer", b.Reels)
	}
	return fmt.Sprintf("%d, at least %d", b.Reels, b.Least)
}

// otherwise says how to have it bought in another way.
func (s Sheet) otherwise() string {
	ways := []struct{ key, does string }{
		{"few", "few reels"},
		{"clear", "least sizes, by colour"},
		{"numbers", "one colour a size, by sleeve"},
		{"{sizes: 6, reels: 30}", "at most"},
	}
	var out []string
	for _, w := range ways {
		if w.key != s.P.For {
			out = append(out, page.Firm(w.key)+" ("+w.does+")")
		}
	}
	return "practice: buy: " + strings.Join(out, ", ")
}

// numbers tells whether number sleeves tell all wires apart.
func (s Sheet) numbers() bool { return s.P.For == "numbers" }

// taught says which wires are told apart by colour, and where those stand that are not.
func (s Sheet) taught(where string) string {
	if s.numbers() {
		return "none that the rules do not: go by the number sleeve"
	}
	text := strings.TrimSuffix(s.P.Taught, ".")
	if where != "" && text != "" {
		text += "; pairs on the sleeve: " + where
	}
	return text
}

// Notes say what was counted, which wires are told apart, how few reels each size needs, how to have it otherwise,
// and what all comes to. Where is the sheet that lists the pairs on the sleeve, "" for none.
func (s Sheet) Notes(where, tools string) *table.Table {
	t := &table.Table{NoHead: true, NoZebra: true, Tight: true, Even: true, Size: sheet.SizeNote, Columns: []table.Column{{}, {Weight: 1}}}
	for _, n := range [][2]string{
		{"Weighed too", s.others()}, {"The sum counts", s.weighed()}, {"Told apart by colour", s.taught(where)},
		{"Reels by size", s.bounds()}, {"To choose otherwise", s.otherwise()},
		{"All that has a price", s.money()}, {"Pieces and mass", s.counted()}, {"Time to build", s.work()}, {"Crimping tools", tools}, {"Left after the build", s.left()},
	} {
		if n[1] != "" {
			t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Strong(page.Firm(n[0])), table.Text(n[1])}})
		}
	}
	return t
}
