package page

// Spans joins three and more names that follow one another in their last letter: "28A–28D".
func Spans(names []string) []string {
	var out []string
	for i := 0; i < len(names); {
		j := i
		for j+1 < len(names) && follows(names[j], names[j+1]) {
			j++
		}
		if j-i < 2 {
			j = i
			out = append(out, Firm(names[i]))
		} else {
			out = append(out, Firm(names[i]+"–"+names[j]))
		}
		i = j + 1
	}
	return out
}

// follows tells names that differ in the last letter alone, by one.
func follows(a, b string) bool {
	n := len(a) - 1
	return n > 0 && len(b) == n+1 && a[:n] == b[:n] && a[n]+1 == b[n] && a[n] >= 'A' && b[n] <= 'Z'
}
