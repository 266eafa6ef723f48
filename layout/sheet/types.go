// Package sheet holds a laid-out packet: sheets with marks placed in
// millimetres, from the top left corner, y down. Nothing here knows about
// harnesses or PDF; the text dump serves golden tests.
package sheet

import "time"

// Packet is a finished set of sheets with what the document carries besides.
type Packet struct {
	Title    string
	Subject  string
	Author   string
	Keywords string
	Caution  string    // what whoever has one sheet alone must know; a writer of single sheets puts it into each
	Date     time.Time // fixed by the input, never the clock
	Sheets   []Sheet
	Attached []Attachment
}

// Attachment is a file carried inside the document.
type Attachment struct {
	Name        string // kestrel.yaml
	MIME        string
	Description string
	Data        []byte
}

// Sheet is one page.
type Sheet struct {
	W, H  float64  // mm
	Title string   // also the bookmark
	Group string   // bookmark of the level above; sheets of one group follow each other; "" for top level
	Also  []string // further bookmarks of the top level
	No    int      // its number in the whole packet; 0: its place among these
	Marks []Mark
}

// Mark is one thing on a sheet.
type Mark interface{ mark() }

// Colour is sRGB.
type Colour struct{ R, G, B uint8 }

// Face names a face of the embedded family.
type Face int

// The faces.
const (
	Regular Face = iota
	Bold
)

// Align places a text against its X.
type Align int

// The alignments.
const (
	Left Align = iota
	Centre
	Right
)

// Text is one line of text; X, Y is the base line at the left, centre or right.
type Text struct {
	X, Y   float64
	Size   float64 // font size in mm (cap height is about 0.72 of it)
	Face   Face
	Align  Align
	Colour Colour
	Turn   float64 // degrees counter-clockwise about X, Y
	S      string
}

// Point is a place on the sheet.
type Point struct{ X, Y float64 }

// Seg is one step of a path: a line to P when the controls are nil, else a Bézier curve.
type Seg struct {
	P      Point
	C1, C2 *Point
}

// Path is a stroked and/or filled outline.
type Path struct {
	Start  Point
	Segs   []Seg
	Closed bool
	Stroke *Stroke // nil: not stroked
	Fill   *Colour // nil: not filled
}

// Stroke is how a line is drawn.
type Stroke struct {
	Width  float64 // mm
	Colour Colour
	Dash   []float64 // mm on, off …; nil: solid
	Round  bool      // round caps and joins; else butt caps and mitre joins
}

// Link makes a rectangle lead to an anchor.
type Link struct {
	X, Y, W, H float64
	Target     string
}

// Anchor is a place that links lead to; names are unique in a packet.
type Anchor struct {
	Name string
	X, Y float64
}

// Picture is a photograph or a mark in a rectangle that it fills.
type Picture struct {
	X, Y, W, H float64
	Form       string // JPEG or PNG
	Data       []byte // of eight bits a channel, without transparency; shared, never written to
	Words      string // what it shows, for who cannot see it
}

// The forms of a picture's bytes.
const (
	JPEG = "jpeg"
	PNG  = "png"
)

func (Text) mark()    {}
func (Path) mark()    {}
func (Link) mark()    {}
func (Anchor) mark()  {}
func (Picture) mark() {}
