package tolerance

import (
	"math"
	"slices"

	"example.com/loomfolio/sizing/circuit"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

const (
	bent  = 1.0 / 16 // of what the slopes give, for what is not straight; judgement, not published
	digit = 0.01     // V: of a meter of 3 1/2 digits on its 20 V range
	fine  = 0.001    // V and A: of its 2 V range, and of its 2 A range
)

// Limits gives worst cases in one solved state. One Limits must not be used by several
// goroutines at once.
type Limits struct {
	spans   []Span
	corners []corner // solved; the first is as described
}

// corner is the state solved with other figures.
type corner struct {
	network  circuit.Network
	solution circuit.Solution
	gains    *circuit.Gains // nil where its slopes are not asked
	pushes   []push         // by span
}

// Range is the lowest and the highest of a reading, and what it is as described.
type Range struct{ Is, Low, High float64 }

// New solves the corners of a state. A corner in which a relay stands otherwise than it
// should is passed over: there the vehicle does not work, which a finding tells. The error
// is one of the solver.
func New(h *harness.Harness, s *network.State, cold []float64) (*Limits, error) {
	l := &Limits{spans: Spans(h, s, cold)}
	corners := []At{described, weak, heavy, strong}
	if charges(s) {
		corners = append(corners, l.charge(s))
	}
	for i, at := range corners {
		c, err := l.corner(s.Network, at)
		if err != nil && i == 0 {
			return nil, err
		}
		if err == nil && (i == 0 || slices.Equal(c.solution.Energised, l.corners[0].solution.Energised)) {
			l.corners = append(l.corners, c)
		}
	}
	l.stands()
	for i := range l.corners {
		if c := &l.corners[i]; c.gains != nil {
			c.push(&l.corners[0].network, l.spans)
		}
	}
	return l, nil
}

// stands adds a span for each battery that may rest: its posts stand anywhere between its
// own volts and the charging ones, as the corners show.
func (l *Limits) stands() {
	for k, e := range l.corners[0].network.Elements {
		if e.Kind != circuit.Source || e.Idle <= e.Volts {
			continue
		}
		s := Setting{Element: k, Figure: Stands, Low: math.Inf(1), High: math.Inf(-1)}
		for i := range l.corners {
			v := l.corners[i].across(k)
			s.Low, s.High = min(s.Low, v), max(s.High, v)
		}
		s.Is = l.corners[0].across(k)
		if !math.IsNaN(s.Is) {
			l.spans = append(l.spans, Span{s})
		}
	}
}

// across is the voltage across an element.
func (c *corner) across(element int) float64 {
	e := &c.network.Elements[element]
	return c.solution.Volts[e.A] - c.solution.Volts[e.B]
}

// At says where in its span a setting lies: -1 at Low, 0 as described, 1 at High.
type At func(Setting) float64

func described(Setting) float64 { return 0 }

// weak: sources low, ways bad, loads heavy.
func weak(s Setting) float64 {
	switch {
	case s.Figure == Ohms && !s.Draws, s.Figure == Amps && s.Draws:
		return 1
	}
	return -1
}

func strong(s Setting) float64 { return -weak(s) }

// heavy: all that makes currents large.
func heavy(s Setting) float64 {
	if s.Figure == Ohms {
		return -1
	}
	return 1
}

// charges tells a state in which one source may charge another: several batteries, and the
// engine runs.
func charges(s *network.State) bool {
	batteries, running := 0, false
	for k := range s.Network.Elements {
		e := &s.Network.Elements[k]
		batteries += btoi(e.Kind == circuit.Source)
		running = running || e.Kind == circuit.Limited || e.Idle > 0
	}
	return batteries > 1 && running
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// charge is the corner with most current into batteries: charging volts high, batteries
// low, ways good.
func (l *Limits) charge(s *network.State) At {
	return func(x Setting) float64 {
		if e := &s.Network.Elements[x.Element]; x.Figure == Volts && e.Kind == circuit.Limited || x.Figure == Amps && !x.Draws {
			return 1
		}
		return -1
	}
}

// Set is a network with its figures set within their spans.
func Set(n circuit.Network, spans []Span, at func(span int, s Setting) float64) circuit.Network {
	n.Elements = slices.Clone(n.Elements)
	for i, span := range spans {
		for _, s := range span {
			if x := figure(&n.Elements[s.Element], s.Figure); x != nil {
				*x = s.between(*x, at(i, s))
			}
		}
	}
	return n
}

func figure(e *circuit.Element, f Figure) *float64 {
	switch f {
	case Ohms:
		return &e.Ohms
	case Volts:
		return &e.Volts
	case Amps:
		return &e.Amps
	case Idle:
		return &e.Idle
	}
	return nil
}

// between gives a figure that is as described at 0, Low at -1 and High at 1.
func (s Setting) between(is, at float64) float64 {
	if at < 0 {
		return is + (is-s.Low)*at
	}
	return is + (s.High-is)*at
}

func (l *Limits) corner(n circuit.Network, at At) (corner, error) {
	c := corner{network: Set(n, l.spans, func(_ int, s Setting) float64 { return at(s) })}
	p, err := circuit.Prepare(c.network)
	if err != nil {
		return c, err
	}
	if c.solution, err = p.Solve(); err != nil {
		return c, err
	}
	c.gains, err = p.Gains(c.solution)
	return c, err
}

// Node is the range of a node's volts; NaN where nothing defines them.
func (l *Limits) Node(n int) Range {
	zero := l.corners[0].solution.Zero[n]
	if zero < 0 {
		return Range{math.NaN(), math.NaN(), math.NaN()}
	}
	return l.around(n, zero, l.volts(n, zero), nil, digit)
}

// volts reads the volts of a against b at a corner.
func (l *Limits) volts(a, b int) func(*corner) float64 {
	return func(c *corner) float64 { return c.solution.Volts[a] - c.solution.Volts[b] }
}

// Across is the range of the volts of a against b, which must be joined.
func (l *Limits) Across(a, b int) Range {
	return l.around(a, b, l.volts(a, b), nil, fine)
}

// Amps is the range of an element's current, A to B.
func (l *Limits) Amps(element int) Range {
	e := &l.corners[0].network.Elements[element]
	return l.around(e.A, e.B, func(c *corner) float64 { return c.solution.Amps[element] }, &element, fine)
}

// around adds up what each span does to a reading, and the least that a meter tells, and
// takes the solved corners in.
func (l *Limits) around(a, b int, read func(*corner) float64, element *int, least float64) Range {
	r := Range{Is: read(&l.corners[0])}
	if a == b || math.IsNaN(r.Is) {
		return Range{r.Is, r.Is, r.Is}
	}
	down, up := l.sum(a, b, element)
	r.Low, r.High = r.Is+down*(1+bent)-least, r.Is+up*(1+bent)+least
	for i := range l.corners {
		v := read(&l.corners[i])
		r.Low, r.High = min(r.Low, v-least), max(r.High, v+least)
	}
	return r
}

// sum adds what the spans take from a reading and add to it, by the slopes of the corner
// where that is most.
func (l *Limits) sum(a, b int, element *int) (down, up float64) {
	for i := range l.corners {
		if c := &l.corners[i]; c.gains != nil && c.gains.Joined(a, b) {
			low, high := c.moves(c.gains.Of(a, b), element)
			down, up = min(down, low), max(up, high)
		}
	}
	return down, up
}

// moves adds how far the spans move a reading from what is described, by the slopes at a
// corner; z are the volts by node for an ampere through the reading. Where a figure raises
// the current through its own element by dI at unchanged volts the network answers with
// -dI times the volts that z has across that element.
func (c *corner) moves(z []float64, element *int) (down, up float64) {
	factor, own := 1.0, int32(-1)
	if element != nil {
		factor, own = c.gains.Slope(*element), int32(*element)
	}
	low, high := 0.0, 0.0
	for _, p := range c.pushes {
		by := (z[p.b] - z[p.a]) * factor
		if p.element == own {
			by++
		}
		low, high = low+by*p.low, high+by*p.high
		if p.last {
			down, up = down+min(0, low, high), up+max(0, low, high)
			low, high = 0, 0
		}
	}
	return down, up
}

// push is what a setting does to its own element's current at unchanged volts, at either
// end of its span, A.
type push struct {
	element, a, b int32
	last          bool // of its span
	low, high     float64
}

// push lists the pushes of a corner, by span.
func (c *corner) push(nominal *circuit.Network, spans []Span) {
	for _, span := range spans {
		from := len(c.pushes)
		for _, s := range span {
			rise := c.rise(s)
			if rise == 0 {
				continue
			}
			e, is := nominal.Elements[s.Element], s.Is
			if x := figure(&e, s.Figure); x != nil {
				is = *x
			}
			c.pushes = append(c.pushes, push{int32(s.Element), int32(e.A), int32(e.B), false, rise * (s.Low - is), rise * (s.High - is)})
		}
		if len(c.pushes) > from {
			c.pushes[len(c.pushes)-1].last = true
		}
	}
}

// rise is how an element's current rises with one of its figures, its volts unchanged.
func (c *corner) rise(s Setting) float64 {
	e, amps, slope := &c.network.Elements[s.Element], c.solution.Amps[s.Element], c.gains.Slope(s.Element)
	rests := e.Kind == circuit.Source && e.Idle > e.Volts
	switch {
	case s.Figure == Ohms && slope > 0:
		return -amps / e.Ohms
	case s.Figure == Amps && e.Kind == circuit.Limited && slope == 0:
		return -1
	case s.Figure == Amps && e.Kind != circuit.Limited:
		return amps / e.Amps
	case s.Figure == Volts && !rests, s.Figure == Stands:
		return -slope
	}
	return 0
}
