package cover

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/source"
)

// ofWriting are the rules that concern the writing of the description, the record or the print
// alone, and are nothing to the customer.
var ofWriting = []string{
	"accept-unused", "airbag-unclear", "contact-never-closed", "no-glyph", "no-shop-terminal", "picture-no-folder", "price-of-nothing",
	"record-edited", "size-from-strands", "slack-only", "spark-lead-named", "wire-gone", "wire-split", "wire-taken-as",
}

// shown leaves out of the customer's packet what only concerns who writes the description.
func shown(a page.Ask) page.Ask {
	if a.For != page.Customer {
		return a
	}
	r := *a.R
	r.Findings, r.Accepted = nil, nil
	for _, f := range a.R.Findings {
		if f.Level == source.Error || !slices.Contains(ofWriting, f.Slug) {
			r.Findings = append(r.Findings, f)
		}
	}
	for _, x := range a.R.Accepted {
		if !slices.Contains(ofWriting, x.Slug) {
			r.Accepted = append(r.Accepted, x)
		}
	}
	a.R = &r
	return a
}

// mostOnCover is how many findings stand on the cover itself.
const mostOnCover = 6

// findingBlock is the list of all findings for the cover; none where there are none, or too many.
func findingBlock(a page.Ask, s *page.Book) part {
	n := len(a.R.Findings) + len(a.R.Accepted)
	if n == 0 || n > mostOnCover || a.R.Findings.HasErrors() {
		return part{}
	}
	t := findingColumns(a)
	for _, l := range levels {
		for _, group := range alike(a.R.Findings, l.level) {
			t.Rows = append(t.Rows, findingRow(a, l.one, group))
		}
	}
	for _, x := range a.R.Accepted {
		t.Rows = append(t.Rows, acceptedRow(a, "Accepted", x))
	}
	t.Columns[0] = table.Column{Min: 18, Max: 18}
	laid := t.Settle(s.Room.W)
	head := sheet.SizeHead*typeface.Leading + 0.6
	return part{head + laid.Height() + 2, func() {
		s.C.Anchor("sheet/findings", s.Room.X, s.Room.Y)
		y := frame.Paragraph(&s.C, s.Room, tally(a.R.Findings, a.R.Accepted), sheet.Strong(sheet.SizeHead)) + 0.6
		area := s.Room.Below(y)
		s.C.Add(laid.Flow(area, area)[0].Marks...)
	}}
}

// later are the sheets after the cover: what found no room there, each finding with
// what to do, gravest first.
func later(a page.Ask, list []Entry, lost left) []frame.Page {
	if lost == (left{}) {
		return nil
	}
	name, anchor := "Cover, continued", "sheet/cover-continued"
	if lost.findings {
		name, anchor = sheetName(a), "sheet/findings"
	}
	s := page.Open(a.Upright(), name, anchor, "")
	if lost.sheets {
		sheets(a, s, list)
	}
	if lost.handOver {
		hand := handOver(a, s)
		s.Need(hand.high)
		hand.draw()
		s.Down(hand.high)
	}
	if lost.notes {
		s.Head("Notes", 10)
		s.Say(strings.TrimSpace(a.H.Info.Notes), sheet.Plain(sheet.SizeBody))
	}
	if lost.findings {
		findings(a, s)
	}
	return s.Close()
}

// sheets lists all of them down the sheet.
func sheets(a page.Ask, s *page.Book, list []Entry) {
	s.Head("Sheets", 15)
	for _, e := range list {
		s.Need(2 * contentsLine)
		s.Room = s.Room.Below(entries(a, &s.C, s.Room, []Entry{e}))
	}
}

// findings lists them by level.
func findings(a page.Ask, s *page.Book) {
	for _, l := range levels {
		if n := a.R.Findings.Count(l.level); n > 0 {
			s.Head2(fmt.Sprintf("%s: %d", l.title, n), l.means, 16)
			s.Table(findingTable(a, l.level))
		}
	}
	if n := len(a.R.Accepted); n > 0 {
		s.Head2(fmt.Sprintf("Accepted: %d", n), "Advice that the description takes off the list, each with the reason given there.", 16)
		s.Table(acceptedTable(a))
	}
}

// sheetName is what the sheet of findings is called, "" where there are none.
func sheetName(a page.Ask) string {
	switch {
	case len(a.R.Findings) > 0:
		return "Open findings"
	case len(a.R.Accepted) > 0:
		return "Accepted findings"
	}
	return ""
}

// acceptedTable says of each accepted advice what it is and why it was accepted.
func acceptedTable(a page.Ask) *table.Table {
	t := findingColumns(a)
	for i, x := range a.R.Accepted {
		t.Rows = append(t.Rows, acceptedRow(a, fmt.Sprint(i+1), x))
	}
	return t
}

func acceptedRow(a page.Ask, first string, x source.Accepted) table.Row {
	cell := table.Cell{S: page.Sentence(x.Summary), Bold: true, Note: page.Sentence("Accepted, because " + x.Because)}
	return table.Row{Cells: placed(a, source.Problems{x.Problem}, table.Text(first), cell)}
}

