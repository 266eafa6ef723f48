package probe

import (
	"math"
	"slices"
)

// Entropy is the information in bits that it takes to tell which of the suspects it is: no
// tree of tests with two answers asks fewer on average. (C. E. Shannon, "A mathematical
// theory of communication", Bell System Technical Journal 27, 1948.)
func Entropy(weights []float64) float64 {
	sum, h := 0.0, 0.0
	for _, w := range weights {
		sum += w
		h += plog(w)
	}
	if sum == 0 {
		return 0
	}
	return (plog(sum) - h) / sum
}

// plog is w log2 w.
func plog(w float64) float64 {
	if w <= 0 {
		return 0
	}
	return w * math.Log2(w)
}

// Huffman is the mean number of tests of the best tree if any question with so many
// answers could be asked: no tree of such tests asks fewer. (D. A. Huffman, "A method for
// the construction of minimum-redundancy codes", Proceedings of the IRE 40, 1952.)
func Huffman(weights []float64, answers int) float64 {
	w := slices.Sorted(slices.Values(weights))
	sum := 0.0
	for _, x := range w {
		sum += x
	}
	return merged(w, answers) / sum
}

// merged is the sum of the weights of all inner nodes of the best tree; the weights are in
// ascending order. What was merged comes in ascending order too: two queues, no heap.
func merged(w []float64, answers int) float64 {
	cost := 0.0
	var few [Limit]float64
	made := few[:0]
	take := 2 + (len(w)-2)%(max(answers, 2)-1) // so that the last merging is of as many as it can be
	for len(w)+len(made) > 1 {
		x := 0.0
		for range min(take, len(w)+len(made)) {
			if len(made) == 0 || len(w) > 0 && w[0] <= made[0] {
				x, w = x+w[0], w[1:]
			} else {
				x, made = x+made[0], made[1:]
			}
		}
		cost, made, take = cost+x, append(made, x), max(answers, 2)
	}
	return cost
}

// Doubtful is what the answer of a test tells on average, in bits, where a suspect may
// give more than one: chance is, by suspect, how likely each answer is. It is the entropy
// of the answers less that which they would have if one knew who it is; so what is
// expected to remain is least where it is greatest. (J. de Kleer, B. C. Williams,
// "Diagnosing multiple faults", Artificial Intelligence 32, 1987, from memory.)
func Doubtful(weights []float64, chance [][]float64) float64 {
	var by []float64
	sum, within := 0.0, 0.0
	for i, w := range weights {
		for a, c := range chance[i] {
			if a == len(by) {
				by = append(by, 0)
			}
			by[a] += w * c
		}
		sum += w
		within += w * Entropy(chance[i])
	}
	if sum == 0 {
		return 0
	}
	return max(0, Entropy(by)-within/sum)
}

// Order is the order in which to look at things one after the other so that the expected
// cost until it is found is least: by how likely each is for its cost (from memory: the
// rule for one fault and independent looks).
func Order(chance, cost []float64) []int {
	out := all(len(chance))
	slices.SortStableFunc(out, func(a, b int) int {
		x, y := chance[a]*cost[b], chance[b]*cost[a]
		switch {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	return out
}
