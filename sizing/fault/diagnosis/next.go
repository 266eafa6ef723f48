package diagnosis

import (
	"cmp"
	"slices"

	"example.com/loomfolio/sizing/fault/probe"
	"example.com/loomfolio/sizing/fault/tree"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// remaining is the faults that remain as a case for measurements.
func (e *evidence) remaining(list []int, state int) tree.Case {
	seen := e.seen[state]
	return tree.Case{
		Harness: e.Harness, Points: e.Points, Faults: e.faults, Load: harness.None, State: state, Suspects: list,
		Volts: func(suspect, point int) float64 { return seen[list[suspect]].At(point) },
		Sound: e.Book.Sound(state).At,
	}
}

// next is the measurement that is expected to tell most a minute; nil where none tells anything.
func (e *evidence) next(c tree.Case, asks []tree.Ask, left []proof.Suspect) *proof.Asked {
	shares := make([]float64, len(left))
	for i, x := range left {
		shares[i] = x.Share
	}
	best, rate := none, 0.0
	for i, a := range asks {
		if r := probe.Doubtful(shares, chances(a)) / a.Minutes; r > rate+1e-9 {
			best, rate = i, r
		}
	}
	if best == none {
		return nil
	}
	return &proof.Asked{State: c.State, Probe: e.asked(asks[best], left), On: e.needed(c)}
}

// open are the measurements that were not told yet, and do not follow from two that were; of
// what comes and goes all.
func (e *evidence) open(asks []tree.Ask, state int) []tree.Ask {
	if e.told.Sometimes {
		return asks
	}
	known := map[int]bool{proof.None: true}
	across := map[[2]int]bool{}
	for _, r := range e.told.Reads {
		if r.State != state {
			continue
		}
		if across[[2]int{r.Point, r.Against}] = true; r.Against == proof.None {
			known[r.Point] = true
		}
	}
	return slices.DeleteFunc(slices.Clone(asks), func(a tree.Ask) bool {
		return across[[2]int{a.Point, a.Against}] || known[a.Point] && known[a.Against]
	})
}

// chances is by suspect how likely each answer of a measurement is, wrong ones reckoned with.
func chances(a tree.Ask) [][]float64 {
	rows := make([][]float64, len(a.Bands))
	for k := range rows {
		rows[k] = slices.Repeat([]float64{Wrong / float64(max(1, len(rows)-1))}, len(rows))
		rows[k][k] = 1 - Wrong
	}
	out := make([][]float64, len(a.Answer))
	for i, k := range a.Answer {
		out[i] = rows[k]
	}
	return out
}

// asked is a measurement with the faults that each answer leaves.
func (e *evidence) asked(a tree.Ask, left []proof.Suspect) proof.Probe {
	p := proof.Probe{Point: a.Point, Against: a.Against}
	for k := len(a.Bands) - 1; k >= 0; k-- {
		x := proof.Answer{Low: a.Bands[k].Low, High: a.Bands[k].High, Says: a.Bands[k].Says}
		for i, s := range left {
			if a.Answer[i] == k {
				x.Left, x.Share = append(x.Left, s.Fault), x.Share+s.Share
			}
		}
		p.Answers = append(p.Answers, x)
	}
	return p
}

// needed are the loads that were looked at and work in the state when all is well: they must
// be connected and on.
func (e *evidence) needed(c tree.Case) []harness.ElementID {
	var out []harness.ElementID
	for _, s := range e.told.Symptoms {
		if s.Works != Live && e.On(s.Load, c.State) && !slices.Contains(out, s.Load) {
			out = append(out, s.Load)
		}
	}
	return out
}

const (
	glances = 2  // loads to look at are told
	worth   = .2 // bits that a look at one must tell on average
	seeable = .1 // A: what takes less is nothing that one sees working
)

// look are the other loads of the state of which it tells most whether they work.
func (e *evidence) look(left []proof.Suspect, state int) []harness.ElementID {
	type glance struct {
		load harness.ElementID
		bits float64
	}
	var list []glance
	for i := range e.Harness.Elements {
		s := Symptom{Load: e.Harness.Elements[i].ID, State: state, Works: Dead}
		if float64(e.Harness.Elements[i].Amps) < seeable || !e.On(s.Load, state) || slices.ContainsFunc(e.told.Symptoms, func(x Symptom) bool { return x.Load == s.Load }) {
			continue
		}
		if bits := e.glance(s, left); bits >= worth {
			list = append(list, glance{s.Load, bits})
		}
	}
	slices.SortStableFunc(list, func(a, b glance) int { return cmp.Compare(b.bits, a.bits) })
	var out []harness.ElementID
	for _, g := range list[:min(glances, len(list))] {
		out = append(out, g.load)
	}
	return out
}

// glance is what it tells on average whether a load works, in bits.
func (e *evidence) glance(s Symptom, left []proof.Suspect) float64 {
	shares, chance := make([]float64, len(left)), make([][]float64, len(left))
	for i, x := range left {
		p := e.works(s, e.lost(s, e.seen[s.State][x.Fault]))
		shares[i], chance[i] = x.Share, []float64{p, 1 - p}
	}
	return probe.Doubtful(shares, chance)
}

// again is the reading to be taken once more: the only thing that the likeliest fault does
// not explain, or one by which alone another fell that would hold more than half without it.
func (e *evidence) again(left []proof.Suspect, odd []int) *proof.Read {
	n := len(e.told.Symptoms)
	if len(odd) == 1 && odd[0] >= n {
		return &e.told.Reads[odd[0]-n]
	}
	most, out := .5, (*proof.Read)(nil)
	for k := range e.told.Reads {
		i, share := e.without(k + n)
		if share > most && e.fit[i][k+n] <= Wrong && e.share[i] < .05 && i != left[0].Fault {
			most, out = share, &e.told.Reads[k]
		}
	}
	return out
}

// without is the likeliest fault if one thing that was told had not been, with its share.
func (e *evidence) without(k int) (fault int, share float64) {
	best, most, sum := none, 0.0, 0.0
	for i, f := range e.faults {
		x := f.Weight * e.likely(i, k)
		sum += x
		if x > most {
			best, most = i, x
		}
	}
	return best, most / sum
}
