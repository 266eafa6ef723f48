package disk

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestFolderCannotBeLeft: neither by a name nor by a link; links within it are followed.
func TestFolderCannotBeLeft(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "car")
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "photos"), 0o777))
	for _, f := range []string{"secret.png", "car/photos/fan.png"} {
		require.NoError(t, os.WriteFile(filepath.Join(top, f), []byte(f), 0o666))
	}
	for name, to := range map[string]string{
		"out.png": "../secret.png", "far.png": filepath.Join(top, "secret.png"), "up": "..", "fan.png": "photos/fan.png", "lost.png": "nowhere.png",
	} {
		require.NoError(t, os.Symlink(to, filepath.Join(dir, name)))
	}
	folder, err := OpenFolder(dir)
	require.NoError(t, err)
	defer func() { require.NoError(t, folder.Close()) }()
	for _, name := range []string{"../secret.png", "/etc/passwd", "photos/../../secret.png", "out.png", "far.png", "up/secret.png", "./fan.png", ""} {
		_, err := folder.Stat(name)
		require.ErrorIs(t, err, fs.ErrInvalid, name)
		_, err = folder.Open(name)
		require.ErrorIs(t, err, fs.ErrInvalid, name)
	}
	for _, name := range []string{"fan.png", "photos/fan.png"} {
		data, err := fs.ReadFile(folder, name)
		require.NoError(t, err)
		require.Equal(t, "car/photos/fan.png", string(data))
	}
	for _, name := range []string{"lost.png", "gone.png", "photos/gone.png"} {
		_, err := folder.Stat(name)
		require.ErrorIs(t, err, fs.ErrNotExist, name)
	}
	list, err := fs.ReadDir(folder, "photos")
	require.NoError(t, err)
	require.Len(t, list, 1)
	_, err = OpenFolder(filepath.Join(top, "gone"))
	require.Error(t, err)
}
