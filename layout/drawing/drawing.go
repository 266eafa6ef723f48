// Package drawing makes the circuit diagrams: the sheets on which a person
// follows the current with a finger from supply to ground.
//
// In: the model, the results and the area that a sheet leaves to draw in. Out: one
// Drawing a sheet. First stands the supply, from battery and alternator to the panels;
// then the circuits in the order of their numbers, several on a sheet. Each is whole:
// every part that its wires touch is a tile there with the pins that it uses, and where
// its feed or its return is another circuit's wire, that wire is lent (lent.go). A
// circuit is drawn as one or more strips, each laid out on its own from the supplies at
// the left to the grounds at the right.
//
// A reference is a tag: an arrow at which a lent wire begins whose way back to its feed
// is too long for the strip. It names the pin that the wire comes from, with circuit,
// sheet and zone, and lands on the tile that shows this pin; there a line leads back.
// The grey lines under tiles ("also 56a → 27", "fed by 10") are no references: what they
// lead to plays no part in the circuit at hand.
//
// What holds: every wire of a circuit stands with its name on one of the circuit's
// sheets; nothing lies outside the area, on a caption or through a tile; text is
// never made smaller to make it fit. Missing results leave their words out.
package drawing

import (
	"example.com/loomfolio/layout/diagram"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// Drawing is one sheet's diagram, placed but for its references.
type Drawing struct {
	Title    string
	Subtitle string // of a sheet with a heading of its own; "" where the circuits have theirs
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
	home map[harness.PartID]*strip // on which references to a part land
	use  []use

	loadsOf map[harness.ElementID][]int // places in the results' loads
	fuseAt  map[seat]*chosen.Fuse
	states  []int // of the job in hand
	tags    map[harness.TerminalID][]tagged

	drawn     map[string]symbol.Tile     // by all that they are drawn from, as text
	laid      map[string]*diagram.Layout // by graph, as text
	inColumns map[string][]int           // by the graph's shape, as text
}

// tagged is a tag that names a terminal.
type tagged struct {
	wire  harness.WireID
	strip *strip
}

// Lay makes all circuit diagrams for a body of that size; the heading of a
// drawing, its Title and Subtitle, is taken off the top of the body.
func Lay(h *harness.Harness, r *result.Result, body sheet.Rect) []Drawing {
	s := newSheets(h, r, body)
	return s.drawings(s.jobs())
}

func (s *sheets) drawings(jobs []*job) []Drawing {
	var out []Drawing
	s.leadBack(jobs)
	s.chooseHomes(allStrips(jobs))
	for _, page := range s.pack(s.blocks(jobs)) {
		out = append(out, s.draw(page))
	}
	for _, st := range allStrips(jobs) {
		if !st.drawable() {
			out = append(out, s.list(st)...)
		}
	}
	s.numberParts(out)
	return out
}

func allStrips(jobs []*job) []*strip {
	var out []*strip
	for _, j := range jobs {
		out = append(out, j.strips...)
	}
	return out
}

// drawable tells whether a strip could be laid out at all.
func (st *strip) drawable() bool { return st.layout != nil && len(st.layout.Paths) > 0 }

// leadBack notes where tags name a terminal, and lays the strips anew that show it.
func (s *sheets) leadBack(jobs []*job) {
	s.tags = map[harness.TerminalID][]tagged{}
	again := set{}
	for _, st := range allStrips(jobs) {
		for _, w := range st.lent.wires {
			if st.lent.tagged[w] {
				from := s.h.Wires[w].From
				s.tags[from] = append(s.tags[from], tagged{w, st})
				again[w] = true
			}
		}
	}
	for _, j := range jobs {
		s.states = j.states
		for _, st := range j.strips {
			if in, _ := again.only(st.wires); len(in) > 0 {
				was := st.versions
				st.versions = nil
				s.layOut(st)
				if len(st.versions) == 0 {
					st.versions = was
					st.take(was[0])
					j.back = append(j.back, s.backFrom(st)...)
				}
			}
		}
	}
}

// backFrom are the items that lead from a strip to the tags that name its terminals,
// for the head of its circuit where the tiles have no room for them.
func (s *sheets) backFrom(st *strip) []symbol.Item {
	var out []symbol.Item
	b := &builder{s: s, own: setOf(st.wires), st: st}
	for _, id := range s.partsOf(st.wires) {
		out = append(out, b.backItems(s.h.Parts[id].Terminals)...)
	}
	return out
}

func newSheets(h *harness.Harness, r *result.Result, body sheet.Rect) *sheets {
	if r == nil {
		r = &result.Result{}
	}
	h = towardsGround(h)
	s := &sheets{
		h: h, r: r, body: body, use: uses(h), loadsOf: map[harness.ElementID][]int{}, fuseAt: map[seat]*chosen.Fuse{},
		laid: map[string]*diagram.Layout{}, inColumns: map[string][]int{}, drawn: map[string]symbol.Tile{},
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

// stripArea is what a strip may take of a sheet, its head and foot apart.
func (s *sheets) stripArea() sheet.Rect {
	area := s.body
	area.H -= 2*headHigh + footRoom
	return area
}

// Draw gives the marks with the references put in: where says "sheet 7, C3" for
// an anchor or "" while it is not known; link gives the anchor when it may be
// linked to, else "".
func (d Drawing) Draw(where, link func(anchor string) string) []sheet.Mark {
	var c sheet.Canvas
	for _, m := range d.Marks {
		switch m := m.(type) {
		case sheet.Text:
			c.Add(refer(&c, m, where, link))
		case sheet.Link:
			if m.Target = link(m.Target); m.Target != "" {
				c.Add(m)
			}
		default:
			c.Add(m)
		}
	}
	return c.Marks
}
