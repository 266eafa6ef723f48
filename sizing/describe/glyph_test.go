package describe

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/source"
)

// What cannot be printed is said once a text, at its place; comments are not printed.
func TestUnprintable(t *testing.T) {
	text := "loomfolio: 1 # \u98a8\ntitle: \"Fan \u98a8\u6247 Gr\u00f6\u00dfe\"\nvehicle: {name: \u98a8, make: Gr\u00f6\u00dfe, notes: \u98a8}\n"
	d, _ := Parse("x.yaml", []byte(text))
	missing := func(s string) string {
		return strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r < 0x2000 }), "")
	}
	ps := Unprintable(d, missing)
	require.Len(t, ps, 2)
	require.Equal(t, source.At(2, 8, 14), ps[0].Span)
	require.Contains(t, ps[0].Summary, "\u98a8 (U+98A8), \u6247 (U+6247)")
	require.Equal(t, source.At(3, 17, 1), ps[1].Span)
	require.Len(t, ps[1].Others, 1)
	require.Equal(t, source.Warning, ps[1].Level)
	require.Empty(t, Unprintable(d, func(string) string { return "" }))
}
