package source

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestNearest(t *testing.T) {
	for _, c := range []struct {
		word  string
		names []string
		want  string
	}{
		{"raido", []string{"radio", "relay"}, "radio"},
		{"colour", []string{"cover", "colour"}, "colour"},
		{"COLOR", []string{"cover", "colour"}, "colour"},
		{"fan", []string{"FAN", "fun"}, "FAN"},
		{"K2", []string{"K1", "MF1"}, "K1"},
		{"K2", []string{"M2", "K1", "K3"}, "K1"},
		{"K2", []string{"K3", "K1", "M2"}, "K1"},
		{"x", []string{"y", "z"}, ""},
		{"x", []string{"X"}, "X"},
		{"headlamp", []string{"battery", "ground"}, ""},
		{"batery", []string{"battery", "bakery"}, "bakery"},
		{"größe", []string{"grösse", "gauge"}, "grösse"},
		{"", []string{"a"}, ""},
		{"anything", nil, ""},
	} {
		require.Equal(t, c.want, Nearest(c.word, c.names), "%q in %v", c.word, c.names)
	}
}

func TestPrintMarksThePlace(t *testing.T) {
	text := "\ufefftitle: Fan\r\n\tk: 電装 bad value\r\nlast: e\u0301x y\n"
	f := NewFile("car.yaml", []byte(text))
	long := strings.Repeat("word ", 30)
	ps := Problems{
		{Slug: "one", Span: At(2, 8, 3), Summary: "this is wrong", Detail: long,
			Others: []Note{{Span: At(1, 1, 5), Text: "first seen here"}}},
		{Slug: "two", Level: Warning, Span: At(3, 9, 1), Summary: "wide by one"},
		{Slug: "three", Level: Advice, Summary: "no place"},
	}
	var b strings.Builder
	Print(&b, f, ps)
	want := `car.yaml:2:8: error: this is wrong [one]
    2 | 	k: 電装 bad value
      | 	        ^~~
car.yaml:1:1: note: first seen here
    1 | title: Fan
      | ^~~~~
  fix: word word word word word word word word word word word word word word word word word word
       word word word word word word word word word word word word

car.yaml:3:9: warning: wide by one [two]
    3 | last: ` + "e\u0301" + `x y
      |        ^

car.yaml: advice: no place [three]
`
	require.Equal(t, want, b.String())
}

func TestPrintStaysWithinOddSpans(t *testing.T) {
	f := NewFile("", []byte("short\x1b[31m\x00\n"+strings.Repeat("x", 400)+"HERE"+strings.Repeat("y", 400)))
	for _, s := range []Span{At(1, 99, 5), At(1, 1, 900), At(7, 3, 2), At(2, 401, 4), At(2, 1, 900), {Start: Pos{1, 0}}} {
		var b strings.Builder
		Print(&b, f, Problems{{Slug: "s", Span: s}})
		for _, line := range strings.Split(b.String(), "\n") {
			require.LessOrEqual(t, Width(line), window+20)
			require.NotContains(t, line, "\x1b")
		}
	}
	var b strings.Builder
	Print(&b, f, Problems{{Slug: "s", Span: At(2, 401, 4)}})
	lines := strings.Split(b.String(), "\n")
	require.Equal(t, strings.Index(strings.ReplaceAll(lines[1], "…", "."), "HERE"), strings.Index(lines[2], "^~~~"))
	Print(&b, nil, Problems{{Slug: "s", Span: At(2, 401, 4)}})
}

func TestSortedIsStableAndDropsRepeats(t *testing.T) {
	a := Problem{Slug: "a", Span: At(3, 1, 1), Summary: "x"}
	b := Problem{Slug: "b", Span: At(1, 9, 1), Summary: "y"}
	none := Problem{Slug: "a", Summary: "z"}
	warn := Problem{Slug: "a", Level: Warning, Span: At(3, 1, 1), Summary: "w"}
	require.Equal(t, Problems{b, a, none, warn}, Problems{none, warn, a, b, a}.Sorted(), "errors first, each level in the order of the file")
}

func TestFindingsForScripts(t *testing.T) {
	f := NewFile("car.yaml", []byte("title: Fan\n"))
	ps := Problems{{Slug: "a-b", Span: At(1, 8, 3), Summary: "wrong <&>", Detail: "do it", Others: []Note{{At(1, 1, 5), "here too"}},
		Subjects: []string{"FAN"}, Numbers: []Number{{"amps", 3}, {"none", math.NaN()}}}}
	var b strings.Builder
	require.NoError(t, ListOf(f, ps, []Accepted{{Problem{Slug: "c-d", Level: Advice, Summary: "odd"}, "sleeved"}}).JSON(&b))
	require.JSONEq(t, `{"loomfolio": 1, "file": "car.yaml", "counts": {"error": 1, "warning": 0, "advice": 0, "accepted": 1},
		"findings": [{"slug": "a-b", "level": "error", "file": "car.yaml", "line": 1, "column": 8, "end_column": 11, "message": "wrong <&>", "fix": "do it",
			"places": [{"file": "car.yaml", "line": 1, "column": 1, "end_column": 6, "message": "here too"}], "subjects": ["FAN"], "numbers": {"amps": 3}}],
		"accepted": [{"slug": "c-d", "level": "advice", "file": "car.yaml", "line": 0, "column": 0, "end_column": 0, "message": "odd", "fix": "",
			"places": [], "subjects": [], "numbers": {}, "because": "sleeved"}]}`, b.String())
	require.Contains(t, b.String(), "<&>")
	var none strings.Builder
	require.NoError(t, ListOf(nil, nil, nil).JSON(&none))
	require.Contains(t, none.String(), `"findings": []`)
}

func TestTwin(t *testing.T) {
	for _, c := range []struct{ word, want, why string }{
		{"ВАТ", "BAT", `"ВАТ" is written with the Cyrillic letter "В" where "BAT" has the letter B`},
		{"ΒAT", "BAT", "the Greek letter"},
		{"FPO", "FP0", `"FPO" is written with the letter O where "FP0" has the digit 0`},
		{"Kl", "K1", "a small L where \"K1\" has the digit 1"},
		{"S–1", "S-1", "another sign"},
		{"BAT", "", ""}, {"BAD", "", ""}, {"", "", ""},
	} {
		name, why := Twin(c.word, []string{"BAT", "FP0", "K1", "S-1"})
		require.Equal(t, c.want, name, c.word)
		require.Contains(t, why, c.why)
	}
}
