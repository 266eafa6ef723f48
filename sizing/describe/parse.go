package describe

import (
	"strings"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Parse reads a description of format 1. name is the file's name, as messages
// show it; text is the file. It gives what could be read (never nil) and every
// problem found, in the order of the file; with a problem of level error the
// description is not whole. A value that was refused keeps its place and text,
// so that it counts as written.
func Parse(name string, text []byte) (*Description, source.Problems) {
	return Read(read.Given{Name: name, Text: text})
}

// Read is Parse for a description with the files that it includes, and for a variant of it.
func Read(g read.Given) (*Description, source.Problems) {
	g.Joins = read.Joins(rootKeys)
	r, top, ok := read.OpenAll(g)
	r.Habits = habits
	d := &Description{File: r.File(), Variant: g.Variant}
	if ok {
		walk(r, top, d)
	}
	return d, r.Problems()
}

// walk takes in the top mapping.
func walk(r *read.Reader, top read.Entry, d *Description) {
	d.Foreign = r.Foreign(top)
	r.System = systemOf(top)
	es := r.Entries(top, "keys with values", false)
	read.Take(r, es, rootKeys, d)
	judgeNames(r, d)
	var must []string
	for _, name := range read.MustOf(rootKeys) {
		if !r.Skipped(name) {
			must = append(must, name)
		}
	}
	r.Demand(top, es, must)
}

// systemOf looks ahead for sheet: gauge:, which says how 14 ga is meant.
func systemOf(top read.Entry) unit.System {
	sheet, _ := top.Child("sheet")
	if g, ok := sheet.Child("gauge"); ok {
		switch strings.ToLower(g.Text()) {
		case "awg":
			return unit.AWG
		case "sae":
			return unit.SAE
		}
	}
	return unit.Metric
}
