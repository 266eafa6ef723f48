package tidy

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestSeeds: what the fuzzing begins from is tidied, all but what has errors of form.
func TestSeeds(t *testing.T) {
	done := 0
	for _, s := range seeds(t) {
		if tidied(t, s) != "" {
			done++
		}
	}
	require.Greater(t, done, 150, "most of them have no errors of form")
}

// TestCommentsStayBeside: every comment stands beside what it stood beside.
func TestCommentsStayBeside(t *testing.T) {
	want, err := os.ReadFile("testdata/commented.yaml")
	require.NoError(t, err)
	require.Equal(t, string(want), tidied(t, commented))
	want, err = os.ReadFile("testdata/strange.yaml")
	require.NoError(t, err)
	require.Equal(t, string(want), tidied(t, strange))
}
