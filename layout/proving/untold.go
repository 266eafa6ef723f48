package proving

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/proof"
)

// untold owns up to faults that nothing on these sheets shows, those with one reason together.
func (s *sheets) untold(l *list) {
	if len(s.p.Untold) == 0 {
		return
	}
	l.sub("What this meter cannot tell", "")
	for i, x := range s.p.Untold {
		like := func(y proof.Untold) bool { return y.Why == x.Why }
		if slices.ContainsFunc(s.p.Untold[:i], like) {
			continue
		}
		var names []string
		for _, y := range s.p.Untold[i:] {
			if like(y) {
				names = append(names, faultName(s.p.Faults[y.Fault]))
			}
		}
		l.add(table.Cell{}, strong(strings.Join(names, ", ")), small(x.Why))
	}
}

// faultName is what is wrong: "31C open".
func faultName(f proof.Fault) string { return strings.ReplaceAll(f.ID, ":", "\u00a0") }
