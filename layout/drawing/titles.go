package drawing

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

func circuitName(c harness.Circuit) string {
	if c.Number == "" {
		return c.Name
	}
	return c.Number + " · " + c.Name
}

// title names the circuits of a page for the title block.
func (s *sheets) title(p leaf) string {
	var names []string
	for _, row := range p {
		for _, b := range row {
			names = append(names, s.blockName(b.b))
		}
	}
	for n := len(names); n > 0; n-- {
		full := strings.Join(names[:n], ", ")
		if n < len(names) {
			full += fmt.Sprintf(" and %d more", len(names)-n)
		}
		if n == 1 || typeface.Width(full, sheet.Bold, sheet.SizeBody) <= longestTitle {
			return full
		}
	}
	return "Circuits"
}

// longestTitle is how wide the title of a sheet may be, mm.
const longestTitle = 130

// blockName is what stands at the head of a block.
func (s *sheets) blockName(b *block) string {
	if b.power {
		return "Power" + b.share
	}
	return circuitName(s.h.Circuits[b.circuits[0]]) + b.share
}

func (s *sheets) nameWide(b *block) float64 {
	return typeface.Width(s.blockName(b), sheet.Bold, sheet.SizeHead)
}

// headLeads is the distance of the lines at a block's head, mm.
const headLeads = 3.4

// headLines is what is said of a block beside its name, broken to a width.
func (s *sheets) headLines(b *block, wide float64) []string {
	words := s.said(b)
	if words == "" {
		return nil
	}
	var out []string
	room := wide - s.nameWide(b) - 4
	line := ""
	for _, w := range strings.Split(words, " · ") {
		next := w
		if line != "" {
			next = line + " · " + w
		}
		if typeface.Width(next, sheet.Regular, sheet.SizeNote) <= room {
			line = next
			continue
		}
		out = append(out, line)
		line, room = w, wide
	}
	out = append(out, line)
	for i, l := range out {
		out[i] = typeface.Fit(l, sheet.Regular, sheet.SizeNote, wide)
	}
	return out
}

// said is what stands at the head of a block: fuses, amperes, and the state and the pole
// of the volts.
func (s *sheets) said(b *block) string {
	words := s.sidesSaid(b)
	if b.power {
		var names []string
		for _, c := range b.circuits {
			names = append(names, circuitName(s.h.Circuits[c]))
		}
		words = append(words, strings.Join(names, ", "))
	} else {
		words = append(words, s.fusesSaid(b.job)...)
		if a := s.atOnce(s.loadElements(b.job)); a > 0 {
			words = append(words, amps(a))
		}
	}
	if len(s.states) == 0 {
		return strings.Join(words, " · ")
	}
	var names []string
	for _, st := range b.states {
		names = append(names, s.r.States[st].Name)
	}
	pole := "negative"
	if s.h.System.PositiveEarth {
		pole = "positive"
	}
	return strings.Join(append(words, "state “"+strings.Join(names, "” / “")+"”, volts against battery "+pole), " · ")
}

// sidesSaid are the voltages on which a block lies, where there are several on board.
func (s *sheets) sidesSaid(b *block) []string {
	if !s.h.Mixed() {
		return nil
	}
	var out []string
	for _, v := range s.h.NominalsOn(b.wires) {
		out = append(out, v.String())
	}
	return []string{strings.Join(out, " / ")}
}

// fusesSaid are the fuses that a job passes.
func (s *sheets) fusesSaid(j *job) []string {
	var out []string
	in := setOf(append(slices.Clone(j.wires), j.lent.wires...))
	for _, id := range s.partsOf(j.wires) {
		p := &s.h.Parts[id]
		for _, t := range s.touched(p, in) {
			position, name := "", p.Ref
			if p.Kind == harness.FusePanel {
				position, name = s.h.Terminals[t].Name, s.h.Terminals[t].Full
			}
			if f := s.fuseOf(id, position); f != nil {
				if words := "fuse " + name + " " + amps(float64(f.Rating)); !slices.Contains(out, words) {
					out = append(out, words)
				}
			}
		}
	}
	if len(out) > 4 {
		return nil
	}
	return out
}

// numberParts tells apart the sheets of one title, and leaves each anchor only at
// its first place.
func (s *sheets) numberParts(drawings []Drawing) {
	count := map[string]int{}
	for _, d := range drawings {
		count[d.Title]++
	}
	seen := map[string]int{}
	for i := range drawings {
		d := &drawings[i]
		if n := count[d.Title]; n > 1 {
			seen[d.Title]++
			d.Title = fmt.Sprintf("%s (%d of %d)", d.Title, seen[d.Title], n)
		}
	}
	oneAnchorEach(drawings)
}

// oneAnchorEach leaves each anchor at its first place, and those of pins and tags only
// where something leads to them.
func oneAnchorEach(drawings []Drawing) {
	known, asked := map[string]bool{}, map[string]bool{}
	for _, d := range drawings {
		for _, m := range d.Marks {
			switch m := m.(type) {
			case sheet.Link:
				asked[m.Target] = true
			case sheet.Text:
				_, anchor := symbol.Resolve(m.S, func(string) string { return "" })
				asked[anchor] = true
			}
		}
	}
	for i := range drawings {
		drawings[i].Marks = slices.DeleteFunc(drawings[i].Marks, func(m mark) bool {
			a, ok := m.(sheet.Anchor)
			onDemand := ok && (strings.HasPrefix(a.Name, pinAt) || strings.HasPrefix(a.Name, tagAt))
			return onDemand && !asked[a.Name] || again(m, known)
		})
	}
}

type mark = sheet.Mark

// again tells whether a mark is an anchor that stands on a sheet already.
func again(m mark, known map[string]bool) bool {
	a, ok := m.(sheet.Anchor)
	if !ok {
		return false
	}
	seen := known[a.Name]
	known[a.Name] = true
	return seen
}
