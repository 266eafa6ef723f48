package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// shared is a small loom that takes its parts and habits from the shop's library, with a
// pair of lamps from one template, and is built in three ways.
func shared(t *testing.T) map[string]string {
	out := map[string]string{}
	for _, name := range []string{"kestrel.yaml", "parts/shop.yaml", "tow.yaml"} {
		out[name] = contents(t, "testdata/shared/"+name)
	}
	return out
}

// garage writes files into a folder and gives the place of kestrel.yaml.
func garage(t *testing.T, files map[string]string) string {
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o700))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	}
	return filepath.Join(dir, "kestrel.yaml")
}

func TestALoomFromSeveralFiles(t *testing.T) {
	file := garage(t, shared(t))
	code, out, errs := do("check", file)
	require.Zero(t, code, errs)
	require.Contains(t, out, "Front lamps: 3 circuits, 9 wires")
	code, out, errs = do("explain", file, "L-right")
	require.Zero(t, code, errs)
	require.Contains(t, out, "Lamp right")

	broken := strings.Replace(shared(t)["parts/shop.yaml"], "kind: lamp,", "kind: lmap,", 1)
	require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(file), "parts", "shop.yaml"), []byte(broken), 0o600))
	code, l := asJSON(t, file)
	require.Equal(t, exitUnusable, code)
	require.Equal(t, filepath.ToSlash(filepath.Dir(file))+"/parts/shop.yaml", filepath.ToSlash(l.Findings[0].File))
	require.Equal(t, 9, l.Findings[0].Line)
	require.Equal(t, file, l.Findings[0].Places[0].File)
}

// TestFilesOutsideTheFolderAreNotRead: neither by a name nor by a link, nor a pipe.
func TestFilesOutsideTheFolderAreNotRead(t *testing.T) {
	secret := filepath.Join(t.TempDir(), "secret.yaml")
	require.NoError(t, os.WriteFile(secret, []byte("title: secret\n"), 0o600))
	for _, name := range []string{"link.yaml", "../secret.yaml", secret, "parts"} {
		file := garage(t, map[string]string{"kestrel.yaml": fan + "include: [" + name + "]\n", "parts/a.yaml": ""})
		require.NoError(t, os.Symlink(secret, filepath.Join(filepath.Dir(file), "link.yaml")))
		code, out, errs := do("check", file)
		require.Equal(t, exitUnusable, code, out)
		require.Contains(t, errs, "[include-", name)
		require.NotContains(t, out+errs, "secret\n")
	}
	var said, errs strings.Builder
	require.Equal(t, exitUnusable, run([]string{"check", "-"}, strings.NewReader(fan+"include: [parts/shop.yaml]\n"), &said, &errs))
	require.Contains(t, errs.String(), "a description from standard input has no folder")
}

// TestVariantsAreBuilt each with its own packet and its own record.
func TestVariantsAreBuilt(t *testing.T) {
	file := garage(t, shared(t))
	stem := strings.TrimSuffix(file, ".yaml")
	for variant, want := range map[string]string{"": "Front lamps: 3 circuits", "none": "Front lamps: 3 circuits", "towing": "Front lamps · Towing: 4 circuits",
		"basic": "Front lamps · basic: 2 circuits, 6 wires", "all": "Front lamps · all variants: 4 circuits"} {
		code, out, errs := do("check", file, "--variant", variant)
		require.Zero(t, code, errs)
		require.Contains(t, out, want)
	}
	_, out, _ := do("check", file, "--variant", "basic")
	require.Contains(t, out, "parts left out in this variant: F-right, L-right, G-right\n")
	code, _, errs := do("check", file, "--variant", "towin")
	require.Equal(t, exitUnusable, code)
	require.Contains(t, errs, `Did you mean "towing"? The variants are: towing, basic.`)
	code, _, errs = do("packet", file, "--variant", "../x")
	require.Equal(t, exitUnusable, code)
	require.Contains(t, errs, "no variant's name")

	code, out, errs = do("packet", file, "--variant", "towing", "--for", "bench")
	require.Zero(t, code, errs)
	require.Contains(t, out, stem+"-towing.pdf: ")
	code, out, errs = do("freeze", file, "--variant", "towing", "--built", "tow")
	require.Zero(t, code, errs)
	require.Contains(t, out, stem+".towing.built.txt: ")
	code, _, errs = do("check", file)
	require.Zero(t, code, "the record of a variant is not that of another: %s", errs)
	code, _, errs = do("check", file, "--record", stem+".towing.built.txt")
	require.Equal(t, exitUnusable, code)
	require.Contains(t, errs, "[record-variant]")

	code, out, errs = do("figures", file, "--csv", "shopping", "--beside", "none,towing,basic")
	require.Zero(t, code, errs)
	require.Contains(t, out, "group,what,unit,buy none,buy towing,buy basic,buy together\r\n")
	require.Regexp(t, `"holder for one blade fuse.*",pcs,3,4,2,9\r\n`, out, "of fuses in line each build has as many as it has: main, two lamps, socket")
	code, _, errs = do("figures", file, "--json", "--beside", "none")
	require.Equal(t, exitUnusable, code)
	require.Contains(t, errs, "--beside goes with --csv shopping")
}

// TestAVariantThatCannotBeBuilt is said without it being asked for.
func TestAVariantThatCannotBeBuilt(t *testing.T) {
	with := func(name, old, text string) string {
		files := shared(t)
		files[name] = strings.Replace(files[name], old, text, 1)
		return garage(t, files)
	}
	code, out, errs := do("check", with("kestrel.yaml", "tow.yaml", "tov.yaml"))
	require.Equal(t, exitUnusable, code, out)
	require.Contains(t, errs, "Did you mean tow.yaml?")

	code, _, errs = do("check", with("kestrel.yaml", "lamp-right]", "lamp-rihgt]"))
	require.Equal(t, exitUnusable, code)
	require.Contains(t, errs, `Did you mean "lamp-right"?`)

	code, _, errs = do("check", with("tow.yaml", "kind: outlet, at: rear", "kind: outlet, at: raer"))
	require.Zero(t, code, errs)
	require.Contains(t, errs, `the variant "towing" cannot be built: `)
	require.Contains(t, errs, "tow.yaml:5:")
	require.Contains(t, errs, "[variant-fails]")
}
