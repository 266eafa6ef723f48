package render

import (
	"bytes"
	"math"
	"slices"

	"github.com/jung-kurt/gofpdf"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/render/pdf"
)

// pen draws on gofpdf and remembers the state, so that only changes are written.
type pen struct {
	pdf    *gofpdf.Fpdf
	stroke sheet.Stroke
	fill   sheet.Colour
	face   typeface.Font
	size   float64 // points, of the font; 0: none yet
	fresh  bool    // nothing set yet
	high   float64 // mm, of the page being drawn
	used   pdf.Glyphs
	images pdf.Images
	line   []byte // room for a path
}

// draw gives gofpdf's document: pages, page contents, fonts; nothing else in it counts.
func draw(p sheet.Packet) ([]byte, pdf.Drawn, error) {
	first := p.Sheets[0]
	lib := gofpdf.NewCustom(&gofpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: gofpdf.SizeType{Wd: first.W, Ht: first.H}})
	lib.SetCatalogSort(true)
	lib.SetCreationDate(p.Date)
	lib.SetModificationDate(p.Date)
	lib.SetCompression(false) // deflatePages does it
	lib.SetMargins(0, 0, 0)
	lib.SetAutoPageBreak(false, 0)
	k := &pen{pdf: lib, fresh: true, used: pdf.Glyphs{}}
	for _, s := range p.Sheets {
		// "P" always: "L" would swap the sides
		lib.AddPageFormat("P", gofpdf.SizeType{Wd: s.W, Ht: s.H})
		k.high = s.H
		for _, m := range s.Marks {
			k.mark(m)
		}
	}
	var out bytes.Buffer
	err := lib.Output(&out)
	return out.Bytes(), pdf.Drawn{Glyphs: k.used, Images: k.images}, err
}

// mark draws text, paths and pictures; links and anchors are written when the document is finished.
func (k *pen) mark(m sheet.Mark) {
	switch m := m.(type) {
	case sheet.Text:
		k.text(m)
	case sheet.Path:
		k.path(m)
	case sheet.Picture:
		k.picture(m)
	}
}

// picture draws it in its rectangle; the document holds one that stands on several sheets once.
func (k *pen) picture(p sheet.Picture) {
	at := func(v float64) string { return pdf.Points(v * pdf.PerMM) }
	k.pdf.RawWriteStr("q " + at(p.W) + " 0 0 " + at(p.H) + " " + at(p.X) + " " + at(k.high-p.Y-p.H) + " cm /" + k.images.Name(p) + " Do Q")
}

// text draws the runs one after another. The font is set outside the turned
// state, because leaving that state brings the font before it back.
func (k *pen) text(t sheet.Text) {
	runs := typeface.Runs(t.S, t.Face)
	width := 0.0
	for _, r := range runs {
		width += r.Width * t.Size
	}
	x := t.X - [...]float64{0, width / 2, width}[min(max(int(t.Align), 0), 2)]
	k.fillWith(t.Colour)
	k.pdf.SetTextColor(int(t.Colour.R), int(t.Colour.G), int(t.Colour.B))
	for _, r := range runs {
		k.font(r.Font, t.Size)
		k.count(r)
		if t.Turn == 0 {
			k.pdf.Text(x, t.Y, r.S)
		} else {
			k.pdf.TransformBegin()
			k.pdf.TransformRotate(t.Turn, t.X, t.Y)
			k.pdf.Text(x, t.Y, r.S)
			k.pdf.TransformEnd()
		}
		x += r.Width * t.Size
	}
}

// font selects a font; it is registered at its first use, with a copy of its bytes,
// for gofpdf writes into them.
func (k *pen) font(f typeface.Font, size float64) {
	name := f.Name()
	if k.used[f] == nil {
		k.used[f] = map[rune]bool{}
		k.pdf.AddUTF8FontFromBytes(name, "", bytes.Clone(f.Data()))
	}
	size = math.Round(size*pdf.PerMM*100) / 100
	if f != k.face || size != k.size {
		k.pdf.SetFont(name, "", size)
	}
	k.face, k.size = f, size
}

func (k *pen) count(r typeface.Run) {
	for _, c := range r.S {
		k.used[r.Font][c] = true
	}
}

func (k *pen) path(p sheet.Path) {
	style := ""
	if p.Stroke != nil && p.Stroke.Width > 0 {
		style += "D"
		k.strokeWith(*p.Stroke)
	}
	if p.Fill != nil {
		style += "F"
		k.fillWith(*p.Fill)
	}
	if style == "" || len(p.Segs) == 0 {
		return
	}
	k.line = append(k.outline(k.line[:0], p), paint[style]...)
	k.pdf.RawWriteStr(string(k.line))
}

// paint is the operator that ends a path (ISO 32000-1, table 60).
var paint = map[string]string{"D": "S", "F": "f", "DF": "B"}

// outline appends the path itself. gofpdf would round lines to a hundredth of a
// point and curves to less, which leaves a spike where a curve closes.
func (k *pen) outline(b []byte, p sheet.Path) []byte {
	b = append(k.at(b, p.Start), "m "...)
	for _, s := range p.Segs {
		if s.C1 == nil {
			b = append(k.at(b, s.P), "l "...)
			continue
		}
		b = append(k.at(k.at(k.at(b, *s.C1), *s.C2), s.P), "c "...)
	}
	if p.Closed {
		b = append(b, "h "...)
	}
	return b
}

// at appends a point of the page in points, from the lower left.
func (k *pen) at(b []byte, q sheet.Point) []byte {
	b = append(pdf.AppendPoints(b, q.X*pdf.PerMM), ' ')
	return append(pdf.AppendPoints(b, (k.high-q.Y)*pdf.PerMM), ' ')
}

func (k *pen) fillWith(c sheet.Colour) {
	if k.fresh || c != k.fill {
		k.pdf.SetFillColor(int(c.R), int(c.G), int(c.B))
	}
	if k.fresh {
		k.settle()
	}
	k.fill = c
}

func (k *pen) strokeWith(s sheet.Stroke) {
	if k.fresh {
		k.settle()
	}
	if s.Colour != k.stroke.Colour {
		k.pdf.SetDrawColor(int(s.Colour.R), int(s.Colour.G), int(s.Colour.B))
	}
	if s.Width != k.stroke.Width {
		k.pdf.SetLineWidth(math.Max(s.Width, 0.01)) // thinner would print as the device's thinnest line
	}
	if s.Round != k.stroke.Round {
		k.ends(s.Round)
	}
	if !slices.Equal(dash(s), k.stroke.Dash) {
		k.pdf.SetDashPattern(dash(s), 0)
	}
	s.Dash = dash(s)
	k.stroke = s
}

// settle writes a known state once: black, 0.2 mm, solid, butt ends.
func (k *pen) settle() {
	k.fresh = false
	k.stroke = sheet.Stroke{Width: 0.2}
	k.pdf.SetDrawColor(0, 0, 0)
	k.pdf.SetLineWidth(0.2)
	k.pdf.SetDashPattern([]float64{}, 0)
	k.ends(false)
}

func (k *pen) ends(round bool) {
	ends, corners := "butt", "miter"
	if round {
		ends, corners = "round", "round"
	}
	k.pdf.SetLineCapStyle(ends)
	k.pdf.SetLineJoinStyle(corners)
}

// dash is the pattern to write; one without any dash is a solid line.
func dash(s sheet.Stroke) []float64 {
	total := 0.0
	for _, d := range s.Dash {
		total += math.Round(d*pdf.PerMM*100) / 100
	}
	if total == 0 {
		return nil
	}
	return s.Dash
}
