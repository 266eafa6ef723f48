package refuse

import (
	_ "embed" // for the table
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"sync"
)

//go:embed words.csv
var wordList string

// entry is a row of the table.
type entry struct {
	language string
	word     string // as one says it
	patterns []pattern
	subject  Subject
	action   string
	unless   []pattern // beside these it means something else
	instead  Subject   // which is this; "" is nothing
}

// The columns of the table.
const (
	colLanguage = iota
	colWord
	colMatch
	colSubject
	colAction
	colUnless
	colInstead
	colWhy
	colSource
	colStatus
	columns
)

// What the table says of a word.
const (
	refuse    = "refuse" // nothing is described under it
	advise    = "advise" // something is to be said, and it may stay
	pass      = "pass"   // it is another thing, which holds a word that would be refused
	byFigures = "figure" // it exists at 12 V: the figures decide
	leave     = "leave"  // it is too much else: only what stands beside it decides
)

var languages = map[string]string{
	"en": "English", "de": "German", "fr": "French", "es": "Spanish", "it": "Italian",
	"nl": "Dutch", "pl": "Polish", "ru": "Russian", "ja": "Japanese",
}

// table holds the words to look for, and those of the stop-list.
var table = sync.OnceValue(func() (t struct{ look, stop []entry }) {
	for _, r := range rows() {
		e := entryOf(r)
		switch e.action {
		case pass:
			t.stop = append(t.stop, e)
		case refuse, advise:
			t.look = append(t.look, e)
		}
	}
	return t
})

// rows are those of the embedded table, which TestTable reads; so none can be wrong.
func rows() [][]string {
	all, err := readRows(wordList)
	if err != nil {
		return nil
	}
	return all
}

func readRows(text string) ([][]string, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord = columns
	all, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("the table of words: %w", err)
	}
	return all[1:], nil
}

func entryOf(r []string) entry {
	return entry{
		language: languages[r[colLanguage]], word: r[colWord], patterns: patternsOf(r[colLanguage], r[colMatch]),
		subject: Subject(r[colSubject]), action: r[colAction],
		unless: patternsOf("", r[colUnless]), instead: Subject(r[colInstead]),
	}
}

// patternsOf reads alternatives; German ones with an umlaut also as they are written without.
func patternsOf(language, text string) []pattern {
	var out []pattern
	for _, alt := range strings.FieldsFunc(text, func(c rune) bool { return c == '|' }) {
		forms := []string{alt}
		if spelt := umlauts.Replace(alt); language == "de" && spelt != alt {
			forms = append(forms, spelt)
		}
		for _, form := range forms {
			if p := patternOf(form); len(p.pieces) > 0 {
				out = append(out, p)
			}
		}
	}
	return slices.Clip(out)
}

var umlauts = strings.NewReplacer("ä", "ae", "ö", "oe", "ü", "ue", "Ä", "Ae", "Ö", "Oe", "Ü", "Ue")
