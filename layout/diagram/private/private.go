// Package private gives the graph library a cache of compiled code that is the
// user's alone and can stop nobody. The library compiles itself while the program
// starts, keeps the outcome below the folder for temporary files, and panics there,
// before main, when that cache is damaged, full, read-only or taken away; a shared
// folder would also run what any other user put there.
//
// So this package, which is initialised before the library because its import path
// sorts first (a test holds that), compiles the library's code itself where there is
// none yet, keeps it in a folder of its own for each build and version, and points
// the folder for temporary files there; Restore puts things back. A folder is made
// beside its place, sealed and then renamed, and never changed or removed again, since
// another process may be reading it: one that was damaged is passed over and the next
// one is made. Where nothing can be kept the library finds no folder, and compiles
// each time without keeping anything: slower, never wrong.
//
// This is the one init in the program: no later moment would do.
package private

import (
	"os"
	"path/filepath"
)

// began is how the environment stood, and which folder was chosen.
var began start

type start struct {
	folder string // "" when no compiled code could be kept
	was    []setting
}

type setting struct {
	name, value string
	set         bool
}

func init() {
	began.was = remember("TMPDIR", "TMP", "TEMP")
	began.folder = kept()
	to := began.folder
	if to == "" {
		to = filepath.Join(os.TempDir(), "absent", "absent")
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

func remember(names ...string) []setting {
	var out []setting
	for _, n := range names {
		value, set := os.LookupEnv(n)
		out = append(out, setting{n, value, set})
	}
	return out
}

// kept gives a folder with the library's compiled code, sound as of now; "" where
// there is none and none can be made.
func kept() string {
	base := home()
	if base == "" {
		return ""
	}
	name := "graph-" + key() + "-"
	if dir := soundOne(base, name); dir != "" {
		return dir
	}
	return made(base, name)
}

// home makes or finds the folder of the user's own; "" when it cannot be private.
func home() string {
	base, err := os.UserCacheDir()
	if err != nil || !filepath.IsAbs(base) {
		return ""
	}
	dir := filepath.Join(base, "loomfolio")
	if os.MkdirAll(dir, 0o700) != nil {
		return ""
	}
	info, err := os.Lstat(dir)
	if err != nil || !info.IsDir() {
		return ""
	}
	if info.Mode().Perm()&0o077 != 0 && os.Chmod(dir, 0o700) != nil { // only its owner may do that
		return ""
	}
	return dir
}
