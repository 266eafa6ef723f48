package refuse

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// folded is a text as words are compared: small letters without accents, marks and
// separators, each with where it came from.
type folded struct {
	letters []rune
	upper   []bool // it was written as a capital
	begins  []bool // a word begins here
	from    []int  // which rune of the text it came from
	text    []rune
	some    [256]bool // which letters there are, by their low byte: most words begin with none of them
}

// letter classes: a change from one to the next begins a new word.
const (
	apart = iota // a separator
	word
	figure
	kana // writing without spaces between words
)

// fold compares like with like: letters in their plain form (Unicode NFKD without
// marks, which is what NFKC finds equal and accents besides), small, with those that
// only look like Latin ones made Latin, hiragana as katakana of one size.
func fold(text string) folded {
	f := folded{text: []rune(text)}
	before, small := apart, false
	for i, c := range f.text {
		for _, d := range parts(c) {
			if silent(d) {
				continue
			}
			is := class(d)
			if is == apart {
				before = apart
				continue
			}
			for _, p := range plain(d) {
				f.letters, f.upper = append(f.letters, p), append(f.upper, unicode.IsUpper(d))
				f.begins, f.from = append(f.begins, is != before || small && unicode.IsUpper(d)), append(f.from, i)
				before, small = is, false
			}
			small = unicode.IsLower(d)
		}
	}
	f.dropLinks()
	f.joinInitials()
	for _, c := range f.letters {
		f.some[c&0xff] = true
	}
	return f
}

// links are words that stand between those that are looked for: "batteria di trazione".
var links = map[string]bool{
	"of": true, "the": true, "for": true, "der": true, "die": true, "das": true, "des": true, "von": true, "de": true, "du": true, "la": true, "le": true, "les": true,
	"del": true, "el": true, "los": true, "las": true, "di": true, "della": true, "dello": true, "delle": true, "dei": true, "ad": true, "van": true, "het": true,
}

// dropLinks takes the linking words out.
func (f *folded) dropLinks() {
	kept := folded{text: f.text}
	for i := 0; i < len(f.letters); {
		end := f.next(i + 1)
		if !links[string(f.letters[i:end])] {
			kept.letters, kept.upper = append(kept.letters, f.letters[i:end]...), append(kept.upper, f.upper[i:end]...)
			kept.begins, kept.from = append(kept.begins, f.begins[i:end]...), append(kept.from, f.from[i:end]...)
		}
		i = end
	}
	*f = kept
}

// parts takes a character apart.
func parts(c rune) string {
	if c < 0x80 {
		return string(c)
	}
	return norm.NFKD.String(string(c))
}

// silent tells of marks and of characters that do not show: accents, soft hyphens,
// letters without width, fillers.
func silent(c rune) bool {
	if c < 0x80 {
		return false
	}
	switch c {
	case 'ー', '\u115f', '\u1160', '\u3164', '\u2800':
		return true
	}
	return unicode.In(c, unicode.Mn, unicode.Me, unicode.Cf) || unicode.Is(unicode.Variation_Selector, c)
}

func loud(c rune) bool { return !silent(c) }

func class(c rune) int {
	switch {
	case 'a' <= c && c <= 'z', 'A' <= c && c <= 'Z':
		return word
	case unicode.In(c, unicode.Han, unicode.Hiragana, unicode.Katakana):
		return kana
	case unicode.IsLetter(c):
		return word
	case unicode.IsDigit(c):
		return figure
	}
	return apart
}

// plain gives a letter small, without its bar, and in Latin where it looks like that.
func plain(c rune) string {
	if c >= 'ぁ' && c <= 'ゖ' {
		c += 'ァ' - 'ぁ'
	}
	if s, ok := lookalikes[c]; ok {
		return s
	}
	return string(unicode.ToLower(c))
}

// joinInitials makes one word of letters that stand alone one after another: S.R.S.
func (f *folded) joinInitials() {
	alone := make([]bool, len(f.letters))
	for i := range alone {
		alone[i] = f.begins[i] && f.ends(i+1) && class(f.letters[i]) == word
	}
	for i := 1; i < len(alone); i++ {
		if alone[i] && alone[i-1] {
			f.begins[i] = false
		}
	}
}

// ends tells whether a word ends before the letter i.
func (f *folded) ends(i int) bool { return i == len(f.letters) || f.begins[i] }

// next is where the word in which i lies ends.
func (f *folded) next(i int) int {
	for i < len(f.letters) && !f.begins[i] {
		i++
	}
	return i
}

// written gives the stretch of the text from which letters came.
func (f *folded) written(from, to int) string {
	last := f.from[to-1] + 1
	for last < len(f.text) && strings.IndexFunc(parts(f.text[last]), loud) < 0 {
		last++
	}
	return string(f.text[f.from[from]:last])
}

// lookalikes pairs letters that share their shape with Latin ones, capitals and small
// (the common part of what Unicode TR 39 calls confusable, from memory), letters whose
// stroke no decomposition takes off, and the small kana, with which one is careless.
// Cyrillic words of the table pass through it as well, so that both sides stay alike.
var lookalikes = map[rune]string{
	'А': "a", 'В': "b", 'Е': "e", 'К': "k", 'М': "m", 'Н': "h", 'О': "o", 'Р': "p", 'С': "c", 'Т': "t", 'У': "y", 'Х': "x", 'І': "i", 'Ѕ': "s", 'Ј': "j", 'Ԍ': "g",
	'а': "a", 'в': "b", 'е': "e", 'к': "k", 'м': "m", 'н': "h", 'о': "o", 'р': "p", 'с': "c", 'т': "t", 'у': "y", 'х': "x", 'і': "i", 'ѕ': "s", 'ј': "j", 'ԍ': "g",
	'ԁ': "d", 'һ': "h", 'Һ': "h", 'ԛ': "q", 'ԝ': "w", 'Ѵ': "v", 'ѵ': "v",
	'Α': "a", 'Β': "b", 'Ε': "e", 'Ζ': "z", 'Η': "h", 'Ι': "i", 'Κ': "k", 'Μ': "m", 'Ν': "n", 'Ο': "o", 'Ρ': "p", 'Τ': "t", 'Υ': "y", 'Χ': "x",
	'α': "a", 'ε': "e", 'ι': "i", 'κ': "k", 'ν': "v", 'ο': "o", 'ρ': "p", 'τ': "t", 'υ': "u", 'χ': "x",
	'ł': "l", 'Ł': "l", 'ø': "o", 'Ø': "o", 'đ': "d", 'Đ': "d", 'ı': "i", 'ß': "ss", 'ẞ': "ss", 'æ': "ae", 'Æ': "ae", 'œ': "oe", 'Œ': "oe", 'ɑ': "a", 'ɡ': "g",
	'ᴀ': "a", 'ʙ': "b", 'ᴄ': "c", 'ᴅ': "d", 'ᴇ': "e", 'ꜰ': "f", 'ɢ': "g", 'ʜ': "h", 'ɪ': "i", 'ᴊ': "j", 'ᴋ': "k", 'ʟ': "l", 'ᴍ': "m", 'ɴ': "n", 'ᴏ': "o", 'ᴘ': "p", 'ʀ': "r", 'ꜱ': "s", 'ᴛ': "t", 'ᴜ': "u", 'ᴠ': "v",
	'ァ': "ア", 'ィ': "イ", 'ゥ': "ウ", 'ェ': "エ", 'ォ': "オ", 'ッ': "ツ", 'ャ': "ヤ", 'ュ': "ユ", 'ョ': "ヨ", 'ヮ': "ワ",
}
