package trouble

import (
	"slices"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// A blown fuse is an effect: what blows it stands on the line of the fuse, and a line further
// on that names the fuse does not say it again.

// blowers are by fuse the faults that are told on its own line.
type blowers map[harness.ElementID]map[string]bool

func blowersOf(a page.Ask) blowers {
	out := blowers{}
	for _, l := range a.R.Proof.Ladders {
		for _, r := range l.Rungs {
			for _, f := range faultsOf(r) {
				x := &a.R.Proof.Faults[f]
				for _, fuse := range x.Blown {
					if atFuse(a, fuse, r.Point) {
						out.add(fuse, x.ID)
					}
				}
			}
		}
	}
	return out
}

func (b blowers) add(fuse harness.ElementID, fault string) {
	if b[fuse] == nil {
		b[fuse] = map[string]bool{}
	}
	b[fuse][fault] = true
}

// atFuse tells that a point is behind a fuse, or before it.
func atFuse(a page.Ask, fuse harness.ElementID, point int) bool {
	at, e := a.R.Proof.Points[point].At, &a.H.Elements[fuse]
	return at == e.A || at == e.B
}

// causes leaves out of the faults of a point what blows a fuse that they name and that is told on its line.
func (b blowers) causes(a page.Ask, point int, faults []int) []int {
	var named []harness.ElementID
	for _, f := range faults {
		if x := &a.R.Proof.Faults[f]; x.Kind == proof.Open {
			if e, ok := a.ElementNamed(x.Element); ok && e.Kind == harness.FuseLink {
				named = append(named, e.ID)
			}
		}
	}
	return slices.DeleteFunc(slices.Clone(faults), func(f int) bool {
		x := &a.R.Proof.Faults[f]
		return slices.ContainsFunc(x.Blown, func(fuse harness.ElementID) bool {
			return slices.Contains(named, fuse) && !atFuse(a, fuse, point) && b[fuse][x.ID]
		})
	})
}

// faultsOf are those that a rung names.
func faultsOf(r proof.Rung) []int {
	var out []int
	for _, m := range r.Means {
		out = append(out, m.Faults...)
	}
	return out
}
