package pdf

import (
	"fmt"

	"example.com/loomfolio/layout/sheet"
)

// entry is a bookmark.
type entry struct {
	title    string
	sheet    int // from 0
	children []entry
	begun    bool // it begins under another on its sheet, and may go on
}

// entries groups the sheets that follow each other with one Group; a group of a
// single sheet of the same name is that sheet alone. What also stands on a sheet follows it.
func entries(p sheet.Packet) []entry {
	var top []entry
	last := ""
	for i, s := range p.Sheets {
		item := entry{title: s.Title, sheet: i}
		switch {
		case s.Group == "":
			top = append(top, item)
		case s.Group == last || len(top) > 0 && top[len(top)-1].title == s.Group && top[len(top)-1].begun:
			group := &top[len(top)-1]
			group.children = append(group.children, item)
		default:
			top = append(top, entry{title: s.Group, sheet: i, children: []entry{item}})
		}
		last = s.Group
		for _, also := range s.Also {
			top = append(top, entry{title: also, sheet: i, begun: true})
			last = ""
		}
	}
	for i := range top {
		if c := top[i].children; len(c) == 1 && c[0].title == top[i].title {
			top[i].children = nil
		}
	}
	return top
}

// bookmarks writes the outline, all groups open, and gives the number of its root
// (ISO 32000-1, 12.3.3). An open entry counts its visible children.
func bookmarks(d *Document, p sheet.Packet) int {
	top := entries(p)
	root := d.Add("", nil)
	first := len(d.Objects) + 1
	visible := 0
	for i, e := range top {
		n := addEntry(d, p, e, root)
		visible += 1 + len(e.children)
		link(d, n, first, i, len(top), steps(top))
	}
	d.At(root).Dict = fmt.Appendf(nil, "<< /Type /Outlines /First %d 0 R /Last %d 0 R /Count %d >>",
		first, first+steps(top)[len(top)-1], visible)
	return root
}

// steps is how far each entry's object lies from that of the first.
func steps(level []entry) []int {
	var at []int
	sum := 0
	for _, e := range level {
		at = append(at, sum)
		sum += 1 + len(e.children)
	}
	return at
}

// addEntry writes an entry and its children; the chain to its neighbours follows in link.
func addEntry(d *Document, p sheet.Packet, e entry, parent int) int {
	y := p.Sheets[e.sheet].H * PerMM
	dest := target{PageObject(e.sheet), 0, y}
	n := d.Add(fmt.Sprintf("/Title %s /Parent %d 0 R /Dest %s", textString(e.title), parent, dest), nil)
	if len(e.children) == 0 {
		return n
	}
	o := d.At(n)
	o.Dict = fmt.Appendf(o.Dict, " /First %d 0 R /Last %d 0 R /Count %d", n+1, n+len(e.children), len(e.children))
	for i, c := range e.children {
		link(d, addEntry(d, p, c, n), n+1, i, len(e.children), steps(e.children))
	}
	return n
}

// link closes the dictionary of an entry with its neighbours.
func link(d *Document, n, first, i, of int, at []int) {
	o := d.At(n)
	text := string(o.Dict)
	if i > 0 {
		text += fmt.Sprintf(" /Prev %d 0 R", first+at[i-1])
	}
	if i+1 < of {
		text += fmt.Sprintf(" /Next %d 0 R", first+at[i+1])
	}
	o.Dict = []byte("<< " + text + " >>")
}
