package flow

import (
	"container/heap"
	"math"

	"example.com/loomfolio/sizing/harness"
)

// Ohms are the resistances in a short: of every wire, and of the elements that
// let a short through (fuses, contacts, straps, diodes, batteries).
type Ohms struct {
	Wires    []float64 // by WireID
	Elements []float64 // by ElementID
}

// Shorts gives the currents that one fuse carries in dead shorts on the metal
// that it feeds.
type Shorts struct {
	n    *Net
	amps map[int]float64 // by vertex
}

// Shorts works out, by ElementID, what each of some fuses carries when what it
// feeds is shorted to its return: at a load across the load, elsewhere to the
// chassis (where there is none, to the source). A short lies before a load and never
// goes through one.
//
// The current is that of the single way of least resistance from a battery to
// the short and back, every contact closed. Metal beside that way only lowers
// the resistance (Rayleigh), so a short draws this much at least; and where
// other fuses feed the same metal, it is what this one carries once they are
// open. Alternators give nothing: a battery alone must open the fuse.
func (n *Net) Shorts(fuses []harness.ElementID, ohms Ohms) []Shorts {
	out := make([]Shorts, len(n.h.Elements))
	s := &shorting{n: n, ohms: ohms, up: map[int]*ways{}, down: n.newWays(), own: n.newWays()}
	for _, f := range fuses {
		out[f] = s.of(f)
	}
	return out
}

// shorting holds the ways that the fuses of one metal share.
type shorting struct {
	n    *Net
	ohms Ohms
	up   map[int]*ways // by vertex: to the batteries and back, over any fuse
	down *ways         // the room for what one fuse feeds
	own  *ways         // the room for the ways up that one fuse shares with none
}

func (s *shorting) of(fuse harness.ElementID) Shorts {
	n := s.n
	out := Shorts{n, map[int]float64{}}
	e := &n.h.Elements[fuse]
	for _, side := range [][2]int{{n.vertex[e.A], n.vertex[e.B]}, {n.vertex[e.B], n.vertex[e.A]}} {
		near, far := side[0], side[1]
		s.down.clear()
		n.spreadFrom(s.down, far, s.ohms, func(x *harness.Element) bool { return false })
		if n.holdsBattery(s.down.best) {
			continue // it has a source of its own before the fuse
		}
		up := s.upFrom(near, fuse).best
		if !n.holdsBattery(up) {
			continue // what is shorted is itself on the only way to the fuse
		}
		n.shortAll(&out, s.down, up, s.ohms.Elements[fuse])
	}
	return out
}

// upFrom gives the ways from a fuse's near side that lead neither over itself nor over the
// metal that it feeds. Where several fuses lie there, the ways over any of them are found
// once: one that is the shortest of all and leads over neither is also the shortest of those.
func (s *shorting) upFrom(near int, fuse harness.ElementID) *ways {
	if !s.n.manyFuses(near) {
		return s.upBut(s.own, near, fuse, s.down)
	}
	shared := s.up[near]
	if shared == nil {
		shared = s.upBut(s.n.newWays(), near, harness.None, nil)
		s.up[near] = shared
	}
	for _, v := range s.n.returns(s.down) {
		if s.over(shared.best, v, fuse) {
			return s.upBut(s.own, near, fuse, s.down)
		}
	}
	return shared
}

// upBut finds the ways over batteries and all fuses but one, beside the metal that is fed.
func (s *shorting) upBut(out *ways, near int, fuse harness.ElementID, fed *ways) *ways {
	out.clear()
	if fed != nil {
		out.barred = fed.best
	}
	s.n.spreadFrom(out, near, s.ohms, func(x *harness.Element) bool {
		return x.Kind == harness.EMF || x.Kind == harness.FuseLink && x.ID != fuse
	})
	return out
}

// manyFuses tells that more than one fuse lies at a vertex.
func (n *Net) manyFuses(v int) bool {
	fuses := 0
	for _, i := range n.at[v] {
		if e := n.edges[i]; e.element != harness.None && n.h.Elements[e.element].Kind == harness.FuseLink {
			fuses++
		}
	}
	return fuses > 1
}

// returns lists the vertices to which a short may lead: the far sides of the loads
// and coils on what is fed, the chassis, and the earth sides of the batteries.
func (n *Net) returns(down *ways) []int {
	out := []int{n.chassis}
	for i := range n.h.Elements {
		if e := &n.h.Elements[i]; e.Kind == harness.EMF {
			out = append(out, n.dead(e))
		}
	}
	for _, v := range down.met {
		out = append(out, n.acrossLoads(v)...)
	}
	return out
}

// over tells whether the way to a vertex leads over a fuse or the metal that it feeds.
func (s *shorting) over(best []reach, v int, fuse harness.ElementID) bool {
	for best[v].seen && best[v].by >= 0 {
		e := s.n.edges[best[v].by]
		v = e.other(v)
		if e.element == fuse || v != s.n.chassis && s.down.best[v].seen {
			return true
		}
	}
	return false
}

// Least gives the smallest current of all, +Inf where no battery feeds the fuse.
func (s Shorts) Least() float64 {
	least := math.Inf(1)
	for _, a := range s.amps {
		least = math.Min(least, a)
	}
	return least
}

// Most gives the largest current of all: of a short right behind the fuse; 0 where no
// battery feeds it.
func (s Shorts) Most() float64 {
	most := 0.0
	for _, a := range s.amps {
		most = math.Max(most, a)
	}
	return most
}

// At gives the current of a short at the worse end of a wire; +Inf for a wire
// that the fuse does not feed.
func (s Shorts) At(w harness.WireID) float64 {
	least := math.Inf(1)
	for _, t := range []harness.TerminalID{s.n.h.Wires[w].From, s.n.h.Wires[w].To} {
		if a, ok := s.amps[s.n.vertex[t]]; ok {
			least = math.Min(least, a)
		}
	}
	return least
}

