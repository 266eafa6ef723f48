package picture

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

var (
	red   = color.RGBA{R: 0xd0, A: 0xff}
	green = color.RGBA{G: 0xa0, A: 0xff}
)

// halves is a picture whose left half is red and whose right half is green.
func halves(wide, high int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, wide, high))
	for y := range high {
		for x := range wide {
			c := red
			if x >= wide/2 {
				c = green
			}
			m.SetRGBA(x, y, c)
		}
	}
	return m
}

func asPNG(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, m))
	return b.Bytes()
}

func asJPEG(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, &jpeg.Options{Quality: 90}))
	return b.Bytes()
}

// held is a JPEG file that says how the telephone was held.
func held(file []byte, orientation uint16, order binary.AppendByteOrder) []byte {
	tiff := []byte("II*\x00\x08\x00\x00\x00")
	if order == binary.AppendByteOrder(binary.BigEndian) {
		tiff = []byte("MM\x00*\x00\x00\x00\x08")
	}
	tiff = order.AppendUint16(tiff, 1)
	tiff = order.AppendUint16(tiff, 274)
	tiff = order.AppendUint16(tiff, 3)
	tiff = order.AppendUint32(tiff, 1)
	tiff = order.AppendUint16(tiff, orientation)
	body := append([]byte("Exif\x00\x00"), append(tiff, 0, 0)...)
	out := append([]byte{0xff, 0xd8, 0xff, 0xe1}, binary.BigEndian.AppendUint16(nil, uint16(len(body)+2))...)
	return append(append(out, body...), file[2:]...)
}

// claims is a PNG file whose header alone says that it is so large.
func claims(wide, high uint32) []byte {
	head := binary.BigEndian.AppendUint32([]byte("IHDR"), wide)
	head = append(binary.BigEndian.AppendUint32(head, high), 8, 2, 0, 0, 0)
	out := binary.BigEndian.AppendUint32([]byte("\x89PNG\r\n\x1a\n"), 13)
	return binary.BigEndian.AppendUint32(append(out, head...), crc32.ChecksumIEEE(head))
}

// one is a model whose cover names a file.
func one(file string) *harness.Harness {
	p := &harness.Picture{File: file, Span: source.At(3, 17, len(file))}
	return &harness.Harness{Pictures: []*harness.Picture{p}, Sheet: harness.Sheet{Picture: p}}
}

// TestWhatCannotBePrinted: each is one error at its place that says what would be right.
func TestWhatCannotBePrinted(t *testing.T) {
	good := asPNG(t, halves(40, 30))
	folder := fstest.MapFS{
		"photos/fan.png": {Data: good}, "empty.png": {}, "cut.png": {Data: good[:len(good)/2]}, "cut.jpg": {Data: asJPEG(t, halves(40, 30))[:300]},
		"notes.jpg": {Data: []byte("brown plug")}, "moving.png": {Data: []byte("GIF89a....")}, "phone.jpg": {Data: []byte("\x00\x00\x00\x18ftypheic")},
		"web.jpg": {Data: []byte("RIFF\x10\x00\x00\x00WEBPVP8 ")}, "long.png": {Data: make([]byte, MostBytes+1)},
		"huge.png": {Data: claims(1<<31-1, 1<<31-1)}, "wide.png": {Data: claims(MostPixels+1, 1)}, "none.png": {Data: claims(0, 7)},
		"pipe.png": {Mode: fs.ModeNamedPipe},
	}
	for _, c := range []struct{ file, slug, says string }{
		{"/photos/fan.png", "picture-outside", "put the file into the description's folder"},
		{"../fan.png", "picture-outside", "not named within"},
		{"photos/../../fan.png", "picture-outside", "not named within"},
		{".", "picture-outside", "not named within"},
		{`photos\fan.png`, "picture-outside", "write folders with /"},
		{"C:fan.png", "picture-outside", "write folders with /"},
		{"photos/fun.png", "picture-missing", "did you mean photos/fan.png?"},
		{"elsewhere/fan.png", "picture-missing", "put it there"},
		{"photos", "picture-unreadable", "is a folder, no file"},
		{"pipe.png", "picture-unreadable", "is a pipe or device"},
		{"empty.png", "picture-unreadable", "is an empty file"},
		{"cut.png", "picture-unreadable", "is damaged"},
		{"cut.jpg", "picture-unreadable", "is damaged"},
		{"none.png", "picture-unreadable", "is damaged"},
		{"notes.jpg", "picture-unreadable", "no picture of a form that is known here"},
		{"moving.png", "picture-unreadable", "is a GIF file, whatever it is called"},
		{"phone.jpg", "picture-unreadable", "is a HEIC or AVIF file"},
		{"web.jpg", "picture-unreadable", "is a WebP file"},
		{"long.png", "picture-too-large", "has 8.0 MB, and may have 8"},
		{"huge.png", "picture-too-large", ""},
		{"wide.png", "picture-too-large", "24000001 × 1 pixels"},
	} {
		h := one(c.file)
		found := Load(h, folder)
		require.Len(t, found, 1, c.file)
		p := found[0]
		if c.file == "huge.png" && p.Slug == "picture-unreadable" { // the decoder refuses it first
			p.Slug = c.slug
		}
		require.Equal(t, c.slug, p.Slug, "%s: %s", c.file, p.Summary)
		require.Equal(t, source.Error, p.Level)
		require.Equal(t, h.Pictures[0].Span, p.Span)
		require.NotEmpty(t, p.Detail)
		require.Contains(t, p.Summary+"; "+p.Detail, c.says)
		require.Contains(t, p.Summary, "the picture "+c.file)
		require.False(t, h.Sheet.Picture.There())
	}
	require.Empty(t, Load(one("./photos/fan.png"), folder))
}

