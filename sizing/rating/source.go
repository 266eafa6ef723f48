// Package rating holds the figures of the trade as tables, each row with its
// source: conductors, insulation, currents, fuses, terminals, pull-out forces,
// shrink, studs. Tables are embedded CSV files with units in the header.
//
// In: a gauge, an insulation, a body or a fitting by name. Out: the row, with
// the key of its source; Sources lists the documents behind the keys. Units
// are those of package unit. Between rows, figures are interpolated on
// logarithmic scales, and the key of the source then says so.
package rating

import "sync"

// Status says how a source was come by.
type Status string

// The states of a source. Unnamed is what was read, but in a sheet, list or page whose
// maker the title does not name: nobody can look it up again.
const (
	Read           Status = "read"
	Unnamed        Status = "unnamed"
	FromMemory     Status = "from memory"
	CommonPractice Status = "common practice"
)

// Source is one document that a figure rests on.
type Source struct {
	Key    string // "iso-6722"
	Title  string // "ISO 6722, resistances as printed in makers' data"
	Brief  string // what was taken from it, in the few words of a printed note: "resistance"
	Status Status
	Group  string // where it is noted together with others: under which name, and briefer still
	Short  string
}

var sourceTable = sync.OnceValue(func() []Source {
	groups := map[string]row{}
	for _, r := range rows("source-groups.csv") {
		groups[r["source"]] = r
	}
	var out []Source
	for _, r := range rows("sources.csv") {
		g := groups[r["key"]]
		out = append(out, Source{Key: r["key"], Title: r["title"], Status: Status(r["status"]), Brief: r["brief"], Group: g["group"], Short: g["short"]})
	}
	return out
})

// Sources lists every source, in a fixed order.
func Sources() []Source { return append([]Source(nil), sourceTable()...) }

// SourcesOf gives the sources of some keys, in the order of the whole list,
// each once; keys that are not in the list are passed over.
func SourcesOf(keys []string) []Source {
	wanted := map[string]bool{}
	for _, k := range keys {
		wanted[k] = true
	}
	var out []Source
	for _, s := range sourceTable() {
		if wanted[s.Key] {
			out = append(out, s)
		}
	}
	return out
}
