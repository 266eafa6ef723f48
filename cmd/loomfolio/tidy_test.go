package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/cmd/loomfolio/work"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/figures"
)

// laid puts a text into a folder of its own and gives its path.
func laid(t testing.TB, name, text string) string {
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

// TestTidyReplacesTheDescription: it is replaced once, then stays byte by byte.
func TestTidyReplacesTheDescription(t *testing.T) {
	path := sampleFile(t, "first")
	code, out, _ := do("tidy", path, "--check")
	require.Equal(t, 1, code)
	require.Contains(t, out, "is not tidy: line 12 is the first to change")
	code, printed, errs := do("tidy", path, "-o", "-")
	require.Equal(t, 0, code)
	require.Empty(t, errs)
	code, _, errs = do("tidy", path)
	require.Equal(t, 0, code)
	require.Contains(t, errs, "written")
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, printed, string(text))
	code, out, _ = do("tidy", path, "--check")
	require.Equal(t, 0, code)
	require.Contains(t, out, "is tidy")
	code, _, errs = do("tidy", path)
	require.Equal(t, 0, code)
	require.Contains(t, errs, "is tidy already")
}

// TestTidyLeavesWhatIsWrong: errors of form are printed, and the file stays.
func TestTidyLeavesWhatIsWrong(t *testing.T) {
	const wrong = "loomfolio: 1\ntitel: t   # a slip\n"
	path := laid(t, "wrong.yaml", wrong)
	code, _, errs := do("tidy", path)
	require.Equal(t, 2, code)
	require.Contains(t, errs, `Did you mean "title"?`)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, wrong, string(text))
}

// TestTidyNeverOverwritesOthers: another place that is taken stays, without --force.
func TestTidyNeverOverwritesOthers(t *testing.T) {
	path, other := sampleFile(t, "first"), laid(t, "other.yaml", "mine\n")
	code, _, errs := do("tidy", path, "-o", other)
	require.Equal(t, 2, code)
	require.Contains(t, errs, "is there already")
	code, _, _ = do("tidy", path, "-o", other, "--force")
	require.Equal(t, 0, code)
	code, _, errs = do("tidy", path, "--check", "-o", other)
	require.Equal(t, 2, code)
	require.Contains(t, errs, "--check writes nothing")
}

// TestTidyEndsLinesInOneWay: CRLF and the byte order mark go.
func TestTidyEndsLinesInOneWay(t *testing.T) {
	path := sampleFile(t, "first")
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	_, plain, _ := do("tidy", path, "-o", "-")
	require.NoError(t, os.WriteFile(path, []byte("\ufeff"+strings.ReplaceAll(string(text), "\n", "\r\n")), 0o600))
	_, printed, _ := do("tidy", path, "-o", "-")
	require.Equal(t, plain, printed)
}

// TestTidiedSampleComputesTheSame: every wire of the whole car comes out as before.
func TestTidiedSampleComputesTheSame(t *testing.T) {
	for _, s := range samples.List() {
		if s.Name != "first" {
			continue
		}
		_, tidied, _ := do("tidy", sampleFile(t, s.Name), "-o", "-")
		table := func(text string) string {
			w, err := work.Do(work.Source{Name: "t.yaml", Text: []byte(text)})
			require.NoError(t, err)
			var b bytes.Buffer
			require.NoError(t, figures.CSV(&b, figures.Of(w.Harness, w.Result), "wires"))
			return b.String()
		}
		require.Equal(t, table(string(s.Text)), table(tidied))
	}
}
