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
			w := e.pair(i, j)
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

// pair is the weight of two faults that explain all, 0 where they do not.
func (e *evidence) pair(i, j int) float64 {
	w := max(e.faults[i].Weight, slight) * max(e.faults[j].Weight, slight)
	for k := range e.sound {
		p := e.withBoth(i, j, k)
		if p <= Wrong {
			return 0
		}
		if k >= len(e.told.Symptoms) {
			w *= p
		}
	}
	lost, other := e.losses(i), e.losses(j)
	for k := range lost {
		lost[k] = max(lost[k], other[k])
	}
	return w * e.room(lost, none)
}

// withBoth is how likely one thing that was told is with two faults at once.
func (e *evidence) withBoth(i, j, k int) float64 {
	if e.sound[k] >= Shows {
		return min(e.fit[i][k], e.fit[j][k])
	}
	return max(e.fit[i][k], e.fit[j][k])
}

// partly are the faults that explain something that was told and is not as it should be, of
// each such thing the likeliest ones.
func (e *evidence) partly() []int {
	var out []int
	for k, sound := range e.sound {
		if sound >= Shows {
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
