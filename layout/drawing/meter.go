package drawing

import (
	"fmt"
	"math"
	"slices"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

// Heights of the band "what a meter shows", mm.
const (
	bandPad  = 2.0
	bandHead = 5.5
	bandRow  = 10.5
	bandRows = 2 // rows of readings at most
	bandGap  = 3.0
)

type mark = sheet.Mark

// again tells whether a mark is an anchor that stands on a sheet already.
func again(m mark, known map[string]bool) bool {
	a, ok := m.(sheet.Anchor)
	if !ok {
		return false
	}
	seen := known[a.Name]
	known[a.Name] = true
	return seen
}

// reading is one terminal and its voltage.
type reading struct {
	name, volts string
	w           float64
}

// bandRoom is the height that a strip leaves for a band of one row.
func (s *sheets) bandRoom() float64 {
	if len(s.r.States) == 0 {
		return 0
	}
	return bandGap + 2*bandPad + bandHead + bandRow
}

// mostRows is how many rows of readings a sheet has room for under its strips.
func (s *sheets) mostRows(group []*strip) int {
	left := s.area(s.titles(group)).H - s.needs(group) - bandGap - 2*bandPad - bandHead
	return max(0, min(bandRows, int(left/bandRow+1e-6)))
}

// bandWanted is the height of the band with all readings that change, as far as a
// band may grow.
func (s *sheets) bandWanted(group []*strip) float64 {
	state := s.busiest(group)
	if state < 0 {
		return 0
	}
	rows := min(len(s.inRows(state, s.changes(state, group))), bandRows)
	if rows == 0 {
		return 0
	}
	return bandGap + 2*bandPad + bandHead + bandRow*float64(rows)
}

// bandHeight is the height of a sheet's band with the space above it, 0 for none.
func (s *sheets) bandHeight(group []*strip) float64 {
	_, rows := s.readings(group)
	if len(rows) == 0 {
		return 0
	}
	return bandGap + 2*bandPad + bandHead + bandRow*float64(len(rows))
}

// band shows what a meter reads in the state that turns on most of the sheet's loads.
func (s *sheets) band(c *sheet.Canvas, group []*strip, r sheet.Rect) {
	state, rows := s.readings(group)
	if len(rows) == 0 {
		return
	}
	r.Y += bandGap
	r.H -= bandGap
	text := "What a meter shows in state “" + s.r.States[state].Name + "”, against battery negative"
	if s.h.System.PositiveEarth {
		text = "What a meter shows in state “" + s.r.States[state].Name + "”, against battery positive"
	}
	c.RoundRect(r.X+0.2, r.Y, bandWide(rows, text, r.W)-0.4, r.H-0.2, 2, sheet.Outline(sheet.Solid(0.25)))
	y := r.Y + bandPad
	c.Text(r.X+3, y+sheet.SizeBody*typeface.CapHeight+0.4, text, sheet.Strong(sheet.SizeBody))
	y += bandHead
	for _, row := range rows {
		x := r.X + 3
		step := between(row, r.W)
		for _, v := range row {
			mid := x + v.w/2
			c.Text(mid, y+3.4, v.name, sheet.Plain(sheet.SizeBody).At(sheet.Centre))
			c.Text(mid, y+8.2, v.volts, sheet.Strong(sheet.SizeBody).At(sheet.Centre))
			x += v.w + step
		}
		y += bandRow
	}
}

// between is the white after each reading of a row in a band.
func between(row []reading, wide float64) float64 {
	return min((wide-6-widthOf(row))/float64(len(row)), 6)
}

// bandWide is the width of the band's outline: as much as its rows and its head take.
func bandWide(rows [][]reading, head string, most float64) float64 {
	wide := typeface.Width(head, sheet.Bold, sheet.SizeBody)
	for _, row := range rows {
		step := between(row, most)
		wide = math.Max(wide, widthOf(row)+step*float64(len(row)-1))
	}
	return math.Min(wide+6, most)
}

func widthOf(row []reading) float64 {
	sum := 0.0
	for _, v := range row {
		sum += v.w
	}
	return sum
}

// readings gives the state and the rows of readings for a sheet. Where they are
// more than there is room for, those that read the same as the other end of their
// wire are left out first.
func (s *sheets) readings(group []*strip) (state int, rows [][]reading) {
	state = s.busiest(group)
	if state < 0 {
		return state, nil
	}
	most := s.mostRows(group)
	rows = s.inRows(state, s.points(group))
	if len(rows) > most {
		rows = s.inRows(state, s.changes(state, group))
	}
	return state, rows[:min(len(rows), most)]
}

func (s *sheets) inRows(state int, points []harness.TerminalID) (rows [][]reading) {
	var row []reading
	for _, t := range points {
		text := s.volts(state, t)
		if text == "" {
			continue
		}
		v := reading{name: s.h.Terminals[t].Full, volts: text}
		v.w = math.Max(typeface.Width(v.name, sheet.Regular, sheet.SizeBody), typeface.Width(v.volts, sheet.Bold, sheet.SizeBody)) + 3
		if len(row) > 0 && widthOf(row)+v.w > s.body.W-6 {
			rows = append(rows, row)
			row = nil
		}
		row = append(row, v)
	}
	if len(row) > 0 {
		rows = append(rows, row)
	}
	return rows
}

// volts is the reading at a terminal, "" where there is none.
func (s *sheets) volts(state int, t harness.TerminalID) string {
	volts := s.r.States[state].Volts
	if int(t) >= len(volts) || math.IsNaN(volts[t]) {
		return ""
	}
	v := math.Round(volts[t]*10) / 10
	return fmt.Sprintf("%.1f V", v+0)
}

// changes are the points without those that read as the beginning of their wire does.
func (s *sheets) changes(state int, group []*strip) []harness.TerminalID {
	same := map[harness.TerminalID]bool{}
	for _, id := range wiresOf(group) {
		if w := s.h.Wires[id]; s.volts(state, w.From) == s.volts(state, w.To) {
			same[w.To] = true
		}
	}
	return slices.DeleteFunc(s.points(group), func(t harness.TerminalID) bool { return same[t] })
}

// points are the terminals on the way of the current, each once.
func (s *sheets) points(group []*strip) []harness.TerminalID {
	var out []harness.TerminalID
	for _, w := range wiresOf(group) {
		for _, t := range []harness.TerminalID{s.h.Wires[w].From, s.h.Wires[w].To} {
			if p := s.h.PartOf(t); p != nil && p.Kind != harness.Connector && !slices.Contains(out, t) {
				out = append(out, t)
			}
		}
	}
	return out
}

// busiest is the state in which most loads of the sheet are on; -1 when none is.
func (s *sheets) busiest(group []*strip) int {
	best, most := -1, 0
	parts := s.partsOf(wiresOf(group))
	for i, st := range s.r.States {
		n := 0
		for k := range s.r.Loads {
			if l := &s.r.Loads[k]; slices.Contains(parts, s.h.Elements[l.Element].Part) && slices.Contains(l.On, st.Name) {
				n++
			}
		}
		if n > most {
			best, most = i, n
		}
	}
	return best
}
