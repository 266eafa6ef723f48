// Package probe chooses what to measure next: numbers only, it knows no wires.
//
// In: suspects with weights, of which one is at fault, and tests with a cost, each of
// which gives one of two or more answers by who it is. Out: a tree of tests.
//
// Method: suspects that no test can part are one class. Up to Limit classes the tree of
// least expected cost is found by dynamic programming over their subsets, with bounds to
// leave out what cannot be better (K. R. Pattipati, M. G. Alexandridis, "Application of
// heuristic search and information theory to sequential fault diagnosis", IEEE
// Transactions on Systems, Man, and Cybernetics 20, 1990). Above, the tests that give
// most information for their cost are tried two steps deep, and what remains is solved
// exactly as soon as it is few.
package probe

import "slices"

// Limit is the number of classes up to which the best tree is found.
const Limit = 16

// rest is the number up to which what remains of more is: each one more doubles the work.
const rest = 12

// Test is something that can be asked.
type Test struct {
	Cost   float64 // above 0; minutes, or 1 to count tests
	Answer []int   // by suspect, numbered from 0
}

// Problem is suspects, by how likely each is, and what can be asked.
type Problem struct {
	Weights []float64 // above 0; they need not sum to 1
	Tests   []Test
}

// Node is a test and what follows from its answers, in ascending order of them.
type Node struct {
	Test     int
	Branches []Branch
}

// Branch is an answer and the suspects that remain then.
type Branch struct {
	Answer int
	Share  float64 // of the node's weight
	Left   []int   // in ascending order
	Next   *Node   // nil where no test parts what remains
}

// Tree is what to ask.
type Tree struct {
	Root    *Node   // nil where nothing parts the suspects
	Cost    float64 // expected
	Mean    float64 // tests, expected
	Most    int     // tests
	Classes [][]int // suspects that no test parts, by their first
	Exact   bool    // no other tree costs less
}

// Best finds what to ask.
func Best(p Problem) Tree {
	c := p.classes()
	t := Tree{Classes: c.members, Exact: len(c.members) <= Limit}
	t.Root = c.expand(c.plan(all(len(c.members))))
	t.Cost, t.Mean, t.Most = t.Root.expected(p.Tests)
	return t
}

// expected gives the expected cost and number of tests from a node on, and the greatest number.
func (n *Node) expected(tests []Test) (cost, mean float64, most int) {
	if n == nil {
		return 0, 0, 0
	}
	for _, b := range n.Branches {
		c, m, w := b.Next.expected(tests)
		cost, mean, most = cost+b.Share*c, mean+b.Share*m, max(most, w)
	}
	return cost + tests[n.Test].Cost, mean + 1, most + 1
}

// ClassOf gives by suspect the class of suspects that no test parts from it, numbered from 0.
func (p Problem) ClassOf() []int {
	out := make([]int, len(p.Weights))
	for k, class := range p.classes().members {
		for _, i := range class {
			out[i] = k
		}
	}
	return out
}

// classed is a problem among classes: suspects that no test parts are one.
type classed struct {
	members [][]int
	weights []float64 // by class
	tests   []Test    // the answers by class
}

// classes joins the suspects that no test parts.
func (p Problem) classes() classed {
	var c classed
	at := map[string]int{}
	for i, w := range p.Weights {
		key := p.key(i)
		k, known := at[key]
		if !known {
			k = len(c.members)
			at[key] = k
			c.members, c.weights = append(c.members, nil), append(c.weights, 0)
		}
		c.members[k] = append(c.members[k], i)
		c.weights[k] += w
	}
	for _, t := range p.Tests {
		c.tests = append(c.tests, Test{t.Cost, c.answers(t)})
	}
	return c
}

// key is the answers of a suspect to all tests.
func (p Problem) key(suspect int) string {
	key := make([]byte, 0, 2*len(p.Tests))
	for _, t := range p.Tests {
		a := t.Answer[suspect]
		key = append(key, byte(a), byte(a>>8))
	}
	return string(key)
}

// answers are a test's answers by class.
func (c classed) answers(t Test) []int {
	out := make([]int, len(c.members))
	for k, m := range c.members {
		out[k] = t.Answer[m[0]]
	}
	return out
}

// step is a test among classes, and what follows from each answer.
type step struct {
	test  int
	parts [][]int // classes, by answers in ascending order
	next  []*step
}

// plan finds what to ask to part classes.
func (c classed) plan(set []int) *step {
	switch {
	case len(set) < 2:
		return nil
	case len(set) <= rest || len(set) == len(c.members) && len(set) <= Limit:
		return c.exact(set)
	}
	s := c.ahead(set)
	for _, part := range s.parts {
		s.next = append(s.next, c.plan(part))
	}
	return s
}

// expand gives a plan among classes as a tree among suspects.
func (c classed) expand(s *step) *Node {
	if s == nil {
		return nil
	}
	n := &Node{Test: s.test}
	whole := 0.0
	for _, part := range s.parts {
		whole += c.sum(part)
	}
	for i, part := range s.parts {
		n.Branches = append(n.Branches, Branch{
			Answer: c.tests[s.test].Answer[part[0]], Share: c.sum(part) / whole, Left: c.suspects(part), Next: c.expand(s.next[i]),
		})
	}
	return n
}

// sum is the weight of classes.
func (c classed) sum(set []int) float64 {
	sum := 0.0
	for _, k := range set {
		sum += c.weights[k]
	}
	return sum
}

// suspects are the members of classes.
func (c classed) suspects(set []int) []int {
	var out []int
	for _, k := range set {
		out = append(out, c.members[k]...)
	}
	slices.Sort(out)
	return out
}

// all are the numbers below n.
func all(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}
