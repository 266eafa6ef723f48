package disk

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func put(t *testing.T, path, text string, mode os.FileMode) {
	t.Helper()
	require.NoError(t, os.WriteFile(path, []byte(text), mode))
	require.NoError(t, os.Chmod(path, mode))
}

func get(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

// names lists a folder.
func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

// A fault at any step leaves the old file whole and nothing beside it; then all goes well.
func TestAFaultAtEachStepLeavesTheOldFile(t *testing.T) {
	steps := []string{"create", "write", "mode", "sync", "rename"}
	for _, step := range steps {
		dir := t.TempDir()
		path := filepath.Join(dir, "a.txt")
		put(t, path, "old", 0o600)
		met := map[string]bool{}
		d := Disk{Fault: func(at string) error {
			met[at] = true
			if at == step {
				return errors.New("no space left on device")
			}
			return nil
		}}
		err := d.Save(path, []byte("new"))
		require.EqualError(t, err, "cannot write "+path+": no space left on device", step)
		require.True(t, met[step])
		require.Equal(t, "old", get(t, path))
		require.Equal(t, []string{"a.txt"}, names(t, dir), step)
		require.NoError(t, Disk{}.Save(path, []byte("new")))
		require.Equal(t, "new", get(t, path))
	}
	require.ErrorContains(t, Disk{}.Save(filepath.Join(t.TempDir(), "none", "a.txt"), nil), "cannot write")
}

func TestSaveKeepsModeAndLinks(t *testing.T) {
	dir, other := t.TempDir(), t.TempDir()
	real := filepath.Join(other, "real.txt")
	put(t, real, "old", 0o600)
	require.NoError(t, os.Symlink(real, filepath.Join(dir, "link")))
	require.NoError(t, os.Symlink("link", filepath.Join(dir, "again")))
	require.NoError(t, Disk{}.Save(filepath.Join(dir, "again"), []byte("new")))
	require.Equal(t, "new", get(t, real))
	info, err := os.Stat(real)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), info.Mode())
	for _, name := range []string{"link", "again"} {
		info, err := os.Lstat(filepath.Join(dir, name))
		require.NoError(t, err)
		require.NotZero(t, info.Mode()&os.ModeSymlink, name)
	}

	require.NoError(t, os.Symlink("yet.txt", filepath.Join(dir, "to-nothing")))
	require.NoError(t, Disk{}.Save(filepath.Join(dir, "to-nothing"), []byte("first")))
	require.Equal(t, "first", get(t, filepath.Join(dir, "yet.txt")))

	require.NoError(t, os.Symlink("round", filepath.Join(dir, "round")))
	require.Error(t, Disk{}.Save(filepath.Join(dir, "round"), nil))
	require.EqualError(t, Disk{}.Save(dir, nil), "cannot write "+dir+": it is a folder")
}

// What killed runs left goes at the next write; what a run is making stays.
func TestStrayFilesGoAndOthersStay(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.txt")
	put(t, filepath.Join(dir, prefix+"STRAY"), "half", 0o644)
	put(t, filepath.Join(dir, prefix+"lock-b"), "", 0o600)
	put(t, filepath.Join(dir, ".mine"), "kept", 0o644)
	busy, err := Disk{}.making(dir)
	require.NoError(t, err)
	require.NoError(t, Disk{}.Save(path, []byte("new")))
	require.Equal(t, []string{filepath.Base(busy.file.Name()), ".mine", "a.txt"}, names(t, dir))
	busy.drop()
	require.Equal(t, []string{".mine", "a.txt"}, names(t, dir))
}

// Many writers of one file at once: it is always one of theirs, whole.
func TestWritersAtOnce(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.txt")
	var all sync.WaitGroup
	for i := range 8 {
		all.Go(func() {
			for range 20 {
				if err := (Disk{}).Save(path, bytes.Repeat([]byte{byte('a' + i)}, 5000)); err != nil {
					t.Errorf("writer %d: %v", i, err)
				}
			}
		})
	}
	all.Wait()
	text := get(t, path)
	require.Equal(t, strings.Repeat(text[:1], 5000), text)
	require.Equal(t, []string{"a.txt"}, names(t, dir))
}

// Whoever holds the lock is alone: a count that all change by reading and writing adds up.
func TestLock(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "count")
	put(t, path, "0", 0o644)
	const writers, rounds = 6, 25
	var all sync.WaitGroup
	for range writers {
		all.Go(func() {
			for range rounds {
				release, err := Lock(path, time.Minute)
				if err != nil {
					t.Error(err)
					return
				}
				var n int
				if _, err := fmt.Sscan(get(t, path), &n); err != nil {
					t.Error(err)
				}
				if err := (Disk{}).Save(path, fmt.Append(nil, n+1)); err != nil {
					t.Error(err)
				}
				release()
			}
		})
	}
	all.Wait()
	require.Equal(t, fmt.Sprint(writers*rounds), get(t, path))
	require.Equal(t, []string{"count"}, names(t, dir))

	release, err := Lock(path, 0)
	require.NoError(t, err)
	_, err = Lock(path, 50*time.Millisecond)
	require.EqualError(t, err, "another run is changing "+path+" and does not end")
	release()
	release, err = Lock(path, 0)
	require.NoError(t, err)
	release()
}

// endless is input that never ends.
type endless struct{}

func (endless) Read(p []byte) (int, error) { return len(p), nil }

func TestReadIsBounded(t *testing.T) {
	_, err := Read(endless{}, 1000)
	require.ErrorAs(t, err, &TooLong{})
	data, err := Read(strings.NewReader("1234"), 4)
	require.NoError(t, err)
	require.Equal(t, "1234", string(data))
	_, err = Read(strings.NewReader("12345"), 4)
	require.EqualError(t, err, "it has more than 4 bytes")
}
