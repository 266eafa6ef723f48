package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// builds makes the command three times: as it is, stripped, and with another tag.
// The first two share their compiled code, the third has its own.
func builds(t testing.TB) []string {
	t.Helper()
	dir := t.TempDir()
	var out []string
	for _, flag := range []string{"-ldflags=", "-ldflags=-s -w", "-tags=another"} {
		path := filepath.Join(dir, strconv.Itoa(len(out)))
		said, err := exec.Command("go", "build", "-o", path, flag, ".").CombinedOutput()
		require.NoError(t, err, string(said))
		out = append(out, path)
	}
	return out
}

// Three builds are started 42 times, a little apart, over one cache that is cold
// at first: every one of them works, and what is kept serves all.
func TestStartsOverOneColdCache(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the command three times")
	}
	const starts, apart = 42, 25 * time.Millisecond
	exes, cache := builds(t), t.TempDir()
	type ended struct {
		said string
		err  error
	}
	done := make(chan ended, starts)
	for i := range starts {
		c := exec.Command(exes[i%len(exes)], "help")
		c.Env = append(os.Environ(), "XDG_CACHE_HOME="+cache, "HOME="+cache)
		go func() {
			said, err := c.CombinedOutput()
			done <- ended{string(said), err}
		}()
		time.Sleep(apart)
	}
	for range starts {
		e := <-done
		require.NoError(t, e.err, e.said)
		require.True(t, strings.HasPrefix(e.said, opening), e.said)
	}
	entries, err := os.ReadDir(filepath.Join(cache, "loomfolio"))
	require.NoError(t, err)
	require.Len(t, entries, 2, "one folder for the two builds that are alike, one for the other; nothing half made")
}

// BenchmarkStart is a whole process that only prints its help: the first one of a
// build, which compiles the graph library, and the next ones.
func BenchmarkStart(b *testing.B) {
	exe := builds(b)[0]
	run := func(b *testing.B, cache string) {
		c := exec.Command(exe, "help")
		c.Env = append(os.Environ(), "XDG_CACHE_HOME="+cache, "HOME="+cache)
		require.NoError(b, c.Run())
		cpu := c.ProcessState.UserTime() + c.ProcessState.SystemTime()
		b.ReportMetric(cpu.Seconds()*1000, "cpu-ms/op")
	}
	b.Run("cold", func(b *testing.B) {
		for range b.N {
			run(b, b.TempDir())
		}
	})
	b.Run("warm", func(b *testing.B) {
		cache := b.TempDir()
		run(b, cache)
		for b.Loop() {
			run(b, cache)
		}
	})
}
