package disk

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Folder is a folder that cannot be left: neither by a name nor by a link in it. What
// leads out of it is fs.ErrInvalid.
type Folder struct{ root *os.Root }

// OpenFolder opens one.
func OpenFolder(path string) (Folder, error) {
	root, err := os.OpenRoot(path)
	return Folder{root}, err
}

// Close ends its use.
func (f Folder) Close() error { return f.root.Close() }

// Open opens a file for reading.
func (f Folder) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	file, err := f.root.Open(filepath.FromSlash(name))
	if err != nil {
		return nil, within(err)
	}
	return file, nil
}

// Stat says what is there, links followed, without opening it: opening a pipe would wait.
func (f Folder) Stat(name string) (fs.FileInfo, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "stat", Path: name, Err: fs.ErrInvalid}
	}
	info, err := f.root.Stat(filepath.FromSlash(name))
	return info, within(err)
}

// within names the error of the system's library for what leads out, which has no name there.
func within(err error) error {
	if err != nil && strings.Contains(err.Error(), "escapes from parent") {
		return &fs.PathError{Op: "open", Path: "", Err: fs.ErrInvalid}
	}
	return err
}
