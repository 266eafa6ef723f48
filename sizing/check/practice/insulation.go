package practice

import (
	"example.com/loomfolio/sizing/check/say"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
)

// Insulation resolves the family of a wire: its own, else the practice's. A
// family is one of the tables' or one of the description's own wire types; a word
// that is neither is reported, and given as it stands.
func Insulation(r *say.Report, p *harness.Practice, w read.Word) string {
	if !w.Given() {
		return p.Insulation
	}
	names := Families(p)
	for _, n := range names {
		if n == w.Text {
			return n
		}
	}
	r.Unknown("unknown-insulation", "insulation", w, names)
	return w.Text
}

// Families lists the description's wire types and the tables' insulation families.
func Families(p *harness.Practice) []string {
	var names []string
	for _, t := range p.WireTypes {
		names = append(names, t.Name)
	}
	for _, i := range rating.Insulations() {
		names = append(names, i.Name)
	}
	return names
}
