package render_test

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/render"
	"example.com/loomfolio/render/vector"
)

// plain is a picture of one colour, 40 × 30 pixels, in a form.
func plain(t testing.TB, form string, c color.RGBA) []byte {
	m := image.NewRGBA(image.Rect(0, 0, 40, 30))
	for i := range 40 * 30 {
		m.SetRGBA(i%40, i/40, c)
	}
	var b bytes.Buffer
	if form == sheet.JPEG {
		require.NoError(t, jpeg.Encode(&b, m, &jpeg.Options{Quality: 95}))
	} else {
		require.NoError(t, png.Encode(&b, m))
	}
	return b.Bytes()
}

var orange, teal = color.RGBA{0xe0, 0x80, 0x20, 0xff}, color.RGBA{0x20, 0x80, 0x90, 0xff}

// pictured has three pictures of one width on two sheets, one of them on both.
func pictured(t testing.TB) sheet.Packet {
	at := func(x, y float64, form string, c color.RGBA) sheet.Picture {
		return sheet.Picture{X: x, Y: y, W: 40, H: 30, Form: form, Data: plain(t, form, c), Words: "a " + form + " <one>"}
	}
	ink := sheet.Text{X: 10, Y: 10, Size: 4, S: "beside"}
	return sheet.Packet{Title: "T", Date: issued, Sheets: []sheet.Sheet{
		{W: 210, H: 297, Title: "One", Marks: []sheet.Mark{ink, at(20, 20, sheet.JPEG, orange), at(80, 200, sheet.PNG, teal)}},
		{W: 210, H: 297, Title: "Two", Marks: []sheet.Mark{at(20, 20, sheet.JPEG, orange), at(120, 20, sheet.JPEG, teal), ink}},
	}}
}

// TestPicturesStandWhereTheyArePut in their colours, each in the document once.
func TestPicturesStandWhereTheyArePut(t *testing.T) {
	file := write(t, pictured(t))
	require.Contains(t, run(t, "qpdf", "--check", file), "No syntax or stream encoding errors")
	list := run(t, "pdfimages", "-list", file)
	require.Equal(t, 4, strings.Count(list, "\n")-2, list)
	require.Equal(t, 3, strings.Count(list, "jpeg"), list)
	base := filepath.Join(t.TempDir(), "p")
	run(t, "pdftoppm", "-png", "-r", "25.4", file, base)
	for _, c := range []struct {
		page string
		x, y int // mm, and pixels
		want color.RGBA
	}{{"1", 22, 22, orange}, {"1", 58, 48, orange}, {"1", 100, 215, teal}, {"2", 40, 35, orange}, {"2", 140, 35, teal}, {"1", 62, 35, color.RGBA{255, 255, 255, 255}}} {
		data, err := os.ReadFile(base + "-" + c.page + ".png")
		require.NoError(t, err)
		m, err := png.Decode(bytes.NewReader(data))
		require.NoError(t, err)
		r, g, b, _ := m.At(c.x, c.y).RGBA()
		for _, d := range [][2]int{{int(c.want.R), int(r >> 8)}, {int(c.want.G), int(g >> 8)}, {int(c.want.B), int(b >> 8)}} {
			require.InDelta(t, d[0], d[1], 6, "sheet %s at %d, %d", c.page, c.x, c.y)
		}
	}
}

// TestSamePicturesSameBytes: pictures of one width come in the order of the sheets.
func TestSamePicturesSameBytes(t *testing.T) {
	first, err := render.PDF(pictured(t))
	require.NoError(t, err)
	for range 8 {
		again, err := render.PDF(pictured(t))
		require.NoError(t, err)
		require.True(t, bytes.Equal(first, again))
	}
}

// TestPicturesOfTheWrongForm are refused, not drawn as something else.
func TestPicturesOfTheWrongForm(t *testing.T) {
	for _, bad := range []sheet.Picture{
		{W: 1, H: 1, Form: sheet.JPEG, Data: plain(t, sheet.PNG, orange)},
		{W: 1, H: 1, Form: sheet.PNG, Data: []byte("no picture")},
		{W: 1, H: 1, Form: sheet.PNG},
		{W: 1, H: 1, Form: "gif", Data: []byte("GIF89a")},
		{W: 0, H: 1, Form: sheet.PNG, Data: plain(t, sheet.PNG, teal)},
	} {
		p := pictured(t)
		p.Sheets[0].Marks = append(p.Sheets[0].Marks, bad)
		_, err := render.PDF(p)
		require.Error(t, err, "%+v", bad)
	}
}

// TestDrawingsCarryTheirPictures within the file.
func TestDrawingsCarryTheirPictures(t *testing.T) {
	files, err := vector.Files(pictured(t))
	require.NoError(t, err)
	require.Contains(t, string(files[0].Data), `<image x="20" y="20" width="40" height="30" preserveAspectRatio="none" xlink:href="data:image/jpeg;base64,/9j/`)
	require.Contains(t, string(files[0].Data), `data:image/png;base64,iVBOR`)
	require.Contains(t, string(files[0].Data), `<title>a jpeg &lt;one&gt;</title>`)
}
