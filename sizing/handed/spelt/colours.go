package spelt

import (
	_ "embed"
	"strings"

	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/handed/grid"
)

// coloursCSV lists words and letters for colours: names in several languages, and two
// sets of letters that contradict each other, of which a table uses one: German (DIN 47002)
// and British single letters (as on workshop drawings); common practice, no source.
//
//go:embed colours.csv
var coloursCSV string

// codeSets are what it says, by set of letters.
var codeSets = map[string]map[string]string{"word": codes("word"), "german": codes("german"), "british": codes("british")}

// codes gives for a set of letters what each word stands for.
func codes(set string) map[string]string {
	out := map[string]string{}
	for _, row := range grid.Own(coloursCSV) {
		if row[1] != set {
			continue
		}
		for _, w := range strings.Split(row[2], "|") {
			out[grid.Fold(w)] = row[0]
		}
	}
	return out
}

// sets are the sets of letters, the one that is taken first where two read as many cells.
var sets = [...]string{"word", "german", "british"}

// Colours reads colours as one table writes them.
type Colours struct{ plain, set map[string]string }

// ColoursOf takes the set of letters that reads the most cells, and names it; "" for words alone.
func ColoursOf(cells []string) (Colours, string) {
	best, most, name := Colours{plain: codeSets["word"]}, -1, sets[0]
	for _, set := range sets {
		r, n := Colours{codeSets["word"], codeSets[set]}, 0
		for _, c := range cells {
			if _, ok := r.Read(c); ok {
				n++
			}
		}
		if n > most {
			best, most, name = r, n, set
		}
	}
	if name == sets[0] {
		name = ""
	}
	return best, name
}

// Read gives a wire's colours in the letters of the format, OG/BK; ok is false for what
// is no colour, or more than two.
func (r Colours) Read(cell string) (letters string, ok bool) {
	if p, err := colour.Parse(cell); err == nil {
		return p.String(), true
	}
	name := grid.Fold(strings.ReplaceAll(cell, "(", " "))
	if one, ok := r.one(name); ok {
		return one, true
	}
	fields := strings.Fields(name)
	for i := 1; i < len(fields); i++ {
		base, ok1 := r.one(strings.Join(fields[:i], " "))
		rest := fields[i:]
		if len(rest) > 1 && (rest[0] == "with" || rest[0] == "mit" || rest[0] == "w" || rest[0] == "avec" || rest[0] == "con" || rest[0] == "met") {
			rest = rest[1:]
		}
		tracer, ok2 := r.one(strings.Join(rest, " "))
		if ok1 && ok2 && base == tracer {
			return base, true
		}
		if ok1 && ok2 {
			return base + "/" + tracer, true
		}
	}
	for i := 1; i < len(name) && len(fields) == 1; i++ {
		base, ok1 := r.one(name[:i])
		tracer, ok2 := r.one(name[i:])
		if ok1 && ok2 && base != tracer {
			return base + "/" + tracer, true
		}
	}
	return "", false
}

func (r Colours) one(word string) (string, bool) {
	for _, set := range []map[string]string{r.set, r.plain} {
		if l, ok := set[word]; ok {
			return l, true
		}
	}
	return "", false
}
