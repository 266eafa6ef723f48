package read

import (
	"fmt"
	"regexp"
	"strings"

	"example.com/loomfolio/sizing/source"
)

// fault is a broken rule of YAML, found by our own reading of the text.
type fault struct {
	span            source.Span
	summary, detail string
}

// syntax reports why a section is not YAML. The parser's own message comes
// without a column and often with the wrong line, so the text is read once
// more for the usual slips; failing that, the first line with which the
// section stops being readable is marked.
func (r *Reader) syntax(s stretch, err error) {
	scan := scanner{lines: r.lines[:s.last], row: s.first - 1}
	scan.run()
	f := scan.found
	if f == nil {
		f = r.firstBadLine(s, scan.closed, err)
	}
	r.Say(f.span, "yaml-syntax", f.summary, f.detail)
}

// firstBadLine finds, by halving, the first line that makes the section
// unreadable; only lines at whose end no bracket or quote is open are tried.
func (r *Reader) firstBadLine(s stretch, closed []int, err error) *fault {
	good, bad := 0, len(closed)
	for good < bad {
		mid := (good + bad) / 2
		if _, err := decode(r.text(stretch{s.first, closed[mid]})); err != nil {
			bad = mid
		} else {
			good = mid + 1
		}
	}
	line := s.first
	if bad < len(closed) {
		line = closed[bad]
		if _, e := decode(r.text(stretch{s.first, line})); e != nil {
			err = e
		}
	}
	return r.explain(line, s, strings.TrimSpace(linePrefix.ReplaceAllString(err.Error(), "")))
}

var (
	linePrefix = regexp.MustCompile(`^yaml: (line \d+: )?`)
	tightColon = regexp.MustCompile(`^\s*(- )?[\pL\pN_+-]+:[^\s/]`)
)

// explain words the parser's message for the line that it is about.
func (r *Reader) explain(line int, s stretch, message string) *fault {
	if n := r.lineBefore(line, s); n > 0 && tightColon.MatchString(r.lines[n-1]) && strings.Contains(message, "mapping values") {
		line, message = n, "tight colon"
	} else if tightColon.MatchString(r.lines[line-1]) {
		message = "tight colon"
	}
	at := r.content(line)
	switch {
	case message == "tight colon":
		return &fault{at, "a space is missing after the colon", "Write the key, a colon, a space, then the value: length: 2 m"}
	case strings.Contains(message, "expected alphabetic or numeric"):
		return &fault{at, "a text cannot begin with & or *, which name values for reuse", "Put the text in quotes."}
	case unknownMark.MatchString(message):
		return r.noMark(unknownMark.FindStringSubmatch(message)[1])
	case strings.Contains(message, "expected ':'"), strings.Contains(message, "not a key"):
		return &fault{at, "this line is not a key with a colon and a value", "Write the key, a colon, a space, then the value; a list's lines begin with a dash and a space."}
	case strings.Contains(message, "block sequence entries"):
		return &fault{at, "a dash stands where no list can begin", `Begin a list on a line of its own, or put a lone dash in quotes: "-".`}
	case strings.Contains(message, "expected key"), strings.Contains(message, "mapping values"), strings.Contains(message, "expected '-'"):
		return &fault{at, "this line does not line up with the lines around it", "Give the keys that belong together the same indent, and what belongs to a key two spaces more."}
	}
	return &fault{at, "YAML cannot read this: " + message, "Check the quotes, brackets and indent here and on the line above; put a text with special signs in quotes."}
}

// lineBefore gives the last line with content before a line of the section, or 0.
func (r *Reader) lineBefore(line int, s stretch) int {
	for n := line - 1; n >= s.first; n-- {
		if t := strings.TrimSpace(r.lines[n-1]); t != "" && t[0] != '#' {
			return n
		}
	}
	return 0
}

// content is the span of a line without its indent.
func (r *Reader) content(line int) source.Span {
	text := r.lines[line-1]
	body := strings.TrimLeft(text, " ")
	return source.At(line, len(text)-len(body)+1, max(source.Width(strings.TrimSpace(body)), 1))
}

// scanner reads the text as YAML's plain, quoted and bracketed values and
// notes the first usual slip. It knows only as much of YAML as is needed for
// that; what it does not find is left to the parser's message.
type scanner struct {
	lines  []string
	row    int // index of the line being read
	text   []rune
	col    int // index into text
	open   []opening
	closed []int // lines, from 1, at whose end nothing is open
	found  *fault
}

// opening is a bracket that waits for its end.
type opening struct {
	sign rune
	span source.Span
}

func (c *scanner) run() {
	for ; c.row < len(c.lines) && c.found == nil; c.row++ {
		c.text, c.col = []rune(c.lines[c.row]), 0
		c.line()
		if c.found == nil && len(c.open) == 0 {
			c.closed = append(c.closed, c.row+1)
		}
	}
	if c.found == nil && len(c.open) > 0 {
		o := c.open[len(c.open)-1]
		c.found = &fault{o.span, fmt.Sprintf("%q is never closed", string(o.sign)), closeAdvice(c.hashes())}
	}
}

func closeAdvice(hash string) string {
	if hash != "" {
		return fmt.Sprintf("A # after a space begins a comment and hides the closing bracket: write \"%s\" in quotes.", hash)
	}
	return "Close each [ with ] and each { with } before the next key."
}

var hashValue = regexp.MustCompile(`[:,\[] +(#[^ ,\]}]+)`)

// hashes finds a value that begins with # since the open bracket.
func (c *scanner) hashes() string {
	from := c.open[len(c.open)-1].span.Start.Line
	for n := from; n <= len(c.lines); n++ {
		if m := hashValue.FindStringSubmatch(c.lines[n-1]); m != nil {
			return m[1]
		}
	}
	return ""
}

