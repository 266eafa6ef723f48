package describe

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

// reader walks one file and gathers its problems.
type reader struct {
	file     *source.File
	lines    []string
	problems source.Problems
	skipped  map[string]bool // top-level keys whose sections could not be read
	system   unit.System     // how sizes without a system word are meant
}

// entry is one key of a mapping with its value, or one item of a list with
// the list's key.
type entry struct {
	key   Word
	value *yaml.Node
	item  bool
}

// say notes a problem; far more of them than anybody reads are cut off.
func (r *reader) say(at source.Span, slug, summary, detail string, others ...source.Note) {
	switch n := len(r.problems); {
	case n > mostSaid:
		return
	case n == mostSaid:
		slug, summary, others = "too-many-problems", fmt.Sprintf("there are more than %d problems", mostSaid), nil
		at, detail = source.Span{}, "Is this the right file? What is left out here comes when these are put right."
	}
	r.problems = append(r.problems, source.Problem{Slug: slug, Level: source.Error, Span: at,
		Summary: summary, Detail: detail, Others: others})
}

// mention notes a problem that does not stop the work.
func (r *reader) mention(level source.Level, at source.Span, slug, summary, detail string) {
	if len(r.problems) < mostSaid {
		r.say(at, slug, summary, detail)
		r.problems[len(r.problems)-1].Level = level
	}
}

// missing tells whether a value was left out (or written as null or ~).
func missing(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.ShortTag() == "!!null" }

// present reports an empty value; it gives false for that, and for aliases,
// which have been reported already.
func (r *reader) present(e entry, wants string) bool {
	if e.value.Kind == yaml.AliasNode {
		return false
	}
	if !missing(e.value) {
		return true
	}
	detail := "Write " + wants + ", or leave the key out."
	if hash := r.hashAfter(e); hash != "" {
		detail = fmt.Sprintf("A # after a space begins a comment, so nothing is left of the value: write \"%s\" in quotes.", hash)
	}
	r.say(e.key.Span, "empty-value", fmt.Sprintf("%q has no value", e.key.Text), detail)
	return false
}

