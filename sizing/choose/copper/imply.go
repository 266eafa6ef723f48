package copper

import "math"

// possible keeps the demands that the highest rungs meet.
func possible(posts []post, lines []line) []line {
	var out []line
	for i := range lines {
		if lines[i].drop(posts, true) <= lines[i].limit {
			out = append(out, lines[i])
		}
	}
	return out
}

// lift takes away the low rungs on which a line is not met even with all its
// other posts on their highest: no allowed set has them.
func (t *thinned) lift() {
	for i := range t.lines {
		l := &t.lines[i]
		room := l.limit + l.slack - l.drop(t.posts, true)
		for _, x := range l.terms {
			p := &t.posts[x.Group]
			top := p.rungs[len(p.rungs)-1].ohms
			low := 0
			for low < len(p.rungs)-1 && x.Amps*(p.rungs[low].ohms-top) > room {
				low++
			}
			p.rungs = p.rungs[low:]
		}
	}
}

// pressing keeps the demands that the lowest rungs do not meet.
func pressing(posts []post, lines []line) []line {
	var out []line
	for i := range lines {
		if lines[i].drop(posts, false) > lines[i].limit {
			out = append(out, lines[i])
		}
	}
	return out
}

// needful leaves out each line that another implies. One that is left out is
// implied by one that was still there, and so by one that stays.
func needful(posts []post, lines []line) []line {
	n := newImplying(posts, lines)
	with := make([][]int, len(posts))
	for i := range lines {
		for _, x := range lines[i].terms {
			with[x.Group] = append(with[x.Group], i)
		}
	}
	gone, asked := make([]bool, len(lines)), make([]int, len(lines))
	out := []line{}
	for i := range lines {
		for _, x := range lines[i].terms {
			for _, j := range with[x.Group] {
				if gone[i] || gone[j] || j == i || asked[j] == i+1 {
					continue
				}
				asked[j] = i + 1
				gone[i] = n.implies(j, i)
			}
		}
		if !gone[i] {
			out = append(out, lines[i])
		}
	}
	return out
}

// roundedUp lets a proportional line be implied in spite of rounding. A chain of
// thousands stays within what the search leaves of the allowance.
const roundedUp = 1 + 1e-4

// implying asks whether whatever meets one line meets another too. Amps are by
// post and line; spans are what ohms a post can still lose, rooms what is left
// of a line's limit when its posts have lost all of them.
type implying struct {
	lines []line
	span  []float64 // by post
	room  []float64 // by line
	amps  []float64 // by post: those of one line
}

func newImplying(posts []post, lines []line) *implying {
	n := &implying{lines: lines, span: make([]float64, len(posts)), room: make([]float64, len(lines)), amps: make([]float64, len(posts))}
	for v, p := range posts {
		if len(p.rungs) > 0 {
			n.span[v] = p.rungs[0].ohms - p.rungs[len(p.rungs)-1].ohms
		}
	}
	for i := range lines {
		n.room[i] = lines[i].limit - lines[i].drop(posts, true)
	}
	return n
}

// implies tells whether line b implies line a. For any weight w >= 0, whatever
// the rungs,
//
//	drop a - limit a <= w (drop b - limit b) + over(w)
//
// where over is w times b's room less a's room, and for each post the most that
// its span can add to a's drop beyond w times b's. So b implies a when over is
// not above 0 for some w. It is convex, in straight pieces that meet where w is
// the ratio of a post's currents in both: those are tried. It must leave a's
// slack when b uses its own.
func (n *implying) implies(b, a int) bool {
	for _, x := range n.lines[b].terms {
		n.amps[x.Group] = x.Amps
	}
	ok := false
	from, to := n.weights(b, a)
	for _, x := range n.lines[a].terms {
		if other := n.amps[x.Group]; other > 0 && !ok {
			w := x.Amps / other
			slack := n.lines[a].slack*roundedUp - w*n.lines[b].slack
			ok = w >= from*(1-1e-6) && w <= to*(1+1e-6) && n.over(b, a, w) <= slack
		}
	}
	for _, x := range n.lines[b].terms {
		n.amps[x.Group] = 0
	}
	return ok
}

func (n *implying) over(b, a int, w float64) float64 {
	sum := w*n.room[b] - n.room[a]
	for _, x := range n.lines[a].terms {
		sum += max(0, x.Amps-w*n.amps[x.Group]) * n.span[x.Group]
	}
	return sum
}

// weights gives the range outside of which over is above 0 for certain.
func (n *implying) weights(b, a int) (from, to float64) {
	all, both, alone := -n.room[a], -n.room[b], -n.room[a]
	for _, x := range n.lines[a].terms {
		all += x.Amps * n.span[x.Group]
		both += n.amps[x.Group] * n.span[x.Group]
		if n.amps[x.Group] == 0 {
			alone += x.Amps * n.span[x.Group]
		}
	}
	if !(both > 0) {
		return 1, 0
	}
	if n.room[b] > 0 {
		return all / both, -alone / n.room[b]
	}
	return all / both, math.Inf(1)
}
