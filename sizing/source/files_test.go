package source

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func several() *File {
	f := NewFile("car.yaml", []byte("include: lib.yaml\nuse: [{template: lamp, side: left}]\n"))
	lib := NewFile("lib.yaml", []byte("parts:\n  L-<side>: {kind: lmap}\n"))
	f.Included = []*File{lib}
	f.Uses = []Use{{Span: At(2, 18, 4), Text: "used here: <side> is left", With: map[string]string{"side": "left"}}}
	return f
}

func TestPlacesInSeveralFiles(t *testing.T) {
	f := several()
	at := Span{Start: Pos{2, 3}, Width: 8, File: 1, Use: 1}
	require.Equal(t, "L-left", f.At(at), "as it is read in its use")
	require.Equal(t, "  L-<side>: {kind: lmap}", f.LineOf(at))
	require.Equal(t, "kind", f.At(at.Moved(14, 4)))
	require.Equal(t, "lib.yaml", f.In(at).Name)
	require.Equal(t, f, f.In(Span{File: 9}), "of a file that there is not")
	require.Empty(t, (*File)(nil).At(at))

	require.True(t, At(9, 9, 1).Before(Span{Start: Pos{1, 1}, File: 1}), "the description before what it includes")
	require.True(t, Span{Start: Pos{2, 1}, File: 1}.Before(at))
	require.True(t, Span{Start: Pos{2, 3}, File: 1}.Before(at))
	require.False(t, at.Before(at))
}

func TestProblemsOfSeveralFiles(t *testing.T) {
	f := several()
	at := Span{Start: Pos{2, 20}, Width: 4, File: 1, Use: 1}
	other := at
	other.Use = 0
	ps := Problems{
		{Slug: "unknown-kind", Span: at, Summary: "no such kind", Detail: "Write lamp."}, {Slug: "unknown-kind", Span: other, Summary: "no such kind"},
		{Slug: "empty-file", Span: Span{File: 1}, Summary: "it is empty"}, {Slug: "late", Span: At(2, 1, 3), Summary: "of the description"},
	}.Sorted()
	require.Len(t, ps, 3, "one fault in several uses is one")
	require.Equal(t, []string{"late", "unknown-kind", "empty-file"}, []string{ps[0].Slug, ps[1].Slug, ps[2].Slug})
	ps[1] = Problem{Slug: "unknown-kind", Span: at, Summary: "no such kind", Detail: "Write lamp."}
	var b strings.Builder
	Print(&b, f, ps[1:])
	require.Equal(t, `lib.yaml:2:20: error: no such kind [unknown-kind]
    2 |   L-<side>: {kind: lmap}
      |                    ^~~~
car.yaml:2:18: note: used here: <side> is left
    2 | use: [{template: lamp, side: left}]
      |                  ^~~~
  fix: Write lamp.

lib.yaml: error: it is empty [empty-file]
`, b.String())
	l := ListOf(f, ps, nil)
	require.Equal(t, []string{"car.yaml", "car.yaml", "lib.yaml", "lib.yaml"}, []string{l.File, l.Findings[0].File, l.Findings[1].File, l.Findings[2].File})
	require.Equal(t, Listing{"car.yaml", 2, 18, 22, "used here: <side> is left"}, l.Findings[1].Places[0])
}

// TestUsesEnd: one use in the other comes to an end, whatever they say of each other.
func TestUsesEnd(t *testing.T) {
	f := several()
	f.Uses = append(f.Uses, Use{Span: Span{Start: Pos{1, 1}, Width: 1, Use: 2}})
	require.Len(t, f.uses(Span{Start: Pos{1, 1}, Use: 2}), mostUses)
	require.Empty(t, f.uses(Span{Start: Pos{1, 1}, Use: 7}))
}
