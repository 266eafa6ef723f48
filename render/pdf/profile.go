package pdf

import (
	"bytes"
	"encoding/binary"
	"math"
	"sync"
)

// sRGB is a colour profile for sRGB, ICC version 2.1, matrix and curve: primaries
// and white of IEC 61966-2-1, adapted from D65 to D50 by the Bradford matrix
// (ICC.1:2010, annex E), the curve in 256 steps. 1000 bytes.
var sRGB = sync.OnceValue(makeProfile)

type vector [3]float64

type matrix [3]vector // rows

func (m matrix) times(v vector) vector {
	var out vector
	for i := range m {
		for j := range v {
			out[i] += m[i][j] * v[j]
		}
	}
	return out
}

func (m matrix) column(j int) vector { return vector{m[0][j], m[1][j], m[2][j]} }

// inverse by the adjugate.
func (m matrix) inverse() matrix {
	minor := func(i, j int) float64 {
		a, b, c, d := (i+1)%3, (i+2)%3, (j+1)%3, (j+2)%3
		return m[a][c]*m[b][d] - m[a][d]*m[b][c]
	}
	det := m[0][0]*minor(0, 0) + m[0][1]*minor(0, 1) + m[0][2]*minor(0, 2)
	var inv matrix
	for i := range m {
		for j := range m {
			inv[j][i] = minor(i, j) / det
		}
	}
	return inv
}

// fromXY is the tristimulus value of a chromaticity at Y = 1.
func fromXY(x, y float64) vector { return vector{x / y, 1, (1 - x - y) / y} }

var d50 = vector{0.9642, 1, 0.8249}

// primaries are the columns red, green, blue, adapted to D50.
func primaries() matrix {
	white := fromXY(.3127, .3290)
	r, g, b := fromXY(.64, .33), fromXY(.30, .60), fromXY(.15, .06)
	m := matrix{{r[0], g[0], b[0]}, {r[1], g[1], b[1]}, {r[2], g[2], b[2]}}
	scale := m.inverse().times(white)
	cone := matrix{{.8951, .2664, -.1614}, {-.7502, 1.7135, .0367}, {.0389, -.0685, 1.0296}}
	from, to := cone.times(white), cone.times(d50)
	var out matrix
	for j := range scale {
		v := m.column(j)
		for i := range v {
			v[i] *= scale[j]
		}
		seen := cone.times(v)
		for i := range seen {
			seen[i] *= to[i] / from[i]
		}
		v = cone.inverse().times(seen)
		out[0][j], out[1][j], out[2][j] = v[0], v[1], v[2]
	}
	return out
}

// linear is the transfer curve of IEC 61966-2-1.
func linear(v float64) float64 {
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

func makeProfile() []byte {
	m := primaries()
	curve := curveTag()
	tags := []struct {
		name string
		data []byte
	}{
		{"desc", descTag("sRGB")}, {"cprt", textTag("No copyright, use freely")}, {"wtpt", xyzTag(d50)},
		{"rXYZ", xyzTag(m.column(0))}, {"gXYZ", xyzTag(m.column(1))}, {"bXYZ", xyzTag(m.column(2))},
		{"rTRC", curve}, {"gTRC", curve}, {"bTRC", curve},
	}
	var table, body bytes.Buffer
	base := 128 + 4 + 12*len(tags)
	be(&table, uint32(len(tags)))
	curveAt := 0
	for _, t := range tags {
		at := base + body.Len()
		if t.name[1:] == "TRC" && curveAt > 0 {
			at = curveAt // the three share one curve
		} else {
			body.Write(t.data)
			body.Write(make([]byte, -body.Len()&3))
		}
		if t.name == "rTRC" {
			curveAt = at
		}
		table.WriteString(t.name)
		be(&table, uint32(at), uint32(len(t.data)))
	}
	return append(header(base+body.Len()), append(table.Bytes(), body.Bytes()...)...)
}

func header(size int) []byte {
	var b bytes.Buffer
	be(&b, uint32(size), uint32(0), uint32(0x02100000))
	b.WriteString("mntrRGB XYZ ")
	be(&b, uint16(2000), uint16(1), uint16(1), uint16(0), uint16(0), uint16(0))
	b.WriteString("acsp")
	b.Write(make([]byte, 28)) // platform, flags, maker, model, attributes, intent
	be(&b, fixed(d50[0]), fixed(d50[1]), fixed(d50[2]))
	b.Write(make([]byte, 128-b.Len()))
	return b.Bytes()
}

func be(b *bytes.Buffer, values ...any) {
	for _, v := range values {
		binary.Write(b, binary.BigEndian, v) // a buffer never fails
	}
}

// fixed is s15Fixed16.
func fixed(v float64) int32 { return int32(math.Round(v * 65536)) }

func xyzTag(v vector) []byte {
	var b bytes.Buffer
	b.WriteString("XYZ \x00\x00\x00\x00")
	be(&b, fixed(v[0]), fixed(v[1]), fixed(v[2]))
	return b.Bytes()
}

func curveTag() []byte {
	var b bytes.Buffer
	b.WriteString("curv\x00\x00\x00\x00")
	be(&b, uint32(256))
	for i := range 256 {
		be(&b, uint16(math.Round(65535*linear(float64(i)/255))))
	}
	return b.Bytes()
}

func textTag(s string) []byte { return []byte("text\x00\x00\x00\x00" + s + "\x00") }

// descTag has the text in ASCII and leaves its Unicode and script forms empty.
func descTag(s string) []byte {
	var b bytes.Buffer
	b.WriteString("desc\x00\x00\x00\x00")
	be(&b, uint32(len(s)+1))
	b.WriteString(s + "\x00")
	b.Write(make([]byte, 4+4+2+1+67))
	return b.Bytes()
}
