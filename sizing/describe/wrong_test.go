package describe

import (
	"cmp"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/source"
)

// example is a small wrong description of testdata/wrong.txt. Its lines are
// indented by three; a line that begins with #! says what is expected of the
// line above it: a mark under the place ("#! -" for no place), the level when it is
// not an error, the slug and words of the message, parted by " … ".
type example struct {
	name, text string
	expected   []string
}

var pointer = regexp.MustCompile(`^#! ( *)(\^~*|-) (.+)$`)

// odd are characters that would not survive an editor.
var odd = strings.NewReplacer("<tab>", "\t", "<nbsp>", "\u00a0", "<b2>", "\xb2", "<nul>", "\x00", "<zw>", "\u200b", "<cr>", "\r", "<e>", "e\u0301")

func wrong(t testing.TB) []example {
	data, err := os.ReadFile("testdata/wrong.txt")
	require.NoError(t, err)
	var out []example
	for _, chunk := range strings.Split("\n"+string(data), "\n== ")[1:] {
		name, body, _ := strings.Cut(chunk, "\n")
		out = append(out, parseExample(t, name, body))
	}
	return out
}

func parseExample(t testing.TB, name, body string) example {
	e := example{name: name}
	var kept []string
	for _, line := range strings.Split(strings.TrimRight(body, "\n"), "\n") {
		switch m := pointer.FindStringSubmatch(line); {
		case m != nil && m[2] == "-":
			e.expected = append(e.expected, "0:0+0 "+m[3])
		case m != nil:
			e.expected = append(e.expected, fmt.Sprintf("%d:%d+%d %s", len(kept), len(m[1])+1, len(m[2]), m[3]))
		default:
			require.False(t, strings.HasPrefix(line, "#!"), line)
			kept = append(kept, odd.Replace(strings.TrimPrefix(line, "   ")))
		}
	}
	e.text = strings.Join(kept, "\n") + "\n"
	return e
}

// inFile gives problems in the order of the file, in which the examples expect them.
func inFile(ps source.Problems) source.Problems {
	out := slices.Clone(ps)
	slices.SortStableFunc(out, func(a, b source.Problem) int {
		return cmp.Or(cmp.Compare(b2i(b.Span.Known()), b2i(a.Span.Known())), cmp.Compare(a.Span.Start.Line, b.Span.Start.Line), cmp.Compare(a.Span.Start.Column, b.Span.Start.Column))
	})
	return out
}

func b2i(b bool) int { return map[bool]int{true: 1}[b] }

func TestWrongExamples(t *testing.T) {
	for _, e := range wrong(t) {
		t.Run(e.name, func(t *testing.T) {
			d, ps := Parse("x.yaml", []byte(e.text))
			var got []string
			for _, p := range inFile(ps) {
				level := ""
				if p.Level > 0 {
					level = p.Level.String() + " "
				}
				got = append(got, fmt.Sprintf("%d:%d+%d %s%s: %s", p.Span.Start.Line, p.Span.Start.Column, p.Span.Width, level, p.Slug, p.Summary+" | "+p.Detail))
			}
			require.Len(t, got, len(e.expected), "%s\n%s", strings.Join(got, "\n"), printed(d, ps))
			for i, want := range e.expected {
				head, words, _ := strings.Cut(want, ": ")
				require.True(t, strings.HasPrefix(got[i], head+": "), "want %s\ngot  %s", want, got[i])
				for _, w := range strings.Split(words, " … ") {
					require.Contains(t, got[i], w)
				}
			}
		})
	}
}

func TestFilesThatCannotBeText(t *testing.T) {
	utf16 := []byte{0xff, 0xfe}
	for _, c := range minimal {
		utf16 = append(utf16, byte(c), 0)
	}
	for _, c := range []struct {
		text []byte
		want string
	}{
		{make([]byte, 0), "empty-file"}, {[]byte(" \n\r\n"), "empty-file"}, {[]byte("\ufeff"), "empty-file"},
		{[]byte(strings.Repeat("#", 1<<20+1)), "file-too-big"}, {utf16, "not-utf8"}, {utf16[2:], "not-utf8"},
	} {
		d, ps := Parse("x", c.text)
		require.NotNil(t, d)
		require.Len(t, ps, 1)
		require.Equal(t, c.want, ps[0].Slug)
		require.True(t, ps.HasErrors())
	}
}

