package source

import (
	"fmt"
	"strings"
	"unicode"
)

// shapes pairs Greek and Cyrillic letters, and dashes, with the Latin ones whose shape they have
// (Unicode TR 39 calls them confusable; this is the common part of its table, from memory).
const shapes = "ΑA ΒB ΕE ΖZ ΗH ΙI ΚK ΜM ΝN ΟO ΡP ΤT ΥY ΧX οo АA ВB ЕE КK МM НH ОO РP СC ТT ХX УY ІI ЅS ЈJ " +
	"аa еe кk мm оo рp сc уy хx іi ѕs јj ‐- ‑- –- —- −-"

// Latin turns letters that have the shape of a Latin one into it.
func Latin(text string) string { return strings.Map(latin, text) }

func latin(r rune) rune {
	if r < unicode.MaxLatin1 {
		return r
	}
	if i := strings.Index(shapes, string(r)); i >= 0 {
		return rune(shapes[i+len(string(r))])
	}
	return r
}

// digits pairs letters with the digits that they are taken for in haste.
var digits = strings.NewReplacer("O", "0", "o", "0", "l", "1", "I", "1", "|", "1")

// Digits writes letters O, o, l and I as the digits whose shape they have.
func Digits(text string) string { return digits.Replace(Latin(text)) }

// Twin gives the name that looks the same as a word and is another, "" for none, and what
// tells them apart: letters of another script, or a letter for a digit.
func Twin(word string, names []string) (name, why string) {
	for _, n := range names {
		if n != word && Digits(n) == Digits(word) {
			return n, apart([]rune(word), []rune(n))
		}
	}
	return "", ""
}

// apart words the first letter in which two names of one shape differ.
func apart(word, name []rune) string {
	for i := range min(len(word), len(name)) {
		if word[i] != name[i] {
			return fmt.Sprintf("%q is written with %s where %q has %s", string(word), sign(word[i]), string(name), sign(name[i]))
		}
	}
	return "the two have different letters"
}

// sign names a letter so that its twin can be told from it.
func sign(r rune) string {
	switch {
	case unicode.Is(unicode.Cyrillic, r):
		return fmt.Sprintf("the Cyrillic letter %q", string(r))
	case unicode.Is(unicode.Greek, r):
		return fmt.Sprintf("the Greek letter %q", string(r))
	case unicode.IsDigit(r):
		return "the digit " + string(r)
	case r == 'l':
		return "a small L"
	case r == 'I':
		return "a capital i"
	case unicode.IsLetter(r):
		return "the letter " + string(r)
	case r < unicode.MaxLatin1:
		return fmt.Sprintf("%q", string(r))
	}
	return "another sign"
}
