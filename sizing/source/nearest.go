package source

import "strings"

// Nearest gives the name that is most like the word as a slip of the pen:
// fewest letters added, dropped, changed or swapped with their neighbour
// (optimal string alignment, a form of Damerau's distance), upper and lower
// case alike. It gives "" when no name is near enough for the word's length.
// Between equally near names the one with the same first letter wins, then the
// first in alphabetical order, so the order of names does not matter.
func Nearest(word string, names []string) string {
	folded := []rune(strings.ToLower(strings.TrimSpace(word)))
	best, least := "", reach(len(folded))+1
	for _, name := range names {
		other := []rune(strings.ToLower(name))
		if gap(len(folded), len(other)) > least {
			continue
		}
		d := distance(folded, other)
		if d < least || d == least && best != "" && before(folded, name, best) {
			best, least = name, d
		}
	}
	return best
}

// reach is the greatest distance at which a word of n letters still counts as
// a misspelling. Words of one letter must match but for case.
func reach(n int) int {
	switch {
	case n < 2:
		return 0
	case n < 5:
		return 1
	case n < 8:
		return 2
	}
	return 3
}

func gap(a, b int) int { return max(a, b) - min(a, b) }

// before orders two names that are equally near to the word.
func before(word []rune, a, b string) bool {
	sameA, sameB := sameStart(word, a), sameStart(word, b)
	if sameA != sameB {
		return sameA
	}
	return a < b
}

func sameStart(word []rune, name string) bool {
	return len(word) > 0 && strings.HasPrefix(strings.ToLower(name), string(word[:1]))
}

// distance counts the single slips that turn a into b.
func distance(a, b []rune) int {
	older, old, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range old {
		old[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := old[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			row[j] = min(change, old[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], older[j-2]+1)
			}
		}
		older, old, row = old, row, older
	}
	return old[len(b)]
}
