package check_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/rules"
)

// TestExamplesAreWrongForTheCheckAlone: what the check finds passes the reading.
func TestExamplesAreWrongForTheCheckAlone(t *testing.T) {
	list, err := check.Rules()
	require.NoError(t, err)
	for _, r := range list {
		for _, e := range r.Examples {
			text, at := rules.Whole(e.Text)
			d, problems := describe.Parse("wrong.yaml", []byte(text))
			require.False(t, problems.HasErrors(), "%s: %v\n%s", r.Slug, problems, text)
			_, found := check.Check(d)
			ok := false
			for _, p := range found {
				ok = ok || p.Slug == r.Slug && p.Span.Start == at
			}
			require.True(t, ok, "no %s at %v in:\n%s\nfound: %+v", r.Slug, at, text, found)
		}
	}
}
