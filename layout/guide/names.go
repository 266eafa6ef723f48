package guide

import (
	"slices"
	"strconv"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
)

// loadNames says in as few plain words as hold which loads are meant, by the names
// of their elements: a part stands once ("Headlamp left"), with its terminals
// only where some of its loads are not meant ("Headlamp left (56a)"), and what
// differs in its last word alone is joined ("Injector 1–4", "Headlamp left and right (56a)").
func loadNames(a page.Ask, loads []string) []string {
	var parts []harness.PartID
	details := map[harness.PartID][]string{}
	var names []wareName
	for _, l := range loads {
		e, ok := a.ElementNamed(l)
		if !ok {
			names = append(names, wareName{stem: l})
			continue
		}
		if !slices.Contains(parts, e.Part) {
			parts = append(parts, e.Part)
		}
		if d := a.LoadDetail(e); !slices.Contains(details[e.Part], d) {
			details[e.Part] = append(details[e.Part], d)
		}
	}
	for _, id := range parts {
		n := divided(a.Plain(a.Part(id)))
		if len(details[id]) < a.LoadsOf(id) {
			n.detail = page.And(details[id])
		}
		names = append(names, n)
	}
	return joined(names)
}

// wareName is a plain name taken apart: "Headlamp", "left", "56a".
type wareName struct {
	stem, last, detail string
}

// divided parts a last word that only tells brothers apart: a number or a side.
func divided(name string) wareName {
	i := strings.LastIndexByte(name, ' ')
	if i < 0 {
		return wareName{stem: name}
	}
	last := name[i+1:]
	if _, err := strconv.Atoi(last); err == nil || last == "left" || last == "right" {
		return wareName{stem: name[:i], last: last}
	}
	return wareName{stem: name}
}

// brothers tells whether two names differ in their last word alone.
func (n wareName) brothers(o wareName) bool {
	return n.stem == o.stem && n.detail == o.detail && (n.last == "") == (o.last == "")
}

// joined prints names, brothers together at the place of the first.
func joined(names []wareName) []string {
	var out []string
	done := make([]bool, len(names))
	for i, n := range names {
		if done[i] {
			continue
		}
		var lasts []string
		for j := i; j < len(names); j++ {
			if n.brothers(names[j]) {
				done[j] = true
				lasts = append(lasts, names[j].last)
			}
		}
		text := n.stem
		if n.last != "" {
			text += " " + ranges(slices.Compact(lasts))
		} else if len(lasts) > 1 {
			text = strconv.Itoa(len(lasts)) + " × " + text
		}
		if n.detail != "" {
			text += " (" + n.detail + ")"
		}
		out = append(out, text)
	}
	return out
}
