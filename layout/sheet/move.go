package sheet

// Move gives the marks shifted by dx, dy mm; the marks themselves stay as they are.
func Move(marks []Mark, dx, dy float64) []Mark { return placed(marks, 1, dx, dy) }

// Scale gives the marks with every length about the origin times k, text sizes
// and line widths included.
func Scale(marks []Mark, k float64) []Mark { return placed(marks, k, 0, 0) }

func placed(marks []Mark, k, dx, dy float64) []Mark {
	out := make([]Mark, 0, len(marks))
	for _, m := range marks {
		out = append(out, place(m, k, dx, dy))
	}
	return out
}

func place(m Mark, k, dx, dy float64) Mark {
	switch m := m.(type) {
	case Text:
		m.X, m.Y, m.Size = k*m.X+dx, k*m.Y+dy, k*m.Size
		return m
	case Path:
		return placePath(m, k, dx, dy)
	case Link:
		m.X, m.Y, m.W, m.H = k*m.X+dx, k*m.Y+dy, k*m.W, k*m.H
		return m
	case Anchor:
		m.X, m.Y = k*m.X+dx, k*m.Y+dy
		return m
	case Picture:
		m.X, m.Y, m.W, m.H = k*m.X+dx, k*m.Y+dy, k*m.W, k*m.H
		return m
	}
	return m
}

func placePath(p Path, k, dx, dy float64) Path {
	at := func(q Point) Point { return Point{k*q.X + dx, k*q.Y + dy} }
	control := func(q *Point) *Point {
		if q == nil {
			return nil
		}
		moved := at(*q)
		return &moved
	}
	segs := make([]Seg, len(p.Segs))
	for i, s := range p.Segs {
		segs[i] = Seg{P: at(s.P), C1: control(s.C1), C2: control(s.C2)}
	}
	p.Start, p.Segs = at(p.Start), segs
	if p.Stroke != nil && k != 1 {
		p.Stroke = p.Stroke.scaled(k)
	}
	return p
}

func (s Stroke) scaled(k float64) *Stroke {
	s.Width *= k
	dash := make([]float64, len(s.Dash))
	for i, d := range s.Dash {
		dash[i] = k * d
	}
	s.Dash = dash
	return &s
}
