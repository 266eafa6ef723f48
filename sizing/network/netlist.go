package network

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strings"

	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/harness"
)

// SpiceNodes gives the netlist's number of each node: 0 for the reference and for
// what is at 0 V in an island of its own (joined at one node alone, islands
// exchange nothing), counting up in order, -1 for floating nodes.
func SpiceNodes(s State) []int {
	out := make([]int, s.Network.Nodes)
	next := 1
	for n := range out {
		switch {
		case n == s.Solution.Zero[n]:
			out[n] = 0
		case math.IsNaN(s.Solution.Volts[n]):
			out[n] = -1
		default:
			out[n] = next
			next++
		}
	}
	return out
}

// branch is a part of its voltage below which a load of constant power is printed
// as one of constant current.
const branch = 0.9

// Netlist prints a solved state for a circuit simulator that reads SPICE: every
// element as it stands in the solution, linear, so that the simulator's voltages
// must be those of the state. Only loads of constant power and the inputs of converters, where they have
// the voltage for it, stand there by their own law, as sources whose current follows
// the voltage (B), which the simulator solves itself. Comments map numbers to
// terminals; what floats is left out and listed. The control section prints all
// voltages to 15 digits.
func Netlist(w io.Writer, h *harness.Harness, s State) error {
	n := &netlist{w: bufio.NewWriter(w), h: h, s: &s, number: SpiceNodes(s)}
	n.line("%s, state %s: solved network, each element as it stands", oneLine(h.Info.Title), oneLine(s.Name))
	n.nodes()
	for i := range s.Network.Elements {
		n.element(i)
	}
	n.options()
	n.line(".control\nset numdgt=15\nop\nprint all\nquit\n.endc\n.end")
	return n.w.Flush()
}

// netlist is one being printed; a failed write shows at the flush.
type netlist struct {
	w      *bufio.Writer
	h      *harness.Harness
	s      *State
	number []int
}

func (n *netlist) line(format string, args ...any) {
	fmt.Fprintf(n.w, format+"\n", args...)
}

func (n *netlist) nodes() {
	terminals := make([][]string, len(n.number))
	for t, node := range n.s.Of {
		if node >= 0 {
			terminals[node] = append(terminals[node], oneLine(n.h.Terminals[t].Full))
		}
	}
	for node, list := range terminals {
		if len(list) == 0 {
			list = []string{oneLine(n.s.NodeNames[node])}
		}
		names := strings.Join(list, ", ")
		if n.number[node] < 0 {
			n.line("* floating, left out: %s", names)
		} else {
			n.line("* node %d: %s", n.number[node], names)
		}
	}
}

// element prints one element with a comment that names it.
func (n *netlist) element(i int) {
	e, p := &n.s.Network.Elements[i], n.s.Elements[i]
	a, b := n.number[e.A], n.number[e.B]
	name := fmt.Sprintf("%d_%s", i, plain(p.Name))
	said := fmt.Sprintf("* %s (%s)", oneLine(p.Name), p.Note)
	f := n.s.Solution.Frozen[i]
	switch {
	case f.Form == circuit.IsOpen:
		n.line("%s: open", said)
	case a < 0 || b < 0:
		n.line("%s: floating, left out", said)
	case a == b:
		n.line("%s: both ends on node %d, left out", said, a)
	case e.Kind == circuit.Intake && f.Form == circuit.IsCurrent:
		n.line("%s\nB%s %d %d I = (%s/%.17g + %.17g)/max(V(%d,%d), %.17g)", said, name, a, b, n.given(e.Control), e.Efficiency, e.Standing, a, b, n.least(e))
	case n.byPower(i):
		n.line("%s\nB%s %d %d I = %.17g/max(V(%d,%d), %.17g)", said, name, a, b, e.Amps*e.AtVolts, a, b, n.least(e))
	case f.Form == circuit.IsResistance:
		n.line("%s\nR%s %d %d %.17g", said, name, a, b, f.Ohms)
	case f.Form == circuit.IsCurrent:
		n.line("%s\nI%s %d %d DC %.17g", said, name, a, b, f.Amps)
	case f.Form == circuit.IsVoltage:
		n.line("%s\nR%s %d x%d %.17g\nV%s x%d %d DC %.17g", said, name, a, i, f.Ohms, name, i, b, f.Volts)
	}
}

// least is a voltage under that of a load of constant power, and above the other
// one at which its feed would give the same power: the simulator begins at 0 V,
// and would take that.
func (n *netlist) least(e *circuit.Element) float64 {
	v := n.s.Solution.Volts
	return max(e.Floor, branch*(v[e.A]-v[e.B]))
}

// given is the power that the output of a converter gives, as a formula of its voltage and
// of the current of its source.
func (n *netlist) given(i int) string {
	e := &n.s.Network.Elements[i]
	volts := fmt.Sprintf("V(%d,%d)", n.number[e.A], n.number[e.B])
	switch f := n.s.Solution.Frozen[i]; f.Form {
	case circuit.IsVoltage:
		return fmt.Sprintf("max(0, -I(V%d_%s)*%s)", i, plain(n.s.Elements[i].Name), volts)
	case circuit.IsCurrent:
		return fmt.Sprintf("max(0, %.17g*%s)", -f.Amps, volts)
	}
	return "0"
}

// options says how exact the simulator is to be; where it must try, it finds no
// rest within the last digits.
func (n *netlist) options() {
	for i := range n.s.Network.Elements {
		if n.byPower(i) {
			n.line(".options reltol=1e-9 abstol=1e-11 vntol=1e-11 gmin=1e-18 itl1=500 noacct")
			return
		}
	}
	n.line(".options reltol=1e-12 abstol=1e-15 vntol=1e-15 gmin=1e-18 noacct")
}

// byPower tells a load that takes its constant power.
func (n *netlist) byPower(i int) bool {
	e := &n.s.Network.Elements[i]
	return (e.Kind == circuit.Power || e.Kind == circuit.Intake) && n.s.Solution.Frozen[i].Form == circuit.IsCurrent && n.number[e.A] != n.number[e.B]
}

// plain keeps letters, digits and underscores; the rest become underscores.
func plain(name string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9':
			return r
		}
		return '_'
	}, name)
}

// oneLine makes a text safe in a comment.
func oneLine(text string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' {
			return ' '
		}
		return r
	}, text)
}
