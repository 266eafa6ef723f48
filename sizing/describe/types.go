// Package describe reads the YAML text of a harness description (format 1)
// and gives it back exactly as it was written, every value with its span. It
// is strict: unknown and duplicate keys, bytes that are not clean UTF-8, odd
// indents, second documents and aliases are problems, all reported at once.
// Quantities are parsed here; names are not resolved here (package check does that).
// It is the only user of yaml.v3: the text is decoded to nodes and walked.
package describe

import (
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Word is a piece of text as written, with its place; names such as NO, 012
// and 00 keep every character. It is trimmed and composed (Unicode NFC); a word
// from a fixed list (kind, paper …) is given as the list spells it. The zero
// Word means "not written".
type Word struct {
	Text string
	Span source.Span
}

// Given tells whether the word was written.
func (w Word) Given() bool { return w.Span.Known() }

// Value is a parsed quantity together with the text it came from.
// The zero Value means "not written". One that was refused keeps its place and
// text, with a zero V, so that it is not called missing as well.
type Value[T any] struct {
	V       T
	Written string
	Span    source.Span
}

// Given tells whether the value was written.
func (v Value[T]) Given() bool { return v.Span.Known() }

// Or gives the value, or the default where none was written.
func (v Value[T]) Or(def T) T {
	if v.Given() {
		return v.V
	}
	return def
}

// Description is the whole file. Lists keep the order of the file.
type Description struct {
	File       *source.File
	Foreign    []Word // every text with a character outside ASCII, in the order of the file
	Title      Word
	Revision   Word
	Date       Word // YYYY-MM-DD, checked
	Customer   Word
	Builder    Word
	CheckedBy  Word
	Notes      Word
	Vehicle    Vehicle
	Sheet      Sheet
	System     System
	Practice   Practice
	Places     []Place
	Runs       []Run
	Screens    []Screen
	Cables     []Cable
	Parts      []Part
	Circuits   []Circuit
	States     []State
	StatesSpan source.Span // of the key "states"
}

// Vehicle names the car.
type Vehicle struct{ Name, Identity Word }

// Sheet says how the packet is drawn.
type Sheet struct {
	Paper Word // A4 A3 letter tabloid
	Units Word // metric imperial
	Gauge Word // mm2 awg sae
}

// System is the vehicle's electrical system.
type System struct {
	Volts   Value[unit.Volt] // 6, 12, 24, 48 (a bare number is allowed here)
	Running Value[unit.Volt]
	Earth   Word // negative positive
	Return  Word // chassis wired
	Span    source.Span
}

// Practice is what differs from the built-in practice.
type Practice struct {
	Drop       []DropClass
	Insulation Word
	Ampacity   Word // computed or abyc
	Slack      Slack
	Smallest   Value[unit.Gauge]
	Mixed      Value[bool]          // lifts "wires in series take one gauge"
	FuseLoad   Value[unit.Fraction] // key "fuse-load": continuous current over rating, default 75 %
	Method     Word                 // computed abyc-e11 ac43-13
	Pull       Word                 // key "pull": ul-486a mil-t-7928 abyc-e11 nasa-8739
	Ground     Word                 // key "ground-colour": colour letters
	Feed       Word                 // key "feed-colour": colour letters
	Stock      []StockLine
	Sold       []Value[unit.Millimetre] // lengths in which wire is sold; none: by the metre or foot
	Spare      Value[unit.Fraction]     // bought above what is cut
	WireTypes  []WireType
	Terminals  []ShopTerminal // key "terminals": the shop's own, before the built-in ones
	Labels     Labels
	Packs      []Pack
	Prices     []Price
	Currency   Word   // key "currency" among the prices
	Palette    []Pair // letters and the shade that stands for them, #a01020
	Change     Word   // key "colour-change": change keep-base keep
	Customs    Word   // key "conventions": none marine german
	OwnCustoms []Pair // key "conventions" as a mapping: function and colour letters
	Twist      Twist
	Screen     ScreenMake
	CableTypes []CableType
}

// ShopTerminal is a terminal that the shop has, with its own number and die.
type ShopTerminal struct {
	Fitting  Word // ring receptacle contact butt bullet ferrule splice
	Stud     Word // of a ring
	Tab      Word // of a receptacle
	Family   Word // of a contact; none: any housing
	From, To Value[unit.Gauge]
	Thinnest Value[unit.Millimetre] // key "insulation-from": outside of the thinnest wire that the insulation grip holds
	Thickest Value[unit.Millimetre] // key "insulation-to"
	Part     Word
	Die      Word
	Tool     Word
	Sleeve   Word // red blue yellow
	Strip    Value[unit.Millimetre]
	Span     source.Span
}

// DropClass is the allowed drop of one class of circuits.
type DropClass struct {
	Name  Word
	Limit Value[unit.DropLimit]
}

// Slack is the length added at each end and along the way.
type Slack struct {
	EachEnd Value[unit.Millimetre]
	Dress   Value[unit.Fraction]
	RoundUp Value[unit.Millimetre]
}

// StockLine is what is on the shelf in one gauge.
type StockLine struct {
	Gauge   Value[unit.Gauge]
	Colours []StockColour
}

// StockColour is a colour on the shelf, and the lengths left when given
// (written as a list of colours, or as a mapping colour: [lengths]).
type StockColour struct {
	Colour Word
	Left   []Value[unit.Millimetre]
}

// WireType is a reel with data of its own, usable as an insulation.
type WireType struct {
	Name  Word
	Class Value[unit.Celsius]
	Sizes []WireTypeSize
}

// WireTypeSize is one size of such a reel.
type WireTypeSize struct {
	Size       Value[unit.Gauge]
	Area       Value[unit.SquareMillimetre]
	Diameter   Value[unit.Millimetre]
	Resistance Value[unit.OhmPerMetre]
	Span       source.Span
}

// Place is a spot on the vehicle.
type Place struct {
	Key     Word
	Name    Word
	Zone    Word
	Ambient Value[unit.Celsius]
	Surface Word                   // bare painted coated: the bodywork that a ground here stands on
	Tail    Value[unit.Millimetre] // from the loom to the terminals of a part here
}

// Run is a stretch of loom between two places.
type Run struct {
	From, To Word
	Length   Value[unit.Millimetre]
	Cover    Word
	Flexes   Value[bool] // a flexing zone: no splice here
	Span     source.Span
}

// Part is anything that wires end on.
type Part struct {
	Key        Word
	Kind       Word
	Name       Word
	At         Word
	Tail       Value[unit.Millimetre]
	Stud       Word // M6, 1/4, #10
	Tab        Word // 6.3
	Family     Word
	Fitting    Word                   // butt bullet ferrule: what its leads or screws take
	Sleeve     Word                   // red blue yellow: the insulated crimps to be used here
	Length     Value[unit.Millimetre] // of a strap
	Size       Value[unit.Gauge]      // key "gauge" of a strap
	Notes      Word
	PartNumber Word
	Found      []Pair // measured as it is: {colour: BK, volts: …} kept as words
	Terminals  []Word // overrides the customary terminals
	Inside     []Inside

	Draws      Value[unit.Draw]
	AtVolts    Value[unit.Volt]
	Starts     Value[unit.Start]
	Duty       Value[unit.Fraction]
	Behaves    Word
	WorksAbove Value[unit.Volt]

	Capacity    Value[unit.AmpereHour]
	EMF         Value[unit.Volt]
	Inner       Value[unit.Ohm]
	Output      Value[unit.Ampere]
	Regulated   Value[unit.Volt]
	Solenoid    Value[unit.Ampere]
	Rating      Value[unit.Ampere]
	Body        Word
	Holder      Value[unit.Ampere] // when given in amperes
	HolderBody  Word               // when "holder:" names a body (blade, maxi …)
	Type        Word               // breaker: 1 2 3
	Layout      [][]Word           // fuse panel: rows of position numbers; connector, module: rows of cavities or terminals
	Feeds       []Feed
	Fuses       []PanelFuse
	Spare       []Word
	Studs       Value[int]
	Coil        Value[unit.Coil]
	Suppression Word
	Changeover  Value[bool]
	Needs       Value[unit.Ampere]
	Positions   []Position
	Momentary   Value[bool]
	Drop        Value[unit.Volt]
	Ohms        Value[unit.Ohm] // key "value" of a resistor or strap
	Value       Word            // key "value" as written (capacitor)
	Cavities    []Word          // connector: numbers 1..n are expanded, or names
	Sealed      Value[bool]
	Surface     Word
	Joint       Value[unit.Ohm]
	Along       Along
	Span        source.Span
}

// Pair is a key and its word.
type Pair struct{ Key, Value Word }

// Inside is one joint within a part: either a load from From to To, or terminals joined.
type Inside struct {
	From, To Word
	Draws    Value[unit.Draw]
	Behaves  Word
	Join     []Word
	Span     source.Span
}

// Feed is a panel's feed terminal and the positions behind it.
type Feed struct {
	Name      Word
	Positions []Word
}

// PanelFuse is a rating written for a panel position.
type PanelFuse struct {
	Position Word
	Rating   Value[unit.Ampere]
}

// Position is a switch position and the terminal pairs that it joins.
type Position struct {
	Name  Word
	Pairs [][2]Word
}

// Along places a splice on a run.
type Along struct {
	From, To Word
	Distance Value[unit.Millimetre] // from From
	Span     source.Span
}

// Circuit is one circuit with its legs.
type Circuit struct {
	Key    Word
	Number Word // digits, kept as written
	Name   Word
	Class  Word
	Task   Word // key "function": what the circuit does, in the words of the conventions
	Notes  Word
	Legs   []Leg
	Span   source.Span
}

// Leg is the list of stops that the current passes, in its meant direction.
type Leg struct {
	Stops []Stop
	Span  source.Span
}

// Stop is one stop: "PART.terminal" or "PART", with what is said about the
// wire that arrives there.
type Stop struct {
	To         Word // as written, trimmed
	Part       Word // the part's name alone (span of that stretch)
	Terminal   Word // zero when bare
	Length     Value[unit.Millimetre]
	Gauge      Value[unit.Gauge]
	Colour     Word // OG/BK
	Found      Word // the colour of the wire that is there now, in a car to be rewired
	Insulation Word
	Via        []Word
	Beside     bool // via is an empty list: not through the loom
	Twist      Word
	Screen     Word
	Cable      Word // the cable in which the wire is a core
	Core       Word // which: its number, mark or colour
	Name       Word // key "wire": the wire's own name, overrides the automatic one
	Was        Word // what the stop was called when the as-built record was written
}

// State says which position each switch is in.
type State struct {
	Key      Word
	Settings []Pair // part and position
	Engine   Word   // off running cranking
}
