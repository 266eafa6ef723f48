package rating

import "sync"

// Reach is where a probe goes at a kind of part or fitting, and the minutes to get it there.
type Reach struct {
	Side    string
	Minutes float64
	Source  string
}

var reachTable = sync.OnceValue(func() map[[2]string]Reach {
	out := map[[2]string]Reach{}
	for _, r := range rows("reach.csv") {
		out[[2]string{r["by"], r["word"]}] = Reach{r["side"], r.number("minutes"), r["source"]}
	}
	return out
})

// ReachOf gives the row of a word by "kind", "fitting", "zone" or "mark"; the last two add
// their minutes. False where the table has none.
func ReachOf(by, word string) (Reach, bool) {
	r, ok := reachTable()[[2]string{by, word}]
	return r, ok
}
