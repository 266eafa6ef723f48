package unit

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// tidy turns the many ways of typing the same sign into one: odd spaces,
// curly quotes and primes, raised 2, the two signs for ohm and micro.
var tidy = strings.NewReplacer(
	"\u00a0", " ", "\u2007", " ", "\u2009", " ", "\u200a", " ", "\u202f", " ", "\t", " ",
	"‘", "'", "’", "'", "′", "'", "´", "'", "“", `"`, "”", `"`, "″", `"`, "''", `"`,
	"²", "2", "\u2126", "Ω", "\u00b5", "μ", "º", "°", "−", "-", "–", "-", "×", "x",
	"℃", "°C", "℉", "°F", "％", "%", "，", ",", "．", ".",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⅓", " 1/3", "⅔", " 2/3",
)

// plain gives the text with its signs tidied and its spaces single.
func plain(text string) string {
	return strings.Join(strings.Fields(tidy.Replace(tidy.Replace(text))), " ")
}

// cutNumber takes the number at the start of a tidied text. It gives the
// number, what follows it, and "" or what is wrong with it. The decimal mark
// is a point or a comma; thousands may be parted by spaces ("2 785").
func cutNumber(text string) (value float64, rest, fault string) {
	digits, rest := cutDigits(text)
	if strings.Trim(digits, ".") == "" {
		return 0, text, faultOfStart(text)
	}
	if fault := faultOfDigits(digits, rest); fault != "" {
		return 0, rest, fault
	}
	value, err := strconv.ParseFloat(strings.Replace(strings.ReplaceAll(digits, " ", ""), ",", ".", 1), 64)
	if err != nil {
		return 0, rest, fmt.Sprintf("%q is not a number", digits)
	}
	return value, strings.TrimSpace(rest), ""
}

// cutDigits takes digits, decimal marks and spaces between groups of three.
func cutDigits(text string) (digits, rest string) {
	i := 0
	for i < len(text) && (digit(text[i]) || text[i] == '.' || text[i] == ',' || groupAt(text, i)) {
		i++
	}
	digits = strings.TrimRight(text[:i], ",")
	return digits, text[len(digits):]
}

// groupAt tells whether a space at i stands before a group of exactly three
// digits, after one to three digits.
func groupAt(text string, i int) bool {
	if text[i] != ' ' || i == 0 || !digit(text[i-1]) || strings.ContainsAny(text[:i], ".,") {
		return false
	}
	first, _, _ := strings.Cut(text[:i], " ")
	after := text[i+1:]
	n := 0
	for n < len(after) && digit(after[n]) {
		n++
	}
	return len(first) <= 3 && first[0] != '0' && n == 3 && !strings.HasPrefix(after[n:], "/")
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

func faultOfStart(text string) string {
	low := strings.ToLower(strings.TrimLeft(text, "+-"))
	switch {
	case text == "":
		return "nothing is written"
	case strings.HasPrefix(low, "nan"), strings.HasPrefix(low, ".nan"), strings.HasPrefix(low, "inf"), strings.HasPrefix(low, ".inf"):
		return fmt.Sprintf("%q is not a number that can be built", text)
	case text[0] == '-':
		return fmt.Sprintf("%q is negative", text)
	case text[0] == '+':
		return fmt.Sprintf("%q begins with a plus sign", text)
	case strings.ContainsAny(text, "0123456789"):
		return fmt.Sprintf("%q has words before the number", text)
	}
	return fmt.Sprintf("%q has no number", text)
}

// faultOfDigits refuses numbers that could be read in two ways.
func faultOfDigits(digits, rest string) string {
	whole, part, _ := strings.Cut(strings.Replace(digits, ",", ".", 1), ".")
	switch {
	case strings.Count(digits, ".")+strings.Count(digits, ",") > 1:
		return fmt.Sprintf("%q has more than one decimal mark", digits)
	case strings.HasSuffix(digits, "."):
		return fmt.Sprintf("%q ends in a decimal point", digits)
	case strings.Contains(digits, ",") && len(part) == 3 && strings.Trim(whole, "0") != "":
		word, _, _ := strings.Cut(strings.TrimSpace(rest), " ")
		return fmt.Sprintf("%q can be read as %s or as %s: write the one that is meant, without the comma", strings.TrimSpace(digits+" "+word),
			strings.TrimSpace(decimal(whole, part)+" "+word), strings.TrimSpace(whole+part+" "+word))
	case len(whole) > 1 && whole[0] == '0' && !strings.HasPrefix(rest, "x"):
		return fmt.Sprintf("%q begins with a needless 0", digits)
	case strings.HasPrefix(rest, "_"):
		return fmt.Sprintf("%q has an underscore in the number", digits+rest)
	case digits == "0" && len(rest) > 1 && strings.ContainsRune("xXoObB", rune(rest[0])) && hexDigit(rest[1]):
		return fmt.Sprintf("%q is not a decimal number", digits+rest)
	case exponent(rest):
		return fmt.Sprintf("%q has an exponent (write the number out)", digits+rest)
	}
	return ""
}

func hexDigit(c byte) bool { return digit(c) || c >= 'a' && c <= 'f' || c >= 'A' && c <= 'F' }

func exponent(rest string) bool {
	if rest == "" || rest[0] != 'e' && rest[0] != 'E' {
		return false
	}
	tail := strings.TrimLeft(rest[1:], "+-")
	return tail != "" && digit(tail[0])
}

// cutFraction takes a common fraction such as 1/2 at the start of the text.
func cutFraction(text string) (value float64, rest string, ok bool) {
	top, after := cutDigitsOnly(text)
	if top == "" || !strings.HasPrefix(after, "/") {
		return 0, text, false
	}
	bottom, rest := cutDigitsOnly(after[1:])
	if len(top) > 2 || len(bottom) > 2 || strings.Trim(bottom, "0") == "" || top[0] == '0' || bottom[0] == '0' {
		return 0, text, false
	}
	a, _ := strconv.Atoi(top)
	b, _ := strconv.Atoi(bottom)
	if a >= b {
		return 0, text, false
	}
	return float64(a) / float64(b), strings.TrimSpace(rest), true
}

func cutDigitsOnly(text string) (digits, rest string) {
	i := 0
	for i < len(text) && digit(text[i]) {
		i++
	}
	return text[:i], text[i:]
}

// cutLetters takes the unit word at the start of the text.
func cutLetters(text string) (word, rest string) {
	i := strings.IndexFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && r != '°' })
	if i < 0 {
		return text, ""
	}
	return text[:i], strings.TrimSpace(text[i:])
}
