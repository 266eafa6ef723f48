package drawing

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// drawnSample is a sample with its jobs laid out, and its sheets.
type drawnSample struct {
	name     string
	s        *sheets
	jobs     []*job
	pages    []leaf
	drawings []Drawing
}

// eachSample lays the samples out on A4.
func eachSample(t *testing.T, do func(t *testing.T, d drawnSample)) {
	for _, sample := range samples.List() {
		h, r := worked.Out(t, sample)
		t.Run(sample.Name, func(t *testing.T) {
			s := newSheets(h, r, body(t, "A4").Body)
			d := drawnSample{name: sample.Name, s: s, jobs: s.jobs()}
			d.drawings = slices.DeleteFunc(s.drawings(d.jobs), func(d Drawing) bool { return len(d.Circuits) == 0 })
			d.pages = s.pack(s.blocks(d.jobs))
			do(t, d)
		})
	}
}

// TestEveryWireHasItsFlag: each wire has the anchor of its flag once, on a sheet of its
// circuit, at a text with its name.
func TestEveryWireHasItsFlag(t *testing.T) {
	eachSample(t, func(t *testing.T, d drawnSample) {
		count := map[string]int{}
		for _, sh := range d.drawings {
			for _, m := range sh.Marks {
				a, ok := m.(sheet.Anchor)
				if !ok || !strings.HasPrefix(a.Name, "drawn/") {
					continue
				}
				name := strings.TrimPrefix(a.Name, "drawn/")
				count[name]++
				at := slices.IndexFunc(d.s.h.Wires, func(w harness.Wire) bool { return w.Name == name })
				require.Contains(t, sh.Circuits, d.s.h.Wires[at].Circuit, name)
				require.True(t, near(sh.Marks, name, a.X, a.Y, 22), "no flag %s at its anchor", name)
			}
		}
		for _, w := range d.s.h.Wires {
			require.Equal(t, 1, count[w.Name], w.Name)
		}
	})
}

// near tells whether a text stands so near to a place.
func near(marks []sheet.Mark, s string, x, y, within float64) bool {
	return slices.ContainsFunc(marks, func(m sheet.Mark) bool {
		t, ok := m.(sheet.Text)
		return ok && (t.S == s || strings.HasPrefix(t.S, s+"  ")) && abs(t.X-x) <= within && abs(t.Y-y) <= within
	})
}

// TestEveryPartIsOnItsCircuit: every part on which a wire of a circuit lands is a tile
// there, with a pin for that wire; of a load that is fed there the way back to a ground or a bus is drawn too.
func TestEveryPartIsOnItsCircuit(t *testing.T) {
	eachSample(t, func(t *testing.T, d drawnSample) {
		for _, j := range d.jobs {
			for _, w := range j.wires {
				for _, at := range []harness.TerminalID{d.s.h.Wires[w].From, d.s.h.Wires[w].To} {
					require.True(t, shownOn(j.strips, at), "%s: %s of wire %s has no tile", circuitName(d.s.h.Circuits[j.circuits[0]]), d.s.h.Terminals[at].Full, d.s.h.Wires[w].Name)
				}
			}
			returned(t, d.s, j)
		}
	})
}

// returned asks that each load fed on a job has a wire on its other end there too, if it
// has one anywhere that leads over joints to a ground.
func returned(t *testing.T, s *sheets, j *job) {
	for _, st := range j.strips {
		in := setOf(st.all())
		for _, id := range s.partsOf(st.wires) {
			for _, e := range s.h.Parts[id].Elements {
				x := &s.h.Elements[e]
				if x.Kind != harness.Load || len(s.landingOn([][]harness.TerminalID{{s.h.Live(x)}}, in)) == 0 {
					continue
				}
				back := s.h.Earthed(x)
				if way := s.toGround(set{}, back, farthest); back > 0 && way != nil {
					require.NotEmpty(t, s.landingOn([][]harness.TerminalID{{back}}, in), "%s has no ground on %s", x.Name, circuitName(s.h.Circuits[j.circuits[0]]))
				}
			}
		}
	}
}

// shownOn tells whether a tile on one of some strips has a pin of a terminal.
func shownOn(strips []*strip, at harness.TerminalID) bool {
	for _, st := range strips {
		for _, n := range st.graph.nodes {
			for _, p := range n.tile.Pins {
				if n.kind != asTag && p.Terminal == at {
					return true
				}
			}
		}
	}
	return false
}

