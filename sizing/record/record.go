// Package record holds the as-built record: the choices that a builder keeps
// from run to run, one line a wire and one line a fuse, as plain text beside the
// description. It reads and writes that text and matches its lines with the wires
// of a description that has changed since. Lines are keyed on what a wire joins,
// not on its name: names are themselves kept.
//
// In: the text, the model. Out: the lines, problems with their place, and which
// line stands for which wire. Nothing here chooses or computes a figure.
package record

import (
	"cmp"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Record is the whole of it.
type Record struct {
	File     *source.File // that it was read from; nil when it was made
	Top      []string     // comment lines before the first line, with their #
	Title    string       // of the description that it was written from
	Revision string
	Variant  string // which variant of it, "" for none
	Digest   string // sha256 of that description, hex
	Wires    []Wire
	Fuses    []Fuse
	Foot     []string // comment lines after the last wire or fuse
	Edited   bool     // the text is another than was written, and still as long
}

// Remarks are the comments that belong to a line.
type Remarks struct {
	Above  []string // comment lines above it, with their #
	Behind string   // comment behind it on the same line, with its #
}

// Key says which wire a line speaks of.
type Key struct {
	Circuit, From, To string // the circuit's key; terminals as the model names them
	Ordinal           int    // 1, or 2, 3 … where several wires share both ends
}

// Wire is one line on a wire.
type Wire struct {
	Key
	State      harness.KeptState
	Name       string
	Gauge      unit.Gauge
	Insulation string
	Base       string // colour letters
	Tracer     string
	Length     unit.Millimetre // as cut
	Imperial   bool            // the length is written in inches
	Sleeves    []string        // names of wires that look alike where they meet, by choice: number sleeves tell them apart
	Remarks
	Line int // where it stands in the text, from 1; 0 when it was made
}

// Fuse is one line on a fuse, breaker or panel position.
type Fuse struct {
	Name   string // MF1, FP.3
	State  harness.KeptState
	Rating unit.Ampere
	Body   string
	Remarks
	Line int
}

// Sorted puts the lines into the order in which they are written: by circuit and
// ends, fuses by name, so that two people's changes meet only where they concern
// the same wire.
func (r Record) Sorted() Record {
	r.Wires, r.Fuses = slices.Clone(r.Wires), slices.Clone(r.Fuses)
	slices.SortStableFunc(r.Wires, func(a, b Wire) int { return a.Compare(b.Key) })
	slices.SortStableFunc(r.Fuses, func(a, b Fuse) int { return cmp.Compare(a.Name, b.Name) })
	return r
}

// Compare orders keys by circuit, ends and ordinal.
func (k Key) Compare(o Key) int {
	return cmp.Or(cmp.Compare(k.Circuit, o.Circuit), cmp.Compare(k.From, o.From), cmp.Compare(k.To, o.To), cmp.Compare(k.Ordinal, o.Ordinal))
}
