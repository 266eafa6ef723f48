package bench

import (
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

func placeName(h *harness.Harness, p harness.PlaceID) string { return h.Places[p].Name }

// bore is the least bore to take, a dash where there is none; its column has the unit.
func bore(mm unit.Millimetre, imperial bool) table.Cell { return page.Bore(mm, imperial) }
