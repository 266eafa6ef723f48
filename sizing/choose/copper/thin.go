package copper

import (
	"cmp"
	"fmt"
	"slices"
)

// rung is a step of a post: a size of each of its groups.
type rung struct {
	mass, ohms float64
	steps      []int // by member
}

// post is one group, or several whose currents stand in one proportion in every
// demand. Its rungs go up in mass and down in ohms.
type post struct {
	members []int
	rungs   []rung
	uses    []use
}

// use is a post's part in a demand: its drop there is amps * ohms.
type use struct {
	demand int
	amps   float64
}

func (p *post) put(i int, step []int) {
	for k, g := range p.members {
		step[g] = p.rungs[i].steps[k]
	}
}

// line is a demand between posts.
type line struct {
	limit float64
	slack float64 // what rounding may add to a drop
	terms []Term  // Group counts posts
}

// thinned is a problem without what cannot matter. Step holds the groups that
// are decided already.
type thinned struct {
	step  []int
	posts []post
	lines []line
}

// thin decides what is plain and joins the rest.
func thin(p *Problem) *thinned {
	t := &thinned{step: make([]int, len(p.Groups))}
	posts := make([]post, len(p.Groups))
	for g, sizes := range p.Groups {
		floor := 0
		if g < len(p.Floor) {
			floor = min(max(p.Floor[g], 0), max(len(sizes)-1, 0))
		}
		posts[g] = post{members: []int{g}, rungs: ladder(sizes, floor)}
	}
	lines := t.demands(p)
	forceHopeless(posts, lines)
	t.posts, t.lines = posts, possible(posts, lines)
	t.reduce()
	return t
}

// reduce takes the lowest rungs as decided where nothing asks for more, and puts
// aside what cannot matter. All lines must be such that the highest rungs meet.
func (t *thinned) reduce() {
	t.lift()
	for v := range t.posts {
		if len(t.posts[v].rungs) > 0 {
			t.posts[v].put(0, t.step)
		}
	}
	t.lines = pressing(t.posts, t.lines)
	t.settle()
	t.lines = needful(t.posts, t.lines)
	t.number()
	t.join()
}

// ladder lists the sizes from the floor up that are worth having: heavier only
// where the resistance is less.
func ladder(sizes []Size, floor int) []rung {
	var out []rung
	for i := floor; i < len(sizes); i++ {
		out = append(out, rung{sizes[i].Mass, sizes[i].Ohms, []int{i}})
	}
	return worthwhile(out)
}

func worthwhile(rungs []rung) []rung {
	slices.SortStableFunc(rungs, func(a, b rung) int {
		return cmp.Or(cmp.Compare(a.mass, b.mass), cmp.Compare(a.ohms, b.ohms))
	})
	out := rungs[:0]
	for _, r := range rungs {
		if len(out) == 0 || r.ohms < out[len(out)-1].ohms {
			out = append(out, r)
		}
	}
	return out
}

// demands makes the demands with each group once, those without current left out.
func (t *thinned) demands(p *Problem) []line {
	out := make([]line, len(p.Demands))
	place := make([]int, len(p.Groups))
	for i := range p.Demands {
		d := &p.Demands[i]
		l := line{limit: d.Limit + 0.9*d.room(), slack: 0.05 * d.room()}
		for _, x := range d.Terms {
			if !p.counts(x) {
				continue
			}
			if k := place[x.Group]; k > 0 {
				l.terms[k-1].Amps += x.Amps
				continue
			}
			l.terms = append(l.terms, x)
			place[x.Group] = len(l.terms)
		}
		for _, x := range l.terms {
			place[x.Group] = 0
		}
		out[i] = l
	}
	return out
}

// drop gives a line's drop with every post on its lowest or its highest rung.
func (l *line) drop(posts []post, highest bool) float64 {
	sum := 0.0
	for _, x := range l.terms {
		rungs := posts[x.Group].rungs
		i := 0
		if highest {
			i = len(rungs) - 1
		}
		sum += x.Amps * rungs[i].ohms
	}
	return sum
}

// forceHopeless puts the posts of each demand that cannot be met on their
// highest rung: that alone violates it least.
func forceHopeless(posts []post, lines []line) {
	var hopeless []int
	for i := range lines {
		if !(lines[i].drop(posts, true) <= lines[i].limit) {
			hopeless = append(hopeless, i)
		}
	}
	for _, i := range hopeless {
		for _, x := range lines[i].terms {
			p := &posts[x.Group]
			p.rungs = p.rungs[len(p.rungs)-1:]
		}
	}
}

