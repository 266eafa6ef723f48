package grid

import (
	"encoding/csv"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Fold gives a text without case, accents and signs, for comparing.
func Fold(s string) string {
	s = strings.NewReplacer("ß", "ss", "²", "2", "№", "no").Replace(strings.ToLower(s))
	s = strings.Map(func(c rune) rune {
		switch {
		case unicode.Is(unicode.Mn, c):
			return -1
		case unicode.IsLetter(c) || unicode.IsDigit(c):
			return c
		}
		return ' '
	}, norm.NFD.String(s))
	return strings.Join(strings.Fields(s), " ")
}

// Own gives the rows of one of our own tables, which the tests read, without its head.
func Own(text string) [][]string {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil || len(rows) == 0 {
		return nil
	}
	return rows[1:]
}
