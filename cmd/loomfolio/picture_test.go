package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// picturedFile is the first sample with a picture on its cover, one of a place and one of a part,
// in a folder of its own, and the folder above it.
func picturedFile(t *testing.T, cover string) (file, above string) {
	t.Helper()
	above = t.TempDir()
	dir := filepath.Join(above, "car")
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "photos"), 0o777))
	m := image.NewRGBA(image.Rect(0, 0, 60, 40))
	for i := range 60 * 40 {
		m.SetRGBA(i%60, i/60, color.RGBA{0x90, 0x20, 0x30, 0xff})
	}
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, m))
	for _, name := range []string{"secret.png", "car/car.png", "car/photos/tray.png"} {
		require.NoError(t, os.WriteFile(filepath.Join(above, name), b.Bytes(), 0o666))
	}
	require.NoError(t, os.Symlink("../secret.png", filepath.Join(dir, "out.png")))
	text := "sheet: {picture: " + cover + "}\n" + read(t, sampleFile(t, "first"))
	text = strings.Replace(text, "{name: Battery tray,", "{name: Battery tray, picture: photos/tray.png,", 1)
	text = strings.Replace(text, "{kind: battery,", "{kind: battery, picture: car.png,", 1)
	file = filepath.Join(dir, "first.yaml")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o666))
	return file, above
}

// TestPicturesArePrinted from the folder that the description lies in, wherever the command is called.
func TestPicturesArePrinted(t *testing.T) {
	file, above := picturedFile(t, "car.png")
	out := filepath.Join(above, "first.pdf")
	code, _, errs := do("packet", file, "-o", out, "--svg", filepath.Join(above, "svg"))
	require.Zero(t, code, errs)
	doc := read(t, out)
	require.Equal(t, 1, strings.Count(doc, "/Subtype /Image"), "one picture, however often it is shown")
	require.Contains(t, doc, "picture-2-tray.png")
	drawings, err := filepath.Glob(filepath.Join(above, "svg", "*.svg"))
	require.NoError(t, err)
	shown := 0
	for _, f := range drawings {
		shown += strings.Count(read(t, f), "<image ")
	}
	require.Equal(t, 3, shown)
}

// TestTheFolderIsNotLeft: each way out is an error at the name, and nothing is written.
func TestTheFolderIsNotLeft(t *testing.T) {
	for name, says := range map[string]string{
		"../secret.png":           "is not named within the description's folder",
		"/etc/hostname":           "is not named within the description's folder",
		"out.png":                 "leads out of the description's folder",
		"photos":                  "is a folder, no file",
		"first.yaml":              "is no picture of a form that is known here",
		"photos/tary.png":         "did you mean photos/tray.png?",
		"photos/../../secret.png": "is not named within the description's folder",
	} {
		file, above := picturedFile(t, name)
		out := filepath.Join(above, "first.pdf")
		code, _, errs := do("packet", file, "-o", out)
		require.Equal(t, exitUnusable, code, name)
		require.Contains(t, errs, file+":1:18: error: the picture "+name)
		require.Contains(t, strings.Join(strings.Fields(errs), " "), says)
		require.NoFileExists(t, out)
	}
}

// TestStandardInputHasNoFolder: the sheets are printed without the pictures, and a warning says so once.
func TestStandardInputHasNoFolder(t *testing.T) {
	file, above := picturedFile(t, "car.png")
	out := filepath.Join(above, "first.pdf")
	var said, errs bytes.Buffer
	code := run([]string{"packet", "-", "-o", out}, strings.NewReader(read(t, file)), &said, &errs)
	require.Zero(t, code, errs.String())
	require.Equal(t, 1, strings.Count(errs.String(), "[picture-no-folder]"))
	require.NotContains(t, read(t, out), "/Subtype /Image")
}

// shown are the pictures that kestrel is given: what each shows, the line that names it, and the
// sheets on which each reader finds it.
var shown = []struct{ ref, line, bench, others string }{
	{"boot", "  boot:     {", "Index", "Index"},
	{"BAT", "  BAT: {", "Index", "Index"},
	{"MF1", "  MF1: {", "Index", "Fuse map"},
	{"FD", "  FD:\n    ", "Index", "Fuse map"},
	{"KF1", "  KF1: {", "Index", "Fuse map"},
	{"X1", "  X1: {", "Connectors", "Connectors"},
	{"X2", "  X2: {", "Connectors", "Connectors"},
	{"ECU", "  ECU:\n    ", "Connectors", "Connectors"},
	{"G1", "  G1: {", "Grounds", "Grounds"},
	{"SI", "  SI: {", "Splices", "Splices"},
}

// photographed is kestrel with these pictures, each of a width of its own, 40 pixels and more.
func photographed(t *testing.T) (file string) {
	t.Helper()
	dir := t.TempDir()
	text := read(t, sampleFile(t, "kestrel"))
	for i, s := range shown {
		var b bytes.Buffer
		require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, 40+i, 36))))
		require.NoError(t, os.WriteFile(filepath.Join(dir, s.ref+".png"), b.Bytes(), 0o666))
		require.Equal(t, 1, strings.Count(text, "\n"+s.line), s.ref)
		end := ", "
		if strings.HasSuffix(s.line, " ") {
			end = "\n    "
		}
		text = strings.Replace(text, "\n"+s.line, "\n"+s.line+"picture: "+s.ref+".png"+end, 1)
	}
	file = filepath.Join(dir, "kestrel.yaml")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o666))
	return file
}

// TestEachPictureIsPrintedOnce, on the sheet of what it shows, in the PDF and among the drawings.
func TestEachPictureIsPrintedOnce(t *testing.T) {
	wholeRun(t)
	file := photographed(t)
	for i, reader := range []string{"archive", "bench", "customer"} {
		dir := t.TempDir()
		out := filepath.Join(dir, "kestrel.pdf")
		code, _, errs := do("packet", file, "-o", out, "--for", reader, "--paper", []string{"A4", "letter"}[i%2], "--svg", filepath.Join(dir, "svg"))
		require.Zero(t, code, errs)
		require.Equal(t, len(shown), strings.Count(read(t, out), "/Subtype /Image"), reader)
		drawings, err := filepath.Glob(filepath.Join(dir, "svg", "*.svg"))
		require.NoError(t, err)
		images := 0
		for _, f := range drawings {
			images += strings.Count(read(t, f), "<image ")
		}
		require.Equal(t, len(shown), images, reader)
		onItsSheet(t, out, reader)
	}
}

// onItsSheet holds by poppler that each picture stands once, on its sheet.
func onItsSheet(t *testing.T, pdf, reader string) {
	t.Helper()
	if _, err := exec.LookPath("pdfimages"); err != nil {
		return
	}
	list, err := exec.Command("pdfimages", "-list", pdf).Output()
	require.NoError(t, err)
	at := map[string]string{}
	for _, line := range strings.Split(string(list), "\n") {
		if f := strings.Fields(line); len(f) > 4 && f[2] == "image" {
			require.Empty(t, at[f[3]], "stands twice: %s", line)
			at[f[3]] = f[0]
		}
	}
	require.Len(t, at, len(shown))
	for i, s := range shown {
		n := at[fmt.Sprint(40+i)]
		text, err := exec.Command("pdftotext", "-f", n, "-l", n, pdf, "-").Output()
		require.NoError(t, err)
		want := s.others
		if reader == "bench" {
			want = s.bench
		}
		require.Contains(t, string(text), want, "%s for the %s on sheet %s", s.ref, reader, n)
	}
}
