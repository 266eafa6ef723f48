// Package private keeps the graph library's cache of compiled code out of the
// shared temporary folder. The library compiles itself while the program starts
// and looks for earlier output under the folder for temporary files: there, any
// user could put code of his own, a second user's start fails, and a damaged
// file stops the program before main.
//
// So this package, which is initialised before the library because its import
// path sorts first (a test holds that), points the folder for temporary files at
// one that is the user's alone, drops every cached file that does not match the
// seal written when it was last used with success, and Restore puts things back.
// Where there is no such folder the library finds none and compiles each time.
//
// This is the one init in the program: no later moment would do.
package private

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"sort"
	"sync"
)

const sealName = "seal"

// began is how the environment stood and which folder was chosen.
var began start

type start struct {
	folder string // "" when no private folder could be had
	was    []setting
}

type setting struct {
	name, value string
	set         bool
}

func init() {
	began.was = remember("TMPDIR", "TMP", "TEMP")
	began.folder = folder()
	to := began.folder
	if to == "" {
		to = filepath.Join(os.TempDir(), "absent", "absent")
	} else {
		dropUnsealed(to)
	}
	for _, s := range began.was {
		_ = os.Setenv(s.name, to)
	}
}

// Restore gives the folder for temporary files back to the rest of the program;
// it is true so that a package variable can call it.
func Restore() bool {
	for _, s := range began.was {
		if s.set {
			_ = os.Setenv(s.name, s.value)
		} else {
			_ = os.Unsetenv(s.name)
		}
	}
	return true
}

// Seal records the cached files as good: call it when the library has worked.
// Calls after the first do nothing.
func Seal() { once.Do(seal) }

var once sync.Once

func seal() {
	if began.folder == "" {
		return
	}
	want := digest(began.folder)
	path := filepath.Join(began.folder, sealName)
	if have, err := os.ReadFile(path); err == nil && bytes.Equal(have, want) {
		return
	}
	temp := path + ".new"
	if os.WriteFile(temp, want, 0o600) == nil {
		_ = os.Rename(temp, path)
	}
}

func remember(names ...string) []setting {
	var out []setting
	for _, n := range names {
		value, set := os.LookupEnv(n)
		out = append(out, setting{n, value, set})
	}
	return out
}

// folder makes or finds the private folder; "" when it cannot be private.
func folder() string {
	base, err := os.UserCacheDir()
	if err != nil || !filepath.IsAbs(base) {
		return ""
	}
	dir := filepath.Join(base, "loomfolio")
	if os.MkdirAll(dir, 0o700) != nil {
		return ""
	}
	info, err := os.Lstat(dir)
	if err != nil || !info.IsDir() || os.Chmod(dir, 0o700) != nil { // only its owner may do that
		return ""
	}
	return dir
}

// dropUnsealed removes the cached files unless all of them match the seal.
func dropUnsealed(dir string) {
	seal, err := os.ReadFile(filepath.Join(dir, sealName))
	if err == nil && bytes.Equal(seal, digest(dir)) {
		return
	}
	_ = os.RemoveAll(filepath.Join(dir, "go-graphviz"))
}

// digest lists the cached files, each with its sum, in a fixed order.
func digest(dir string) []byte {
	var lines []string
	_ = filepath.WalkDir(filepath.Join(dir, "go-graphviz"), func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return nil
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return nil
		}
		sum := sha256.Sum256(data)
		lines = append(lines, hex.EncodeToString(sum[:])+" "+filepath.Base(path)+"\n")
		return nil
	})
	sort.Strings(lines)
	return []byte("sealed\n" + string(bytes.Join(toBytes(lines), nil)))
}

func toBytes(lines []string) [][]byte {
	var out [][]byte
	for _, l := range lines {
		out = append(out, []byte(l))
	}
	return out
}
