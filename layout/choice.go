package layout

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// choice is what is printed of a packet: groups of sheets, and circuits.
type choice struct {
	groups   []string
	circuits []harness.CircuitID
}

// all tells whether everything is printed.
func (c choice) all() bool { return len(c.groups) == 0 && len(c.circuits) == 0 }

// choose reads what is asked for: the name of a group, or a circuit by its number, its key
// or its name.
func choose(h *harness.Harness, asked []string) (c choice, err error) {
	for _, word := range asked {
		word = strings.TrimSpace(word)
		if word == "" {
			continue
		}
		if slices.Contains(Groups(), strings.ToLower(word)) {
			c.groups = append(c.groups, strings.ToLower(word))
			continue
		}
		id, ok := circuitCalled(h, word)
		if !ok {
			return c, fmt.Errorf("no sheets %q: name a circuit by its number, or some of %s%s", word, strings.Join(Groups(), ", "), guess(h, word))
		}
		c.circuits = append(c.circuits, id)
	}
	return c, nil
}

func circuitCalled(h *harness.Harness, word string) (harness.CircuitID, bool) {
	for _, c := range h.Circuits {
		if c.Number == word || strings.EqualFold(c.Key, word) || strings.EqualFold(c.Name, word) {
			return c.ID, true
		}
	}
	return harness.None, false
}

// guess is what was probably meant, "" where nothing is near.
func guess(h *harness.Harness, word string) string {
	names := Groups()
	for _, c := range h.Circuits {
		names = append(names, c.Key, c.Name)
	}
	if near := source.Nearest(word, names); near != "" {
		return "; did you mean " + strconv.Quote(near) + "?"
	}
	return ""
}

// of picks the sheets that are asked for; they keep their numbers, so that they can take the place
// of older ones in the binder. Links to sheets that are left out go. It fails where the reader's
// packet has none of them.
func (c choice) of(h *harness.Harness, pages []frame.Page, sheets []sheet.Sheet) ([]sheet.Sheet, error) {
	if c.all() {
		return sheets, nil
	}
	anchors := c.anchors(h)
	var out []sheet.Sheet
	for i, s := range sheets {
		if c.holds(pages[i], anchors) {
			out = append(out, s)
		}
	}
	if len(out) == 0 {
		return nil, errors.New("this packet has none of these sheets; the archive's has all (--for archive)")
	}
	return unlinked(out), nil
}

// anchors are the places at which the chosen circuits stand.
func (c choice) anchors(h *harness.Harness) map[string]bool {
	at := map[string]bool{}
	for _, id := range c.circuits {
		at["circuit/"+h.Circuits[id].Key] = true
		for _, w := range h.Circuits[id].Wires {
			at["drawn/"+h.Wires[w].Name] = true
			at["wire/"+h.Wires[w].Name] = true
		}
	}
	return at
}

func (c choice) holds(p frame.Page, anchors map[string]bool) bool {
	if slices.ContainsFunc(p.Groups, func(g string) bool { return slices.Contains(c.groups, g) }) {
		return true
	}
	return slices.ContainsFunc(p.Marks, func(m sheet.Mark) bool {
		a, ok := m.(sheet.Anchor)
		return ok && anchors[a.Name]
	})
}

// unlinked drops the links that lead nowhere on these sheets.
func unlinked(sheets []sheet.Sheet) []sheet.Sheet {
	there := map[string]bool{}
	for _, s := range sheets {
		for _, m := range s.Marks {
			if a, ok := m.(sheet.Anchor); ok {
				there[a.Name] = true
			}
		}
	}
	for i := range sheets {
		sheets[i].Marks = slices.DeleteFunc(slices.Clone(sheets[i].Marks), func(m sheet.Mark) bool {
			l, ok := m.(sheet.Link)
			return ok && !there[l.Target]
		})
	}
	return sheets
}
