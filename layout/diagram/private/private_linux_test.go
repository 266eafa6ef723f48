package private_test

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// On a disk of 2 MB nothing can be kept, and nothing is left there.
func TestFullDiskStopsNothing(t *testing.T) {
	cache := t.TempDir()
	if err := syscall.Mount("tmpfs", cache, "tmpfs", 0, "size=2m"); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("no small disk can be mounted: %v", err)
		}
		t.Skipf("no small disk can be mounted: %v", err)
	}
	defer func() { require.NoError(t, syscall.Unmount(cache, 0)) }()
	start(t, cache, t.TempDir())
	require.Empty(t, folders(t, cache))
}

// A folder that one may read and not write serves where it is sound, and stops
// nothing where it is empty.
func TestReadOnlyCacheStopsNothing(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles the graph library three times")
	}
	warm := t.TempDir()
	start(t, warm, t.TempDir())
	for _, cache := range []string{warm, t.TempDir()} {
		open(t, cache)
		c := drawing(t, cache, shared(t))
		if os.Getuid() == 0 {
			c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
			c.Path = forAll(t, c.Path)
			c.Dir = "/"
		}
		before := files(t, cache, false)
		out, err := c.CombinedOutput()
		require.NoError(t, err, string(out))
		require.Equal(t, before, files(t, cache, false))
	}
}

// nobody is a user without rights of his own.
const nobody = 65534

// open lets everybody read a tree, and nobody write it.
func open(t *testing.T, dir string) {
	t.Helper()
	for up := filepath.Dir(dir); strings.HasPrefix(up, os.TempDir()) && up != os.TempDir(); up = filepath.Dir(up) {
		require.NoError(t, os.Chmod(up, 0o755))
	}
	require.NoError(t, filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil {
			return err
		}
		t.Cleanup(func() { _ = os.Chmod(path, 0o700) })
		return os.Chmod(path, 0o555)
	}))
}

// shared gives a folder for temporary files that everybody may write.
func shared(t *testing.T) string {
	dir := t.TempDir()
	require.NoError(t, os.Chmod(dir, 0o777))
	return dir
}

// forAll copies a program to where everybody may run it.
func forAll(t *testing.T, exe string) string {
	data, err := os.ReadFile(exe)
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "draw")
	require.NoError(t, os.WriteFile(path, data, 0o755))
	for up := filepath.Dir(path); strings.HasPrefix(up, os.TempDir()) && up != os.TempDir(); up = filepath.Dir(up) {
		require.NoError(t, os.Chmod(up, 0o755))
	}
	return path
}
