package tree_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/fault/tree"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
)

// vehicle is a sample with its dictionary.
type vehicle struct {
	name string
	h    *harness.Harness
	r    *result.Result
	book *fault.Book

	classes map[int][]int // by tree and suspect, once it was asked for
}

func vehicles(t testing.TB) []vehicle {
	var out []vehicle
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		book := fault.New(h, r)
		out = append(out, vehicle{s.Name, h, r, book, map[int][]int{}})
	}
	return out
}

// TestTrees of all samples: what they cost beside the information bounds, and 500 hidden
// faults, found by their readings alone.
func TestTrees(t *testing.T) {
	all := vehicles(t)
	for _, v := range all {
		v.bounds(t)
	}
	blind(t, all)
}

// bounds holds the mean number of measurements against the entropy of the classes that a
// meter can tell apart: 1.25 times it over all loads, though no two loads alike.
func (v vehicle) bounds(t *testing.T) {
	var mean, entropy, log float64
	most, loads, classes := 0, 0, 0
	for _, x := range v.r.Proof.Trees {
		if x.Root == nil {
			continue
		}
		mean, entropy, log = mean+x.Mean, entropy+x.Entropy, log+math.Log2(float64(x.Classes))
		most, loads, classes = max(most, x.Most), loads+1, classes+x.Classes
		require.GreaterOrEqual(t, x.Mean, x.Entropy/3.2, "%s: no measurement has more than nine answers", v.h.Elements[x.Load].Name)
	}
	n := float64(loads)
	t.Logf("%s: %d faults in %d classes, %d loads with a tree, %.1f classes a load; measurements %.2f on average, %d at most; bounds: entropy %.2f bit, log2 of the classes %.2f",
		v.name, len(v.r.Proof.Faults), v.allClasses(t), loads, float64(classes)/n, mean/n, most, entropy/n, log/n)
	require.LessOrEqual(t, mean, 1.25*entropy, v.name)
	require.NotZero(t, loads, v.name)
}

// allClasses counts the classes of the whole dictionary, each fault in the state in which it shows.
func (v vehicle) allClasses(t *testing.T) int {
	n := 0
	for state := range v.h.States {
		var list []int
		var seen []*fault.Seen
		for i, f := range v.r.Proof.Faults {
			if f.State == state {
				x := v.book.In(state, i)
				list, seen = append(list, i), append(seen, x)
			}
		}
		c := tree.Case{
			Harness: v.h, Points: v.r.Proof.Points, Faults: v.r.Proof.Faults, Load: harness.None, State: state, Suspects: list,
			Volts: func(suspect, point int) float64 { return seen[suspect].At(point) }, Sound: v.book.Sound(state).At,
		}
		if of := c.Problem(c.Asks()).ClassOf(); len(of) > 0 {
			n += slices.Max(of) + 1
		}
	}
	return n
}

// hidden is a fault and a load that does not work with it.
type hidden struct {
	v     vehicle
	tree  *proof.Tree
	fault int
}

// blind hides faults by their weights and follows the trees by what a cheap meter shows: the
// class is named every time.
func blind(t *testing.T, all []vehicle) {
	var from []hidden
	var weights []float64
	for _, v := range all {
		for i := range v.r.Proof.Trees {
			for _, f := range v.r.Proof.Trees[i].Suspects {
				from, weights = append(from, hidden{v, &v.r.Proof.Trees[i], f}), append(weights, v.r.Proof.Faults[f].Weight)
			}
		}
	}
	r := rand.New(rand.NewPCG(15, 500))
	asked := 0
	for range 500 {
		x := from[draw(r, weights)]
		left, n := x.follow(t, r)
		require.Equal(t, x.class(t), slices.Sorted(slices.Values(left)), "%s, %s: %s", x.v.name, x.v.h.Elements[x.tree.Load].Name, x.v.r.Proof.Faults[x.fault].ID)
		require.LessOrEqual(t, n, x.tree.Most)
		asked += n
	}
	t.Logf("500 hidden faults found by %.2f measurements on average", float64(asked)/500)
}

// draw picks one by weight.
func draw(r *rand.Rand, weights []float64) int {
	sum := 0.0
	for _, w := range weights {
		sum += w
	}
	at := r.Float64() * sum
	for i, w := range weights {
		if at -= w; at < 0 {
			return i
		}
	}
	return len(weights) - 1
}

// follow takes the tree's measurements and gives what remains, and how many it took.
func (x hidden) follow(t *testing.T, r *rand.Rand) ([]int, int) {
	seen := x.v.book.In(x.tree.State, x.fault)
	left, n := x.tree.Suspects, 0
	for p := x.tree.Root; p != nil; n++ {
		v := meter(r, seen.At(p.Point), against(seen, p.Against))
		at := slices.IndexFunc(p.Answers, func(a proof.Answer) bool { return v >= float64(a.Low) && v <= float64(a.High) })
		require.GreaterOrEqual(t, at, 0, "%v V at point %d is no answer", v, p.Point)
		left, p = p.Answers[at].Left, p.Answers[at].Next
	}
	return left, n
}

func against(seen *fault.Seen, point int) float64 {
	if point == proof.None {
		return 0
	}
	return seen.At(point)
}

// meter is a reading as the cheapest meters show it: 0.5 % and 2 digits of 0.01 V off (their
// manuals), next to nothing where a point floats.
func meter(r *rand.Rand, a, b float64) float64 {
	v := tree.Across(a, b)
	v += (2*r.Float64() - 1) * (.005*math.Abs(v) + .02)
	return math.Round(v*100) / 100
}

// class is the faults that no measurement tells from the hidden one.
func (x hidden) class(t *testing.T) []int {
	at := slices.IndexFunc(x.v.r.Proof.Ladders, func(l proof.Ladder) bool { return l.Load == x.tree.Load })
	if x.v.classes[at] == nil {
		c := tree.CaseOf(x.v.h, x.v.r.Proof.Points, x.v.book, x.v.r.Proof.Ladders[at])
		x.v.classes[at] = c.Problem(c.Asks()).ClassOf()
	}
	of := x.v.classes[at]
	mine := of[slices.Index(x.tree.Suspects, x.fault)]
	var out []int
	for i, k := range of {
		if k == mine {
			out = append(out, x.tree.Suspects[i])
		}
	}
	slices.Sort(out)
	return out
}
