// Package diagram lays out a graph of tiles and wires on paper: tiles with
// their sizes and pins in, places, wire paths and flag places out, all in
// millimetres, x to the right, y down.
//
// Tiles stand in columns from the supply (left) to the ground (right), numbered by
// the longest paths; the tiles of a column stand in the order of what they are
// joined to, tried from several starting sequences. The graph library is asked for
// columns where several wires close rings. Then come heights on a grid such
// that many wires run straight, a free lane through every column that a long wire
// passes, and between the columns channels in which every wire that changes its
// height has a track of its own (channel routing by tracks with order constraints,
// after the left-edge rule; an old method of printed-circuit layout).
//
// What holds of a Layout (Check measures it): no wire passes a tile, no two wires
// lie on one another, every wire has a level stretch at one end that is long
// enough for its flag, in the nook beside a tile if there is one, and a flag touches no tile, no other wire and no other flag.
// The same graph gives the same layout.
package diagram

import (
	"errors"
	"fmt"
	"math"

	"example.com/loomfolio/layout/sheet"
)

// Side is the edge of a tile that a pin stands on.
type Side int

// The sides.
const (
	West Side = iota
	East
)

// Column says where a tile wants to stand.
type Column int

// The wishes.
const (
	Free  Column = iota
	First        // with the supplies, at the left
	Last         // with the grounds, at the right
)

// Pin is where a wire lands, from the tile's top left corner. Pins of one Group
// (not 0) are one terminal's: their wires may change places.
type Pin struct {
	Side  Side
	X, Y  float64
	Group int
}

// Node is a tile: its whole footprint with captions, and its pins. Solid is what
// the tile and its words cover of that, from its top left corner; a flag may stand
// on the rest, beside the tile. None means all.
type Node struct {
	W, H   float64
	Solid  []Rect
	Pins   []Pin
	Column Column
	Key    string // entries of one rail share a key and stand together; "" none
	Lead   bool   // of the entries of a rail this one stands on top
}

// End is a pin of a node.
type End struct{ Node, Pin int }

// Wire goes from pin to pin; its flag, Flag mm wide, lies near one of its ends.
type Wire struct {
	From, To End
	Flag     float64
}

// Graph is what is to be laid out. Each pin takes exactly one wire.
type Graph struct {
	Nodes []Node
	Wires []Wire
}

// Rules are the distances in mm.
type Rules struct {
	Grid     float64 // heights of tiles are multiples of it
	Gap      float64 // between two columns at least
	Below    float64 // between tiles of a column, and between a lane and a tile
	Track    float64 // between upright wires side by side; a lane is two steps of the grid high
	Stub     float64 // least level stretch at a pin
	FlagUp   float64 // a flag reaches this far above its wire …
	FlagDown float64 // … and this far below
	W, H     float64 // room
	Spread   float64 // a channel of a layout that leaves width over is widened by up to this
	Tries    int     // orders that are tried, until one has no crossing
	Force    bool    // lay out even what does not fit
}

// Point is a place in mm.
type Point = sheet.Point

// Rect is an area in mm from its top left corner.
type Rect struct{ X, Y, W, H float64 }

// Layout is a graph laid out.
type Layout struct {
	W, H      float64   // what it takes
	Least     float64   // the width without any spread
	Nodes     []Point   // top left corners, by node
	Wires     []Wire    // the graph's, after wires of one terminal have changed places
	Paths     [][]Point // by wire, from pin to pin
	Flags     []Rect    // by wire
	Columns   int
	Crossings int
	Bends     int
	Fits      bool    // within Rules.W and Rules.H
	Low       *Layout // a lower one with some more bends, where one was found
	board     *board
	channels  []channel
}

// Columns says in which column, counted from 0, each node of a graph stands. It
// follows from the wires and the wishes alone, so one answer serves all graphs
// that differ in sizes only. The error is a graph that is malformed.
func Columns(g Graph) ([]int, error) {
	if err := g.verify(); err != nil {
		return nil, err
	}
	return assignColumns(g), nil
}

// Lay lays out a graph whose nodes stand in the given columns. What cannot fit
// is given up early, without places and paths, unless the rules force it. Should
// the graph library fail, the layout is plainer, not missing.
func Lay(g Graph, r Rules, columns []int) *Layout {
	b := newBoard(g, r, columns)
	if b.leastWidth() > r.W+1e-6 || b.tight() > r.H+1e-6 {
		if !r.Force {
			return &Layout{W: b.leastWidth(), H: b.tight()}
		}
	}
	var best *Layout
	var all []*Layout
	known := map[string]bool{}
	for try := range max(r.Tries, 1) {
		for _, l := range attempt(g, r, columns, try, known) {
			all = append(all, l)
			if best == nil || l.cost() < best.cost()-1e-9 {
				best = l
			}
		}
		if best.Fits && best.Crossings == 0 {
			break
		}
	}
	best.Low = best.lower(all)
	return best
}

// mostBent is how many bends more a lower layout may have.
const mostBent = 6

// lower is the lowest of some layouts that crosses no more wires and bends few more;
// nil where none is lower.
func (l *Layout) lower(all []*Layout) *Layout {
	var low *Layout
	for _, o := range all {
		if o.Fits && o.Crossings <= l.Crossings && o.Bends <= l.Bends+mostBent && o.H < l.H-1e-6 && (low == nil || o.H < low.H-1e-6) {
			low = o
		}
	}
	return low
}

// cost ranks layouts: what does not fit comes last, then crossings, bends, size.
func (l *Layout) cost() float64 {
	c := 40*float64(l.Crossings) + 8*float64(l.Bends) + l.H
	if !l.Fits {
		c += 1e6 + l.W*l.H
	}
	return c
}

// attempt lays the graph out in one order that is not known yet, with less and with
// more height to use; with the least alone where nothing can be better.
func attempt(g Graph, r Rules, columns []int, try int, known map[string]bool) []*Layout {
	b := newBoard(g, r, columns)
	b.order(try)
	if key := fmt.Sprint(b.columns); known[key] {
		return nil
	} else {
		known[key] = true
	}
	tight := b.tight()
	began := heights(b.items)
	var out []*Layout
	for _, bound := range []float64{tight, b.ceil(tight * 1.3), math.Floor(r.H/r.Grid) * r.Grid} {
		b.restore(began)
		b.settle(math.Max(bound, tight))
		l := b.finish()
		out = append(out, l)
		if l.Fits && l.Crossings+l.Bends == 0 {
			break
		}
	}
	return out
}

func (g Graph) verify() error {
	if len(g.Nodes) == 0 {
		return errors.New("diagram: a graph without tiles")
	}
	used := map[End]bool{}
	for i, w := range g.Wires {
		for _, e := range []End{w.From, w.To} {
			if e.Node < 0 || e.Node >= len(g.Nodes) || e.Pin < 0 || e.Pin >= len(g.Nodes[e.Node].Pins) {
				return fmt.Errorf("diagram: wire %d ends nowhere", i)
			}
			if used[e] {
				return fmt.Errorf("diagram: wire %d lands on a pin that is taken", i)
			}
			used[e] = true
		}
		if w.From.Node == w.To.Node {
			return fmt.Errorf("diagram: wire %d begins and ends on one tile", i)
		}
	}
	return nil
}
