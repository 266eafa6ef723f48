package pdf

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/color"
	_ "image/jpeg" // the two forms of a picture
	_ "image/png"

	"example.com/loomfolio/layout/sheet"
)

// Images are the pictures of a document in the order in which they are first drawn,
// each once. gofpdf would write those of one width in any order.
type Images struct {
	list []sheet.Picture
	at   map[string]int // by their bytes
}

// Name is what a page calls a picture by.
func (m *Images) Name(p sheet.Picture) string {
	if m.at == nil {
		m.at = map[string]int{}
	}
	i, known := m.at[string(p.Data)]
	if !known {
		i = len(m.list)
		m.at[string(p.Data)] = i
		m.list = append(m.list, p)
	}
	return fmt.Sprintf("P%d", i+1)
}

// images adds the pictures and names them among what pages may use.
func images(d *Document, of Images) error {
	if len(of.list) == 0 {
		return nil
	}
	const key = "/XObject <<"
	resources := d.At(2)
	if bytes.Count(resources.Dict, []byte(key)) != 1 {
		return errors.New("resources without a place for pictures")
	}
	names := key
	for _, p := range of.list {
		dict, stream, err := imageObject(p)
		if err != nil {
			return fmt.Errorf("picture %q: %w", p.Words, err)
		}
		names += fmt.Sprintf("\n/%s %d 0 R", of.Name(p), d.Add(dict, stream))
	}
	resources.Dict = bytes.Replace(resources.Dict, []byte(key), []byte(names), 1)
	return nil
}

// imageObject gives a picture as ISO 32000-1, 8.9.5 has it: the bytes of a JPEG file as
// they are, of a PNG file its rows, which PDF reads with the same predictors (7.4.4.4).
func imageObject(p sheet.Picture) (dict string, stream []byte, err error) {
	c, form, err := image.DecodeConfig(bytes.NewReader(p.Data))
	if err != nil {
		return "", nil, err
	}
	if form != p.Form || c.ColorModel != color.YCbCrModel && c.ColorModel != color.RGBAModel {
		return "", nil, fmt.Errorf("it is a %s with colours that are not red, green and blue of eight bits", form)
	}
	filter, stream := "/Filter /DCTDecode", p.Data
	if p.Form == sheet.PNG {
		filter = fmt.Sprintf("/Filter /FlateDecode /DecodeParms << /Predictor 15 /Colors 3 /BitsPerComponent 8 /Columns %d >>", c.Width)
		if stream, err = rows(p.Data); err != nil {
			return "", nil, err
		}
	}
	return fmt.Sprintf("<< /Type /XObject /Subtype /Image /Width %d /Height %d /ColorSpace /DeviceRGB /BitsPerComponent 8 %s /Length %d >>",
		c.Width, c.Height, filter, len(stream)), stream, nil
}

// rows joins the compressed rows of a PNG file: the data of its chunks IDAT. Interlaced
// ones, which PDF does not know, are refused.
func rows(file []byte) ([]byte, error) {
	const signature, frame, interlaced = 8, 12, 28 // bytes; where the header says it
	if len(file) <= interlaced || file[interlaced] != 0 {
		return nil, errors.New("an interlaced PNG file")
	}
	var out []byte
	for rest := file[signature:]; len(rest) >= frame; {
		n := int(binary.BigEndian.Uint32(rest))
		if n > len(rest)-frame {
			return nil, errors.New("a PNG file cut short")
		}
		if string(rest[4:8]) == "IDAT" {
			out = append(out, rest[8:8+n]...)
		}
		rest = rest[frame+n:]
	}
	return out, nil
}
