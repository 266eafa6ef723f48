package bench

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/rating"
)

// newtonsInPound is exact by definition.
const newtonsInPound = 4.4482216152605

// pulls prints the forces that crimps must hold; a packet has one.
type pulls struct {
	imperial bool
	lists    map[string]pullList // by the key of their source
	names    []string            // of the lists in use
}

// pullList is a list of pull-out forces: the name of its document, and whether it was not at hand.
type pullList struct {
	name       string
	remembered bool
}

func pullsOf(a page.Ask) pulls {
	p := pulls{imperial: a.H.Sheet.Imperial, lists: map[string]pullList{}}
	for _, two := range a.R.Ends {
		for _, e := range two {
			p.know(e.PullList)
			if n := p.lists[e.PullList].name; e.Pull > 0 && !slices.Contains(p.names, n) {
				p.names = append(p.names, n)
			}
		}
	}
	for _, l := range a.R.Lots {
		p.know(l.PullList)
	}
	slices.Sort(p.names)
	return p
}

// know looks a list up once.
func (p pulls) know(key string) {
	if _, ok := p.lists[key]; !ok {
		p.lists[key] = listOf(key)
	}
}

// listOf is a list by the key of its source: its name is the source's title up to its table.
func listOf(key string) pullList {
	l := pullList{name: key}
	for _, s := range rating.SourcesOf([]string{key}) {
		l = pullList{s.Title, s.Status == rating.FromMemory}
	}
	if i := strings.IndexAny(l.name, ",:"); i > 0 {
		l.name = l.name[:i]
	}
	return l
}

// pullUnit names the units of a force, the sheet's own first.
func pullUnit(imperial bool) string {
	if imperial {
		return "lbf, N"
	}
	return "N, lbf"
}

// cell is a force in newtons over pounds, on an imperial sheet in pounds over newtons;
// the list stands with it where a sheet has several.
func (p pulls) cell(newtons float64, list string) table.Cell {
	if newtons == 0 {
		return table.Text("–")
	}
	first, second := fmt.Sprintf("%.0f%sN", newtons, page.NoBreak), page.Trimmed(newtons/newtonsInPound, 1)+page.NoBreak+"lbf"
	if p.imperial {
		first, second = second, first
	}
	c := table.Noted(first, second)
	if len(p.names) > 1 {
		c.Note += "\n" + p.lists[list].name
	}
	if p.lists[list].remembered {
		c.Note += "\nfrom memory"
	}
	return c
}