func findingRow(a page.Ask, first string, group source.Problems) table.Row {
	cell := table.Cell{S: summaries(group), Bold: true, Note: advice(group[0])}
	return table.Row{Cells: placed(a, group, table.Text(first), cell)}
}

// placed adds where in the description the findings point, which is nothing to the customer.
func placed(a page.Ask, group source.Problems, cells ...table.Cell) []table.Cell {
	if a.For == page.Customer {
		return cells
	}
	return append(cells, table.Cell{S: lines(a.H.File, group), Note: strings.ReplaceAll(group[0].Slug, "-", " ")})
}

func findingColumns(a page.Ask) *table.Table {
	t := &table.Table{NoHead: true, Columns: []table.Column{{Min: 9, Max: 9, Align: table.Right}, {Weight: 1}}}
	if a.For != page.Customer {
		t.Columns = append(t.Columns, table.Column{Min: 34, Max: 34})
	}
	return t
}

var levels = []struct {
	level source.Level
	title string
	one   string
	means string
}{
	{source.Error, "Errors", "Error", "Do not build or power the loom before these are settled."},
	{source.Warning, "Warnings", "Warning", "To be understood and decided before the work is signed off."},
	{source.Advice, "Advisories", "Advisory", "Would make the loom better or easier to trace."},
}

func findingTable(a page.Ask, level source.Level) *table.Table {
	t := findingColumns(a)
	n := 0
	for _, group := range alike(a.R.Findings, level) {
		number := fmt.Sprint(n + 1)
		if n += len(group); len(group) > 1 {
			number += "–" + fmt.Sprint(n)
		}
		t.Rows = append(t.Rows, findingRow(a, number, group))
	}
	return t
}

// alike gathers the findings of a level that ask for the same to be done, in the order of the first of each.
func alike(found source.Problems, level source.Level) []source.Problems {
	var groups []source.Problems
	for _, p := range found {
		if p.Level != level {
			continue
		}
		at := slices.IndexFunc(groups, func(g source.Problems) bool { return p.Detail != "" && g[0].Slug == p.Slug && g[0].Detail == p.Detail })
		if at < 0 {
			groups = append(groups, nil)
			at = len(groups) - 1
		}
		groups[at] = append(groups[at], p)
	}
	return groups
}

// summaries says what is wrong: one sentence where the summaries differ in a word
// or two alone ("2A, 3B, 4C: is without a fuse."), else one a line.
func summaries(group source.Problems) string {
	var all [][]string
	for _, p := range group {
		all = append(all, strings.Fields(p.Summary))
	}
	head, tail := shared(all)
	var middles []string
	for _, words := range all {
		middles = append(middles, strings.Join(words[head:len(words)-tail], " "))
		if n := len(words) - head - tail; n < 1 || n > mostDiffering {
			middles = nil
			break
		}
	}
	if len(group) < 2 || len(middles) == 0 || head+tail < mostDiffering {
		return everySentence(group)
	}
	first := all[0]
	if head == 0 { // they are the subject: a list before the rest needs no other verb
		return page.Sentence(strings.Join(middles, ", ") + ": " + strings.Join(first[len(first)-tail:], " "))
	}
	text := append(slices.Clone(first[:head]), page.And(middles))
	return page.Sentence(strings.Join(append(text, first[len(first)-tail:]...), " "))
}

// mostDiffering is how many words of a summary may differ for it to be joined with others.
const mostDiffering = 2

func everySentence(group source.Problems) string {
	var all []string
	for _, p := range group {
		all = append(all, page.Sentence(p.Summary))
	}
	return strings.Join(all, "\n")
}

// shared counts the words that all have in common at their beginning and at their end.
func shared(all [][]string) (head, tail int) {
	least := len(all[0])
	for _, w := range all {
		least = min(least, len(w))
	}
	same := func(at func([]string) string) bool {
		return !slices.ContainsFunc(all, func(w []string) bool { return at(w) != at(all[0]) })
	}
	for head < least && same(func(w []string) string { return w[head] }) {
		head++
	}
	for tail < least-head && same(func(w []string) string { return w[len(w)-1-tail] }) {
		tail++
	}
	return head, tail
}

// lines says where in the description, or in a file that it includes, the findings point,
// each line once.
func lines(file *source.File, group source.Problems) string {
	var at []string
	for _, p := range group {
		n := fmt.Sprint(p.Span.Start.Line)
		if p.Span.File > 0 {
			n += " of " + file.In(p.Span).Path
		}
		if p.Span.Known() && !slices.Contains(at, n) {
			at = append(at, n)
		}
	}
	switch len(at) {
	case 0:
		return ""
	case 1:
		return "line " + at[0]
	}
	return "lines " + page.And(at)
}

// advice is what to do about a finding.
func advice(p source.Problem) string {
	if p.Detail == "" {
		return ""
	}
	return "To do: " + page.Sentence(p.Detail)
}
