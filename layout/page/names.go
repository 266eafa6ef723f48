package page

import (
	"slices"
	"strconv"
	"strings"

	"example.com/loomfolio/sizing/harness"
)

// LoadNames says in as few plain words as hold which loads are meant, by the names
// of their elements: a part stands once ("Headlamp left"), with its terminals
// only where some of its loads are not meant ("Headlamp left (56a)"), and what
// differs in its last word alone is joined ("Injector 1–4", "Headlamp left and right (56a)").
func LoadNames(a Ask, loads []string) []string {
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
			n.detail = And(details[id])
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
			text += " " + Ranges(slices.Compact(lasts))
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

// Ranges shortens following numbers: 1, 2, 3, 5 become 1–3 and 5.
func Ranges(names []string) string {
	var out []string
	for i := 0; i < len(names); {
		j := i
		for j+1 < len(names) && succeeds(names[j], names[j+1]) {
			j++
		}
		switch j - i {
		case 0, 1:
			out = append(out, names[i:j+1]...)
		default:
			out = append(out, names[i]+"–"+names[j])
		}
		i = j + 1
	}
	return And(out)
}

func succeeds(a, b string) bool {
	x, errX := strconv.Atoi(a)
	y, errY := strconv.Atoi(b)
	return errX == nil && errY == nil && y == x+1
}

// Opposite is a wire's end opposite to a terminal.
func Opposite(a Ask, w harness.WireID, t harness.TerminalID) harness.TerminalID {
	if a.H.Wires[w].From == t {
		return a.H.Wires[w].To
	}
	return a.H.Wires[w].From
}

// TitleOf is what stands beside a part's reference: its plain name and its place.
func TitleOf(a Ask, p *harness.Part) string {
	var words []string
	if p.Name != "" && p.Name != p.Ref {
		words = append(words, p.Name)
	}
	if at := a.At(p); at != "" {
		words = append(words, at)
	}
	return strings.Join(words, ", ")
}

// FarStop is a wire's far end as a stop: the terminal, or the cavity of a connector
// whichever half it is.
func FarStop(a Ask, t harness.TerminalID) string {
	if x := a.H.Terminals[t]; x.Cavity != "" {
		return a.H.PartOf(t).Ref + "." + x.Cavity
	}
	full, _ := a.Stop(t)
	return full
}
