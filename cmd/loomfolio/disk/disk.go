// Package disk reads and writes files so that nothing is lost.
//
// A file is written beside its place, brought to the disk, and then renamed, so that
// at every moment the old or the new one is there, whole. It keeps the mode of the
// one before it; a link stays a link, and what it leads to is replaced; pipes and
// devices are written into. What a killed run has left beside the place is cleared
// away by the next one: every file in the making is locked by the run that makes it,
// so that one without a lock is nobody's.
package disk

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/gofrs/flock"
)

// prefix begins the names of files in the making and of locks.
const prefix = ".loomfolio-"

// Disk writes files. The zero value is what programs use.
type Disk struct {
	// Fault is asked before each step of a test: create, write, sync, mode, rename.
	Fault func(step string) error
}

func (d Disk) step(name string) error {
	if d.Fault == nil {
		return nil
	}
	return d.Fault(name)
}

// Save writes a file. An error names the path; what was there before is then as it was.
func (d Disk) Save(path string, data []byte) error {
	if err := d.save(path, data); err != nil {
		return fmt.Errorf("cannot write %s: %w", path, plain(err))
	}
	return nil
}

// plain takes the path out of an error that names one of its own.
func plain(err error) error {
	var at *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &at):
		return at.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}

func (d Disk) save(path string, data []byte) error {
	info, err := os.Stat(path)
	if err == nil && info.IsDir() {
		return errors.New("it is a folder")
	}
	if err == nil && !info.Mode().IsRegular() {
		return d.pour(path, data)
	}
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	place, err := behind(path)
	if err != nil {
		return err
	}
	Sweep(filepath.Dir(place))
	temp, err := d.making(filepath.Dir(place))
	if err != nil {
		return err
	}
	defer temp.drop()
	if err := d.fill(temp, data, info); err != nil {
		return err
	}
	return d.place(temp, place)
}

// behind follows links to the place that they lead to, whether something is there or not.
func behind(path string) (string, error) {
	const most = 40 // links, as many as Linux follows
	for range most {
		info, err := os.Lstat(path)
		if err != nil || info.Mode()&fs.ModeSymlink == 0 {
			return path, nil
		}
		to, err := os.Readlink(path)
		if err != nil {
			return "", err
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(filepath.Dir(path), to)
		}
		path = to
	}
	return "", errors.New("it is a link that leads round in a circle")
}

// pour writes into a pipe or a device.
func (d Disk) pour(path string, data []byte) error {
	file, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	if err = d.step("write"); err == nil {
		_, err = file.Write(data)
	}
	return errors.Join(err, file.Close())
}

// making is a file that is being made, with the lock that says so.
type making struct {
	file *os.File
	lock *flock.Flock
}

// making makes a new file in a folder and locks it. Another run's sweep may take it
// away between the two; then it is made once more.
func (d Disk) making(dir string) (making, error) {
	const tries = 100
	for range tries {
		if err := d.step("create"); err != nil {
			return making{}, err
		}
		path := filepath.Join(dir, prefix+rand.Text())
		file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if err != nil {
			return making{}, err
		}
		if lock := locked(path); lock != nil {
			return making{file, lock}, nil
		}
		_ = file.Close()
	}
	return making{}, errors.New("another run is clearing the folder all the time")
}

// locked locks a file that is there; nil where another has it or it is gone.
func locked(path string) *flock.Flock {
	lock := flock.New(path, flock.SetFlag(os.O_RDWR))
	if ok, err := lock.TryLock(); !ok || err != nil {
		_ = lock.Close()
		return nil
	}
	mine, err := lock.Stat()
	there, gone := os.Lstat(path)
	if err != nil || gone != nil || !os.SameFile(mine, there) {
		_ = lock.Close()
		return nil
	}
	return lock
}

// drop ends the making; a file that has its place by now stays.
func (m making) drop() {
	_ = m.file.Close()
	if runtime.GOOS == "windows" { // there an open file cannot be removed
		_ = m.lock.Close()
	}
	_ = os.Remove(m.file.Name())
	_ = m.lock.Close()
}

// fill writes all of it to the disk, under the mode of the file before it, if any.
func (d Disk) fill(m making, data []byte, before fs.FileInfo) error {
	err := d.step("write")
	if err == nil {
		_, err = m.file.Write(data)
	}
	if err == nil && before != nil {
		if err = d.step("mode"); err == nil {
			err = m.file.Chmod(before.Mode().Perm())
		}
	}
	if err == nil {
		if err = d.step("sync"); err == nil {
			err = m.file.Sync()
		}
	}
	return errors.Join(err, m.file.Close())
}

// place gives the finished file its name.
func (d Disk) place(m making, path string) error {
	if err := d.step("rename"); err != nil {
		return err
	}
	if runtime.GOOS == "windows" { // there an open file cannot be renamed
		_ = m.lock.Close()
	}
	if err := os.Rename(m.file.Name(), path); err != nil {
		return err
	}
	if dir, err := os.Open(filepath.Dir(path)); err == nil { // the name is on the disk too; not every system can
		_ = dir.Sync()
		_ = dir.Close()
	}
	return nil
}

// Sweep removes what killed runs have left in a folder.
func Sweep(dir string) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), prefix) || !e.Type().IsRegular() {
			continue
		}
		path := filepath.Join(dir, e.Name())
		if lock := locked(path); lock != nil {
			if runtime.GOOS == "windows" {
				_ = lock.Close()
			}
			_ = os.Remove(path)
			_ = lock.Close()
		}
	}
}

// Read reads all of a stream, or an error where it has more than so many bytes.
func Read(in io.Reader, most int) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(in, int64(most)+1))
	if err == nil && len(data) > most {
		return nil, TooLong{most}
	}
	return data, err
}

// TooLong says that there is more to read than anything of its kind would have.
type TooLong struct{ Most int }

func (e TooLong) Error() string {
	return fmt.Sprintf("it has more than %d bytes", e.Most)
}

// ReadFile reads a file of at most so many bytes.
func ReadFile(path string, most int) ([]byte, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return Read(file, most)
}

// Same tells whether two paths lead to one file.
func Same(a, b string) bool {
	one, err := os.Stat(a)
	if err != nil {
		return false
	}
	two, err := os.Stat(b)
	return err == nil && os.SameFile(one, two)
}
