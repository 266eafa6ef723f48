package layout

import (
	"slices"
	"sync"

	"example.com/loomfolio/layout/asfound"
	"example.com/loomfolio/layout/bench"
	"example.com/loomfolio/layout/cover"
	"example.com/loomfolio/layout/cutlist"
	"example.com/loomfolio/layout/faces"
	"example.com/loomfolio/layout/feeds"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/fusemap"
	"example.com/loomfolio/layout/glance"
	"example.com/loomfolio/layout/guide"
	"example.com/loomfolio/layout/index"
	"example.com/loomfolio/layout/loom"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/power"
	"example.com/loomfolio/layout/proving"
	"example.com/loomfolio/layout/quick"
	"example.com/loomfolio/layout/trouble"
)

// group is one group of sheets: what it is asked for by, the thumb tab that it stands under, its
// first anchor, who gets it besides the archive, and how it is laid out.
type group struct {
	name, tab, anchor string
	readers           []string
	lay               func(page.Ask) []frame.Page
}

// front is the name of the first group, which lists the others.
const front = "cover"

var (
	everybody  = []string{Bench, Customer}
	theBench   = []string{Bench}
	theOwner   = []string{Customer}
	theArchive []string
)

// groups are all of them in the order of the binder, the cover apart.
func groups(once prepared) []group {
	return []group{
		{"feeds", "Guide", feeds.Anchor, theOwner, func(a page.Ask) []frame.Page { return feeds.Feeds(a, once.glance().Missed()) }},
		{"guide", "Guide", "sheet/reading-guide", theOwner, guide.ReadingGuide},
		{"found", "Found", asfound.Anchor, theBench, asfound.Sheets},
		{"loads", "Fuses", "sheet/load-budget", theArchive, power.LoadBudget},
		{"fuses", "Fuses", "sheet/fuse-map", theOwner, fusemap.FuseMap},
		{"diagrams", "Circuits", "sheet/diagrams", everybody, func(a page.Ask) []frame.Page { return diagrams(a, once.drawings()) }},
		{"glance", "Glance", glance.Anchor, theOwner, func(a page.Ask) []frame.Page { return glance.Sheet(a, once.glance()) }},
		{"loom", "Loom", "sheet/loom", theBench, func(a page.Ask) []frame.Page { return loom.Sheets(a, once.maps()) }},
		{"build", "Build", "sheet/build-order", theBench, bench.BuildOrder},
		{"wires", "Wires", "sheet/wires", theBench, cutlist.Wires},
		{"splices", "Joints", "sheet/splices", everybody, bench.Splices},
		{"grounds", "Joints", "sheet/grounds", everybody, power.Grounds},
		{"connectors", "Joints", "sheet/connectors", everybody, faces.ConnectorFaces},
		{"colours", "Wires", "sheet/tracing", theArchive, cutlist.Tracing},
		{"tests", "Tests", proving.Anchor, theBench, proving.Tests},
		{"faults", "Faults", trouble.Anchor, theOwner, trouble.Faults},
		{"shopping", "Shopping", "sheet/shopping", theBench, cutlist.Shopping},
		{"index", "Index", "sheet/index", everybody, index.Index},
	}
}

// apart are sheets that repeat others for a place of their own: the quick page for the glove box is in the
// customer's packet, and both are printed when they are asked for.
func apart() []group {
	return []group{
		{"quick", "Quick", "sheet/quick", theOwner, quick.Quick},
		{"card", "Cards", "sheet/card", nil, func(a page.Ask) []frame.Page { return unshared(fusemap.Cards(a)) }},
	}
}

// unshared are pages that share no sheet with others, for they are cut up.
func unshared(pages []frame.Page) []frame.Page {
	for i := range pages {
		pages[i].Bottom = 0
	}
	return pages
}

// groupsFor are those that a reader gets, and at their end those that are asked for though the reader
// does not.
func groupsFor(reader string, asked []string, once prepared) []group {
	has := func(g group) bool { return reader == Archive || slices.Contains(g.readers, reader) }
	var out, last []group
	for _, g := range groups(once) {
		if has(g) {
			out = append(out, g)
		}
	}
	for _, g := range apart() {
		switch {
		case slices.Contains(g.readers, reader):
			out = slices.Insert(out, 1, g) // behind what feeds what, which finds room under the cover
		case slices.Contains(asked, g.name):
			last = append(last, g)
		}
	}
	return append(out, last...)
}

// Groups lists what a choice of sheets may name, in the order of the binder.
func Groups() []string {
	names := []string{front}
	for _, g := range append(groups(prepared{}), apart()...) {
		names = append(names, g.name)
	}
	return names
}

// all lays out every sheet of the reader's packet in order, the groups side by side;
// the cover lists the others.
func all(a page.Ask, asked []string, once prepared, found []bool) filled {
	groups := groupsFor(a.For, asked, once)
	laid := make([]stack, len(groups))
	var work sync.WaitGroup
	for i, g := range groups {
		work.Go(func() { laid[i] = stack{pages: marked(g.lay(a), g), again: lower(a, g)} })
	}
	work.Wait()
	var list []cover.Entry
	for i, s := range laid {
		if len(s.pages) > 0 {
			list = append(list, cover.Entry{Title: heading(s.pages[0]), Anchor: groups[i].anchor, Count: len(s.pages)})
		}
	}
	laid = slices.DeleteFunc(laid, func(s stack) bool { return len(s.pages) == 0 })
	return withCover(a, list, laid, found)
}

// lower lays a group out whose first sheet begins so far down the body; each height once.
func lower(a page.Ask, g group) func(above float64) []frame.Page {
	known := map[float64][]frame.Page{}
	return func(above float64) []frame.Page {
		if known[above] == nil {
			a.Above = above
			known[above] = marked(g.lay(a), g)
		}
		return known[above]
	}
}

// marked gives the pages of a group its name and its thumb tab.
func marked(pages []frame.Page, g group) []frame.Page {
	for i := range pages {
		pages[i].Groups, pages[i].Tabs = []string{g.name}, []string{g.tab}
	}
	return pages
}

// withCover puts the cover first; it grows with the findings, so the numbers in
// its list follow from its own length.
func withCover(a page.Ask, list []cover.Entry, laid []stack, found []bool) filled {
	var way filled
	for range 2 {
		first := marked(cover.Cover(a, list), group{name: front, tab: "Guide"})
		way = stacked(append([]stack{{pages: first}}, laid...), found)
		for i := range list {
			list[i].Sheet = way.starts[i+1]
			list[i].Count = way.last(i+1) - list[i].Sheet + 1
		}
		if found == nil {
			found = way.under
		}
	}
	return way
}

func heading(p frame.Page) string {
	if p.Group != "" {
		return p.Group
	}
	return p.Title
}
