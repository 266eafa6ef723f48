package proof

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Tree is the next measurements for a load that does not work.
type Tree struct {
	Load     harness.ElementID
	State    int
	Suspects []int // into Faults
	Root     *Probe
	Mean     float64 // probes until the class of the fault is known, by the weights
	Most     int
	Entropy  float64 // bits, of the classes that a meter can tell apart
	Classes  int
}

// Probe is one measurement: the meter on a point against battery negative, or across two
// points, in the tree's state with the load connected and on.
type Probe struct {
	Point   int // into Points
	Against int // into Points; None: battery negative
	Answers []Answer
}

// Answer is a band of readings and what remains then.
type Answer struct {
	Low, High unit.Volt
	Says      string  // full, low, some, none, negative
	Share     float64 // how likely this answer is
	Left      []int   // into Faults, the likeliest first
	Next      *Probe  // nil where a meter can tell no more
}

// Standing is what a diagnosis makes of symptoms and readings: the faults that remain.
type Standing struct {
	Left  []Suspect           // the likeliest first; what is left of less than one in a thousand is not told
	Sound bool                // all that was told is as in a sound vehicle
	Odd   []int               // what was told and the likeliest fault does not explain, into Told of the diagnosis
	Both  *Both               // nil where one fault explains all
	Again *Read               // nil, or a reading by which alone a likelier fault fell: take it again
	Look  []harness.ElementID // loads of which to say first whether they work, the most telling first
	Next  *Asked              // nil where a meter can tell no more, or all but certainty is reached
	Wrong []string            // what is wrong with what was told
}

// Suspect is a fault with what is left of its likelihood, of 1.
type Suspect struct {
	Fault int
	Share float64
	Class int // faults of one class no meter can tell apart
}

// Both are two faults at once that explain what no single one does.
type Both struct {
	A, B  int     // into Faults
	Share float64 // among the pairs that were looked at
}

// Read is a reading that was told.
type Read struct {
	State   int
	Point   int // into Points
	Against int // into Points; None: battery negative
	Volts   unit.Volt
}

// Asked is the next measurement, with what it would say.
type Asked struct {
	State int
	Probe Probe
	On    []harness.ElementID // loads that must be on
}
