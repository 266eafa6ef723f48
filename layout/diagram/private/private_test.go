package private_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/diagram"
)

// TestDraw is what the other tests run in a process of its own: it starts the
// graph library and draws.
func TestDraw(t *testing.T) {
	pin := func(s diagram.Side) []diagram.Pin { return []diagram.Pin{{Side: s, Y: 5}} }
	g := diagram.Graph{Nodes: []diagram.Node{{W: 10, H: 10, Pins: pin(diagram.East)}, {W: 10, H: 10, Pins: pin(diagram.West)}},
		Wires: []diagram.Wire{{From: diagram.End{}, To: diagram.End{Node: 1}, Flag: 10}}}
	g.Nodes[0].Pins[0].X = 10
	columns, err := diagram.Columns(g)
	require.NoError(t, err)
	require.Equal(t, []int{0, 1}, columns)
	l := diagram.Lay(g, diagram.Rules{Grid: 1.25, Gap: 2.5, Track: 3, Stub: 3, FlagUp: 5, FlagDown: 1, W: 100, H: 100}, columns)
	require.True(t, l.Fits)
	t.Log("temporary files in", os.TempDir())
}

// start runs TestDraw in a process of its own with folders for cache and
// temporary files, and gives what it says.
func start(t *testing.T, cache, temp string) string {
	t.Helper()
	exe, err := os.Executable()
	require.NoError(t, err)
	c := exec.Command(exe, "-test.run=^TestDraw$", "-test.v")
	c.Env = append(os.Environ(), "XDG_CACHE_HOME="+cache, "HOME="+cache, "TMPDIR="+temp)
	out, err := c.CombinedOutput()
	require.NoError(t, err, string(out))
	return string(out)
}

func cached(t *testing.T, cache string) []string {
	t.Helper()
	var files []string
	require.NoError(t, filepath.WalkDir(cache, func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() && filepath.Base(path) != "seal" {
			files = append(files, path)
		}
		return err
	}))
	return files
}

// The cache stands in the user's own folder, closed to others, and nothing is
// left in the shared one; the rest of the program has the shared one back.
func TestCacheIsPrivate(t *testing.T) {
	cache, temp := t.TempDir(), t.TempDir()
	said := start(t, cache, temp)
	require.Contains(t, said, "temporary files in "+temp)
	shared, err := os.ReadDir(temp)
	require.NoError(t, err)
	require.Empty(t, shared)
	require.NotEmpty(t, cached(t, cache))
	info, err := os.Stat(filepath.Join(cache, "loomfolio"))
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o700), info.Mode().Perm())
}

// A cached file that was damaged or cut short is dropped and made anew.
func TestDamagedCacheStopsNothing(t *testing.T) {
	cache := t.TempDir()
	start(t, cache, t.TempDir())
	for _, damage := range []string{"garbage", ""} {
		for _, f := range cached(t, cache) {
			require.NoError(t, os.WriteFile(f, []byte(damage), 0o600))
		}
		start(t, cache, t.TempDir())
		for _, f := range cached(t, cache) {
			data, err := os.ReadFile(f)
			require.NoError(t, err)
			require.Greater(t, len(data), 1<<20, "made anew")
		}
	}
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
	said := start(t, filepath.Join(file, "below"), t.TempDir())
	require.True(t, strings.Contains(said, "PASS"))
}
