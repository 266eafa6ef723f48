package describe

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/source"
)

// checkName refuses part names that a stop could not mention.
func checkName(r *read.Reader, w read.Word) {
	switch {
	case strings.Contains(w.Text, "."):
		r.Say(w.Span, "bad-name", fmt.Sprintf("the part's name %q holds a point", w.Text),
			"A stop is written PART.terminal and split at its first point: use a dash instead.")
	case strings.HasPrefix(w.Text, "?"):
		r.Say(w.Span, "bad-name", fmt.Sprintf("the part's name %q begins with a question mark", w.Text),
			"A stop that begins with ? is an end that nobody has traced. A box that nobody knows has a plain name and kind: unknown.")
	case strings.EqualFold(w.Text, "engine"):
		r.Say(w.Span, "bad-name", fmt.Sprintf("a part cannot be called %q", w.Text),
			"The word says in states whether the engine runs: use another name, such as ENG.")
	}
}

// checkNumbers refuses circuit numbers that are no number, and two circuits
// with the same one: their wires would carry the same names.
func checkNumbers(r *read.Reader, circuits []Circuit) {
	first := map[string]read.Word{}
	for _, c := range circuits {
		w := c.Number
		if !w.Given() {
			continue
		}
		if !allDigits(w.Text) || len(w.Text) > 6 {
			r.Say(w.Span, "bad-number", fmt.Sprintf("the circuit's number %q is not a number", w.Text), "Write digits alone: the wires take letters after it, 12A, 12B and so on.")
			continue
		}
		id := strings.TrimLeft(w.Text, "0")
		if old, seen := first[id]; seen {
			r.Say(w.Span, "duplicate-name", fmt.Sprintf("the circuit's number %s is taken", w.Text),
				"Give each circuit a number of its own: its wires are named after it.", source.Note{Span: old.Span, Text: "it was given here first"})
			continue
		}
		first[id] = w
	}
}

func allDigits(text string) bool {
	return text != "" && strings.Trim(text, "0123456789") == ""
}
