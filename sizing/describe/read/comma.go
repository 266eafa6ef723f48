package read

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
)

// Inside brackets a comma parts values, so that {draws: 5,5 A} holds the value 5 and a key
// "5 A" without one, and [7,5 A] the two items 7 and 5 A.

var (
	endsInDigit  = regexp.MustCompile(`[0-9]$`)
	beginsDigit  = regexp.MustCompile(`^[0-9]`)
	restOfNumber = regexp.MustCompile(`^,([0-9][^,\]}]*)`)
	threeDigits  = regexp.MustCompile(`^([0-9]{3})([^0-9].*)?$`)
)

// commas reports values of a mapping in brackets that a decimal comma has cut in two, and
// leaves out the keys that are their other halves. A value so reported counts as an alias
// does: as one of which all is said.
func (r *Reader) commas(content []*yaml.Node) []*yaml.Node {
	var out []*yaml.Node
	for i := 0; i+1 < len(content); i += 2 {
		key, value := content[i], content[i+1]
		n := len(out)
		if n == 0 || !beginsDigit.MatchString(out[n-1].Value) || !halfOf(out[n-1], key, value) {
			out = append(out, key, value)
			continue
		}
		cut := []string{out[n-1].Value, key.Value}
		for i+3 < len(content) && halfOf(key, content[i+2], content[i+3]) {
			i += 2
			key, cut = content[i], append(cut, content[i].Value)
		}
		r.sayComma(r.span(out[n-1]), cut)
		out[n-1] = &yaml.Node{Kind: yaml.AliasNode, Line: out[n-1].Line, Column: out[n-1].Column}
	}
	return out
}

// halfOf tells of a key without a value that it goes on with a number that stands before it.
func halfOf(before, key, value *yaml.Node) bool {
	bare := before.Kind == yaml.ScalarNode && before.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) == 0
	return bare && before.Line == key.Line && endsInDigit.MatchString(before.Value) && key.Kind == yaml.ScalarNode && beginsDigit.MatchString(key.Value) && value.Value == "" && missing(value)
}

// sayComma reports the pieces of a value that begins at a place.
func (r *Reader) sayComma(at source.Span, cut []string) {
	whole, point := strings.Join(cut, ","), strings.Join(cut, ".")
	at.Width = max(source.Width(whole), 1)
	fix := fmt.Sprintf("Write a point, %s, or put the value in quotes: \"%s\".", point, whole)
	if m := threeDigits.FindStringSubmatch(cut[1]); m != nil && len(cut) == 2 && strings.Trim(cut[0], "0") != "" {
		less := strings.TrimSuffix(cut[0]+"."+strings.TrimRight(m[1], "0"), ".")
		fix = fmt.Sprintf("It can be %s%s or %s%s: write the one that is meant, without the comma.", less, m[2], cut[0]+m[1], m[2])
	}
	r.Say(at, "bad-quantity", fmt.Sprintf("inside brackets a comma ends a value: of %q only %q is read", whole, cut[0]), fix)
}

// cutByComma gives what follows a value that a comma has cut off in a list, "" for nothing.
func (r *Reader) cutByComma(e Entry, w Word) string {
	line := []rune(r.file.LineOf(w.Span))
	end := w.Span.Start.Column - 1 + w.Span.Width
	if !e.item || !endsInDigit.MatchString(w.Text) || end < 0 || end >= len(line) {
		return ""
	}
	if m := restOfNumber.FindStringSubmatch(string(line[end:])); m != nil {
		return strings.TrimSpace(m[1])
	}
	return ""
}

// Ratings gives a list of words that are quantities; one that a comma has cut is reported.
func (r *Reader) Ratings(e Entry, wants string) []Word {
	var out []Word
	for _, item := range r.Items(e, wants) {
		w, ok := r.Line(item, "a rating")
		if rest := r.cutByComma(item, w); ok && strings.ContainsFunc(rest, unicode.IsLetter) {
			r.sayComma(w.Span, []string{w.Text, rest})
			return nil
		}
		if ok {
			out = append(out, w)
		}
	}
	r.Distinct(out)
	return out
}
