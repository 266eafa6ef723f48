package private_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/diagram"
)

// TestDraw is what the other tests run in a process of its own: it starts the
// graph library and draws what forms a ring, so that the library is asked.
func TestDraw(t *testing.T) {
	pin := func(s diagram.Side) []diagram.Pin { return []diagram.Pin{{Side: s, Y: 5}} }
	g := diagram.Graph{Nodes: []diagram.Node{{W: 10, H: 10, Pins: pin(diagram.East)}, {W: 10, H: 10, Pins: pin(diagram.West)}},
		Wires: []diagram.Wire{{From: diagram.End{}, To: diagram.End{Node: 1}, Flag: 10}}}
	g.Nodes[0].Pins[0].X = 10
	columns, err := diagram.Columns(g)
	require.NoError(t, err)
	require.Equal(t, []int{0, 1}, columns)
	l := diagram.Lay(g, diagram.Rules{Grid: 1.25, Gap: 2.5, Below: 2.5, Track: 3, Stub: 3, FlagUp: 5, FlagDown: 1, W: 100, H: 100}, columns)
	require.True(t, l.Fits)
	t.Log("temporary files in", os.TempDir())
}

// drawing gives TestDraw as a process of its own, with folders for cache and
// temporary files.
func drawing(t *testing.T, cache, temp string) *exec.Cmd {
	t.Helper()
	exe, err := os.Executable()
	require.NoError(t, err)
	c := exec.Command(exe, "-test.run=^TestDraw$", "-test.v")
	c.Env = append(os.Environ(), "XDG_CACHE_HOME="+cache, "HOME="+cache, "TMPDIR="+temp)
	return c
}

// start runs TestDraw and gives what it says.
func start(t *testing.T, cache, temp string) string {
	t.Helper()
	out, err := drawing(t, cache, temp).CombinedOutput()
	require.NoError(t, err, string(out))
	require.Contains(t, string(out), "PASS")
	return string(out)
}

// folders gives the names below the folder of the user's own.
func folders(t *testing.T, cache string) []string {
	t.Helper()
	entries, err := os.ReadDir(filepath.Join(cache, "loomfolio"))
	require.NoError(t, err)
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

// files gives the files below a folder that hold compiled code, with their seal or without.
func files(t *testing.T, dir string, seal bool) []string {
	t.Helper()
	var out []string
	require.NoError(t, filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() && (filepath.Base(path) == "seal") == seal {
			out = append(out, path)
		}
		return err
	}))
	return out
}

// The cache stands in the user's own folder, closed to others, made by the first
// start and left alone by the next; nothing is left in the shared folder, and the
// rest of the program has that back.
func TestCacheIsPrivateAndMadeOnce(t *testing.T) {
	cache, temp := t.TempDir(), t.TempDir()
	said := start(t, cache, temp)
	require.Contains(t, said, "temporary files in "+temp)
	shared, err := os.ReadDir(temp)
	require.NoError(t, err)
	require.Empty(t, shared)
	info, err := os.Stat(filepath.Join(cache, "loomfolio"))
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o700), info.Mode().Perm())

	require.Len(t, folders(t, cache), 1)
	code := files(t, cache, false)
	require.Len(t, code, 1)
	before, err := os.Stat(code[0])
	require.NoError(t, err)
	require.Greater(t, before.Size(), int64(1<<20))
	start(t, cache, temp)
	require.Equal(t, code, files(t, cache, false), "nothing is made twice")
	after, err := os.Stat(code[0])
	require.NoError(t, err)
	require.Equal(t, before.ModTime(), after.ModTime())
}

// Files that were damaged or cut short stop nothing: the folder is left alone, since
// another start might be reading it, and the next one serves.
func TestDamagedCacheStopsNothing(t *testing.T) {
	warm := t.TempDir()
	start(t, warm, t.TempDir())
	for i, c := range []struct {
		name string
		seal bool
		harm func(string) error
	}{
		{"code cut short", false, func(f string) error { return os.Truncate(f, 1<<20) }},
		{"code cut to nothing", false, func(f string) error { return os.Truncate(f, 0) }},
		{"code overwritten", false, func(f string) error { return os.WriteFile(f, []byte("garbage"), 0o600) }},
		{"code gone", false, os.Remove},
		{"seal cut short", true, func(f string) error { return os.Truncate(f, 20) }},
		{"seal gone", true, os.Remove},
	} {
		t.Run(c.name, func(t *testing.T) {
			if testing.Short() && i > 0 { // each start with a damaged cache compiles for a second
				t.Skip("takes a second of processor time")
			}
			cache := filepath.Join(t.TempDir(), "cache")
			require.NoError(t, os.CopyFS(cache, os.DirFS(warm)))
			require.NoError(t, os.Chmod(filepath.Join(cache, "loomfolio"), 0o700))
			require.NoError(t, c.harm(files(t, cache, c.seal)[0]))
			start(t, cache, t.TempDir())
			require.Len(t, folders(t, cache), 2)
			code := files(t, filepath.Join(cache, "loomfolio", folders(t, cache)[1]), false)
			require.Len(t, code, 1)
			start(t, cache, t.TempDir())
			require.Len(t, folders(t, cache), 2, "the second one serves")
		})
	}
}

// What a killed start has left in the making goes after a while, not at once.
func TestHalfMadeFoldersGo(t *testing.T) {
	cache := t.TempDir()
	old, young := filepath.Join(cache, "loomfolio", "new-1"), filepath.Join(cache, "loomfolio", "new-2")
	for _, dir := range []string{old, young} {
		require.NoError(t, os.MkdirAll(dir, 0o700))
		require.NoError(t, os.WriteFile(filepath.Join(dir, "room"), []byte("half"), 0o600))
	}
	yesterday := time.Now().Add(-24 * time.Hour)
	require.NoError(t, os.Chtimes(old, yesterday, yesterday))
	start(t, cache, t.TempDir())
	require.NoDirExists(t, old)
	require.DirExists(t, young)
}

// Files left by others in the shared folder are not looked at.
func TestSharedFolderIsNotRead(t *testing.T) {
	temp := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(temp, "go-graphviz"), []byte("trap"), 0o600))
	start(t, t.TempDir(), temp)
}

// Without any folder of the user's own the library works all the same.
func TestNoPrivateFolder(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	start(t, filepath.Join(file, "below"), t.TempDir())
}