// settle takes posts without a choice out of the lines.
func (t *thinned) settle() {
	for i := range t.lines {
		l := &t.lines[i]
		open := []Term{}
		for _, x := range l.terms {
			if rungs := t.posts[x.Group].rungs; len(rungs) == 1 {
				l.limit -= x.Amps * rungs[0].ohms
			} else {
				open = append(open, x)
			}
		}
		l.terms = open
	}
}

// number lists the uses of every post and drops the posts without one.
func (t *thinned) number() {
	for v := range t.posts {
		t.posts[v].uses = nil
	}
	for i, l := range t.lines {
		for _, x := range l.terms {
			t.posts[x.Group].uses = append(t.posts[x.Group].uses, use{i, x.Amps})
		}
	}
	at := make([]int, len(t.posts))
	var kept []post
	for v, p := range t.posts {
		at[v] = len(kept)
		if len(p.uses) > 0 {
			kept = append(kept, p)
		}
	}
	for i := range t.lines {
		for k := range t.lines[i].terms {
			t.lines[i].terms[k].Group = at[t.lines[i].terms[k].Group]
		}
	}
	t.posts = kept
}

// mostJoined bounds the rungs of a joined post.
const mostJoined = 160

// join makes one post of those with proportional currents in the same demands:
// for each total of ohms only the lightest pair counts.
func (t *thinned) join() {
	first := map[string][]int{}
	into := map[int]bool{}
	for v := range t.posts {
		key := t.posts[v].through()
		joined := false
		for _, w := range first[key] {
			if ratio, ok := proportion(t.posts[w].uses, t.posts[v].uses); ok && t.posts[w].take(&t.posts[v], ratio) {
				joined = true
				break
			}
		}
		if joined {
			into[v] = true
		} else {
			first[key] = append(first[key], v)
		}
	}
	for i := range t.lines {
		t.lines[i].terms = slices.DeleteFunc(t.lines[i].terms, func(x Term) bool { return into[x.Group] })
	}
	t.number()
}

func (p *post) through() string {
	var b []byte
	for _, u := range p.uses {
		b = fmt.Appendf(b, "%d ", u.demand)
	}
	return string(b)
}

// proportion gives b's current over a's when it is the same in all demands.
func proportion(a, b []use) (float64, bool) {
	ratio := b[0].amps / a[0].amps
	for k := range a {
		if r := b[k].amps / a[k].amps; r > ratio*(1+1e-11) || r < ratio*(1-1e-11) {
			return 0, false
		}
	}
	return ratio, true
}

func (p *post) take(q *post, ratio float64) bool {
	out := make([]rung, 0, len(p.rungs)*len(q.rungs))
	for _, a := range p.rungs {
		for _, b := range q.rungs {
			out = append(out, rung{a.mass + b.mass, a.ohms + ratio*b.ohms, slices.Concat(a.steps, b.steps)})
		}
	}
	out = worthwhile(out)
	if len(out) > mostJoined {
		return false
	}
	p.rungs = out
	p.members = slices.Concat(p.members, q.members)
	return true
}

// parts splits what does not hang together, in the order of the first post.
func (t *thinned) parts() []*part {
	of := make([]int, len(t.posts))
	for v := range of {
		of[v] = -1
	}
	count := 0
	for v := range t.posts {
		if of[v] < 0 {
			t.flood(v, count, of)
			count++
		}
	}
	out := make([]*part, count)
	for c := range out {
		out[c] = &part{}
	}
	at := make([]int, len(t.posts))
	for v, p := range t.posts {
		at[v] = len(out[of[v]].posts)
		p.uses = nil
		out[of[v]].posts = append(out[of[v]].posts, p)
	}
	for _, l := range t.lines {
		out[of[l.terms[0].Group]].add(l, at)
	}
	return out
}

func (t *thinned) flood(v, c int, of []int) {
	todo := []int{v}
	of[v] = c
	for len(todo) > 0 {
		p := t.posts[todo[len(todo)-1]]
		todo = todo[:len(todo)-1]
		for _, u := range p.uses {
			for _, x := range t.lines[u.demand].terms {
				if of[x.Group] < 0 {
					of[x.Group] = c
					todo = append(todo, x.Group)
				}
			}
		}
	}
}
