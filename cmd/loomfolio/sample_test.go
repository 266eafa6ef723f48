package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
)

// The samples are listed in two groups, whole looms first, and every one of both is printed as it is.
func TestSamplesAndPatternsAreListedApart(t *testing.T) {
	code, out, _ := do("sample")
	require.Equal(t, exitGood, code)
	looms, patterns, ok := strings.Cut(out, "\nPatterns")
	require.True(t, ok)
	for _, s := range samples.List() {
		require.Contains(t, looms, "\n  "+s.Name+" ")
	}
	for _, s := range samples.Patterns() {
		require.Contains(t, patterns, "\n  "+s.Name+" ")
		require.Contains(t, patterns, s.For)
	}
	for _, s := range append(samples.List(), samples.Patterns()...) {
		code, out, _ := do("sample", s.Name)
		require.Equal(t, exitGood, code)
		require.Equal(t, string(s.Text), out)
	}
}
