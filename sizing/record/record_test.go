package record

import (
	"crypto/sha256"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// canonical is a record as it is written; every kind of line and name is in it.
var canonical = withSum(`# Kept by R. Linnet.
loomfolio record 3
title Fan, pump and 12" lamps #2
revision B
digest 0a1b

# the long one
wire fan BAT.+ -> MF1.1                     planned   3A     4 mm2     thin-wall-125   RD      150 mm
wire fan BAT.+ -> MF1.1 (2)                 built     3D     12 AWG    gxl             RD      5.875 in  # stiff
wire fan K1.87 -> "FAN two.+"               built     3C     1/0 ga    thin-wall-125   OG/BU   1574.8 mm  sleeve 3A "5 C"  # both orange
wire lamps X1.4.out -> Großer_Scheinwerfer.56a  retired   "5 C"  0.35 mm2  "my reel"       WH      0 mm

fuse FP.3                                   planned   15 A     blade
# slow
fuse MF1                                    built     7.5 A    maxi  # spare in the glove box
# the end

end 4 wires 2 fuses `)

// withSum ends a record with the SHA-256 of what stands before its last line.
func withSum(text string) string {
	sum := sha256.Sum256([]byte(text[:strings.LastIndex(text, "\n")+1]))
	return fmt.Sprintf("%s%x\n", text, sum)
}

func parsed(t testing.TB, text string) Record {
	r, problems := Parse(source.NewFile("my.built.txt", []byte(text)))
	require.Empty(t, problems)
	return r
}

func TestRoundTripByteForByte(t *testing.T) {
	require.Equal(t, canonical, string(Text(parsed(t, canonical))))
}

func TestParseReadsWhatIsWritten(t *testing.T) {
	r := parsed(t, canonical)
	require.Equal(t, `Fan, pump and 12" lamps #2`, r.Title)
	require.Equal(t, []string{"B", "0a1b"}, []string{r.Revision, r.Digest})
	w := r.Wires[1]
	require.Equal(t, Key{"fan", "BAT.+", "MF1.1", 2}, w.Key)
	require.Equal(t, harness.Built, w.State)
	require.Equal(t, unit.Gauge{System: unit.AWG, Size: "12"}, w.Gauge)
	require.InDelta(t, 149.225, float64(w.Length), 1e-9)
	require.Equal(t, "# stiff", w.Behind)
	require.Equal(t, 9, w.Line)
	w = r.Wires[2]
	require.Equal(t, "FAN two.+", w.To)
	require.Equal(t, []string{"OG", "BU"}, []string{w.Base, w.Tracer})
	require.Equal(t, unit.Gauge{System: unit.SAE, Size: "1/0"}, w.Gauge)
	require.Equal(t, Fuse{Name: "MF1", State: harness.Built, Rating: 7.5, Body: "maxi", Line: 15,
		Remarks: Remarks{Above: []string{"# slow"}, Behind: "# spare in the glove box"}}, r.Fuses[1])
	require.Equal(t, []string{"# the end"}, r.Foot)
}

// A hand spaces as it likes, writes units as it likes, and on Windows.
func TestParseTakesWhatAHandWrites(t *testing.T) {
	r := parsed(t, "\ufeffloomfolio record 1\r\n\r\n wire fan A.1 -> B.2 built 3A 2.5mm² thin-wall-125 rd/bk 8' 6\" # mine\r\nfuse F1 built 15A blade\r\n")
	w := r.Wires[0]
	require.Equal(t, unit.Gauge{System: unit.Metric, Size: "2.5"}, w.Gauge)
	require.Equal(t, []string{"RD", "BK"}, []string{w.Base, w.Tracer})
	require.InDelta(t, 2590.8, float64(w.Length), 1e-9)
	require.Contains(t, string(Text(r)), "2.5 mm2   thin-wall-125   RD/BK   102 in  # mine\n")
}

// Two people mark different wires as built: no other line of the text moves but the last.
func TestALineChangesAlone(t *testing.T) {
	r := parsed(t, canonical)
	r.Wires[0].State, r.Wires[0].Name = harness.Built, "a much longer name"
	was, now := strings.Split(canonical, "\n"), strings.Split(string(Text(r)), "\n")
	require.Len(t, now, len(was))
	for i := range was {
		require.Equal(t, i == 7 || strings.HasPrefix(was[i], "end "), was[i] != now[i], "line %d", i+1)
	}
}

// head begins a record without a last line, sealed one that must have it.
const (
	head   = "loomfolio record 1\n"
	sealed = "loomfolio record 2\n"
)

// The mark « stands before the text that the problem points at.
func TestWrongRecords(t *testing.T) {
	for _, c := range []struct{ text, slug, says, fix string }{
		{"«", "record-head", "first line is missing", "loomfolio record 3"},
		{"«loomfolio record 4\n", "record-head", "not the first line", "newer program"},
		{head + "«wier fan A.1 -> B.1", "record-line", `begin with "wier"`, "Did you mean wire?"},
		{head + "wire fan A.1 «=> B.1 planned 3A 1 mm2 gpt RD 1 m", "record-line", "an arrow", "wire fan MF1.2 -> K1.30"},
		{head + "wire fan A.1 -> B.1 «bulit 3A 1 mm2 gpt RD 1 m", "record-line", "no state", "Did you mean built?"},
		{head + "wire fan A.1 -> B.1 built 3A «1 gpt RD 1 m", "record-line", "the gauge", "2.5 mm2"},
		{head + "wire fan A.1 -> B.1 built 3A 1 mm2 gpt «red 1 m", "record-line", "RD (red)", "RD"},
		{head + "wire fan A.1 -> B.1 built 3A 1 mm2 gpt RD «1200", "record-line", "the cut length", "840 mm"},
		{head + "wire fan A.1 -> B.1 built 3A 1 mm2 gpt RD 1 m «rest", "record-line", "after the end", "#"},
		{head + "wire fan A.1 -> B.1 built 3A 1 mm2 gpt RD 1 m sleeve«", "record-line", "nothing does", "840 mm"},
		{head + "wire fan A.1 -> B.1 built 3A 1 mm2 gpt RD«", "record-line", "nothing does", "840 mm"},
		{head + "wire fan A.1 -> B.1 «(0) built 3A 1 mm2 gpt RD 1 m", "record-line", "does not count", "(2)"},
		{head + "wire fan «\"A.1 -> B.1", "record-line", "does not end", "Close it"},
		{head + "fuse MF1 built «big blade", "record-line", "the rating", "15 A"},
		{head + "«<<<<<<< mine", "record-merge", "put together", "Keep the line that is true"},
		{head + "fuse MF1 built 15 A blade\n«fuse MF1 built 20 A blade", "record-twice", "the fuse MF1", "Leave one"},
		{head + "wire fan A.1 -> B.1 built 3A 1 mm2 gpt RD 1 m\n«wire fan A.2 -> B.2 built 3A 1 mm2 gpt RD 1 m", "record-twice", "called 3A", "sleeves"},
		{head + "wire fan A.1 -> B.1 built 3A 1 mm2 gpt RD 1 m\n«wire fan A.1 -> B.1 built 3B 1 mm2 gpt RD 1 m", "record-twice", "one wire", "(2)"},
		{head + "title a\n«title b", "record-twice", "title", "Leave one"},
		{sealed + "title a\n«", "record-end", "does not end", "end 0 wires 0 fuses"},
		{sealed + "fuse MF1 built 15 A blade\nend 0 wires 1 fuses # one\n«fuse F2 built 15 A blade", "record-end", "behind the end", "above the last line"},
		{sealed + "fuse MF1 built 15 A blade\n«end 0 wires 2 fuses", "record-end", "counts 0 wires and 2 fuses, and there are 0 and 1", "end 0 wires 1 fuses"},
		{sealed + "«end none", "record-line", "counts no wires", "end 28 wires 4 fuses"},
		{sealed + "end 0 wires 0 fuses\n«end 0 wires 0 fuses", "record-twice", "ends twice", "counts right"},
		{"«" + head + "title \xff", "record-bytes", "UTF-8", "UTF-8"},
	} {
		before, _, _ := strings.Cut(c.text, "«")
		at := source.Pos{Line: strings.Count(before, "\n") + 1, Column: source.Width(before[strings.LastIndex(before, "\n")+1:]) + 1}
		_, problems := Parse(source.NewFile("my.built.txt", []byte(strings.ReplaceAll(c.text, "«", ""))))
		require.Lenf(t, problems, 1, "%s", c.text)
		p := problems[0]
		require.Equal(t, c.slug, p.Slug, c.text)
		require.Equal(t, at, p.Span.Start, c.text)
		require.Contains(t, p.Summary, c.says)
		require.Contains(t, p.Detail, c.fix)
	}
}

// FuzzParse: no text makes the reader panic; what it takes is written so that it
// is read back the same, and written again the same.
func FuzzParse(f *testing.F) {
	f.Add(canonical)
	f.Add(head + "wire \"a b\" A -> B (3) built \"3 \\\"A\" 1/0 gpt RD/BK 8' 6 1/2\"")
	f.Add(head + "wire \"->\" \"(2)\" -> \"#\" built \"\\u00a0x\" 0.1mm2 g\xc2\xa0pt RD 0.0001 in#x\n=======\nfuse a built 1e3 A b")
	f.Fuzz(func(t *testing.T, text string) {
		r, problems := Parse(source.NewFile("f", []byte(text)))
		if len(problems) > 0 {
			for _, p := range problems {
				require.NotEmpty(t, p.Summary)
				require.NotEmpty(t, p.Detail)
				require.True(t, p.Span.Known())
			}
			return
		}
		written := Text(r)
		again, problems := Parse(source.NewFile("f", written))
		require.Emptyf(t, problems, "%q", written)
		require.Equal(t, string(written), string(Text(again)))
		require.Len(t, again.Wires, len(r.Wires))
	})
}

// A text that was cut off anywhere is refused, or it was the last line feed alone.
func TestACutRecordIsNeverTakenAsWhole(t *testing.T) {
	whole := parsed(t, canonical)
	whole.File = nil
	for i := range canonical {
		r, problems := Parse(source.NewFile("f", []byte(canonical[:i])))
		if len(problems) > 0 {
			continue
		}
		counts := strings.Index(canonical, "fuses ") + len("fuses")
		require.GreaterOrEqualf(t, i, counts, "cut at byte %d", i)
		require.Equalf(t, i > counts+1 && i < len(canonical)-1, r.Edited, "cut at byte %d: a sum that is cut is as if a hand had changed it", i)
		require.Equalf(t, whole.Wires, r.Wires, "cut at byte %d", i)
		require.Equalf(t, whole.Fuses, r.Fuses, "cut at byte %d", i)
	}
}

// A hand may change a line, and may leave the sum out; what it changes is seen.
func TestAChangeByHandIsSeen(t *testing.T) {
	require.False(t, parsed(t, canonical).Edited)
	require.False(t, parsed(t, strings.ReplaceAll(canonical, "\n", "\r\n")).Edited, "another system's line ends are no change")
	require.True(t, parsed(t, strings.Replace(canonical, "1574.8 mm", "1600 mm", 1)).Edited)
	require.False(t, parsed(t, sealed+"fuse MF1 built 15 A blade\nend 0 wires 1 fuses\n").Edited)
}
