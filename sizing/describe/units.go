package describe

import (
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Twist is how wires are twisted.
type Twist struct{ Lay read.Value[unit.Millimetre] }

// ScreenMake is how screens are made.
type ScreenMake struct {
	As   read.Word // braid foil
	Wall read.Value[unit.Millimetre]
}

// CableType is a cable with several cores. Its colours are a published order, or a
// list; sizes are one for all cores, those of the order, or by number.
type CableType struct {
	Name     read.Word
	Cores    read.Value[int]
	Order    read.Word   // key "colours": the name of a published order
	Colours  []read.Word // key "colours": a list
	Span     source.Span
	Size     read.Value[unit.Gauge]
	Sizes    []CoreSize
	Diameter read.Value[unit.Millimetre]
	Core     read.Value[unit.Millimetre] // key "core-diameter"
	Sheath   read.Value[unit.Millimetre]
	Class    read.Value[unit.Celsius]
	Screened read.Value[bool]
}

// CoreSize is the size of one core, by its number.
type CoreSize struct {
	Core read.Word
	Size read.Value[unit.Gauge]
}

// Screen says where the drain of a screen is earthed.
type Screen struct {
	Name  read.Word
	Drain []Stop
}

// Cable is one cable with its type.
type Cable struct {
	Name   read.Word
	Type   read.Word
	Length read.Value[unit.Millimetre]
	Drain  []Stop
}

const holdsDrain = "the terminal at which the screen is grounded, such as G1"

var twistKeys = []read.Key[Twist]{
	stretchOf("lay", func(t *Twist) *read.Value[unit.Millimetre] { return &t.Lay }),
}

var screenMakeKeys = []read.Key[ScreenMake]{
	read.Choice("as", []string{"braid", "foil"}, func(s *ScreenMake) *read.Word { return &s.As }),
	stretchOf("wall", func(s *ScreenMake) *read.Value[unit.Millimetre] { return &s.Wall }),
}

var cableTypeKeys = []read.Key[CableType]{
	read.Quantity("cores", "how many cores it has, such as 7", func(t *CableType) *read.Value[int] { return &t.Cores }, parseCores),
	read.Needed(read.Custom("colours", holdsColours, takeCoreColours)),
	gauge("size", func(t *CableType) *read.Value[unit.Gauge] { return &t.Size }),
	read.Custom("sizes", "for a core's number its size, such as {3: 2.5 mm2}", takeCoreSizes),
	read.Needed(stretchOf("diameter", func(t *CableType) *read.Value[unit.Millimetre] { return &t.Diameter })),
	stretchOf("core-diameter", func(t *CableType) *read.Value[unit.Millimetre] { return &t.Core }),
	stretchOf("sheath", func(t *CableType) *read.Value[unit.Millimetre] { return &t.Sheath }),
	read.Needed(degrees("class", func(t *CableType) *read.Value[unit.Celsius] { return &t.Class })),
	read.Flag("screened", func(t *CableType) *read.Value[bool] { return &t.Screened }),
}

const holdsColours = "din-47100, iso-1724, or a list of colours, one a core"

var screenKeys = []read.Key[Screen]{
	read.Custom("drain", holdsDrain, func(r *read.Reader, e read.Entry, s *Screen) { s.Drain = drain(r, e) }),
}

var cableKeys = []read.Key[Cable]{
	read.Needed(read.Line("type", "one of practice: cable-types:", func(c *Cable) *read.Word { return &c.Type })),
	stretchOf("length", func(c *Cable) *read.Value[unit.Millimetre] { return &c.Length }),
	read.Custom("drain", holdsDrain, func(r *read.Reader, e read.Entry, c *Cable) { c.Drain = drain(r, e) }),
}

// drain reads one terminal, or a list of them.
func drain(r *read.Reader, e read.Entry) []Stop {
	if !e.IsList() {
		return []Stop{drainEnd(r, e)}
	}
	var out []Stop
	for _, x := range r.Items(e, holdsDrain) {
		out = append(out, drainEnd(r, x))
	}
	return out
}

// drainEnd reads one terminal, which must be known.
func drainEnd(r *read.Reader, e read.Entry) Stop {
	var s Stop
	takeTo(r, e, &s)
	if s.Open {
		r.Say(s.To.Span, "bad-stop", "the drain of a screen cannot be left open", "Write the terminal at which the screen is grounded, such as G1, or leave drain: out.")
	}
	return s
}

func parseCores(text string) (int, error) {
	p, err := parsePieces(text)
	return p.Pieces, err
}

// takeCoreColours reads the name of a published order, or a list of colours: cores
// that are told apart by something else may be of one colour.
func takeCoreColours(r *read.Reader, e read.Entry, t *CableType) {
	if e.IsList() {
		t.Colours = r.Words(e, holdsColours)
		return
	}
	t.Order, _ = r.Line(e, holdsColours)
}

func takeCoreSizes(r *read.Reader, e read.Entry, t *CableType) {
	for _, x := range r.Entries(e, "for a core's number its size", false) {
		t.Sizes = append(t.Sizes, CoreSize{Core: x.Key, Size: gaugeOf(r, x)})
	}
}

func takeCableTypes(r *read.Reader, e read.Entry, p *Practice) {
	for _, x := range r.Entries(e, "a name for each type, with its keys", true) {
		t := CableType{Name: x.Key, Span: x.Key.Span}
		read.Mapping(r, x, cableTypeKeys, &t)
		p.CableTypes = append(p.CableTypes, t)
	}
}

func takeScreens(r *read.Reader, e read.Entry, d *Description) {
	for _, x := range r.Entries(e, "a name for each screen, with its keys", true) {
		s := Screen{Name: x.Key}
		read.Mapping(r, x, screenKeys, &s)
		d.Screens = append(d.Screens, s)
	}
}

func takeCables(r *read.Reader, e read.Entry, d *Description) {
	for _, x := range r.Entries(e, "a name for each cable, with its type", true) {
		c := Cable{Name: x.Key}
		read.Mapping(r, x, cableKeys, &c)
		d.Cables = append(d.Cables, c)
	}
}
