package read

import (
	"regexp"
	"strings"

	"gopkg.in/yaml.v3"
)

// A lone question mark is YAML's mark of a complex key, which a description never has;
// here it stands for an end that nobody has traced. So it is hidden from the decoder
// behind a sign that means nothing to YAML and is as wide, and put back in every node:
// also where it was plain text, in quotes or in a note.

// stand is that sign, of the private use area.
const stand = "\uE03F"

// bracketed is a question mark before a bracket, a key that no description has: it stays one.
var bracketed = regexp.MustCompile(`(?m)^([ -]*)` + stand + `([^\S\n]*[\[{])`)

// hideQuestions is the text as the decoder gets it; a text that holds the sign itself stays as it is.
func hideQuestions(text string) string {
	if !strings.Contains(text, "?") || strings.Contains(text, stand) {
		return text
	}
	return bracketed.ReplaceAllString(strings.ReplaceAll(text, "?", stand), "$1?$2")
}

// showQuestions puts the question marks back.
func showQuestions(n *yaml.Node) {
	for _, s := range []*string{&n.Value, &n.HeadComment, &n.LineComment, &n.FootComment} {
		*s = strings.ReplaceAll(*s, stand, "?")
	}
	for _, c := range n.Content {
		showQuestions(c)
	}
}
