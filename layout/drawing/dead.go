package drawing

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

// point is where to measure when a circuit is dead: the terminal, what a meter shows
// there when all is well, and what to look at when it does not.
type point struct {
	terminal harness.TerminalID
	volts    string
	look     []string
}

// mostPoints is how many points a circuit has at most.
const mostPoints = 6

// pointsOf are the points of a circuit in the order in which they are measured: the
// ground of its largest load, that of the relay's coil, then the feed from the source on.
func (s *sheets) pointsOf(j *job) []point {
	if len(s.states) == 0 {
		return nil
	}
	t := tracer{s: s, in: set{}, tagged: set{}, seen: map[harness.TerminalID]bool{}}
	for _, st := range j.strips {
		for _, w := range st.all() {
			t.in[w], t.tagged[w] = true, t.tagged[w] || st.lent.tagged[w]
		}
	}
	var points []point
	if feed, back := t.largest(j); j.power {
		points = t.supply(j)
	} else if feed >= 0 {
		t.ground(back)
		path := t.upstream(feed, 0)
		points = append(t.grounds, path...)
	}
	for len(points) > mostPoints {
		points = joinPoints(points)
	}
	return points
}

// joinPoints leaves out the first point behind a fuse, a switch or a relay, of which the
// next one then tells; where there is none, the point before the last.
func joinPoints(points []point) []point {
	at := slices.IndexFunc(points[:len(points)-1], func(p point) bool {
		return slices.ContainsFunc([]string{"fuse ", "switch ", "relay "}, func(word string) bool { return strings.HasPrefix(p.look[0], word) }) && len(p.look) == 1
	})
	if at < 0 {
		return slices.Delete(points, len(points)-2, len(points)-1)
	}
	points[at+1].look = append(slices.Clone(points[at].look), points[at+1].look...)
	return slices.Delete(points, at, at+1)
}

// tracer follows the wires of a job.
type tracer struct {
	s       *sheets
	in      set
	tagged  set // those that begin at a tag: there the way ends
	seen    map[harness.TerminalID]bool
	grounds []point
}

// largest is the feed and the return of the load of a job that draws most; None for none.
func (t *tracer) largest(j *job) (feed, back harness.TerminalID) {
	feed, back = harness.None, harness.None
	most := 0.0
	for _, e := range t.s.loadElements(j) {
		x := &t.s.h.Elements[e]
		live, earthed := t.s.h.Live(x), t.s.h.Earthed(x)
		if a, _ := t.in.only(t.s.use[max(live, 0)].in); len(a) > 0 && float64(x.Amps) > most {
			most, feed, back = float64(x.Amps), live, earthed
		}
	}
	return feed, back
}

// supply are the points of the supply: the battery's earthed pole, then the longest way
// to the feed of a panel or to a bus.
func (t *tracer) supply(j *job) []point {
	var longest []point
	for _, w := range j.wires {
		x := t.s.h.Wires[w]
		if earthedPole(t.s.h, x.From) {
			t.ground(x.From)
		}
		if p := t.s.h.PartOf(x.To); p != nil && (p.Kind == harness.FusePanel || p.Kind == harness.Bus) {
			t.seen = map[harness.TerminalID]bool{}
			if way := t.upstream(x.To, 0); len(way) > len(longest) {
				longest = way
			}
		}
	}
	return append(t.grounds, longest...)
}

func (t *tracer) point(at harness.TerminalID, look ...string) (point, bool) {
	v := strings.Join(t.s.voltsAt(at), " / ")
	return point{at, v, slices.Compact(look)}, v != "" && len(look) > 0
}

// ground adds the point at a return: what is wrong there is a wire, a joint or the ground.
func (t *tracer) ground(at harness.TerminalID) {
	if at <= 0 {
		return
	}
	var look []string
	for here := at; len(look) < 8; {
		leave, _ := t.in.only(t.s.leaving(here))
		if len(leave) == 0 {
			break
		}
		w := t.s.h.Wires[leave[0]]
		p := t.s.h.PartOf(w.To)
		look = append(look, w.Name)
		if p == nil {
			break
		}
		look = append(look, t.s.stopName(w.To))
		if !isJoint(p) && p.Kind != harness.Strap {
			break
		}
		here = w.To
	}
	if p, ok := t.point(at, look...); ok && !slices.ContainsFunc(t.grounds, func(o point) bool { return o.terminal == at }) {
		t.grounds = append(t.grounds, p)
	}
}

// stopName is how a joint or an end is called: its reference, of a plug with the cavity.
func (s *sheets) stopName(t harness.TerminalID) string {
	if x := s.h.Terminals[t]; x.Cavity != "" {
		return s.h.PartOf(t).Ref + "." + x.Cavity
	}
	return s.h.Terminals[t].Full
}

