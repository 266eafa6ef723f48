package read

import (
	"bytes"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/loomfolio/sizing/source"
)

// Limits of what is read.
const (
	MostBytes  = 1 << 20 // 1 MB: a whole car is some tens of kB
	mostFaults = 10      // faulty characters that are reported one by one
	mostWidth  = 2000    // characters in a line
	mostSaid   = 500     // problems that are reported
)

// checkSize refuses what cannot be read as text at all; ok tells whether to go on.
func (r *Reader) checkSize(text []byte) (ok bool) {
	switch {
	case len(text) > MostBytes:
		r.Say(source.Span{}, "file-too-big", fmt.Sprintf("the file has %d bytes", len(text)),
			"A description may have up to 1 MB (1048576 bytes). Is this the right file?")
	case wide(text):
		r.Say(source.At(1, 1, 1), "not-utf8", "the file is written in UTF-16 or UTF-32, not in UTF-8",
			"Save it again as UTF-8: in most editors under Save as, Encoding.")
	case len(bytes.TrimSpace(bytes.TrimPrefix(text, []byte("\ufeff")))) == 0:
		r.Say(source.Span{}, "empty-file", "the file is empty",
			"A description begins with the line: loomfolio: 1")
	default:
		return true
	}
	return false
}

// wide tells UTF-16 and UTF-32 by their mark, or by every other byte being zero.
func wide(text []byte) bool {
	if bytes.HasPrefix(text, []byte{0xff, 0xfe}) || bytes.HasPrefix(text, []byte{0xfe, 0xff}) || bytes.HasPrefix(text, []byte{0, 0, 0xfe, 0xff}) {
		return true
	}
	head := text[:min(len(text), 64)]
	return len(head) >= 8 && bytes.Count(head, []byte{0})*3 >= len(head)
}

// checkLines looks at every character before YAML does. It gives the lines
// that hold a faulty one; what stands there must not be interpreted. After the
// first few faulty lines the others are noted, but not reported one by one.
func (r *Reader) checkLines() map[int]bool {
	bad := map[int]bool{}
	for i := range r.lines {
		line := r.lines[i]
		faults := len(r.problems)
		r.checkWidth(i+1, line)
		r.checkIndent(i+1, line)
		r.checkCharacters(i+1, line)
		if len(r.problems) > faults {
			bad[i+1] = true
		}
		if len(bad) > mostFaults {
			r.problems = r.problems[:faults]
		}
	}
	return bad
}

// checkWidth refuses lines that nobody could read.
func (r *Reader) checkWidth(n int, line string) {
	if len(line) > mostWidth && source.Width(line) > mostWidth {
		r.Say(source.At(n, mostWidth+1, 1), "line-too-long", fmt.Sprintf("the line has %d characters", source.Width(line)),
			fmt.Sprintf("Break it into lines of at most %d characters: one leg, part or stop a line.", mostWidth))
	}
}

// checkIndent refuses anything but spaces at the start of a line.
func (r *Reader) checkIndent(n int, line string) {
	indent := line[:len(line)-len(strings.TrimLeftFunc(line, unicode.IsSpace))]
	if len(indent) == len(line) {
		return
	}
	for i, c := range []rune(indent) {
		if c != ' ' && c != '\r' && c != '\u0085' && c != '\u2028' && c != '\u2029' {
			r.Say(source.At(n, i+1, 1), "odd-indent", fmt.Sprintf("the indent holds %s", nameOf(c)),
				"Indent with plain spaces, two for each step: YAML sees other blanks as no indent, or not at all.")
			return
		}
	}
}

// checkCharacters refuses bytes that are not UTF-8 and characters that do not show.
func (r *Reader) checkCharacters(n int, line string) {
	column, before := 0, rune(0)
	for i, size := 0, 0; i < len(line); i += size {
		var c rune
		c, size = utf8.DecodeRuneInString(line[i:])
		column++
		switch at := source.At(n, column, 1); {
		case c == utf8.RuneError && size == 1:
			r.Say(at, "not-utf8", fmt.Sprintf("the byte %#02x is not UTF-8; in Latin-1 it is %q", line[i], rune(line[i])),
				"Save the file as UTF-8: in most editors under Save as, Encoding.")
			return
		case hidden(c):
			r.Say(at, "hidden-character", fmt.Sprintf("the line holds %s", nameOf(c)),
				"Delete it: it does not show, and it changes what is read.")
			return
		case before == ':' && c != ' ' && unicode.IsSpace(c):
			r.Say(at, "odd-space", fmt.Sprintf("after the colon stands %s", nameOf(c)),
				"Put a plain space after the colon: YAML does not end a key at any other blank.")
			return
		default:
			before = c
		}
	}
}

// hidden tells of characters that do not show: control characters, marks of
// direction and width, and line ends that only YAML sees.
func hidden(c rune) bool {
	if c == '\t' || c == '\u00ad' {
		return false
	}
	return unicode.IsControl(c) || unicode.In(c, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Cs) || c == 0xfffe || c == 0xffff
}

func nameOf(c rune) string {
	names := map[rune]string{0: "a NUL byte", '\t': "a tab", '\r': "a carriage return without a line feed", 0xa0: "a no-break space",
		0x85: "a next-line character (U+0085)", 0xfeff: "a byte order mark in the middle of the file", 0x202f: "a narrow no-break space",
		0x3000: "an ideographic space", 0x200b: "a zero-width space", 0x1b: "an escape character"}
	if name, ok := names[c]; ok {
		return name
	}
	return fmt.Sprintf("the character U+%04X", c)
}

// splitLines gives the lines as package source counts them.
func splitLines(text []byte) []string {
	body := strings.TrimPrefix(string(text), "\ufeff")
	return strings.Split(strings.ReplaceAll(body, "\r\n", "\n"), "\n")
}
