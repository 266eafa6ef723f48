package record

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// word is a stretch of a line without blanks, or a name in quotes.
type word struct {
	text   string
	span   source.Span
	quoted bool
}

// is tells whether the word stands there as a sign of the format, not as a name.
func (w word) is(sign string) bool { return w.text == sign && !w.quoted }

// scanner takes one line word by word. After the first problem the rest of the
// line is passed over: what follows would be read in the wrong place.
type scanner struct {
	p       *parser
	line    int
	words   []word
	at      int
	comment string
	failed  bool
}

func blank(r rune) bool { return unicode.IsSpace(r) || unicode.IsControl(r) }

// split parts a line into its words and the comment behind them.
func (s *scanner) split(line string) bool {
	rest, column := line, 1
	for {
		trimmed := strings.TrimLeftFunc(rest, blank)
		column += source.Width(rest) - source.Width(trimmed)
		rest = trimmed
		if rest == "" || rest[0] == '#' {
			s.comment = strings.TrimSpace(rest)
			return len(s.words) > 0
		}
		text, length := rest, len(rest)
		if rest[0] == '"' {
			raw, err := strconv.QuotedPrefix(rest)
			if err != nil {
				s.fail(source.At(s.line, column, source.Width(rest)), "a name in quotes does not end", "Close it with \".")
				return false
			}
			text, _ = strconv.Unquote(raw)
			length = len(raw)
		} else if i := strings.IndexFunc(rest, blank); i >= 0 {
			text, length = rest[:i], i
		}
		width := source.Width(rest[:length])
		s.words = append(s.words, word{text, source.At(s.line, column, width), rest[0] == '"'})
		column, rest = column+width, rest[length:]
	}
}

func (s *scanner) good() bool { return !s.failed }

func (s *scanner) fail(at source.Span, summary, detail string) {
	if !s.failed {
		s.failed = true
		s.p.say(at, "record-line", summary, detail)
	}
}

// missing reports that the line ends too early.
func (s *scanner) missing(what string) {
	last := s.words[len(s.words)-1].span
	s.fail(source.At(s.line, last.Start.Column+last.Width, 1), "here follows "+what+", and nothing does", s.form())
}

// form shows how a line is written.
func (s *scanner) form() string {
	if s.words[0].text == ending {
		return "Write for example: " + counted(28, 4)
	}
	if s.words[0].text == "fuse" {
		return "Write for example: fuse FP.3  planned  15 A  blade"
	}
	return "Write for example: wire fan MF1.2 -> K1.30  planned  12B  2.5 mm2  thin-wall-125  RD  840 mm"
}

func (s *scanner) next() (word, bool) {
	if s.at >= len(s.words) {
		return word{}, false
	}
	s.at++
	return s.words[s.at-1], true
}

func (s *scanner) name(what string) string {
	w, ok := s.next()
	switch {
	case !ok:
		s.missing(what)
	case strings.TrimSpace(w.text) == "" || strings.IndexFunc(w.text, unicode.IsControl) >= 0:
		s.fail(w.span, what+" is not a name", s.form())
	case w.is(arrow):
		s.fail(w.span, "here follows "+what+", not an arrow", s.form())
	}
	return w.text
}

func (s *scanner) exactly(text, what string) {
	if w, ok := s.next(); !ok {
		s.missing(what)
	} else if !w.is(text) {
		s.fail(w.span, fmt.Sprintf("here follows %s, not %q", what, w.text), s.form())
	}
}

// ordinal reads (2) where it stands; otherwise a wire is the first of its ends.
func (s *scanner) ordinal() int {
	if s.at >= len(s.words) || s.words[s.at].quoted || !strings.HasPrefix(s.words[s.at].text, "(") {
		return 1
	}
	w, _ := s.next()
	n, err := strconv.Atoi(strings.TrimSuffix(strings.TrimPrefix(w.text, "("), ")"))
	if err != nil || n < 1 || n > 99 || w.text != fmt.Sprintf("(%d)", n) {
		s.fail(w.span, fmt.Sprintf("%q does not count the wires between two ends", w.text), "Write (2) on the second wire between the same ends, (3) on the third.")
	}
	return n
}

func (s *scanner) state() harness.KeptState {
	w, ok := s.next()
	if !ok {
		s.missing("planned, built or retired")
		return ""
	}
	state := known(w.text)
	if state == "" {
		detail := "A line is planned, built or retired."
		if near := source.Nearest(w.text, states()); near != "" {
			detail = "Did you mean " + near + "? " + detail
		}
		s.fail(w.span, fmt.Sprintf("%q is no state of a line", w.text), detail)
	}
	return state
}

// quantity reads a value of up to so many words, the most that make one.
func quantity[T any](s *scanner, what string, most int, parse func(string) (T, error)) T {
	var none T
	if s.at >= len(s.words) {
		s.missing(what)
		return none
	}
	from, text, said := s.at, "", error(nil)
	best, upTo := none, from
	for i := from; i < min(from+most, len(s.words)); i++ {
		text = strings.TrimSpace(text + " " + s.words[i].text)
		value, err := parse(text)
		if err == nil {
			best, upTo = value, i+1
		} else if said == nil {
			said = err
		}
	}
	if upTo == from {
		s.fail(s.words[from].span, what+": "+strings.TrimSuffix(said.Error(), "."), s.form())
		return none
	}
	s.at = upTo
	return best
}

// says tells whether one of the words taken since holds one of the texts as its end.
func (s *scanner) says(from int, texts ...string) bool {
	for _, w := range s.words[min(from, s.at):s.at] {
		for _, t := range texts {
			if strings.HasSuffix(strings.ToLower(w.text), t) {
				return true
			}
		}
	}
	return false
}

// sleeves reads the wires that only number sleeves tell one from, where any are named.
func (s *scanner) sleeves() []string {
	if s.at >= len(s.words) || !s.words[s.at].is(sleeve) {
		return nil
	}
	s.next()
	out := []string{s.name("the name of a wire that looks alike")}
	for s.good() && s.at < len(s.words) {
		out = append(out, s.name("the name of a wire that looks alike"))
	}
	return out
}

func (s *scanner) end() {
	if w, more := s.next(); more {
		s.fail(w.span, fmt.Sprintf("%q stands after the end of the line", w.text), "Put # before a comment. "+s.form())
	}
}
