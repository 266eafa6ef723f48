package describe

import (
	_ "embed" // for the list
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness/kind"
)

// KeyInfo is one key of the format, for a printed reference.
type KeyInfo struct {
	Section string   // "" is the top of the file
	Name    string   // the key
	Holds   string   // what belongs there
	Words   []string // the words that are allowed, where only those are
	Needed  bool     // it cannot be left out
	Kinds   []string // of a part's key: the kinds that have it; nil for every kind
	Of      string   // the first of them, where the same word holds something else at other kinds
	BuiltIn string   // what holds where it is not given, "" where nothing does
	Says    string   // what it does, where what belongs there does not tell
	Example string   // see keys.txt: with the marks « » round the key and its value
	With    string   // other sections that the example needs
	In      string   // the pattern of samples/patterns in which it is tried, "" for the test's own bench
}

// Section is one table of keys, and where it stands in a file.
type Section struct {
	Name   string // "" is the top of the file
	Within string // with … where its keys stand
	keys   []KeyInfo
}

// Sections lists the tables from which the file is read, in the order of the format.
func Sections() []Section {
	return []Section{
		{"", "…", infos("", rootKeys)},
		{"vehicle", "vehicle: {…}", infos("vehicle", vehicleKeys)},
		{"sheet", "sheet: {…}", infos("sheet", sheetKeys)},
		{"system", "system: {…}", infos("system", systemKeys)},
		{"systems", "systems:\n  house: {…}", infos("systems", sideKeys)},
		{"practice", "practice: {…}", infos("practice", practiceKeys)},
		{"practice.slack", "practice: {slack: {…}}", infos("practice.slack", slackKeys)},
		{"practice.fuses", "practice: {fuses: {…}}", infos("practice.fuses", fuseShelfKeys)},
		{"practice.terminals", "practice:\n  terminals:\n    - {…}", infos("practice.terminals", terminalKeys)},
		{"practice.labels", "practice: {labels: {…}}", infos("practice.labels", labelKeys)},
		{"practice.labels.sheet", "practice: {labels: {sheet: {…}}}", infos("practice.labels.sheet", labelSheetKeys)},
		{"practice.labels.roll", "practice: {labels: {roll: {…}}}", infos("practice.labels.roll", labelRollKeys)},
		{"practice.twist", "practice: {twist: {…}}", infos("practice.twist", twistKeys)},
		{"practice.screen", "practice: {screen: {…}}", infos("practice.screen", screenMakeKeys)},
		{"practice.cable-types", "practice:\n  cable-types:\n    tow: {…}", infos("practice.cable-types", cableTypeKeys)},
		{"practice.buy", "practice: {buy: {…}}", infos("practice.buy", buyKeys)},
		{"practice.tell-apart", "practice: {tell-apart: {…}}", infos("practice.tell-apart", apartKeys)},
		{"practice.wire-types", "practice:\n  wire-types:\n    my-reel: {…}", infos("practice.wire-types", wireTypeKeys)},
		{"practice.wire-types.sizes", "practice:\n  wire-types:\n    my-reel: {class: 105 C, sizes: [{…}]}", infos("practice.wire-types.sizes", wireSizeKeys)},
		{"places", "places:\n  dash: {…}", infos("places", placeKeys)},
		{"runs", "runs:\n  - {…}", infos("runs", runKeys)},
		{"screens", "screens:\n  audio: {…}", infos("screens", screenKeys)},
		{"cables", "cables:\n  tow: {…}", infos("cables", cableKeys)},
		{"parts", "parts:\n  …", partInfos()},
		{"parts.inside", "parts:\n  MOD: {kind: module, at: dash, inside: [{…}]}", infos("parts.inside", insideKeys)},
		{"parts.grounds", "parts:\n  HORN: {kind: horn, at: dash, draws: 5 A, grounds: {…}}", infos("parts.grounds", bodyKeys)},
		{"parts.along", "parts:\n  SP1: {kind: splice, along: {…}}", infos("parts.along", alongKeys)},
		{"circuits", "circuits:\n  side: {…}", infos("circuits", circuitKeys)},
		{"circuits.legs", "circuits:\n  side: {legs: [[FP.2, {…}, SIDE, G1]]}", infos("circuits.legs", stopKeys)},
		{"circuits.leg", "circuits:\n  side: {legs: [[FP.2, SIDE.+, SIDE.-, BUS.a], {…}]}", infos("circuits.leg", legKeys)},
		{"states", "states:\n  driving: {…}", infos("states", stateKeys)},
		{"measured", "measured:\n  BAT.+: {…}", infos("measured", measuredKeys)},
		{"accept", "accept:\n  - {…}", infos("accept", acceptKeys)},
		{"variants", "variants:\n  towing: {…}", infos("variants", variantKeys)},
		{"templates", "templates:\n  lamp: {…}", templateInfos},
		{"use", "use:\n  - {…}", useInfos},
	}
}

