package vector

import (
	"bytes"
	"encoding/xml"
	"io"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

func two() sheet.Packet {
	black, red := sheet.Colour{}, sheet.Colour{R: 200, G: 10, B: 3}
	return sheet.Packet{Title: "Two", Sheets: []sheet.Sheet{
		{W: 210, H: 297, Title: "Circuits 1, 3 · Fan & pump", Marks: []sheet.Mark{
			sheet.Text{X: 20, Y: 30, Size: 4, Face: sheet.Bold, Align: sheet.Right, Colour: red, Turn: 90, S: "1.5 mm² <RD/WH>"},
			sheet.Path{Start: sheet.Point{X: 1, Y: 2}, Closed: true, Fill: &red, Stroke: &sheet.Stroke{Width: 0.25, Colour: black, Dash: []float64{2, 1}, Round: true},
				Segs: []sheet.Seg{{P: sheet.Point{X: 3.33333, Y: 2}}, {P: sheet.Point{X: 4, Y: 5}, C1: &sheet.Point{X: 3, Y: 3}, C2: &sheet.Point{X: 4, Y: 4}}}},
			sheet.Link{X: 1, Y: 1, W: 10, H: 5, Target: "wire/12A"},
			sheet.Link{X: 1, Y: 9, W: 10, H: 5, Target: "here"},
			sheet.Anchor{Name: "here", X: 7, Y: 8},
		}},
		{W: 297, H: 210, Title: "", Marks: []sheet.Mark{sheet.Anchor{Name: "wire/12A", X: 3, Y: 4}}},
	}}
}

// nodes reads a file back with the library's own parser.
func nodes(t *testing.T, data []byte) []xml.StartElement {
	var out []xml.StartElement
	d := xml.NewDecoder(bytes.NewReader(data))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return out
		}
		require.NoError(t, err)
		if e, ok := token.(xml.StartElement); ok {
			out = append(out, e.Copy())
		}
	}
}

func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value
		}
	}
	return ""
}

func named(all []xml.StartElement, name string) []xml.StartElement {
	var out []xml.StartElement
	for _, e := range all {
		if e.Name.Local == name {
			out = append(out, e)
		}
	}
	return out
}

func TestSheetsAsFiles(t *testing.T) {
	files, err := Files(two())
	require.NoError(t, err)
	require.Equal(t, "01-circuits-1-3-fan-pump.svg", files[0].Name)
	require.Equal(t, "02.svg", files[1].Name)
	all := nodes(t, files[0].Data)
	require.Equal(t, "210mm", attr(all[0], "width"))
	require.Equal(t, "0 0 210 297", attr(all[0], "viewBox"))

	text := named(all, "text")
	require.Len(t, text, 1)
	require.Equal(t, "end", attr(text[0], "text-anchor"))
	require.Equal(t, "bold", attr(text[0], "font-weight"))
	require.Equal(t, "rotate(-90 20 30)", attr(text[0], "transform"), "a sheet turns counter-clockwise, SVG clockwise")
	long, err := strconv.ParseFloat(attr(text[0], "textLength"), 64)
	require.NoError(t, err)
	require.InDelta(t, typeface.Width("1.5 mm² <RD/WH>", sheet.Bold, 4), long, 0.001)
	require.Contains(t, string(files[0].Data), "1.5 mm² &lt;RD/WH&gt;")

	path := named(all, "path")
	require.Len(t, path, 1)
	require.Equal(t, "M1 2L3.333 2C3 3 4 4 4 5Z", attr(path[0], "d"))
	require.Equal(t, "#c80a03", attr(path[0], "fill"))
	require.Equal(t, "2 1", attr(path[0], "stroke-dasharray"))
}

func TestLinksLeadFromFileToFile(t *testing.T) {
	files, err := Files(two())
	require.NoError(t, err)
	links := named(nodes(t, files[0].Data), "a")
	require.Len(t, links, 2)
	require.Equal(t, "02.svg#wire/12A", attr(links[0], "href"))
	require.Equal(t, "#here", attr(links[1], "href"))
	require.Contains(t, string(files[1].Data), `<g id="wire/12A" transform="translate(3 4)"/>`)
}

func TestSameSheetsSameBytes(t *testing.T) {
	a, err := Files(two())
	require.NoError(t, err)
	b, err := Files(two())
	require.NoError(t, err)
	require.Equal(t, a, b)
}

// TestCautionIsInEachFile, for a file goes about alone.
func TestCautionIsInEachFile(t *testing.T) {
	p := two()
	p.Caution = "Battery off first, & <no> mains."
	files, err := Files(p)
	require.NoError(t, err)
	for _, f := range files {
		require.Len(t, named(nodes(t, f.Data), "desc"), 1, f.Name)
		require.Contains(t, string(f.Data), "<desc>Battery off first, &amp; &lt;no&gt; mains.</desc>")
	}
	p.Caution = ""
	files, err = Files(p)
	require.NoError(t, err)
	require.Empty(t, named(nodes(t, files[0].Data), "desc"))
}

func TestBrokenPacketIsRefused(t *testing.T) {
	p := two()
	p.Sheets[1].Marks = nil // the link leads nowhere
	_, err := Files(p)
	require.ErrorContains(t, err, "wire/12A")
}

func TestNamesStaySortedAndShort(t *testing.T) {
	p := sheet.Packet{Sheets: make([]sheet.Sheet, 120)}
	p.Sheets[4].Title = strings.Repeat("Very long ", 20)
	names := Names(p)
	require.Equal(t, "001.svg", names[0])
	require.LessOrEqual(t, len(names[4]), len("005-.svg")+longest)
	require.IsIncreasing(t, names)
}
