package typeface

import (
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"

	"example.com/loomfolio/layout/sheet"
)

// needed is what packets print beyond plain ASCII.
const needed = "Ωµ²³±×→←↑↓↔≤≥√Δ°·–—…½¼¾⌀Ø∅ÅÄÖÜåäöüßéèñçłőşŽžŁЖяλφ☐☑✓✗■●▲◆⚠⇒−‑ΦΣ″′€£№∞≈∼∠•\u00a0\u202f\u2009"

func TestEveryNeededCharacterHasAGlyph(t *testing.T) {
	require.NoError(t, Check())
	for _, face := range []sheet.Face{sheet.Regular, sheet.Bold} {
		for r := ' '; r < 0x7f; r++ {
			require.Equal(t, string(r), Clean(string(r), face))
		}
		require.Equal(t, needed, Clean(needed, face))
	}
}

func TestDigitsAreTabular(t *testing.T) {
	for _, face := range []sheet.Face{sheet.Regular, sheet.Bold} {
		for _, d := range "123456789" {
			require.Equal(t, Width("0", face, 10), Width(string(d), face, 10), "%c", d)
		}
	}
}

func TestRunsFallBackPerCharacter(t *testing.T) {
	var got []string
	for _, r := range Runs("☐ strip 7 mm ⌀ ok", sheet.Bold) {
		got = append(got, r.Font.Name()+":"+r.S)
	}
	require.Equal(t, []string{
		"DejaVuSansCondensedBold:☐", "GoBold: strip 7 mm ", "DejaVuSansCondensedBold:⌀", "GoBold: ok",
	}, got)
	sum := 0.0
	for _, r := range Runs("☐ strip", sheet.Regular) {
		sum += r.Width
	}
	require.InDelta(t, Width("☐ strip", sheet.Regular, 1), sum, 1e-9)
}

func TestClean(t *testing.T) {
	for in, want := range map[string]string{
		"cafe\u0301":              "café", // composed
		"a\tb\nc\r":               "a b c ",
		"\U0001F697 car":          "? car", // above U+FFFF
		"bad \xff byte":           "bad ? byte",
		"re\u00adlay\u200b\ufeff": "relay",
		"漢字":                      "??",
		"nul\x00 bell\a":          "nul? bell?",
	} {
		require.Equal(t, want, Clean(in, sheet.Regular), "%q", in)
	}
}

func TestWrap(t *testing.T) {
	const size = 3.46
	fit := func(s string) float64 { return Width(s, sheet.Regular, size) }
	for _, c := range []struct {
		s    string
		wide float64
		want []string
	}{
		{"", 10, []string{""}},
		{"relay for the fan", fit("relay for"), []string{"relay for", "the fan"}},
		{"relay   for", fit("relay f"), []string{"relay", "for"}},
		{"first\nsecond", 100, []string{"first", "second"}},
		{"red/black", fit("red/bl"), []string{"red/", "black"}},
		{"10 1/2 in", fit("10 1/"), []string{"10", "1/2", "in"}},
		{"left-hand drive", fit("left-ha"), []string{"left-", "hand", "drive"}},
		{"−5 or -5", fit("−5 or"), []string{"−5 or", "-5"}},
		{"12,5 mm", fit("12,5"), []string{"12,5", "mm"}},
		{"2.5\u00a0mm² red", fit("2.5\u00a0mm²"), []string{"2.5\u00a0mm²", "red"}},
		{"receptacle", fit("recep"), []string{"recep", "tacle"}},
		{"W", 0.1, []string{"W"}},
		{"abc", 0.1, []string{"a", "b", "c"}},
		{"MF1.1 · ring", fit("MF1.1 ·"), []string{"MF1.1 ·", "ring"}},
	} {
		require.Equal(t, c.want, Wrap(c.s, sheet.Regular, size, c.wide), "%q", c.s)
	}
}

