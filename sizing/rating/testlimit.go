package rating

import (
	"sync"

	"example.com/loomfolio/sizing/unit"
)

var testLimits = sync.OnceValue(func() map[string]float64 {
	out := map[string]float64{}
	for _, r := range rows("test-limits.csv") {
		out[r["what"]] = r.number("limit")
	}
	return out
})

// KeyOff is the drain that a parked vehicle may have, A.
func KeyOff() unit.Ampere { return unit.Ampere(testLimits()["key-off"]) }

// PublishedDrop is a drop under load that handbooks allow ("ground", "wire", "switch",
// "starter cables") or call doubtful or a fault, V; 0 for a word that is none of these.
func PublishedDrop(what string) unit.Volt { return unit.Volt(testLimits()["drop "+what]) }
