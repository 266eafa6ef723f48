package sizing_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/result"
)

// A line "#! state NAME: THIS, THAT" says what is seen in a state:
//
//	LOAD 13.6 V        across a load, coil or resistor, to 0.15 V; PART.TERMINAL against battery negative
//	LOAD 5.1 A         through it, to 3 %
//	LOAD off           less than a hundredth of what it is described to take
//	RELAY holds, rests its coil is energised, or not
//	CONTACT open       of a switch or relay, as SW.1-2; or closed
//	MOTOR brakes       turned by hand it gives its current through what joins its ends; or coasts
//
// "state NAME with SWITCH POSITION with …" has other switch positions than declared, and "state NAME
// after OTHER" begins with the relays that the other leaves energised.

// showing is one such line.
type showing struct {
	states [][]string // the state, then those before it: name, then switch, position …
	seen   []string
}

var (
	stateLine = regexp.MustCompile(`^state ([^:]+): (.+)$`)
	voltsSeen = regexp.MustCompile(`^(\S+) (-?[0-9.]+) (V|A)$`)
	otherSeen = regexp.MustCompile(`^(\S+) (off|holds|rests|open|closed|brakes|coasts)$`)
)

func readShowing(m []string) showing {
	var s showing
	for _, state := range strings.Split(m[1], " after ") {
		var words []string
		for i, part := range strings.Split(state, " with ") {
			if i > 0 {
				words = append(words, strings.Fields(part)...)
			} else {
				words = append(words, part)
			}
		}
		s.states = append(s.states, words)
	}
	s.seen = strings.Split(m[2], ", ")
	return s
}

// seen holds what is said of states against the solver, with the chosen wires and fuses.
func seen(t *testing.T, h *harness.Harness, r *result.Result, shown []showing) {
	for _, s := range shown {
		v := view{t: t, h: h, r: r}
		for _, state := range slices.Backward(s.states) {
			v.enter(state)
		}
		for _, what := range s.seen {
			v.holds(what)
		}
	}
}

// view is a harness in one state.
type view struct {
	t       *testing.T
	h       *harness.Harness
	r       *result.Result
	index   int
	now     *harness.Harness // with the state's own switch positions
	options network.Options
	state   network.State
}

// enter solves a state with the relays that the one before left energised.
func (v *view) enter(words []string) {
	v.index = slices.IndexFunc(v.h.States, func(s harness.State) bool { return s.Name == words[0] })
	require.GreaterOrEqual(v.t, v.index, 0, "a state %s", words[0])
	require.Equal(v.t, 1, len(words)%2, "%v: a switch and its position", words)
	now := *v.h
	now.States = slices.Clone(v.h.States)
	now.States[v.index].Position = slices.Clone(now.States[v.index].Position)
	for i := 1; i < len(words); i += 2 {
		p := slices.IndexFunc(v.h.Parts, func(p harness.Part) bool { return p.Ref == words[i] })
		require.GreaterOrEqual(v.t, p, 0, words[i])
		position := slices.Index(v.h.Parts[p].Positions, words[i+1])
		require.GreaterOrEqual(v.t, position, 0, "%s has a position %s", words[i], words[i+1])
		now.States[v.index].Position[p] = position
	}
	v.now, v.state = &now, v.solved(&now, v.options)
	v.options.Held = nil
	for i, on := range v.state.Energised {
		if on {
			v.options.Held = append(v.options.Held, harness.ElementID(i))
		}
	}
}

func (v *view) solved(h *harness.Harness, o network.Options) network.State {
	s, err := network.Solve(h, v.index, v.r.States[v.index].Resistances(), o)
	require.NoError(v.t, err)
	return s
}

func (v *view) holds(what string) {
	var m []string
	where := fmt.Sprintf("in %s: %s", v.state.Name, what)
	if match(voltsSeen, what, &m) {
		expected, err := strconv.ParseFloat(m[2], 64)
		require.NoError(v.t, err)
		if m[3] == "V" {
			assert.InDelta(v.t, expected, v.volts(m[1]), 0.15, where)
		} else {
			assert.InEpsilon(v.t, expected, v.state.Amps[v.element(m[1]).ID], 0.03, where)
		}
		return
	}
	require.True(v.t, match(otherSeen, what, &m), "%q says nothing that is known", what)
	switch m[2] {
	case "off":
		e := v.element(m[1])
		require.Less(v.t, math.Abs(v.state.Amps[e.ID]), 0.01*float64(e.Amps), where)
	case "holds", "rests":
		require.Equal(v.t, m[2] == "holds", v.state.Energised[v.element(m[1]+".coil").ID], where)
	case "open", "closed":
		require.Equal(v.t, m[2] == "closed", v.closed(v.element(m[1])), where)
	case "brakes", "coasts":
		v.turned(m[1], m[2] == "brakes", where)
	}
}

// element finds an element by its name; a contact by its terminals in either order.
func (v *view) element(name string) *harness.Element {
	part, ends, _ := strings.Cut(name, ".")
	one, other, _ := strings.Cut(ends, "-")
	turned := part + "." + other + "-" + one
	i := slices.IndexFunc(v.h.Elements, func(e harness.Element) bool { return e.Name == name || e.Name == turned })
	require.GreaterOrEqual(v.t, i, 0, "there is no %s", name)
	return &v.h.Elements[i]
}

// volts are those across an element, or of a terminal; a meter draws what floats down to nothing.
func (v *view) volts(name string) float64 {
	if i := slices.IndexFunc(v.h.Terminals, func(t harness.Terminal) bool { return t.Full == name }); i >= 0 {
		if math.IsNaN(v.state.Volts[i]) {
			return 0
		}
		return v.state.Volts[i]
	}
	e := v.element(name)
	return v.state.Volts[e.A] - v.state.Volts[e.B]
}

func (v *view) closed(e *harness.Element) bool {
	switch c := e.When; c.Kind {
	case harness.InPosition:
		return slices.Contains(c.Positions, v.now.States[v.index].Position[c.Switch])
	case harness.Energised:
		return v.state.Energised[c.Coil]
	case harness.Released:
		return !v.state.Energised[c.Coil]
	}
	return true
}

// turned holds what a motor does that is turned from outside, as a source of 6 V behind 1 Ω:
// joined at its ends it gives 6 A and brakes, else nothing.
func (v *view) turned(motor string, brakes bool, where string) {
	e := v.element(motor)
	o := v.options
	o.Turning = []network.Source{{Element: e.ID, Volts: 6, Ohms: 1}}
	amps := math.Abs(v.solved(v.now, o).Amps[e.ID])
	if brakes {
		require.Greater(v.t, amps, 5.0, where)
	} else {
		require.Less(v.t, amps, 0.1, where)
	}
}
