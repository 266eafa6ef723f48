package pdf

import (
	"fmt"
	"strings"

	"example.com/loomfolio/layout/sheet"
)

// tool is named as what made the document.
const tool = "loomfolio"

// information is the dictionary of ISO 32000-1, 14.3.3; it says the same as the XMP packet.
func information(p sheet.Packet) []byte {
	var b strings.Builder
	b.WriteString("<<")
	for _, f := range []struct{ key, text string }{
		{"Title", p.Title}, {"Author", p.Author}, {"Subject", p.Subject}, {"Keywords", p.Keywords},
		{"Creator", tool}, {"Producer", tool},
	} {
		if f.text != "" {
			fmt.Fprintf(&b, " /%s %s", f.key, textString(clear(f.text)))
		}
	}
	if !p.Date.IsZero() {
		fmt.Fprintf(&b, " /CreationDate %s /ModDate %s", dateString(p.Date), dateString(p.Date))
	}
	b.WriteString(" >>")
	return []byte(b.String())
}

// xmp is the metadata packet of ISO 16684-1 with the identification of ISO 19005-3, 6.6.4.
func xmp(p sheet.Packet) []byte {
	var b strings.Builder
	b.WriteString("<?xpacket begin=\"\ufeff\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n" +
		`<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">` + "\n" +
		`<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/"` +
		` xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/">` + "\n" +
		"<pdfaid:part>3</pdfaid:part><pdfaid:conformance>B</pdfaid:conformance>\n<dc:format>application/pdf</dc:format>\n")
	field := func(open, text, end string) {
		if text = clear(text); text != "" {
			b.WriteString(open + escape(text) + end + "\n")
		}
	}
	field(`<dc:title><rdf:Alt><rdf:li xml:lang="x-default">`, p.Title, `</rdf:li></rdf:Alt></dc:title>`)
	field(`<dc:creator><rdf:Seq><rdf:li>`, p.Author, `</rdf:li></rdf:Seq></dc:creator>`)
	field(`<dc:description><rdf:Alt><rdf:li xml:lang="x-default">`, p.Subject, `</rdf:li></rdf:Alt></dc:description>`)
	field(`<pdf:Keywords>`, p.Keywords, `</pdf:Keywords>`)
	field(`<pdf:Producer>`, tool, `</pdf:Producer>`)
	field(`<xmp:CreatorTool>`, tool, `</xmp:CreatorTool>`)
	if !p.Date.IsZero() {
		at := p.Date.UTC().Format("2006-01-02T15:04:05+00:00")
		field(`<xmp:CreateDate>`, at, `</xmp:CreateDate>`)
		field(`<xmp:ModifyDate>`, at, `</xmp:ModifyDate>`)
	}
	b.WriteString("</rdf:Description>\n</rdf:RDF></x:xmpmeta>\n<?xpacket end=\"w\"?>")
	return []byte(b.String())
}

// clear drops what XML cannot hold and makes one line of the text.
func clear(s string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t' || r == '\r':
			return ' '
		case r < ' ' || r == 0x7f || r == 0xfffe || r == 0xffff:
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "?")))
}

func escape(s string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(s)
}
