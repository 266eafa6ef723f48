// Package outage is what a fault takes away, plain, for all who read it.
package outage

import "example.com/loomfolio/sizing/harness"

// Outage is what stops without a fuse. Loads stand by the names of their elements, each once.
type Outage struct {
	Stops  []string // without supply at once
	Shared bool     // the fuse is one of several supplies: nothing stops, and Stops and Drops are what it feeds and works
	Drops  []Drop   // relays that drop out, in the order in which they do
}

// Drop is a relay that drops out, with the loads that lose their way over its contact
// and did not stop before; it may be none.
type Drop struct {
	Relay harness.PartID
	Loads []string
}

// Behind are all loads that stop as relays drop out.
func (o Outage) Behind() []string {
	var loads []string
	for _, d := range o.Drops {
		loads = append(loads, d.Loads...)
	}
	return loads
}
