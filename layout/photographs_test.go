package layout_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout"
	"example.com/loomfolio/layout/bench"
	"example.com/loomfolio/layout/faces"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/fusemap"
	"example.com/loomfolio/layout/index"
	"example.com/loomfolio/layout/meter"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/power"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/toy"
)

// shot is a photograph as it stands in a packet.
type shot struct {
	picture sheet.Picture
	sheet   int
	mark    int
}

// shots finds the photographs of a packet by their anchors, and counts the pictures.
func shots(t *testing.T, p *sheet.Packet) (found map[string]shot, pictures int) {
	found = map[string]shot{}
	for n, s := range p.Sheets {
		for i, m := range s.Marks {
			if _, ok := m.(sheet.Picture); ok {
				pictures++
			}
			at, ok := m.(sheet.Anchor)
			if !ok || !strings.HasPrefix(at.Name, "photo/") {
				continue
			}
			require.NotContains(t, found, at.Name, "stands twice")
			for k := i - 1; k >= 0; k-- {
				if x, ok := s.Marks[k].(sheet.Picture); ok {
					require.InDelta(t, at.X, x.X, 1e-6)
					require.InDelta(t, at.Y, x.Y, 1e-6)
					found[at.Name] = shot{x, n, i}
					break
				}
			}
			require.Contains(t, found, at.Name)
		}
	}
	return found, pictures
}

// TestEachPhotographStandsOnce beside what it shows: on the sheet that has a connector's faces, a panel,
// an in-line fuse, a relay, a ground or a splice, within its card where it has one, else in the index.
func TestEachPhotographStandsOnce(t *testing.T) {
	for k, s := range samples.List() {
		a := toy.Photographed(t, toy.Archive(t, s))
		for i, reader := range layout.Readers() {
			paper := []string{"A4", "letter"}[(i+k)%2]
			if testing.Short() && i != k%3 {
				continue
			}
			t.Run(s.Name+" "+reader+" "+paper, func(t *testing.T) {
				p, err := layout.Plan(a.H, a.R, layout.Options{For: reader, Paper: paper, FileName: s.Name + ".yaml"})
				require.NoError(t, err)
				onceEach(t, a, p)
			})
		}
	}
}

func onceEach(t *testing.T, a page.Ask, p *sheet.Packet) {
	found, pictures := shots(t, p)
	require.Equal(t, len(a.H.Parts)+len(a.H.Places), pictures)
	require.Len(t, found, pictures)
	for i := range a.H.Places {
		require.Contains(t, p.Sheets[found["photo/place/"+a.H.Places[i].Key].sheet].Title, "Index")
	}
	for i := range a.H.Parts {
		ref := a.H.Parts[i].Ref
		x := found["photo/"+ref]
		marks := p.Sheets[x.sheet].Marks
		require.Empty(t, meter.Pictured(marks))
		require.InDelta(t, float64(a.H.Parts[i].Picture.Wide)/float64(a.H.Parts[i].Picture.High), x.picture.W/x.picture.H, 1e-6)
		require.LessOrEqual(t, x.picture.H, 25.0)
		if x.picture.W/x.picture.H < 1.5 { // none that is long
			require.GreaterOrEqual(t, x.picture.H, 17.5)
		}
		home(t, p, ref, x)
	}
}

// home holds that a part's photograph stands on its own sheet, within its card, and in the index where it has none.
func home(t *testing.T, p *sheet.Packet, ref string, x shot) {
	for _, kind := range []string{"connector/", "ground/", "splice/", "panel/", "relay/", "fuse/"} {
		n, at, ok := anchored(p, kind+ref)
		if !ok {
			continue
		}
		require.Equal(t, n, x.sheet, "%s%s", kind, ref)
		if card, ok := cardAt(p.Sheets[n].Marks, at); kind != "connector/" && kind != "panel/" {
			require.True(t, ok, "%s%s has a card", kind, ref)
			require.True(t, card.Holds(typeface.Bounds(x.picture)), "%s%s: %v within %v", kind, ref, x.picture, card)
		}
		return
	}
	require.Contains(t, p.Sheets[x.sheet].Title, "Index", ref)
}

func anchored(p *sheet.Packet, name string) (n int, at sheet.Anchor, ok bool) {
	for n, s := range p.Sheets {
		for _, m := range s.Marks {
			if at, ok := m.(sheet.Anchor); ok && at.Name == name {
				return n, at, true
			}
		}
	}
	return 0, sheet.Anchor{}, false
}

// cardAt is the outline whose upper left corner is an anchor.
func cardAt(marks []sheet.Mark, at sheet.Anchor) (sheet.Rect, bool) {
	for _, m := range marks {
		if p, ok := m.(sheet.Path); ok && p.Stroke != nil && p.Closed {
			b := p.Bounds().Inset(p.Stroke.Width / 2)
			if near(b.X, at.X) && near(b.Y, at.Y) && b.W > 40 {
				return b, true
			}
		}
	}
	return sheet.Rect{}, false
}

func near(x, y float64) bool { return x-y < 0.02 && y-x < 0.02 }

// TestPhotographsKeepApart: sheets full of photographs have no fault of the meter, and no picture where none is described.
func TestPhotographsKeepApart(t *testing.T) {
	kinds := map[string]func(page.Ask) []frame.Page{
		"faces": faces.ConnectorFaces, "fuses": fusemap.FuseMap, "grounds": power.Grounds, "splices": bench.Splices, "index": index.Index,
	}
	toy.Each(t, func(t *testing.T, a page.Ask) {
		b := toy.Photographed(t, a)
		for name, lay := range kinds {
			require.Empty(t, toy.Pictures(lay(a)), name)
			pages := lay(b)
			for _, p := range pages {
				toy.CheckPage(t, p)
			}
			if len(pages) > 0 && name != "splices" {
				require.NotEmpty(t, toy.Pictures(pages), name)
			}
		}
	})
}
