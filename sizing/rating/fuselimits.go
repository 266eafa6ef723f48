package rating

import "example.com/loomfolio/sizing/unit"

// FuseLimits are what the fuses of a body are made for.
type FuseLimits struct {
	Volts  unit.Volt
	Breaks unit.Ampere // the current that they break at those volts
	Source string      // key of the sources
}

// FuseLimitsOf gives the limits of a body (mini, blade, maxi, bolt, glass); false for
// others.
func FuseLimitsOf(body string) (FuseLimits, bool) {
	for _, r := range rows("fuse-limits.csv") {
		if r["body"] == body {
			return FuseLimits{unit.Volt(r.number("volts")), unit.Ampere(r.number("breaks_a")), r["source"]}, true
		}
	}
	return FuseLimits{}, false
}
