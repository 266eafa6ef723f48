package main

import (
	"os/exec"
	"runtime/debug"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestVersion(t *testing.T) {
	code, out, errs := do("version")
	require.Zero(t, code, errs)
	require.Regexp(t, `^loomfolio \S+\ncommit \S+\ngo1\.\d+`, out)
	info := &debug.BuildInfo{GoVersion: "go1.26.8", Main: debug.Module{Version: "v1.2.3"},
		Settings: []debug.BuildSetting{{Key: "vcs.revision", Value: "0a1b"}, {Key: "vcs.modified", Value: "true"}}}
	require.Equal(t, "loomfolio v1.2.3\ncommit 0a1b with changes\ngo1.26.8", built(info, true))
	require.Equal(t, "loomfolio unknown\ncommit unknown\nunknown", built(nil, false))
	code, _, errs = do("version", "first")
	require.Equal(t, exitUnusable, code)
	require.Contains(t, errs, "version takes no name")
}

// Every module that is linked in has its licence printed, and no other is named.
func TestLicencesOfEverythingLinked(t *testing.T) {
	code, out, errs := do("version", "--licences")
	require.Zero(t, code, errs)
	listed, err := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{.Path}}{{end}}", ".").Output()
	require.NoError(t, err)
	var linked, named []string
	for _, m := range strings.Fields(string(listed)) {
		if !strings.HasPrefix(m, "example.com/") && !slices.Contains(linked, m) {
			linked = append(linked, m)
		}
	}
	for _, u := range notice {
		named = append(named, u.modules...)
		require.Contains(t, out, u.what+"\n"+strings.Repeat("=", 78))
	}
	require.NotEmpty(t, linked)
	require.ElementsMatch(t, linked, named)
	for _, words := range []string{"Bitstream Vera", "Bigelow & Holmes", "Eclipse Public License - v 1.0", "THE SOFTWARE IS PROVIDED \"AS IS\"", "Apache License"} {
		require.Contains(t, out, words)
	}
}
