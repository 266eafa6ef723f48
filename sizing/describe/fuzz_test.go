package describe

import (
	"os"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/source"
)

// FuzzParse: no text makes the reader panic, every problem is worded and
// points inside the file, and reading twice gives the same.
func FuzzParse(f *testing.F) {
	text, err := os.ReadFile("testdata/whole.yaml")
	require.NoError(f, err)
	f.Add(string(text))
	f.Add(minimal)
	f.Add(bundled)
	for _, w := range wrong(f) {
		f.Add(w.text)
	}
	for _, said := range []string{"buy: numbers", "buy: {for: clear, reels: 0}", "buy: {for: [few], sizes: 1e3, pairs: -0, copper: 1/2 oz}", "buy: ~",
		"tell-apart: {panels: all, runs: sleeve, branchings: no}", "tools: [lugs, {a: b}, lugs]", "minutes: {crimp: .nan, crimp: 0x1p-2, lug: min}"} {
		f.Add(minimal + "practice: {" + said + "}\n")
	}
	f.Add("a: &x [*x]\n<<: {a: 1}\n? [b]\n: !!str c\n---\nd")
	f.Fuzz(func(t *testing.T, text string) {
		d, ps := Parse("f.yaml", []byte(text))
		require.NotNil(t, d)
		for _, p := range ps {
			require.NotEmpty(t, p.Slug)
			require.NotEmpty(t, p.Summary)
			require.NotEmpty(t, p.Detail)
			inside(t, d.File, p.Span)
			for _, n := range p.Others {
				inside(t, d.File, n.Span)
			}
		}
		require.NotEmpty(t, text+"x")
		_, again := Parse("f.yaml", []byte(text))
		require.Equal(t, ps, again)
		_ = printed(d, ps)
	})
}

func inside(t *testing.T, f *source.File, s source.Span) {
	t.Helper()
	if !s.Known() {
		return
	}
	width := utf8.RuneCountInString(f.LineOf(s))
	require.LessOrEqual(t, s.File, len(f.Included))
	require.LessOrEqual(t, s.Use, len(f.Uses))
	require.GreaterOrEqual(t, s.Start.Column, 1)
	require.GreaterOrEqual(t, s.Width, 1)
	require.LessOrEqual(t, s.Start.Column+s.Width-1, max(width, s.Start.Column), "%+v of width %d", s, width)
	require.LessOrEqual(t, s.Start.Column, width+1)
}