// templateInfos and useInfos are keys that package read has written out before the tables are read.
var (
	templateInfos = []KeyInfo{{Section: "templates", Name: "with", Holds: "its parameters, such as [side, {draws: 55 W}]; besides it stand sections"}}
	useInfos      = []KeyInfo{
		{Section: "use", Name: "template", Holds: "a template; besides it stand its parameters", Needed: true},
		{Section: "use", Name: "each", Holds: holdsEach},
	}
)

// Keys lists every key of the format, section by section in the order of the
// tables from which the file is read; what keys.txt says of them is left out.
func Keys() []KeyInfo {
	var out []KeyInfo
	for _, s := range Sections() {
		out = append(out, s.keys...)
	}
	return out
}

//go:embed keys.txt
var keyList string

// Reference lists every key with what keys.txt says of it. The error tells of a list
// that cannot be read, or of a note on a key that is not there.
func Reference() ([]KeyInfo, error) {
	notes, err := parseNotes(keyList)
	if err != nil {
		return nil, err
	}
	out := Keys()
	for i := range out {
		at := slices.IndexFunc(notes, func(n note) bool { return n.id == out[i].ID() })
		if at < 0 {
			continue
		}
		n := notes[at]
		out[i].BuiltIn, out[i].Says, out[i].Example, out[i].With, out[i].In = n.builtIn, n.says, n.example, n.with, n.in
		notes = slices.Delete(notes, at, at+1)
	}
	if len(notes) > 0 {
		return out, fmt.Errorf("keys.txt tells of %s, and there is no such key (or it is there twice)", notes[0].id)
	}
	return out, nil
}

// note is what keys.txt says of one key.
type note struct{ id, builtIn, says, in, example, with string }

// parseNotes reads a list of notes, each of the form
//
//	== SECTION.KEY, or SECTION.KEY of KIND where it holds something else there
//	built in: what holds without it, where something does
//	says: what it does, where what belongs there does not tell that
//	in: the pattern of samples/patterns in which it is tried, where that is not the bench
//	the example: what stands in the section, with « » round the key and its value,
//	without marks where it is nothing else
//	-- with
//	other sections that the example needs, where it does
//
// Lines before the first note are remarks.
func parseNotes(text string) ([]note, error) {
	var out []note
	for _, block := range strings.Split("\n"+text, "\n== ")[1:] {
		var n note
		n.id, block, _ = strings.Cut(block, "\n")
		block, n.with, _ = strings.Cut(block, "\n-- with\n")
		for _, line := range strings.Split(strings.Trim(block, "\n"), "\n") {
			if text, ok := strings.CutPrefix(line, "built in: "); ok {
				n.builtIn = text
			} else if text, ok := strings.CutPrefix(line, "says: "); ok {
				n.says = text
			} else if text, ok := strings.CutPrefix(line, "in: "); ok {
				n.in = text
			} else {
				n.example += line + "\n"
			}
		}
		n.example, n.with = strings.Trim(n.example, "\n"), strings.Trim(n.with, "\n")
		if n.example != "" && !strings.Contains(n.example, "«") {
			n.example = "«" + n.example + "»"
		}
		if n.example != "" && (strings.Count(n.example, "«") != 1 || strings.Count(n.example, "»") != 1) {
			return nil, fmt.Errorf("the example of %s has not one mark « and one mark »", n.id)
		}
		out = append(out, n)
	}
	return out, nil
}

// ID names a key with its section, as keys.txt does: practice.smallest.
func (k KeyInfo) ID() string {
	id := k.Name
	if k.Section != "" {
		id = k.Section + "." + k.Name
	}
	if k.Of != "" {
		id += " of " + k.Of
	}
	return id
}

func infos[T any](section string, keys []read.Key[T]) []KeyInfo {
	out := make([]KeyInfo, len(keys))
	for i, k := range keys {
		out[i] = KeyInfo{Section: section, Name: k.Name, Holds: k.Holds, Words: k.Words, Needed: k.Must}
	}
	return out
}