// A file with a dozen different mistakes tells all of them.
func TestTwelveMistakesAreAllReported(t *testing.T) {
	_, ps := Parse("x", []byte(`loomfolio: 3
titel: Fan
date: 2026-13-01
sheet: {paper: A7}
system: {volts: 13, earth: plus}
customer:
parts:
  BAT: {kind: batery}
  FAN: {kind: motor, draws: 20}
  fan: {kind: ground, draws: 2 A, gauge: M6}
  K1: {kind: relay, changeover: on}
circuits:
  c: {legs: [[A.+]]}
`))
	var got []string
	for _, p := range ps {
		got = append(got, fmt.Sprintf("%d %s", p.Span.Start.Line, p.Slug))
	}
	require.Equal(t, []string{"1 missing-key", "1 unknown-version", "2 unknown-key", "3 bad-date", "4 unknown-word", "5 bad-system-voltage", "5 unknown-word", "6 empty-value",
		"8 unknown-kind", "9 bad-quantity", "10 duplicate-name", "10 key-not-for-kind", "10 key-not-for-kind", "11 bad-flag", "13 too-few-stops"}, got)
}

// The awkward words of the trade stay as they are written.
func TestWordsStayRaw(t *testing.T) {
	for _, w := range []string{"NO", "on", "off", "yes", "y", "n", "No", "true", "012", "087", "00", "1_0", "1e3", "0x1F", "1:30", "2026-01-02", "87a", "B+", "-", "+", "53e", ".5", "=", "é"} {
		text := strings.Replace(minimal, "A: {kind: battery}", "A: {kind: connector, cavities: [x, "+w+"]}", 1)
		text = strings.Replace(text, "A.+, A.-", "A."+w+", A.x", 1)
		d, ps := Parse("x", []byte(text))
		require.Empty(t, ps, printed(d, ps))
		require.Equal(t, w, d.Parts[0].Cavities[1].Text)
		stop := d.Circuits[0].Legs[0].Stops[0]
		require.Equal(t, w, stop.Terminal.Text)
		require.Equal(t, "A", stop.Part.Text)
		require.Equal(t, stop.To.Span.Start.Column+2, stop.Terminal.Span.Start.Column)
	}
}

func TestStopsAreSplitAtTheFirstPoint(t *testing.T) {
	text := strings.Replace(minimal, "[A.+, A.-]", `[X1.4.2, "A.+ ", 'B' , {to: C.d}]`, 1)
	d, ps := Parse("x", []byte(text))
	require.Empty(t, ps, printed(d, ps))
	stops := d.Circuits[0].Legs[0].Stops
	require.Equal(t, "4.2", stops[0].Terminal.Text)
	require.Equal(t, "+", stops[1].Terminal.Text)
	for _, s := range stops {
		for _, w := range []read.Word{s.Part, s.Terminal} {
			if w.Given() {
				line := []rune(d.File.Line(w.Span.Start.Line))
				require.Equal(t, w.Text, string(line[w.Span.Start.Column-1:w.Span.Start.Column-1+w.Span.Width]))
			}
		}
	}
}

// Files made to be slow are answered in a second or two, with a bounded list.
func TestHostileFilesAreQuicklyRefused(t *testing.T) {
	for want, text := range map[string]string{
		"yaml-syntax":       strings.Repeat("{a: ", 200000),
		"too-many-problems": strings.Repeat("a: b: c\n", 130000),
		"not-utf8":          strings.Repeat("a\xff\n", 300000),
		"duplicate-name":    "parts:\n" + strings.Repeat("  a: {kind: fuse}\n", 10000),
		"line-too-long":     "circuits: {c: {legs: [[" + strings.Repeat("a, ", 300000) + "]]}}",
		"wrong-shape":       "title: " + strings.Repeat("[", 900) + strings.Repeat("]", 900),
	} {
		if want == "yaml-syntax" {
			text = strings.Join(strings.SplitAfter(text, "a: "), "\n")
		}
		begun := time.Now()
		d, ps := Parse("x", []byte(text))
		require.Less(t, time.Since(begun), 10*time.Second, want)
		require.LessOrEqual(t, len(ps), 501, "500, and one that says that there are more")
		require.Contains(t, printed(d, ps), "["+want+"]")
	}
}
