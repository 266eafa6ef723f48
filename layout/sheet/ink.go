package sheet

// Line widths in mm: the series of ISO 128-2 for the frame, outlines and rules.
const (
	Hair   = 0.13
	Thin   = 0.18
	Medium = 0.35
	Thick  = 0.5
	Heavy  = 0.7
)

// Font sizes in mm whose capitals are 1.8, 2, 2.5, 3.5 and 5 mm high in the embedded
// face: the heights of ISO 3098-1, and 2. What one builds by is set in SizeBody or
// larger; nothing is below SizeNote but the names of the title block's fields.
const (
	SizeLabel = 2.49 // names of the fields in a title block, and nothing else
	SizeNote  = 2.77 // flags, labels, second lines, heads of columns
	SizeBody  = 3.46 // tables and running text
	SizeHead  = 4.84 // headings within a sheet
	SizeTitle = 6.92 // the sheet's title
)

// The inks of the packet; wire and fuse colours come from elsewhere.
var (
	Ink   = Colour{0x1a, 0x1a, 0x1a}
	Grey  = Colour{0x55, 0x55, 0x55} // second lines, labels: dark enough for a greyscale print
	Rule  = Colour{0x9a, 0x9a, 0x9a} // rules between rows
	Pale  = Colour{0xf0, 0xf0, 0xf0} // every second row, quiet panels
	White = Colour{0xff, 0xff, 0xff}
)

// Solid is an unbroken ink line of a width in mm, butt ends.
func Solid(width float64) Stroke { return Stroke{Width: width, Colour: Ink} }

// Rounded is an unbroken ink line with round ends and corners.
func Rounded(width float64) Stroke { return Stroke{Width: width, Colour: Ink, Round: true} }

// Dashed is a broken ink line: mm on, mm off.
func Dashed(width, on, off float64) Stroke {
	return Stroke{Width: width, Colour: Ink, Dash: []float64{on, off}}
}

// In gives the stroke in another colour.
func (s Stroke) In(c Colour) Stroke { s.Colour = c; return s }

// Paint says how an outline is drawn: stroked, filled, or both.
type Paint struct {
	Stroke *Stroke
	Fill   *Colour
}

// Outline strokes only.
func Outline(s Stroke) Paint { return Paint{Stroke: &s} }

// Filled fills only.
func Filled(c Colour) Paint { return Paint{Fill: &c} }

// Both fills, then strokes.
func Both(s Stroke, c Colour) Paint { return Paint{Stroke: &s, Fill: &c} }

// Style is how a text is set; the zero Colour is pure black, so say Ink.
type Style struct {
	Size   float64 // font size in mm
	Face   Face
	Align  Align
	Colour Colour
	Turn   float64 // degrees counter-clockwise
}

// Plain is regular ink text of a font size in mm, from the left.
func Plain(size float64) Style { return Style{Size: size, Colour: Ink} }

// Strong is bold ink text of a font size in mm, from the left.
func Strong(size float64) Style { return Style{Size: size, Face: Bold, Colour: Ink} }

// In gives the style in another colour.
func (s Style) In(c Colour) Style { s.Colour = c; return s }

// At gives the style with another alignment.
func (s Style) At(a Align) Style { s.Align = a; return s }