// upstream gives the points from the source to a terminal.
func (t *tracer) upstream(at harness.TerminalID, depth int) []point {
	if t.seen[at] || depth > 12 {
		return nil
	}
	t.seen[at] = true
	var look []string
	from := at
	for {
		arrive, _ := t.in.only(t.s.arriving(from))
		if len(arrive) == 0 || len(look) > 8 {
			break
		}
		w := t.s.h.Wires[arrive[0]]
		look = append(look, w.Name)
		if t.tagged[w.ID] {
			from = at
			break
		}
		from = w.From
		p := t.s.h.PartOf(from)
		if p == nil || !isJoint(p) {
			break
		}
		look = append(look, t.s.stopName(from))
	}
	var out []point
	if from != at {
		out = t.through(from, depth)
	}
	if p, ok := t.point(at, look...); ok {
		out = append(out, p)
	}
	return out
}

// through gives the points of the device from which a wire comes and of what feeds it.
func (t *tracer) through(at harness.TerminalID, depth int) []point {
	p := t.s.h.PartOf(at)
	if p == nil {
		return nil
	}
	var out []point
	word := ""
	switch p.Kind {
	case harness.FusePanel, harness.Fuse, harness.Breaker:
		word = "fuse " + t.s.h.Terminals[at].Full
		if p.Kind != harness.FusePanel {
			word = "fuse " + p.Ref
		}
	case harness.Relay:
		word = "relay " + p.Ref
	case harness.Switch, harness.IgnitionSwitch, harness.Isolator:
		word = "switch " + p.Ref
	default:
		word = p.Ref
	}
	for _, o := range t.behind(p, at) {
		out = append(out, t.upstream(o, depth+1)...)
	}
	if p.Kind == harness.Relay {
		for _, o := range p.Terminals {
			switch name := t.s.h.Terminals[o].Name; {
			case name == "86" || name == "85":
				if arrive, _ := t.in.only(t.s.use[o].in); len(arrive) > 0 {
					out = append(out, t.upstream(o, depth+1)...)
				} else {
					t.ground(o)
				}
			}
		}
	}
	if q, ok := t.point(at, word); ok {
		out = append(out, q)
	}
	return out
}

// behind are the terminals on the other side of a device's contacts or fuse on which
// wires arrive here.
func (t *tracer) behind(p *harness.Part, at harness.TerminalID) []harness.TerminalID {
	var out []harness.TerminalID
	for _, e := range p.Elements {
		x := &t.s.h.Elements[e]
		if x.Kind != harness.Contact && x.Kind != harness.FuseLink {
			continue
		}
		for _, pair := range [][2]harness.TerminalID{{x.A, x.B}, {x.B, x.A}} {
			if pair[0] != at || pair[1] <= 0 || slices.Contains(out, pair[1]) {
				continue
			}
			if arrive, _ := t.in.only(t.s.use[pair[1]].in); len(arrive) > 0 {
				out = append(out, pair[1])
			}
		}
	}
	return out
}

// footHead begins the line of points.
const footHead = "Dead? Measure in this order:"

// footLeads is the distance of the lines of points, mm.
const footLeads = 4.1

// footLines breaks the points into lines of a width.
func (s *sheets) footLines(b *block, wide float64) [][]point {
	if len(b.points) == 0 {
		return nil
	}
	lines := [][]point{nil}
	used := typeface.Width(footHead, sheet.Bold, sheet.SizeBody) + pointGap
	for _, p := range b.points {
		w := s.pointWide(p)
		last := len(lines) - 1
		if used+w > wide && used > 0 {
			lines, used = append(lines, nil), 0
			last++
		}
		lines[last] = append(lines[last], p)
		used += w + pointGap
	}
	return lines
}

const pointGap = 5.0

func (s *sheets) pointWide(p point) float64 {
	return typeface.Width(s.h.Terminals[p.terminal].Full+"  "+p.volts, sheet.Bold, sheet.SizeBody) + typeface.Width(" no → "+strings.Join(p.look, ", "), sheet.Regular, sheet.SizeBody)
}

func (s *sheets) footHigh(b *block, wide float64) float64 {
	if n := len(s.footLines(b, wide)); n > 0 {
		return footAir + footLeads*float64(n)
	}
	return 0
}

// foot sets the points under a block.
func (s *sheets) foot(c *sheet.Canvas, b *block, x, y, wide float64) {
	for i, line := range s.footLines(b, wide) {
		at := x
		base := y + footAir + footLeads*float64(i) + sheet.SizeBody*typeface.CapHeight
		if i == 0 {
			c.Text(at, base, footHead, sheet.Strong(sheet.SizeBody))
			at += typeface.Width(footHead, sheet.Bold, sheet.SizeBody) + pointGap
		}
		for _, p := range line {
			name := s.h.Terminals[p.terminal].Full + "  " + p.volts
			c.Text(at, base, name, sheet.Strong(sheet.SizeBody))
			c.Text(at+typeface.Width(name, sheet.Bold, sheet.SizeBody), base, " no → "+strings.Join(p.look, ", "), sheet.Plain(sheet.SizeBody))
			at += s.pointWide(p) + pointGap
		}
	}
}
