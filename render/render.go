// Package render turns a laid-out packet into the bytes of a PDF document.
//
// In comes a sheet.Packet; out come bytes, or an error that names what cannot be
// drawn. It holds that the same packet gives the same bytes, that every link leads to
// its anchor and every character has a glyph, that fonts are embedded and text can be
// selected and searched. Nothing here knows what the sheets are about.
//
// Method: gofpdf draws pages and subsets the fonts; its file is then taken apart
// object by object and written anew with links, bookmarks, attachments, metadata,
// colour profile and file identifier, none of which pass through gofpdf, whose own
// are wrong for pages of mixed size. The document is built to PDF/A-3 level B
// (ISO 19005-3) over PDF 1.7 (ISO 32000-1).
package render

import (
	"fmt"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/render/pdf"
)

// PDF draws the packet.
func PDF(p sheet.Packet) ([]byte, error) { return With(p, pdf.Options{}) }

// With draws the packet under options. Errors: those of sheet.Verify, an attachment
// that cannot be named, or a fault inside the drawing library.
func With(p sheet.Packet, o pdf.Options) (out []byte, err error) {
	defer func() {
		if r := recover(); r != nil {
			out, err = nil, fmt.Errorf("drawing the document: %v", r)
		}
	}()
	if err := sheet.Verify(p); err != nil {
		return nil, err
	}
	if err := typeface.Check(); err != nil {
		return nil, err
	}
	drawn, used, err := draw(p)
	if err != nil {
		return nil, fmt.Errorf("drawing the document: %w", err)
	}
	doc, err := pdf.TakeApart(drawn)
	if err != nil {
		return nil, fmt.Errorf("finishing the document: %w", err)
	}
	if err := pdf.Finish(doc, p, used, o); err != nil {
		return nil, fmt.Errorf("finishing the document: %w", err)
	}
	return doc.Bytes(), nil
}
