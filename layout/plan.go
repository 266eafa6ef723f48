// Package layout is the front door of the sheets: Plan takes the model and the
// results and gives the whole packet as placed marks. Sheets are laid out in
// passes until every reference ("sheet 7, C3") stands still.
package layout

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/drawing"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/glance"
	"example.com/loomfolio/layout/loom"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// The three readers of a packet.
const (
	Bench    = page.Bench
	Customer = page.Customer
	Archive  = page.Archive
)

// Readers lists them.
func Readers() []string { return []string{Bench, Customer, Archive} }

// Options says for whom and on what the packet is printed.
type Options struct {
	For      string   // Bench, Customer or Archive
	Paper    string   // "" as the description says; one above A3 is for the large sheets alone
	Sheets   []string // groups of sheets and circuits to print; none for the whole packet
	FileName string   // of the description, for the archive's attachment
	Fold     bool     // the loom board leaves out what is straight and bare
}

// mostPasses bounds the passes; two settle a packet unless a longer reference
// pushes a row to another sheet.
const mostPasses = 5

// Plan lays the packet out. It fails on an unknown reader, paper, group or circuit, and when a
// mark would spoil the document (which is a fault of the program).
func Plan(h *harness.Harness, r *result.Result, o Options) (*sheet.Packet, error) {
	ask, err := asked(h, r, o)
	if err != nil {
		return nil, err
	}
	chosen, err := choose(h, o.Sheets)
	if err != nil {
		return nil, err
	}
	once := prepare(ask)
	pages := settled(ask, chosen, once)
	sheets, err := chosen.of(h, pages, frame.Bind(pages, block(h)))
	if err != nil {
		return nil, err
	}
	p := &sheet.Packet{
		Title: h.Info.Title, Subject: subject(h), Author: h.Info.Builder, Date: date(h), Caution: caution.Short(h)[0],
		Sheets: sheets,
	}
	if o.For == Archive && chosen.all() {
		p.Attached = []sheet.Attachment{{
			Name: o.FileName, MIME: "application/yaml", Description: "The description that this packet was made from", Data: h.File.Text,
		}}
		p.Attached = append(p.Attached, included(h)...)
		if h.Record != nil {
			p.Attached = append(p.Attached, sheet.Attachment{
				Name: recordName(h, o), MIME: "text/plain", Description: "The as-built record that this packet keeps to", Data: h.Record.Text,
			})
		}
		p.Attached = append(p.Attached, pictures(h)...)
	}
	if err := sheet.Verify(*p); err != nil {
		return nil, fmt.Errorf("the packet cannot be drawn: %w", err)
	}
	return p, nil
}

// settled lays all sheets out until every reference stands still. The first pass tells about where things are, so
// that the second has the references; there it is found how groups share sheets, and kept from then on.
func settled(ask page.Ask, chosen choice, once prepared) []frame.Page {
	var way filled
	found := []bool{}
	for pass := range mostPasses {
		if pass == 1 {
			found = nil
		}
		way = all(ask, chosen.groups, once, found)
		places := frame.Places(way.pages)
		if same(places, ask.Known) {
			break
		}
		ask.Known = places
		if pass > 0 {
			found = way.under
		}
	}
	return way.pages
}

// recordName is the record's own, unless it is called as the description is.
func recordName(h *harness.Harness, o Options) string {
	if name := filepath.Base(h.Record.Name); name != o.FileName {
		return name
	}
	return "record-" + o.FileName
}

func asked(h *harness.Harness, r *result.Result, o Options) (page.Ask, error) {
	paper, large := o.Paper, ""
	if unit.Large(paper) {
		paper, large = "", paper
	}
	if paper == "" {
		paper = h.Sheet.Paper
	}
	a := page.Of(h, r, paper, o.For)
	a.Big = large
	if !slices.Contains(Readers(), a.For) {
		return a, fmt.Errorf("no sheets for %q: take one of %s", a.For, strings.Join(Readers(), ", "))
	}
	_, _, err := frame.Paper(a.Paper)
	return a, err
}

// prepared is what no reference changes: it is made once, for all passes, and only where the reader's packet has it.
type prepared struct {
	drawings func() []drawing.Drawing
	maps     func() []loom.Drawing
	glance   func() *glance.Drawn
}

func prepare(a page.Ask) prepared {
	return prepared{
		drawings: sync.OnceValue(func() []drawing.Drawing { return drawing.Lay(a.H, a.R, a.Landscape().Body) }),
		maps:     sync.OnceValue(func() []loom.Drawing { return loom.Lay(a) }),
		glance:   sync.OnceValue(func() *glance.Drawn { return glance.Lay(a) }),
	}
}

// diagrams puts each drawing on a landscape sheet; circuits have heads of their own.
func diagrams(a page.Ask, drawings []drawing.Drawing) []frame.Page {
	var pages []frame.Page
	for i, d := range drawings {
		f := a.Landscape()
		var c sheet.Canvas
		if i == 0 {
			c.Anchor("sheet/diagrams", f.Body.X, f.Body.Y)
		}
		if d.Subtitle != "" {
			f.Heading(&c, d.Title, d.Subtitle)
		}
		c.Add(d.Draw(a.Where, a.Link)...)
		pages = append(pages, frame.Page{Frame: f, Title: d.Title, Group: "Circuit diagrams", Marks: c.Marks})
	}
	return pages
}

func same(a, b map[string]frame.Place) bool {
	if len(a) != len(b) {
		return false
	}
	for k, v := range a {
		if b[k] != v {
			return false
		}
	}
	return true
}

func subject(h *harness.Harness) string {
	return strings.TrimSpace("Wiring packet " + h.Info.VehicleName + " " + h.Info.VehicleIdentity)
}

// date is the description's own, so that the same input gives the same bytes.
func date(h *harness.Harness) time.Time {
	if t, err := time.Parse("2006-01-02", h.Info.Date); err == nil {
		return t
	}
	return time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
}

func block(h *harness.Harness) frame.Block {
	i := h.Info
	return frame.Block{
		Owner: i.Customer, Title: i.Title, Ident: strings.TrimSpace(i.VehicleName + " " + i.VehicleIdentity),
		Revision: i.Revision, Date: i.Date, Creator: i.Builder, Approval: i.CheckedBy, Digest: h.Digest,
		Caution: caution.Short(h),
	}
}
