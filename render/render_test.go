package render_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/render"
	"example.com/loomfolio/render/pdf"
)

// run calls an outside checker; without it the test is skipped, except on CI.
func run(t *testing.T, name string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		require.Empty(t, os.Getenv("CI"), "%s is missing", name)
		t.Skipf("%s is missing", name)
	}
	out, err := exec.Command(name, args...).CombinedOutput()
	require.NoError(t, err, "%s: %s", name, out)
	return string(out)
}

func write(t *testing.T, p sheet.Packet) string {
	t.Helper()
	drawn, err := render.PDF(p)
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "packet.pdf")
	require.NoError(t, os.WriteFile(file, drawn, 0o600))
	return file
}

func TestSamePacketSameBytes(t *testing.T) {
	first, err := render.PDF(demo(t, "A4", 20))
	require.NoError(t, err)
	for range 5 {
		again, err := render.PDF(demo(t, "A4", 20))
		require.NoError(t, err)
		require.True(t, bytes.Equal(first, again))
	}
}

func TestPacketsSideBySide(t *testing.T) {
	first, err := render.PDF(demo(t, "A4", 5))
	require.NoError(t, err)
	packets := make([]sheet.Packet, 4)
	for i := range packets {
		packets[i] = demo(t, "A4", 5)
	}
	var group sync.WaitGroup
	for _, p := range packets {
		group.Go(func() {
			again, err := render.PDF(p)
			if err != nil || !bytes.Equal(first, again) {
				t.Error("a document drawn beside another differs", err)
			}
		})
	}
	group.Wait()
}

func TestQpdfFindsNothing(t *testing.T) {
	require.Contains(t, run(t, "qpdf", "--check", write(t, demo(t, "letter", 30))), "No syntax or stream encoding errors")
}

func TestPdfinfo(t *testing.T) {
	file := write(t, demo(t, "A4", 4))
	info := run(t, "pdfinfo", "-f", "1", "-l", "9", file)
	for _, want := range []string{"Kestrel GT · wiring <B>", "wiring & fuses", "wiring, Ω", "M. Example", "PDF version:     1.7", "Pages:           4",
		"Page    1 size:  595.28 x 841.89", "Page    3 size:  1190.55 x 841.89", "Page    4 size:  1224 x 792"} {
		require.Contains(t, info, want)
	}
	require.Contains(t, run(t, "pdfinfo", "-meta", file), "<pdfaid:part>3</pdfaid:part>")
	require.Contains(t, run(t, "pdfinfo", "-isodates", file), "2026-11-02T09:30:00")
}

func TestTextReadsBack(t *testing.T) {
	text := run(t, "pdftotext", "-layout", write(t, demo(t, "A4", 4)), "-")
	for _, want := range []string{"☐ ☑ ✓ ⚠ ⌀ 6.3 → M8 · 2.5 mm² · ½ × ≤ ≥ − ‑ Ω µ ° é ő ł Ж λ", "Radiator fan", "FAN.− · butt splice", "2 of 4", "rev. B · 2026-11-02 · 9f3c61a0"} {
		require.Contains(t, text, want)
	}
	require.NotContains(t, text, "\ufffd")
}

func TestFontsAreEmbeddedSubsets(t *testing.T) {
	fonts := run(t, "pdffonts", write(t, demo(t, "A4", 4)))
	for _, want := range []string{"+GoRegular", "+GoBold", "+DejaVuSansCondensed"} {
		require.Contains(t, fonts, want)
	}
	for _, line := range strings.Split(strings.TrimSpace(fonts), "\n")[2:] {
		require.Contains(t, line, "yes yes yes", "embedded, subset, readable: %s", line)
	}
}

func TestAttachmentsComeBackByteForByte(t *testing.T) {
	file := write(t, demo(t, "A4", 4))
	list := run(t, "pdfdetach", "-list", file)
	require.Contains(t, list, "2 embedded files")
	require.Contains(t, list, "kestrel-ü.yaml")
	dir := t.TempDir()
	for i, want := range []string{"", described} { // by name: "a (1).txt", then kestrel
		out := filepath.Join(dir, fmt.Sprint(i))
		run(t, "pdfdetach", "-save", fmt.Sprint(i+1), "-o", out, file)
		got, err := os.ReadFile(out)
		require.NoError(t, err)
		require.Equal(t, want, string(got))
	}
}

