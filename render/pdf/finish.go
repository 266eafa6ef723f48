package pdf

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/layout/sheet"
)

// PageObject is the number that gofpdf gives to the page of a sheet, counted from 0.
func PageObject(sheet int) int { return 3 + 2*sheet }

// Drawn is what the drawn pages use.
type Drawn struct {
	Glyphs Glyphs
	Images Images
}

// Finish adds to the drawn document all that gofpdf cannot, and replaces its
// catalogue and information dictionary.
func Finish(d *Document, p sheet.Packet, used Drawn, o Options) error {
	if !o.Uncompressed {
		if err := deflatePages(d, len(p.Sheets)); err != nil {
			return err
		}
	}
	if err := links(d, p); err != nil {
		return err
	}
	if err := fonts(d, used.Glyphs); err != nil {
		return err
	}
	if err := images(d, used.Images); err != nil {
		return err
	}
	outline := bookmarks(d, p)
	files, err := attachments(d, p, o)
	if err != nil {
		return err
	}
	profile := d.Add(fmt.Sprintf("<< /N 3 /Length %d >>", len(sRGB())), sRGB())
	intent := d.Add(fmt.Sprintf("<< /Type /OutputIntent /S /GTS_PDFA1 /OutputConditionIdentifier (sRGB) /Info (sRGB IEC61966-2.1) /DestOutputProfile %d 0 R >>", profile), nil)
	packet := xmp(p)
	metadata := d.Add(fmt.Sprintf("<< /Type /Metadata /Subtype /XML /Length %d >>", len(packet)), packet)
	d.At(d.Info).Dict = information(p)
	d.At(d.Root).Dict = fmt.Appendf(nil, "<< /Type /Catalog /Pages 1 0 R /Outlines %d 0 R /PageMode /UseOutlines%s"+
		" /Metadata %d 0 R /OutputIntents [%d 0 R] /Lang (en) /ViewerPreferences << /DisplayDocTitle true /PickTrayByPDFSize true >> >>",
		outline, files, metadata, intent)
	return nil
}

// target is a destination: the page scrolled so that the anchor is near the top.
type target struct {
	page int     // object number
	x, y float64 // points, from the lower left
}

func (t target) String() string {
	return fmt.Sprintf("[%d 0 R /XYZ %s %s null]", t.page, Points(t.x), Points(t.y))
}

// above is how far over the anchor the window begins, mm.
const above = 4

func targets(p sheet.Packet) map[string]target {
	found := map[string]target{}
	for i, s := range p.Sheets {
		for _, m := range s.Marks {
			if a, ok := m.(sheet.Anchor); ok {
				y := s.H - math.Min(math.Max(a.Y-above, 0), s.H)
				found[a.Name] = target{PageObject(i), 0, y * PerMM}
			}
		}
	}
	return found
}

// links gives each page its link annotations; flag 4 lets them print, as PDF/A asks.
func links(d *Document, p sheet.Packet) error {
	to := targets(p)
	for i, s := range p.Sheets {
		var refs []string
		for _, m := range s.Marks {
			l, ok := m.(sheet.Link)
			if !ok {
				continue
			}
			dest, known := to[l.Target]
			if !known {
				return fmt.Errorf("sheet %d: a link to %q, which is nowhere", i+1, l.Target)
			}
			n := d.Add(fmt.Sprintf("<< /Type /Annot /Subtype /Link /F 4 /Rect [%s %s %s %s] /Border [0 0 0] /P %d 0 R /Dest %s >>",
				Points(l.X*PerMM), Points((s.H-l.Y-l.H)*PerMM), Points((l.X+l.W)*PerMM), Points((s.H-l.Y)*PerMM), PageObject(i), dest), nil)
			refs = append(refs, fmt.Sprintf("%d 0 R", n))
		}
		if err := annotate(d, i, refs); err != nil {
			return err
		}
	}
	return nil
}

func annotate(d *Document, sheet int, refs []string) error {
	n := PageObject(sheet)
	if n > len(d.Objects) || !bytes.HasPrefix(d.At(n).Dict, []byte("<</Type /Page\n")) {
		return fmt.Errorf("object %d is not the page of sheet %d", n, sheet+1)
	}
	if len(refs) == 0 {
		return nil
	}
	const key = "/Resources 2 0 R"
	page := d.At(n)
	if bytes.Count(page.Dict, []byte(key)) != 1 {
		return fmt.Errorf("page of sheet %d without resources", sheet+1)
	}
	page.Dict = bytes.Replace(page.Dict, []byte(key), []byte(key+"\n/Annots ["+strings.Join(refs, " ")+"]"), 1)
	return nil
}

// Options change how the document is written, not what it shows.
type Options struct {
	Uncompressed bool // plain page streams and attachments, for reading and golden tests
}
