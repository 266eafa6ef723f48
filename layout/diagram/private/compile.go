package private

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	_ "unsafe" // for the name below

	"github.com/tetratelabs/wazero"
	"golang.org/x/sys/cpu"
)

// machine is the graph library's portable code. It is not exported; a library that
// calls it otherwise no longer links.
//
//go:linkname machine github.com/goccy/go-graphviz/internal/wasm.wasmFile
var machine []byte

// compile makes the machine code that the library will look for, below a folder.
// Unlike the library it gives an error where the disk does.
func compile(dir string) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("compiling the graph library: %v", r)
		}
	}()
	ctx := context.Background()
	cache, err := wazero.NewCompilationCacheWithDir(dir)
	if err != nil {
		return err
	}
	runner := wazero.NewRuntimeWithConfig(ctx, wazero.NewRuntimeConfig().WithCompilationCache(cache))
	_, err = runner.CompileModule(ctx, machine)
	return errors.Join(err, runner.Close(ctx), cache.Close(ctx))
}

// follows names the settings of a build that compiled code may follow from, and
// the modules that make it.
var follows = []string{
	"-asan", "-compiler", "-gcflags", "-msan", "-race", "-tags", "GOAMD64", "GOARM64", "GOEXPERIMENT",
	"github.com/goccy/go-graphviz", "github.com/tetratelabs/wazero",
}

// key stands for all that the compiled code follows from: the build, the versions
// in it, and the processor.
func key() string {
	said := []string{runtime.Version(), runtime.GOOS, runtime.GOARCH, checksum(machine), fmt.Sprint(cpu.X86, cpu.ARM64)}
	if build, ok := debug.ReadBuildInfo(); ok {
		for _, s := range build.Settings {
			if slices.Contains(follows, s.Key) {
				said = append(said, s.Key+"="+s.Value)
			}
		}
		for _, m := range build.Deps {
			if slices.Contains(follows, m.Path) {
				said = append(said, version(m))
			}
		}
	}
	sum := sha256.Sum256([]byte(strings.Join(said, "\n")))
	return hex.EncodeToString(sum[:6])
}

func version(m *debug.Module) string {
	if m.Replace != nil {
		m = m.Replace
	}
	return m.Path + "@" + m.Version
}