// line reads the current line from the current column to its end.
func (c *scanner) line() {
	row := c.row
	colons := 0
	for c.found == nil && c.row == row && c.col < len(c.text) {
		c.spaces()
		if c.col >= len(c.text) || c.text[c.col] == '#' {
			return
		}
		c.value(&colons)
	}
}

func (c *scanner) spaces() {
	for c.col < len(c.text) && (c.text[c.col] == ' ' || c.text[c.col] == '\t') {
		c.col++
	}
}

// value reads one value or sign; the column stands on its first character.
func (c *scanner) value(colons *int) {
	switch sign := c.text[c.col]; {
	case sign == '"' || sign == '\'':
		c.quoted(sign)
	case sign == '[' || sign == '{':
		c.open = append(c.open, opening{sign, c.here(1)})
		c.col++
	case sign == ']' || sign == '}':
		c.shut(sign)
	case len(c.open) > 0 && (sign == ',' || sign == ':'):
		c.col++
	case sign == ':' || (sign == '-' || sign == '?') && c.blankAt(c.col+1):
		c.col++
	case sign == '@' || sign == '`' || sign == '%':
		c.fail(1, fmt.Sprintf("a text cannot begin with %q", string(sign)), "Put the text in quotes.")
	case sign == '|' || sign == '>':
		c.block()
	default:
		c.plain(colons)
	}
}

// plain reads an unquoted text to its end.
func (c *scanner) plain(colons *int) {
	for c.col < len(c.text) {
		sign := c.text[c.col]
		switch {
		case sign == '#' && c.blankAt(c.col-1):
			return
		case len(c.open) > 0 && strings.ContainsRune(",[]{}", sign):
			return
		case sign == ':' && (c.blankAt(c.col+1) || len(c.open) > 0 && strings.ContainsRune(",[]{}", c.text[c.col+1])):
			if *colons++; *colons > 1 && len(c.open) == 0 {
				c.fail(1, "a second colon in one line", "Put the text in quotes when it holds a colon and a space, or begin a new line for a new key.")
			}
			c.col++
			return
		}
		c.col++
	}
}

// quoted reads a quoted text, over lines if need be, and what follows it.
func (c *scanner) quoted(quote rune) {
	start := c.here(1)
	c.col++
	for {
		for c.col < len(c.text) && c.text[c.col] != quote {
			if quote == '"' && c.text[c.col] == '\\' {
				c.col++
			}
			c.col++
		}
		if c.col >= len(c.text) {
			if c.row+1 >= len(c.lines) {
				c.found = &fault{start, fmt.Sprintf("the quote %s is never closed", string(quote)), quoteAdvice}
				return
			}
			c.row++
			c.text, c.col = []rune(c.lines[c.row]), 0
			continue
		}
		c.col++
		if quote == '\'' && c.col < len(c.text) && c.text[c.col] == quote {
			c.col++
			continue
		}
		break
	}
	c.afterQuote()
}

const quoteAdvice = `Close the quote. A length in feet and inches needs none: length: 8' 6" is read as it stands, and in quotes it is '8'' 6"'.`

// afterQuote refuses text that goes on after a closing quote.
func (c *scanner) afterQuote() {
	rest := strings.TrimLeft(string(c.text[c.col:]), " \t")
	if rest == "" || strings.ContainsAny(rest[:1], ":#") || len(c.open) > 0 && strings.ContainsAny(rest[:1], ",]}") {
		if strings.HasPrefix(rest, ":") {
			c.spaces()
			c.col++
		}
		return
	}
	c.spaces()
	c.fail(source.Width(strings.TrimSpace(rest)), "text goes on after the closing quote", quoteAdvice)
}

// block passes over the lines of a text written with | or >.
func (c *scanner) block() {
	indent := indentOf(c.lines[c.row])
	for c.row+1 < len(c.lines) {
		next := c.lines[c.row+1]
		if strings.TrimSpace(next) != "" && indentOf(next) <= indent {
			break
		}
		c.row++
	}
	c.text, c.col = nil, 0
}

func indentOf(line string) int { return len(line) - len(strings.TrimLeft(line, " ")) }

// shut closes a bracket.
func (c *scanner) shut(sign rune) {
	want := map[rune]rune{']': '[', '}': '{'}[sign]
	switch {
	case len(c.open) == 0:
		c.fail(1, fmt.Sprintf("%q closes nothing", string(sign)), "Delete it, or open the list or mapping that it should close.")
		return
	case c.open[len(c.open)-1].sign != want:
		o := c.open[len(c.open)-1]
		c.fail(1, fmt.Sprintf("%q does not close the %q of line %d", string(sign), string(o.sign), o.span.Start.Line),
			"Close each [ with ] and each { with }, the last opened first.")
		return
	}
	c.open = c.open[:len(c.open)-1]
	c.col++
	rest := strings.TrimLeft(string(c.text[c.col:]), " \t")
	if len(c.open) == 0 && rest != "" && !strings.ContainsAny(rest[:1], "#:]}") {
		c.spaces()
		c.fail(source.Width(strings.TrimSpace(rest)), "text goes on after the closing bracket", "Begin a new line, or move the text inside the bracket.")
	}
}

func (c *scanner) blankAt(i int) bool {
	return i < 0 || i >= len(c.text) || c.text[i] == ' ' || c.text[i] == '\t'
}

func (c *scanner) here(width int) source.Span { return source.At(c.row+1, c.col+1, width) }

func (c *scanner) fail(width int, summary, detail string) {
	c.found = &fault{c.here(max(width, 1)), summary, detail}
}
