package read

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Reader walks one file and gathers its problems.
type Reader struct {
	file     *source.File // the description, with the files that it includes
	number   int          // of the file that is being decoded: source.Span.File
	lines    []string     // of that file
	problems source.Problems
	shared   *shared
	left     map[string]bool   // top-level keys whose sections could not be read
	System   unit.System       // how sizes without a system word are meant: for whoever reads them
	Habits   map[string]string // words that people use for a key, with the key that is meant
}

// Entry is one key of a mapping with its value, or one item of a list with
// the list's key.
type Entry struct {
	Key   Word
	value *yaml.Node
	item  bool
	at    source.Span // of a value that is read once more, else not known
}

// IsMap tells of a value that it is a mapping.
func (e Entry) IsMap() bool { return e.value.Kind == yaml.MappingNode }

// IsList tells of a value that it is a list.
func (e Entry) IsList() bool { return e.value.Kind == yaml.SequenceNode }

// IsOne tells of a value that it is neither.
func (e Entry) IsOne() bool { return e.value.Kind == yaml.ScalarNode }

// IsAlias tells of a value that it cannot be read, which has been reported.
func (e Entry) IsAlias() bool { return e.value.Kind == yaml.AliasNode }

// Empty tells whether the value was left out (or written as null or ~).
func (e Entry) Empty() bool { return missing(e.value) }

// Text gives a single value as it is written, without the blanks round it.
func (e Entry) Text() string { return strings.TrimSpace(e.value.Value) }

// Child gives the value of a key of a mapping, before it is read.
func (e Entry) Child(name string) (Entry, bool) {
	if e.value == nil || !e.IsMap() {
		return Entry{}, false
	}
	for i := 0; i+1 < len(e.value.Content); i += 2 {
		if e.value.Content[i].Value == name {
			return Entry{value: e.value.Content[i+1]}, true
		}
	}
	return Entry{}, false
}

// Itself is a word that is read once more, as a value under its own name.
func Itself(w Word) Entry {
	n := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: w.Text, Line: w.Span.Start.Line, Column: w.Span.Start.Column}
	return Entry{Key: w, value: n, at: w.Span}
}

// Open checks a file's bytes and decodes it. It is not ok where nothing of the top
// mapping can be read; why not is among the problems.
func Open(name string, text []byte) (r *Reader, top Entry, ok bool) {
	return OpenAll(Given{Name: name, Text: text})
}

// decoded checks the bytes of the file at hand and decodes it, aliases written out; nil
// where nothing of it can be read.
func (r *Reader) decoded(text []byte) *yaml.Node {
	if !r.checkSize(text) {
		return nil
	}
	r.lines = splitLines(text)
	root := r.tree(r.checkLines())
	if root == nil {
		return nil
	}
	r.own(root)
	r.checkNodes(root)
	return r.written(root)
}

// File gives the file as messages show it.
func (r *Reader) File() *source.File { return r.file }

// Problems gives the problems in the order of the file.
func (r *Reader) Problems() source.Problems { return r.problems.Sorted() }

// Said counts the problems so far.
func (r *Reader) Said() int { return len(r.problems) }

// Skipped tells of a top-level key that its section could not be read.
func (r *Reader) Skipped(key string) bool { return r.left[key] }

// Place gives the place of an entry's value.
func (r *Reader) Place(e Entry) source.Span {
	if e.at.Known() {
		return e.at
	}
	return r.span(e.value)
}

// Say notes a problem; far more of them than anybody reads are cut off.
func (r *Reader) Say(at source.Span, slug, summary, detail string, others ...source.Note) {
	switch n := len(r.problems); {
	case n > mostSaid:
		return
	case n == mostSaid:
		slug, summary, others = "too-many-problems", fmt.Sprintf("there are more than %d problems", mostSaid), nil
		at, detail = source.Span{}, "Is this the right file? What is left out here comes when these are put right."
	}
	at.File = max(at.File, r.number)
	for i := range others {
		others[i].Span.File = max(others[i].Span.File, r.number)
	}
	r.problems = append(r.problems, source.Problem{Slug: slug, Level: source.Error, Span: at,
		Summary: summary, Detail: detail, Others: others})
}

