package table

import "math"

// sampled is how many rows at most decide the widths of a long table.
const sampled = 60

// trial knows how high the rows are for given column widths.
type trial struct {
	t     *Table
	rows  []Row
	known []map[float64][]float64 // by column, by its width: the height of its cell in each row
}

// lower moves width from column to column in ever smaller steps while that
// makes the table lower. It starts and stays between the least and the ideal widths.
func (t *Table) lower(w []float64, needs []demand) []float64 {
	try := t.trial(len(w))
	best := try.height(w)
	for _, step := range []float64{8, 4, 2, 1} {
		for try.pass(w, needs, step, &best) {
		}
	}
	return w
}

// pass tries every move of one step and keeps those that help; it tells whether any did.
func (try *trial) pass(w []float64, needs []demand, step float64, best *float64) (helped bool) {
	for from := range w {
		for to := range w {
			if from == to || w[from]-step < needs[from].least || w[to]+step/2 > needs[to].ideal {
				continue
			}
			w[from], w[to] = w[from]-step, w[to]+step
			if h := try.height(w); h < *best-0.1 {
				*best, helped = h, true
				continue
			}
			w[from], w[to] = w[from]+step, w[to]-step
		}
	}
	return helped
}

// trial takes evenly spaced rows of a long table; headings do not count.
func (t *Table) trial(columns int) *trial {
	try := &trial{t: t, known: make([]map[float64][]float64, columns)}
	every := max(1, len(t.Rows)/sampled)
	for i := 0; i < len(t.Rows); i += every {
		if t.Rows[i].Kind != Group {
			try.rows = append(try.rows, t.Rows[i])
		}
	}
	for i := range try.known {
		try.known[i] = map[float64][]float64{}
	}
	return try
}

// height is that of the sampled rows together.
func (try *trial) height(w []float64) float64 {
	columns := make([][]float64, len(w))
	for i := range w {
		columns[i] = try.column(i, math.Ceil(w[i]*100-1e-6)/100)
	}
	sum := 0.0
	for r := range try.rows {
		high := 0.0
		for i := range columns {
			high = math.Max(high, columns[i][r])
		}
		sum += high
	}
	return sum
}

// column gives the height of each row's cell in a column of a width; cells over
// several columns do not count.
func (try *trial) column(i int, width float64) []float64 {
	if known, ok := try.known[i][width]; ok {
		return known
	}
	heights := make([]float64, len(try.rows))
	align := try.t.Columns[i].Align
	for r, row := range try.rows {
		if c, span := row.at(i); span == 1 {
			b := box{cell: c, column: i, w: width}
			b.lines = try.t.wrap(b, row.Kind, align)
			heights[r] = b.textHeight()
		}
	}
	try.known[i][width] = heights
	return heights
}
