package route_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// loom is a loom of four places in a ring with one short cut:
//
//	a --1000-- b --2000-- c
//	 \------- 3500 ------/       d stands alone
func loom() *harness.Harness {
	h := &harness.Harness{Practice: harness.Practice{EachEnd: 50, Dress: 0.05, RoundUp: 5}}
	for i, key := range []string{"a", "b", "c", "d"} {
		h.Places = append(h.Places, harness.Place{ID: harness.PlaceID(i), Key: key, Name: key})
	}
	for i, r := range []harness.Run{{From: 0, To: 1, Length: 1000}, {From: 1, To: 2, Length: 2000}, {From: 0, To: 2, Length: 3500}} {
		r.ID = harness.RunID(i)
		h.Runs = append(h.Runs, r)
	}
	h.Terminals = []harness.Terminal{{Part: harness.None, Full: "chassis"}}
	return h
}

// part adds a part with one terminal and gives that terminal.
func part(h *harness.Harness, ref string, place harness.PlaceID, tail unit.Millimetre, along *harness.Along) harness.TerminalID {
	id, t := harness.PartID(len(h.Parts)), harness.TerminalID(len(h.Terminals))
	h.Parts = append(h.Parts, harness.Part{ID: id, Ref: ref, Place: place, Tail: tail, Along: along, Terminals: []harness.TerminalID{t}})
	h.Terminals = append(h.Terminals, harness.Terminal{ID: t, Part: id, Full: ref})
	return t
}

func wire(h *harness.Harness, from, to harness.TerminalID, change func(*harness.Wire)) {
	w := harness.Wire{ID: harness.WireID(len(h.Wires)), Name: "1A", From: from, To: to}
	if change != nil {
		change(&w)
	}
	h.Wires = append(h.Wires, w)
}

func TestShortestWayWithTailsSlackAndDress(t *testing.T) {
	h := loom()
	wire(h, part(h, "P", 0, 100, nil), part(h, "Q", 2, 150, nil), nil)
	ways, problems := route.Find(h)
	require.Empty(t, problems)
	// (1000 + 2000 + 100 + 150 + 2·50) · 1.05 = 3517.5, rounded up to 3520
	require.Equal(t, unit.Millimetre(3520), ways[0].Length)
	require.Equal(t, []route.Share{{Run: 0, Length: 1000}, {Run: 1, Length: 2000}}, ways[0].Shares)
	require.Equal(t, []harness.PlaceID{0, 1, 2}, ways[0].Places)
}

// A given length below that of the runs is advised; with via: [] the wire lies in none of them.
func TestAWireStraightAcross(t *testing.T) {
	h := loom()
	from, to := part(h, "P", 0, 0, nil), part(h, "Q", 2, 0, nil)
	wire(h, from, to, func(w *harness.Wire) { w.Length = 2900 })
	wire(h, from, to, func(w *harness.Wire) { w.Length, w.Beside = 2900, true })
	wire(h, from, to, func(w *harness.Wire) { w.Length = 3000 })
	wire(h, from, to, func(w *harness.Wire) { w.Name, w.Beside = "1D", true })
	ways, problems := route.Find(h)
	require.Len(t, problems, 2)
	require.Equal(t, []string{"shorter-than-way", "no-way"}, []string{problems[0].Slug, problems[1].Slug})
	require.Equal(t, "1A is given as 2 900 mm, and the runs on its route are 3 000 mm", strings.ReplaceAll(problems[0].Summary, "\u00a0", " "))
	require.Contains(t, problems[1].Detail, "{to: Q, length: 200 mm, via: []}")
	require.Len(t, ways[0].Shares, 2)
	require.Empty(t, ways[1].Shares)
	require.Equal(t, unit.Millimetre(2900), ways[1].Length)
	require.True(t, ways[1].Given)
}

// Two parts of one place without a tail get a wire that is only slack: said, once a place. A tail at either, a given
// length, or a splice at both ends is enough to be silent.
func TestAWireOfSlackAloneIsAdvised(t *testing.T) {
	h := loom()
	h.Places[1].Span = source.At(7, 3, 1)
	wire(h, part(h, "P", 1, 0, nil), part(h, "Q", 1, 0, nil), nil)
	wire(h, part(h, "R", 1, 0, nil), part(h, "S", 1, 0, nil), func(w *harness.Wire) { w.Name = "1B" })
	wire(h, part(h, "T", 2, 0, nil), part(h, "U", 2, 80, nil), nil)
	wire(h, part(h, "V", 3, 0, nil), part(h, "W", 3, 0, nil), func(w *harness.Wire) { w.Length = 300 })
	wire(h, part(h, "X", 0, 0, nil), part(h, "Y", 0, 0, nil), nil)
	for _, at := range []harness.TerminalID{h.Wires[4].From, h.Wires[4].To} {
		h.PartOf(at).Kind = harness.Splice
	}
	ways, problems := route.Find(h)
	require.Len(t, problems, 1)
	require.Equal(t, "slack-only", problems[0].Slug)
	require.Equal(t, source.Advice, problems[0].Level)
	require.Equal(t, 7, problems[0].Span.Start.Line)
	require.Equal(t, []string{"b", "1A", "1B"}, problems[0].Subjects)
	require.Contains(t, problems[0].Summary, "2 wires at b are no longer than the slack, 105 mm")
	require.Equal(t, unit.Millimetre(105), ways[0].Length) // 2·50 · 1.05
	require.Equal(t, unit.Millimetre(190), ways[2].Length) // (80 + 2·50) · 1.05 = 189, rounded up
}

