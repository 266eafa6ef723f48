package sizing_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/accept"
	catalogue "example.com/loomfolio/sizing/rules"
)

// TestPatterns: each pattern is right, and every state shows what its lines say.
func TestPatterns(t *testing.T) {
	for _, s := range samples.Patterns() {
		t.Run(s.Name, func(t *testing.T) {
			t.Parallel()
			x := expected(t, string(s.Text))
			require.Empty(t, x.unrecognised)
			require.NotEmpty(t, x.shown, "a pattern says what its states show")
			all, err := catalogue.List()
			require.NoError(t, err)
			for _, as := range worked.Bought() {
				h, r, found := workedOut(t, string(s.Text), as)
				require.NotNil(t, r, "%s", listed(found))
				open, _ := accept.Settle(h, found, all)
				require.Empty(t, open, "%s: %s", as, listed(open))
				if as == "clear" { // volts and amperes follow the sizes
					seen(t, h, r, x.shown)
				}
			}
		})
	}
}

// told is a line that begins with #!.
var told = regexp.MustCompile(`(?m)^#!.*\n`)

// editLine changes a pattern into one that is wired wrong.
var editLine = regexp.MustCompile(`(?m)^#! edit ("(?:[^"\\]|\\.)*") -> ("(?:[^"\\]|\\.)*")\n`)

// TestPatternsWiredWrong: testdata/patterns-wrong.txt has sections "== PATTERN: the mistake", each
// with edits of the pattern and what must then be said and seen. Where nothing graver than advice is
// said, the section has no line that says it: such mistakes are missed as yet.
func TestPatternsWiredWrong(t *testing.T) {
	data, err := os.ReadFile("testdata/patterns-wrong.txt")
	require.NoError(t, err)
	right := map[string]string{}
	mistakes := map[string]int{}
	for _, s := range samples.Patterns() {
		right[s.Name] = told.ReplaceAllString(string(s.Text), "")
	}
	for _, section := range strings.Split(string(data), "\n== ")[1:] {
		head, lines, _ := strings.Cut(section, "\n")
		name, _, ok := strings.Cut(head, ": ")
		require.True(t, ok, head)
		mistakes[name]++
		t.Run(head, func(t *testing.T) {
			t.Parallel()
			wrong, said := right[name], editLine.ReplaceAllString(lines, "")
			for _, m := range editLine.FindAllStringSubmatch(lines, -1) {
				wrong = edited(t, wrong, unquoted(t, m[1]), unquoted(t, m[2]))
			}
			require.NotEqual(t, right[name], wrong)
			x := expected(t, said)
			require.Empty(t, x.unrecognised)
			for _, as := range worked.Bought() {
				judge(t, wrong, as, x)
			}
		})
	}
	for name := range right {
		require.Positive(t, mistakes[name], "%s is wired wrong at least once", name)
	}
}
