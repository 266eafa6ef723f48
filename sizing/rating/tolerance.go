package rating

import (
	"sync"

	"example.com/loomfolio/sizing/unit"
)

// Tolerance is how far a figure may lie from what is described while all is well: new to
// aged, as factors of the described one. More is added to the larger.
type Tolerance struct {
	Low, High float64
	More      unit.Ohm
	Source    string
}

var toleranceTable = sync.OnceValue(func() map[string]Tolerance {
	out := map[string]Tolerance{}
	for _, r := range rows("tolerances.csv") {
		out[r["what"]] = Tolerance{r.number("low"), r.number("high"), unit.Ohm(r.number("more_mohm") / 1000), r["source"]}
	}
	return out
})

// ToleranceOf gives the tolerance of a figure ("contact", "battery volts"); one that the
// table does not name has none.
func ToleranceOf(what string) Tolerance {
	if t, ok := toleranceTable()[what]; ok {
		return t
	}
	return Tolerance{Low: 1, High: 1}
}
