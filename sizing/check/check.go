// Package check turns a description into the model: names are resolved, kinds
// become terminals and elements, legs become wires, and everything that cannot
// be meant is a problem with its place. In: the description exactly as written.
// Out: the model (nil when a problem of level error was found) and all problems.
//
// The customary terminals follow DIN 72552. Figures that a part has unless the
// description gives them stand in defaults.go with their source.
package check

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"

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
		c.info, c.practice, c.places, c.runs, c.parts, c.circuits, c.units,
		c.keep, c.nameWires, c.labelRoom, c.earth, c.ends, c.states,
	} {
		stage()
	}
	if c.problems.HasErrors() {
		return nil, c.problems.Sorted()
	}
	if err := c.h.Verify(); err != nil {
		c.problems = append(c.problems, source.Problem{Slug: "internal", Summary: err.Error(), Detail: "this is a fault of the program, not of the description"})
		return nil, c.problems.Sorted()
	}
	return c.h, c.problems.Sorted()
}

// checker carries the model while it grows.
type checker struct {
	d        *describe.Description
	h        *harness.Harness
	problems source.Problems

	placeBy   map[string]harness.PlaceID
	partBy    map[string]harness.PartID
	termBy    map[string]harness.TerminalID // by Full name
	written   []*describe.Part              // by PartID
	stops     []*describe.Stop              // by WireID: where it arrives
	wiresAt   map[harness.TerminalID][]harness.WireID
	openBuses map[harness.PartID]bool // parts whose terminals are named by their stops
	wireNamed map[harness.WireID]read.Word
	termSpan  map[harness.TerminalID]source.Span // first mention in a leg
	badPart   map[string]bool                    // parts that were written wrongly: their stops raise no second problem
	kept      *record.Record                     // nil where there is none
	was       record.Was
}

func newChecker(d *describe.Description) *checker {
	sum := sha256.Sum256(d.File.Text)
	return &checker{
		d:         d,
		h:         &harness.Harness{File: d.File, Digest: hex.EncodeToString(sum[:])},
		placeBy:   map[string]harness.PlaceID{},
		partBy:    map[string]harness.PartID{},
		termBy:    map[string]harness.TerminalID{},
		wiresAt:   map[harness.TerminalID][]harness.WireID{},
		openBuses: map[harness.PartID]bool{},
		wireNamed: map[harness.WireID]read.Word{},
		termSpan:  map[harness.TerminalID]source.Span{},
		badPart:   map[string]bool{},
		was:       record.Was{Terminals: map[harness.TerminalID]string{}, Parts: map[harness.PartID]string{}},
	}
}

func (c *checker) report(level source.Level, slug string, at source.Span, detail, format string, args ...any) *source.Problem {
	c.problems = append(c.problems, source.Problem{
		Slug: slug, Level: level, Span: at, Summary: fmt.Sprintf(format, args...), Detail: detail,
	})
	return &c.problems[len(c.problems)-1]
}

func (c *checker) fail(slug string, at source.Span, detail, format string, args ...any) *source.Problem {
	return c.report(source.Error, slug, at, detail, format, args...)
}

// unknown reports a name that nothing has, with the nearest that something has.
func (c *checker) unknown(slug, what string, w read.Word, names []string) {
	detail := fmt.Sprintf("known here: %s", listed(names))
	if near := source.Nearest(w.Text, names); near != "" {
		detail = fmt.Sprintf("did you mean %s? (%s)", near, detail)
	}
	if len(names) == 0 {
		detail = fmt.Sprintf("the description names no %s at all", what)
	}
	c.fail(slug, w.Span, detail, "no %s is called %q", what, w.Text)
}

// listed joins names for a message, cut after a dozen.
func listed(names []string) string {
	const most = 12
	out := ""
	for i, n := range names {
		if i == most {
			return out + fmt.Sprintf(" and %d more", len(names)-most)
		}
		if i > 0 {
			out += ", "
		}
		out += n
	}
	return out
}
