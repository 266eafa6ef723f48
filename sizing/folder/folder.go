// Package folder reads the files that a description names: pictures, and descriptions
// that it includes.
//
// In: a name as it is written, and the description's folder as a file system that has
// Stat and says fs.ErrInvalid of what leads out of it. Out: the bytes, or why not. It
// holds that nothing outside the folder is named, that pipes and devices are not opened,
// and that no more is read than is allowed.
package folder

import (
	"errors"
	"io"
	"io/fs"
	"path"
	"strings"

	"example.com/loomfolio/sizing/source"
)

// Why is why a file is not read.
type Why int

// The reasons.
const (
	Spelt   Why = iota // the name is not written with plain slashes
	Outside            // the name leads out of the folder
	Link               // a link on the way leads out of the folder
	Missing            // there is no such file
	NoFile             // it is a folder, a pipe or a device
	Large              // it has more bytes than are read
	Locked             // it cannot be read
)

// Refused says why a file is not read.
type Refused struct {
	Why   Why
	Near  string // of a missing one: a file that may be meant
	Is    string // of what is no file: what it is
	Bytes int64  // of a large one
	Cause error  // of one that cannot be read
}

func (r *Refused) Error() string {
	return [...]string{"is written with other signs than /", "leads out of the folder", "is a link out of the folder", "is not there", "is no file", "is too large", "cannot be read"}[r.Why]
}

// Unwrap gives the cause.
func (r *Refused) Unwrap() error { return r.Cause }

// Name gives a written name as file systems have it, from the folder on; a *Refused for
// one that leads out.
func Name(written string) (string, error) {
	if strings.ContainsAny(written, "\\:\x00") {
		return "", &Refused{Why: Spelt}
	}
	name := path.Clean(written)
	if !fs.ValidPath(name) || name == "." {
		return "", &Refused{Why: Outside}
	}
	return name, nil
}

// Read gives a file's bytes, no more than most; the error is a *Refused, or the reader's own.
func Read(files fs.FS, name string, most int64) ([]byte, error) {
	info, err := fs.Stat(files, name)
	switch {
	case errors.Is(err, fs.ErrInvalid):
		return nil, &Refused{Why: Link}
	case errors.Is(err, fs.ErrNotExist):
		return nil, &Refused{Why: Missing, Near: near(files, name)}
	case err != nil:
		return nil, &Refused{Why: Locked, Cause: bare(err)}
	case !info.Mode().IsRegular():
		return nil, &Refused{Why: NoFile, Is: kindOf(info)}
	case info.Size() > most:
		return nil, &Refused{Why: Large, Bytes: info.Size()}
	}
	f, err := files.Open(name)
	if err != nil {
		return nil, &Refused{Why: Locked, Cause: bare(err)}
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, most+1))
	if err == nil && int64(len(data)) > most {
		return nil, &Refused{Why: Large, Bytes: int64(len(data))}
	}
	return data, err
}

func kindOf(info fs.FileInfo) string {
	if info.IsDir() {
		return "a folder"
	}
	return "a pipe or device"
}

// bare is an error without the path that the message has already.
func bare(err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	return err
}

// near gives a file of the same folder whose name is much alike, "" for none.
func near(files fs.FS, name string) string {
	list, err := fs.ReadDir(files, path.Dir(name))
	if err != nil {
		return ""
	}
	var names []string
	for _, e := range list {
		names = append(names, e.Name())
	}
	if found := source.Nearest(path.Base(name), names); found != "" {
		return path.Join(path.Dir(name), found)
	}
	return ""
}
