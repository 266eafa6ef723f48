// Package spelt reads the cells of a table as people write them: ends of wires, colours,
// sizes, lengths. A cell in, its words in the format out.
package spelt

import (
	"regexp"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/handed/guess"
)

// End is one end of a wire: a part and a terminal of it, "" where none is named.
type End struct{ Part, Terminal string }

var (
	atColon  = regexp.MustCompile(`^(.+?)\s*[:;]\s*([^:;]+)$`)
	atSlash  = regexp.MustCompile(`^(.*[A-Za-z].*?)\s*/\s*([A-Za-z]?[0-9]{1,3}[a-zA-Z]?|[+-])$`)
	atDash   = regexp.MustCompile(`^([A-Z]{1,4}[0-9]+)\s*-\s*([0-9A-Za-z]{1,4}[+-]?)$`)
	atWord   = regexp.MustCompile(`(?i)^(.+?)[\s,]+(?:pin|terminal|term\.?|klemme|kl\.?|kammer|cavity|cav\.?|borne|borna|pos\.?|morsetto|klem|contact)\s*([0-9A-Za-z+-]{1,6})$`)
	atSign   = regexp.MustCompile(`^(.*[^\s+(-])\s*\(?([+-])\)?$`)
	atBlank  = regexp.MustCompile(`^([A-Z]{1,4}[0-9]+)\s+([0-9]{1,3}[a-z]?|[A-Z][0-9]?)$`)
	atPoint  = regexp.MustCompile(`^([^.]+)\.([^.\s].*)$`)
	sideways = regexp.MustCompile(`^(.+)\.(in|out)$`)
)

// EndOf reads an end, such as X1:4, X1.4, X1/4, Fan +, K1 pin 87, GND.
func EndOf(cell, terminal string) End {
	if terminal != "" {
		return End{Ref(cell), terminal}
	}
	if m := sideways.FindStringSubmatch(cell); m != nil && strings.Contains(m[1], ".") {
		cell = m[1] // a connector's cavity, as the table of figures names its sides
	}
	for _, form := range []*regexp.Regexp{atPoint, atColon, atWord, atSlash, atDash, atBlank, atSign} {
		if m := form.FindStringSubmatch(cell); m != nil {
			return End{Ref(m[1]), Sign(strings.TrimSpace(m[2]))}
		}
	}
	if i := strings.LastIndexByte(cell, ' '); i > 0 && slices.Contains(guess.Usual(guess.Kind(cell[:i], "", nil)), cell[i+1:]) {
		return End{Ref(cell[:i]), cell[i+1:]} // Ignition switch 15
	}
	return End{Part: Ref(cell)}
}

// Ref gives the name of a part as stops can mention it.
func Ref(s string) string {
	s = strings.TrimSpace(strings.ReplaceAll(s, ".", "-"))
	if strings.EqualFold(s, "engine") {
		return "engine-block"
	}
	return s
}

var signs = map[string][]string{"+": {"plus", "pos", "positive", "positiv"}, "-": {"minus", "neg", "negative", "negativ", "−", "–"}}

// Sign gives a terminal's sign for a word that stands for it.
func Sign(terminal string) string {
	for _, sign := range []string{"+", "-"} {
		if slices.Contains(signs[sign], strings.ToLower(terminal)) {
			return sign
		}
	}
	return terminal
}
