package render_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/render"
)

func TestOursIsWhatWeWroteAndNothingElse(t *testing.T) {
	pdf, err := render.PDF(sheet.Packet{Title: "Fan", Sheets: []sheet.Sheet{{Title: "Cover", W: 210, H: 297}}})
	require.NoError(t, err)
	require.True(t, render.Ours(pdf))
	for i := range pdf {
		require.Falsef(t, render.Ours(pdf[:i]), "cut at byte %d", i)
	}
	noted := append(bytes.Clone(pdf), "9 0 obj\n<< /Type /Annot >>\nendobj\nxref\n0 1\ntrailer\n<< /Prev 1 >>\nstartxref\n12\n%%EOF\n"...)
	require.False(t, render.Ours(noted), "somebody's notes are in it")
	changed := bytes.Clone(pdf)
	changed[len(changed)/4] ^= 1
	require.False(t, render.Ours(changed))
	for _, other := range []string{"", "%PDF-1.7\n", "startxref\n-5\n%%EOF\n", "startxref\n99\n%%EOF\n", "loomfolio: 1\n"} {
		require.False(t, render.Ours([]byte(other)))
	}
}
