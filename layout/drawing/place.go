package drawing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/loomfolio/layout/diagram"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
)

// version is a strip laid out in one look.
type version struct {
	graph  *graph
	layout *diagram.Layout
	form   look
}

func (st *strip) take(v version) { st.graph, st.layout, st.form = v.graph, v.layout, v.form }

// layOut lays a strip out in the looks; those in which it fits are its versions.
func (s *sheets) layOut(st *strip) {
	if len(st.versions) > 0 {
		return
	}
	area := s.stripArea()
	if s.tooLarge(st.wires, area) {
		st.take(version{layout: &diagram.Layout{}})
		return
	}
	for _, f := range looks {
		v := s.version(st, f, area, false)
		if st.layout == nil || len(st.layout.Paths) == 0 {
			st.take(v)
		}
		if v.layout == nil || !v.layout.Fits {
			continue
		}
		st.versions = append(st.versions, v)
		if v.layout.Low != nil {
			v.layout, v.form.low = v.layout.Low, true
			st.versions = append(st.versions, v)
		}
	}
	if len(st.versions) > 0 {
		s.mix(st, area)
		st.take(st.versions[0])
	}
}

// mostMixed is from how many wires on a strip is not mixed: there is little to win.
const mostMixed = 16

// mostTwice is up to how many wires a strip is mixed from two looks.
const mostTwice = 8

// mix looks for a lower strip by setting the words of single parts beside or below them,
// from the look on that is lowest; of a small strip also from the lowest with its flags
// the other way.
func (s *sheets) mix(st *strip, area sheet.Rect) {
	if len(st.wires) < 2 || len(st.all()) > mostMixed {
		return
	}
	byHeight := func(a, b version) int { return cmp.Compare(a.layout.H, b.layout.H) }
	best := slices.MinFunc(st.versions, byHeight)
	from := []version{best}
	if len(st.all()) <= mostTwice {
		others := slices.DeleteFunc(slices.Clone(st.versions), func(v version) bool { return v.form.stacked == best.form.stacked })
		if len(others) > 0 {
			from = append(from, slices.MinFunc(others, byHeight))
		}
	}
	for _, v := range from {
		if better, ok := s.mixedFrom(st, v, area); ok {
			st.versions = append(st.versions, better)
		}
	}
}

// mixedFrom changes the words of one part after another for as long as that helps.
func (s *sheets) mixedFrom(st *strip, best version, area sheet.Rect) (better version, found bool) {
	form := best.form
	parts := s.partsOf(st.all())
	st.beside = map[harness.PartID]side{}
	for _, id := range parts {
		st.beside[id] = form.besideOf(&s.h.Parts[id], st)
	}
	form.mixed = true
	for _, id := range parts {
		if k := s.h.Parts[id].Kind; k == harness.Splice || k == harness.Connector || k == harness.Ground || k == harness.Relay {
			continue
		}
		kept := st.beside[id]
		for at := below; at < sidesAll; at++ {
			if at == kept || at == besideWide && st.beside[id] == below {
				continue
			}
			was := st.beside[id]
			st.beside[id] = at
			v := s.version(st, form, area, false)
			if l := v.layout; l != nil && l.Fits && (l.H < best.layout.H-0.5 || l.H < best.layout.H+0.5 && l.Least < best.layout.Least-4) {
				best, found = v, true
				continue
			}
			st.beside[id] = was
		}
	}
	return best, found
}

// force lays out what fits in no look and cannot be divided.
func (s *sheets) force(st *strip) {
	if len(st.versions) == 0 {
		st.take(s.version(st, look{}, s.stripArea(), true))
		st.versions = []version{{st.graph, st.layout, st.form}}
	}
}

// version lays a strip out in a look; equal graphs are laid out once.
func (s *sheets) version(st *strip, f look, area sheet.Rect, force bool) version {
	v := version{graph: s.build(st, f), form: f}
	key := graphKey(f, force, v.graph.Graph)
	if l, ok := s.laid[key]; ok {
		v.layout = l
		return v
	}
	if columns := s.columns(v.graph.Graph); columns != nil {
		v.layout = diagram.Lay(v.graph.Graph, f.rules(area, force), columns)
	}
	s.laid[key] = v.layout
	return v
}

