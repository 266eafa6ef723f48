package grid

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// cells reads a table and gives its cells and what was guessed.
func cells(t *testing.T, data string) ([][]string, []string) {
	g, err := Read([]byte(data))
	require.NoError(t, err)
	var out [][]string
	for _, row := range g.Rows {
		out = append(out, row.Cells)
	}
	return out, g.Said
}

// TestLettersAndSigns: encodings by mark or guess, the sign between the cells.
func TestLettersAndSigns(t *testing.T) {
	for _, c := range []struct{ data, letters, sign string }{
		{"a;ü\nb;c\n", "UTF-8", "semicolons"},
		{"\xef\xbb\xbfa,ü\r\nb,c\r\n", "UTF-8", "commas"},
		{"a\t\xfc\nb\tc\n", "Windows-1252, a guess", "tabs"},
		{"\xff\xfea\x00|\x00\xfc\x00\n\x00b\x00|\x00c\x00", "UTF-16", "bars"},
		{"\x00a\x00;\x00\xfc\x00\n\x00b\x00;\x00c", "UTF-16", "semicolons"},
	} {
		rows, said := cells(t, c.data)
		require.Equal(t, [][]string{{"a", "ü"}, {"b", "c"}}, rows, c.data)
		require.Equal(t, []string{"the letters are read as " + c.letters, "the cells are parted by " + c.sign}, said)
	}
}

// TestQuotes: as RFC 4180 has them; inches, which are no quotes, part no rows.
func TestQuotes(t *testing.T) {
	rows, _ := cells(t, "a,\"b, c\",\"d \"\"e\"\"\"\n1,72\",x\n2,48\",y\n\"two\nlines\",3,z\n")
	require.Equal(t, [][]string{{"a", "b, c", `d "e"`}, {"1", `72"`, "x"}, {"2", `48"`, "y"}, {"two lines", "3", "z"}, nil}, rows)
}

// TestHidden: what does not show goes.
func TestHidden(t *testing.T) {
	rows, _ := cells(t, "a\u200bb,c\u00a0d\n")
	require.Equal(t, [][]string{{"ab", "c d"}}, rows)
}
