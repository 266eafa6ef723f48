package record

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strconv"
	"strings"

	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// ending begins the last line: end 28 wires 4 fuses SUM. It says how many lines there
// are, so that a text that was cut off is never taken as whole, and the SHA-256 of all
// before it, so that a change by hand is seen; the sum may be left out.
const ending = "end"

// endLine writes the last line of a record whose text so far is given.
func endLine(r Record, text string) string {
	return counted(len(r.Wires), len(r.Fuses)) + " " + sumOf(text)
}

func counted(wires, fuses int) string {
	return fmt.Sprintf("%s %d wires %d fuses", ending, wires, fuses)
}

// end reads the last line; the sum is compared at once, the counts in ended.
func (p *parser) end(s *scanner) {
	if p.last.line > 0 {
		p.again(s.line, p.last.line, "the record ends twice", "Leave the line that counts right.")
		return
	}
	p.last.line, p.last.said = s.line, s.words[0].span
	s.next()
	p.last.wires = s.count("wires")
	p.last.fuses = s.count("fuses")
	if sum, said := s.next(); said {
		p.r.Edited = sum.text != p.sumBefore(s.line)
		s.end()
	}
}

// count reads a number and the word that it counts.
func (s *scanner) count(word string) int {
	w, ok := s.next()
	n, err := strconv.Atoi(w.text)
	if !ok || err != nil || n < 0 {
		s.fail(s.words[0].span, "the last line counts no "+word, s.form())
		return 0
	}
	s.exactly(word, word)
	return n
}

// sumBefore is the sum of the lines before one, whatever ends them.
func (p *parser) sumBefore(line int) string {
	var text strings.Builder
	for n := 1; n < line; n++ {
		text.WriteString(p.file.Line(n) + "\n")
	}
	return sumOf(text.String())
}

// sumOf is the SHA-256 of a text, in hex.
func sumOf(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}

// behindEnd reports a line that stands after the last one.
func (p *parser) behindEnd(n int, text string) {
	p.say(source.At(n, 1, source.Width(text)), "record-end", "a line stands behind the end of the record", "Move it above the last line, and count it there.")
}

// ended checks that nothing was lost. A record of the first format has no last line.
func (p *parser) ended(count int) {
	if len(p.problems) > 0 || p.version == "1" {
		return
	}
	wires, fuses := len(p.r.Wires), len(p.r.Fuses)
	right := "write as its last line: " + counted(wires, fuses)
	switch {
	case p.last.line == 0:
		p.say(source.At(count, 1, 1), "record-end", "the record does not end: its last line is missing, as when the text was cut off",
			"Take the copy with a date that lies beside it; if everything is there, "+right)
	case p.last.wires != wires || p.last.fuses != fuses:
		p.say(p.last.said, "record-end",
			fmt.Sprintf("the last line counts %s and %s, and there are %d and %d", unit.Counted(p.last.wires, "wire"), unit.Counted(p.last.fuses, "fuse"), wires, fuses),
			"Where lines were lost, take the copy with a date that lies beside it; where you took them out or wrote them, "+right)
	}
}
