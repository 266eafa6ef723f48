package drawing

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/loomfolio/layout/cause"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// The foot of a circuit says what to measure first when it is dead, as the proof has it: the
// first readings of the tree of its largest load; of the supply, and where there is no tree,
// the points of the longest ladder on the sheet.

// point is a reading at the foot: where, and what follows from what a meter shows.
type point struct {
	at         harness.TerminalID
	name, look string
}

// dead is the foot of a circuit: its first words and the readings.
type dead struct {
	head   string
	points []point
}

// firmArrow leads from a reading to what follows; no line ends at it.
const firmArrow = "\u00a0→\u00a0"

const (
	mostPoints = 6   // of a ladder at a foot
	treePoints = 3   // of a tree
	noGround   = 0.2 // of the system's voltage: a load's earthed side that may stand higher is no ground
	mostLines  = 1.1 // of a foot, at the width of a sheet
)

// deadOf is the foot of a job.
func (s *sheets) deadOf(j *job) dead {
	if !j.power {
		if t := s.treeOf(j); t != nil {
			return s.treeFoot(s.treeHead(j, t), t, s.h.Circuits[s.h.Wires[j.wires[0]].Circuit].Number)
		}
	}
	return dead{"Dead? Measure in this order:", s.ladderPoints(j)}
}

func (s *sheets) says() cause.Words { return cause.Words{H: s.h, P: &s.r.Proof} }

// treeOf is the tree of the load of a job that draws most; nil for none.
func (s *sheets) treeOf(j *job) *proof.Tree {
	var best *proof.Tree
	most := -1.0
	loads := s.loadElements(j)
	for i := range s.r.Proof.Trees {
		t := &s.r.Proof.Trees[i]
		if a := float64(s.h.Elements[t.Load].Amps); t.Root != nil && a > most && slices.Contains(loads, t.Load) {
			best, most = t, a
		}
	}
	return best
}

// treeHead names the load that is dead, and the state where it is another than that of the volts.
func (s *sheets) treeHead(j *job, t *proof.Tree) string {
	e := &s.h.Elements[t.Load]
	name := s.h.Parts[e.Part].Short(e.Name)
	if slices.Contains(j.states, t.State) || t.State < 0 || t.State >= len(s.h.States) {
		return name + " dead or weak?"
	}
	return name + " dead or weak? In “" + s.h.States[t.State].Name + "”:"
}

// asked is a probe of a tree with how likely it is asked.
type asked struct {
	probe *proof.Probe
	share float64
}

// firstOf are the first probes of a tree: its root, then those that are asked likeliest.
func firstOf(root *proof.Probe, most int) []*proof.Probe {
	var out []*proof.Probe
	open := []asked{{root, 1}}
	for len(open) > 0 && len(out) < most {
		best := 0
		for i, a := range open {
			if a.share > open[best].share+1e-9 {
				best = i
			}
		}
		next := open[best]
		open = slices.Delete(open, best, best+1)
		out = append(out, next.probe)
		for _, a := range next.probe.Answers {
			if a.Next != nil {
				open = append(open, asked{a.Next, next.share * a.Share})
			}
		}
	}
	return out
}

// said is how much a foot says: how many causes behind a reading, and of which answers: those that are
// at least so likely, beside those that lead to the next reading.
type said struct {
	look  int
	share float64
}

// treeFoot is the foot of a tree: the ground first (the first check in any fault: common practice,
// no source), then the first readings; it names as many causes as find room, and sends
// whoever reads something else to the circuit's ladder.
func (s *sheets) treeFoot(head string, t *proof.Tree, number string) dead {
	var d dead
	ground, first := s.groundPoint(t), firstOf(t.Root, treePoints)
	for _, much := range []said{{3, 0}, {3, 0.03}, {2, 0.03}, {2, 0.1}, {1, 0.1}, {1, 0.2}, {0, 0}} {
		points, whole := s.treePoints(first, much)
		d = dead{head, slices.Concat(ground, points)}
		if !whole {
			last := &d.points[len(d.points)-1]
			last.look = strings.TrimPrefix(last.look+"; else ladder\u00a0"+number, "; ")
		}
		if s.finds(d) {
			break
		}
	}
	return d
}

// groundPoint is the reading at the ground of a tree's load, as its ladder has it; none where the
// ladder does not go there.
func (s *sheets) groundPoint(t *proof.Tree) []point {
	earthed := s.h.Earthed(&s.h.Elements[t.Load])
	for _, l := range s.r.Proof.Ladders {
		if l.Load != t.Load {
			continue
		}
		for _, r := range l.Rungs {
			if at := s.r.Proof.Points[r.Point].At; at == earthed {
				most := max(math.Abs(float64(r.Low)), math.Abs(float64(r.High)))
				if most > noGround*float64(s.h.SystemOf(&s.h.Elements[t.Load]).Volts) {
					return nil
				}
				return []point{{at, "Ground " + s.says().Point(r.Point), "≤\u00a0" + cause.Volts(math.Ceil(most*10)/10)}}
			}
		}
	}
	return nil
}

