// Package purchase holds, plain, what was chosen to be bought for a loom above what is
// least: how few sizes and reels, the other choices that there were, the wires that only
// their number sleeves tell apart, what all costs in money, mass and minutes, and what is left
// after the build. Sheets, figures and explanations read it; nothing here computes.
package purchase

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Purchase is everything about what is bought.
type Purchase struct {
	For     string    // few, clear, numbers: as practice says
	Weights Weights   // of the objective
	Curve   []Choice  // the choices that were weighed, most sizes first; the last of each number of sizes is the best found
	Taken   int       // index into Curve
	Why     string    // why that one: "the least sum of reels, sleeves and copper"
	Least   unit.Gram // copper on the reels if every wire had its own least size
	Taught  string    // which wires must look different, in words: "neighbours within 2 positions in panels, plugs and modules; all at other parts"
	Pairs   []Pair    // of wires that meet, must look different, and are told apart by their number sleeves alone
	Bounds  []Bound   // by size: no colouring needs fewer reels
	Cost    Cost
	Left    []Left // after the build, by reel
}

// Weights say what the objective counts, in reels.
type Weights struct {
	Money    bool // prices are in force: reels, tracers and copper count as money
	Tracer   float64
	PartPair float64
	RunPair  float64
	Copper   unit.Gram // that one reel is worth
	Metre    float64
	Size     float64 // a size more, with money too
	Kind     float64 // a kind of crimp more, with money too
}

// Choice is one set of sizes with the best colouring found for it.
type Choice struct {
	Sizes     []unit.Gauge // thinnest first
	Reels     int
	Tracers   int // of them
	Bound     int // no colouring of these sizes that tells all apart needs fewer; with sleeves it may
	Copper    unit.Gram
	PartPairs int // told apart by the sleeve alone, those by rule apart
	RunPairs  int
	RuleParts int // the same, where rules or the description leave neither a choice
	RuleRuns  int
	Sum       float64 // of the objective
	Money     float64 // 0 without prices
	Refused   string  // why it was not taken though its sum is less: what the engine found with it; "" for none
}

// Pair is two nets whose wires look alike where they meet.
type Pair struct {
	A, B     harness.WireID // one wire of each, where they meet, in the order of their names
	Part     harness.PartID // where they meet; None where only runs
	Run      harness.RunID  // None where a part
	Distance float64        // of their colours, CIEDE2000
	ByRule   bool           // rules, or the description, leave neither a choice
}

// Bound is the proof for one size, that no colouring that tells all apart needs fewer reels.
type Bound struct {
	Gauge      unit.Gauge
	Insulation string
	Reels      int // that are bought
	Least      int // that must be
	Exact      bool
}

// Cost is what the loom costs: money, metres, pieces and minutes of what is still to be bought and
// made, masses of the whole loom, with what of it is built.
type Cost struct {
	Currency  string
	Priced    bool      // some line of the shopping list has a price
	Money     float64   // of all lines that have a price, whole packs; 0 without prices
	Unpriced  int       // lines of what is bought without a price
	Groups    []Sum     // by group of the shopping list, in its order
	Circuits  []Sum     // by circuit, in the order of the description; see package cost for how what serves several is shared
	Metres    float64   // of wire and cable bought
	Reels     int       // that they are bought on, those that the shelf serves not counted
	Pieces    int       // bought by the piece, whole packs
	Copper    unit.Gram // of the wires on reels, without terminals: length × area × 8.89 g/cm³, the sum of the reels
	Cores     unit.Gram // copper of the cables' cores, the same way
	Wire      unit.Gram // of the wires on reels with their insulation
	Cable     unit.Gram // of the cables, copper and sheath included
	Cover     unit.Gram // of sleeves, tape, tube and screens; within a third
	Minutes   float64   // to build
	Spread    float64   // ± share of the minutes: 0.3
	Operation []Operation
}

// Sum is one row of money and mass.
type Sum struct {
	Name   string    // group, or name of the circuit
	Metres float64   // of a group what it is sold by the metre; of a circuit wire and cable
	Pieces int       // of a circuit with its shares, to the nearest
	Mass   unit.Gram // of wire with insulation, of cables, of covers; 0 where nothing is known
	Money  float64
}

// Operation is one kind of work with its count.
type Operation struct {
	Key     string // as practice: minutes: names it
	Name    string
	Count   float64
	Per     string  // wire, end, splice, tie, metre, reel
	Each    float64 // minutes
	Minutes float64
	Status  string // that of the source: read, from memory, common practice; given where the description says it
	Source  string // key of rating.Source; "" where given
}

// Left is what is left of one reel after the build.
type Left struct {
	Gauge        unit.Gauge
	Insulation   string
	Base, Tracer string
	Lengths      []unit.Millimetre // longest first; none: it is there, and nobody has measured it
}
