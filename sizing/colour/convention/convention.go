// Package convention holds what colour each custom of the trade gives to what a wire
// does: British, German, marine, trailers. One file a convention, each row with its
// source; rows that other lists contradict, or that are true of one model alone, are
// kept and marked, and never chosen by.
package convention

import (
	"embed"
	"encoding/csv"
	"slices"
	"strings"
	"sync"
)

// Set is one convention.
type Set struct {
	Word    string // as the description names it
	Title   string // for people: British practice
	Ground  string // letters of the ground's colour; "" where it has none
	Feed    string // of feeds straight from the battery
	Remark  string
	base    string // the file of its rows
	edition string // rows of another edition are left out
}

// Row is the colour that a set gives to a function.
type Row struct {
	Function     string
	Base, Tracer string // IEC 60757 letters; a tracer "*" is any
	Code         string // the convention's own letters for it, or its terminal or pin; "" for none
	Says         string
	Edition      string // "" for every one
	Unused       string // why it is not chosen by; "" where it is
	Source       string
}

// Function is what a wire may do, in the one word of all conventions.
type Function struct {
	Word      string
	Says      string
	Where     Where
	Terminals []string // by which it is known: kind.terminal, with * for any kind but a relay, &OTHER where the part must have that one too; a kind alone
	Names     []string // of circuits that do this, in lower case
}

// Where says which of a circuit's wires have the function's colour.
type Where string

// The places.
const (
	AtLoad Where = "load"   // those that bring the current to its loads
	Behind Where = "behind" // those between a load and what grounds it
	All    Where = "all"    // all that are live
)

//go:embed *.csv
var files embed.FS

// rowsOf reads a file without its heading; the files are part of the program.
func rowsOf(name string) [][]string {
	f, err := files.Open(name + ".csv")
	if err != nil {
		return nil
	}
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) == 0 {
		return nil
	}
	return rows[1:]
}

// Sets lists the conventions.
var Sets = sync.OnceValue(func() []Set {
	var out []Set
	for _, r := range rowsOf("sets") {
		out = append(out, Set{Word: r[0], Title: r[1], Ground: r[2], Feed: r[3], base: r[4], edition: r[5], Remark: r[6]})
	}
	return out
})

// Of gives the set of a word; false where there is none.
func Of(word string) (Set, bool) {
	i := slices.IndexFunc(Sets(), func(s Set) bool { return s.Word == word })
	if i < 0 {
		return Set{}, false
	}
	return Sets()[i], true
}

// Words lists the words of the sets.
func Words() []string {
	var out []string
	for _, s := range Sets() {
		out = append(out, s.Word)
	}
	return out
}

// every holds the rows of all files by name.
var every = sync.OnceValue(func() map[string][]Row {
	out := map[string][]Row{}
	for _, s := range Sets() {
		if out[s.base] != nil {
			continue
		}
		for _, r := range rowsOf(s.base) {
			base, tracer, _ := strings.Cut(r[1], "/")
			out[s.base] = append(out[s.base], Row{Function: r[0], Base: base, Tracer: tracer, Code: r[2], Says: r[3], Edition: r[4], Unused: r[5], Source: r[6]})
		}
	}
	return out
})

// Rows lists the rows of a set's edition, those that are not chosen by too.
func (s Set) Rows() []Row {
	return slices.DeleteFunc(slices.Clone(every()[s.base]), func(r Row) bool { return r.Edition != "" && r.Edition != s.edition })
}

// For gives the row of a function; false where the set has none to choose by.
func (s Set) For(function string) (Row, bool) {
	for _, r := range every()[s.base] {
		if r.Function == function && r.Unused == "" && (r.Edition == "" || r.Edition == s.edition) {
			return r, true
		}
	}
	return Row{}, false
}

// Functions lists what wires do.
var Functions = sync.OnceValue(func() []Function {
	var out []Function
	for _, r := range rowsOf("functions") {
		f := Function{Word: r[0], Says: r[1], Where: Where(r[2]), Terminals: strings.Fields(r[3])}
		if r[4] != "" {
			f.Names = strings.Split(r[4], "|")
		}
		out = append(out, f)
	}
	return out
})

// Known gives a function by its word; one of the description's own stands at the loads.
func Known(word string) Function {
	for _, f := range Functions() {
		if f.Word == word {
			return f
		}
	}
	return Function{Word: word, Says: word, Where: AtLoad}
}

// FunctionWords lists the words of the functions.
func FunctionWords() []string {
	var out []string
	for _, f := range Functions() {
		out = append(out, f.Word)
	}
	return out
}

// Named gives the function that a circuit's name says in full, "" where it says none: a
// name that says more than a function, or less, is not guessed at.
func Named(name string) string {
	name = Plain(name)
	for _, f := range Functions() {
		if name == Plain(f.Word) || slices.Contains(f.Names, name) {
			return f.Word
		}
	}
	return ""
}

// Plain is a name in small letters with single blanks between its words.
func Plain(name string) string {
	return strings.ToLower(strings.Join(strings.FieldsFunc(name, func(c rune) bool { return c == ' ' || c == '-' || c == '_' }), " "))
}
