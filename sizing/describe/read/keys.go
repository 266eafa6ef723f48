package read

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
)

// Key is one key of a section of the file: its name, what it holds, and how
// that is taken in. The tables of keys are the only place that names them.
type Key[T any] struct {
	Name  string
	Holds string   // what belongs there, for people
	Words []string // the words that are allowed, where only those are
	Must  bool
	joins Joining // of a key at the left edge: how the sections of several files are joined
	take  func(r *Reader, e Entry, into *T)
}

// Needed marks a key without which the section says nothing.
func Needed[T any](k Key[T]) Key[T] {
	k.Must = true
	return k
}

// Text holds text over any number of lines.
func Text[T any](name, holds string, at func(*T) *Word) Key[T] {
	return Key[T]{Name: name, Holds: holds, take: func(r *Reader, e Entry, into *T) {
		*at(into), _ = r.Scalar(e, holds)
	}}
}

// Line holds text on one line.
func Line[T any](name, holds string, at func(*T) *Word) Key[T] {
	return Key[T]{Name: name, Holds: holds, take: func(r *Reader, e Entry, into *T) {
		*at(into), _ = r.Line(e, holds)
	}}
}

// Choice holds one of a few words; capitals do not matter, the word is given
// as the list spells it.
func Choice[T any](name string, words []string, at func(*T) *Word) Key[T] {
	holds := "one of " + strings.Join(words, ", ")
	return Key[T]{Name: name, Holds: holds, Words: words, take: func(r *Reader, e Entry, into *T) {
		if w, ok := r.Line(e, holds); ok {
			*at(into) = r.Among(e.Key.Text, w, words)
		}
	}}
}

// Among checks a word against a list; an unknown one is reported and kept.
func (r *Reader) Among(what string, w Word, words []string) Word {
	for _, known := range words {
		if strings.EqualFold(w.Text, known) {
			return Word{Text: known, Span: w.Span}
		}
	}
	r.Say(w.Span, "unknown-word", fmt.Sprintf("%q is no %s that is known", w.Text, what), Guess(w.Text, words)+"It is one of: "+strings.Join(words, ", ")+".")
	return w
}

// Guess is a sentence that names the word that was perhaps meant, or "".
func Guess(word string, names []string) string {
	if twin, why := source.Twin(word, names); twin != "" {
		return fmt.Sprintf("Did you mean %q? They look alike: %s. ", twin, why)
	}
	if near := source.Nearest(word, names); near != "" {
		return fmt.Sprintf("Did you mean %q? ", near)
	}
	return ""
}

// Flag holds true or false; other words for them are refused, since some
// programs read them as flags and others as names.
func Flag[T any](name string, at func(*T) *Value[bool]) Key[T] {
	return Key[T]{Name: name, Holds: "true or false", take: func(r *Reader, e Entry, into *T) {
		*at(into) = Parsed(r, e, "true or false", parseFlag)
	}}
}

func parseFlag(text string) (bool, error) {
	switch text {
	case "true":
		return true, nil
	case "false":
		return false, nil
	}
	detail := "Write true or false."
	switch strings.ToLower(text) {
	case "yes", "on", "y", "true":
		detail = "Write true."
	case "no", "off", "n", "false":
		detail = "Write false."
	}
	return false, Refuse("bad-flag", fmt.Sprintf("%q is neither true nor false", text), detail)
}

// Quantity holds a number with its unit.
func Quantity[T, Q any](name, holds string, at func(*T) *Value[Q], parse func(string) (Q, error)) Key[T] {
	return Key[T]{Name: name, Holds: holds, take: func(r *Reader, e Entry, into *T) {
		*at(into) = Parsed(r, e, holds, parse)
	}}
}

// List holds words; custom shapes name their own reader.
func List[T any](name, holds string, at func(*T) *[]Word, read func(*Reader, Entry, string) []Word) Key[T] {
	return Custom(name, holds, func(r *Reader, e Entry, into *T) { *at(into) = read(r, e, holds) })
}

// Custom holds what its own function takes in.
func Custom[T any](name, holds string, take func(r *Reader, e Entry, into *T)) Key[T] {
	return Key[T]{Name: name, Holds: holds, take: take}
}

// Within holds a mapping that has a table of keys of its own.
func Within[T, S any](name string, keys []Key[S], at func(*T) *S) Key[T] {
	return Custom(name, "keys with values: "+ListOf(keys), func(r *Reader, e Entry, into *T) { Mapping(r, e, keys, at(into)) })
}

// ListOf names the keys of a table, for people.
func ListOf[T any](keys []Key[T]) string { return strings.Join(NamesOf(keys), ", ") }

// NamesOf gives the names of the keys of a table, in its order.
func NamesOf[T any](keys []Key[T]) []string {
	out := make([]string, len(keys))
	for i := range keys {
		out[i] = keys[i].Name
	}
	return out
}

// Mapping takes in a mapping by its table of keys, and reports what is missing.
func Mapping[T any](r *Reader, e Entry, keys []Key[T], into *T) {
	wants := "keys with values: " + ListOf(keys)
	if e.value.Kind != yaml.MappingNode {
		r.Entries(e, wants, false)
		return
	}
	es := r.Entries(e, wants, false)
	Take(r, es, keys, into)
	r.Demand(e, es, MustOf(keys))
}

// Take hands each entry to its key; unknown ones are reported.
func Take[T any](r *Reader, es []Entry, keys []Key[T], into *T) {
	for _, e := range es {
		i := slices.IndexFunc(keys, func(k Key[T]) bool { return k.Name == e.Key.Text })
		if i < 0 {
			r.unknownKey(e.Key, NamesOf(keys))
			continue
		}
		keys[i].take(r, e, into)
	}
}

// MustOf gives the names of those that cannot be left out.
func MustOf[T any](keys []Key[T]) []string {
	var out []string
	for _, k := range keys {
		if k.Must {
			out = append(out, k.Name)
		}
	}
	return out
}

// Demand reports the needed keys that are not there, at the key of what lacks
// them, or at the mapping itself where it is an item of a list.
func (r *Reader) Demand(e Entry, es []Entry, must []string) {
	at := e.Key.Span
	if e.item || !at.Known() {
		at = r.span(e.value)
	}
	for _, name := range must {
		if slices.ContainsFunc(es, func(x Entry) bool { return x.Key.Text == name }) {
			continue
		}
		r.Say(at, "missing-key", fmt.Sprintf("%s lacks the key %q", titleOf(e), name), fmt.Sprintf("Add %s: with its value; it cannot be left out.", name))
	}
}

func titleOf(e Entry) string {
	switch {
	case e.Key.Text == "":
		return "the file"
	case e.item:
		return fmt.Sprintf("this entry of %q", e.Key.Text)
	}
	return fmt.Sprintf("%q", e.Key.Text)
}

// unknownKey reports a key that the section does not have.
func (r *Reader) unknownKey(w Word, names []string) {
	meant := Guess(w.Text, names)
	if h := r.Habits[strings.ToLower(w.Text)]; meant == "" && slices.Contains(names, h) {
		meant = fmt.Sprintf("Did you mean %q? ", h)
	}
	r.Say(w.Span, "unknown-key", fmt.Sprintf("the key %q is not known here", w.Text), meant+"The keys here are: "+strings.Join(names, ", ")+".")
}
