package proving

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
)

// apart sets what must not beep: which terminals of a part to one another, parts of which the
// same is said together; what not to ground; and the empty fuse holders.
func (s *sheets) apart(l *list) {
	if len(s.p.Before.Apart)+len(s.p.Before.Pulled) == 0 {
		return
	}
	l.sub("Must not beep: neighbours, and to ground", s.unplugged())
	var short []run
	for _, g := range s.beside() {
		if len(g.text)+4*len(g.parts) > shortText {
			l.add(ticked(), strong(s.refs(g.parts)), plain(g.text))
			continue
		}
		if len(short) > 0 {
			short = append(short, strong(box+page.NoBreak+s.refs(g.parts)), plain(g.text))
		} else {
			short = []run{strong(s.refs(g.parts)), plain(g.text)}
		}
	}
	if len(short) > 0 {
		l.add(ticked(), short...)
	}
	var ground, behind []harness.TerminalID
	for _, x := range s.p.Before.Apart {
		switch {
		case x.Ground && len(x.Off) == 0:
			ground = append(ground, x.A)
		case x.Ground:
			behind = append(behind, x.A)
		}
	}
	if len(ground)+len(behind) > 0 {
		l.add(ticked(), strong("To ground"), plain("each switch worked meanwhile: "+page.List("; ", s.listed(ground), out(s.listed(behind)))))
	}
	s.holders(l)
}

// shortText is how long a text is at most that shares a line with others.
const shortText = 24

// out marks what beeps through parts that are still in.
func out(text string) string {
	if text == "" {
		return ""
	}
	return partsOut + " " + text
}

// alike are parts of which the same is said.
type alike struct {
	parts []harness.PartID
	text  string
}

// beside gathers the neighbours that must not beep, part by part.
func (s *sheets) beside() []alike {
	var order []harness.PartID
	by := map[harness.PartID][]proof.Apart{}
	for _, x := range s.p.Before.Apart {
		if x.Ground {
			continue
		}
		p := s.H.Terminals[x.A].Part
		if by[p] == nil {
			order = append(order, p)
		}
		by[p] = append(by[p], x)
	}
	var all []alike
	for _, p := range order {
		text := s.pairs(by[p])
		i := slices.IndexFunc(all, func(g alike) bool { return g.text == text })
		if i < 0 {
			i = len(all)
			all = append(all, alike{text: text})
		}
		all[i].parts = append(all[i].parts, p)
	}
	return all
}

// pairs are the neighbours of a part, those with something in between behind the others.
func (s *sheets) pairs(all []proof.Apart) string {
	var free, behind []proof.Apart
	for _, x := range all {
		if len(x.Off) > 0 {
			behind = append(behind, x)
		} else {
			free = append(free, x)
		}
	}
	return page.List("; ", s.paths(free), out(s.paths(behind)))
}

// paths strings pairs together: "1·2·3 7·8".
func (s *sheets) paths(pairs []proof.Apart) string {
	var texts []string
	for left := slices.Clone(pairs); len(left) > 0; {
		first := left[0]
		text := s.short(first.A)
		for last, k := first.A, 0; k >= 0; k = slices.IndexFunc(left, func(p proof.Apart) bool { return p.A == last }) {
			last = left[k].B
			text += "·" + s.beyond(first.A, last)
			left = slices.Delete(left, k, k+1)
		}
		texts = append(texts, page.Firm(text))
	}
	return strings.Join(texts, " ")
}

// beyond is a terminal's short name on the part of another, else its whole name.
func (s *sheets) beyond(here, t harness.TerminalID) string {
	if s.ref(here) == s.ref(t) {
		return s.short(t)
	}
	return s.stop(t)
}

// holders adds a row for the fuse holders: nothing may be left across one whose fuse is out.
func (s *sheets) holders(l *list) {
	var free, behind []string
	for _, x := range s.p.Before.Pulled {
		name := s.H.Elements[x.Fuse].Name
		switch {
		case len(x.Off) > 0:
			behind = append(behind, name)
		case x.Note != "":
			l.add(ticked(), strong(name), plain("fuse out: "+x.Note))
		default:
			free = append(free, name)
		}
	}
	if text := page.List("; ", s.fuses(free), out(s.fuses(behind))); text != "" {
		l.add(ticked(), strong("Each fuse out"), plain("open across its holder, switches at rest: "+text))
	}
}

// fuses are names of fuses, those of a panel together: "MF1 FD.1–6".
func (s *sheets) fuses(names []string) string {
	var panels []string
	of := map[string][]string{}
	for _, name := range names {
		panel, position, _ := strings.Cut(name, ".")
		if of[panel] == nil {
			panels = append(panels, panel)
		}
		of[panel] = append(of[panel], position)
	}
	var text []string
	for _, panel := range panels {
		dot := panel + "."
		if of[panel][0] == "" {
			dot = panel
		}
		for _, span := range spans(of[panel]) {
			text = append(text, page.Firm(dot+span))
			dot = "."
		}
	}
	return strings.Join(text, " ")
}
