package guide

import (
	"regexp"
	"strconv"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/rating"
)

// sources are numbered notes in small type: each document once, with what was taken from it. How it was come by
// is marked where the document itself was not read.
func sources(a page.Ask, s *page.Book) {
	notes := documents(a.R.Sources)
	if len(notes) == 0 {
		return
	}
	s.Head2("Sources", "Whose figures decided something here. Unmarked: taken from the document. Unnamed: read where no maker or author is named; from memory: not looked up; "+
		"common practice: no document: check these before relying on them.", leastFlow)
	columned(s, 2, running(notes, (s.Room.W-page.ColumnGap)/2))
}

// running sets notes one behind the other, each with its number in bold, and gives their lines.
func running(notes []string, width float64) []item {
	const between = 2.2
	var lines []item
	x := width
	put := func(text string, face sheet.Face, before float64) {
		w := typeface.Width(strings.TrimRight(text, " "), face, sheet.SizeNote)
		if x+before+w > width {
			lines, x = append(lines, item{size: sheet.SizeNote}), -before
		}
		line := &lines[len(lines)-1]
		if last := len(line.words) - 1; last >= 0 && before == 0 && line.words[last].face == face {
			line.words[last].text += text
		} else {
			line.words = append(line.words, word{x + before, text, face})
		}
		x += before + typeface.Width(text, face, sheet.SizeNote)
	}
	for i, note := range notes {
		put(strconv.Itoa(i+1), sheet.Bold, between)
		for k, piece := range typeface.Pieces(note) {
			before := 0.0
			if k == 0 {
				before = 1
			}
			put(piece, sheet.Regular, before)
		}
	}
	return lines
}

// documents joins what was taken from one document, in the order of the first of each.
func documents(all []rating.Source) []string {
	var names []string
	taken := map[string][]string{}
	for _, x := range all {
		document, what := parted(x)
		if _, met := taken[document]; !met {
			names = append(names, document)
		}
		taken[document] = append(taken[document], what)
	}
	for i, name := range names {
		switch what := strings.Join(taken[name], "; "); {
		case strings.HasPrefix(what, "("):
			names[i] += " " + what
		case what != "":
			names[i] += ": " + what
		}
	}
	return names
}

// parted gives the document of a source, and what was taken from it, behind its paragraph or table,
// with how it was come by.
func parted(x rating.Source) (document, what string) {
	document, what, _ = strings.Cut(x.Title, ": ")
	if at := paragraph.FindStringIndex(document); at != nil {
		what = strings.TrimSpace(document[at[0]+2:] + " " + what)
		document = document[:at[0]]
	}
	if x.Status == rating.Read {
		return document, what
	}
	return document, strings.TrimSpace(what + " (" + string(x.Status) + ")")
}

// paragraph is where the number of a paragraph or table begins behind a document's edition.
var paragraph = regexp.MustCompile(`, (table |p\. )?[0-9][0-9.-]*( and [0-9.-]+)?$`)