func TestViaGoesTheLongWay(t *testing.T) {
	h := loom()
	wire(h, part(h, "P", 0, 0, nil), part(h, "Q", 1, 0, nil), func(w *harness.Wire) { w.Via = []harness.PlaceID{2} })
	ways, problems := route.Find(h)
	require.Empty(t, problems)
	// a to c is 3000 over b; then back to b, 2000: (5000 + 100) · 1.05 = 5355
	require.Equal(t, unit.Millimetre(5355), ways[0].Length)
}

func TestSpliceAlongARun(t *testing.T) {
	h := loom()
	p := part(h, "P", 0, 0, nil)
	s := part(h, "S", harness.None, 0, &harness.Along{Run: 1, Distance: 500})
	s2 := part(h, "S2", harness.None, 0, &harness.Along{Run: 1, Distance: 1900})
	wire(h, p, s, nil)
	wire(h, s, s2, nil)
	wire(h, s2, p, nil)
	ways, problems := route.Find(h)
	require.Empty(t, problems)
	require.Equal(t, unit.Millimetre(1680), ways[0].Length) // (1000 + 500 + 100) · 1.05
	require.Equal(t, []route.Share{{Run: 0, Length: 1000}, {Run: 1, Length: 500}}, ways[0].Shares)
	require.Equal(t, unit.Millimetre(1575), ways[1].Length) // (1400 + 100) · 1.05
	require.Equal(t, unit.Millimetre(3150), ways[2].Length) // (1900 + 1000 + 100) · 1.05
	require.Equal(t, []route.Share{{Run: 1, Length: 1900}, {Run: 0, Length: 1000}}, ways[2].Shares)
}

func TestGivenLengthWins(t *testing.T) {
	h := loom()
	wire(h, part(h, "P", 0, 0, nil), part(h, "Q", 3, 0, nil), func(w *harness.Wire) { w.Length = 2438.4 })
	ways, problems := route.Find(h)
	require.Empty(t, problems)
	require.Equal(t, unit.Millimetre(2438.4), ways[0].Length)
	require.True(t, ways[0].Given)
}

func TestNoWayNamesBothEnds(t *testing.T) {
	h := loom()
	wire(h, part(h, "P", 0, 0, nil), part(h, "Q", 3, 0, nil), nil)
	_, problems := route.Find(h)
	require.Len(t, problems, 1)
	require.Equal(t, "no-way", problems[0].Slug)
	require.Contains(t, problems[0].Summary, "from P to Q")
	require.Contains(t, problems[0].Summary, "no runs join a and d")
}

func TestRoundingHasNoHairOver(t *testing.T) {
	h := loom()
	h.Practice = harness.Practice{EachEnd: 0, Dress: 0.1, RoundUp: 10}
	wire(h, part(h, "P", 0, 0, nil), part(h, "Q", 1, 0, nil), nil)
	ways, _ := route.Find(h)
	require.Equal(t, unit.Millimetre(1100), ways[0].Length) // 1000 · 1.1 is a hair over 1100 in binary
}

// A jumper within one part is 100 mm, 4" on an imperial sheet, whatever tail the part has;
// a given length wins.
func TestAJumperDoesNotEnterTheLoom(t *testing.T) {
	h := loom()
	a := part(h, "K", 0, 300, nil)
	b := harness.TerminalID(len(h.Terminals))
	h.Terminals = append(h.Terminals, harness.Terminal{ID: b, Part: h.Terminals[a].Part, Full: "K.86"})
	wire(h, a, b, nil)
	wire(h, a, b, func(w *harness.Wire) { w.Length = 60 })
	ways, problems := route.Find(h)
	require.Empty(t, problems)
	require.Equal(t, unit.Millimetre(100), ways[0].Length)
	require.Empty(t, ways[0].Shares)
	require.Equal(t, unit.Millimetre(60), ways[1].Length)
	h.Sheet.Imperial = true
	ways, _ = route.Find(h)
	require.InDelta(t, 101.6, float64(ways[0].Length), 1e-9)
}
