package check

import (
	"fmt"

	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
)

// jumps tells whether two neighbouring stops on one part are joined by a wire outside it:
// where the second says something about a wire, or where nothing inside joins them and a
// jumper is what is meant.
func (c *checker) jumps(from, to halt, said *describe.Stop) bool {
	if from.bare || to.bare || from.leave == to.arrive {
		return false
	}
	p := &c.h.Parts[from.part]
	return saysWire(said) || !c.joined(p, from.leave, to.arrive) && c.usual(p, from.leave, to.arrive)
}

// saysWire tells a stop that says something about the wire that arrives there.
func saysWire(s *describe.Stop) bool {
	return s.Existing.Given() || s.Length.Given() || s.Gauge.Given() || s.Colour.Given() || s.Found.Given() || s.Insulation.Given() || len(s.Via) > 0 || s.Beside ||
		s.Twist.Given() || s.Screen.Given() || s.Cable.Given() || s.Name.Given()
}

// usual tells the jumpers that every shop knows: from a relay's 30 to its coil, and between
// two feeds of a fuse panel.
func (c *checker) usual(p *harness.Part, a, z harness.TerminalID) bool {
	from, to := c.h.Terminals[a].Name, c.h.Terminals[z].Name
	switch p.Kind {
	case harness.Relay:
		coil := func(name string) bool { return name == "85" || name == "86" }
		return from == "30" && coil(to) || coil(from) && to == "30"
	case harness.FusePanel:
		return p.Panel != nil && isFeed(p.Panel, from) && isFeed(p.Panel, to)
	}
	return false
}

func isFeed(panel *harness.Panel, name string) bool {
	for _, f := range panel.Feeds {
		if f.Name == name {
			return true
		}
	}
	return false
}

// wayInstead says what would be right where nothing in a part leads from one of its
// terminals to another.
func (c *checker) wayInstead(p *harness.Part, a, z harness.TerminalID, said *describe.Stop) string {
	wire := fmt.Sprintf("where a wire from one to the other is meant, say its length: {to: %s, length: %s}", said.To.Text, c.short())
	if p.Kind == harness.Relay {
		return "coil (85, 86) and contacts (30, 87) do not touch inside: end this leg at the coil and begin another at the contact; " + wire
	}
	return "name two terminals that a contact, winding or load of the part lies between; " + wire
}

// short is the length of a jumper as an example shows it, in the sheet's units.
func (c *checker) short() string {
	if c.h.Sheet.Imperial {
		return `2 1/2"`
	}
	return "60 mm"
}

// across refuses a wire straight across what lies between two terminals of one part: it
// would take a load's, a fuse's or a contact's place.
func (c *checker) across(from, to halt, said *describe.Stop) {
	for _, id := range c.h.Parts[from.part].Elements {
		e := &c.h.Elements[id]
		if e.Kind == harness.Join || e.Kind == harness.Open || (e.A != from.leave || e.B != to.arrive) && (e.B != from.leave || e.A != to.arrive) {
			continue
		}
		c.Fail("wire-across-part", said.To.Span, "what is said of a wire stands at the stop where it arrives, on another part; leave it out here to pass through",
			"a wire from %s to %s would bridge %s", c.h.Terminals[from.leave].Full, c.h.Terminals[to.arrive].Full, e.Name)
		return
	}
}
