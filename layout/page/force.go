package page

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/rating"
)

// newtonsInPound is exact by definition.
const newtonsInPound = 4.4482216152605

// Forces prints the forces that crimps must hold; a packet has one.
type Forces struct {
	Names    []string // of the lists in use
	imperial bool
	lists    map[string]forceList // by the key of their source
}

// forceList is a list of pull-out forces: the name of its document, and whether it was not at hand.
type forceList struct {
	name       string
	remembered bool
}

// ForcesOf knows the lists that the crimps of a packet are pulled after.
func ForcesOf(a Ask) Forces {
	f := Forces{imperial: a.H.Sheet.Imperial, lists: map[string]forceList{}}
	for _, two := range a.R.Ends {
		for _, e := range two {
			f.know(e.PullList)
			if n := f.lists[e.PullList].name; e.Pull > 0 && !slices.Contains(f.Names, n) {
				f.Names = append(f.Names, n)
			}
		}
	}
	for _, l := range a.R.Lots {
		f.know(l.PullList)
	}
	slices.Sort(f.Names)
	return f
}

// know looks a list up once.
func (f Forces) know(key string) {
	if _, ok := f.lists[key]; !ok {
		f.lists[key] = listOf(key)
	}
}

// listOf is a list by the key of its source: its name is the source's title up to its table.
func listOf(key string) forceList {
	l := forceList{name: key}
	for _, s := range rating.SourcesOf([]string{key}) {
		l = forceList{s.Title, s.Status == rating.FromMemory}
	}
	if i := strings.IndexAny(l.name, ",:"); i > 0 {
		l.name = l.name[:i]
	}
	return l
}

// ForceUnit names the units of a force, the sheet's own first.
func ForceUnit(imperial bool) string {
	if imperial {
		return "lbf, N"
	}
	return "N, lbf"
}

// Both is a force in the sheet's own unit and in the other one.
func (f Forces) Both(newtons float64) (first, second string) {
	first, second = fmt.Sprintf("%.0f%sN", newtons, NoBreak), Trimmed(newtons/newtonsInPound, 1)+NoBreak+"lbf"
	if f.imperial {
		return second, first
	}
	return first, second
}

// From says which list a force is from where a sheet has several, and whether that was not at hand.
func (f Forces) From(list string) string {
	name, doubt := "", ""
	if len(f.Names) > 1 {
		name = f.lists[list].name
	}
	if f.lists[list].remembered {
		doubt = "from memory"
	}
	return List("\n", name, doubt)
}

// Cell is a force in newtons over pounds, on an imperial sheet in pounds over newtons.
func (f Forces) Cell(newtons float64, list string) table.Cell {
	if newtons == 0 {
		return table.Text("–")
	}
	first, second := f.Both(newtons)
	return table.Noted(first, List("\n", second, f.From(list)))
}
