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

	"example.com/loomfolio/layout/bench"
	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/cutlist"
	"example.com/loomfolio/layout/drawing"
	"example.com/loomfolio/layout/faces"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/fusemap"
	"example.com/loomfolio/layout/guide"
	"example.com/loomfolio/layout/label"
	"example.com/loomfolio/layout/loom"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/power"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
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
	For      string // Bench, Customer or Archive
	Paper    string // "" as the description says
	FileName string // of the description, for the archive's attachment
}

// mostPasses bounds the passes; two settle a packet unless a longer reference
// pushes a row to another sheet.
const mostPasses = 5

// Plan lays the packet out. It fails on an unknown reader or paper, and when a
// mark would spoil the document (which is a fault of the program).
func Plan(h *harness.Harness, r *result.Result, o Options) (*sheet.Packet, error) {
	ask, err := asked(h, r, o)
	if err != nil {
		return nil, err
	}
	once := prepare(ask)
	var pages []frame.Page
	for range mostPasses {
		pages = all(ask, once)
		places := frame.Places(pages)
		if same(places, ask.Known) {
			break
		}
		ask.Known = places
	}
	p := &sheet.Packet{
		Title: h.Info.Title, Subject: subject(h), Author: h.Info.Builder, Date: date(h), Caution: caution.Short(h)[0],
		Sheets: frame.Bind(pages, block(h)),
	}
	if o.For == Archive {
		p.Attached = []sheet.Attachment{{
			Name: o.FileName, MIME: "application/yaml", Description: "The description that this packet was made from", Data: h.File.Text,
		}}
		if h.Record != nil {
			p.Attached = append(p.Attached, sheet.Attachment{
				Name: recordName(h, o), MIME: "text/plain", Description: "The as-built record that this packet keeps to", Data: h.Record.Text,
			})
		}
	}
	if err := sheet.Verify(*p); err != nil {
		return nil, fmt.Errorf("the packet cannot be drawn: %w", err)
	}
	return p, nil
}

// recordName is the record's own, unless it is called as the description is.
func recordName(h *harness.Harness, o Options) string {
	if name := filepath.Base(h.Record.Name); name != o.FileName {
		return name
	}
	return "record-" + o.FileName
}

func asked(h *harness.Harness, r *result.Result, o Options) (page.Ask, error) {
	paper := o.Paper
	if paper == "" {
		paper = h.Sheet.Paper
	}
	a := page.Of(h, r, paper, o.For)
	if !slices.Contains(Readers(), a.For) {
		return a, fmt.Errorf("no sheets for %q: take one of %s", a.For, strings.Join(Readers(), ", "))
	}
	_, _, err := frame.Paper(a.Paper)
	return a, err
}

// prepared is what no reference changes, so that it is made before the passes.
type prepared struct {
	drawings []drawing.Drawing
	maps     []loom.Drawing
}

func prepare(a page.Ask) (p prepared) {
	var work sync.WaitGroup
	work.Go(func() { p.drawings = drawing.Lay(a.H, a.R, a.Landscape().Body) })
	work.Go(func() { p.maps = loom.Lay(a) })
	work.Wait()
	return p
}

// kind is one kind of sheet.
type kind struct {
	anchor string
	lay    func(page.Ask) []frame.Page
}

// kinds are those of the reader's packet in order, the cover apart.
func kinds(reader string, once prepared) []kind {
	list := []kind{
		{"sheet/reading-guide", guide.ReadingGuide},
		{"sheet/load-budget", power.LoadBudget},
		{"sheet/diagrams", func(a page.Ask) []frame.Page { return diagrams(a, once.drawings) }},
		{"sheet/loom", func(a page.Ask) []frame.Page { return loom.Map(a, once.maps) }},
		{"sheet/runs", bench.Runs},
		{"sheet/build-order", bench.BuildOrder},
		{"sheet/cut-list", cutlist.CutList},
		{"sheet/terminals", bench.Terminals},
		{"sheet/splices", bench.Splices},
		{"sheet/labels", label.Labels},
		{"sheet/connectors", faces.ConnectorFaces},
		{"sheet/tracing", cutlist.Tracing},
		{"sheet/fuse-map", fusemap.FuseMap},
		{"sheet/grounds", power.Grounds},
		{"sheet/shopping", cutlist.Shopping},
	}
	if reader == Customer {
		list = slices.DeleteFunc(list, func(k kind) bool { return slices.Contains(forBuilding, k.anchor) })
	}
	return list
}

// forBuilding are the sheets that the customer's packet goes without.
var forBuilding = []string{"sheet/build-order", "sheet/cut-list", "sheet/terminals", "sheet/splices", "sheet/labels", "sheet/shopping"}

// all lays out every sheet of the reader's packet in order, the kinds side by side;
// the cover lists the others.
func all(a page.Ask, once prepared) []frame.Page {
	kinds := kinds(a.For, once)
	laid := make([][]frame.Page, len(kinds))
	var work sync.WaitGroup
	for i, k := range kinds {
		work.Go(func() { laid[i] = k.lay(a) })
	}
	work.Wait()
	var rest []frame.Page
	var list []guide.Entry
	for i, pages := range laid {
		if len(pages) > 0 {
			list = append(list, guide.Entry{Title: heading(pages[0]), Anchor: kinds[i].anchor, Sheet: len(rest), Count: len(pages)})
			rest = append(rest, pages...)
		}
	}
	return withCover(a, list, rest)
}

// withCover puts the cover first; it grows with the findings, so the numbers in
// its list follow from its own length.
func withCover(a page.Ask, list []guide.Entry, rest []frame.Page) []frame.Page {
	cover := guide.Cover(a, list)
	for i := range list {
		list[i].Sheet += len(cover) + 1
	}
	return append(guide.Cover(a, list), rest...)
}

func heading(p frame.Page) string {
	if p.Group != "" {
		return p.Group
	}
	return p.Title
}

// diagrams puts each drawing on a landscape sheet.
func diagrams(a page.Ask, drawings []drawing.Drawing) []frame.Page {
	var pages []frame.Page
	for i, d := range drawings {
		f := a.Landscape()
		var c sheet.Canvas
		if i == 0 {
			c.Anchor("sheet/diagrams", f.Body.X, f.Body.Y)
		}
		f.Heading(&c, d.Title, d.Subtitle)
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
