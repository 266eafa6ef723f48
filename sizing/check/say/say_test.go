package say_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/check/say"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/source"
)

// An unknown name is told what is near it and what there is; a long list is cut after a dozen.
func TestUnknown(t *testing.T) {
	var r say.Report
	at := source.At(3, 5, 4)
	r.Unknown("unknown-place", "place", read.Word{Text: "tary", Span: at}, []string{"dash", "tray"})
	r.Unknown("unknown-place", "place", read.Word{Text: "tary", Span: at}, nil)
	require.Equal(t, source.Problems{
		{Slug: "unknown-place", Level: source.Error, Span: at, Summary: `no place is called "tary"`, Detail: "did you mean tray? (known here: dash, tray)"},
		{Slug: "unknown-place", Level: source.Error, Span: at, Summary: `no place is called "tary"`, Detail: "the description names no place at all"},
	}, r.Problems)
	require.Equal(t, "a, b, c, d, e, f, g, h, i, j, k, l and 2 more", say.Listed(strings.Split("abcdefghijklmn", "")))
}

// A note set on what was said stands in the report.
func TestANoteIsKept(t *testing.T) {
	var r say.Report
	r.Say(source.Advice, "part-unused", source.Span{}, "detail", "no wire reaches %s", "K1").Others = []source.Note{{Text: "here"}}
	var all say.Report
	all.Take(r.Problems)
	require.Equal(t, "no wire reaches K1", all.Problems[0].Summary)
	require.Equal(t, source.Advice, all.Problems[0].Level)
	require.Equal(t, []source.Note{{Text: "here"}}, all.Problems[0].Others)
}