// Mention notes a problem that does not stop the work.
func (r *Reader) Mention(level source.Level, at source.Span, slug, summary, detail string) {
	if len(r.problems) < mostSaid {
		r.Say(at, slug, summary, detail)
		r.problems[len(r.problems)-1].Level = level
	}
}

// Concerns names what the problem that was said last is about.
func (r *Reader) Concerns(names ...string) {
	if n := len(r.problems); n > 0 {
		r.problems[n-1].Subjects = append(r.problems[n-1].Subjects, names...)
	}
}

// missing tells whether a value was left out (or written as null or ~).
func missing(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.ShortTag() == "!!null" }

// present reports an empty value; it gives false for that, and for what cannot be read
// and has been reported already.
func (r *Reader) present(e Entry, wants string) bool {
	if e.value.Kind == yaml.AliasNode {
		return false
	}
	if !missing(e.value) {
		return true
	}
	detail := "Write " + wants + ", or leave the key out."
	if e.value.Anchor != "" {
		detail = fmt.Sprintf("\"&%s\" names a value for reuse, and none follows: where the text begins with & put it in quotes.", e.value.Anchor)
	}
	if hash := r.hashAfter(e); hash != "" {
		detail = fmt.Sprintf("A # after a space begins a comment, so nothing is left of the value: write \"%s\" in quotes.", hash)
	}
	r.Say(e.Key.Span, "empty-value", fmt.Sprintf("%q has no value", e.Key.Text), detail)
	return false
}

// hashAfter gives the word behind a # that follows a key, or "".
func (r *Reader) hashAfter(e Entry) string {
	line := []rune(r.file.LineOf(e.Key.Span))
	at := e.Key.Span.Start.Column - 1 + e.Key.Span.Width
	if at < 0 || at >= len(line) {
		return ""
	}
	if m := hashWord.FindStringSubmatch(string(line[at:])); m != nil {
		return m[1]
	}
	return ""
}

var (
	hashWord = regexp.MustCompile(`^\s*:?\s+(#[^\s,}\]]+)`)
	hashCut  = regexp.MustCompile(`^\s+(#[0-9][^,}\]]*)`)
)

// Scalar gives a single value as a word: trimmed, and composed (NFC) so that
// an accent is one character. ok is false when there is none; that is reported.
func (r *Reader) Scalar(e Entry, wants string) (w Word, ok bool) {
	if !r.present(e, wants) {
		return Word{}, false
	}
	if e.value.Kind != yaml.ScalarNode {
		r.Say(r.Place(e), "wrong-shape", fmt.Sprintf("%q holds %s where one value belongs", e.Key.Text, shape(e.value)), "Write "+wants+".")
		return Word{}, false
	}
	w = Word{Text: norm.NFC.String(strings.TrimSpace(e.value.Value)), Span: r.Place(e)}
	if w.Text == "" {
		r.Say(w.Span, "empty-value", fmt.Sprintf("%q has an empty value", e.Key.Text), "Write "+wants+", or leave the key out.")
		return Word{}, false
	}
	r.checkEscapes(w)
	r.warnOfCut(w)
	return w, true
}

// checkEscapes refuses hidden characters written as escapes in double quotes.
func (r *Reader) checkEscapes(w Word) {
	for _, c := range w.Text {
		if c != '\n' && hidden(c) {
			r.Say(w.Span, "hidden-character", fmt.Sprintf("the text holds %s", nameOf(c)), "Write it without that escape: it does not show.")
			return
		}
	}
}

// warnOfCut points out a # that was perhaps meant to belong to the value.
func (r *Reader) warnOfCut(w Word) {
	line := []rune(r.file.LineOf(w.Span))
	end := w.Span.Start.Column - 1 + w.Span.Width
	if end < 0 || end >= len(line) {
		return
	}
	if m := hashCut.FindStringSubmatch(string(line[end:])); m != nil {
		cut := strings.TrimSpace(m[1])
		r.Mention(source.Warning, w.Span.Moved(end+1+strings.Index(m[0], "#"), source.Width(cut)), "cut-at-hash",
			fmt.Sprintf("%q is read as a comment, the value is %q", cut, w.Text),
			"Put the whole value in quotes if it belongs to it; else put a space after the #.")
	}
}