// finds tells whether a foot finds room.
func (s *sheets) finds(d dead) bool {
	wide := 0.0
	for _, w := range footWords(d) {
		wide += w.before + w.wide()
	}
	return wide <= mostLines*s.body.W
}

// treePoints are the first readings of a tree, numbered: behind each answer the number of the next, or
// what is left. Whole tells that every answer and every cause is said.
func (s *sheets) treePoints(first []*proof.Probe, much said) (out []point, whole bool) {
	say := s.says()
	whole = true
	for i, p := range first {
		bands := bandsOf(p.Answers, func(a proof.Answer) string {
			if n := slices.Index(first, a.Next); a.Next != nil && n >= 0 {
				return strconv.Itoa(n + 1)
			}
			if a.Share < much.share {
				return ""
			}
			return some(say.Things(a.Left), much.look)
		})
		var words []string
		for k, b := range bands {
			whole = whole && b.goes != "" && !strings.HasSuffix(b.goes, more)
			if b.goes != "" {
				words = append(words, b.words(k == 0, k == len(bands)-1, bands[0].high < 0.05)+firmArrow+b.goes)
			}
		}
		if len(words) == 0 {
			words = append(words, "ladder")
		}
		out = append(out, point{s.r.Proof.Points[p.Point].At, strconv.Itoa(i+1) + " " + say.Probe(p), strings.Join(words, "; ")})
	}
	return out, whole
}

// band is what follows from readings between two limits, V.
type band struct {
	low, high float64
	goes      string
}

// bandsOf joins the answers of a probe, the highest first, without gaps: between two answers the
// limit lies half way. Neighbours that lead to the same are one.
func bandsOf(answers []proof.Answer, goes func(proof.Answer) string) []band {
	list := slices.Clone(answers)
	slices.SortStableFunc(list, func(a, b proof.Answer) int { return cmp.Compare(b.Low, a.Low) })
	var out []band
	for i, a := range list {
		b := band{low: float64(a.Low), high: float64(a.High), goes: goes(a)}
		if i > 0 {
			limit := float64(list[i-1].Low+a.High) / 2
			b.high, out[len(out)-1].low = limit, limit
		}
		if n := len(out); n > 0 && out[n-1].goes == b.goes {
			out[n-1].low = b.low
			continue
		}
		out = append(out, b)
	}
	return out
}

// words are a band's limits: those of the first and the last are open. Where all are below 0, as with
// a positive earth, they are told from 0 on.
func (b band) words(first, last, below bool) string {
	low, high := cause.Volts(b.low), cause.Volts(b.high)
	switch {
	case first && last:
		return "any"
	case first && below:
		return "0 to " + low
	case last && below:
		return "beyond " + high
	case first:
		return ">\u00a0" + low
	case last:
		return "<\u00a0" + high
	case below:
		return high + " to " + low
	}
	return low + " to " + high
}

// more ends a list that is not whole.
const more = "\u00a0more"

// some are the first of several causes, with how many there are beside them; "" for no room.
func some(list []string, most int) string {
	switch left := len(list) - most; {
	case most == 0:
		return ""
	case left > 1:
		list = append(slices.Clone(list[:most]), strconv.Itoa(left)+more)
	}
	return strings.Join(list, ", ")
}

// ladderPoints are the points of the longest ladder that lie on a job's sheet, those that
// tell nothing left out, six at most: then a point stands for those before it too.
func (s *sheets) ladderPoints(j *job) []point {
	in := setOf(append(slices.Clone(j.wires), j.lent.wires...))
	touches := func(r proof.Rung) bool {
		u := s.use[s.r.Proof.Points[r.Point].At]
		a, _ := in.only(append(slices.Clone(u.in), u.out...))
		return len(a) > 0 && len(r.Means) > 0
	}
	var best []proof.Rung
	loads := s.loadElements(j)
	for _, l := range s.r.Proof.Ladders {
		if !j.power && !slices.Contains(loads, l.Load) {
			continue
		}
		if rungs := slices.DeleteFunc(slices.Clone(l.Rungs), func(r proof.Rung) bool { return !touches(r) }); len(rungs) > len(best) {
			best = rungs
		}
	}
	return s.fewer(best)
}

// fewer words the rungs of a ladder, six at most.
func (s *sheets) fewer(rungs []proof.Rung) []point {
	say := s.says()
	var out []point
	var look []int
	for i, r := range rungs {
		for _, m := range r.Means {
			look = append(look, m.Faults...)
		}
		if left := len(rungs) - i; left > mostPoints-len(out) && left > 1 {
			continue
		}
		reads := say.Point(r.Point) + " " + cause.Volts(float64(r.Volts))
		out = append(out, point{s.r.Proof.Points[r.Point].At, reads, "no" + firmArrow + some(say.Things(s.plain(look)), 2)})
		look = nil
	}
	return out
}

// plain are the faults that are said by a name alone, all of them where none is.
func (s *sheets) plain(faults []int) []int {
	out := slices.DeleteFunc(slices.Clone(faults), func(f int) bool { return !cause.Quiet(s.r.Proof.Faults[f].Kind) })
	if len(out) == 0 {
		return faults
	}
	return out
}
