// Package harness is the model: the harness with every name resolved, as types
// only, with dense typed IDs that index the slices. Results of later stages lie
// beside the model, indexed by the same IDs. The model knows the description's
// spans so that every later finding can point at its cause.
//
// What always holds (Verify checks it): IDs equal their index; every reference
// is in range; Terminals[0] is the chassis; wires end on two different terminals.
package harness

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// IDs index the slices of Harness.
type (
	PlaceID    int
	RunID      int
	PartID     int
	TerminalID int
	ElementID  int
	CircuitID  int
	WireID     int
	UnitID     int
)

// None marks a missing ID; Chassis is the terminal that stands for the bodywork.
const (
	None               = -1
	Chassis TerminalID = 0
)

// Harness is the whole model.
type Harness struct {
	File      *source.File
	Digest    string // sha256 of the description's bytes, and of those of all files that it includes, hex
	Info      Info
	Sheet     Sheet
	System    System
	Systems   []System    // the voltages on board, the first of them System; nil where there is one
	Sides     []int       // by TerminalID: which of Systems it belongs to; nil where there is one
	Behind    []ElementID // by TerminalID: the converter behind which it lies, None for none; nil without converters
	Practice  Practice
	Places    []Place
	Runs      []Run
	Parts     []Part
	Terminals []Terminal
	Elements  []Element
	Circuits  []Circuit
	Wires     []Wire
	Units     []Unit       // wires that are handled as one
	States    []State      // as declared, or the made ones where none is declared
	Pictures  []*Picture   // each file once, in the order in which they are first named
	Measured  []Reading    // what somebody measured on the vehicle as it is, in the order of the file
	Accept    []Accept     // advice that the description takes off the list
	Record    *source.File // the as-built record that Kept was taken from, nil where there is none
}

// Accept is one advice that has been looked at: the finding's name, what it is said of
// ("" for nothing by name), and why it may stay as it is.
type Accept struct {
	Finding, At, Because string
	Span                 source.Span // of the finding's name
	AtSpan               source.Span
}

// Info is what the title block says.
type Info struct {
	Title, Revision, Date        string // Date: YYYY-MM-DD or ""
	Customer, Builder, CheckedBy string
	Notes                        string
	VehicleName, VehicleIdentity string
	Variant                      string   // the chosen one, which the title names too; "" for none
	LeftOut                      []string // parts that it lacks
	Differs                      string   // how that one differs, or which there are; "" where there are none
}

// Sheet says how the packet is drawn.
type Sheet struct {
	Paper    string // A4 A3 letter tabloid
	Imperial bool
	Gauge    unit.System
	Picture  *Picture // for the cover, nil for none
}

// System is the vehicle's electrical system, or one of several voltages on board.
type System struct {
	Key           string    // as described under systems:, "" for the main one and those that nobody named
	Volts         unit.Volt // nominal
	Running       unit.Volt // charging voltage
	PositiveEarth bool
	WiredReturn   bool
	Span          source.Span
}

// Practice is the practice in force: built-in values, changed by the description.
type Practice struct {
	Drop         map[string]unit.DropLimit // by class; "default" is always there
	Insulation   string
	EachEnd      unit.Millimetre
	Dress        unit.Fraction
	RoundUp      unit.Millimetre
	Smallest     unit.Gauge // zero: the built-in smallest of each system
	Mixed        bool
	FuseLoad     unit.Fraction // continuous current over fuse rating, 0.75
	LeastFuse    unit.Ampere   // no fuse that is chosen is rated below it, 3 A
	FuseStock    []unit.Ampere // ratings that the shop stocks; none: those that shops stock first
	Method       string        // computed abyc-e11 ac43-13
	Ampacity     string        // computed abyc
	Pull         string        // ul-486a mil-t-7928 abyc-e11 nasa-8739
	GroundColour string        // BK
	FeedColour   string        // RD
	Stock        []Stock
	Sold         []unit.Millimetre // lengths in which wire is sold; none: by the metre, or the foot
	Spare        unit.Fraction     // bought above what is cut, for spoilt ends
	WireTypes    []WireType
	Terminals    []ShopTerminal
	Labels       Labels
	Packs        map[string]float64 // group of the shopping list: pieces, or metres, that are sold together
	Prices       []Price
	Currency     string
	Palette      []Shade         // shades that differ from the built-in palettes
	ColourChange string          // across a device: change keep-base keep
	Conventions  []Convention    // whose colours are asked for, in order: the first that has a colour for a function gives it
	Insist       bool            // they are kept where that costs reels and tracers
	Lay          unit.Millimetre // of a twist; 0: by the gauge
	ScreenAs     string          // braid foil
	ScreenWall   unit.Millimetre // of a screen with its jacket, all round
	CableTypes   []CableType
	Buy          Buy
	Apart        Apart
	Tools        []string           // crimping tools of the shop, of Tools(); none: whatever is asked for
	Minutes      map[string]float64 // by operation: minutes that replace those of rating.Times
}