// Line gives a value that must stand on one line.
func (r *Reader) Line(e Entry, wants string) (Word, bool) {
	w, ok := r.Scalar(e, wants)
	if ok && strings.ContainsFunc(w.Text, unicode.IsControl) {
		r.Say(w.Span, "wrong-shape", fmt.Sprintf("%q runs over several lines", e.Key.Text), "Write "+wants+" on one line.")
		return Word{}, false
	}
	return w, ok
}

func shape(n *yaml.Node) string {
	switch n.Kind {
	case yaml.SequenceNode:
		return "a list"
	case yaml.MappingNode:
		return "a mapping"
	}
	return "one value"
}

// Entries gives the keys of a mapping in order. Keys that are no plain words,
// and keys given twice, are reported. names says that the keys are names that
// the user chose: those must differ by more than case, accents or look.
func (r *Reader) Entries(e Entry, wants string, names bool) []Entry {
	if !r.present(e, wants) {
		return nil
	}
	if e.value.Kind != yaml.MappingNode {
		r.Say(r.span(e.value), "wrong-shape", fmt.Sprintf("%q holds %s where keys with values belong", e.Key.Text, shape(e.value)), "Write "+wants+".")
		return nil
	}
	var out []Entry
	content := e.value.Content
	if e.value.Style&yaml.FlowStyle != 0 {
		content = r.commas(content)
	}
	for i := 0; i+1 < len(content); i += 2 {
		if key, ok := r.key(content[i]); ok {
			out = append(out, Entry{Key: key, value: content[i+1]})
		}
	}
	r.repeats(keysOf(out), names)
	return out
}

func keysOf(es []Entry) []Word {
	out := make([]Word, len(es))
	for i := range es {
		out[i] = es[i].Key
	}
	return out
}

// key reads a key as a word.
func (r *Reader) key(n *yaml.Node) (Word, bool) {
	text := norm.NFC.String(strings.TrimSpace(n.Value))
	switch {
	case n.Kind == yaml.AliasNode:
	case n.Kind != yaml.ScalarNode:
		r.Say(r.span(n), "wrong-shape", fmt.Sprintf("a key cannot be %s", shape(n)), "Write a plain word before the colon.")
	case text == "" || missing(n):
		r.Say(r.span(n), "empty-value", "a key is empty", "Write a word before the colon.")
	case strings.ContainsFunc(text, hidden):
		r.Say(r.span(n), "hidden-character", "a key holds characters that do not show", "Write a plain word before the colon.")
	default:
		return Word{Text: text, Span: r.span(n)}, true
	}
	return Word{}, false
}

// repeats reports words that are given twice. Names are compared folded.
func (r *Reader) repeats(words []Word, names bool) {
	first := map[string]Word{}
	for _, w := range words {
		id := alike(w.Text)
		if names {
			id = strings.ToLower(id)
		}
		old, seen := first[id]
		if !seen {
			first[id] = w
			continue
		}
		r.sayRepeat(old, w, names)
	}
}

func (r *Reader) sayRepeat(old, w Word, names bool) {
	slug, detail := "duplicate-key", "Keep one of the two."
	if names {
		slug, detail = "duplicate-name", "Give one of the two another name."
	}
	if old.Span.Use != w.Span.Use && w.Span.Start == old.Span.Start && w.Span.File == old.Span.File {
		detail = "It is written once and read in several places: put one of the marks into it, such as <side>."
	}
	summary := fmt.Sprintf("%q is given twice", w.Text)
	if old.Text != w.Text {
		summary = fmt.Sprintf("%q looks the same as %q", w.Text, old.Text)
	}
	r.Say(w.Span, slug, summary, detail, source.Note{Span: old.Span, Text: "it was given here first"})
}