// hashAfter gives the word behind a # that follows a key, or "".
func (r *reader) hashAfter(e entry) string {
	line := []rune(r.file.Line(e.key.Span.Start.Line))
	at := e.key.Span.Start.Column - 1 + e.key.Span.Width
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

// scalar gives a single value as a word: trimmed, and composed (NFC) so that
// an accent is one character. ok is false when there is none; that is reported.
func (r *reader) scalar(e entry, wants string) (w Word, ok bool) {
	if !r.present(e, wants) {
		return Word{}, false
	}
	if e.value.Kind != yaml.ScalarNode {
		r.say(r.span(e.value), "wrong-shape", fmt.Sprintf("%q holds %s where one value belongs", e.key.Text, shape(e.value)), "Write "+wants+".")
		return Word{}, false
	}
	w = Word{Text: norm.NFC.String(strings.TrimSpace(e.value.Value)), Span: r.span(e.value)}
	if w.Text == "" {
		r.say(w.Span, "empty-value", fmt.Sprintf("%q has an empty value", e.key.Text), "Write "+wants+", or leave the key out.")
		return Word{}, false
	}
	r.checkEscapes(w)
	r.warnOfCut(w)
	return w, true
}

// checkEscapes refuses hidden characters written as escapes in double quotes.
func (r *reader) checkEscapes(w Word) {
	for _, c := range w.Text {
		if c != '\n' && hidden(c) {
			r.say(w.Span, "hidden-character", fmt.Sprintf("the text holds %s", nameOf(c)), "Write it without that escape: it does not show.")
			return
		}
	}
}

// warnOfCut points out a # that was perhaps meant to belong to the value.
func (r *reader) warnOfCut(w Word) {
	line := []rune(r.file.Line(w.Span.Start.Line))
	end := w.Span.Start.Column - 1 + w.Span.Width
	if end < 0 || end >= len(line) {
		return
	}
	if m := hashCut.FindStringSubmatch(string(line[end:])); m != nil {
		cut := strings.TrimSpace(m[1])
		r.mention(source.Warning, source.At(w.Span.Start.Line, end+1+strings.Index(m[0], "#"), source.Width(cut)), "cut-at-hash",
			fmt.Sprintf("%q is read as a comment, the value is %q", cut, w.Text),
			"Put the whole value in quotes if it belongs to it; else put a space after the #.")
	}
}

// line gives a value that must stand on one line.
func (r *reader) line(e entry, wants string) (Word, bool) {
	w, ok := r.scalar(e, wants)
	if ok && strings.ContainsFunc(w.Text, unicode.IsControl) {
		r.say(w.Span, "wrong-shape", fmt.Sprintf("%q runs over several lines", e.key.Text), "Write "+wants+" on one line.")
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

// entries gives the keys of a mapping in order. Keys that are no plain words,
// and keys given twice, are reported. names says that the keys are names that
// the user chose: those must differ by more than case, accents or look.
func (r *reader) entries(e entry, wants string, names bool) []entry {
	if !r.present(e, wants) {
		return nil
	}
	if e.value.Kind != yaml.MappingNode {
		r.say(r.span(e.value), "wrong-shape", fmt.Sprintf("%q holds %s where keys with values belong", e.key.Text, shape(e.value)), "Write "+wants+".")
		return nil
	}
	var out []entry
	for i := 0; i+1 < len(e.value.Content); i += 2 {
		if key, ok := r.key(e.value.Content[i]); ok {
			out = append(out, entry{key: key, value: e.value.Content[i+1]})
		}
	}
	r.repeats(keysOf(out), names)
	return out
}

func keysOf(es []entry) []Word {
	out := make([]Word, len(es))
	for i := range es {
		out[i] = es[i].key
	}
	return out
}

// key reads a key as a word.
func (r *reader) key(n *yaml.Node) (Word, bool) {
	text := norm.NFC.String(strings.TrimSpace(n.Value))
	switch {
	case n.Kind == yaml.AliasNode:
	case n.Kind != yaml.ScalarNode:
		r.say(r.span(n), "wrong-shape", fmt.Sprintf("a key cannot be %s", shape(n)), "Write a plain word before the colon.")
	case n.Tag == "!!merge":
		r.say(r.span(n), "yaml-alias", `"<<" merges another mapping into this one`, "Write the keys out.")
	case text == "" || missing(n):
		r.say(r.span(n), "empty-value", "a key is empty", "Write a word before the colon.")
	case strings.ContainsFunc(text, hidden):
		r.say(r.span(n), "hidden-character", "a key holds characters that do not show", "Write a plain word before the colon.")
	default:
		return Word{Text: text, Span: r.span(n)}, true
	}
	return Word{}, false
}

// repeats reports words that are given twice. Names are compared folded.
func (r *reader) repeats(words []Word, names bool) {
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

func (r *reader) sayRepeat(old, w Word, names bool) {
	slug, detail := "duplicate-key", "Keep one of the two."
	if names {
		slug, detail = "duplicate-name", "Give one of the two another name."
	}
	summary := fmt.Sprintf("%q is given twice", w.Text)
	if old.Text != w.Text {
		summary = fmt.Sprintf("%q looks the same as %q", w.Text, old.Text)
	}
	r.say(w.Span, slug, summary, detail, source.Note{Span: old.Span, Text: "it was given here first"})
}

// items gives the elements of a list as entries with the list's key.
func (r *reader) items(e entry, wants string) []entry {
	if !r.present(e, wants) {
		return nil
	}
	if e.value.Kind != yaml.SequenceNode {
		r.say(r.span(e.value), "wrong-shape", fmt.Sprintf("%q holds %s where a list belongs", e.key.Text, shape(e.value)), "Write "+wants+".")
		return nil
	}
	out := make([]entry, 0, len(e.value.Content))
	for _, n := range e.value.Content {
		key := Word{Text: e.key.Text, Span: e.key.Span}
		if missing(n) {
			key.Span = r.span(n)
		}
		out = append(out, entry{key: key, value: n, item: true})
	}
	return out
}

// words gives a list of words.
func (r *reader) words(e entry, wants string) []Word {
	var out []Word
	for _, item := range r.items(e, wants) {
		if w, ok := r.line(item, "a name"); ok {
			out = append(out, w)
		}
	}
	return out
}

// unique gives a list of words that must all look different.
func (r *reader) unique(e entry, wants string) []Word {
	out := r.words(e, wants)
	r.distinct(out)
	return out
}

// distinct refuses names in a list that look the same; case counts, since
// connectors have cavities A and a.
func (r *reader) distinct(words []Word) {
	before := len(r.problems)
	r.repeats(words, false)
	for i := before; i < len(r.problems); i++ {
		r.problems[i].Slug, r.problems[i].Detail = "duplicate-name", "Give one of the two another name."
	}
}

// refusal is an error of a value that has a slug and a summary of its own.
type refusal struct{ slug, summary, detail string }

func (e *refusal) Error() string { return e.summary }

// value parses a quantity. A refused one keeps its place and text, so that
// it counts as written.
func value[Q any](r *reader, e entry, wants string, parse func(string) (Q, error)) Value[Q] {
	w, ok := r.line(e, wants)
	if !ok {
		return Value[Q]{}
	}
	v, err := parse(w.Text)
	if err == nil {
		return Value[Q]{V: v, Written: w.Text, Span: w.Span}
	}
	var own *refusal
	if !errors.As(err, &own) {
		own = &refusal{"bad-quantity", fmt.Sprintf("%q cannot be read as %s", w.Text, wants), upperFirst(err.Error())}
	}
	r.say(w.Span, own.slug, own.summary, own.detail)
	return Value[Q]{Written: w.Text, Span: w.Span}
}

// upperFirst gives a sentence its capital.
func upperFirst(text string) string {
	for i, c := range text {
		return string(unicode.ToUpper(c)) + text[i+len(string(c)):]
	}
	return text
}
