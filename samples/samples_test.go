package samples

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

func TestListHasAllInOrder(t *testing.T) {
	var names []string
	for _, s := range List() {
		names = append(names, s.Name)
		require.NotEmpty(t, s.For)
		require.True(t, utf8.Valid(s.Text), s.Name)
		require.Contains(t, string(s.Text), "loomfolio: 1\n", s.Name)
	}
	require.Equal(t, []string{"first", "kestrel", "tender", "camper"}, names)
}

func TestEveryFileIsListed(t *testing.T) {
	entries, err := files.ReadDir(".")
	require.NoError(t, err)
	listed := map[string]bool{}
	for _, s := range List() {
		listed[s.Name+".yaml"] = true
	}
	for _, e := range entries {
		require.True(t, listed[e.Name()], e.Name())
	}
}

func TestEveryPatternIsListed(t *testing.T) {
	entries, err := patternFiles.ReadDir("patterns")
	require.NoError(t, err)
	listed := map[string]bool{}
	for _, s := range Patterns() {
		require.NotEmpty(t, s.For)
		require.True(t, utf8.Valid(s.Text), s.Name)
		require.Contains(t, string(s.Text), "loomfolio: 1\n", s.Name)
		require.Contains(t, string(s.Text), "\n#! state ", s.Name)
		listed[s.Name+".yaml"] = true
	}
	for _, e := range entries {
		require.True(t, listed[e.Name()], e.Name())
	}
	for _, s := range List() {
		require.False(t, listed[s.Name+".yaml"], "%s stands for two", s.Name)
	}
}

// The first sample is a lesson and a pattern a recipe: they must be read in one go; lines are to stay within a wide window.
func TestTheSamplesAreReadable(t *testing.T) {
	for _, s := range append(List(), Patterns()...) {
		lines := strings.Split(strings.TrimSuffix(string(s.Text), "\n"), "\n")
		if s.Name == "first" || strings.Contains(string(s.Text), "\n#! state ") {
			require.Less(t, len(lines), 70)
		}
		for i, line := range lines {
			require.LessOrEqualf(t, utf8.RuneCountInString(line), 160, "%s.yaml:%d", s.Name, i+1)
			require.NotContainsf(t, line, "\t", "%s.yaml:%d", s.Name, i+1)
		}
	}
}
