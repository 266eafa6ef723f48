package proof

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Found is an old loom as it was found: what nobody knows of it, in the order in which it is
// best traced, and what was measured beside what a sound loom of this description reads.
type Found struct {
	Open      []Question // what tells most first
	Blind     []Blind    // fuses of which nobody knows all that they feed, in the order of the fuses
	Measured  []Measured // in the order of Harness.Measured
	Stretches []Stretch  // where more is lost than the wires can explain, the most first
	Unsure    [][]bool   // by state and terminal: nobody can say what a meter shows there
}

// Any tells whether there is anything to be told.
func (f *Found) Any() bool { return len(f.Open) > 0 || len(f.Measured) > 0 }

// At tells whether nobody can say what a meter shows at a terminal in a state.
func (f *Found) At(state int, t harness.TerminalID) bool {
	return state < len(f.Unsure) && f.Unsure[state] != nil && f.Unsure[state][t]
}

// Agree counts the readings that are what a sound loom reads.
func (f *Found) Agree() int {
	n := 0
	for i := range f.Measured {
		if f.Measured[i].Verdict == Agrees {
			n++
		}
	}
	return n
}

// Question is an end that is not traced, or a box that nobody knows.
type Question struct {
	Part    harness.PartID
	Box     bool
	Ends    []harness.TerminalID // its terminals on which a wire ends and of which nobody knows where they lead
	Wires   []harness.WireID     // that end there
	State   string               // the first state in which it is live, "" where none is known
	Fuse    string               // the fuse before it, "" where it is live and none is known, or not live
	Rating  unit.Ampere          // of that fuse
	Hangs   []string             // loads that are fed, grounded or switched only through it, as far as is known
	Perhaps []harness.PartID     // ends that the description calls by the same words
	Alike   []harness.PartID     // other ends whose wires have the same colour and size
	Reads   int                  // readings that cannot be judged for its sake
	Points  int                  // how much tracing it settles
	Why     string               // in words: "it is live, no fuse is known before it, and 3 parts hang on it"
}

// Live tells one that is live in some state.
func (o *Question) Live() bool { return o.State != "" }

// Blind is a fuse with something behind it of which nobody knows what it draws.
type Blind struct {
	Fuse  int              // into Result.Fuses
	Parts []harness.PartID // what is not known behind it
	Given bool             // its rating is given, as found
}

// Verdict says how a reading stands beside the wiring as described.
type Verdict string

// The verdicts.
const (
	Agrees    Verdict = "agrees"
	Low       Verdict = "low"         // less than the least of a sound loom
	High      Verdict = "high"        // more than the most
	OffState  Verdict = "off-state"   // there is no such voltage in that state
	Unsettled Verdict = "unsettled"   // nobody can say what it should be: it hangs on what is not known
	Coarse    Verdict = "cannot-tell" // the meter is too coarse for it
	Opposed   Verdict = "opposed"     // another reading says otherwise
)

// Measured is a reading beside what it should be: V, or ohms with the battery off.
type Measured struct {
	Is, Low, High float64 // of a sound loom; NaN where nobody can say, +Inf where nothing joins the points
	Meter         float64 // the most by which the meter may be off
	Verdict       Verdict
	Says          string // in words, "" where it agrees
}

// Stretch is a piece of a load's way on which more is lost than the wires can explain.
type Stretch struct {
	Reading  int                // into Found.Measured: the reading that shows it
	Before   int                // the good reading before it on the way; None: the source, or the way back to it
	From, To harness.TerminalID // as the current passes it
	Load     harness.ElementID
	State    int
	Lost     unit.Volt        // between the two, as measured
	Explains unit.Volt        // the most that a sound loom and the meter explain
	Suspects []Spot           // the likeliest first
	Draws    []harness.PartID // what nobody knows and may draw through it
	Needs    unit.Ampere      // what that must draw to explain it
}

// More is what is lost beyond what can be explained.
func (s *Stretch) More() unit.Volt { return s.Lost - s.Explains }

// Spot is a joint that may be bad.
type Spot struct {
	Name    string // "G1", "X2.4", "3C"
	What    string // in the trade's words: "ground", "plug", "crimps of the wire"
	Wire    harness.WireID
	Element harness.ElementID
	Share   float64 // of all on the stretch, by how often such joints fail
}
