package describe

import (
	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Twist is how wires are twisted.
type Twist struct{ Lay Value[unit.Millimetre] }

// ScreenMake is how screens are made.
type ScreenMake struct {
	As   Word // braid foil
	Wall Value[unit.Millimetre]
}

// CableType is a cable with several cores. Its colours are a published order, or a
// list; sizes are one for all cores, those of the order, or by number.
type CableType struct {
	Name     Word
	Cores    Value[int]
	Order    Word   // key "colours": the name of a published order
	Colours  []Word // key "colours": a list
	Span     source.Span
	Size     Value[unit.Gauge]
	Sizes    []CoreSize
	Diameter Value[unit.Millimetre]
	Core     Value[unit.Millimetre] // key "core-diameter"
	Sheath   Value[unit.Millimetre]
	Class    Value[unit.Celsius]
	Screened Value[bool]
}

// CoreSize is the size of one core, by its number.
type CoreSize struct {
	Core Word
	Size Value[unit.Gauge]
}

// Screen says where the drain of a screen is earthed.
type Screen struct {
	Name  Word
	Drain []Stop
}

// Cable is one cable with its type.
type Cable struct {
	Name   Word
	Type   Word
	Length Value[unit.Millimetre]
	Drain  []Stop
}

const holdsDrain = "the terminal at which the screen is earthed, such as G1"

var twistKeys = []key[Twist]{
	stretchOf("lay", func(t *Twist) *Value[unit.Millimetre] { return &t.Lay }),
}

var screenMakeKeys = []key[ScreenMake]{
	choice("as", []string{"braid", "foil"}, func(s *ScreenMake) *Word { return &s.As }),
	stretchOf("wall", func(s *ScreenMake) *Value[unit.Millimetre] { return &s.Wall }),
}

var cableTypeKeys = []key[CableType]{
	quantity("cores", "how many cores it has, such as 7", func(t *CableType) *Value[int] { return &t.Cores }, parseCores),
	needed(custom("colours", holdsColours, takeCoreColours)),
	gauge("size", func(t *CableType) *Value[unit.Gauge] { return &t.Size }),
	custom("sizes", "for a core's number its size, such as {3: 2.5 mm2}", takeCoreSizes),
	needed(stretchOf("diameter", func(t *CableType) *Value[unit.Millimetre] { return &t.Diameter })),
	stretchOf("core-diameter", func(t *CableType) *Value[unit.Millimetre] { return &t.Core }),
	stretchOf("sheath", func(t *CableType) *Value[unit.Millimetre] { return &t.Sheath }),
	needed(degrees("class", func(t *CableType) *Value[unit.Celsius] { return &t.Class })),
	flag("screened", func(t *CableType) *Value[bool] { return &t.Screened }),
}

const holdsColours = "din-47100, iso-1724, or a list of colours, one a core"

var screenKeys = []key[Screen]{
	custom("drain", holdsDrain, func(r *reader, e entry, s *Screen) { s.Drain = r.drain(e) }),
}

var cableKeys = []key[Cable]{
	needed(word("type", "one of practice: cable-types:", func(c *Cable) *Word { return &c.Type })),
	stretchOf("length", func(c *Cable) *Value[unit.Millimetre] { return &c.Length }),
	custom("drain", holdsDrain, func(r *reader, e entry, c *Cable) { c.Drain = r.drain(e) }),
}

// drain reads one terminal, or a list of them.
func (r *reader) drain(e entry) []Stop {
	if e.value.Kind != yaml.SequenceNode {
		var s Stop
		takeTo(r, e, &s)
		return []Stop{s}
	}
	var out []Stop
	for _, x := range r.items(e, holdsDrain) {
		var s Stop
		takeTo(r, x, &s)
		out = append(out, s)
	}
	return out
}

func parseCores(text string) (int, error) {
	p, err := parsePieces(text)
	return p.Pieces, err
}

// takeCoreColours reads the name of a published order, or a list of colours: cores
// that are told apart by something else may be of one colour.
func takeCoreColours(r *reader, e entry, t *CableType) {
	if e.value.Kind == yaml.SequenceNode {
		t.Colours = r.words(e, holdsColours)
		return
	}
	t.Order, _ = r.line(e, holdsColours)
}

func takeCoreSizes(r *reader, e entry, t *CableType) {
	for _, x := range r.entries(e, "for a core's number its size", false) {
		t.Sizes = append(t.Sizes, CoreSize{Core: x.key, Size: r.gauge(x)})
	}
}

func takeCableTypes(r *reader, e entry, p *Practice) {
	for _, x := range r.entries(e, "a name for each type, with its keys", true) {
		t := CableType{Name: x.key, Span: x.key.Span}
		read(r, x, cableTypeKeys, &t)
		p.CableTypes = append(p.CableTypes, t)
	}
}

func takeScreens(r *reader, e entry, d *Description) {
	for _, x := range r.entries(e, "a name for each screen, with its keys", true) {
		s := Screen{Name: x.key}
		read(r, x, screenKeys, &s)
		d.Screens = append(d.Screens, s)
	}
}

func takeCables(r *reader, e entry, d *Description) {
	for _, x := range r.entries(e, "a name for each cable, with its type", true) {
		c := Cable{Name: x.key}
		read(r, x, cableKeys, &c)
		d.Cables = append(d.Cables, c)
	}
}
