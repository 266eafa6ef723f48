package read

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/source"
)

// box is a small section with a key of each shape.
type box struct {
	Name  Word
	Lid   Word
	Deep  Value[int]
	Open  Value[bool]
	Holds []Word
	In    []string
}

var boxKeys = []Key[box]{
	Needed(Line("name", "a name", func(b *box) *Word { return &b.Name })),
	Choice("lid", []string{"hinged", "loose"}, func(b *box) *Word { return &b.Lid }),
	Quantity("deep", "how deep, such as ###", func(b *box) *Value[int] { return &b.Deep }, parseMarks),
	Flag("open", func(b *box) *Value[bool] { return &b.Open }),
	List("holds", "a list of things", func(b *box) *[]Word { return &b.Holds }, (*Reader).Unique),
	Custom("in", "a mapping", func(r *Reader, e Entry, b *box) {
		for _, x := range r.Entries(e, "names", true) {
			b.In = append(b.In, x.Key.Text)
		}
	}),
}

func parseMarks(text string) (int, error) {
	if text == "half" {
		return 0, Refuse("no-half", "a half is none", "Write whole marks.")
	}
	if strings.Trim(text, "+") != "" {
		return 0, errors.New("only + counts")
	}
	return len(text), nil
}

func boxOf(text string) (box, source.Problems) {
	var b box
	r, top, ok := Open("box.yaml", []byte(text))
	r.Habits = map[string]string{"cover": "lid"}
	if ok {
		Mapping(r, top, boxKeys, &b)
	}
	return b, r.Problems()
}

func TestTableIsTakenIn(t *testing.T) {
	b, ps := boxOf("name: 012\nlid: HINGED\ndeep: +++\nopen: true\nholds: [NO, a]\nin: {x: 1, y: 2}\n")
	require.Empty(t, ps)
	require.Equal(t, "012", b.Name.Text)
	require.Equal(t, source.At(1, 7, 3), b.Name.Span)
	require.Equal(t, "hinged", b.Lid.Text)
	require.Equal(t, 3, b.Deep.V)
	require.True(t, b.Open.V)
	require.Equal(t, "NO", b.Holds[0].Text)
	require.Equal(t, []string{"x", "y"}, b.In)
}

// TestEverythingIsReportedAtOnce: each slip with its own slug and place, and none hides another.
func TestEverythingIsReportedAtOnce(t *testing.T) {
	_, ps := boxOf("cover: hinged\nlid: odd\ndeep: half\nopen: yes\nholds: [a, a]\nin: {x: 1, X: 2}\n")
	found := map[string]source.Span{}
	for _, p := range ps {
		found[p.Slug] = p.Span
	}
	require.Equal(t, map[string]source.Span{
		"unknown-key": source.At(1, 1, 5), "missing-key": source.At(1, 1, 5), "unknown-word": source.At(2, 6, 3), "no-half": source.At(3, 7, 4),
		"bad-flag": source.At(4, 7, 3), "duplicate-name": source.At(6, 12, 1),
	}, found)
	require.Len(t, ps, 7, "two names are given twice")
	require.Contains(t, ps[0].Detail+ps[1].Detail, `Did you mean "lid"?`)
}
