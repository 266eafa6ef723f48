package faces

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/toy"
)

// seen gives a view's rows as one stands before it.
func seen(v view) [][]string {
	var rows [][]string
	for _, row := range v.rows {
		var names []string
		for _, c := range row {
			names = append(names, c.name)
		}
		rows = append(rows, names)
	}
	return rows
}

// TestFacesMirror: the halves face each other, so the wire side of one shows what the
// mating side of the other shows; rows are those of the description.
func TestFacesMirror(t *testing.T) {
	a := toy.Car(6, 3)
	x := &a.H.Parts[4]
	x.Rows = [][]string{{"1", "2", "3", "4"}, {"5", "6"}}
	f := facesOf(a, x, 172)
	require.Equal(t, [][]string{{"1", "2", "3", "4"}, {"5", "6", "", ""}}, seen(f.lines[0][0]))
	require.Equal(t, [][]string{{"4", "3", "2", "1"}, {"", "", "6", "5"}}, seen(f.lines[0][1]))
	require.Equal(t, seen(f.lines[0][1]), seen(f.lines[1][0]))
	require.Equal(t, seen(f.lines[0][0]), seen(f.lines[1][1]))
	require.False(t, listed(x))
	x.Rows = nil
	require.True(t, listed(x), "nothing is drawn where nobody said how the cavities lie")
}

// TestWideFaces: a row too long for two halves side by side gets the whole width, one
// too long for that shows its numbers alone.
func TestWideFaces(t *testing.T) {
	a := toy.Car(6, 3)
	x := &a.H.Parts[4]
	for n, want := range map[int]struct {
		lines int
		plain bool
	}{6: {2, false}, 10: {4, false}, 18: {4, true}} {
		x.Cavities, x.Rows = nil, [][]string{nil}
		for i := range n {
			x.Cavities = append(x.Cavities, fmt.Sprint(i+1))
		}
		x.Rows[0] = x.Cavities
		f := facesOf(a, x, 172)
		require.Len(t, f.lines, want.lines, "%d in a row", n)
		require.Equal(t, want.plain, f.lines[0][0].plain, "%d in a row", n)
	}
}
