package source

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestParseRules(t *testing.T) {
	list, err := ParseRules("Remarks.\n\n== too-tall error\nit is too tall\nroof: «3 m\n-- words\n3 m\n-- again\nroof: 4 m\n-- built\nroof: 2 m\n== too-odd advice\nit is odd\n== too-dim warning or advice\nit is dim\n")
	require.NoError(t, err)
	require.Equal(t, []Rule{
		{Slug: "too-tall", Level: Error, Says: "it is too tall", Examples: []Example{{Text: "roof: «3 m\n", Words: "3 m"}, {Text: "roof: 4 m\n", Built: "roof: 2 m\n"}}},
		{Slug: "too-odd", Level: Advice, Least: Advice, Says: "it is odd"},
		{Slug: "too-dim", Level: Warning, Least: Advice, Says: "it is dim"},
	}, list)
	for _, wrong := range []string{"== too-tall\nit is", "== too-tall grave\nit is", "== too-tall error\n"} {
		_, err := ParseRules(wrong)
		require.ErrorContains(t, err, "too-tall", wrong)
	}
}
