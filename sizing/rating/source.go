// Package rating holds the figures of the trade as tables, each row with its
// source: conductors, insulation, currents, fuses, terminals, pull-out forces,
// shrink, studs. Tables are embedded CSV files with units in the header.
package rating

// Status says how a source was come by.
type Status string

// The states of a source.
const (
	Read           Status = "read"
	FromMemory     Status = "from memory"
	CommonPractice Status = "common practice"
)

// Source is one document that a figure rests on.
type Source struct {
	Key    string // "iso-6722"
	Title  string // "ISO 6722, resistances as printed in makers' data"
	Status Status
}
