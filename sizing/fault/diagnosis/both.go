package diagnosis

import (
	"cmp"
	"slices"

	"example.com/loomfolio/sizing/proof"
)

// partners is how many faults are looked at for each thing that was told, as one of two.
const partners = 12

// both finds the likeliest two faults that explain together what no single one does; nil
// where no two do. What is seen with both is taken from what is seen with each: what is as
// it should be must be so with both, what is not with at least one.
func (e *evidence) both() *proof.Both {
	var best proof.Both
	most, sum := 0.0, 0.0
	list := e.partly()
	for x, i := range list {
		for _, j := range list[x+1:] {
			w := e.together(i, j)
			if sum += w; w > most {
				best, most = proof.Both{A: i, B: j}, w
			}
		}
	}
	if most == 0 {
		return nil
	}
	best.Share = most / sum
	return &best
}

// together is the weight of two faults that explain all, 0 where they do not.
func (e *evidence) together(i, j int) float64 {
	w := e.faults[i].Weight * e.faults[j].Weight
	for k, sound := range e.sound {
		p := max(e.fit[i][k], e.fit[j][k])
		if sound == 1 {
			p = min(e.fit[i][k], e.fit[j][k])
		}
		if p <= Wrong {
			return 0
		}
		w *= p
	}
	return w
}

// partly are the faults that explain something that was told and is not as it should be, of
// each such thing the likeliest ones.
func (e *evidence) partly() []int {
	var out []int
	for k, sound := range e.sound {
		if sound == 1 {
			continue
		}
		var list []int
		for i := range e.faults {
			if e.fit[i][k] > Wrong {
				list = append(list, i)
			}
		}
		slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(e.faults[b].Weight, e.faults[a].Weight) })
		out = append(out, list[:min(partners, len(list))]...)
	}
	slices.Sort(out)
	return slices.Compact(out)
}