// Buy says how what is bought is chosen above what is least.
type Buy struct {
	For      string      // few clear numbers; "": as clear
	Sizes    int         // at most so many sizes of wire; 0: no limit
	Reels    int         // at most so many reels; 0: no limit
	Parts    int         // at most so many pairs at parts that only the number sleeve tells apart; -1: by the number of wires
	Runs     int         // the same in runs
	ReelMass unit.Gram   // of copper that one reel less is worth; 0: as built in
	Span     source.Span // of the key; not known where the description has none
}

// Fewest tells that reels are saved at the price of copper: few, or numbers.
func (b Buy) Fewest() bool { return b.For == "few" || b.For == "numbers" }

// Apart says which wires must look different where reels are saved.
type Apart struct {
	Near       int    // in panels, plugs and modules those so many positions apart; 0: all of them
	Runs       string // sleeve: where that saves a reel the number sleeve tells them apart; colour: by colour all
	Branchings bool   // also those that only pass one branching
}

// ShopTerminal is a terminal of the shop's own, with the wires that it takes.
type ShopTerminal struct {
	Fitting, Size      string // "ring", "M6"; Size: stud, tab or family, "" where it does not matter
	From, To           unit.SquareMillimetre
	Range              string          // "1.5 to 2.5 mm²", as written
	Thinnest, Thickest unit.Millimetre // outside of the wire for the insulation grip; 0: no limit
	Part, Die, Tool    string
	Sleeve             string          // red blue yellow, "" for an uninsulated barrel
	Strip              unit.Millimetre // 0: as the tables have it
	Span               source.Span
}

// Price is what one piece, or one metre (one foot on an imperial sheet), costs.
type Price struct {
	Item  string     // an item or a group of the shopping list; "wire" with a Gauge
	Gauge unit.Gauge // of wire; zero: all gauges
	Each  float64
	Span  source.Span
}

// Shade is the sRGB value that stands for a colour's letters.
type Shade struct {
	Letters string
	RGB     [3]uint8
}

// Convention is a set of colours by function: one by its word, or the description's own.
type Convention struct {
	Set string // british german marine …; "" for the own one
	Own []ColourRule
}

// ColourRule is a colour that custom gives to a function.
type ColourRule struct{ Function, Base, Tracer string }

// Stock is the colours on the shelf in one gauge; empty Left means plenty.
type Stock struct {
	Gauge   unit.Gauge
	Colours []StockColour
}

// StockColour is one colour of wire, base and tracer ("" for plain).
type StockColour struct {
	Base, Tracer string
	Left         []unit.Millimetre
}

// WireType is a reel with data of its own.
type WireType struct {
	Name  string
	Class unit.Celsius
	Sizes []WireTypeSize
}

// WireTypeSize is one size of such a reel.
type WireTypeSize struct {
	Size       unit.Gauge
	Area       unit.SquareMillimetre
	Diameter   unit.Millimetre
	Resistance unit.OhmPerMetre
}

// Place is a spot on the vehicle.
type Place struct {
	ID           PlaceID
	Key          string
	Name         string // plain name, the key where none was given
	Zone         string
	Ambient      unit.Celsius // resolved: given, or the zone's default
	AmbientGiven bool
	Surface      string
	Tail         unit.Millimetre // from the loom to the terminals of a part here that gives none of its own
	Lies         Side            // 0 where the description does not say
	Picture      *Picture        // nil for none
	Span         source.Span
}

// Run is a stretch of loom between two places.
type Run struct {
	ID     RunID
	From   PlaceID
	To     PlaceID
	Length unit.Millimetre
	Cover  string
	Flexes bool
	Span   source.Span
}

// Kind is a part's kind, in the word of the format ("fuse-panel").
type Kind string