func FuzzWrap(f *testing.F) {
	f.Add("relay 30 A, coil 85/86 left-hand ☐ ⌀", 12.0)
	f.Add("\x00\U0001F697 漢\u0301", 0.0)
	f.Fuzz(func(t *testing.T, s string, width float64) {
		if width < 0 || width > 300 || len(s) > 400 {
			return
		}
		lines := Wrap(s, sheet.Regular, 3.46, width)
		require.NotEmpty(t, lines)
		for _, l := range lines {
			if len([]rune(l)) > 1 {
				require.LessOrEqual(t, Width(l, sheet.Regular, 3.46), width+1e-6, "%q", l)
			}
		}
		bare := func(s string) string {
			return strings.Map(func(r rune) rune {
				if unicode.IsSpace(r) {
					return -1
				}
				return r
			}, s)
		}
		require.Equal(t, bare(Clean(s, sheet.Regular)), bare(strings.Join(lines, "")))
	})
}

func TestFitAndShrink(t *testing.T) {
	require.Equal(t, "Kestrel", Fit("Kestrel", sheet.Regular, 3, 100))
	short := Fit("Kestrel GT wiring", sheet.Regular, 3, 15)
	require.True(t, strings.HasSuffix(short, "…"))
	require.LessOrEqual(t, Width(short, sheet.Regular, 3), 15.0)
	require.Equal(t, 3.0, Shrink("Kestrel", sheet.Regular, 3, 2, 100))
	size := Shrink("Kestrel GT wiring", sheet.Bold, 3, 1, 20)
	require.InDelta(t, 20, Width("Kestrel GT wiring", sheet.Bold, size), 1e-9)
	require.Equal(t, 2.0, Shrink("Kestrel GT wiring", sheet.Bold, 3, 2, 2))
}

func TestTextBounds(t *testing.T) {
	text := sheet.Text{X: 100, Y: 50, Size: 10, S: "Kestrel", Align: sheet.Right}
	w := Width("Kestrel", sheet.Regular, 10)
	flat := TextBounds(text)
	require.InDeltaSlice(t, []float64{100 - w, 50 - 9.5, w, 11.7}, []float64{flat.X, flat.Y, flat.W, flat.H}, 1e-9)
	text.Turn, text.Align = 90, sheet.Left // reads upward from the place
	up := TextBounds(text)
	require.InDeltaSlice(t, []float64{100 - 9.5, 50 - w, 11.7, w}, []float64{up.X, up.Y, up.W, up.H}, 1e-9)
}

func TestProportionsAreTheFontsOwn(t *testing.T) {
	for _, f := range []Font{GoRegular, GoBold} {
		m, err := loaded().fonts[f].Metrics(nil, fixed.I(2048), font.HintingNone)
		require.NoError(t, err)
		require.Equal(t, CapHeight*2048, float64(m.CapHeight.Round()))
		require.LessOrEqual(t, float64(m.Ascent.Round()), Ascent*2048)
		require.LessOrEqual(t, float64(m.Descent.Round()), Descent*2048)
	}
	for _, s := range []struct{ size, capital float64 }{
		{sheet.SizeNote, 2}, {sheet.SizeBody, 2.5}, {sheet.SizeHead, 3.5}, {sheet.SizeTitle, 5}, // ISO 3098-1 heights, and 2
	} {
		require.InDelta(t, s.capital, s.size*CapHeight, 0.005)
	}
}

func BenchmarkWidth(b *testing.B) {
	for b.Loop() {
		Width("Relay 30 A coil 85 to fuse F12, 2.5 mm² red/black 1450 mm", sheet.Regular, 3.46)
	}
}

func BenchmarkWrap(b *testing.B) {
	for b.Loop() {
		Wrap("Relay 30 A coil 85 to fuse F12, 2.5 mm² red/black 1450 mm, behind the radiator support", sheet.Regular, 3.46, 40)
	}
}

func TestMissingNamesWhatComesOutAsAQuestionMark(t *testing.T) {
	for text, want := range map[string]string{"Größe? Ω Ж é": "", "漢字 漢": "漢字", "car \U0001F697": "\U0001F697", "cafe\u0301": ""} {
		require.Equal(t, want, Missing(text), text)
	}
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		load()
	}
}
