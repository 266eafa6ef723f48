package handed

import (
	"regexp"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// end is one end of a wire: a part and a terminal of it, "" where none is named.
type end struct{ part, terminal string }

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

// endOf reads an end, such as X1:4, X1.4, X1/4, Fan +, K1 pin 87, GND.
func endOf(cell, terminal string) end {
	if terminal != "" {
		return end{refOf(cell), terminal}
	}
	if m := sideways.FindStringSubmatch(cell); m != nil && strings.Contains(m[1], ".") {
		cell = m[1] // a connector's cavity, as the table of figures names its sides
	}
	for _, form := range []*regexp.Regexp{atPoint, atColon, atWord, atSlash, atDash, atBlank, atSign} {
		if m := form.FindStringSubmatch(cell); m != nil {
			return end{refOf(m[1]), signOf(strings.TrimSpace(m[2]))}
		}
	}
	if i := strings.LastIndexByte(cell, ' '); i > 0 && slices.Contains(usual(kindOf(&part{ref: cell[:i]})), cell[i+1:]) {
		return end{refOf(cell[:i]), cell[i+1:]} // Ignition switch 15
	}
	return end{part: refOf(cell)}
}

// usual gives the terminals of a kind that has some by which it is known.
func usual(k string) []string {
	row, ok := kind.Of(harness.Kind(k))
	if !ok || row.Terminals == "1 2" {
		return nil
	}
	if row.Kind == harness.Relay {
		return strings.Fields(row.Terminals + " 87a")
	}
	return strings.Fields(row.Terminals)
}

// refOf gives the name of a part as stops can mention it.
func refOf(s string) string {
	s = strings.TrimSpace(strings.ReplaceAll(s, ".", "-"))
	if strings.EqualFold(s, "engine") {
		return "engine-block"
	}
	return s
}

var signs = map[string][]string{"+": {"plus", "pos", "positive", "positiv"}, "-": {"minus", "neg", "negative", "negativ", "−", "–"}}

// signOf gives a terminal's sign for a word that stands for it.
func signOf(terminal string) string {
	for _, sign := range []string{"+", "-"} {
		if slices.Contains(signs[sign], strings.ToLower(terminal)) {
			return sign
		}
	}
	return terminal
}
