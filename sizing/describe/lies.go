package describe

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/describe/read"
)

const holdsLies = "where it lies on the vehicle, such as front or front left"

// sideWords are the sides of a vehicle, each next to its opposite.
var sideWords = [...]string{"front", "rear", "left", "right"}

// opposite is the side across from one, "" for another word.
func opposite(side string) string {
	for i, word := range sideWords {
		if word == side {
			return sideWords[i^1]
		}
	}
	return ""
}

// takeLies reads the sides on which a place lies; those that cannot be are left out.
func takeLies(r *read.Reader, e read.Entry, p *Place) {
	line, ok := r.Line(e, holdsLies)
	if !ok {
		return
	}
	at := 0
	for _, text := range strings.Fields(line.Text) {
		at += strings.Index(line.Text[at:], text)
		takeSide(r, r.Piece(line, e, text, at), p)
		at += len(text)
	}
}

// takeSide adds one side, unless it is none or another one rules it out.
func takeSide(r *read.Reader, w read.Word, p *Place) {
	before := r.Said()
	if w = r.Among("side of a vehicle", w, sideWords[:]); r.Said() > before {
		return
	}
	for _, other := range p.Lies {
		switch w.Text {
		case other.Text:
			r.Say(w.Span, "bad-sides", fmt.Sprintf("%q is said twice", w.Text), "Leave one of them out.")
			return
		case opposite(other.Text):
			r.Say(w.Span, "bad-sides", fmt.Sprintf("a place cannot lie %s and %s", other.Text, w.Text),
				"Leave out the one that is not true, or both where it lies in the middle; left and right are those of who sits in the vehicle and looks ahead.")
			return
		}
	}
	p.Lies = append(p.Lies, w)
}
