package guide

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/source"
)

// findings are the sheets after the cover: the list and the notes that found no
// room there, then each open finding, gravest first, with its place in the description and what to do.
func findings(a page.Ask, left unplaced) []frame.Page {
	if len(a.R.Findings)+len(left.list) == 0 && left.notes == "" {
		return nil
	}
	name := "Open findings"
	if len(a.R.Findings) == 0 {
		name = "Cover, continued"
	}
	s := open(a.Upright(), name, "", "sheet/findings")
	if len(left.list) > 0 {
		s.head("Sheets", 15)
		s.table(contentsTable(a, left.list, sheet.SizeBody))
	}
	if left.notes != "" {
		s.head("Notes", 10)
		s.say(left.notes, sheet.Plain(sheet.SizeBody))
	}
	for _, l := range levels {
		if n := a.R.Findings.Count(l.level); n > 0 {
			s.head2(fmt.Sprintf("%s: %d", l.title, n), l.means, 16)
			s.table(findingTable(a, l.level))
		}
	}
	return s.done()
}

var levels = []struct {
	level source.Level
	title string
	means string
}{
	{source.Error, "Errors", "Do not build or power the harness before these are settled."},
	{source.Warning, "Warnings", "To be understood and decided before the work is signed off."},
	{source.Advice, "Advice", "Would make the harness better or easier to trace."},
}

func findingTable(a page.Ask, level source.Level) *table.Table {
	t := &table.Table{NoHead: true, Columns: []table.Column{{Min: 9, Max: 9, Align: table.Right}, {Weight: 1}, {Min: 34, Max: 34}}}
	n := 0
	for _, p := range a.R.Findings {
		if p.Level != level {
			continue
		}
		n++
		where := ""
		if p.Span.Known() {
			where = fmt.Sprintf("line %d", p.Span.Start.Line)
		}
		row := table.Row{Cells: []table.Cell{
			table.Text(fmt.Sprint(n)),
			{S: sentence(p.Summary), Bold: true, Note: advice(p)},
			{S: where, Note: p.Slug},
		}}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// advice is what to do about a finding.
func advice(p source.Problem) string {
	if p.Detail == "" {
		return ""
	}
	return "To do: " + sentence(p.Detail)
}

// sentence begins with a capital and ends with a stop.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	switch s[len(s)-1] {
	case '.', '!', '?':
		return capital(s)
	}
	return capital(s) + "."
}

// capital makes the first letter a capital, unless it begins a name.
func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' || named(s) {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// named tells whether the first word is a name to be left as it is, such as a
// key with a colon or a number after its letters.
func named(s string) bool {
	for _, r := range s {
		switch {
		case r == ' ':
			return false
		case r == ':' || r == '.' || r >= '0' && r <= '9' || r >= 'A' && r <= 'Z':
			return true
		}
	}
	return false
}
