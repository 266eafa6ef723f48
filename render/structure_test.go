package render

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"github.com/jung-kurt/gofpdf"
	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/render/pdf"
)

// mixed has sheets of three sizes in two groups, with links forth and back.
func mixed() sheet.Packet {
	page := func(w, h float64, title, group string, marks ...sheet.Mark) sheet.Sheet {
		return sheet.Sheet{W: w, H: h, Title: title, Group: group, Marks: append(marks, sheet.Text{X: 10, Y: 10, Size: 4, S: title + " ☐"})}
	}
	return sheet.Packet{Title: "T", Date: time.Date(2026, 11, 2, 0, 0, 0, 0, time.UTC),
		Attached: []sheet.Attachment{{Name: "k (ü).yaml", MIME: "application/yaml", Data: []byte("x: 1")}},
		Sheets: []sheet.Sheet{
			page(210, 297, "Cover", "", sheet.Anchor{Name: "top", X: 20, Y: 1}, sheet.Link{X: 10, Y: 20, W: 30, H: 5, Target: "fan"}),
			page(420, 297, "Circuit 1", "Diagrams", sheet.Link{X: 1, Y: 1, W: 1, H: 1, Target: "low"}),
			page(297, 420, "Circuit 2", "Diagrams", sheet.Anchor{Name: "fan", X: 50, Y: 104}),
			page(210, 297, "Cut list", "Cut list", sheet.Anchor{Name: "low", X: 0, Y: 290}, sheet.Link{X: 1, Y: 1, W: 1, H: 1, Target: "top"}),
			page(210, 297, "Labels", ""),
		}}
}

// reread takes a finished document apart again; only its head and trailer differ from gofpdf's.
func reread(t *testing.T, p sheet.Packet) (*pdf.Document, []byte) {
	t.Helper()
	file, err := With(p, pdf.Options{Uncompressed: true})
	require.NoError(t, err)
	d, err := pdf.TakeApart(bytes.Replace(file, []byte("trailer\n<< "), []byte("trailer\n<<\n"), 1))
	require.NoError(t, err)
	return d, file
}

func find(t *testing.T, text, pattern string) []string {
	t.Helper()
	m := regexp.MustCompile(pattern).FindStringSubmatch(text)
	require.NotNil(t, m, "%s in %s", pattern, text)
	return m[1:]
}

func number(t *testing.T, s string) int {
	t.Helper()
	n, err := strconv.Atoi(s)
	require.NoError(t, err)
	return n
}

// follow gives the object that a key of an object refers to.
func follow(t *testing.T, d *pdf.Document, n int, key string) int {
	t.Helper()
	return number(t, find(t, string(d.At(n).Dict), key+` (\d+) 0 R`)[0])
}

func TestLinksLeadToTheirAnchors(t *testing.T) {
	p := mixed()
	d, _ := reread(t, p)
	var got []string
	for i := range p.Sheets {
		page := string(d.At(pdf.PageObject(i)).Dict)
		if !strings.Contains(page, "/Annots") {
			continue
		}
		note := string(d.At(number(t, find(t, page, `/Annots \[(\d+) 0 R\]`)[0])).Dict)
		require.Contains(t, note, "/F 4 ")
		require.Contains(t, note, fmt.Sprintf("/P %d 0 R", pdf.PageObject(i)))
		got = append(got, fmt.Sprint(i+1, " ", find(t, note, `/Rect (\[.*?\])`)[0], " to ", find(t, note, `/Dest (\[.*?\])`)[0]))
	}
	mm := func(v float64) string { return pdf.Points(v * 72 / 25.4) }
	require.Equal(t, []string{
		// the third sheet is object 7 and 420 mm high; windows begin 4 mm over the anchor
		fmt.Sprintf("1 [%s %s %s %s] to [7 0 R /XYZ 0 %s null]", mm(10), mm(272), mm(40), mm(277), mm(420-100)),
		fmt.Sprintf("2 [%s %s %s %s] to [9 0 R /XYZ 0 %s null]", mm(1), mm(295), mm(2), mm(296), mm(297-286)),
		fmt.Sprintf("4 [%s %s %s %s] to [3 0 R /XYZ 0 %s null]", mm(1), mm(295), mm(2), mm(296), mm(297)),
	}, got)
}

// walk prints the outline and checks that the chains run both ways and the counts are right.
func walk(t *testing.T, d *pdf.Document, parent int, indent string, out *[]string) (count int) {
	t.Helper()
	n, before := follow(t, d, parent, "/First"), 0
	for {
		text := string(d.At(n).Dict)
		require.Equal(t, parent, follow(t, d, n, "/Parent"))
		if before > 0 {
			require.Equal(t, before, follow(t, d, n, "/Prev"))
		} else {
			require.NotContains(t, text, "/Prev")
		}
		dest := find(t, text, `/Dest \[(\d+) 0 R /XYZ 0 (\S+) null\]`)
		page := (number(t, dest[0])-pdf.PageObject(0))/2 + 1
		*out = append(*out, fmt.Sprintf("%s%s: sheet %d at %s", indent, decode(t, find(t, text, `/Title <FEFF([0-9A-F]*)>`)[0]), page, dest[1]))
		count++
		if strings.Contains(text, "/First") {
			inner := walk(t, d, n, indent+"  ", out)
			require.Equal(t, fmt.Sprint(inner), find(t, text, `/Count (\d+)`)[0])
			count += inner
		} else {
			require.NotContains(t, text, "/Count", "a count of 0 is not allowed")
		}
		if !strings.Contains(text, "/Next") {
			require.Equal(t, n, follow(t, d, parent, "/Last"))
			return count
		}
		before, n = n, follow(t, d, n, "/Next")
	}
}