// TestFewReferences: at most 1.5 a sheet.
func TestFewReferences(t *testing.T) {
	eachSample(t, func(t *testing.T, d drawnSample) {
		tags := 0
		for _, st := range allStrips(d.jobs) {
			tags += len(st.lent.tagged)
		}
		t.Logf("%d references on %d sheets", tags, len(d.pages))
		require.LessOrEqual(t, float64(tags), 1.5*float64(len(d.pages)))
	})
}

// TestNoCircuitIsSplitInVain: one that fits a sheet stands on one, on every paper, and
// the circuits stand in the order of their numbers.
func TestNoCircuitIsSplitInVain(t *testing.T) {
	for _, sample := range samples.List() {
		h, r := worked.Out(t, sample)
		for _, paper := range frame.Papers() {
			s := newSheets(h, r, body(t, paper).Body)
			jobs := s.jobs()
			blocks := map[*job]int{}
			var order []harness.CircuitID
			for _, p := range s.pack(s.blocks(jobs)) {
				for _, row := range p {
					for _, b := range row {
						blocks[b.b.job]++
						order = append(order, b.b.circuits[0])
					}
				}
			}
			for _, j := range jobs {
				s.states = j.states
				whole := slices.ContainsFunc(j.strips, func(st *strip) bool { return st.part })
				require.True(t, blocks[j] == 1 || whole || s.lowest(s.block(j, j.strips, true, "")) > s.body.H, "%s on %s is split", circuitName(h.Circuits[j.circuits[0]]), paper)
			}
			if jobs[0].power {
				order = order[blocks[jobs[0]]:]
			}
			ranks := s.inOrder()
			require.True(t, slices.IsSortedFunc(order, func(a, b harness.CircuitID) int { return slices.Index(ranks, a) - slices.Index(ranks, b) }), "%s on %s", sample.Name, paper)
		}
	}
}

// TestPowerComesFirst: on the first sheet stand the battery with both posts, the
// alternator and the starter where there are any, and the feed of every panel that hangs
// on nothing but fuses and posts.
func TestPowerComesFirst(t *testing.T) {
	feeds := map[string]string{
		"kestrel": "FB.in FX.in FD.bat FE.bat ST.30", "camper": "FB1.bar FB2.bar FP1.30 FP2.main",
		"tender": "FB.live STA.30", "first": "MF1.1 MF2.1 MF3.1 MF4.1",
	}
	eachSample(t, func(t *testing.T, d drawnSample) {
		require.True(t, d.jobs[0].power)
		for _, full := range strings.Fields(feeds[d.name]) {
			at := slices.IndexFunc(d.s.h.Terminals, func(x harness.Terminal) bool { return x.Full == full })
			require.True(t, shownOn(d.jobs[0].strips, harness.TerminalID(at)), full)
		}
		require.True(t, d.pages[0][0][0].b.power)
		for i := range d.s.h.Parts {
			p := &d.s.h.Parts[i]
			switch p.Kind {
			case harness.Battery:
				for _, at := range p.Terminals {
					require.True(t, shownOn(d.jobs[0].strips, at), d.s.h.Terminals[at].Full)
				}
			case harness.Alternator:
				require.True(t, slices.ContainsFunc(p.Terminals, func(at harness.TerminalID) bool { return shownOn(d.jobs[0].strips, at) }), p.Ref)
			}
		}
	})
}

// TestVoltsStandAtThePins: under each pin of a tile, behind the name of each joint and
// ground, the volts of the circuit's own state, in which its loads are on.
func TestVoltsStandAtThePins(t *testing.T) {
	eachSample(t, func(t *testing.T, d drawnSample) {
		for _, j := range d.jobs {
			d.s.states = j.states
			require.NotEmpty(t, j.states)
			loads := d.s.loadsOfJob(j)
			if on := func(l int) bool { return len(d.s.r.Loads[l].On) > 0 }; slices.ContainsFunc(loads, on) && !j.power {
				first := d.s.r.States[j.states[0]].Name
				require.True(t, slices.ContainsFunc(loads, func(l int) bool { return slices.Contains(d.s.r.Loads[l].On, first) }))
			}
			for _, st := range j.strips {
				for _, n := range st.graph.nodes {
					if n.part < 0 || n.kind == asTag {
						continue
					}
					for _, p := range n.tile.Pins {
						for _, v := range d.s.voltsAt(p.Terminal) {
							require.True(t, saysVolts(n, v) || saysTwin(d, n, p.Terminal) || n.kind == asRail || n.kind == asEnd, "%s has no %s V", d.s.h.Terminals[p.Terminal].Full, v)
						}
					}
				}
			}
		}
	})
}

