package layout_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/harness"
)

// binder is a packet as whoever thumbs through it has it: the sheets, and where each anchor stands.
type binder struct {
	sheets []sheet.Sheet
	at     map[string]frame.Place
	anchor map[string]sheet.Anchor
}

func bound(t *testing.T, h *harness.Harness, p *sheet.Packet) binder {
	b := binder{p.Sheets, map[string]frame.Place{}, map[string]sheet.Anchor{}}
	for i, s := range p.Sheets {
		f, err := frame.Of(h.Sheet.Paper, s.W > s.H)
		require.NoError(t, err)
		for _, m := range s.Marks {
			if a, ok := m.(sheet.Anchor); ok {
				b.at[a.Name], b.anchor[a.Name] = frame.Place{Sheet: i + 1, Zone: f.Zone(a.X, a.Y)}, a
			}
		}
	}
	return b
}

// short is where an anchor stands as the index prints it.
func (b binder) short(name string) string {
	return fmt.Sprintf("%d %s", b.at[name].Sheet, b.at[name].Zone)
}

// inside gives the texts and the targets of links in an area of a sheet.
func (b binder) inside(sheetNo int, area sheet.Rect) (text string, targets []string) {
	var said []string
	for _, m := range b.sheets[sheetNo-1].Marks {
		switch m := m.(type) {
		case sheet.Text:
			if m.X >= area.X && m.X <= area.Right() && m.Y > area.Y && m.Y < area.Bottom() {
				said = append(said, m.S)
			}
		case sheet.Link:
			if m.X >= area.X-1e-6 && m.X < area.Right() && m.Y >= area.Y-1e-6 && m.Y < area.Bottom()-1 {
				targets = append(targets, m.Target)
			}
		}
	}
	return toy.Plain(strings.Join(said, " ")), targets
}

// row is the area of a row of the index that begins at a point.
func (b binder) row(x, y, high float64, sheetNo int) sheet.Rect {
	f := frame.New(b.sheets[sheetNo-1].W, b.sheets[sheetNo-1].H)
	return sheet.Rect{X: x, Y: y, W: (f.Body.W - page.ColumnGap) / 2, H: high}
}

// TestLookUps: from any wire's number, by the index alone, to its diagram and to the row on which it
// is cut and crimped; from any part's reference to its tile; on paper and by link.
func TestLookUps(t *testing.T) {
	for _, s := range samples.List() {
		t.Run(s.Name, func(t *testing.T) {
			h, r := worked.Out(t, s)
			p, err := layout.Plan(h, r, layout.Options{For: layout.Archive, FileName: s.Name + ".yaml"})
			require.NoError(t, err)
			b := bound(t, h, p)
			for i := range h.Wires {
				b.checkWire(t, h, &h.Wires[i])
			}
			for i := range h.Parts {
				b.checkPart(t, &h.Parts[i])
			}
		})
	}
}

func (b binder) checkWire(t *testing.T, h *harness.Harness, w *harness.Wire) {
	t.Helper()
	here := b.anchor["index/"+w.Name]
	no := b.at["index/"+w.Name].Sheet
	text, targets := b.inside(no, b.row(here.X, here.Y, 3.6, no))
	require.Contains(t, text, w.Name)
	require.Contains(t, targets, "wire/"+w.Name)
	require.Contains(t, text, b.short("wire/"+w.Name), "where it is cut")
	drawn := "drawn/" + w.Name
	if _, ok := b.at[drawn]; !ok {
		drawn = "circuit/" + h.Circuits[w.Circuit].Key
	}
	require.Contains(t, targets, drawn)
	require.Contains(t, text, b.short(drawn), "where it is drawn")
	_, back := b.inside(b.at["wire/"+w.Name].Sheet, sheet.Rect{X: b.anchor["wire/"+w.Name].X, Y: b.anchor["wire/"+w.Name].Y, W: 400, H: 4})
	require.Contains(t, back, "index/"+w.Name, "and back")
}

func (b binder) checkPart(t *testing.T, p *harness.Part) {
	t.Helper()
	drawn := "part/" + p.Ref
	if _, ok := b.at[drawn]; !ok {
		return // nothing is drawn of a part that no wire reaches
	}
	for no := b.at["sheet/index"].Sheet; no <= len(b.sheets); no++ {
		for _, m := range b.sheets[no-1].Marks {
			if l, ok := m.(sheet.Link); ok && l.Target == drawn {
				text, _ := b.inside(no, b.row(l.X, l.Y, l.H, no))
				require.Contains(t, text, b.short(drawn), p.Ref)
				return
			}
		}
	}
	require.Fail(t, "not in the index", p.Ref)
}
