//lint:file-ignore ST1005 These errors are printed as whole sentences behind a place in the file.

package unit

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/loomfolio/sizing/source"
)

// cyrillic are units in Cyrillic letters, as they are printed on parts from where these
// are used (GOST 8.417); elsewhere they are slips of a keyboard.
var cyrillic = map[string]string{
	"а": "a", "ма": "mA", "ка": "kA", "в": "v", "мв": "mV", "ом": "ohm", "мом": "mohm", "ком": "kohm", "вт": "w", "квт": "kW", "ач": "ah", "а·ч": "ah", "мач": "mAh",
	"м": "m", "см": "cm", "мм": "mm", "мм2": "mm2", "кв.мм": "mm2", "кв. мм": "mm2", "кв мм": "mm2", "с": "s", "мс": "ms", "мин": "min", "°с": "c",
}

// latinUnits gives a unit word in the letters in which it may be read: as a word in
// Cyrillic by what that means, with letters of other scripts by their shape. A
// point at the end is taken off (amps.).
func latinUnits(word string) []string {
	word = strings.TrimSuffix(word, ".")
	shape := source.Latin(word)
	if own, ok := cyrillic[strings.ToLower(word)]; ok && !mega(word) {
		return []string{own, shape}
	}
	return []string{shape}
}

// mega tells of a Cyrillic word that its capital М may stand for a million (МОм).
func mega(word string) bool {
	return strings.HasPrefix(word, "М") && strings.ToUpper(word) != word && len([]rune(word)) > 1
}

// thousands is a number with three digits behind its point, in a unit of which nobody needs a thousandth.
var thousands = regexp.MustCompile(`(?:^|[^0-9.,])([0-9]{1,3})\.([0-9]{3}) ?(W|w|[Ww]atts?|mm|MM|mA|mV)(?:$|[^\pL0-9²^*])`)

// Thousands refuses 1.200 W, as people write it: where a point parts thousands that is
// 1200 W. The error shows both readings. What a program writes has no such doubt, and
// is parsed without this.
func Thousands(text string) error {
	m := thousands.FindStringSubmatch(plain(text))
	if m == nil || strings.Trim(m[1], "0") == "" || strings.Contains(text, "sq") {
		return nil
	}
	return fmt.Errorf("%q can be read as %s %s or as %s%s %s: write the second if thousands are meant, else fewer digits behind the point.", strings.TrimSpace(text), decimal(m[1], m[2]), m[3], m[1], m[2], m[3])
}

// number is what may be a number with letters in it.
var number = regexp.MustCompile(`[0-9.,/OoОоΟοlIІ|]+`)

// Mended gives the text of a quantity with letters O, l and I in its numbers turned
// into 0 and 1: "1O A" is "10 A". A stretch without any digit, or behind a letter
// other than those of a gauge (AWG1O), stays. Whether what comes of it can be read is seen by
// parsing it; a text that can be read as it stands needs no mending ("5Ohm").
func Mended(text string) string {
	var b strings.Builder
	last := 0
	for _, at := range number.FindAllStringIndex(text, -1) {
		stretch, before := text[at[0]:at[1]], strings.ToLower(text[:at[0]])
		b.WriteString(text[last:at[0]])
		if strings.ContainsAny(stretch, "0123456789") && (!letterLast(before) || strings.HasSuffix(before, "awg")) {
			stretch = source.Digits(stretch)
		}
		b.WriteString(stretch)
		last = at[1]
	}
	return b.String() + text[last:]
}

func letterLast(text string) bool {
	last, _ := utf8.DecodeLastRuneInString(text)
	return unicode.IsLetter(last)
}
