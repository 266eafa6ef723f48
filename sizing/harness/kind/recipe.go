package kind

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
)

// Recipe says what lies between the terminals of a kind that is made of plain elements, and
// the positions that it takes: a new kind is a row. A piece of which the part has not both
// terminals is left out, so that its terminals: choose among several makes of one kind.
type Recipe struct {
	Positions string // names parted by blanks, the rest position first; "" for none
	Moves     Mover
	Pieces    []Piece
	Asks      []Ask
	EitherWay bool // its current may flow either way: a motor that is turned both ways
}

// Piece is one element. Its figures stand in the table of parts of package rating.
type Piece struct {
	Is       harness.ElementKind // Load, Contact, Resistance, RelayCoil
	From, To string              // terminals; of a load that names no + the current goes from the one to the other, with plus on the bodywork back
	In       string              // the positions in which it is there, parted by blanks; "": always
	Take     string              // what it is called in the table of parts
	Behaves  harness.Behaviour
	Spare    bool   // a load that is not there where no wire ends at From
	Times    bool   // it takes so many times its figure as plugs: says
	Pulses   bool   // while the engine runs it carries current for the share duty: of the time
	With     string // it is there only where this key is given, behind a ! where it is not; "": always. Its terminals come with it
	Keeps    string // of a contact: the terminal above which it keeps its To at the voltage regulated:
	Words    string // what the circuit is called that feeds it, parted by blanks, to tell two that are crossed
}

// Ask is what is said where a terminal that has to have a wire has none.
type Ask struct{ Terminal, Cure string }

// Mover is who sets the positions of a part where a state does not say.
type Mover string

// The movers.
const (
	ByHand  Mover = ""       // or by heat, pressure, time: like a switch
	Pulsed  Mover = "pulsed" // for a while only: like a button
	WhenFed Mover = "fed"    // it takes its second position while its motor is fed: a park contact
)

// Loads lists the loads of a recipe in the order of its terminals.
func (r *Recipe) Loads() []Piece {
	if r == nil {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(r.Pieces), func(p Piece) bool { return p.Is != harness.Load })
}

// Several tells a kind with loads of which each has a figure of its own: 60/55 W.
func (r Row) Several() bool { return listed(r.Keys, "draws") && len(r.Recipe.Loads()) > 1 }

// MoverOf gives who sets the positions of a kind that has a recipe with positions.
func MoverOf(k harness.Kind) (Mover, bool) {
	r, ok := Of(k)
	if !ok || r.Recipe == nil || r.Recipe.Positions == "" {
		return "", false
	}
	return r.Recipe.Moves, true
}

// Cure is what is said where a terminal has no wire; "" for nothing of its own.
func (r Row) Cure(terminal string) string {
	if r.Recipe == nil {
		return ""
	}
	for _, a := range r.Recipe.Asks {
		if a.Terminal == terminal {
			return a.Cure
		}
	}
	return ""
}

// Numbers lists the positions of a piece as numbers.
func (p Piece) Numbers(positions []string) []int {
	var out []int
	for _, name := range strings.Fields(p.In) {
		if n := slices.Index(positions, name); n >= 0 {
			out = append(out, n)
		}
	}
	return out
}
