package bought_test

import (
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/bought"
	"example.com/loomfolio/sizing/choose/finding"
	"example.com/loomfolio/sizing/choose/misuse"
	"example.com/loomfolio/sizing/choose/reason"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/polarity"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
)

// shown is a harness that has settled on its least sizes.
type shown struct {
	h    *harness.Harness
	ways []route.Way
	s    *choose.Settled
}

func described(t testing.TB, name, text string) shown {
	d, problems := describe.Parse(name+".yaml", []byte(text))
	require.False(t, problems.HasErrors(), "%v", problems)
	h, problems := check.Check(d)
	require.NotNil(t, h, "%v", problems)
	h, _ = polarity.Mend(h)
	return settled(t, h)
}

func settled(t testing.TB, h *harness.Harness) shown {
	ways, _ := route.Find(h)
	s, err := choose.Settle(h, ways)
	require.NoError(t, err)
	return shown{h, ways, s}
}

var once = struct {
	sync.Mutex
	by map[string]shown
}{by: map[string]shown{}}

// sample gives one of the samples; it is settled once for all tests.
func sample(t testing.TB, name string) shown {
	once.Lock()
	defer once.Unlock()
	if x, ok := once.by[name]; ok {
		return x
	}
	i := slices.IndexFunc(samples.List(), func(s samples.Sample) bool { return s.Name == name })
	require.GreaterOrEqual(t, i, 0, name)
	once.by[name] = described(t, name, string(samples.List()[i].Text))
	return once.by[name]
}

// again settles on a set, with the own least sizes as floors or without.
func (x shown) again(t testing.TB, set bought.Set, floors bool) *choose.Settled {
	plan := bought.Of(x.s).Plan(set)
	if !floors {
		plan.Least = nil
	}
	out, err := choose.Again(x.ways, x.s, plan)
	require.NoError(t, err)
	return out
}

// only is the set of some sizes on all shelves that have them.
func (x shown) only(sizes ...string) bought.Set {
	out := bought.Set{Steps: map[string][]int{}}
	for w, key := range x.s.Keys {
		if _, done := out.Steps[key]; done {
			continue
		}
		for i := range x.s.Shelf[w] {
			if slices.Contains(sizes, x.s.Shelf[w][i].Conductor.Gauge.Size) {
				out.Steps[key] = append(out.Steps[key], i)
			}
		}
	}
	return out
}

// problems lists what is found on what was settled.
func problems(s *choose.Settled) source.Problems {
	all := reason.Figures(s)
	return slices.Concat(finding.All(s, &all), misuse.All(s, s, &all))
}

// held holds that what was settled again keeps to its set and meets every floor that it can.
func (x shown) held(t testing.TB, a *choose.Settled, set bought.Set, floors bool) {
	for i := range x.s.At {
		w := harness.WireID(i)
		size, name := a.Size(w).Conductor, x.h.Wires[w].Name
		if x.s.Fixed[w] {
			require.Equal(t, x.s.Size(w).Conductor.Gauge, size.Gauge, name)
			continue
		}
		if steps := set.Steps[x.s.Keys[w]]; len(steps) > 0 {
			require.Contains(t, steps, x.s.Shelf[w].Index(size.Gauge), "%s is %s", name, size.Gauge)
		}
		if top := a.Shelf[w][len(a.Shelf[w])-1].Conductor.Area; floors && x.s.Size(w).Conductor.Area <= top {
			require.GreaterOrEqual(t, size.Area, x.s.Size(w).Conductor.Area, name)
		}
		require.GreaterOrEqual(t, a.At[w], a.Floors[w].Ruled(), name)
	}
	for _, l := range a.Leads {
		requireEarth(t, x, a, l.Earth, l.Live)
	}
}

// requireEarth holds that no free earth lead is thinner than a live one, as far as the shelf goes
// and where the first settling had it so.
func requireEarth(t testing.TB, x shown, a *choose.Settled, earth, live []harness.WireID) {
	for _, e := range earth {
		for _, l := range live {
			if !x.s.Fixed[e] && !x.s.Fixed[l] && x.s.Size(e).Conductor.Area >= x.s.Size(l).Conductor.Area {
				require.GreaterOrEqual(t, a.Size(e).Conductor.Area, a.Size(l).Conductor.Area, "%s beside %s", x.h.Wires[e].Name, x.h.Wires[l].Name)
			}
		}
	}
}