// partInfos adds to the parts' keys the kinds that have them; a key that holds something
// else at some kinds stands once for each that it holds.
func partInfos() []KeyInfo {
	var out []KeyInfo
	for _, key := range partKeys {
		forms := infos("parts", []read.Key[Part]{key})
		if !slices.Contains(strings.Fields(kind.Common), key.Name) {
			for _, k := range kind.All() {
				if k.Fits(key.Name) {
					forms = formed(forms, string(k.Kind), infos("parts", []read.Key[Part]{keyOf(k, key)})[0])
				}
			}
		}
		out = append(out, forms...)
	}
	out[0].Words = kindNames()
	return out
}

// formed puts a kind to the form in which it has a key, which it adds where it is new.
func formed(forms []KeyInfo, kind string, form KeyInfo) []KeyInfo {
	at := slices.IndexFunc(forms, func(f KeyInfo) bool { return f.Holds == form.Holds })
	if at < 0 {
		form.Of = kind
		forms, at = append(forms, form), len(forms)
	}
	forms[at].Kinds = append(forms[at].Kinds, kind)
	return forms
}

// Shown gives the key of an example with its value, as a person would write it.
func (k KeyInfo) Shown() string {
	_, rest, _ := strings.Cut(k.Example, "«")
	shown, _, _ := strings.Cut(rest, "»")
	return strings.TrimRight(shown, ", \n")
}

// Table prints the keys of one section for samples/FORMAT.md: * at those that cannot
// be left out, what is built in where anything is, of parts the kinds that have them.
func Table(keys []KeyInfo, section string) string {
	keys = slices.DeleteFunc(slices.Clone(keys), func(k KeyInfo) bool { return k.Section != section })
	built := slices.ContainsFunc(keys, func(k KeyInfo) bool { return k.BuiltIn != "" })
	kinds := slices.ContainsFunc(keys, func(k KeyInfo) bool { return len(k.Kinds) > 0 })
	head := []string{"key", "of", "built in", "meaning", "such as"}
	rows := [][]string{head, slices.Repeat([]string{"---"}, len(head))}
	for _, k := range keys {
		name := "`" + k.Name + "`"
		if k.Needed {
			name += " *"
		}
		rows = append(rows, []string{name, shortly(k.Kinds), k.BuiltIn, k.meaning(), "`" + k.Shown() + "`"})
	}
	var b strings.Builder
	for i, row := range rows {
		for c, text := range row {
			switch {
			case c == 1 && !kinds || c == 2 && !built:
			case i == 1:
				b.WriteString("|" + text)
			case text == "":
				b.WriteString("| ")
			default:
				b.WriteString("| " + cell(text) + " ")
			}
		}
		b.WriteString("|\n")
	}
	return b.String()
}

// shortly lists kinds, all loads by one word, and all that have one draw.
func shortly(kinds []string) string {
	var loads, single []string
	for _, k := range kind.All() {
		if k.Role == kind.Works && k.Fits("starts") {
			loads = append(loads, string(k.Kind))
			if !k.Several() {
				single = append(single, string(k.Kind))
			}
		}
	}
	for _, group := range []struct {
		kinds []string
		word  string
	}{{loads, "loads"}, {single, "loads with one draw"}} {
		rest := slices.DeleteFunc(slices.Clone(kinds), func(k string) bool { return slices.Contains(group.kinds, k) })
		if len(rest)+len(group.kinds) == len(kinds) {
			return strings.Join(append(rest, group.word), ", ")
		}
	}
	return strings.Join(kinds, ", ")
}

// meaning is what is said of a key, behind the words that may stand there where it does
// not name them all; else what belongs there.
func (k KeyInfo) meaning() string {
	named := func(w string) bool { return w == k.BuiltIn || strings.Contains(k.Says, "`"+w+"`") }
	switch {
	case k.Says == "":
		holds, _, _ := strings.Cut(k.Holds, ", such as") // the example tells
		return holds
	case len(k.Words) == 0 || len(k.Words) > mostWords || !slices.ContainsFunc(k.Words, func(w string) bool { return !named(w) }):
		return k.Says
	}
	return strings.Join(k.Words, ", ") + ": " + k.Says
}

const mostWords = 10 // more of them have a table of their own, as the kinds of parts do

// cell makes text fit for a table.
func cell(text string) string {
	return strings.NewReplacer("|", "\\|", "\n", " ").Replace(text)
}
