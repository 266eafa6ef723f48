// Package pdf takes a drawn PDF document apart object by object and finishes it: links,
// bookmarks, attachments, metadata, colour profile, character maps, compressed pages
// and the file identifier, built to PDF/A-3 level B (ISO 19005-3) over PDF 1.7
// (ISO 32000-1).
package pdf

import (
	"bytes"
	"crypto/md5"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
)

// Object is one numbered object: its text, and its stream if it has one.
type Object struct {
	Dict   []byte
	Stream []byte // nil: none
}

// Document is the objects of a file, number 1 at index 0, all of generation 0.
type Document struct {
	Objects    []Object
	Root, Info int // numbers
}

// Add appends an object and gives its number.
func (d *Document) Add(dict string, stream []byte) int {
	d.Objects = append(d.Objects, Object{[]byte(dict), stream})
	return len(d.Objects)
}

// At is the object of a number.
func (d *Document) At(n int) *Object { return &d.Objects[n-1] }

// TakeApart reads the file that gofpdf writes: one classic cross-reference table,
// objects without gaps, lengths direct. It refuses anything else.
func TakeApart(file []byte) (*Document, error) {
	table, err := startxref(file)
	if err != nil {
		return nil, err
	}
	offsets, trailer, err := crossReferences(file, table)
	if err != nil {
		return nil, err
	}
	d := &Document{}
	ends := append(slices.Sorted(slices.Values(offsets)), table)
	for n := range offsets {
		next, _ := slices.BinarySearch(ends, offsets[n]+1)
		o, err := readObject(file, n+1, offsets[n], ends[next])
		if err != nil {
			return nil, err
		}
		d.Objects = append(d.Objects, o)
	}
	if d.Root, err = reference(trailer, "/Root ", len(offsets)); err != nil {
		return nil, err
	}
	d.Info, err = reference(trailer, "/Info ", len(offsets))
	return d, err
}

func startxref(file []byte) (int, error) {
	i := bytes.LastIndex(file, []byte("startxref\n"))
	if i < 0 {
		return 0, errors.New("no startxref")
	}
	digits, _, _ := bytes.Cut(file[i+len("startxref\n"):], []byte("\n"))
	table, err := strconv.Atoi(string(digits))
	if err != nil || table < 0 || table >= i {
		return 0, fmt.Errorf("startxref %q", digits)
	}
	return table, nil
}

// crossReferences gives the offsets of objects 1 and up, and the trailer.
func crossReferences(file []byte, table int) (offsets []int, trailer []byte, err error) {
	var size int
	rest := file[table:]
	if _, err := fmt.Sscanf(string(rest[:min(len(rest), 40)]), "xref\n0 %d\n", &size); err != nil {
		return nil, nil, fmt.Errorf("cross-reference table: %w", err)
	}
	rest = rest[len(fmt.Sprintf("xref\n0 %d\n", size)):]
	const entry = 20
	if size < 1 || size > len(rest)/entry {
		return nil, nil, errors.New("cross-reference table cut short")
	}
	for n := 1; n < size; n++ {
		line := string(rest[n*entry : (n+1)*entry])
		at, err := strconv.Atoi(line[:10])
		if err != nil || line[10:] != " 00000 n \n" || at < 0 || at >= table {
			return nil, nil, fmt.Errorf("cross-reference %d: %q", n, line)
		}
		offsets = append(offsets, at)
	}
	return offsets, rest[size*entry:], nil
}

func readObject(file []byte, n, from, to int) (Object, error) {
	text := file[from:to]
	head := fmt.Appendf(nil, "%d 0 obj\n", n)
	tail := []byte("endobj\n")
	if !bytes.HasPrefix(text, head) || !bytes.HasSuffix(text, tail) {
		return Object{}, fmt.Errorf("object %d is not where the table says", n)
	}
	text = text[len(head) : len(text)-len(tail)]
	dict, stream, has := bytes.Cut(text, []byte(">>\nstream\n"))
	if !has {
		return Object{Dict: bytes.TrimSpace(text)}, nil
	}
	dict = append(bytes.Clone(dict), ">>"...)
	stream, ok := bytes.CutSuffix(stream, []byte("\nendstream\n"))
	length := fmt.Sprintf("/Length %d", len(stream))
	if !ok || !bytes.Contains(dict, []byte(length)) {
		return Object{}, fmt.Errorf("object %d: stream of %d bytes does not match its length", n, len(stream))
	}
	return Object{Dict: dict, Stream: stream}, nil
}

func reference(trailer []byte, key string, most int) (int, error) {
	_, after, ok := bytes.Cut(trailer, []byte(key))
	digits, _, _ := bytes.Cut(after, []byte(" "))
	n, err := strconv.Atoi(string(digits))
	if !ok || err != nil || n < 1 || n > most {
		return 0, fmt.Errorf("trailer without %s", key)
	}
	return n, nil
}

// size is about how many bytes the document takes.
func (d *Document) size() int {
	const around = 64 // an object's number, its words, its line in the table
	n := 1024
	for _, o := range d.Objects {
		n += len(o.Dict) + len(o.Stream) + around
	}
	return n
}

// Bytes writes the document; the identifier is the MD5 sum of all before the
// trailer (ISO 32000-1, 14.4).
func (d *Document) Bytes() []byte {
	var b bytes.Buffer
	b.Grow(d.size())
	b.WriteString("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	offsets := make([]int, len(d.Objects))
	for i, o := range d.Objects {
		offsets[i] = b.Len()
		fmt.Fprintf(&b, "%d 0 obj\n%s\n", i+1, o.Dict)
		if o.Stream != nil {
			fmt.Fprintf(&b, "stream\n%s\nendstream\n", o.Stream)
		}
		b.WriteString("endobj\n")
	}
	table := b.Len()
	id := md5.Sum(b.Bytes())
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(offsets)+1)
	for _, at := range offsets {
		fmt.Fprintf(&b, "%010d 00000 n \n", at)
	}
	fmt.Fprintf(&b, "trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R /ID [<%x> <%x>] >>\nstartxref\n%d\n%%%%EOF\n",
		len(offsets)+1, d.Root, d.Info, id, id, table)
	return b.Bytes()
}

// PerMM is points in a millimetre.
const PerMM = 72 / 25.4

// Points writes a length in points to a thousandth, without idle zeros.
func Points(v float64) string { return string(AppendPoints(nil, v)) }

// AppendPoints writes points as the document has them, to a thousandth.
func AppendPoints(b []byte, v float64) []byte {
	n := int64(math.Round(v * 1000)) // what may be drawn is below 1e6 mm
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	b = strconv.AppendInt(b, n/1000, 10)
	if n %= 1000; n == 0 {
		return b
	}
	b = append(b, '.', byte('0'+n/100), byte('0'+n/10%10), byte('0'+n%10))
	return bytes.TrimRight(b, "0")
}
