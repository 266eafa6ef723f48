package chart

import "math"

// endHigh is about what each line adds to the height of a tile with many, mm.
const endHigh = 1.2

// share is groups from First up to the next share, in a number of columns.
type share struct{ first, columns int }

// deal gives the groups to bands in their order, and columns to the bands, such that the
// fullest band is the least full.
func (s *scene) deal(columns int) {
	full, whole := s.fullness()
	n := len(full)
	// least[i][c] is the fullest band of the groups from i on with c columns, and its first share
	least := make([][]float64, n+1)
	cut := make([][]share, n+1)
	for i := range least {
		least[i] = make([]float64, columns+1)
		cut[i] = make([]share, columns+1)
		for c := range least[i] {
			if i < n || c > 0 {
				least[i][c] = math.Inf(1)
			}
		}
	}
	for i := n - 1; i >= 0; i-- {
		for c := 1; c <= columns; c++ {
			least[i][c], cut[i][c] = cheapest(i, c, full, whole, least)
		}
	}
	s.band(columns, cut, n)
}

// cheapest is the best first share of the groups from i on with c columns.
func cheapest(i, c int, full, whole []float64, least [][]float64) (float64, share) {
	best, at := math.Inf(1), share{i + 1, 1}
	for deep := 1; deep <= min(c, deepest); deep++ {
		high := 0.0
		for to := i + 1; to <= len(full); to++ {
			high += full[to-1]/float64(deep) + whole[to-1]
			if most := math.Max(high, least[to][c-deep]); most < best {
				best, at = most, share{to, deep}
			}
		}
	}
	return best, at
}

// band sets the bands as they were dealt; what no column is left for joins the last.
func (s *scene) band(columns int, cut [][]share, n int) {
	for i, c := 0, columns; i < n; {
		at := cut[i][c]
		var groups []int
		for g := i; g < at.first; g++ {
			groups = append(groups, g)
			s.bandOf[g] = len(s.bands)
		}
		s.first = append(s.first, len(s.bandAt))
		s.deep = append(s.deep, at.columns)
		for range at.columns {
			s.bandAt = append(s.bandAt, len(s.bands))
		}
		s.bands = append(s.bands, groups)
		i, c = at.first, c-at.columns
	}
}

// fullness is about the height of each group's tiles in one column, and of what it has
// above and below them in any number of columns, mm.
func (s *scene) fullness() (full, whole []float64) {
	ends := make([]float64, len(s.c.Tiles))
	for _, l := range s.c.Lines {
		ends[l.From]++
		ends[l.To]++
	}
	full, whole = make([]float64, len(s.c.Groups)), make([]float64, len(s.c.Groups))
	for g := range whole {
		whole[g] = s.c.Groups[g].H + (groupApart+groupFoot)*step
	}
	for i, t := range s.c.Tiles {
		full[t.Group] += math.Max(t.H, ends[i]*endHigh) + tileApart*step
	}
	return full, whole
}