func TestFaultsAreErrors(t *testing.T) {
	with := func(m ...sheet.Mark) sheet.Packet {
		return sheet.Packet{Date: issued, Sheets: []sheet.Sheet{{W: 210, H: 297, Title: "S", Marks: m}}}
	}
	text := sheet.Text{X: 10, Y: 10, Size: 4, S: "a"}
	for fault, p := range map[string]sheet.Packet{
		`a link to "gone", which is nowhere`: with(sheet.Link{Target: "gone"}),
		"a number that is no length":         with(sheet.Text{X: math.NaN(), Size: 3, S: "a"}),
		"a packet without sheets":            {},
		`attachment "x/a": no name of its own`: {Sheets: with(text).Sheets,
			Attached: []sheet.Attachment{{Name: "a"}, {Name: "x/a"}}},
	} {
		_, err := render.PDF(p)
		require.ErrorContains(t, err, fault)
	}
}

// TestHostileText holds that no string can break the document, whatever its characters.
func TestHostileText(t *testing.T) {
	var c sheet.Canvas
	for i, s := range []string{"\U0001F697 car", "bad \xff", "nul\x00", "a\\b(c)d)", "\r\n", "漢字", "ĊċčĀ", "e\u0301", "", "\u200b"} {
		c.Text(10, 10+float64(i)*8, s, sheet.Plain(4))
	}
	p := sheet.Packet{Title: "\xff\x00]]>&", Author: "(\\", Sheets: []sheet.Sheet{{W: 210, H: 297, Title: "\U0001F697 )(", Marks: c.Marks}}}
	file := write(t, p)
	require.Contains(t, run(t, "qpdf", "--check", file), "No syntax or stream encoding errors")
	text := run(t, "pdftotext", "-layout", file, "-")
	require.Contains(t, text, "? car")
	require.Contains(t, text, `a\b(c)d)`)
	require.Contains(t, text, "ĊċčĀ")
	require.Contains(t, text, "é")
	require.NotContains(t, run(t, "pdfinfo", file), "CreationDate", "no date given, none taken from the clock")
}

func TestEmptySheetAndStrangeStrokes(t *testing.T) {
	red := sheet.Colour{R: 255}
	square := sheet.Path{Segs: []sheet.Seg{{P: sheet.Point{X: 10}}, {P: sheet.Point{X: 10, Y: 10}}}, Closed: true}
	var marks []sheet.Mark
	for _, s := range []*sheet.Stroke{nil, {}, {Width: 1e-9}, {Width: 1, Dash: []float64{0, 0}}, {Width: 1, Dash: []float64{1, 2}}, {Width: 2, Round: true}} {
		square.Stroke = s
		marks = append(marks, square)
		square.Fill = &red
	}
	marks = append(marks, sheet.Path{Stroke: &sheet.Stroke{Width: 1}}) // no steps at all
	p := sheet.Packet{Date: time.Time{}, Sheets: []sheet.Sheet{{W: 100, H: 50, Title: "empty"}, {W: 50, H: 100, Title: "strokes", Marks: marks}}}
	require.Contains(t, run(t, "qpdf", "--check", write(t, p)), "No syntax or stream encoding errors")
}

func TestUncompressedIsReadable(t *testing.T) {
	drawn, err := render.With(demo(t, "A4", 4), pdf.Options{Uncompressed: true})
	require.NoError(t, err)
	require.True(t, bytes.Contains(drawn, []byte(described)))
	require.True(t, bytes.Contains(drawn, []byte("(\x00F\x00A\x00N) Tj")))
}

func BenchmarkPDF(b *testing.B) {
	for _, sheets := range []int{1, 10, 100} {
		b.Run(fmt.Sprint(sheets), func(b *testing.B) {
			p := demo(b, "A4", 46)
			one := p.Sheets[1]
			for i := range one.Marks {
				switch one.Marks[i].(type) {
				case sheet.Link, sheet.Anchor:
					one.Marks[i] = sheet.Path{}
				}
			}
			p.Sheets = nil
			for range sheets {
				p.Sheets = append(p.Sheets, one)
			}
			for b.Loop() {
				if _, err := render.PDF(p); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
