package bought

import "example.com/loomfolio/sizing/source"

// Worse gives the problems that have become more, or a higher level, from before to after: by
// slug and level, the last ones in their order. Empty: a set of sizes is as sound as the least
// sizes are.
func Worse(before, after source.Problems) source.Problems {
	left := map[sort]int{}
	for i := range before {
		left[sortOf(&before[i])]++
	}
	var out source.Problems
	for i := range after {
		if k := sortOf(&after[i]); left[k] > 0 {
			left[k]--
		} else {
			out = append(out, after[i])
		}
	}
	return out
}

// sort is a slug at a level.
type sort struct {
	slug  string
	level source.Level
}

func sortOf(p *source.Problem) sort { return sort{p.Slug, p.Level} }
