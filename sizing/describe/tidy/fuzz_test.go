package tidy

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
)

// head is what every description needs beside its parts and circuits.
const head = "loomfolio: 1\ntitle: t\n"

// seeds are all descriptions of the repository: samples, patterns, cases in files and
// the sections of testdata/*.txt.
func seeds(t testing.TB) []string {
	var out []string
	for _, s := range append(samples.List(), samples.Patterns()...) {
		out = append(out, string(s.Text))
	}
	for _, pattern := range []string{"../testdata/*.yaml", "../../testdata/*/*.yaml"} {
		files, err := filepath.Glob(pattern)
		require.NoError(t, err)
		require.NotEmpty(t, files)
		for _, f := range files {
			text, err := os.ReadFile(f)
			require.NoError(t, err)
			out = append(out, string(text))
		}
	}
	files, err := filepath.Glob("../../testdata/*.txt")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		for _, section := range strings.Split("\n"+string(text), "\n== ")[1:] {
			_, body, _ := strings.Cut(section, "\n")
			out = append(out, head+body)
		}
	}
	return append(out, commented, strange)
}

// commented has a comment wherever one can stand.
const commented = `# head of the file

# above the version
loomfolio: 1     # behind the version
# right under the version

title: t
system:   # behind a key
  # above volts
  volts: 12   # behind volts
  # at the end of the system
practice: {drop: {default: 3 %,   # in brackets
  start: 0.5 V}, smallest: # before a value
    0.5 mm2}   # behind the practice
parts:
  # Paragraph

  BAT: {kind: battery,   # first key
    # above a key in brackets
    capacity: 60 Ah   # last key
    # before the bracket
    }   # behind the part
  G0: # behind a name
    kind: ground
    notes: | # behind the bar
      # not a comment
       text  
# between lines at the edge
  F1: {kind: fuse}
  L: {kind: lamp, draws: 5 W, name: 'a, b', notes: "x # no comment" }#tight
      # deeper than anything
circuits:
  c:
    legs:
    # above a leg
    - [G0, # behind a stop
       BAT.-]   # behind a leg
    - - BAT.+   # behind a dash
      # above a stop
      - {to: F1,   # in a stop
         length: 2 m}
      - L
      - G0
      # below the stops
    # below the legs
# below the circuits
`

// strange has what YAML allows and nobody writes.
const strange = "\ufeff---\r\nloomfolio: \"1\"\r\n\"title\": 'it''s'\r\nnotes: >+2\r\n    folded\r\n\r\n  lines\r\n\r\n" +
	"system: {\"volts\" : 12,}\r\nparts: {BAT: {kind: battery, name: \"a  \\\r\n  b\", notes: 'it''s\r\n  long' }, G0: {kind: ground, name: it's, part-number: \"-\",\r\n" +
	" notes: plain\r\n  text\r\n\r\n  of lines}}\r\ncircuits: {c: {legs: [[\r\nG0,\r\n\"BAT.-\"\r\n]]}}\r\n...\r\n"

// FuzzTidy: a text that parses without errors is tidied without a panic, no comment is
// lost, it parses to the same, and tidied once more it stays as it is.
func FuzzTidy(f *testing.F) {
	for _, s := range seeds(f) {
		if len(s) < 3000 { // all of them are in TestSeeds; long ones take too long a try
			f.Add(s)
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		tidied(t, text)
	})
}

// tidied tidies a text and holds it to what is promised.
func tidied(t *testing.T, text string) string {
	out, err := Text("f.yaml", []byte(text))
	var refused *Refused
	if errors.As(err, &refused) {
		require.True(t, refused.Problems.HasErrors())
		return ""
	}
	if err != nil && longest(text) > 1000 {
		return "" // a line may have no more than 2,000 characters
	}
	require.NoError(t, err)
	before, ps := describe.Parse("f.yaml", []byte(text))
	require.False(t, ps.HasErrors())
	after, ps := describe.Parse("f.yaml", out)
	require.False(t, ps.HasErrors())
	require.Equal(t, sayingOf(before), sayingOf(after))
	a, err := read.AsWritten([]byte(text))
	require.NoError(t, err)
	b, err := read.AsWritten(out)
	require.NoError(t, err)
	require.Equal(t, remarksOf(a), remarksOf(b))
	again, err := Text("f.yaml", out)
	require.NoError(t, err)
	require.Equal(t, string(out), string(again))
	return string(out)
}

func longest(text string) int {
	most := 0
	for _, l := range strings.Split(text, "\n") {
		most = max(most, len(l))
	}
	return most
}
