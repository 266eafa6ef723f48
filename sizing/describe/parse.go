package describe

import (
	"strings"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Parse reads a description of format 1. name is the file's name, as messages
// show it; text is the file. It gives what could be read (never nil) and every
// problem found, in the order of the file; with a problem of level error the
// description is not whole. A value that was refused keeps its place and text,
// so that it counts as written.
func Parse(name string, text []byte) (*Description, source.Problems) {
	r := &reader{file: source.NewFile(name, text), skipped: map[string]bool{}}
	d := &Description{File: r.file}
	if !r.checkSize(text) {
		return d, r.problems.Sorted()
	}
	r.lines = splitLines(text)
	if root := r.tree(r.checkLines()); root != nil {
		r.walk(root, d)
	}
	return d, r.problems.Sorted()
}

// walk takes in the top mapping.
func (r *reader) walk(root *yaml.Node, d *Description) {
	r.checkNodes(root)
	d.Foreign = r.foreign(root, nil)
	r.system = systemOf(root)
	top := entry{value: root}
	es := r.entries(top, "keys with values", false)
	take(r, es, rootKeys, d)
	r.refuseAirbags(d.Title)
	var must []string
	for _, name := range mustOf(rootKeys) {
		if !r.skipped[name] {
			must = append(must, name)
		}
	}
	r.demand(top, es, must)
}

// systemOf looks ahead for sheet: gauge:, which says how 14 ga is meant.
func systemOf(root *yaml.Node) unit.System {
	sheet := child(root, "sheet")
	if sheet == nil {
		return unit.Metric
	}
	if g := child(sheet, "gauge"); g != nil {
		switch strings.ToLower(g.Value) {
		case "awg":
			return unit.AWG
		case "sae":
			return unit.SAE
		}
	}
	return unit.Metric
}

func child(n *yaml.Node, name string) *yaml.Node {
	if n.Kind != yaml.MappingNode {
		return nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == name {
			return n.Content[i+1]
		}
	}
	return nil
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
	out = append(out, infos("practice.wire-types", wireTypeKeys)...)
	out = append(out, infos("practice.wire-types.sizes", wireSizeKeys)...)
	out = append(out, infos("places", placeKeys)...)
	out = append(out, infos("runs", runKeys)...)
	out = append(out, infos("screens", screenKeys)...)
	out = append(out, infos("cables", cableKeys)...)
	out = append(out, partInfos()...)
	out = append(out, infos("parts.inside", insideKeys)...)
	out = append(out, infos("parts.along", alongKeys)...)
	out = append(out, infos("circuits", circuitKeys)...)
	return append(out, infos("circuits.legs", stopKeys)...)
}

func infos[T any](section string, keys []key[T]) []KeyInfo {
	out := make([]KeyInfo, len(keys))
	for i, k := range keys {
		out[i] = KeyInfo{Section: section, Name: k.name, Holds: k.holds, Words: k.words, Needed: k.must}
	}
	return out
}

// partInfos adds to the parts' keys the kinds that have them.
func partInfos() []KeyInfo {
	out := infos("parts", partKeys)
	out[0].Words = kindNames()
	for i := range out {
		for _, k := range kinds {
			if listed(common, out[i].Name) {
				break
			}
			if k.fits(out[i].Name) {
				out[i].Kinds = append(out[i].Kinds, k.name)
			}
		}
	}
	return out
}

// Slugs lists the slugs of the problems that this package reports; each has a
// small wrong example in testdata/wrong.txt.
func Slugs() []string {
	return []string{
		// the bytes
		"file-too-big", "line-too-long", "too-many-problems", "empty-file", "not-utf8", "hidden-character", "odd-indent", "odd-space",
		// the YAML
		"yaml-syntax", "second-document", "yaml-alias", "yaml-tag",
		// keys and shapes
		"unknown-key", "key-not-for-kind", "missing-key", "duplicate-key", "empty-value", "wrong-shape", "too-few-stops",
		// words and names
		"unknown-version", "unknown-kind", "unknown-word", "duplicate-name", "bad-name", "bad-number", "bad-stop", "bad-date",
		// values
		"bad-quantity", "bad-count", "bad-flag", "bad-system-voltage", "cut-at-hash", "size-from-strands",
		// refused on purpose
		"voltage-out-of-scope", "airbag-refused",
	}
}
