package render_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/render"
	"example.com/loomfolio/render/pdf"
)

func TestOursIsWhatWeWroteAndNothingElse(t *testing.T) {
	file, err := render.PDF(sheet.Packet{Title: "Fan", Sheets: []sheet.Sheet{{Title: "Cover", W: 210, H: 297}}})
	require.NoError(t, err)
	require.True(t, pdf.Ours(file))
	for i := range file {
		require.Falsef(t, pdf.Ours(file[:i]), "cut at byte %d", i)
	}
	noted := append(bytes.Clone(file), "9 0 obj\n<< /Type /Annot >>\nendobj\nxref\n0 1\ntrailer\n<< /Prev 1 >>\nstartxref\n12\n%%EOF\n"...)
	require.False(t, pdf.Ours(noted), "somebody's notes are in it")
	changed := bytes.Clone(file)
	changed[len(changed)/4] ^= 1
	require.False(t, pdf.Ours(changed))
	for _, other := range []string{"", "%PDF-1.7\n", "startxref\n-5\n%%EOF\n", "startxref\n99\n%%EOF\n", "loomfolio: 1\n"} {
		require.False(t, pdf.Ours([]byte(other)))
	}
}
