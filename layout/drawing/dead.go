package drawing

import (
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
	mostPoints = 6 // of a ladder at a foot
	treePoints = 3 // of a tree
	mostLook   = 2 // causes that are named behind a reading
)

// deadOf is the foot of a job.
func (s *sheets) deadOf(j *job) dead {
	if !j.power {
		if t := s.treeOf(j); t != nil {
			return s.treeFoot(s.treeHead(j, t), t.Root)
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
	name, _, _ := strings.Cut(s.h.Elements[t.Load].Name, "-")
	if slices.Contains(j.states, t.State) || t.State < 0 || t.State >= len(s.h.States) {
		return name + " dead?"
	}
	return name + " dead? In “" + s.h.States[t.State].Name + "”:"
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

// said is how much a foot says: bands of readings at a point, and causes behind each.
type said struct{ bands, look int }

// treeFoot is the foot of a tree: it says as much as stands on a line.
func (s *sheets) treeFoot(head string, root *proof.Probe) dead {
	var d dead
	for _, much := range []said{{4, mostLook}, {3, mostLook}, {3, 1}, {2, mostLook}, {2, 1}} {
		if d = (dead{head, s.treePoints(root, much)}); s.onALine(d) {
			break
		}
	}
	return d
}

// onALine tells whether a foot stands on one line of a sheet.
func (s *sheets) onALine(d dead) bool {
	wide := 0.0
	for _, w := range footWords(d) {
		wide += w.before + w.wide()
	}
	return wide <= s.body.W
}

// treePoints are the first readings of a tree, numbered: behind each answer the number of the next, or what is left.
func (s *sheets) treePoints(root *proof.Probe, much said) []point {
	say := s.says()
	first := firstOf(root, treePoints)
	var out []point
	for i, p := range first {
		var look []string
		for _, a := range likeliest(p.Answers, first, much.bands) {
			goes := some(say.Things(a.Left), much.look)
			if n := slices.Index(first, a.Next); a.Next != nil && n >= 0 {
				goes = strconv.Itoa(n + 1)
			}
			look = append(look, cause.Band(a.Low, a.High)+firmArrow+goes)
		}
		out = append(out, point{s.r.Proof.Points[p.Point].At, strconv.Itoa(i+1) + " " + say.Probe(p), strings.Join(look, "; ")})
	}
	return out
}

// likeliest are the answers that lead to a point of the foot, and the likeliest of the others, in their order.
func likeliest(answers []proof.Answer, first []*proof.Probe, most int) []proof.Answer {
	rank := func(a proof.Answer) float64 {
		if a.Next != nil && slices.Contains(first, a.Next) {
			return 1 + a.Share
		}
		return a.Share
	}
	out := slices.Clone(answers)
	for len(out) > most {
		least := 0
		for i, a := range out {
			if rank(a) < rank(out[least]) {
				least = i
			}
		}
		out = slices.Delete(out, least, least+1)
	}
	return out
}

// some are the first of several causes.
func some(list []string, most int) string {
	if len(list) > most {
		list = append(slices.Clone(list[:most]), "…")
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
		out = append(out, point{s.r.Proof.Points[r.Point].At, reads, "no" + firmArrow + some(say.Things(s.plain(look)), mostLook)})
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
