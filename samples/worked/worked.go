// Package worked is for tests: it takes the samples through reading, checking and
// sizing, and fails the test where one does not get through. It is no part of the
// program.
package worked

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
)

// Out gives a sample's model and its results.
func Out(t testing.TB, s samples.Sample) (*harness.Harness, *sizing.Result) {
	t.Helper()
	d, problems := describe.Parse(s.Name+".yaml", s.Text)
	require.False(t, problems.HasErrors(), "%v", problems)
	h, found := check.Check(d)
	require.NotNil(t, h, "%v", found)
	r, err := sizing.Size(h, append(problems, found...))
	require.NoError(t, err)
	return h, r
}

// Named gives those of the sample of a name.
func Named(t testing.TB, name string) (*harness.Harness, *sizing.Result) {
	t.Helper()
	for _, s := range samples.List() {
		if s.Name == name {
			return Out(t, s)
		}
	}
	t.Fatalf("there is no sample %s", name)
	return nil, nil
}
