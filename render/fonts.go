package render

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
func fonts(d *document, used glyphs) error {
	for f := range typeface.Font(4) {
		if used[f] == nil {
			continue
		}
		drawn := sorted(used[f])
		mapped := false
		for i := range d.objects {
			o := &d.objects[i]
			if !isFont(*o, embedded(f)) {
				continue
			}
			o.dict = bytes.ReplaceAll(o.dict, []byte("/"+embedded(f)), []byte("/"+subsetTag(f, drawn)+"+"+f.Name()))
			if n, err := reference(o.dict, "/ToUnicode ", len(d.objects)); err == nil {
				cmap := []byte(toUnicode(drawn))
				*d.at(n) = object{fmt.Appendf(nil, "<< /Length %d >>", len(cmap)), cmap}
				mapped = true
			}
		}
		if !mapped {
			return fmt.Errorf("font %s was not embedded", f.Name())
		}
	}
	return nil
}

func isFont(o object, name string) bool {
	if o.stream != nil || !bytes.HasPrefix(o.dict, []byte("<</Type /Font")) {
		return false
	}
	return bytes.Contains(o.dict, []byte("/"+name+"\n")) || bytes.Contains(o.dict, []byte("/"+name+" "))
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
