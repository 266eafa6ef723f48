// Package worked is for tests: it takes the samples through reading, checking and
// sizing, and fails the test where one does not get through. It is no part of the
// program.
package worked

import (
	"reflect"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// Out gives a sample's model and its results. They are worked out once for all tests of a package;
// each caller gets lists of its own, so that what it changes in them stays with it.
func Out(t testing.TB, s samples.Sample) (*harness.Harness, *result.Result) {
	t.Helper()
	once.Lock()
	defer once.Unlock()
	done, ok := once.by[s.Name]
	if !ok {
		done = work(t, s)
		once.by[s.Name] = done
	}
	return copied(done.h), copied(done.r)
}

type outcome struct {
	h *harness.Harness
	r *result.Result
}

var once = struct {
	sync.Mutex
	by map[string]outcome
}{by: map[string]outcome{}}

func work(t testing.TB, s samples.Sample) outcome {
	t.Helper()
	d, problems := describe.Parse(s.Name+".yaml", s.Text)
	require.False(t, problems.HasErrors(), "%v", problems)
	h, found := check.Check(d)
	require.NotNil(t, h, "%v", found)
	r, err := sizing.Size(h, append(problems, found...))
	require.NoError(t, err)
	require.NoError(t, sizing.Prove(h, r))
	return outcome{h, r}
}

// Buying says what is bought for where the description leaves it open. Tests that hold least sizes
// and colours that tell all apart ask for "clear"; what must hold however few is bought, for either.
func Buying(h *harness.Harness, as string) *harness.Harness {
	if !h.Practice.Buy.Span.Known() {
		h.Practice.Buy = harness.AsFew()
		h.Practice.Buy.For = as
	}
	return h
}

// Bought lists the ways to buy for which what is said of a loom must be the same.
func Bought() []string { return []string{"clear", "few"} }

// copied copies a struct and the lists in it.
func copied[T any](of *T) *T {
	c := *of
	v := reflect.ValueOf(&c).Elem()
	for i := range v.NumField() {
		if f := v.Field(i); f.Kind() == reflect.Slice && f.CanSet() && !f.IsNil() {
			list := reflect.MakeSlice(f.Type(), f.Len(), f.Len())
			reflect.Copy(list, f)
			f.Set(list)
		}
	}
	return &c
}

// Named gives those of the sample of a name.
func Named(t testing.TB, name string) (*harness.Harness, *result.Result) {
	t.Helper()
	for _, s := range samples.List() {
		if s.Name == name {
			return Out(t, s)
		}
	}
	t.Fatalf("there is no sample %s", name)
	return nil, nil
}
