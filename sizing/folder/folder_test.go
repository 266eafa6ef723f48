package folder

import (
	"errors"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
)

func TestNamesStayWithin(t *testing.T) {
	for written, want := range map[string]string{"a.yaml": "a.yaml", "./a.yaml": "a.yaml", "parts//a.yaml": "parts/a.yaml", "parts/./a.yaml": "parts/a.yaml", "…/ä.yaml": "…/ä.yaml"} {
		name, err := Name(written)
		require.NoError(t, err)
		require.Equal(t, want, name)
	}
	for written, why := range map[string]Why{"../a": Outside, "a/../../b": Outside, "/etc/passwd": Outside, ".": Outside, "": Outside, "..": Outside, `a\b`: Spelt, "C:a": Spelt, "a\x00b": Spelt, "a\xff": Outside} {
		_, err := Name(written)
		var no *Refused
		require.ErrorAs(t, err, &no, written)
		require.Equal(t, why, no.Why, written)
		require.NotEmpty(t, no.Error())
	}
}

// growing is a file that has more in it than it said.
type growing struct{ fstest.MapFS }

func (g growing) Stat(name string) (fs.FileInfo, error) {
	return fs.Stat(fstest.MapFS{name: {}}, name)
}

func TestReadIsBounded(t *testing.T) {
	files := fstest.MapFS{"shop.yaml": {Data: []byte("12345")}, "pipe": {Mode: fs.ModeNamedPipe}, "parts/a.yaml": {}}
	data, err := Read(files, "shop.yaml", 5)
	require.NoError(t, err)
	require.Equal(t, "12345", string(data))
	for _, c := range []struct {
		files fs.FS
		name  string
		want  Refused
	}{
		{files, "shop.yml", Refused{Why: Missing, Near: "shop.yaml"}}, {files, "parts/b.yaml", Refused{Why: Missing, Near: "parts/a.yaml"}}, {files, "x/y", Refused{Why: Missing}},
		{files, "pipe", Refused{Why: NoFile, Is: "a pipe or device"}}, {files, "parts", Refused{Why: NoFile, Is: "a folder"}},
		{fstest.MapFS{"a": {Data: []byte("123456")}}, "a", Refused{Why: Large, Bytes: 6}},
		{growing{fstest.MapFS{"a": {Data: []byte(strings.Repeat("x", 100))}}}, "a", Refused{Why: Large, Bytes: 6}},
	} {
		_, err := Read(c.files, c.name, 5)
		var no *Refused
		require.True(t, errors.As(err, &no), c.name)
		require.Equal(t, c.want, *no)
	}
}