// rules are the distances of a look.
func (f look) rules(area sheet.Rect, force bool) diagram.Rules {
	return diagram.Rules{
		Grid: 1.25, Gap: 2.5, Below: 1.25, Track: f.track(), Stub: f.stub(), Spread: 16, FlagUp: f.above(), FlagDown: f.below(),
		W: area.W, H: area.H, Tries: f.tries(), Force: force,
	}
}

// tries is how many orders are tried.
func (f look) tries() int {
	if f.mixed {
		return 2
	}
	return 8
}

// track is the distance of upright wires side by side.
func (f look) track() float64 {
	if f.narrow || f.stacked {
		return 2.5
	}
	return 3
}

// stub is the least level stretch at a pin.
func (f look) stub() float64 {
	if f.stacked {
		return 1.2
	}
	return 2
}

// columns asks for a graph's columns once for all sizes of its tiles; nil when it
// cannot be laid out.
func (s *sheets) columns(g diagram.Graph) []int {
	var shape strings.Builder
	for _, n := range g.Nodes {
		fmt.Fprint(&shape, n.Column, len(n.Pins), ";")
		for _, p := range n.Pins {
			fmt.Fprint(&shape, p.Side)
		}
	}
	for _, w := range g.Wires {
		fmt.Fprint(&shape, w.From, w.To)
	}
	key := shape.String()
	if _, ok := s.inColumns[key]; !ok {
		s.inColumns[key], _ = diagram.Columns(g)
	}
	return s.inColumns[key]
}

// arranged is strips in rows, each in one of its versions, within a width.
type arranged struct {
	w, h float64
	rows [][]placed
}

// placed is a strip of a row.
type placed struct {
	st *strip
	version
}

// sideGap is the white between strips side by side, mm; stripGap that between rows.
const (
	sideGap  = 8.0
	stripGap = 3.0
)

// arrange puts strips in rows in a look, several in one where their least widths allow.
func arrange(strips []*strip, f look, most float64) arranged {
	var a arranged
	used := 0.0
	for _, st := range strips {
		p := placed{st, st.inLook(f)}
		if len(a.rows) == 0 || used+sideGap+p.layout.Least > most+1e-6 {
			a.rows = append(a.rows, nil)
			used = -sideGap
		}
		last := len(a.rows) - 1
		a.rows[last] = append(a.rows[last], p)
		used += sideGap + p.layout.Least
		a.w = math.Max(a.w, used)
	}
	for _, row := range a.rows {
		a.h += rowHigh(row) + stripGap
	}
	a.h -= stripGap
	return a
}

func rowHigh(row []placed) float64 {
	high := 0.0
	for _, p := range row {
		high = math.Max(high, p.layout.H)
	}
	return high
}

// inLook is a strip's version in a look: in the plainer one where there is no lower one,
// the first where it fits in neither.
func (st *strip) inLook(f look) version {
	for _, v := range st.versions {
		if v.form == f || f.mixed && v.form.mixed && f.low == v.form.low && f.stacked == v.form.stacked {
			return v
		}
	}
	if f.low {
		f.low = false
		return st.inLook(f)
	}
	return st.versions[0]
}

// graphKey is all that a graph is laid out from, as text: its form, and of each tile and wire the numbers.
func graphKey(f look, force bool, g diagram.Graph) string {
	b := make([]byte, 0, 64*len(g.Nodes))
	number := func(all ...float64) {
		for _, v := range all {
			b = append(strconv.AppendFloat(b, v, 'g', -1, 64), ' ')
		}
	}
	b = append(fmt.Appendf(b, "%v %v ", f, force), '|')
	for _, n := range g.Nodes {
		number(n.W, n.H)
		for _, r := range n.Solid {
			number(r.X, r.Y, r.W, r.H)
		}
		b = fmt.Appendf(b, "|%v|%v %q %v;", n.Pins, n.Column, n.Key, n.Lead)
	}
	for _, w := range g.Wires {
		number(float64(w.From.Node), float64(w.From.Pin), float64(w.To.Node), float64(w.To.Pin), w.Flag)
	}
	return string(b)
}