// Items gives the elements of a list as entries with the list's key.
func (r *Reader) Items(e Entry, wants string) []Entry {
	if !r.present(e, wants) {
		return nil
	}
	if e.value.Kind != yaml.SequenceNode {
		r.Say(r.span(e.value), "wrong-shape", fmt.Sprintf("%q holds %s where a list belongs", e.Key.Text, shape(e.value)), "Write "+wants+".")
		return nil
	}
	out := make([]Entry, 0, len(e.value.Content))
	for _, n := range e.value.Content {
		key := Word{Text: e.Key.Text, Span: e.Key.Span}
		if missing(n) {
			key.Span = r.span(n)
		}
		out = append(out, Entry{Key: key, value: n, item: true})
	}
	return out
}

// Words gives a list of words.
func (r *Reader) Words(e Entry, wants string) []Word {
	var out []Word
	for _, item := range r.Items(e, wants) {
		if w, ok := r.Line(item, "a name"); ok {
			out = append(out, w)
		}
	}
	return out
}

// Unique gives a list of words that must all look different.
func (r *Reader) Unique(e Entry, wants string) []Word {
	out := r.Words(e, wants)
	r.Distinct(out)
	return out
}

// Distinct refuses names in a list that look the same; case counts, since
// connectors have cavities A and a.
func (r *Reader) Distinct(words []Word) {
	before := len(r.problems)
	r.repeats(words, false)
	for i := before; i < len(r.problems); i++ {
		r.problems[i].Slug, r.problems[i].Detail = "duplicate-name", "Give one of the two another name."
	}
}

// refusal is an error of a value that has a slug and a summary of its own.
type refusal struct{ slug, summary, detail string }

func (e *refusal) Error() string { return e.summary }

// Refuse gives such an error, for a parser of values.
func Refuse(slug, summary, detail string) error { return &refusal{slug, summary, detail} }

// Parsed parses a quantity. A refused one keeps its place and text, so that
// it counts as written.
func Parsed[Q any](r *Reader, e Entry, wants string, parse func(string) (Q, error)) Value[Q] {
	w, ok := r.Line(e, wants)
	if !ok {
		return Value[Q]{}
	}
	v, own, err := mended(w.Text, parse)
	if err == nil {
		return Value[Q]{V: v, Written: w.Text, Span: w.Span}
	}
	if rest := r.cutByComma(e, w); rest != "" {
		r.sayComma(w.Span, []string{w.Text, rest})
		return Value[Q]{Written: w.Text, Span: w.Span}
	}
	if own == nil {
		own = &refusal{"bad-quantity", fmt.Sprintf("%q cannot be read as %s", w.Text, wants), meant(w.Text, parse) + upperFirst(err.Error())}
	}
	r.Say(w.Span, own.slug, own.summary, own.detail)
	return Value[Q]{Written: w.Text, Span: w.Span}
}

// mended parses a quantity, where it cannot be read also with the digits for which
// letters of it may stand (1O A, l2 V). own is a refusal with words of its own.
func mended[Q any](text string, parse func(string) (Q, error)) (v Q, own *refusal, err error) {
	if v, err = parse(text); errors.As(err, &own) {
		return v, own, err
	}
	if err == nil {
		return v, nil, unit.Thousands(text)
	}
	if better := unit.Mended(text); better != text {
		again, second := parse(better)
		if second == nil {
			return again, nil, unit.Thousands(better)
		}
		if errors.As(second, &own) {
			return again, own, second
		}
	}
	return v, nil, err
}

// meant is a sentence that writes out a number of letters alone as the digits that it
// looks like, where that can be read, or "".
func meant[Q any](text string, parse func(string) (Q, error)) string {
	first, rest, _ := strings.Cut(text, " ")
	better := strings.TrimSpace(source.Digits(first) + " " + rest)
	if _, err := parse(better); err != nil || better == text {
		return ""
	}
	return fmt.Sprintf("Did you mean %q, with digits? ", better)
}

// upperFirst gives a sentence its capital.
func upperFirst(text string) string {
	for i, c := range text {
		return string(unicode.ToUpper(c)) + text[i+len(string(c)):]
	}
	return text
}
