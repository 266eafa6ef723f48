// Package grid reads a table as spreadsheets save it: bytes in, rows of cells out, with
// what was guessed of it in words. It knows no column.
package grid

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode/utf32"
	"golang.org/x/text/unicode/norm"

	wide "golang.org/x/text/encoding/unicode"
)

// MostBytes is the longest table that is read.
const MostBytes = 1 << 20

// Row is a row of the table; Number counts lines from 1 as a spreadsheet does, one a row.
type Row struct {
	Number int
	Cells  []string // trimmed, without characters that do not show
	Part   bool     // it belongs to the row above, a cell of which goes over several lines
}

// Empty tells whether nothing stands in a row.
func (r Row) Empty() bool {
	for _, c := range r.Cells {
		if c != "" {
			return false
		}
	}
	return true
}

// Cell gives a cell by its number from 0, "" where the row has none.
func (r Row) Cell(i int) string {
	if i < 0 || i >= len(r.Cells) {
		return ""
	}
	return r.Cells[i]
}

// Table is a table that was read.
type Table struct {
	Rows      []Row
	Said      []string // what was guessed, a sentence each, without full stop
	Delimiter rune
}

// TooBig says that the table has more bytes than are read.
type TooBig struct{ Bytes int }

func (e TooBig) Error() string {
	return fmt.Sprintf("the table has %d bytes; up to %d are read", e.Bytes, MostBytes)
}

// Read reads a table.
func Read(data []byte) (Table, error) {
	if len(data) > MostBytes {
		return Table{}, TooBig{len(data)}
	}
	text, as := decoded(data)
	t := Table{Said: []string{"the letters are read as " + as}}
	t.Delimiter = delimiter(text)
	t.Said = append(t.Said, "the cells are parted by "+delimiters[t.Delimiter])
	records, broken := parted(text, t.Delimiter)
	if broken != "" {
		t.Said = append(t.Said, broken)
	}
	for i, cells := range records {
		row := Row{Number: i + 1, Part: cells == nil}
		for _, c := range cells {
			row.Cells = append(row.Cells, clean(c))
		}
		t.Rows = append(t.Rows, row)
	}
	return t, nil
}

// decoded gives the text and the name of the encoding: by its mark, else UTF-8, UTF-16
// where every other byte is zero, and what is none of these as Windows-1252.
func decoded(data []byte) (text, as string) {
	for _, e := range []struct {
		mark string
		as   string
		by   encoding.Encoding
	}{
		{"\xff\xfe\x00\x00", "UTF-32", utf32.UTF32(utf32.LittleEndian, utf32.IgnoreBOM)},
		{"\x00\x00\xfe\xff", "UTF-32", utf32.UTF32(utf32.BigEndian, utf32.IgnoreBOM)},
		{"\xff\xfe", "UTF-16", wide.UTF16(wide.LittleEndian, wide.IgnoreBOM)},
		{"\xfe\xff", "UTF-16", wide.UTF16(wide.BigEndian, wide.IgnoreBOM)},
		{"\xef\xbb\xbf", "UTF-8", encoding.Nop},
	} {
		if rest, ok := bytes.CutPrefix(data, []byte(e.mark)); ok {
			return by(e.by, rest), e.as
		}
	}
	head := data[:min(len(data), 200)]
	even, odd := zeros(head)
	switch {
	case odd*3 > len(head):
		return by(wide.UTF16(wide.LittleEndian, wide.IgnoreBOM), data), "UTF-16"
	case even*3 > len(head):
		return by(wide.UTF16(wide.BigEndian, wide.IgnoreBOM), data), "UTF-16"
	case utf8.Valid(data):
		return string(data), "UTF-8"
	}
	return by(charmap.Windows1252, data), "Windows-1252, a guess"
}

func zeros(head []byte) (even, odd int) {
	for i, c := range head {
		if c == 0 && i%2 == 0 {
			even++
		} else if c == 0 {
			odd++
		}
	}
	return even, odd
}

func by(e encoding.Encoding, data []byte) string {
	out, err := e.NewDecoder().Bytes(data)
	if err != nil {
		out = data
	}
	return strings.ToValidUTF8(string(out), "\ufffd")
}

var delimiters = map[rune]string{',': "commas", ';': "semicolons", '\t': "tabs", '|': "bars"}

// delimiter takes the sign that parts the most cells alike: the number of rows that have
// as many cells as most of them, times the cells.
func delimiter(text string) rune {
	best, most := ',', 0
	for _, d := range []rune{',', ';', '\t', '|'} {
		records, _ := parted(text, d)
		count := map[int]int{}
		for _, cells := range records[:min(len(records), 200)] {
			count[len(cells)]++
		}
		score := 0
		for cells, rows := range count {
			if cells > 1 {
				score = max(score, rows*(cells+1))
			}
		}
		if score > most {
			best, most = d, score
		}
	}
	return best
}

// parted parts a text into rows. A quote that is never closed would swallow all that
// follows: such a text is parted line by line, without regard to quotes.
func parted(text string, d rune) (records [][]string, broken string) {
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	lines := strings.Split(strings.TrimRight(text, "\n"), "\n")
	var out [][]string
	for i := 0; i < len(lines); {
		cells, used := record(lines[i:], d)
		out = append(out, cells)
		for range used - 1 {
			out = append(out, nil) // a cell over several lines: each keeps its number
		}
		if used > 1 && !balanced(lines[i:i+used]) {
			broken = fmt.Sprintf("line %d has a quote that is not closed", i+1)
		}
		i += used
	}
	return out, broken
}

// record reads one row, which goes over several lines where a quoted cell does.
func record(lines []string, d rune) (cells []string, used int) {
	const most = 20 // lines of a cell
	for used = 1; used <= min(most, len(lines)); used++ {
		if !balanced(lines[:used]) {
			continue
		}
		r := csv.NewReader(strings.NewReader(strings.Join(lines[:used], "\n")))
		r.Comma, r.LazyQuotes, r.FieldsPerRecord = d, true, -1
		cells, err := r.Read()
		more, _ := r.Read()
		if err == nil && more == nil {
			return cells, used
		}
		break
	}
	if strings.TrimSpace(lines[0]) == "" {
		return []string{""}, 1
	}
	return strings.Split(lines[0], string(d)), 1
}

// balanced tells whether the quotes of some lines are closed: their number is even.
// Inches, as in 72", make it odd; such a line is taken as it is.
func balanced(lines []string) bool {
	n := 0
	for _, l := range lines {
		n += strings.Count(l, `"`)
	}
	return n%2 == 0
}

// clean trims a cell and takes out what does not show.
func clean(cell string) string {
	cell = strings.Map(func(c rune) rune {
		switch {
		case c == '\u00ad' || unicode.In(c, unicode.Cf, unicode.Cs, unicode.Co):
			return -1
		case unicode.IsSpace(c) || unicode.IsControl(c):
			return ' '
		}
		return c
	}, cell)
	return norm.NFC.String(strings.Join(strings.Fields(cell), " "))
}
