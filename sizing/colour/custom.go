package colour

import (
	_ "embed"
	"encoding/csv"
	"slices"
	"strings"
	"sync"

	"example.com/loomfolio/sizing/harness"
)

//go:embed conventions.csv
var conventionText string

// custom is the colour that a set of conventions gives to a function. A tracer
// of "*" is any tracer. At names the kind of part, or its terminal, by which
// the function is known where a circuit does not say it.
type custom struct {
	set, function string
	colour        Pair
	at            string
}

// conventions gives the table: the set for direct current on boats (ABYC E-11)
// and the looms of German cars, row by row with their sources.
var conventions = sync.OnceValue(func() []custom {
	rows, err := csv.NewReader(strings.NewReader(conventionText)).ReadAll()
	if err != nil {
		return nil
	}
	var out []custom
	for _, row := range rows[1:] {
		base, tracer, _ := strings.Cut(row[2], "/")
		out = append(out, custom{set: row[0], function: row[1], colour: Pair{base, tracer}, at: row[3]})
	}
	return out
})

// Functions lists the words that some set of conventions knows, each once, in
// the order of the table.
func Functions() []string {
	var out []string
	for _, c := range conventions() {
		if !slices.Contains(out, c.function) {
			out = append(out, c.function)
		}
	}
	return out
}

// customs gives the conventions in force.
func customs(h *harness.Harness) []custom {
	var out []custom
	for _, c := range conventions() {
		if c.set == h.Practice.Conventions {
			out = append(out, c)
		}
	}
	for _, r := range h.Practice.Customs {
		own := custom{set: "own", function: r.Function, colour: Pair{r.Base, r.Tracer}}
		for _, c := range conventions() {
			if c.function == r.Function && c.at != "" {
				own.at = c.at
			}
		}
		out = append(out, own)
	}
	return out
}

// customOf finds the convention for a wire: that of its circuit's function, or
// that of a terminal on which it ends.
func customOf(h *harness.Harness, in []custom, w harness.Wire) (custom, bool) {
	task := h.Circuits[w.Circuit].Task
	for _, c := range in {
		if task != "" && c.function == task || task == "" && c.at != "" && (isAt(h, w.From, c.at) || isAt(h, w.To, c.at)) {
			return c, true
		}
	}
	return custom{}, false
}

// isAt tells whether a terminal is the one that is meant: "horn", "starter.50".
func isAt(h *harness.Harness, t harness.TerminalID, at string) bool {
	p := h.PartOf(t)
	if p == nil {
		return false
	}
	kind, name, one := strings.Cut(at, ".")
	return string(p.Kind) == kind && (!one || h.Terminals[t].Name == name)
}

// hit tells how well a pair keeps to a convention: 2 as written, 1 by its base, 0 not at all.
func (c custom) hit(p Pair) int {
	switch {
	case p == c.colour, p.Base == c.colour.Base && c.colour.Tracer == "*" && p.Tracer != "":
		return 2
	case p.Base == c.colour.Base:
		return 1
	}
	return 0
}
