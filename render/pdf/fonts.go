package pdf

import (
	"bytes"
	"crypto/md5"
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/typeface"
)

// fonts gives each embedded subset its tagged name (ISO 32000-1, 9.6.4) and a
// character map that lists just what was drawn (9.10.3); gofpdf's covers every code
// in one range that crosses bytes.
func fonts(d *Document, used Glyphs) error {
	for f := range typeface.Font(4) {
		if used[f] == nil {
			continue
		}
		drawn := sorted(used[f])
		mapped := false
		for i := range d.Objects {
			o := &d.Objects[i]
			if !isFont(*o, FontName(f)) {
				continue
			}
			o.Dict = bytes.ReplaceAll(o.Dict, []byte("/"+FontName(f)), []byte("/"+subsetTag(f, drawn)+"+"+f.Name()))
			if n, err := reference(o.Dict, "/ToUnicode ", len(d.Objects)); err == nil {
				cmap := []byte(toUnicode(drawn))
				*d.At(n) = Object{fmt.Appendf(nil, "<< /Length %d >>", len(cmap)), cmap}
				mapped = true
			}
		}
		if !mapped {
			return fmt.Errorf("font %s was not embedded", f.Name())
		}
	}
	return nil
}

func isFont(o Object, name string) bool {
	if o.Stream != nil || !bytes.HasPrefix(o.Dict, []byte("<</Type /Font")) {
		return false
	}
	return bytes.Contains(o.Dict, []byte("/"+name+"\n")) || bytes.Contains(o.Dict, []byte("/"+name+" "))
}

func sorted(set map[rune]bool) []rune {
	var all []rune
	for r := range set {
		all = append(all, r)
	}
	slices.Sort(all)
	return all
}

// subsetTag is six capitals that depend on the font and its characters.
func subsetTag(f typeface.Font, drawn []rune) string {
	sum := md5.Sum([]byte(f.Name() + string(drawn)))
	tag := make([]byte, 6)
	for i := range tag {
		tag[i] = 'A' + sum[i]%26
	}
	return string(tag)
}

// toUnicode maps the two-byte codes, which are the characters themselves, in
// sections of at most 100 lines.
func toUnicode(drawn []rune) string {
	var b strings.Builder
	b.WriteString("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n" +
		"/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n" +
		"1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n")
	for part := range slices.Chunk(drawn, 100) {
		fmt.Fprintf(&b, "%d beginbfchar\n", len(part))
		for _, r := range part {
			fmt.Fprintf(&b, "<%04X> <%04X>\n", r, r)
		}
		b.WriteString("endbfchar\n")
	}
	b.WriteString("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend")
	return b.String()
}

// Glyphs are the characters drawn, by font.
type Glyphs map[typeface.Font]map[rune]bool

// FontName is the name under which gofpdf writes a font.
func FontName(f typeface.Font) string { return "utf8" + strings.ToLower(f.Name()) }
