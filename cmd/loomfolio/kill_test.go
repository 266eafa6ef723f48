package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/render/pdf"
	"example.com/loomfolio/sizing/record"
	"example.com/loomfolio/sizing/source"
)

// killings are the calls that write, each with what it may leave.
func killings(file, dir string) [][]string {
	return [][]string{
		{"packet", file, "-o", filepath.Join(dir, "a.pdf")},
		{"freeze", file, "--record", filepath.Join(dir, "a.built.txt"), "--built", "fan"},
		{"packet", file, "--no-record", "-o", filepath.Join(dir, "b.pdf"), "--svg", filepath.Join(dir, "svg")},
		{"packet", file, "-o", filepath.Join(dir, "board.pdf"), "--board"},
	}
}

// Runs are killed at 200 random moments, over results of earlier runs: whatever is
// there is the old or the new file, whole, and the next run that ends leaves nothing
// of theirs behind.
func TestKilledAtAnyMoment(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the command and runs it two hundred times")
	}
	const kills = 200
	exe := filepath.Join(t.TempDir(), "loomfolio")
	said, err := exec.Command("go", "build", "-o", exe, ".").CombinedOutput()
	require.NoError(t, err, string(said))
	file, dir := sampleFile(t, "first"), t.TempDir()
	calls := killings(file, dir)
	times := make([]time.Duration, len(calls))
	for i, args := range calls {
		began := time.Now()
		said, err := exec.Command(exe, args...).CombinedOutput()
		require.NoError(t, err, string(said))
		times[i] = time.Since(began)
	}
	random := rand.New(rand.NewPCG(1, 2))
	for n := range kills {
		i := n % len(calls)
		c := exec.Command(exe, calls[i]...)
		require.NoError(t, c.Start())
		late := 0.5 + 0.6*random.Float64() // the writing is at the end
		time.Sleep(time.Duration(late * float64(times[i])))
		_ = c.Process.Kill()
		_ = c.Wait()
		whole(t, dir)
	}
	for _, args := range calls {
		said, err := exec.Command(exe, args...).CombinedOutput()
		require.NoError(t, err, string(said))
	}
	for name := range tree(t, dir) {
		require.NotContains(t, name, ".loomfolio-", "a stray file")
	}
}

// tree gives all files below a folder, by their path.
func tree(t *testing.T, dir string) map[string][]byte {
	out := map[string][]byte{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		out[path] = data
		return err
	}))
	return out
}

// whole checks every file that is not in the making.
func whole(t *testing.T, dir string) {
	t.Helper()
	for path, data := range tree(t, dir) {
		switch {
		case strings.HasPrefix(filepath.Base(path), ".loomfolio-"):
		case filepath.Ext(path) == ".pdf":
			require.True(t, pdf.Ours(data), path)
		case filepath.Ext(path) == ".svg":
			require.True(t, strings.HasSuffix(strings.TrimSpace(string(data)), "</svg>"), path)
		case filepath.Base(path) == sheetList:
			require.True(t, strings.HasPrefix(string(data), listOpening) && strings.HasSuffix(string(data), "\n"), path)
		default:
			_, problems := record.Parse(source.NewFile(path, data))
			require.Empty(t, problems, fmt.Sprint(path))
		}
	}
}
