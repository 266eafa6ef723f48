package source

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Widths of the printed page, in characters.
const (
	wrapAt  = 100 // advice is wrapped here
	window  = 110 // longer source lines are cut around the mark
	context = 40  // characters kept before the mark in a cut line
)

// Print writes each problem in the order given: its place, level, summary and
// slug on one line, the source line with the place marked under it, then the
// other places that belong to it, and what to do. Problems without a place
// name the file alone. Errors of the writer are dropped: the caller prints to
// standard error.
func Print(w io.Writer, f *File, ps Problems) {
	out := bufio.NewWriter(w)
	defer out.Flush()
	for i, p := range ps {
		if i > 0 {
			fmt.Fprintln(out)
		}
		printProblem(out, f, p)
	}
}

func printProblem(w io.Writer, f *File, p Problem) {
	fmt.Fprintf(w, "%s: %s: %s [%s]\n", f.place(p.Span), p.Level, oneLine(p.Summary), p.Slug)
	printMarked(w, f, p.Span)
	for _, n := range f.others(p) {
		fmt.Fprintf(w, "%s: note: %s\n", f.place(n.Span), oneLine(n.Text))
		printMarked(w, f, n.Span)
	}
	if strings.TrimSpace(p.Detail) != "" {
		printFix(w, p.Detail)
	}
}

// place gives file:line:column, or the file alone.
func (f *File) place(s Span) string {
	if !s.Known() {
		return f.In(s).named()
	}
	return fmt.Sprintf("%s:%d:%d", f.In(s).named(), s.Start.Line, max(s.Start.Column, 1))
}

// printMarked shows the source line and a mark under the span.
func printMarked(w io.Writer, f *File, s Span) {
	if !s.Known() {
		return
	}
	line := []rune(f.LineOf(s))
	at := min(max(s.Start.Column-1, 0), len(line))
	end := min(at+max(s.Width, 1), max(len(line), at+1))
	shown, at, end := cut(line, at, end)
	fmt.Fprintf(w, "%5d | %s\n", s.Start.Line, clean(shown))
	fmt.Fprintf(w, "      | %s%s\n", padding(shown[:at]), mark(shown, at, end))
}

// cut keeps a window of a very long line around the stretch from at to end.
func cut(line []rune, at, end int) (shown []rune, newAt, newEnd int) {
	if len(line) <= window {
		return line, at, end
	}
	from := max(at-context, 0)
	to := min(from+window, len(line))
	shown = append(shown, line[from:to]...)
	if from > 0 {
		shown[0] = '…'
	}
	if to < len(line) {
		shown = append(shown, '…')
	}
	return shown, at - from, min(end, to) - from
}

// clean replaces characters that would disturb a terminal.
func clean(line []rune) string {
	return strings.Map(func(r rune) rune {
		if r != '\t' && (unicode.IsControl(r) || r == utf8.RuneError || strange(r)) {
			return utf8.RuneError
		}
		return r
	}, string(line))
}

// strange tells of characters that change the writing direction or hide.
func strange(r rune) bool {
	return unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Zl, r) || unicode.Is(unicode.Zp, r)
}

// padding is as wide as the text; tabs stay tabs so that any tab width fits.
func padding(text []rune) string {
	var b strings.Builder
	for _, r := range text {
		if r == '\t' {
			b.WriteByte('\t')
			continue
		}
		b.WriteString(strings.Repeat(" ", cells(r)))
	}
	return b.String()
}

// mark is a caret and tildes as wide as the marked stretch.
func mark(line []rune, at, end int) string {
	n := 0
	for i := at; i < end && i < len(line); i++ {
		n += cells(line[i])
	}
	return "^" + strings.Repeat("~", max(n-1, 0))
}

// cells is the width of a character on a terminal: 2 for the wide scripts, 0
// for marks that sit on the letter before.
func cells(r rune) int {
	switch {
	case unicode.In(r, unicode.Mn, unicode.Me):
		return 0
	case unicode.In(r, unicode.Han, unicode.Hangul, unicode.Hiragana, unicode.Katakana),
		r >= 0x3000 && r <= 0x303e, r >= 0xff01 && r <= 0xff60, r >= 0xffe0 && r <= 0xffe6,
		r >= 0x1f300 && r <= 0x1faff:
		return 2
	}
	return 1
}

// printFix writes what to do, wrapped, under a hanging indent.
func printFix(w io.Writer, detail string) {
	lead := "  fix: "
	for _, line := range wrap(detail, wrapAt-len(lead)) {
		fmt.Fprintf(w, "%s%s\n", lead, line)
		lead = "       "
	}
}

// wrap breaks text between words so that lines stay within width where they
// can; line breaks in the text are kept.
func wrap(text string, width int) []string {
	var lines []string
	for _, paragraph := range strings.Split(strings.TrimSpace(text), "\n") {
		line := ""
		for _, word := range strings.FieldsFunc(paragraph, func(r rune) bool { return r == ' ' }) {
			if line != "" && Width(line)+1+Width(word) > width {
				lines, line = append(lines, line), ""
			}
			if line != "" {
				line += " "
			}
			line += word
		}
		lines = append(lines, line)
	}
	return lines
}

func oneLine(text string) string { return clean([]rune(strings.Join(strings.Fields(text), " "))) }
