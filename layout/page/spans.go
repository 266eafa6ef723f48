package page

// Spans joins three and more names that follow one another in their last letter: "28A–28D".
func Spans(names []string) []string {
	return SpansOf(names, Follows, func(first, last string) string {
		if first == last {
			return Firm(first)
		}
		return Firm(first + "–" + last)
	})
}

// SpansOf joins three and more names each of which follows the one before it; say writes the first
// and the last of them, which are one for a name that stands alone.
func SpansOf(names []string, follows func(a, b string) bool, say func(first, last string) string) []string {
	var out []string
	for i := 0; i < len(names); {
		j := i
		for j+1 < len(names) && follows(names[j], names[j+1]) {
			j++
		}
		if j-i < 2 {
			j = i
		}
		out = append(out, say(names[i], names[j]))
		i = j + 1
	}
	return out
}

// Follows tells names that are one but for the last letter, each the next after the other.
func Follows(a, b string) bool {
	n := len(a) - 1
	return n > 0 && len(b) == n+1 && a[:n] == b[:n] && a[n]+1 == b[n] && a[n] >= 'A' && b[n] <= 'Z'
}
