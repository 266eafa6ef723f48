package picture

import (
	"bytes"
	"image"
	"image/jpeg"
	"image/png"
)

// made is a picture as sheets have it.
type made struct {
	form       string // jpeg or png
	data       []byte
	wide, high int
}

// form is one of the two forms that pictures may have, told by how the file begins.
type form struct {
	name, begins string
	config       func(*bytes.Reader) (image.Config, error)
	decode       func(*bytes.Reader) (image.Image, error)
}

func forms() []form {
	return []form{
		{"jpeg", "\xff\xd8\xff", func(r *bytes.Reader) (image.Config, error) { return jpeg.DecodeConfig(r) }, func(r *bytes.Reader) (image.Image, error) { return jpeg.Decode(r) }},
		{"png", "\x89PNG\r\n\x1a\n", func(r *bytes.Reader) (image.Config, error) { return png.DecodeConfig(r) }, func(r *bytes.Reader) (image.Image, error) { return png.Decode(r) }},
	}
}

// settle makes of a file's bytes a picture whose longer side has at most so many pixels.
func settle(file []byte, side int) (made, error) {
	f, err := formOf(file)
	if err != nil {
		return made{}, err
	}
	c, err := f.config(bytes.NewReader(file))
	if err != nil {
		return made{}, broken(err)
	}
	if c.Width < 1 || c.Height < 1 || c.Height > MostPixels/c.Width {
		return made{}, refuse("picture-too-large", "save it smaller: 1200 pixels along its longer side are all that is printed",
			"has %d × %d pixels, and may have %d million", c.Width, c.Height, MostPixels/1_000_000)
	}
	full, err := f.decode(bytes.NewReader(file))
	if err != nil {
		return made{}, broken(err)
	}
	small := shrunk(full, side)
	if f.name == "jpeg" {
		small = turned(small, orientation(file))
	}
	return encoded(small, f.name)
}

func broken(err error) *fault {
	return refuse(unreadable, "open it in a picture program and save it anew as JPEG or PNG", "is damaged: %v", err)
}

// formOf tells the form by the first bytes, whatever the file is called.
func formOf(file []byte) (form, error) {
	for _, f := range forms() {
		if bytes.HasPrefix(file, []byte(f.begins)) {
			return f, nil
		}
	}
	what := "is no picture of a form that is known here"
	if len(file) == 0 {
		what = "is an empty file"
	}
	for _, o := range others {
		if len(file) >= o.at && bytes.HasPrefix(file[o.at:], []byte(o.begins)) {
			what = "is a " + o.name + " file, whatever it is called"
		}
	}
	return form{}, refuse(unreadable, "save it as JPEG or PNG", "%s", what)
}

// others are forms that people take for one of the two, by what stands at a byte.
var others = []struct {
	name, begins string
	at           int
}{
	{"GIF", "GIF8", 0}, {"WebP", "WEBP", 8}, {"TIFF", "II*\x00", 0}, {"TIFF", "MM\x00*", 0}, {"BMP", "BM", 0}, {"PDF", "%PDF", 0},
	{"SVG", "<svg", 0}, {"SVG or XML", "<?xml", 0}, {"HEIC or AVIF", "ftyp", 4},
}

// quality of the JPEG files that are made.
const quality = 85

// encoded writes a picture in the form in which it came. A photograph that came as PNG
// is many times as long so, and is written as JPEG.
func encoded(m *image.RGBA, came string) (made, error) {
	var asJPEG, asPNG bytes.Buffer
	if err := jpeg.Encode(&asJPEG, m, &jpeg.Options{Quality: quality}); err != nil {
		return made{}, err
	}
	out := made{"jpeg", asJPEG.Bytes(), m.Rect.Dx(), m.Rect.Dy()}
	if came != "png" {
		return out, nil
	}
	if err := png.Encode(&asPNG, m); err != nil {
		return made{}, err
	}
	if asPNG.Len() <= 2*asJPEG.Len() {
		out.form, out.data = "png", asPNG.Bytes()
	}
	return out, nil
}
