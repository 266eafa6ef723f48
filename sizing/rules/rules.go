// Package rules joins the rules of all packages to one catalogue, and makes whole
// descriptions of their examples.
package rules

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/accept"
	"example.com/loomfolio/sizing/asfound"
	"example.com/loomfolio/sizing/change"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/choose/finding"
	"example.com/loomfolio/sizing/choose/misuse"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/fault/sneak"
	"example.com/loomfolio/sizing/fit"
	"example.com/loomfolio/sizing/fit/buying"
	"example.com/loomfolio/sizing/picture"
	"example.com/loomfolio/sizing/polarity"
	"example.com/loomfolio/sizing/record"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/variant"
)

// Group is the rules of one package.
type Group struct {
	Title string
	Rules []source.Rule
}

// All lists every rule, in the order of the stages that hold them. The error tells of
// a list that cannot be read.
func All() ([]Group, error) {
	var out []Group
	for _, of := range []struct {
		title string
		rules func() ([]source.Rule, error)
	}{
		{"The text", read.Rules}, {"The format", describe.Rules}, {"Names and circuits", check.Rules}, {"Variants", variant.Rules}, {"Pictures", picture.Rules}, {"Lengths", route.Rules},
		{"Which way round", polarity.Rules}, {"Gauges, fuses and states", finding.Rules},
		{"Not as it is meant", misuse.Rules}, {"Ways that nobody meant", sneak.Rules}, {"A loom as found", asfound.Rules}, {"Terminals, splices and units", fit.Rules}, {"Buying", buying.Rules},
		{"Colours", colour.Rules}, {"The as-built record", record.Rules}, {"What is built and planned", change.Rules}, {"What is accepted", accept.Rules},
	} {
		list, err := of.rules()
		if err != nil {
			return nil, err
		}
		out = append(out, Group{of.title, list})
	}
	return out, nil
}

// List gives the rules of all groups, one after the other.
func List() ([]source.Rule, error) {
	groups, err := All()
	var out []source.Rule
	for _, g := range groups {
		out = append(out, g.Rules...)
	}
	return out, err
}

// usual are the sections that an example has where it gives none of its own.
var usual = [...]struct{ key, text string }{
	{"loomfolio", "loomfolio: 1\n"},
	{"title", "title: Example\n"},
	{"system", "system: {volts: 12}\n"},
	{"places", "places: {tray: {}, radiator: {}, dash: {}}\n"},
	{"runs", "runs: [{from: tray, to: radiator, length: 1 m}]\n"},
	{"parts", `parts:
  BAT: {kind: battery, at: tray}
  F1: {kind: fuse, at: tray}
  FAN: {kind: motor, at: radiator, draws: 20 A}
  LAMP: {kind: lamp, at: radiator, draws: 55 W}
  K1: {kind: relay, at: tray}
  SW: {kind: switch, at: tray, positions: {off: [], on: [[1, 2]]}}
  X1: {kind: connector, at: tray, cavities: 2}
  G1: {kind: ground, at: radiator}
`},
}

const usualCircuits = "circuits:\n"
const usualCircuit = "  fan: {legs: [[BAT.+, BAT.-]]}\n"

// mark stands before the place that a problem points at.
const mark = "«"

// odd are characters that would not survive an editor.
var odd = strings.NewReplacer("<tab>", "\t", "<nbsp>", "\u00a0", "<nul>", "\x00", "<zw>", "\u200b", "<b2>", "\xb2")

// Whole makes a whole description of an example's text: sections that it lacks are the
// usual ones. It gives the place of the mark, which is taken out; the zero place where
// there is none.
func Whole(example string) (text string, at source.Pos) {
	for _, u := range usual {
		if !has(example, u.key) {
			text += u.text
		}
	}
	text += odd.Replace(example)
	if !has(example, "circuits") {
		text += usualCircuits
	}
	if strings.HasSuffix(text, usualCircuits) {
		text += usualCircuit
	}
	for i, line := range strings.Split(text, "\n") {
		if before, _, found := strings.Cut(line, mark); found {
			at = source.Pos{Line: i + 1, Column: source.Width(before) + 1}
		}
	}
	return strings.ReplaceAll(text, mark, ""), at
}

// has tells whether a text has a section, marked or not.
func has(text, key string) bool {
	return strings.Contains("\n"+strings.ReplaceAll(text, mark, ""), "\n"+key+":")
}

// Tables prints the rules for samples/FORMAT.md, a table a group.
func Tables(groups []Group) string {
	var b strings.Builder
	for _, g := range groups {
		fmt.Fprintf(&b, "\n### %s\n\n| rule | level | what it says |\n|---|---|---|\n", g.Title)
		for _, r := range g.Rules {
			fmt.Fprintf(&b, "| `%s` | %s | %s |\n", r.Slug, r.Level, r.Says)
		}
	}
	return b.String() + "\n"
}
