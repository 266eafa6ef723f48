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

// fuses sets which fuse is for what, panel by panel in two columns.
func fuses(a page.Ask, s *page.Book, lines int) {
	t := list(a, s.ColumnWide(2), lines)
	if len(t.Rows) == 0 {
		return
	}
	s.Head2("Which fuse for what", "The fuse map tells more. Never fit a larger one.", 30)
	s.Spread(t, 2, 30)
}

func list(a page.Ask, width float64, lines int) *table.Table {
	groups, entries := grouped(a)
	t := &table.Table{Tight: true, Pad: 0.35, NoHead: true, NoZebra: true, Columns: []table.Column{{}, {}, {}, {Weight: 1, Min: 20}}}
	room := width - others(entries)
	for i, group := range groups {
		t.Rows = append(t.Rows, table.Heading(group, ""))
		for _, e := range entries[i] {
			t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
				{S: page.Firm(e.name), Bold: true, Link: a.Link(e.link)}, table.Strong(page.Firm(e.rating)), {Note: e.body}, table.Text(shortened(e.feeds, room, lines)),
			}})
		}
	}
	return t
}

// others is the width of the columns beside that of the loads.
func others(groups [][]entry) float64 {
	const pads = 8 * 0.9
	name, rating, body := 0.0, 0.0, 0.0
	for _, e := range slices.Concat(groups...) {
		name = max(name, typeface.Width(e.name, sheet.Bold, sheet.SizeBody))
		rating = max(rating, typeface.Width(e.rating, sheet.Bold, sheet.SizeBody))
		body = max(body, typeface.Width(e.body, sheet.Regular, sheet.SizeNote))
	}
	return name + rating + body + pads + 0.5
}

// shortened are as many of the loads as stand on so many lines, an ellipsis for the others.
func shortened(feeds []string, room float64, most int) string {
	for n := len(feeds); n > 0; n-- {
		text := strings.Join(feeds[:n], ", ")
		if n < len(feeds) {
			text += " …"
		}
		if len(typeface.Wrap(text, sheet.Regular, sheet.SizeBody, room)) <= most {
			return text
		}
	}
	if len(feeds) == 0 {
		return ""
	}
	line := typeface.Wrap(feeds[0], sheet.Regular, sheet.SizeBody, room)[0]
	return typeface.Fit(line+" …", sheet.Regular, sheet.SizeBody, room)
}

// grouped are the fuses that are fitted: those in the loom first, then panel by panel.
func grouped(a page.Ask) (titles []string, groups [][]entry) {
	at := map[harness.PartID]int{harness.None: -1}
	for i, f := range a.R.Fuses {
		p := a.Part(f.Part)
		if p == nil || len(f.Feeds)+len(f.Wires) == 0 {
			continue
		}
		key, title := harness.PartID(harness.None), "In the loom"
		if p.Panel != nil {
			key, title = p.ID, page.List(", ", a.Named(p), page.PlaceOf(a, p))
		}
		if k, ok := at[key]; !ok || k < 0 {
			at[key] = len(titles)
			titles, groups = append(titles, title), append(groups, nil)
		}
		groups[at[key]] = append(groups[at[key]], entryOf(a, f, i))
	}
	return titles, groups
}

func entryOf(a page.Ask, f chosen.Fuse, i int) entry {
	e := entry{name: f.Name, rating: "?", body: body(f), feeds: fused.Feeds(a, f, a.R.Outages[i]), link: "fuse/" + f.Name}
	if f.Rating > 0 {
		e.rating = f.Rating.String()
	}
	if p := a.Part(f.Part); p != nil && p.Panel == nil {
		if at := page.PlaceOf(a, p); at != "" {
			e.feeds = append([]string{at + ": " + page.Or(strings.Join(first(e.feeds), ""), "–")}, rest(e.feeds)...)
		}
	}
	return e
}

func first(s []string) []string { return s[:min(1, len(s))] }

func rest(s []string) []string { return s[min(1, len(s)):] }

// body is the colour in words, with the kind where it is no usual blade.
func body(f chosen.Fuse) string {
	kind := map[string]string{"mini": "mini", "maxi": "maxi", "bolt": "bolt-down", "glass": "glass"}[f.Body]
	if f.Breaker {
		kind = "breaker"
	}
	return page.Or(page.List(" ", f.BodyColour, kind), "blade")
}

// spares are the fuses to carry: those that the panels' descriptions name, and one of each other
// that is fitted (common practice, no source).
func spares(a page.Ask) []string {
	type kind struct {
		rating unit.Ampere
		body   string
	}
	count := map[kind]int{}
	var kinds []kind
	for _, f := range a.R.Fuses {
		k := kind{f.Rating, body(f)}
		if f.Breaker || f.Rating <= 0 || len(f.Feeds)+len(f.Wires) == 0 {
			continue
		}
		if count[k] == 0 {
			kinds = append(kinds, k)
		}
		count[k] = max(count[k], 1, named(a, f))
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
func named(a page.Ask, f chosen.Fuse) int {
	p := a.Part(f.Part)
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