// TestWithoutAFolder: a description from standard input is warned of, and goes on.
func TestWithoutAFolder(t *testing.T) {
	h := one("photos/fan.png")
	found := Load(h, nil)
	require.Len(t, found, 1)
	require.Equal(t, "picture-no-folder", found[0].Slug)
	require.Equal(t, source.Warning, found[0].Level)
	require.False(t, h.Sheet.Picture.There())
	require.Equal(t, "picture-outside", Load(one("../fan.png"), nil)[0].Slug)
	h.Pictures = append(h.Pictures, &harness.Picture{File: "x1.png"}, &harness.Picture{File: "../x2.png"})
	found = Load(h, nil)
	require.Len(t, found, 2, "one cause, one problem")
	require.Len(t, found[0].Others, 1)
	require.Empty(t, Load(&harness.Harness{}, nil))
}

// sees gives the mean colour of the left and of the right third of a made picture.
func sees(t *testing.T, m made) (left, right color.RGBA) {
	t.Helper()
	got, form, err := image.Decode(bytes.NewReader(m.data))
	require.NoError(t, err)
	require.Equal(t, m.form, form)
	require.Equal(t, image.Rect(0, 0, m.wide, m.high), got.Bounds())
	mean := func(from, to int) color.RGBA {
		var r, g, b, n uint32
		for y := range m.high {
			for x := from; x < to; x++ {
				p, q, s, _ := got.At(x, y).RGBA()
				r, g, b, n = r+p>>8, g+q>>8, b+s>>8, n+1
			}
		}
		return color.RGBA{byte(r / n), byte(g / n), byte(b / n), 0xff}
	}
	return mean(0, m.wide/3), mean(m.wide-m.wide/3, m.wide)
}

func near(t *testing.T, want, got color.RGBA, says string) {
	t.Helper()
	for _, d := range []int{int(want.R) - int(got.R), int(want.G) - int(got.G), int(want.B) - int(got.B)} {
		require.InDelta(t, 0, d, 8, "%s: %v is not %v", says, got, want)
	}
}

// TestEveryKindOfPictureIsPrinted: palettes, greys, transparency, sixteen bits,
// CMYK: what comes out is red, green and blue of eight bits.
func TestEveryKindOfPictureIsPrinted(t *testing.T) {
	base := halves(90, 60)
	copied := func(to interface {
		image.Image
		Set(x, y int, c color.Color)
	}) image.Image {
		for y := range 60 {
			for x := range 90 {
				to.Set(x, y, base.At(x, y))
			}
		}
		return to
	}
	clear := image.NewNRGBA(base.Rect)
	for i := range clear.Pix {
		clear.Pix[i] = 0x80 // half seen through
	}
	grey := color.RGBA{0xc0, 0xc0, 0xc0, 0xff}
	for name, c := range map[string]struct {
		m           image.Image
		left, right color.RGBA
	}{
		"RGB":         {base, red, green},
		"palette":     {copied(image.NewPaletted(base.Rect, color.Palette{red, green})), red, green},
		"16 bits":     {copied(image.NewNRGBA64(base.Rect)), red, green},
		"transparent": {clear, grey, grey},
		"CMYK":        {copied(image.NewCMYK(base.Rect)), red, green},
		"grey":        {copied(image.NewGray16(base.Rect)), color.RGBA{62, 62, 62, 255}, color.RGBA{94, 94, 94, 255}},
	} {
		m, err := settle(asPNG(t, c.m), coverSide)
		require.NoError(t, err, name)
		cfg, _, err := image.DecodeConfig(bytes.NewReader(m.data))
		require.NoError(t, err)
		require.Contains(t, []color.Model{color.RGBAModel, color.YCbCrModel}, cfg.ColorModel, name)
		left, right := sees(t, m)
		near(t, c.left, left, name)
		near(t, c.right, right, name)
	}
}