// The kinds of format 1.
const (
	Battery        Kind = "battery"
	Alternator     Kind = "alternator"
	DCConverter    Kind = "converter"
	Starter        Kind = "starter"
	Isolator       Kind = "isolator"
	Fuse           Kind = "fuse"
	FusePanel      Kind = "fuse-panel"
	Breaker        Kind = "breaker"
	Bus            Kind = "bus"
	Relay          Kind = "relay"
	Flasher        Kind = "flasher"
	Switch         Kind = "switch"
	IgnitionSwitch Kind = "ignition-switch"
	Motor          Kind = "motor"
	Lamp           Kind = "lamp"
	Heater         Kind = "heater"
	Coil           Kind = "coil"
	Solenoid       Kind = "solenoid"
	Horn           Kind = "horn"
	Outlet         Kind = "outlet"
	Sender         Kind = "sender"
	Gauge          Kind = "gauge"
	Module         Kind = "module"
	Diode          Kind = "diode"
	Resistor       Kind = "resistor"
	Capacitor      Kind = "capacitor"
	Strap          Kind = "strap"
	Connector      Kind = "connector"
	Splice         Kind = "splice"
	Ground         Kind = "ground"
	Unknown        Kind = "unknown"  // a box of which nobody knows what it does
	OpenEnd        Kind = "open-end" // the end of a wire that nobody has traced
)

// Part is anything that wires end on. Fields that do not fit a kind are zero.
type Part struct {
	ID         PartID
	Ref        string // as used in stops: FAN
	Kind       Kind
	Like       Kind   // the kind whose rules hold for it too; "" for none
	Name       string // plain name ("Radiator fan"), the reference where none was given
	Place      PlaceID
	Tail       unit.Millimetre // from the loom to its terminals: its own, or that of its place
	Terminals  []TerminalID
	Elements   []ElementID
	Stud       string
	Tab        string
	Family     string
	Fitting    string // butt bullet ferrule, where the description says so
	Sleeve     string // red blue yellow, where the description says so
	SleeveSpan source.Span
	Size       unit.Gauge      // of a strap; zero where it is not given
	Length     unit.Millimetre // of a strap; zero where it is not given
	Notes      string
	PartNumber string
	Picture    *Picture // nil for none
	Found      map[string]string
	Span       source.Span // of the part's name in the file

	BodyGround bool       // its return is the metal that it is screwed to: BodyJoint, from BodyAt to the chassis
	BodyAt     TerminalID // the terminal that its body grounds; Chassis where none is
	BodyJoint  ElementID  // None where it is not grounded so
	Existing   bool       // the vehicle's own: drawn and computed, and nothing bought or made for it

	Capacity    unit.AmpereHour
	Output      unit.Ampere // alternator
	Rating      unit.Ampere // fuse, breaker, relay, switch, isolator; 0: not given
	RatingSpan  source.Span
	Body        string // fuse body: mini blade maxi bolt glass, "" when free to choose
	Holder      unit.Ampere
	BreakerType string
	Panel       *Panel
	Studs       int
	Changeover  bool
	Suppression string // none resistor diode
	Needs       unit.Ampere
	Positions   []string // switch, isolator, ignition switch: names in order, rest first
	Momentary   bool
	Cavities    []string
	Rows        [][]string // connector, module: cavities or terminals as seen from the wire side; nil: not given
	Sealed      bool
	Surface     string
	Along       *Along
	Perhaps     string     // of an open end: the word that it shares with others which may be the same place
	Charge      Charging   // of what makes or carries charge
	Draws       unit.Draw  // as written, of a load
	Starts      unit.Start // of a load
	Duty        unit.Fraction
	WorksAbove  unit.Volt
	Limit       unit.DropLimit // of a load that says its own; zero: that of its circuit's class
	NeedsVolts  unit.Volt      // of a load: the least at its terminals, in every state in which it is on; 0: none said
	LimitSpan   source.Span
	NeedsSpan   source.Span
}

// Panel is a fuse panel's face.
type Panel struct {
	Layout     [][]string // rows of position names as seen
	Feeds      []PanelFeed
	Rating     map[string]unit.Ampere // given ratings, by position
	RatingSpan map[string]source.Span
	Spare      []string
	Lid        unit.Face // of the card that goes in its lid; zero where it is not given
}

// PanelFeed is a feed terminal and the positions behind it.
type PanelFeed struct {
	Name      string
	Positions []string
}

// Along places a splice on a run, Distance from that run's From place.
type Along struct {
	Run      RunID
	Distance unit.Millimetre
}

// Terminal is a point on a part where wires end. A connector's cavity has two:
// "4.in" where the current is meant to arrive and "4.out" where it goes on.
type Terminal struct {
	ID     TerminalID
	Part   PartID // None for the chassis
	Name   string // "30"
	Full   string // "K1.30"; a one-terminal part (splice, ground) is its reference alone
	Cavity string // of a connector: "4"; else ""
}

// ElementKind is what an element does electrically.
type ElementKind int

