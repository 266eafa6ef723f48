package power

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/fit/fitted"
)

// bodies lists the parts that are grounded by their own bodies, and says once a surface how
// the metal under them is made ready.
func bodies(a page.Ask, s *page.Book) {
	if len(a.R.Bodies) == 0 {
		return
	}
	t := &table.Table{Tight: true, Columns: []table.Column{
		{Title: "Part"}, {Title: "Place"}, {Title: "Surface"}, {Title: "Carries"}, {Title: "Offset", Weight: 1},
	}}
	for i := range a.R.Bodies {
		b := &a.R.Bodies[i]
		p := a.Part(b.Part)
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			{S: p.Ref, Bold: true, Link: a.Link("part/" + p.Ref)}, table.Text(page.PlaceOf(a, p)), table.Text(b.Surface),
			table.Text(bodyCarries(b)), table.Text(bodyOffset(b)),
		}})
	}
	s.Section("Grounded by their own bodies", t)
	s.Remark("No wire leads from these to ground. If one is dead or dim measure here first: bare metal of its body to battery " + post(a) + ". " + underBodies(a.R.Bodies))
}

// underBodies says what is done under them, once a surface.
func underBodies(all []fitted.Body) string {
	var said []string
	for _, b := range all {
		text := page.Capital(b.Surface) + ": " + strings.ReplaceAll(b.Prep, "as wide as the ring", "as wide as it stands on it") + "; " + b.Washer + "."
		if !slices.Contains(said, text) {
			said = append(said, text)
		}
	}
	return strings.Join(said, " ")
}

// bodyCarries says what passes a body.
func bodyCarries(b *fitted.Body) string {
	if b.State == "" {
		return "no current"
	}
	return page.Firm(b.Amps.String()) + " (" + b.State + ")"
}

// bodyOffset says how far a body gets from the battery's post.
func bodyOffset(b *fitted.Body) string {
	if b.LiftIn == "" {
		return millivolts(b.Lift)
	}
	return millivolts(b.Lift) + " (" + b.LiftIn + ")"
}
