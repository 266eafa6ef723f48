package layout_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
)

// landing is where an anchor stands in a packet.
type landing struct {
	sheet int
	x, y  float64
}

func landings(p *sheet.Packet) map[string]landing {
	out := map[string]landing{}
	for i, s := range p.Sheets {
		for _, m := range s.Marks {
			if a, ok := m.(sheet.Anchor); ok {
				out[a.Name] = landing{i, a.X, a.Y}
			}
		}
	}
	return out
}

// saysNear tells whether a text that ends in, or begins with, some words stands near a place.
func saysNear(s sheet.Sheet, words string, at landing) bool {
	return slices.ContainsFunc(s.Marks, func(m sheet.Mark) bool {
		t, ok := m.(sheet.Text)
		return ok && math.Abs(t.X-at.x) < 26 && math.Abs(t.Y-at.y) < 26 && (t.S == words || strings.HasPrefix(t.S, words+"  "))
	})
}

// TestReferencesLand: each tag of the diagrams ("← SPR" over "35 · sheet 17, D2") tells the
// sheet of the pin that it names, its link lands there beside that pin's name, and on
// that sheet something leads back to the tag.
func TestReferencesLand(t *testing.T) {
	where := regexp.MustCompile(`^\S.* · sheet (\d+), [A-Z]\d+$`)
	tags := 0
	for _, sample := range samples.List() {
		h, r := worked.Out(t, sample)
		p, err := layout.Plan(h, r, layout.Options{For: layout.Archive, FileName: sample.Name})
		require.NoError(t, err)
		anchors := landings(p)
		for i, s := range p.Sheets {
			for k, m := range s.Marks {
				tag, ok := m.(sheet.Text)
				if !ok || !strings.HasPrefix(tag.S, "← ") {
					continue
				}
				tags++
				link, ok := s.Marks[k+1].(sheet.Link)
				require.True(t, ok, "%s: %s has no link", sample.Name, tag.S)
				told, ok := s.Marks[k+2].(sheet.Text)
				require.True(t, ok && where.MatchString(told.S), "%s: %s says %q", sample.Name, tag.S, told.S)
				to, ok := anchors[link.Target]
				require.True(t, ok, "%s leads nowhere", link.Target)
				require.Equal(t, fmt.Sprint(to.sheet+1), where.FindStringSubmatch(told.S)[1], tag.S)
				name := strings.TrimPrefix(tag.S, "← ")
				pin := name[strings.LastIndex(name, ".")+1:]
				require.True(t, saysNear(p.Sheets[to.sheet], pin, to) || saysNear(p.Sheets[to.sheet], name, to), "%s: %s lands on no such pin", sample.Name, name)
				require.True(t, leadsTo(p.Sheets[to.sheet], anchors, landing{i, tag.X, tag.Y}), "%s: nothing leads from %s back", sample.Name, name)
			}
		}
	}
	require.Positive(t, tags)
}

// leadsTo tells whether a link of a sheet leads to a tag near a place.
func leadsTo(s sheet.Sheet, anchors map[string]landing, at landing) bool {
	return slices.ContainsFunc(s.Marks, func(m sheet.Mark) bool {
		l, ok := m.(sheet.Link)
		to, known := anchors[l.Target]
		return ok && known && strings.HasPrefix(l.Target, "tag/") && to.sheet == at.sheet && math.Abs(to.x-at.x) < 6 && math.Abs(to.y-at.y) < 8
	})
}

// TestGreyLinesLead: whatever a line under a tile names ("also 56a → 27", "fed by 10")
// leads to a tile of that circuit.
func TestGreyLinesLead(t *testing.T) {
	for _, sample := range samples.List() {
		h, r := worked.Out(t, sample)
		p, err := layout.Plan(h, r, layout.Options{For: layout.Archive, FileName: sample.Name})
		require.NoError(t, err)
		anchors := landings(p)
		n := 0
		for _, s := range p.Sheets {
			for _, m := range s.Marks {
				if l, ok := m.(sheet.Link); ok && strings.HasPrefix(l.Target, "pin/") {
					require.Contains(t, anchors, l.Target)
					n++
				}
			}
		}
		require.Greater(t, n, 4, sample.Name)
	}
}
