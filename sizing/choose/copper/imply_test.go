package copper

import (
	"math/rand"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// eachSet calls with every set of rungs.
func eachSet(posts []post, do func(at []int)) {
	at := make([]int, len(posts))
	for v := 0; v < len(posts); {
		do(at)
		for v = 0; v < len(posts); v++ {
			if at[v]++; at[v] < len(posts[v].rungs) {
				break
			}
			at[v] = 0
		}
	}
}

func met(posts []post, lines []line, at []int) bool {
	for _, l := range lines {
		drop := 0.0
		for _, x := range l.terms {
			drop += x.Amps * posts[x.Group].rungs[at[x.Group]].ohms
		}
		if drop > l.limit {
			return false
		}
	}
	return true
}

// alike makes lines of one trunk in several states: close to proportional, some
// of them through one post more.
func alike(r *rand.Rand) ([]post, []line) {
	posts := make([]post, 5)
	for v := range posts {
		posts[v].rungs = ladder(wires(0.5 + r.Float64())[2:6], 0)
	}
	var lines []line
	for range 6 {
		l := line{limit: 0.5}
		amps := 5 + 5*r.Float64()
		for v := range 3 + r.Intn(3) {
			l.terms = append(l.terms, Term{v, amps * (0.97 + 0.06*r.Float64())})
		}
		low, high := l.drop(posts, false), l.drop(posts, true)
		l.limit = high + (low-high)*(0.2+0.6*r.Float64())
		lines = append(lines, l)
	}
	return posts, lines
}

// What is left out changes no set, though no line is proportional to another.
func TestLinesLeftOutAreMet(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	left := 0
	for k := range 200 {
		posts, lines := alike(r)
		kept := needful(posts, slices.Clone(lines))
		left += len(lines) - len(kept)
		eachSet(posts, func(at []int) {
			require.Equal(t, met(posts, lines, at), met(posts, kept, at), "problem %d, set %v", k, at)
		})
	}
	t.Logf("%d of 1200 lines left out", left)
	require.Greater(t, left, 400)
}

// A rung that is lifted away is in no set that meets all.
func TestLiftedRungsMeetNothing(t *testing.T) {
	r := rand.New(rand.NewSource(6))
	lifted := 0
	for range 200 {
		posts, lines := alike(r)
		thinned := thinned{posts: slices.Clone(posts), lines: lines}
		thinned.lift()
		eachSet(posts, func(at []int) {
			for v := range posts {
				if from := len(posts[v].rungs) - len(thinned.posts[v].rungs); at[v] < from {
					lifted++
					require.False(t, met(posts, lines, at))
				}
			}
		})
	}
	require.Greater(t, lifted, 1000)
}