// The kinds of elements.
const (
	Join       ElementKind = iota // no resistance: one node
	Contact                       // closed contact, Ohms when closed, open otherwise
	FuseLink                      // a fuse or breaker position
	Resistance                    // Ohms
	Load                          // Draws, by Behaves
	RelayCoil                     // Ohms; energised above PullIn
	EMF                           // battery: Volts behind Ohms, A is plus
	Charger                       // alternator: Volts regulated, Amps limit, A is plus
	Rectifier                     // diode: A anode, B cathode, Volts drop
	Open                          // a capacitor at DC
	Converter                     // output of a DC/DC converter: Volts regulated, Amps limit, A is plus; it gives while its Input works
)

// Behaviour is how a load's current follows its voltage.
type Behaviour string

// The behaviours of a load.
const (
	AsResistance Behaviour = "resistance"
	AsCurrent    Behaviour = "current"
	AsLamp       Behaviour = "lamp"  // current ~ V^0.55
	AsMotor      Behaviour = "motor" // taken as a constant current while it runs
	AsPower      Behaviour = "power" // Amps times AtVolts watts at any voltage from Floor up
)

// Element is one electrical thing inside a part, between two terminals.
type Element struct {
	ID         ElementID
	Part       PartID
	Kind       ElementKind
	Name       string // unique in the harness: "FAN", "K1.coil", "K1.30-87", "FP.3"
	A, B       TerminalID
	When       Condition
	Ohms       unit.Ohm
	Volts      unit.Volt   // EMF, regulated volts, diode drop
	Amps       unit.Ampere // load: current at AtVolts; charger: its limit
	AtVolts    unit.Volt   // load: the voltage at which Amps holds
	Behaves    Behaviour
	PullIn     unit.Volt     // coil: closes at or above
	DropOut    unit.Volt     // coil: opens below
	Floor      unit.Volt     // load: below this voltage it takes current as a resistance; of one of constant power the lowest that it works at
	Share      unit.Fraction // battery: the part of the system's voltage that it holds, in a series string; 0: the whole
	Pulse      unit.Fraction // load, resistance: the share of the time in which it carries current while the engine runs, as points make it; 0: always
	Keeps      unit.Volt     // contact of a stabiliser: the mean voltage that it keeps at B above Above by opening and closing; 0: none
	Above      TerminalID    // what Keeps counts from
	Side       int           // index into Harness.Systems of the voltage that it is made for: a battery's that of its string
	Input      ElementID     // Converter: the load by which it is fed, which takes what it gives over Efficiency, and Standing
	Efficiency unit.Fraction // Converter
	Standing   unit.Watt     // Converter: what its input takes whatever it gives
	Position   string        // FuseLink in a panel: the position's name
	Kept       KeptFuse      // FuseLink: what the record holds of it
	Innards    bool          // Contact: stands for the windings and the regulator of a machine; no way for a feed
	Senses     bool          // coil, and what it holds itself by: closes by the voltage that it finds; a fine winding, in which no dead short is reckoned
	Sense      TerminalID    // charger: where it holds its voltage, by a sense lead; 0: at its own output
	CutOut     bool          // Contact: lets a dynamo's current through from A to B, and opens when it comes back
}

// Most is the largest steady current that a load is described to take: of one of
// constant power that at the lowest voltage that it works at, A.
func (e *Element) Most() unit.Ampere {
	if e.Behaves != AsPower || e.Floor <= 0 {
		return e.Amps
	}
	return max(e.Amps, unit.Ampere(float64(e.Amps)*float64(e.AtVolts)/float64(e.Floor)))
}

// Holds is the part of the system's voltage that a battery holds: 1, or its share
// in a series string.
func (e *Element) Holds() unit.Fraction {
	if e.Share == 0 {
		return 1
	}
	return e.Share
}

// ConditionKind says what closes an element.
type ConditionKind int

// The kinds of conditions.
const (
	Always     ConditionKind = iota
	InPosition               // the part Switch is in one of Positions
	Energised                // the coil element Coil is energised
	Released                 // the coil element Coil is not energised
	EngineIs                 // the engine is in one of Engines
)

// Condition says when an element is there; otherwise it is open.
type Condition struct {
	Kind      ConditionKind
	Switch    PartID
	Positions []int
	Coil      ElementID
	Engines   []Engine
}

// Engine is what the engine does.
type Engine string

// The engine's conditions.
const (
	EngineOff      Engine = "off"
	EngineRunning  Engine = "running"
	EngineCranking Engine = "cranking"
)

