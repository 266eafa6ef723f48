package guide

import (
	"regexp"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/rating"
)

// Signs tell how a source was come by where the document itself was not read, and where its
// edition is not known.
const (
	unnamedSign  = "°"
	memorySign   = "*"
	practiceSign = "†"
	editionSign  = "‡"
)

const sourcesRemark = "Check: " + unnamedSign + " nobody named, " + memorySign + " from memory, " +
	practiceSign + " common practice, " + editionSign + " edition not known."

// sign marks what was taken from a source.
func sign(s rating.Status) string {
	return map[rating.Status]string{rating.Unnamed: unnamedSign, rating.FromMemory: memorySign, rating.CommonPractice: practiceSign}[s]
}

// note is a document, and all that was taken from it.
type note struct{ document, taken string }

// sources are notes in small type, one behind the other: each document once, in bold, with what was
// taken from it.
func sources(a page.Ask, width float64) []item {
	return headed("Sources used", sourcesRemark, running(documents(a.R.Sources), width))
}

// running sets notes one behind the other in lines of a width.
func running(notes []note, width float64) []item {
	const between = 2.0
	var lines []item
	x := width
	put := func(text string, face sheet.Face, before float64) {
		w := typeface.Width(strings.TrimRight(text, " "), face, sheet.SizeNote)
		if x+before+w > width {
			lines, x, before = append(lines, item{size: sheet.SizeNote}), 0, 0
		}
		line := &lines[len(lines)-1]
		if last := len(line.words) - 1; last >= 0 && before == 0 && line.words[last].face == face {
			line.words[last].text += text
		} else {
			line.words = append(line.words, word{x + before, text, face})
		}
		x += before + typeface.Width(text, face, sheet.SizeNote)
	}
	for _, n := range notes {
		before := between
		for _, piece := range typeface.Pieces(n.document + " ") {
			put(piece, sheet.Bold, before)
			before = 0
		}
		for _, piece := range typeface.Pieces(n.taken) {
			put(piece, sheet.Regular, 0)
		}
	}
	return lines
}

// documents joins what was taken from one document, in the order of the first of each; what
// tests and faults rest on stands together, in as few words as there are.
func documents(all []rating.Source) []note {
	var notes []note
	at := map[string]int{}
	for _, x := range all {
		n, between := noted(x), "; "
		if x.Group != "" {
			n, between = note{x.Group, x.Short + sign(x.Status)}, ", "
		}
		k, met := at[n.document]
		if !met {
			at[n.document] = len(notes)
			notes = append(notes, n)
			continue
		}
		if !strings.Contains(notes[k].taken, n.taken) || x.Group == "" {
			notes[k].taken += between + n.taken
		}
	}
	return notes
}

// noted gives the document of a source, without the number of its paragraph or table, and in a few
// words what was taken from it, with how it was come by.
func noted(x rating.Source) note {
	document, _, _ := strings.Cut(x.Title, ": ")
	if name, _, ok := strings.Cut(document, ", edition not known, "); ok {
		document = name + ", edition not known"
	} else if at := paragraph.FindStringIndex(document); at != nil {
		document = document[:at[0]]
	}
	short := func(s string) string { return noEdition.ReplaceAllString(s, editionSign) }
	return note{short(document), short(x.Brief) + sign(x.Status)}
}

var (
	// noEdition says that an edition is not known.
	noEdition = regexp.MustCompile(`, editions? not known| \(editions? not known\)`)
	// paragraph is where the number of a paragraph or table begins behind a document's edition.
	paragraph = regexp.MustCompile(`, (table |p\. )?[0-9][0-9.-]*( and [0-9.-]+)?$`)
)