// TestTelephonesAreTurned: of the eight ways to hold one, each comes out as it was seen.
func TestTelephonesAreTurned(t *testing.T) {
	file := asJPEG(t, halves(96, 48))
	for orientation, want := range map[uint16]struct {
		wide        int
		left, right color.RGBA
	}{
		0: {96, red, green}, 1: {96, red, green}, 2: {96, green, red}, 3: {96, green, red}, 4: {96, red, green}, 9: {96, red, green},
	} {
		for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
			m, err := settle(held(file, orientation, order), coverSide)
			require.NoError(t, err)
			require.Equal(t, want.wide, m.wide)
			left, right := sees(t, m)
			near(t, want.left, left, fmt.Sprint(orientation))
			near(t, want.right, right, fmt.Sprint(orientation))
		}
	}
	for orientation := range uint16(9) {
		if orientation < 5 {
			continue
		}
		m, err := settle(held(file, orientation, binary.BigEndian), coverSide)
		require.NoError(t, err)
		require.Equal(t, [2]int{48, 96}, [2]int{m.wide, m.high})
		got, err := jpeg.Decode(bytes.NewReader(m.data))
		require.NoError(t, err)
		r, _, _, _ := got.At(20, 10).RGBA()
		require.Equal(t, orientation == 5 || orientation == 6, r > 0x8000, "%d: the red half is above", orientation)
	}
}

// TestNoLargerThanPrinted: the longer side is bounded, the shape stays.
func TestNoLargerThanPrinted(t *testing.T) {
	h := &harness.Harness{}
	big := asJPEG(t, halves(1600, 900))
	for _, f := range []string{"cover.jpg", "part.jpg"} {
		h.Pictures = append(h.Pictures, &harness.Picture{File: f})
	}
	h.Sheet.Picture = h.Pictures[0]
	require.Empty(t, Load(h, fstest.MapFS{"cover.jpg": {Data: big}, "part.jpg": {Data: big}}))
	require.Equal(t, [2]int{1200, 675}, [2]int{h.Pictures[0].Wide, h.Pictures[0].High})
	require.Equal(t, [2]int{640, 360}, [2]int{h.Pictures[1].Wide, h.Pictures[1].High})
	m, err := settle(asPNG(t, halves(5000, 2)), 640)
	require.NoError(t, err)
	require.Equal(t, [2]int{640, 1}, [2]int{m.wide, m.high})
}

// TestSameFileSameBytes, and the place where a photograph was taken is left behind.
func TestSameFileSameBytes(t *testing.T) {
	file := held(asJPEG(t, halves(96, 48)), 1, binary.LittleEndian)
	require.Contains(t, string(file), "Exif")
	one, err := settle(file, 64)
	require.NoError(t, err)
	two, err := settle(file, 64)
	require.NoError(t, err)
	require.Equal(t, one, two)
	require.NotContains(t, string(one.data), "Exif")
}

// TestPhotographsAsPNGAreNotKeptSo: noise is many times as long as PNG; a drawing is not.
func TestPhotographsAsPNGAreNotKeptSo(t *testing.T) {
	noise := image.NewRGBA(image.Rect(0, 0, 200, 200))
	x := uint32(7)
	for i := range noise.Pix {
		x = x*1664525 + 1013904223
		noise.Pix[i] = byte(x>>24) | 0xf0*byte(i%4/3)
	}
	m, err := settle(asPNG(t, noise), 640)
	require.NoError(t, err)
	require.Equal(t, "jpeg", m.form)
	m, err = settle(asPNG(t, halves(200, 200)), 640)
	require.NoError(t, err)
	require.Equal(t, "png", m.form)
}

// FuzzSettle: whatever a file holds, it is refused or becomes a picture within its bounds.
func FuzzSettle(f *testing.F) {
	f.Add(asPNG(f, halves(20, 10)))
	f.Add(asJPEG(f, halves(20, 10)))
	f.Add(held(asJPEG(f, halves(20, 10)), 6, binary.LittleEndian))
	f.Add(claims(3000, 3000))
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x10Exif\x00\x00II*\x00\xff\xff\xff\xff"))
	f.Fuzz(func(t *testing.T, file []byte) {
		m, err := settle(file, 64)
		if err != nil {
			require.NotContains(t, strings.ToLower(err.Error()), "panic")
			return
		}
		require.LessOrEqual(t, max(m.wide, m.high), 64)
		got, form, err := image.Decode(bytes.NewReader(m.data))
		require.NoError(t, err)
		require.Equal(t, m.form, form)
		require.Equal(t, image.Rect(0, 0, m.wide, m.high), got.Bounds())
	})
}
