// Package guess tells what kind of part a word, a name or its terminals speak of.
package guess

import (
	_ "embed"
	"regexp"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/handed/grid"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// Unknown is the kind of a part of which the tables do not say what it is.
const Unknown = "unknown"

// kindsCSV lists words for kinds, and letters that begin references where they say
// the kind alone; common practice, no source.
//
//go:embed kinds.csv
var kindsCSV string

// kindRows are its rows, words folded.
var kindRows = func() []kindRow {
	var out []kindRow
	for _, r := range grid.Own(kindsCSV) {
		row := kindRow{kind: r[0], letters: strings.Fields(r[2])}
		for _, w := range strings.Split(r[1], "|") {
			row.words = append(row.words, grid.Fold(w))
		}
		out = append(out, row)
	}
	return out
}()

type kindRow struct {
	kind           string
	words, letters []string
}

// Word gives the kind that a word stands for, "" for none.
func Word(word string) string {
	word = strings.ToLower(strings.TrimSpace(word))
	if word == "" {
		return ""
	}
	if _, ok := kind.Of(harness.Kind(word)); ok || word == Unknown {
		return word
	}
	if k := kind.Meant(word); k != "" {
		return string(k)
	}
	return kindNamed(word)
}

// kindNamed gives the kind that a name speaks of last: "fan relay" is a relay.
func kindNamed(name string) string {
	name = " " + grid.Fold(name) + " "
	best, longest, found := -1, 0, ""
	for _, row := range kindRows {
		for _, w := range row.words {
			i := strings.LastIndex(name, " "+w+" ")
			if end := i + len(w); i >= 0 && (end > best || end == best && len(w) > longest) {
				best, longest, found = end, len(w), row.kind
			}
		}
	}
	return found
}

var lettered = regexp.MustCompile(`^([A-Za-z]+)[ -]?[0-9]*$`)

// plain are the letters that say a kind alone; others, such as L and M, say it of some.
var plain = strings.Fields("BAT BATT GND G F MF K RLY X CN CON SP SPL FLS IGN ALT SW")

// Kind guesses the kind of a part by its terminals, its name and reference, its letters; ""
// where none says it.
func Kind(ref, name string, terminals []string) string {
	has := func(names ...string) bool {
		return !slices.ContainsFunc(names, func(n string) bool { return !slices.Contains(terminals, n) })
	}
	switch {
	case has("85", "86"):
		return string(harness.Relay)
	case has("49", "49a"):
		return string(harness.Flasher)
	}
	if k := kindNamed(name + " " + ref); k != "" {
		return k
	}
	if f := lettered.FindStringSubmatch(ref); f != nil {
		letters := strings.ToUpper(f[1])
		for _, row := range kindRows {
			if slices.Contains(row.letters, letters) && slices.Contains(plain, letters) {
				return row.kind
			}
		}
	}
	return ""
}

// Usual gives the terminals of a kind that has some by which it is known.
func Usual(k string) []string {
	row, ok := kind.Of(harness.Kind(k))
	if !ok || row.Terminals == "1 2" {
		return nil
	}
	if row.Kind == harness.Relay {
		return strings.Fields(row.Terminals + " 87a")
	}
	return strings.Fields(row.Terminals)
}