// Circuit is one circuit with its legs.
type Circuit struct {
	ID     CircuitID
	Key    string
	Number string
	Name   string
	Class  string
	Task   string // what it does, in the words of the colour conventions; "" when not said
	Notes  string
	Legs   []Leg
	Wires  []WireID
	Span   source.Span
}

// Leg is a resolved leg: the terminals passed in order, and the wires made.
type Leg struct {
	Stops []TerminalID // a bare part is given as its two terminals
	Wires []WireID
	Span  source.Span
}

// Wire is a single piece of wire from terminal to terminal, in the direction
// in which the current is meant to flow.
type Wire struct {
	ID             WireID
	Name           string // 12A
	Circuit        CircuitID
	Leg            int
	From, To       TerminalID
	Length         unit.Millimetre // given, 0 when computed
	Gauge          unit.Gauge      // given
	Base           string          // given colour letters, "" when chosen
	Tracer         string
	Found          StockColour // the colour of the wire that is there now; zero when not said
	Insulation     string      // resolved
	Via            []PlaceID
	Beside         bool // straight across, not through the loom; it has a given length
	Twist          string
	Screen         string
	Core           int         // of a cable, an index into its type's cores; None where it is a wire of its own
	Span           source.Span // of the stop where it arrives
	GaugeSpan      source.Span // of the given gauge
	ColourSpan     source.Span
	FoundSpan      source.Span
	InsulationSpan source.Span // of the given insulation
	Kept           Kept        // what the record holds of it
	Existing       bool        // the vehicle's own: drawn and computed, and not bought, cut or labelled
}

// State is one set of switch positions.
type State struct {
	Name     string
	Position []int // by PartID; 0 is the rest position
	Engine   Engine
	Made     bool // made by the program, not declared
	Span     source.Span
}

// Reach is how far the wires of a part hang out of the loom: its tail, and the slack at each end.
func (h *Harness) Reach(p *Part) unit.Millimetre { return p.Tail + h.Practice.EachEnd }

// Jumper tells a wire between two terminals of one part.
func (h *Harness) Jumper(w WireID) bool {
	return h.Terminals[h.Wires[w].From].Part == h.Terminals[h.Wires[w].To].Part
}

// Unplaced tells a part of which nobody knows where it is: the end of a wire that is not
// traced, or an unknown box without a place.
func (p *Part) Unplaced() bool {
	return (p.Kind == OpenEnd || p.Kind == Unknown) && p.Place == None && p.Along == nil
}

// PartOf gives a terminal's part, or nil for the chassis.
func (h *Harness) PartOf(t TerminalID) *Part {
	p := h.Terminals[t].Part
	if p == None {
		return nil
	}
	return &h.Parts[p]
}

// Live gives the terminal of an element that is away from the earth side: its plus, A; with
// plus on the earth its minus.
func (h *Harness) Live(e *Element) TerminalID {
	if h.System.PositiveEarth {
		return e.B
	}
	return e.A
}

// Earthed gives the terminal of an element on the earth side.
func (h *Harness) Earthed(e *Element) TerminalID {
	if h.System.PositiveEarth {
		return e.A
	}
	return e.B
}

// Short is the name of one of a part's elements without the terminal at which it ends, "T.54"
// of "T.54-31"; a dash in the part's own name stays.
func (p *Part) Short(element string) string {
	rest, of := strings.CutPrefix(element, p.Ref)
	if !of {
		return element
	}
	head, _, _ := strings.Cut(rest, "-")
	return p.Ref + head
}

// RatingPlace gives where the rating of a fuse is written, of a panel's that of a position;
// where none is, the part.
func (p *Part) RatingPlace(position string) source.Span {
	span := p.RatingSpan
	if p.Panel != nil {
		span = p.Panel.RatingSpan[position]
	}
	if !span.Known() {
		return p.Span
	}
	return span
}

// Opened gives the position in which a part closes fewest contacts, -1 where all its
// positions close as many.
func (h *Harness) Opened(p *Part) int {
	closed := make([]int, len(p.Positions))
	for _, id := range p.Elements {
		if w := h.Elements[id].When; w.Kind == InPosition && w.Switch == p.ID {
			for _, n := range w.Positions {
				closed[n]++
			}
		}
	}
	if len(closed) == 0 || slices.Min(closed) == slices.Max(closed) {
		return -1
	}
	return slices.Index(closed, slices.Min(closed))
}

// OnRegulator tells a way that leads over the regulator of an alternator, or the armature
// of a dynamo.
func (h *Harness) OnRegulator(way []ElementID) bool {
	return slices.ContainsFunc(way, func(id ElementID) bool { return h.Elements[id].Innards })
}
