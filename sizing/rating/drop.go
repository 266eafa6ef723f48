package rating

import "example.com/loomfolio/sizing/unit"

// DropLimits gives the allowed drops of the built-in practice by class, feed
// plus return.
func DropLimits() map[string]unit.DropLimit {
	out := map[string]unit.DropLimit{}
	for _, r := range rows("drops.csv") {
		out[r["class"]] = dropLimit(r)
	}
	return out
}

// DropSource gives the source of a class's limit, "" where the limit is not the
// built-in one.
func DropSource(class string, limit unit.DropLimit) string {
	for _, r := range rows("drops.csv") {
		if r["class"] == class && dropLimit(r) == limit {
			return r["source"]
		}
	}
	return ""
}

func dropLimit(r row) unit.DropLimit {
	return unit.DropLimit{Fraction: unit.Fraction(r.number("fraction")), Volts: unit.Volt(r.number("volts"))}
}
