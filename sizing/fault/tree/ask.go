package tree

import (
	"slices"

	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// Settle is what a measurement takes beside reaching its points, minutes: the meter set, the
// load on, the reading written down; judgement, not published.
const Settle = 1.0

// Ask is a measurement that can be made.
type Ask struct {
	Point   int // into the points
	Against int // into the points; None: battery negative
	Minutes float64
	Bands   []Band // the lowest first
	Answer  []int  // by suspect, into Bands
}

// Asks are the measurements that part the suspects; of those that part them alike the
// quickest.
func (c Case) Asks() []Ask {
	var out []Ask
	full := c.source()
	shows := make([][]float64, len(c.Points)) // by point and suspect
	read := make([]float64, len(c.Suspects))
	known := map[string]int{}
	for _, a := range c.reachable() {
		red, black := c.shows(shows, a.Point), c.shows(shows, a.Against)
		for i := range read {
			read[i] = Across(red[i], black[i])
		}
		if !parts(read) {
			continue
		}
		if a.Bands, a.Answer = Bands(read, full); len(a.Bands) < 2 {
			continue
		}
		if k, there := known[a.key()]; !there {
			known[a.key()] = len(out)
			out = append(out, a)
		} else if a.Minutes < out[k].Minutes {
			out[k] = a
		}
	}
	return out
}

// parts tells whether readings can have more than one answer at all.
func parts(read []float64) bool {
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range read {
		low, high = min(low, v), max(high, v)
	}
	return high-low >= float64(Near)
}

// key is the answers as one word.
func (a Ask) key() string {
	out := make([]byte, len(a.Answer))
	for i, k := range a.Answer {
		out[i] = byte(k)
	}
	return string(out)
}

// shows are the volts at a point by suspect, at battery negative none; each point's are kept.
func (c Case) shows(kept [][]float64, point int) []float64 {
	if point == proof.None {
		return make([]float64, len(c.Suspects))
	}
	if kept[point] == nil {
		kept[point] = make([]float64, len(c.Suspects))
		for i := range c.Suspects {
			kept[point][i] = c.Volts(i, point)
		}
	}
	return kept[point]
}

// Across is what the meter shows between two points: next to nothing where one of them floats.
func Across(a, b float64) float64 {
	if math.IsNaN(a) || math.IsNaN(b) {
		return 0
	}
	return a - b
}

// reachable are the measurements at what the suspects touch: each point, across what lies
// between two of them, from a battery's live post to each, and across spans of the ladder.
func (c Case) reachable() []Ask {
	g := c.gathered()
	var out []Ask
	for i, p := range c.Points {
		if g.points[i] {
			out = append(out, Ask{Point: i, Against: proof.None, Minutes: Settle + p.Reach})
		}
	}
	for _, x := range slices.Concat(g.pairs, g.lost(c.Harness.System.PositiveEarth), c.spans()) {
		out = append(out, Ask{Point: x[0], Against: x[1], Minutes: Settle + c.reachBoth(x[0], x[1])})
	}
	return out
}

// spans are pairs of points two, four, eight rungs apart: what several parts lose together.
func (c Case) spans() [][2]int {
	var out [][2]int
	for n := 2; n < len(c.Rungs); n *= 2 {
		for i := 0; i+n < len(c.Rungs); i++ {
			out = append(out, [2]int{c.Rungs[i], c.Rungs[i+n]})
		}
	}
	return out
}

// reachBoth is the time to get a probe to each of two points: side by side that of the harder one.
func (c Case) reachBoth(a, b int) float64 {
	p, q := c.Points[a], c.Points[b]
	if p.Place == q.Place && p.Place != harness.None {
		return max(p.Reach, q.Reach)
	}
	return p.Reach + q.Reach
}

// gathered are the points of the wires and parts of the suspects and of the load, and the
// pairs of points between which such a wire or a part's element lies.
func (c Case) gathered() gather {
	wires, parts := c.concerned()
	g := gather{at: c.byTerminal(), points: make([]bool, len(c.Points))}
	for _, w := range c.Harness.Wires {
		if wires[w.ID] {
			g.pair(w.From, w.To)
		}
	}
	for i := range c.Harness.Elements {
		e := &c.Harness.Elements[i]
		if !parts[e.Part] {
			continue
		}
		g.pair(e.A, e.B)
		if e.Kind == harness.EMF {
			g.posts = append(g.posts, c.Harness.Live(e))
		}
	}
	return g
}

// concerned are the wires and parts of the suspects and of the load.
func (c Case) concerned() (wires, parts []bool) {
	wires, parts = make([]bool, len(c.Harness.Wires)), make([]bool, len(c.Harness.Parts))
	if c.Load != harness.None {
		parts[c.Harness.Elements[c.Load].Part] = true
	}
	for _, f := range c.Suspects {
		if x := c.Faults[f]; x.Wire != harness.None {
			wires[x.Wire] = true
		} else if x.Part != harness.None {
			parts[x.Part] = true
		}
	}
	return wires, parts
}

// byTerminal gives the point of each terminal, None where it has none.
func (c Case) byTerminal() []int {
	at := make([]int, len(c.Harness.Terminals))
	for t := range at {
		at[t] = proof.None
	}
	for i, p := range c.Points {
		at[p.At] = i
	}
	return at
}

// gather collects points and pairs, each pair once.
type gather struct {
	at     []int
	points []bool
	pairs  [][2]int
	posts  []harness.TerminalID // the live ones of batteries
}

// lost are the pairs of a battery's live post and a point, red on the more positive one:
// what is lost on the way from it.
func (g *gather) lost(positiveEarth bool) [][2]int {
	var out [][2]int
	for _, t := range g.posts {
		post := g.at[t]
		for p, touched := range g.points {
			switch {
			case !touched || post == proof.None || p == post:
			case positiveEarth:
				out = append(out, [2]int{p, post})
			default:
				out = append(out, [2]int{post, p})
			}
		}
	}
	return out
}

func (g *gather) pair(a, b harness.TerminalID) {
	p, q := g.at[a], g.at[b]
	for _, x := range []int{p, q} {
		if x != proof.None {
			g.points[x] = true
		}
	}
	if p != proof.None && q != proof.None {
		g.pairs = append(g.pairs, [2]int{p, q})
	}
}
