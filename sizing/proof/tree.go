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
	Left  []Suspect // the likeliest first
	Next  *Asked    // nil where a meter can tell no more
	Known string    // what is wrong with what was told, "" for nothing
}

// Suspect is a fault with what is left of its likelihood, of 1.
type Suspect struct {
	Fault int
	Share float64
	Class int // faults of one class no meter can tell apart
}

// Asked is the next measurement, with what it would say.
type Asked struct {
	State int
	Probe Probe
	On    []harness.ElementID // loads that must be on
}
