package work

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/change"
	"example.com/loomfolio/sizing/record"
	"example.com/loomfolio/sizing/source"
)

func first() string { return string(samples.List()[0].Text) }

func from(text, kept string) Source {
	return Source{Name: "first.yaml", Text: []byte(text), Record: func() (*source.File, error) {
		return source.NewFile("first.built.txt", []byte(kept)), nil
	}}
}

func TestASampleIsWorkedOut(t *testing.T) {
	w, err := Do(Source{Name: "first.yaml", Text: []byte(first())})
	require.NoError(t, err)
	require.Nil(t, w.Record)
	require.Len(t, w.Result.Wires, len(w.Harness.Wires))
	require.Equal(t, "first.yaml", w.File.Name)

	kept := record.Text(change.Freeze(w.Harness, w.Result, nil, nil))
	again, err := Do(from(first(), string(kept)))
	require.NoError(t, err)
	require.Len(t, again.Record.Wires, len(w.Harness.Wires))
	require.NotEmpty(t, again.Result.KeptWire(0))
}

// TestWhatStops: each stage that leaves nothing to go on with gives its problems, and
// the record is not asked for before the description can be read.
func TestWhatStops(t *testing.T) {
	asked := errors.New("asked for")
	ask := func() (*source.File, error) { return nil, asked }
	for name, c := range map[string]struct {
		from Source
		file string
		slug string
	}{
		"reading":   {Source{Name: "x.yaml", Text: []byte("loomfolio: 1\n:"), Record: ask}, "x.yaml", "yaml-syntax"},
		"record":    {from(first(), "no record at all"), "first.built.txt", "record-line"},
		"checking":  {Source{Name: "x.yaml", Text: []byte(strings.Replace(first(), "[IGN.15, S2]", "[IGN.15, S9]", 1))}, "x.yaml", "unknown-part"},
		"no length": {Source{Name: "x.yaml", Text: []byte(strings.Replace(first(), "  - {from: dash, to: tank, length: 2.6 m}\n", "", 1))}, "x.yaml", "no-way"},
	} {
		w, err := Do(c.from)
		require.Nil(t, w, name)
		var stop *Stop
		require.ErrorAs(t, err, &stop, name)
		require.Equal(t, c.file, stop.File.Name, name)
		require.True(t, stop.Problems.HasErrors(), name)
		require.Contains(t, slugs(stop.Problems), c.slug, name)
	}
	_, err := Do(Source{Name: "first.yaml", Text: []byte(first()), Record: ask})
	require.ErrorIs(t, err, asked)
}

func slugs(ps source.Problems) []string {
	var out []string
	for _, p := range ps {
		out = append(out, p.Slug)
	}
	return out
}
