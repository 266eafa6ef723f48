// Package check turns a description into the model: names are resolved, kinds
// become terminals and elements, legs become wires, and everything that cannot
// be meant is a problem with its place. In: the description exactly as written.
// Out: the model (nil when a problem of level error was found) and all problems.
package check

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/check/pack"
	"example.com/loomfolio/sizing/check/practice"
	"example.com/loomfolio/sizing/check/say"
	"example.com/loomfolio/sizing/check/state"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/record"
	"example.com/loomfolio/sizing/source"
)

// Check resolves a description. The model is nil when there are errors.
func Check(d *describe.Description) (*harness.Harness, source.Problems) {
	return Against(d, nil)
}

// Against resolves a description whose choices were kept before: what the record
// holds of each wire and fuse stands beside it in the model, and wires keep their
// names. A nil record is none.
func Against(d *describe.Description, kept *record.Record) (*harness.Harness, source.Problems) {
	c := newChecker(d)
	c.kept = kept
	for _, stage := range []func(){
		c.info, c.practice, c.places, c.runs, c.parts, c.circuits, c.systems, c.units,
		c.keep, c.bodies, c.nameWires, c.labelRoom, c.earth, c.packs, c.ends, c.states, c.measured, c.accept,
	} {
		stage()
	}
	if c.Problems.HasErrors() {
		return nil, c.Problems.Sorted()
	}
	if err := c.h.Verify(); err != nil {
		c.Problems = append(c.Problems, source.Problem{Slug: "internal", Summary: err.Error(), Detail: "this is a fault of the program, not of the description"})
		return nil, c.Problems.Sorted()
	}
	return c.h, c.Problems.Sorted()
}

func (c *checker) practice() {
	var found source.Problems
	c.h.Practice, found = practice.Of(c.d.Practice, c.h.Sheet)
	c.Take(found)
}

func (c *checker) states() {
	var found source.Problems
	c.h.States, found = state.Of(c.d.States, c.h, c.badPart)
	c.Take(found)
}

// packs shares the system's voltage among batteries in series.
func (c *checker) packs() {
	given := map[string]pack.Given{}
	for i := range c.d.Parts {
		w := &c.d.Parts[i]
		given[w.Key.Text] = pack.Given{EMF: w.EMF.Given(), Inner: w.Inner.Given()}
	}
	c.Take(pack.Share(c.h, func(id harness.PartID) pack.Given { return given[c.h.Parts[id].Ref] }))
}

// accept takes over what is accepted, one entry a name. Which finding is meant is seen once all are there.
func (c *checker) accept() {
	for _, a := range c.d.Accept {
		one := harness.Accept{Finding: strings.ReplaceAll(strings.ToLower(a.Finding.Text), " ", "-"), Because: a.Because.Text, Span: a.Finding.Span}
		if len(a.At) == 0 {
			c.h.Accept = append(c.h.Accept, one)
		}
		for _, w := range a.At {
			one.At, one.AtSpan = w.Text, w.Span
			c.h.Accept = append(c.h.Accept, one)
		}
	}
}

func (c *checker) labelRoom() { c.Take(practice.LabelRoom(c.h)) }

// checker carries the model while it grows.
type checker struct {
	say.Report
	d *describe.Description
	h *harness.Harness

	placeBy   map[string]harness.PlaceID
	partBy    map[string]harness.PartID
	termBy    map[string]harness.TerminalID // by Full name
	stops     []*describe.Stop              // by WireID: where it arrives
	wiresAt   map[harness.TerminalID][]harness.WireID
	stopNames map[string][]string     // by part: what stops call its terminals
	openBuses map[harness.PartID]bool // parts whose terminals are named by their stops
	wireNamed map[harness.WireID]read.Word
	made      []makes                 // the parts as they were made, to be made again on another side
	breaks    map[harness.PartID]int  // relays of which it is said that 87a is hidden: where among the problems
	unread    map[harness.PartID]bool // parts of legs that could not be read: what they lack may be there
	openNames map[string]bool         // stops that name an end nobody has traced, without blanks
	badPart   map[string]bool         // parts that were written wrongly: their stops raise no second problem
	kept      *record.Record          // nil where there is none
	was       record.Was
}

// digest is that of the description's bytes; where it includes files, of all bytes of all of
// them, each with its name and length, and of the chosen variant's name.
func digest(d *describe.Description) string {
	sum := sha256.New()
	sum.Write(d.File.Text)
	for _, in := range d.File.Included {
		fmt.Fprintf(sum, "\x00%s\x00%d\x00", in.Path, len(in.Text))
		sum.Write(in.Text)
	}
	if d.Variant != "" {
		fmt.Fprintf(sum, "\x00%s", d.Variant)
	}
	return hex.EncodeToString(sum.Sum(nil))
}

func newChecker(d *describe.Description) *checker {
	return &checker{
		d: d,
		h: &harness.Harness{
			File: d.File, Digest: digest(d),
			Terminals: []harness.Terminal{{ID: harness.Chassis, Part: harness.None, Name: "chassis", Full: "chassis"}},
		},
		placeBy:   map[string]harness.PlaceID{},
		partBy:    map[string]harness.PartID{},
		termBy:    map[string]harness.TerminalID{},
		wiresAt:   map[harness.TerminalID][]harness.WireID{},
		stopNames: map[string][]string{},
		openBuses: map[harness.PartID]bool{},
		wireNamed: map[harness.WireID]read.Word{},
		breaks:    map[harness.PartID]int{},
		unread:    map[harness.PartID]bool{},
		badPart:   map[string]bool{},
		was:       record.Was{Terminals: map[harness.TerminalID]string{}, Parts: map[harness.PartID]string{}},
	}
}
