// Package fitted holds what is fitted to the wires as it comes out of package fit:
// plain values, by end, ground, splice, run, reel, unit, label and item, which
// sheets and figures read without the engine that found them.
package fitted

import (
	"strings"

	"example.com/loomfolio/sizing/fit/packing"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// End is one end of a wire.
type End struct {
	Wire      harness.WireID
	End       string // a or b
	Terminal  harness.TerminalID
	Kind      string // ring, receptacle, contact … as package joint names them
	On        string // the stud, the tab in mm or the family that it is for, "" where it has none
	Fitting   string // as printed: "M6 ring", "6.3 mm female spade", "butt splice", "crimp contact, 2-way family"
	Crimp     string // "blue insulated", "open barrel", "battery lug", Barrel
	Size      string // wire range of the fitting ("1.5-2.5 mm2"), or the one gauge that it is for
	Range     string // of wires for which the fitting is sold, where that is more than Size: "0.5-1 mm²"; else ""
	Strip     unit.Millimetre
	Folded    bool    // the strands are folded back, and Strip is twice the usual length for it
	Pull      float64 // N
	PullList  string  // the list it is from, a key of rating.Source
	Shrink    string  // "6/2 mm, 3:1 adhesive-lined", "" when the crimp is insulated
	ShrinkLen unit.Millimetre
	Part      string // the shop's own number for the fitting, "" where the tables chose it
	Die       string // the die that goes with it
	Tool      string
	Over      unit.Millimetre  // outside of the wire, for the insulation grip of a contact; else 0
	Label     string           // marker text
	Boot      bool             // it stands on a stud that is live with no fuse before it: a boot goes over it (33 CFR 183.445)
	With      []harness.WireID // wires in the same receptacle, since they share its tab
	Drain     string           // the unit whose drain is crimped in with it, "" for none
	Second    bool             // another end, with it, counts the receptacle
	Doubt     string           // where two sleeves claim the size, or none does: what was decided
	Reason    string
	Sources   []string
}

// Ground is one ground point.
type Ground struct {
	Part     harness.PartID
	Rings    []harness.WireID // bottom up
	Amps     unit.Ampere      // the most that lasts, into the metal or from ring to ring: it sizes the stud
	State    string           // that gives it, "" for none
	Crank    unit.Ampere      // while the engine is cranked, where that is more; else 0
	CrankIn  string           // that state
	Lift     unit.Volt        // the most that the point is away from the battery's post, cranking included
	LiftIn   string           // the state that gives it, "" for none
	Steady   unit.Volt        // where that is while cranking, the most in a state that lasts; else 0
	SteadyIn string           // that state, "" for none
	Surface  string
	Stud     string
	StudWhy  string // why no smaller one would do; "" for the usual one and a given one
	Washer   string // "star washer on bared metal", …
	Prep     string // how the surface is made ready
	Tighten  string // torques of the nut, each with what it is for; "" where no list has the thread
}

// Body is a part that its own body grounds.
type Body struct {
	Part    harness.PartID
	Ohms    unit.Ohm    // of the joint
	Amps    unit.Ampere // the most that lasts
	State   string      // that gives it, "" for none
	Lift    unit.Volt   // the most that the body is away from the battery's post
	LiftIn  string
	Surface string
	Washer  string
	Prep    string
}

// Splice is one splice.
type Splice struct {
	Part      harness.PartID
	Wires     []harness.WireID
	AreaSum   unit.SquareMillimetre
	Size      string // "uninsulated barrel 3 mm² (12 AWG)": in the sheet's gauges, the other in brackets
	Shrink    string
	ShrinkLen unit.Millimetre
	Number    string // the shop's own part number for the barrel
	Die       string
	Shift     unit.Millimetre  // how far it is moved along its run so that neighbours do not lie side by side
	Into      harness.RunID    // the run that a splice at a place is moved into, None where it is not
	Beside    []harness.WireID // must leave on one side together so that the tube grips; nil: any wire may
	Where     string
}

// Run is what lies in one run.
type Run struct {
	Run       harness.RunID
	Wires     []harness.WireID
	Diameter  unit.Millimetre
	Cover     unit.Millimetre // bore of the cover, 0 for tape
	CoverName string
	BendLeast unit.Millimetre  // radius, where it is clamped on both sides of the bend
	BendLong  unit.Millimetre  // radius, for long life
	Hole      unit.Millimetre  // bore through which the finished ends pass; housings apart
	PassFrom  harness.PlaceID  // whose ends pass it
	Open      []harness.PartID // housings to be closed only when it has passed
	Outside   unit.Millimetre  // over the cover; the bundle where there is none
	Grommet   unit.Millimetre  // bore of a grommet where the run passes a wall
	Clear     unit.Millimetre  // hole without a grommet, 3/8 in clear all round
	Wall      bool             // it leads from one zone into another
	Boot      string           // shrink over each end of the cover, "" where there is no cover or no tube
	BootLen   unit.Millimetre
	Taped     unit.Millimetre  // over the tape that the wires get under it so that it grips; 0 where they need none
	Clamps    int              // supports between its ends
	Section   []packing.Circle // the wires in the bundle, in mm, by index into Wires
	Sheaths   []packing.Circle // round the wires of each unit in it
}

// Reel is the wire of one gauge, insulation and colour.
type Reel struct {
	Gauge      unit.Gauge
	Insulation string
	Base       string
	Tracer     string
	Wires      []harness.WireID // in cutting order, built ones last
	Built      int              // so many of them are in the vehicle
	Need       unit.Millimetre  // of the others
	Buy        unit.Millimetre
	Bound      unit.Millimetre  // nothing less can be bought
	Cuts       []Cut            // what is cut from which length: the shelf's first
	TooLong    []harness.WireID // longer than any length that is sold or left
	Copper     unit.Gram
}

// ToCut counts the wires that are cut from it.
func (r *Reel) ToCut() int { return len(r.Wires) - r.Built }

// Cut is one length of wire and what is cut from it.
type Cut struct {
	Whole  unit.Millimetre
	Shelf  bool             // a left-over; else bought
	Wires  []harness.WireID // the longest first
	Drains unit.Millimetre  // for drains of screens, after these
	Over   unit.Millimetre  // what is left then, the spare in it
}

// Item is one line of the shopping list.
type Item struct {
	Group string // one of itemGroups
	What  string
	Count float64
	Unit  string // "m", "pcs"
	For   string // where it is used, short: "MF2, MF3"

	Gauge  unit.Gauge // of wire
	Pack   float64    // how many, or metres, are sold together; 0: one by one, and wire by its plan
	Buy    float64    // Count rounded up to whole packs
	Priced bool
	Sum    float64 // price of what is bought
	Users  []User  // all that it is for, in the order in which they were met
}

// User is what so many pieces or metres of an item are for: a part, a fuse, a wire, a run, a unit.
type User struct {
	Name  string
	Count float64
}

// Bought tells an item from what is on the shelf, and from what comes off the sheet of labels.
func (it *Item) Bought() bool {
	return (it.Group != "wire" || it.Count > 0) && (it.Group != "markers" || it.Unit != "pcs")
}

// Lot is all crimps that one test stands for: the same fitting, wire and tool.
type Lot struct {
	Fitting, Crimp, Size string
	Part, Die, Tool      string
	Gauge                unit.Gauge // of the wire that is pulled: the thinnest in it
	Beside               string     // gauges of the wires crimped in one receptacle with it, "" where it is alone
	Count                int        // crimps in the harness
	Specimens            int        // spare ones to be pulled
	Pull                 float64    // N
	PullList             string
}

// Stack is the rings on one stud that is no ground, from the bottom up.
type Stack struct {
	Terminal harness.TerminalID
	Stud     string
	Rings    []harness.WireID
	Least    float64 // N·m; 0 where no list has it
	Most     float64
	On       string // the material and place that the torque is for: "brass stud"
}

// Tool is one crimping tool with how many crimps are made with it.
type Tool struct {
	Word   string // as practice: tools: names it: "lugs"; "" for the shop's own
	Name   string // "lug press"
	Crimps int
}

// NoneFits stands for the crimp where a wire is too heavy for every fitting that
// its terminal takes; a finding says so.
const NoneFits = "none listed"

// AsFound stands for the crimp of a wire of the vehicle's own: what is on it stays.
const AsFound = "as found"

// ToMake tells an end that gets a fitting: not one for which none is listed, nor one that is
// in the vehicle already.
func (e *End) ToMake() bool { return e.Crimp != NoneFits && e.Crimp != AsFound }

// Barrel is the crimp of a wire that shares the barrel of its splice.
const Barrel = "uninsulated barrel"

// Fitted is everything that is fitted to the chosen wires, but for the reels,
// which wait for the colours.
type Fitted struct {
	Ends       [][2]End // by WireID: From end, To end
	Grounds    []Ground // in the order of the parts
	Bodies     []Body   // in the order of the parts
	Stacks     []Stack  // in the order of the terminals
	Lots       []Lot    // by crimp, then by wire
	Splices    []Splice // in the order of the parts
	Runs       []Run    // by RunID
	Units      []Unit   // by UnitID
	Tools      []Tool   // crimping tools that the build needs, in the order of rating.Tools
	SourceKeys []string // of the sources that decided something, each once
}

// Taped tells tape, which lies on the bundle and has no bore, from other covers.
func Taped(cover string) bool { return strings.EqualFold(cover, "tape") }