// saysTwin tells that a pin says the volts of the other half of its cavity, which may round the
// other way.
func saysTwin(d drawnSample, n node, at harness.TerminalID) bool {
	cavity := d.s.h.Terminals[at].Cavity
	for _, t := range d.s.h.PartOf(at).Terminals {
		if cavity != "" && t != at && d.s.h.Terminals[t].Cavity == cavity && slices.ContainsFunc(d.s.voltsAt(t), func(v string) bool { return saysVolts(n, v) }) {
			return true
		}
	}
	return false
}

func saysVolts(n node, v string) bool {
	return slices.ContainsFunc(n.tile.Marks, func(m sheet.Mark) bool {
		t, ok := m.(sheet.Text)
		return ok && t.Face == sheet.Bold && (t.S == v || strings.HasSuffix(t.S, "  "+v) || strings.HasSuffix(t.S, " / "+v) || strings.Contains(t.S, "  "+v+" / ") || strings.Contains(" / "+t.S, " / "+v+" / "))
	})
}

// TestFootIsOfTheProof: the first readings of the tree of the largest load, its root first,
// or where there is none the points of a ladder, six at most; each says what follows.
func TestFootIsOfTheProof(t *testing.T) {
	eachSample(t, func(t *testing.T, d drawnSample) {
		for _, j := range d.jobs {
			foot := d.s.deadOf(j)
			require.LessOrEqual(t, len(foot.points), mostPoints)
			for _, p := range foot.points {
				require.NotEmpty(t, p.look)
				require.NotEmpty(t, p.name)
			}
			tree := d.s.treeOf(j)
			if tree == nil || j.power {
				continue
			}
			first := firstOf(tree.Root, treePoints)
			points := foot.points[len(d.s.groundPoint(tree)):]
			require.Len(t, points, len(first))
			for i, p := range first {
				require.Equal(t, d.s.r.Proof.Points[p.Point].At, points[i].at)
				require.True(t, strings.HasPrefix(points[i].name, fmt.Sprint(i+1)))
			}
		}
	})
}

// TestBandsLeaveNoGap: every reading belongs to one band, whatever the answers foresaw.
func TestBandsLeaveNoGap(t *testing.T) {
	eachSample(t, func(t *testing.T, d drawnSample) {
		for i := range d.s.r.Proof.Trees {
			tree := &d.s.r.Proof.Trees[i]
			if tree.Root == nil {
				continue
			}
			bands := bandsOf(tree.Root.Answers, func(a proof.Answer) string { return fmt.Sprint(a.Left) })
			for k := 1; k < len(bands); k++ {
				require.Equal(t, bands[k].high, bands[k-1].low)
				require.Less(t, bands[k].low, bands[k].high)
			}
			for _, a := range tree.Root.Answers {
				mid := float64(a.Low+a.High) / 2
				at := slices.IndexFunc(bands, func(b band) bool { return mid >= b.low && mid <= b.high })
				require.GreaterOrEqual(t, at, 0)
				require.Equal(t, fmt.Sprint(a.Left), bands[at].goes)
			}
		}
	})
}

func TestBandsBelowZero(t *testing.T) {
	bands := []band{{-1.5, 0, "2"}, {-5.2, -1.5, "3"}, {-6.2, -5.2, "4"}}
	require.Equal(t, []string{"0 to −1.5", "−1.5 to −5.2", "beyond −5.2"}, []string{bands[0].words(true, false, true), bands[1].words(false, false, true), bands[2].words(false, true, true)})
	require.Equal(t, []string{">\u00a09.5", "0.5 to 9.5", "<\u00a00.5", "any"}, []string{band{9.5, 12, ""}.words(true, false, false), band{0.5, 9.5, ""}.words(false, false, false), band{0, 0.5, ""}.words(false, true, false), band{0, 1, ""}.words(true, true, false)})
}

// TestFirstReadings: the root, then what is asked likeliest, and no more than there are.
func TestFirstReadings(t *testing.T) {
	leaf := func(point int) *proof.Probe { return &proof.Probe{Point: point} }
	deep := &proof.Probe{Point: 2, Answers: []proof.Answer{{Share: 0.9, Next: leaf(3)}, {Share: 0.1}}}
	root := &proof.Probe{Point: 1, Answers: []proof.Answer{{Share: 0.3, Next: leaf(4)}, {Share: 0.7, Next: deep}}}
	require.Equal(t, []int{1, 2, 3, 4}, pointsOf(firstOf(root, 9)))
	require.Equal(t, []int{1, 2, 3}, pointsOf(firstOf(root, treePoints)))
	require.Equal(t, []int{4}, pointsOf(firstOf(leaf(4), treePoints)))
}

func pointsOf(probes []*proof.Probe) (out []int) {
	for _, p := range probes {
		out = append(out, p.Point)
	}
	return out
}
