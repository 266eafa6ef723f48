// Package describe is the format of a harness description (format 1) as tables of
// keys, and gives a description back exactly as it was written, every value with
// its span. Unknown keys, duplicate names and values that cannot be meant are
// problems, all reported at once. Quantities are parsed here; names are not
// resolved here (package check does that), and the bytes are package read's.
package describe

import (
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Description is the whole file. Lists keep the order of the file.
type Description struct {
	File       *source.File
	Foreign    []read.Word // every text with a character outside ASCII, in the order of the file
	Title      read.Word
	Revision   read.Word
	Date       read.Word // YYYY-MM-DD, checked
	Customer   read.Word
	Builder    read.Word
	CheckedBy  read.Word
	Notes      read.Word
	Vehicle    Vehicle
	Sheet      Sheet
	System     System
	Systems    []Side
	Practice   Practice
	Places     []Place
	Runs       []Run
	Screens    []Screen
	Cables     []Cable
	Parts      []Part
	Circuits   []Circuit
	States     []State
	StatesSpan source.Span // of the key "states"
	Measured   []Measured
	Accept     []Accept
	Variants   []Variant
	Variant    string   // the chosen one; "" for none, read.All for everything that they add
	LeftOut    []string // the parts that the variant lacks, also those that it does not name
}

// Accept is one advice that is taken off the list.
type Accept struct {
	Finding read.Word
	At      []read.Word // part, wire, terminal, circuit, state, place …
	Because read.Word
}

// Vehicle names the car.
type Vehicle struct{ Name, Identity read.Word }

// Sheet says how the packet is drawn.
type Sheet struct {
	Paper   read.Word // A4 A3 letter tabloid
	Units   read.Word // metric imperial
	Gauge   read.Word // mm2 awg sae
	Picture read.Word // file of the cover's photograph or mark
}

// System is the vehicle's electrical system.
type System struct {
	Volts   read.Value[unit.Volt] // 6, 12, 24, 48 (a bare number is allowed here)
	Running read.Value[unit.Volt]
	Earth   read.Word // negative positive
	Return  read.Word // chassis wired
	Span    source.Span
}

// Side is a further voltage on board, behind a converter or from a centre tap.
type Side struct {
	Key     read.Word
	Volts   read.Value[unit.Volt]
	Running read.Value[unit.Volt]
	From    []Stop // where it begins: a converter's output, the plus of the lower battery
}

// Practice is what differs from the built-in practice.
type Practice struct {
	Drop       []DropClass
	Insulation read.Word
	Ampacity   read.Word // computed or abyc
	Slack      Slack
	Smallest   read.Value[unit.Gauge]
	Mixed      read.Value[bool]          // lifts "wires in series take one gauge"
	FuseLoad   read.Value[unit.Fraction] // key "fuse-load": continuous current over rating, default 75 %
	Fuses      FuseShelf
	Method     read.Word // computed abyc-e11 ac43-13
	Pull       read.Word // key "pull": ul-486a mil-t-7928 abyc-e11 nasa-8739
	Ground     read.Word // key "ground-colour": colour letters
	Feed       read.Word // key "feed-colour": colour letters
	Stock      []StockLine
	Sold       []read.Value[unit.Millimetre] // lengths in which wire is sold; none: by the metre or foot
	Spare      read.Value[unit.Fraction]     // bought above what is cut
	WireTypes  []WireType
	Terminals  []ShopTerminal // key "terminals": the shop's own, before the built-in ones
	Labels     Labels
	Packs      []Pack
	Prices     []Price
	Currency   read.Word // key "currency" among the prices
	Palette    []Pair    // letters and the shade that stands for them, #a01020
	Change     read.Word // key "colour-change": change keep-base keep
	Customs    []Custom  // key "conventions", in order
	Insist     read.Word // key "convention-colours": prefer always
	Twist      Twist
	Screen     ScreenMake
	CableTypes []CableType
	Buy        Buy
	Apart      Apart       // key "tell-apart"
	Tools      []read.Word // crimping tools that the shop has
	Minutes    []Minutes
}

// ShopTerminal is a terminal that the shop has, with its own number and die.
type ShopTerminal struct {
	Fitting  read.Word // ring receptacle contact butt bullet ferrule splice
	Stud     read.Word // of a ring
	Tab      read.Word // of a receptacle
	Family   read.Word // of a contact; none: any housing
	From, To read.Value[unit.Gauge]
	Thinnest read.Value[unit.Millimetre] // key "insulation-from": outside of the thinnest wire that the insulation grip holds
	Thickest read.Value[unit.Millimetre] // key "insulation-to"
	Part     read.Word
	Die      read.Word
	Tool     read.Word
	Sleeve   read.Word // red blue yellow
	Strip    read.Value[unit.Millimetre]
	Span     source.Span
}

// Custom is one set of colours by function.
type Custom struct {
	Word read.Word // british german marine …; not given: a set of one's own
	Own  []Pair    // function and colour letters
}

// FuseShelf is which fuses the shop fits.
type FuseShelf struct {
	Smallest read.Value[unit.Ampere]
	Stock    []read.Value[unit.Ampere]
}

// DropClass is the allowed drop of one class of circuits.
type DropClass struct {
	Name  read.Word
	Limit read.Value[unit.DropLimit]
}

// Slack is the length added at each end and along the way.
type Slack struct {
	EachEnd read.Value[unit.Millimetre]
	Dress   read.Value[unit.Fraction]
	RoundUp read.Value[unit.Millimetre]
}

// StockLine is what is on the shelf in one gauge.
type StockLine struct {
	Gauge   read.Value[unit.Gauge]
	Colours []StockColour
}

// StockColour is a colour on the shelf, and the lengths left when given
// (written as a list of colours, or as a mapping colour: [lengths]).
type StockColour struct {
	Colour read.Word
	Left   []read.Value[unit.Millimetre]
}

// WireType is a reel with data of its own, usable as an insulation.
type WireType struct {
	Name  read.Word
	Class read.Value[unit.Celsius]
	Sizes []WireTypeSize
}

// WireTypeSize is one size of such a reel.
type WireTypeSize struct {
	Size       read.Value[unit.Gauge]
	Area       read.Value[unit.SquareMillimetre]
	Diameter   read.Value[unit.Millimetre]
	Resistance read.Value[unit.OhmPerMetre]
	Span       source.Span
}

// Place is a spot on the vehicle.
type Place struct {
	Key     read.Word
	Name    read.Word
	Zone    read.Word
	Ambient read.Value[unit.Celsius]
	Surface read.Word                   // bare painted coated: the bodywork that a ground here stands on
	Tail    read.Value[unit.Millimetre] // from the loom to the terminals of a part here
	Lies    []read.Word                 // front rear left right: the sides of the vehicle, at most one of either pair
	Picture read.Word                   // file of a photograph
}

// Run is a stretch of loom between two places.
type Run struct {
	From, To read.Word
	Length   read.Value[unit.Millimetre]
	Cover    read.Word
	Flexes   read.Value[bool] // a flexing zone: no splice here
	Span     source.Span
}

// Part is anything that wires end on.
type Part struct {
	Key        read.Word
	Kind       read.Word
	Name       read.Word
	At         read.Word
	Tail       read.Value[unit.Millimetre]
	Stud       read.Word // M6, 1/4, #10
	Tab        read.Word // 6.3
	Family     read.Word
	Fitting    read.Word                   // butt bullet ferrule: what its leads or screws take
	Sleeve     read.Word                   // red blue yellow: the insulated crimps to be used here
	Length     read.Value[unit.Millimetre] // of a strap
	Size       read.Value[unit.Gauge]      // key "gauge" of a strap
	Notes      read.Word
	PartNumber read.Word
	Picture    read.Word   // file of a photograph
	Found      []Pair      // measured as it is: {colour: BK, volts: …} kept as words
	Terminals  []read.Word // overrides the customary terminals
	Inside     []Inside

	Draws      read.Value[unit.Draw]
	Each       read.Value[[]unit.Draw] // key "draws" of a kind with several loads
	AtVolts    read.Value[unit.Volt]
	Starts     read.Value[unit.Start]
	Duty       read.Value[unit.Fraction]
	Behaves    read.Word
	WorksAbove read.Value[unit.Volt]

	Capacity    read.Value[unit.AmpereHour]
	EMF         read.Value[unit.Volt]
	Inner       read.Value[unit.Ohm]
	Output      read.Value[unit.Ampere]
	Regulated   read.Value[unit.Volt]
	Solenoid    read.Value[unit.Ampere]
	Gives       read.Value[unit.Draw]     // key "output" of a converter
	OutputVolts read.Value[unit.Volt]     // of a converter
	Efficiency  read.Value[unit.Fraction] // of a converter, an inverter, a solar regulator that tracks
	Standing    read.Value[unit.Draw]     // of a converter, an inverter
	For         read.Word                 // of a converter: supply charger
	Isolated    read.Value[bool]
	Limit       read.Value[unit.DropLimit] // key "drop" of a load
	NeedsVolts  read.Value[unit.Volt]      // key "needs" of a load
	Rating      read.Value[unit.Ampere]
	Body        read.Word
	Holder      read.Value[unit.Ampere] // when given in amperes
	HolderBody  read.Word               // when "holder:" names a body (blade, maxi …)
	Type        read.Word               // breaker: 1 2 3
	Layout      [][]read.Word           // fuse panel: rows of position numbers; connector, module: rows of cavities or terminals
	Feeds       []Feed
	Fuses       []PanelFuse
	Lid         read.Value[unit.Face]
	Spare       []read.Word
	Studs       read.Value[int]
	Coil        read.Value[unit.Coil]
	Suppression read.Word
	Changeover  read.Value[bool]
	Closes      read.Word // thermostat, pressure switch: the position in which it is closed
	Plugs       read.Value[int]
	Ballast     read.Value[unit.Ohm]
	Needs       read.Value[unit.Ampere]
	Positions   []Position
	Momentary   read.Value[bool]
	Drop        read.Value[unit.Volt]
	Ohms        read.Value[unit.Ohm] // key "value" of a resistor or strap
	Value       read.Word            // key "value" as written (capacitor)
	Cavities    []read.Word          // connector: numbers 1..n are expanded, or names
	Sealed      read.Value[bool]
	Surface     read.Word
	Joint       read.Value[unit.Ohm]
	Along       Along
	Grounds     Body
	Existing    read.Value[bool]
	Charging
	Span source.Span
}

// Body is how a part is grounded by the metal that it is screwed to: `body`, or what is
// said of it.
type Body struct {
	Terminal read.Word // the terminal that the body grounds; zero: by its kind
	Joint    read.Value[unit.Ohm]
	Surface  read.Word   // bare painted coated
	Span     source.Span // of the key's value; not known where the part is not grounded so
}

// Given tells whether the part says that it is grounded by its body.
func (b Body) Given() bool { return b.Span.Known() }

// Pair is a key and its word.
type Pair struct{ Key, Value read.Word }

// Inside is one joint within a part: either a load from From to To, or terminals joined.
type Inside struct {
	From, To read.Word
	Draws    read.Value[unit.Draw]
	Behaves  read.Word
	Join     []read.Word
	Span     source.Span
}

// Feed is a panel's feed terminal and the positions behind it.
type Feed struct {
	Name      read.Word
	Positions []read.Word
}

// PanelFuse is a rating written for a panel position.
type PanelFuse struct {
	Position read.Word
	Rating   read.Value[unit.Ampere]
}

// Position is a switch position and the terminal pairs that it joins.
type Position struct {
	Name  read.Word
	Pairs [][2]read.Word
}

// Along places a splice on a run.
type Along struct {
	From, To read.Word
	Distance read.Value[unit.Millimetre] // from From
	Span     source.Span
}

// Circuit is one circuit with its legs.
type Circuit struct {
	Key    read.Word
	Number read.Word // digits, kept as written
	Name   read.Word
	Class  read.Word
	Task   read.Word // key "function": what the circuit does, in the words of the conventions
	Notes  read.Word
	Legs   []Leg

	Existing read.Value[bool] // all its wires are the vehicle's own
	Span     source.Span
}

// Leg is the list of stops that the current passes, in its meant direction.
type Leg struct {
	Stops []Stop
	Span  source.Span
}

// Stop is one stop: "PART.terminal" or "PART", with what is said about the
// wire that arrives there.
type Stop struct {
	To         read.Word // as written, trimmed
	Part       read.Word // the part's name alone (span of that stretch)
	Terminal   read.Word // zero when bare
	Open       bool      // "?" or "? in words": an end that nobody has traced
	Length     read.Value[unit.Millimetre]
	Gauge      read.Value[unit.Gauge]
	Colour     read.Word // OG/BK
	Found      read.Word // the colour of the wire that is there now, in a car to be rewired
	Insulation read.Word
	Via        []read.Word
	Beside     bool // via is an empty list: not through the loom
	Twist      read.Word
	Screen     read.Word
	Cable      read.Word        // the cable in which the wire is a core
	Core       read.Word        // which: its number, mark or colour
	Name       read.Word        // key "wire": the wire's own name, overrides the automatic one
	Was        read.Word        // what the stop was called when the as-built record was written
	Existing   read.Value[bool] // the wire is the vehicle's own
}

// State says which position each switch is in.
type State struct {
	Key      read.Word
	Settings []Pair    // part and position
	Engine   read.Word // off running cranking
}
