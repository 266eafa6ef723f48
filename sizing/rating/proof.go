package rating

import "strings"

// FaultSources are the keys of the sources by which faults are weighed.
func FaultSources() []string {
	return append(keysOf("fault-weights.csv", nil), keysOf("fault-modes.csv", nil)...)
}

// ToleranceSources are the keys of the sources of the limits that readings are held to;
// those of what charges only where something does.
func ToleranceSources(charged bool) []string {
	return keysOf("tolerances.csv", func(r row) bool { return charged || !strings.HasPrefix(r["what"], "charg") })
}

// ReachSources are the keys of the sources of the minutes to a probe.
func ReachSources() []string { return keysOf("reach.csv", nil) }

// KeyOffSource is the key of the source of KeyOff.
func KeyOffSource() []string {
	return keysOf("test-limits.csv", func(r row) bool { return r["what"] == "key-off" })
}

// keysOf are the keys in the column "source" of the rows of a table that are asked for, all
// where nothing asks.
func keysOf(table string, asked func(row) bool) []string {
	var out []string
	for _, r := range rows(table) {
		if asked == nil || asked(r) {
			out = append(out, r["source"])
		}
	}
	return Distinct(out...)
}
