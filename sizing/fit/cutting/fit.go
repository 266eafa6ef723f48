package cutting

// fit puts every piece into a bin: the bin of each piece, or nil. Proved tells
// that there is no way where nil is given.
func (q *question) fit(bins []int) (into []int, proved bool) {
	if sum(bins) < sum(q.pieces) || len(q.pieces) > 0 && tightest(bins, q.pieces[0]) < 0 {
		return nil, true
	}
	if into = q.byFilling(bins); into != nil {
		return into, false
	}
	if into = q.byPlacing(bins); into != nil {
		return into, false
	}
	s := &placing{q: q, room: append([]int(nil), bins...), into: make([]int, len(q.pieces)), nodes: mostNodes}
	s.spare = sum(bins) - sum(q.pieces)
	if s.place(0, 0) {
		return s.into, false
	}
	return nil, s.nodes > 0
}

// byPlacing puts the longest first where it fits tightest.
func (q *question) byPlacing(bins []int) []int {
	room := append([]int(nil), bins...)
	into := make([]int, len(q.pieces))
	for i, length := range q.pieces {
		b := tightest(room, length)
		if b < 0 {
			return nil
		}
		into[i] = b
		room[b] -= length
	}
	return into
}

func tightest(room []int, length int) int {
	best := -1
	for b, r := range room {
		if r >= length && (best < 0 || r < room[best]) {
			best = b
		}
	}
	return best
}

// byFilling fills one bin after the other as well as it can be filled.
func (q *question) byFilling(bins []int) []int {
	into := make([]int, len(q.pieces))
	rest := make([]int, len(q.pieces))
	for i := range rest {
		rest[i] = i
	}
	for b, room := range bins {
		lengths := pick(q.pieces, rest)
		taken := fullest(lengths, room)
		var others []int
		k := 0
		for i, piece := range rest {
			if k < len(taken) && taken[k] == i {
				into[piece] = b
				k++
			} else {
				others = append(others, piece)
			}
		}
		rest = others
	}
	if len(rest) > 0 {
		return nil
	}
	return into
}

func pick(list, at []int) []int {
	out := make([]int, len(at))
	for i, k := range at {
		out[i] = list[k]
	}
	return out
}

// fullest gives the pieces, ascending by place, whose sum comes nearest to a room
// without passing it (subset sum by dynamic programming over the sums that can be
// reached; the longest pieces are preferred).
func fullest(lengths []int, room int) []int {
	if sum(lengths) <= room {
		all := make([]int, len(lengths))
		for i := range all {
			all[i] = i
		}
		return all
	}
	// by[s] is the piece that first reached the sum s, plus 1.
	by := make([]int32, room+1)
	reached := []int{0}
	best := 0
	for i, length := range lengths {
		if best == room {
			break
		}
		for k := len(reached) - 1; k >= 0; k-- {
			s := reached[k] + length
			if s <= room && by[s] == 0 && s > 0 {
				by[s] = int32(i + 1)
				reached = append(reached, s)
				best = max(best, s)
			}
		}
	}
	return trace(lengths, by, best)
}

// trace walks the sums back; a sum's piece is always later than those of the sum
// below it, since each sum keeps the piece that first reached it.
func trace(lengths []int, by []int32, s int) []int {
	var back []int
	for s > 0 {
		i := int(by[s]) - 1
		back = append(back, i)
		s -= lengths[i]
	}
	for i, j := 0, len(back)-1; i < j; i, j = i+1, j-1 {
		back[i], back[j] = back[j], back[i]
	}
	return back
}

// placing is a search for a way to place all pieces.
type placing struct {
	q     *question
	room  []int
	into  []int
	spare int // what may be wasted in all
	nodes int
}

// place puts piece i and all after it; an equal piece goes no further left than
// the one before it did. Bins of equal room are tried once.
func (s *placing) place(i, from int) bool {
	if i == len(s.q.pieces) {
		return true
	}
	if s.nodes--; s.nodes <= 0 {
		return false
	}
	length := s.q.pieces[i]
	if i == 0 || s.q.pieces[i-1] != length {
		from = 0
	}
	for b := from; b < len(s.room); b++ {
		if s.room[b] < length || s.twin(b, from) {
			continue
		}
		s.room[b] -= length
		s.into[i] = b
		if s.wasted(i+1) <= s.spare && s.place(i+1, b) {
			return true
		}
		s.room[b] += length
	}
	return false
}

func (s *placing) twin(b, from int) bool {
	for c := from; c < b; c++ {
		if s.room[c] == s.room[b] {
			return true
		}
	}
	return false
}

// wasted is the room in which not even the shortest piece to come has a place.
func (s *placing) wasted(next int) int {
	if next >= len(s.q.pieces) {
		return 0
	}
	shortest, w := s.q.pieces[len(s.q.pieces)-1], 0
	for _, r := range s.room {
		if r < shortest {
			w += r
		}
	}
	return w
}