func decode(t *testing.T, hex string) string {
	t.Helper()
	var units []uint16
	for i := 0; i < len(hex); i += 4 {
		v, err := strconv.ParseUint(hex[i:i+4], 16, 16)
		require.NoError(t, err)
		units = append(units, uint16(v))
	}
	return string(utf16.Decode(units))
}

func TestBookmarks(t *testing.T) {
	d, _ := reread(t, mixed())
	root := follow(t, d, d.Root, "/Outlines")
	var got []string
	count := walk(t, d, root, "", &got)
	require.Equal(t, []string{
		"Cover: sheet 1 at 841.89",
		"Diagrams: sheet 2 at 841.89",
		"  Circuit 1: sheet 2 at 841.89",
		"  Circuit 2: sheet 3 at 1190.551",
		"Cut list: sheet 4 at 841.89",
		"Labels: sheet 5 at 841.89",
	}, got)
	require.Contains(t, string(d.At(root).Dict), fmt.Sprintf("/Count %d >>", count))
}

// The clauses are those of ISO 19005-3 (PDF/A-3) that a reader can check on the text.
func TestArchiveClauses(t *testing.T) {
	d, whole := reread(t, mixed())
	require.True(t, bytes.HasPrefix(whole, []byte("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")), "6.1.2 header and four high bytes")
	id := find(t, string(whole[bytes.LastIndex(whole, []byte("trailer")):]), `/ID \[<([0-9a-f]{32})> <([0-9a-f]{32})>\]`) // 6.1.3
	require.Equal(t, id[0], id[1])
	root := string(d.At(d.Root).Dict)
	for _, want := range []string{"/Lang (en)", "/DisplayDocTitle true", "/Metadata", "/OutputIntents", "/AF ["} {
		require.Contains(t, root, want)
	}
	meta := d.At(follow(t, d, d.Root, "/Metadata"))
	require.NotContains(t, string(meta.Dict), "/Filter", "6.6.2.1")
	require.Contains(t, string(meta.Stream), "<pdfaid:part>3</pdfaid:part><pdfaid:conformance>B</pdfaid:conformance>")
	spec := string(d.At(number(t, find(t, root, `/AF \[(\d+) 0 R\]`)[0])).Dict) // 6.8
	require.Contains(t, spec, `/F (k \(_\).yaml) /UF <FEFF`)
	require.Contains(t, spec, "/AFRelationship /Source")
	ef := find(t, spec, `/EF << /F (\d+) 0 R /UF (\d+) 0 R >>`)
	require.Equal(t, ef[0], ef[1])
	file := string(d.At(number(t, ef[0])).Dict)
	require.Contains(t, file, "/Subtype /application#2Fyaml")
	require.Contains(t, file, "/ModDate (D:20261102000000+00'00')")
	require.Contains(t, file, "/Size 4 ")
	for i := range d.Objects { // 6.1.13: no more than 28 q in one another
		require.LessOrEqual(t, nesting(string(d.Objects[i].Stream)), 28)
	}
}

func nesting(content string) int {
	depth, most := 0, 0
	for _, word := range strings.Fields(content) {
		switch word {
		case "q":
			depth++
		case "Q":
			depth--
		}
		most = max(most, depth)
	}
	return most
}

// TestMeasuredIsPrinted compares typeface with the widths that gofpdf writes.
func TestMeasuredIsPrinted(t *testing.T) {
	lib := gofpdf.New("P", "mm", "A4", "")
	lib.AddPage()
	for f := range typeface.Font(4) {
		lib.AddUTF8FontFromBytes(f.Name(), "", bytes.Clone(f.Data()))
	}
	for _, face := range []sheet.Face{sheet.Regular, sheet.Bold} {
		for r := rune(' '); r < 0x2700; r++ {
			for _, run := range typeface.Runs(string(r), face) {
				lib.SetFont(run.Font.Name(), "", 10)
				require.InDelta(t, float64(lib.GetStringSymbolWidth(run.S)), run.Width*1000, 1, "%U %q in %s", r, run.S, run.Font.Name())
			}
		}
	}
	require.NoError(t, lib.Error())
}

func TestTakeApartRefusesWhatItDoesNotKnow(t *testing.T) {
	drawn, _, err := draw(mixed())
	require.NoError(t, err)
	_, err = pdf.TakeApart(drawn)
	require.NoError(t, err)
	for _, c := range []struct{ old, new string }{
		{"startxref\n", "startxxxx\n"}, {"\nxref\n0 ", "\nxref\n9 "}, {" 00000 n \n", " 00001 n \n"}, {"1 0 obj\n", "1 1 obj\n"},
		{"/Root ", "/Toor "}, {"/Info ", "/Ofni "}, {"/Length ", "/Lenght "},
	} {
		_, err := pdf.TakeApart(bytes.Replace(drawn, []byte(c.old), []byte(c.new), 1))
		require.Error(t, err, "%q", c.old)
	}
}

func FuzzTakeApart(f *testing.F) {
	drawn, _, err := draw(mixed())
	require.NoError(f, err)
	f.Add(drawn)
	f.Add([]byte("xref\n0 2\n0000000000 65535 f \n0000000000 00000 n \nstartxref\n0\n%%EOF"))
	f.Fuzz(func(t *testing.T, file []byte) {
		d, err := pdf.TakeApart(file)
		if err == nil {
			require.NotZero(t, d.Root)
		}
	})
}