// shortAll enters the current of a short at every vertex that is reached down.
func (n *Net) shortAll(out *Shorts, fed *ways, up []reach, own float64) {
	ground, down := n.groundOf(up), fed.best
	for _, v := range fed.met {
		backs := n.backs(v, up)
		if len(backs) == 0 && ground >= 0 {
			backs = []int{ground}
		}
		for _, r := range backs {
			volts := math.Abs(up[r].volts) - up[r].lost - down[v].lost
			amps := math.Max(volts, 0) / math.Max(up[r].ohms+own+down[v].ohms, 1e-6)
			if was, ok := out.amps[v]; !ok || amps < was {
				out.amps[v] = amps
			}
		}
	}
}

// backs gives the far sides of the loads and coils at a vertex, where a battery
// lies between them and the fuse.
func (n *Net) backs(v int, up []reach) []int {
	var out []int
	for _, r := range n.acrossLoads(v) {
		if up[r].driven() {
			out = append(out, r)
		}
	}
	return out
}

// acrossLoads gives the far sides of the loads and coils at a vertex.
func (n *Net) acrossLoads(v int) []int {
	var out []int
	for _, i := range n.at[v] {
		e := n.edges[i]
		if e.element == harness.None {
			continue
		}
		switch n.h.Elements[e.element].Kind {
		case harness.Load, harness.RelayCoil:
			out = append(out, e.other(v))
		}
	}
	return out
}

// groundOf gives the chassis, or where it is not reached the earth side of the
// nearest battery; -1 when there is none.
func (n *Net) groundOf(up []reach) int {
	if up[n.chassis].driven() {
		return n.chassis
	}
	best := -1
	for i := range n.h.Elements {
		e := &n.h.Elements[i]
		if v := n.dead(e); e.Kind == harness.EMF && up[v].driven() && (best < 0 || up[v].ohms < up[best].ohms) {
			best = v
		}
	}
	return best
}

func (n *Net) holdsBattery(down []reach) bool {
	for i := range n.h.Elements {
		if e := &n.h.Elements[i]; e.Kind == harness.EMF && down[n.live(e)].seen {
			return true
		}
	}
	return false
}

// reach is the way of least resistance to a vertex: its ohms, the volts of the
// batteries that it passes, and those that diodes take.
type reach struct {
	ohms, volts, lost float64
	by                int // the last edge of the way, -1 at its beginning
	seen              bool
}

// ways are those from one vertex.
type ways struct {
	best   []reach // by vertex
	met    []int   // the vertices that were reached
	barred []reach // by vertex: no way leads over those seen here, but for the chassis, though one may end there; nil for none
}

func (n *Net) newWays() *ways { return &ways{best: make([]reach, n.vertices)} }

func (w *ways) clear() {
	for _, v := range w.met {
		w.best[v] = reach{}
	}
	w.met, w.barred = w.met[:0], nil
}

// ends tells that no way leads on from where one has come to.
func (n *Net) ends(w *ways, at arrival) bool {
	return w.barred != nil && at.vertex != n.chassis && w.barred[at.vertex].seen
}

// driven tells that a battery lies on the way.
func (r reach) driven() bool { return r.seen && math.Abs(r.volts) > 0.5 }

// spreadFrom finds the ways of least resistance from a vertex over wires, over
// what conducts (but no resistor, which is a load to a short), and over the
// other elements that pass allows. Only where those hold batteries is the
// chassis on the way.
func (n *Net) spreadFrom(out *ways, from int, ohms Ohms, pass func(*harness.Element) bool) {
	best := out.best
	queue := &frontier{{vertex: from, reach: reach{by: -1}}}
	for queue.Len() > 0 {
		at := heap.Pop(queue).(arrival)
		if best[at.vertex].seen {
			continue
		}
		at.reach.seen = true
		best[at.vertex] = at.reach
		out.met = append(out.met, at.vertex)
		if at.vertex == n.chassis && at.volts == 0 || n.ends(out, at) {
			continue
		}
		for _, i := range n.at[at.vertex] {
			if next, ok := n.follow(at, n.edges[i], ohms, pass); ok && !best[next.vertex].seen {
				next.by = i
				heap.Push(queue, next)
			}
		}
	}
}

// follow goes over one edge; false where a short does not.
func (n *Net) follow(at arrival, e edge, ohms Ohms, pass func(*harness.Element) bool) (arrival, bool) {
	next := arrival{e.other(at.vertex), at.reach}
	if e.wire != harness.None {
		next.ohms += ohms.Wires[e.wire]
		return next, true
	}
	x := &n.h.Elements[e.element]
	if n.isResistor(x) || !n.conducts(e.element) && !pass(x) {
		return next, false
	}
	next.ohms += ohms.Elements[e.element]
	switch {
	case x.Kind == harness.Rectifier:
		next.lost += float64(x.Volts)
	case x.Kind == harness.EMF && at.vertex == e.from:
		next.volts += float64(x.Volts)
	case x.Kind == harness.EMF:
		next.volts -= float64(x.Volts)
	}
	return next, true
}

// arrival is a vertex with a way to it; frontier orders them by resistance.
type arrival struct {
	vertex int
	reach
}

type frontier []arrival

func (f frontier) Len() int           { return len(f) }
func (f frontier) Less(i, j int) bool { return f[i].ohms < f[j].ohms }
func (f frontier) Swap(i, j int)      { f[i], f[j] = f[j], f[i] }
func (f *frontier) Push(x any)        { *f = append(*f, x.(arrival)) }
func (f *frontier) Pop() any {
	old := *f
	last := old[len(old)-1]
	*f = old[:len(old)-1]
	return last
}
