package quick

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/fused"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// entry is one fuse in the list: what it is called, its rating, its body, and what it feeds.
type entry struct {
	name, rating, body string
	feeds              []string
	link               string
}

// group is the fuses of one panel, or those in the loom at one place.
type group struct {
	title   string
	entries []entry
}

// fuses sets which fuse is for what, panel by panel in two columns.
func (t teller) fuses(s *page.Book) {
	list := t.list(s.ColumnWide(2))
	if len(list.Rows) == 0 {
		return
	}
	s.Head("Which fuse for what: never fit a larger one", 30)
	s.Spread(list, 2, 30)
	s.Down(1)
}

func (t teller) list(width float64) *table.Table {
	groups := t.groups()
	list := &table.Table{Tight: true, Pad: t.pad, NoHead: true, NoZebra: true, Columns: []table.Column{{}, {}, {}, {Weight: 1, Min: 20}}}
	room := width - others(groups)
	for _, g := range groups {
		list.Rows = append(list.Rows, table.Heading(g.title, ""))
		for _, e := range g.entries {
			list.Rows = append(list.Rows, table.Row{Cells: []table.Cell{
				{S: page.Firm(e.name), Bold: true, Link: t.Link(e.link)}, table.Text(page.Firm(e.rating)), {Note: page.Firm(e.body)}, table.Text(shortened(e.feeds, room, t.level)),
			}})
		}
	}
	return list
}

// others is the width of the columns beside that of the loads.
func others(groups []group) float64 {
	const pads = 8 * 0.9
	name, rating, body := 0.0, 0.0, 0.0
	for _, g := range groups {
		for _, e := range g.entries {
			name = max(name, typeface.Width(e.name, sheet.Bold, sheet.SizeBody))
			rating = max(rating, typeface.Width(e.rating, sheet.Regular, sheet.SizeBody))
			body = max(body, typeface.Width(e.body, sheet.Regular, sheet.SizeNote))
		}
	}
	return name + rating + body + pads + 0.5
}

// shortened are as many of the loads as stand on so many lines, an ellipsis for the others.
func shortened(feeds []string, room float64, l level) string {
	for n := len(feeds); n > 0; n-- {
		text := strings.Join(feeds[:n], ", ")
		if n < len(feeds) {
			text += page.NoBreak + "…"
		}
		most := l.lines
		if n == 1 {
			most = l.first
		}
		if len(typeface.Wrap(text, sheet.Regular, sheet.SizeBody, room)) <= most {
			return text
		}
	}
	return typeface.Fit(feeds[0]+page.NoBreak+"…", sheet.Regular, sheet.SizeBody, room)
}

// groups are the fuses that are fitted: those in the loom first, place by place, then those
// of the panels, as one reads them.
func (t teller) groups() []group {
	var places []string
	loom := map[string][]entry{}
	for i, f := range t.R.Fuses {
		p := t.Part(f.Part)
		if p == nil || p.Panel != nil || len(f.Feeds)+len(f.Wires) == 0 {
			continue
		}
		at := page.PlaceOf(t.Ask, p)
		e := t.entry(f, i, body(f))
		if t.lines == 1 { // one heading for all
			e.feeds[0], at = page.List(": ", at, e.feeds[0]), ""
		}
		if loom[at] == nil {
			places = append(places, at)
		}
		loom[at] = append(loom[at], e)
	}
	var out []group
	for _, at := range places {
		out = append(out, group{page.List(", ", "In the loom", at), loom[at]})
	}
	for _, id := range t.Panels() {
		if g := t.panel(t.Part(id)); len(g.entries) > 0 {
			out = append(out, g)
		}
	}
	return out
}

// panel is a panel's fuses in the order of its rows; a kind of body that all have stands in the title.
func (t teller) panel(p *harness.Part) group {
	at := map[string]int{}
	kinds := map[string]bool{}
	for _, i := range t.FusesOf(p.ID) {
		if f := t.R.Fuses[i]; len(f.Feeds)+len(f.Wires) > 0 {
			at[f.Position] = i
			kinds[kindOf(f)] = true
		}
	}
	g := group{title: page.List(", ", t.Named(p), page.PlaceOf(t.Ask, p))}
	for _, position := range slices.Concat(p.Panel.Layout...) {
		i, ok := at[position]
		if !ok {
			continue
		}
		f := t.R.Fuses[i]
		words := body(f)
		if len(kinds) == 1 && f.BodyColour != "" {
			words = f.BodyColour
		}
		g.entries = append(g.entries, t.entry(f, i, words))
		if kind := kindOf(f); len(kinds) == 1 && kind != "" && len(g.entries) == 1 {
			g.title += ": " + kind
		}
	}
	return g
}

func (t teller) entry(f chosen.Fuse, i int, body string) entry {
	e := entry{name: f.Name, rating: "?", body: body, feeds: fused.Feeds(t.Ask, f, t.R.Outages[i]), link: "fuse/" + f.Name}
	if f.Rating > 0 {
		e.rating = f.Rating.String()
	}
	if len(e.feeds) == 0 {
		e.feeds = []string{"–"}
	}
	return e
}

// kindOf is the kind of body, "" of the usual blade.
func kindOf(f chosen.Fuse) string {
	if f.Breaker {
		return "breaker"
	}
	return map[string]string{"mini": "mini", "maxi": "maxi", "bolt": "bolt", "glass": "glass"}[f.Body]
}

// body is the colour in words, with the kind where it is no usual blade.
func body(f chosen.Fuse) string {
	return page.Or(page.List(" ", f.BodyColour, kindOf(f)), "blade")
}

// spares are the fuses to carry: those that the panels' descriptions name, and one of each other
// that is fitted (common practice, no source).
func (t teller) spares() []string {
	type kind struct {
		rating unit.Ampere
		body   string
	}
	count := map[kind]int{}
	var kinds []kind
	for _, f := range t.R.Fuses {
		k := kind{f.Rating, body(f)}
		if f.Breaker || f.Rating <= 0 || len(f.Feeds)+len(f.Wires) == 0 {
			continue
		}
		if count[k] == 0 {
			kinds = append(kinds, k)
		}
		count[k] = max(count[k], 1, t.named(f))
	}
	slices.SortStableFunc(kinds, func(x, y kind) int { return int(100*x.rating) - int(100*y.rating) })
	var words []string
	for _, k := range kinds {
		words = append(words, page.Firm(fmt.Sprintf("%d × %s %s", count[k], k.rating, k.body)))
	}
	if len(words) == 0 {
		return nil
	}
	return []string{strings.Join(words, ", ")}
}

// named is how many spare ones of a fuse's rating its panel's description names.
func (t teller) named(f chosen.Fuse) int {
	p := t.Part(f.Part)
	n := 0
	if p != nil && p.Panel != nil {
		for _, text := range p.Panel.Spare {
			if amps, err := unit.ParseAmpere(text); err == nil && amps == f.Rating {
				n++
			}
		}
	}
	return n
}
