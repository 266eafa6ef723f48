package pdf

import (
	"bytes"
	"compress/zlib"
	"crypto/md5"
	"fmt"
	"sort"
	"strings"
	"time"

	"example.com/loomfolio/layout/sheet"
)

// attachments embeds the files and gives what the catalogue says of them; empty if
// there are none (ISO 32000-1, 7.11.4; ISO 19005-3, 6.8 and annex E for AFRelationship).
func attachments(d *Document, p sheet.Packet, o Options) (string, error) {
	type named struct{ key, value string }
	var names []named
	var refs []string
	seen := map[string]bool{}
	for _, a := range p.Attached {
		name := fileName(a.Name)
		if name == "" || seen[name] {
			return "", fmt.Errorf("attachment %q: no name of its own", a.Name)
		}
		seen[name] = true
		spec := d.Add(fileSpec(a, name, d.Add(embed(a, p.Date, o))), nil)
		names = append(names, named{textString(name), fmt.Sprintf("%d 0 R", spec)})
		refs = append(refs, fmt.Sprintf("%d 0 R", spec))
	}
	if len(names) == 0 {
		return "", nil
	}
	sort.Slice(names, func(i, j int) bool { return names[i].key < names[j].key })
	var tree []string
	for _, n := range names {
		tree = append(tree, n.key+" "+n.value)
	}
	return fmt.Sprintf(" /Names << /EmbeddedFiles << /Names [%s] >> >> /AF [%s]", strings.Join(tree, " "), strings.Join(refs, " ")), nil
}

func embed(a sheet.Attachment, date time.Time, o Options) (dict string, stream []byte) {
	stream, filter := a.Data, ""
	if stream == nil {
		stream = []byte{}
	}
	if !o.Uncompressed {
		stream, filter = deflate(a.Data), " /Filter /FlateDecode"
	}
	mod := ""
	if !date.IsZero() {
		mod = " /ModDate " + dateString(date)
	}
	return fmt.Sprintf("<< /Type /EmbeddedFile /Subtype %s%s /Length %d /Params << /Size %d%s /CheckSum <%x> >> >>",
		nameObject(mime(a)), filter, len(stream), len(a.Data), mod, md5.Sum(a.Data)), stream
}

func mime(a sheet.Attachment) string {
	if a.MIME == "" {
		return "application/octet-stream"
	}
	return a.MIME
}

func fileSpec(a sheet.Attachment, name string, stream int) string {
	desc := ""
	if a.Description != "" {
		desc = " /Desc " + textString(a.Description)
	}
	return fmt.Sprintf("<< /Type /Filespec /F %s /UF %s%s /AFRelationship /Source /EF << /F %d 0 R /UF %d 0 R >> >>",
		literal(ascii(name)), textString(name), desc, stream, stream)
}

// fileName keeps the last part of a path.
func fileName(s string) string {
	s = strings.ToValidUTF8(s, "_")
	return s[strings.LastIndexAny(s, `/\:`)+1:]
}

// ascii puts an underscore for what old readers cannot name.
func ascii(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r > '~' {
			return '_'
		}
		return r
	}, s)
}

func deflate(data []byte) []byte {
	var b bytes.Buffer
	w := zlib.NewWriter(&b)
	w.Write(data) // a buffer never fails
	w.Close()
	return b.Bytes()
}
