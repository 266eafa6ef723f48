// Package read takes in YAML text by tables of typed keys, every value exactly as it
// was written and with its span. It is strict: bytes that are not clean UTF-8, odd
// indents, second documents, type tags, unknown and duplicate keys are problems, all
// reported at once. It knows no section by itself; what it writes out before the tables
// are read are the files that a description includes, aliases, templates and each:. It is
// the only user of yaml.v3, which decodes the text to nodes.
package read

import "example.com/loomfolio/sizing/source"

// Word is a piece of text as written, with its place; names such as NO, 012
// and 00 keep every character. It is trimmed and composed (Unicode NFC); a word
// from a fixed list (kind, paper …) is given as the list spells it. The zero
// Word means "not written".
type Word struct {
	Text string
	Span source.Span
}

// Given tells whether the word was written.
func (w Word) Given() bool { return w.Span.Known() }

// Or gives the text, or the default where none was written or nothing is in it.
func (w Word) Or(def string) string {
	if w.Given() && w.Text != "" {
		return w.Text
	}
	return def
}

// Value is a parsed quantity together with the text it came from.
// The zero Value means "not written". One that was refused keeps its place and
// text, with a zero V, so that it is not called missing as well.
type Value[T any] struct {
	V       T
	Written string
	Span    source.Span
}

// Given tells whether the value was written.
func (v Value[T]) Given() bool { return v.Span.Known() }

// Or gives the value, or the default where none was written.
func (v Value[T]) Or(def T) T {
	if v.Given() {
		return v.V
	}
	return def
}
