package picture

import (
	"encoding/binary"
	"image"
	"image/draw"
)

// shrunk lays a picture on white and brings it down until its longer side has at most so
// many pixels: each new pixel is the mean of those under it. It works row by
// row, so that it needs little room beside the picture itself.
func shrunk(full image.Image, side int) *image.RGBA {
	b := full.Bounds()
	wide, high := fitted(b.Dx(), b.Dy(), side)
	out := image.NewRGBA(image.Rect(0, 0, wide, high))
	row := image.NewRGBA(image.Rect(0, 0, b.Dx(), 1))
	sums := make([]uint64, 4*wide)
	for y := range high {
		clear(sums)
		for from := y * b.Dy() / high; from < (y+1)*b.Dy()/high; from++ {
			draw.Draw(row, row.Rect, image.White, image.Point{}, draw.Src)
			draw.Draw(row, row.Rect, full, image.Pt(b.Min.X, b.Min.Y+from), draw.Over)
			gather(sums, row.Pix, wide)
		}
		settleRow(out.Pix[y*out.Stride:], sums)
	}
	return out
}

// fitted gives the size of a picture whose longer side has at most so many pixels.
func fitted(wide, high, side int) (int, int) {
	longer := max(wide, high)
	if longer <= side {
		return wide, high
	}
	return max(1, wide*side/longer), max(1, high*side/longer)
}

// gather adds a row of pixels to the sums of the fewer pixels that lie over it; the
// fourth figure counts them.
func gather(sums []uint64, pix []byte, wide int) {
	n := len(pix) / 4
	for x := range wide {
		s := sums[4*x : 4*x+4]
		for i := x * n / wide; i < (x+1)*n/wide; i++ {
			s[0] += uint64(pix[4*i])
			s[1] += uint64(pix[4*i+1])
			s[2] += uint64(pix[4*i+2])
			s[3]++
		}
	}
}

func settleRow(pix []byte, sums []uint64) {
	for i := 0; i < len(sums); i += 4 {
		n := max(sums[i+3], 1)
		for k := range 3 {
			pix[i+k] = byte((sums[i+k] + n/2) / n)
		}
		pix[i+3] = 0xff
	}
}

// turned sets a picture upright by its Exif orientation, 1 to 8 (CIPA DC-008, tag
// 274): 2, 4, 5 and 7 are mirrored, 5 to 8 lie on their side.
func turned(m *image.RGBA, orientation int) *image.RGBA {
	if orientation < 2 || orientation > 8 {
		return m
	}
	w, h := m.Rect.Dx(), m.Rect.Dy()
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	if orientation >= 5 {
		out = image.NewRGBA(image.Rect(0, 0, h, w))
	}
	for y := range h {
		for x := range w {
			u, v := upright(x, y, w, h, orientation)
			out.SetRGBA(u, v, m.RGBAAt(x, y))
		}
	}
	return out
}

// upright gives where a stored pixel is seen.
func upright(x, y, w, h, orientation int) (int, int) {
	switch orientation {
	case 2:
		return w - 1 - x, y
	case 3:
		return w - 1 - x, h - 1 - y
	case 4:
		return x, h - 1 - y
	case 5:
		return y, x
	case 6:
		return h - 1 - y, x
	case 7:
		return h - 1 - y, w - 1 - x
	}
	return y, w - 1 - x
}

// orientation reads it from a JPEG file: 1, which is upright, where the file does not say.
func orientation(file []byte) int {
	const marker, app1, scan = 0xff, 0xe1, 0xda
	for at := 2; at+4 <= len(file) && file[at] == marker && file[at+1] != scan; {
		n := int(binary.BigEndian.Uint16(file[at+2:]))
		end := at + 2 + n
		if n < 2 || end > len(file) {
			break
		}
		if body := file[at+4 : end]; file[at+1] == app1 && len(body) > 6 && string(body[:6]) == "Exif\x00\x00" {
			return tagged(body[6:])
		}
		at = end
	}
	return 1
}

// tagged reads the orientation from the first list of tags of a TIFF header (TIFF 6.0).
func tagged(tiff []byte) int {
	const tag, entry = 274, 12
	if len(tiff) < 8 {
		return 1
	}
	var order binary.ByteOrder = binary.LittleEndian
	if string(tiff[:2]) == "MM" {
		order = binary.BigEndian
	}
	at := int64(order.Uint32(tiff[4:]))
	if at+2 > int64(len(tiff)) {
		return 1
	}
	list := tiff[at+2:]
	for range order.Uint16(tiff[at:]) {
		if len(list) < entry {
			break
		}
		if order.Uint16(list) == tag {
			return int(order.Uint16(list[8:]))
		}
		list = list[entry:]
	}
	return 1
}
