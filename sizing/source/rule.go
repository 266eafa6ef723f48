package source

import (
	"fmt"
	"slices"
	"strings"
)

// Rule is one kind of problem: what is looked for, and a piece of a description in
// which it is found.
type Rule struct {
	Slug     string
	Level    Level  // the worst at which it is said
	Least    Level  // the mildest
	Says     string // one line, no capital, no point
	Examples []Example
}

// Example is wrong in one way. Texts are pieces of descriptions, the sections that
// they lack are the usual ones (package rules).
type Example struct {
	Text    string // with « before the place that the problem points at, where it has one
	Built   string // what was described before and is built in the vehicle, "" for nothing
	Planned string // the same, but planned alone
	Record  string // an as-built record as it stands in its file
	Words   string // that stand in what the problem says
}

// ParseRules reads a list of rules, each of the form
//
//	== SLUG LEVEL (or LEVEL or advice, where it is said as no more than that as well)
//	what it says
//	the example, with « before the place
//	-- built (or -- planned)
//	what was described before
//	-- record
//	the record
//	-- words
//	words that the problem contains
//	-- again
//	another example
//
// where all that begins with two dashes may be left out. Lines before the first rule
// are remarks. The lists are part of the program: one that cannot be read is a fault
// of it, said in the error.
func ParseRules(text string) ([]Rule, error) {
	var out []Rule
	for _, block := range strings.Split("\n"+text, "\n== ")[1:] {
		r, err := parseRule(block)
		if err != nil {
			return nil, err
		}
		out = append(out, r)
	}
	return out, nil
}

func parseRule(block string) (Rule, error) {
	head, rest, _ := strings.Cut(block, "\n")
	says, rest, _ := strings.Cut(rest, "\n")
	slug, word, _ := strings.Cut(head, " ")
	word, mild := strings.CutSuffix(word, " or advice")
	level := slices.IndexFunc([]Level{Error, Warning, Advice}, func(l Level) bool { return l.String() == word })
	if level < 0 || says == "" {
		return Rule{}, fmt.Errorf("the rule %q has no level, or does not say what it says", head)
	}
	r := Rule{Slug: slug, Level: Level(level), Least: Level(level), Says: says}
	if mild {
		r.Least = Advice
	}
	for _, part := range strings.Split("\n"+rest, "\n-- again\n") {
		if e := parseExample(part); e != (Example{}) {
			r.Examples = append(r.Examples, e)
		}
	}
	return r, nil
}

func parseExample(text string) Example {
	var e Example
	into, lines := &e.Text, []string(nil)
	end := func() {
		if body := strings.Trim(strings.Join(lines, "\n"), "\n"); body != "" {
			*into = body + "\n"
		}
		lines = nil
	}
	for _, line := range strings.Split(text, "\n") {
		next := map[string]*string{"-- built": &e.Built, "-- planned": &e.Planned, "-- record": &e.Record, "-- words": &e.Words}[line]
		if next == nil {
			lines = append(lines, line)
			continue
		}
		end()
		into = next
	}
	end()
	e.Words = strings.TrimSuffix(e.Words, "\n")
	return e
}
