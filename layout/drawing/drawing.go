// Package drawing makes the circuit diagrams: the sheets on which a person
// follows the current with a finger from supply to ground.
//
// In: the model, the results and the area that a sheet leaves to draw in. Out: one
// Drawing a sheet. A circuit is drawn as one or more strips, each laid out on its
// own from the supplies at the left to the grounds at the right; small circuits
// share a sheet, a large one is cut where few wires are cut. What goes on
// elsewhere ends in an arrow with the sheet and zone, which are known only once
// all sheets are numbered: Draw puts them in, in room kept for the longest.
//
// What holds: every wire of a circuit stands with its name on one of the circuit's
// sheets; nothing lies outside the area, on a caption or through a tile; text is
// never made smaller to make it fit. Missing results leave their words out.
package drawing

import (
	"cmp"
	"slices"

	"example.com/loomfolio/layout/diagram"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// Drawing is one sheet's diagram, placed but for its references.
type Drawing struct {
	Title    string
	Subtitle string
	Circuits []harness.CircuitID
	Wires    []harness.WireID // whose names stand on it
	Marks    []sheet.Mark     // with reference marks in them; see Draw
	Area     sheet.Rect       // what the heading leaves of the body
}

// sheets is the work of Lay.
type sheets struct {
	h    *harness.Harness
	r    *result.Result
	body sheet.Rect
	home map[harness.PartID]int // strip in which a part is drawn whole
	use  []use
	// share says of a circuit on several sheets which the sheet being drawn is
	share map[harness.CircuitID]string

	loadsOf map[harness.ElementID][]int // places in the results' loads
	fuseAt  map[seat]*chosen.Fuse

	stripOf   map[harness.WireID]*strip
	laid      map[string]*diagram.Layout // by graph, as text
	inColumns map[string][]int           // by the graph's shape, as text
}

// Lay makes all circuit diagrams for a body of that size; the heading of a
// drawing, its Title and Subtitle, is taken off the top of the body.
func Lay(h *harness.Harness, r *result.Result, body sheet.Rect) []Drawing {
	s := newSheets(h, r, body)
	return s.drawings(s.strips())
}

func (s *sheets) drawings(strips []*strip) []Drawing {
	var out []Drawing
	strips, plain := apart(strips)
	pages := s.pack(strips)
	shares := numberShares(pages)
	for i, group := range pages {
		s.share = shares[i]
		out = append(out, s.draw(group))
	}
	s.share = nil
	for _, st := range plain {
		out = append(out, s.list(st)...)
	}
	s.numberParts(out)
	return out
}

func newSheets(h *harness.Harness, r *result.Result, body sheet.Rect) *sheets {
	if r == nil {
		r = &result.Result{}
	}
	h = towardsGround(h)
	s := &sheets{
		h: h, r: r, body: body, use: uses(h), loadsOf: map[harness.ElementID][]int{}, fuseAt: map[seat]*chosen.Fuse{},
		laid: map[string]*diagram.Layout{}, inColumns: map[string][]int{},
	}
	for i, l := range r.Loads {
		s.loadsOf[l.Element] = append(s.loadsOf[l.Element], i)
	}
	for i := range r.Fuses {
		f := &r.Fuses[i]
		if at := (seat{f.Part, f.Position}); s.fuseAt[at] == nil {
			s.fuseAt[at] = f
		}
	}
	return s
}

// seat is where a fuse sits: a part, and its position in a panel.
type seat struct {
	part     harness.PartID
	position string
}

// area is what a heading leaves of the body.
func (s *sheets) area(title, subtitle string) sheet.Rect {
	var c sheet.Canvas
	return frame.Frame{Body: s.body}.Heading(&c, title, subtitle)
}

// usualArea is the area under a heading of one line each.
func (s *sheets) usualArea() sheet.Rect { return s.area("Circuit", "fed") }

// stripArea is what a strip may take of it, the band apart.
func (s *sheets) stripArea() sheet.Rect {
	area := s.usualArea()
	area.H -= s.bandRoom()
	return area
}

// Heights of what stands around the strips, mm.
const (
	stripGap  = 3.0
	stripHead = 6.6 // a circuit's name above its strip where several share a sheet
	mostWires = 26  // more than that do not share a sheet of the usual body
	mostShare = 6   // circuits on one sheet
	usualBody = 259 * 164
)

// pack puts circuits on sheets. A circuit that fits whole goes on one of the last
// sheets if there is room beside other whole circuits, best where it shares a part
// with them; a large one takes sheets of its own.
func (s *sheets) pack(strips []*strip) [][]*strip {
	const lookBack = 4
	var out [][]*strip
	shut := map[int]bool{}
	for _, circuit := range byCircuit(strips) {
		at, most := -1, -1
		for i := max(0, len(out)-lookBack); i < len(out); i++ {
			if n := s.shared(out[i], circuit); n > most && !shut[i] && s.fits(append(slices.Clone(out[i]), circuit...)) {
				at, most = i, n
			}
		}
		if at >= 0 {
			out[at] = append(out[at], circuit...)
			continue
		}
		pages := s.fill(circuit)
		for i, p := range pages {
			shut[len(out)+i] = len(pages) > 1 && !s.small(p)
		}
		out = append(out, pages...)
	}
	return s.together(out)
}

// small tells whether the last or first strips of a circuit leave most of a sheet empty.
func (s *sheets) small(page []*strip) bool {
	return len(wiresOf(page)) <= 4 && s.needs(page) < s.usualArea().H/2
}

// together moves small pages that stayed alone to a neighbour that has room, with
// the words beside their symbols where that is what it takes.
func (s *sheets) together(pages [][]*strip) [][]*strip {
	for i := 0; i < len(pages); i++ {
		if !s.small(pages[i]) {
			continue
		}
		to := s.neighbour(pages, i)
		if to < 0 {
			to = s.pressed(pages, i)
		}
		if to >= 0 {
			pages[to] = byNumber(pages[to], pages[i])
			pages = slices.Delete(pages, i, i+1)
			i--
		}
	}
	for i := range pages {
		if s.small(pages[i]) && len(circuitsOf(pages[i])) == 1 {
			s.company(pages, i)
		}
	}
	return pages
}

// neighbour is the nearest page that has room for another, -1 for none.
func (s *sheets) neighbour(pages [][]*strip, i int) int {
	for _, to := range []int{i - 1, i + 1, i - 2, i + 2, i - 3, i + 3, i - 4, i + 4} {
		if to >= 0 && to < len(pages) && s.fits(byNumber(pages[to], pages[i])) {
			return to
		}
	}
	return -1
}

// pressed is neighbour with the page's strips in their lowest look, which they keep
// where there is one.
func (s *sheets) pressed(pages [][]*strip, i int) int {
	area := s.stripArea()
	was := make([]version, len(pages[i]))
	for k, st := range pages[i] {
		was[k] = version{st.graph, st.layout, st.form}
		if v := s.version(st.number, st, look{beside: true}, area, false); v.layout != nil && v.layout.Fits {
			st.take(v)
		}
	}
	if to := s.neighbour(pages, i); to >= 0 {
		return to
	}
	for k, st := range pages[i] {
		st.take(was[k])
	}
	return -1
}

// company gives a page with one small circuit another whole one from a page nearby
// that keeps two.
func (s *sheets) company(pages [][]*strip, lone int) {
	for _, from := range []int{lone - 1, lone + 1, lone - 2, lone + 2} {
		if from < 0 || from >= len(pages) || len(circuitsOf(pages[from])) < 3 {
			continue
		}
		for _, circuit := range byCircuit(pages[from]) {
			rest := slices.DeleteFunc(slices.Clone(pages[from]), func(st *strip) bool { return slices.Contains(circuit, st) })
			both := byNumber(pages[lone], circuit)
			if len(wiresOf(circuit)) == len(s.h.Circuits[circuit[0].circuits[0]].Wires) && s.fits(both) && s.fits(rest) {
				pages[lone], pages[from] = both, rest
				return
			}
		}
	}
}

// byNumber joins two groups in the order of their circuits.
func byNumber(a, b []*strip) []*strip {
	out := append(slices.Clone(a), b...)
	slices.SortStableFunc(out, func(x, y *strip) int { return cmp.Compare(x.circuits[0], y.circuits[0]) })
	return out
}

// shared counts the parts, supplies and joints apart, that two groups both show.
func (s *sheets) shared(a, b []*strip) int {
	n := 0
	of := s.partsOf(wiresOf(a))
	for _, p := range s.partsOf(wiresOf(b)) {
		switch s.h.Parts[p].Kind {
		case harness.Ground, harness.Battery, harness.Bus, harness.Connector, harness.FusePanel:
		default:
			if slices.Contains(of, p) {
				n++
			}
		}
	}
	return n
}

func byCircuit(strips []*strip) [][]*strip {
	var out [][]*strip
	for i, st := range strips {
		if i > 0 && strips[i-1].circuits[0] == st.circuits[0] {
			out[len(out)-1] = append(out[len(out)-1], st)
			continue
		}
		out = append(out, []*strip{st})
	}
	return out
}

// fill puts the strips of one circuit on as many sheets as they need.
func (s *sheets) fill(strips []*strip) [][]*strip {
	out := [][]*strip{nil}
	for _, st := range strips {
		last := len(out) - 1
		if len(out[last]) > 0 && !s.fits(append(slices.Clone(out[last]), st)) {
			out = append(out, nil)
			last++
		}
		out[last] = append(out[last], st)
	}
	return out
}

func (s *sheets) fits(group []*strip) bool {
	wires := 0
	for _, st := range group {
		wires += len(st.wires)
	}
	circuits := circuitsOf(group)
	most := int(mostWires * s.body.W * s.body.H / usualBody)
	if len(circuits) > 1 && (wires > most || len(circuits) > mostShare) {
		return false
	}
	return s.needs(group) <= s.area(s.titles(group)).H-s.bandWanted(group)
}

// needs is the height of strips in rows with their heads.
func (s *sheets) needs(group []*strip) float64 {
	_, height := s.arrange(group, 0)
	return height
}

func circuitsOf(group []*strip) []harness.CircuitID {
	var out []harness.CircuitID
	for _, st := range group {
		for _, c := range st.circuits {
			if !slices.Contains(out, c) {
				out = append(out, c)
			}
		}
	}
	return out
}

// Draw gives the marks with the references put in: where says "sheet 7, C3" for
// an anchor or "" while it is not known; link gives the anchor when it may be
// linked to, else "".
func (d Drawing) Draw(where, link func(anchor string) string) []sheet.Mark {
	var c sheet.Canvas
	for _, m := range d.Marks {
		t, ok := m.(sheet.Text)
		if !ok {
			c.Add(m)
			continue
		}
		c.Add(refer(&c, t, where, link))
	}
	return c.Marks
}
