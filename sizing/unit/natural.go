package unit

import (
	"cmp"
	"strconv"
	"strings"
)

// Natural compares two names as a person sorts them: numbers in them count as
// numbers, so that "fuse 7.5 A" stands between 2 A and 10 A; negative when x comes first.
func Natural(x, y string) int {
	for a, b := x, y; ; {
		var s, t string
		s, a = chunk(a)
		t, b = chunk(b)
		if s == "" || t == "" {
			return cmp.Or(cmp.Compare(len(s), len(t)), strings.Compare(x, y))
		}
		m, errM := strconv.ParseFloat(s, 64)
		n, errN := strconv.ParseFloat(t, 64)
		c := strings.Compare(s, t)
		if errM == nil && errN == nil {
			c = cmp.Compare(m, n)
		}
		if c != 0 {
			return c
		}
	}
}

// chunk parts a name behind its first number, or before the first one in it.
func chunk(s string) (first, rest string) {
	number := func(i int) bool {
		return s[i] >= '0' && s[i] <= '9' || s[i] == '.' && i > 0 && i+1 < len(s) && s[i-1] >= '0' && s[i-1] <= '9' && s[i+1] >= '0' && s[i+1] <= '9'
	}
	for i := 1; i < len(s); i++ {
		if number(i) != number(0) {
			return s[:i], s[i:]
		}
	}
	return s, ""
}
