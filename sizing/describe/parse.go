package describe

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Parse reads a description of format 1. name is the file's name, as messages
// show it; text is the file. It gives what could be read (never nil) and every
// problem found, in the order of the file; with a problem of level error the
// description is not whole. A value that was refused keeps its place and text,
// so that it counts as written.
func Parse(name string, text []byte) (*Description, source.Problems) {
	r, top, ok := read.Open(name, text)
	r.Habits = habits
	d := &Description{File: r.File()}
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

// KeyInfo is one key of the format, for a printed reference.
type KeyInfo struct {
	Section string   // "" is the top of the file
	Name    string   // the key
	Holds   string   // what belongs there
	Words   []string // the words that are allowed, where only those are
	Needed  bool     // it cannot be left out
	Kinds   []string // of a part's key: the kinds that have it; nil for every kind
}

// Keys lists every key of the format, section by section in the order of the
// tables from which the file is read.
func Keys() []KeyInfo {
	var out []KeyInfo
	out = append(out, infos("", rootKeys)...)
	out = append(out, infos("vehicle", vehicleKeys)...)
	out = append(out, infos("sheet", sheetKeys)...)
	out = append(out, infos("system", systemKeys)...)
	out = append(out, infos("practice", practiceKeys)...)
	out = append(out, infos("practice.slack", slackKeys)...)
	out = append(out, infos("practice.labels", labelKeys)...)
	out = append(out, infos("practice.labels.sheet", labelSheetKeys)...)
	out = append(out, infos("practice.labels.roll", labelRollKeys)...)
	out = append(out, infos("practice.twist", twistKeys)...)
	out = append(out, infos("practice.screen", screenMakeKeys)...)
	out = append(out, infos("practice.cable-types", cableTypeKeys)...)
	out = append(out, infos("practice.buy", buyKeys)...)
	out = append(out, infos("practice.tell-apart", apartKeys)...)
	out = append(out, infos("practice.wire-types", wireTypeKeys)...)
	out = append(out, infos("practice.wire-types.sizes", wireSizeKeys)...)
	out = append(out, infos("places", placeKeys)...)
	out = append(out, infos("runs", runKeys)...)
	out = append(out, infos("screens", screenKeys)...)
	out = append(out, infos("cables", cableKeys)...)
	out = append(out, partInfos()...)
	out = append(out, infos("parts.inside", insideKeys)...)
	out = append(out, infos("parts.along", alongKeys)...)
	out = append(out, infos("parts.grounds", bodyKeys)...)
	out = append(out, infos("circuits", circuitKeys)...)
	out = append(out, infos("circuits.legs", stopKeys)...)
	return append(out, infos("accept", acceptKeys)...)
}

func infos[T any](section string, keys []read.Key[T]) []KeyInfo {
	out := make([]KeyInfo, len(keys))
	for i, k := range keys {
		out[i] = KeyInfo{Section: section, Name: k.Name, Holds: k.Holds, Words: k.Words, Needed: k.Must}
	}
	return out
}

// partInfos adds to the parts' keys the kinds that have them.
func partInfos() []KeyInfo {
	out := infos("parts", partKeys)
	out[0].Words = kindNames()
	for i := range out {
		for _, k := range kind.All() {
			if slices.Contains(strings.Fields(kind.Common), out[i].Name) {
				break
			}
			if k.Fits(out[i].Name) {
				out[i].Kinds = append(out[i].Kinds, string(k.Kind))
			}
		}
	}
	return out
}
