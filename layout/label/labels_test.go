package label

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/marker"
)

// TestMarkersStayOnTheirFace: whatever the names and the face, the text lies within
// it and is never below capitals of 2 mm; the name is always there, and so is the part
// that the wire leads to; what says that nothing is lost shows every word.
func TestMarkersStayOnTheirFace(t *testing.T) {
	names := []string{"1A", "12C", "WIRE-OF-THE-OWNER-7"}
	heres := []string{"", "K1.87", "SWLIGHTS.headlamps-left"}
	plains := []string{"", "Radiator fan", "Lighting switch on the column, with the long stalk"}
	for _, name := range names {
		for _, here := range heres {
			for _, plain := range plains {
				m := wording{name, here, "FAN.+", plain}
				for high := 3.6; high < 21; high += 0.7 {
					checkMarker(t, m, sheet.Rect{X: 10, Y: 20, W: max(40, m.least(high, cutAir)), H: high})
				}
			}
		}
	}
}

func checkMarker(t *testing.T, m wording, r sheet.Rect) {
	t.Helper()
	at := fmt.Sprintf("%v on %.1f mm", m, r.H)
	f, ok := m.on(r.W, r.H, cutAir)
	require.True(t, ok, at)
	all := ""
	for _, one := range []face{f.near, f.far} {
		var c sheet.Canvas
		one.draw(&c, r)
		said := ""
		for i, mark := range c.Marks {
			text := mark.(sheet.Text)
			if i == 0 {
				require.Equal(t, m.name, text.S, at)
			}
			said += strings.ReplaceAll(text.S, page.NoBreak, " ") + " "
			require.GreaterOrEqual(t, text.Size, sheet.SizeNote, at)
			b := typeface.TextBounds(text)
			require.True(t, b.X >= r.X && b.Right() <= r.Right(), at)
			require.True(t, text.Y-text.Size*typeface.CapHeight >= r.Y+0.8-1e-6 && text.Y+text.Size*typeface.Descent <= r.Bottom()+0.01, at)
		}
		all += said
	}
	require.Contains(t, all, "→ FAN", at)
	if !f.short {
		for _, word := range strings.Fields(m.here + " FAN.+ " + m.plain) {
			require.Contains(t, all, word, at)
		}
	}
}

func TestWordsAreLeftOutFromTheEnd(t *testing.T) {
	m := wording{"7D", "S5", "TLL.54", "Tail and brake lamp"}
	var got []string
	for _, x := range m.shorter() {
		got = append(got, x.says())
	}
	require.Equal(t, []string{"7D  S5 → TLL.54 Tail and brake lamp", "7D  S5 → TLL.54 Tail and brake", "7D  S5 → TLL.54 Tail",
		"7D  S5 → TLL.54", "7D  → TLL.54", "7D  → TLL"}, got)
	require.Equal(t, []string{"Pump, under the floor", "Pump"}, fewer("Pump, under the floor"))
	require.Empty(t, fewer(""))
	lines, short := within("Instrumentenbeleuchtungssteuerung, Horn", 17.6, 3)
	require.True(t, short)
	for _, line := range lines {
		require.LessOrEqual(t, typeface.Width(line, sheet.Regular, sheet.SizeNote), 17.6, line)
	}
}

// TestWhatOneFaceCannotHoldIsOnTwo: a thin wire's faces hold one line each; one has the
// terminals, the other the part, and nothing is lost.
func TestWhatOneFaceCannotHoldIsOnTwo(t *testing.T) {
	m := wording{"24P", "RLL.31", "G6", "Rear left ground"}
	f, ok := m.on(40, 4.1, cutAir)
	require.True(t, ok)
	require.False(t, f.short)
	require.Equal(t, "RLL.31 →"+page.NoBreak+"G6", f.near.first)
	require.Equal(t, "→ Rear left ground", f.far.first)
	f, _ = m.on(60, 4.1, cutAir)
	require.Equal(t, f.near, f.far, "there is room for all of it")
	f, ok = wording{"36N", "HORN1.-", "G11", "Horn ground"}.on(25.4, 3.6, cutAir)
	require.True(t, ok)
	require.Equal(t, "HORN1.-", f.near.first)
	require.Equal(t, "→"+page.NoBreak+"G11", f.far.first)
	f, _ = wording{"24P", "RLL.31", "G6", "Ground at the left of the rear panel, upper stud"}.on(40, 4.1, cutAir)
	require.True(t, f.short)
}

// TestAFlagReadsFromBothSides: the far face is the near one turned by half a circle
// about the middle of the band, so that folded over the wire it stands upright.
func TestAFlagReadsFromBothSides(t *testing.T) {
	f, ok := wording{"12C", "K1.87", "FAN.+", "Radiator fan"}.on(40, 7.5, cutAir)
	require.True(t, ok)
	var near, far sheet.Canvas
	f.near.draw(&near, sheet.Rect{X: 10, Y: 35, W: 40, H: 7.5})
	f.near.turned(&far, sheet.Rect{X: 10, Y: 20, W: 40, H: 7.5})
	require.Len(t, far.Marks, len(near.Marks))
	for i := range near.Marks {
		a, b := near.Marks[i].(sheet.Text), far.Marks[i].(sheet.Text)
		require.Equal(t, a.S, b.S)
		require.InDelta(t, 180, b.Turn, 0)
		require.InDelta(t, 60, a.X+b.X, 1e-9)
		require.InDelta(t, 62.5, a.Y+b.Y, 1e-9)
	}
}

// TestLabelsAreOfTrueSize: cut along the lines, a label has the length of the
// practice and the height of its faces and band; a flat tube is π/2 bores wide.
func TestLabelsAreOfTrueSize(t *testing.T) {
	a := toy.Crowded()
	boxes := map[string]int{}
	for _, p := range Labels(a) {
		for _, m := range p.Marks {
			if path, ok := m.(sheet.Path); ok && path.Stroke != nil && path.Closed {
				r := path.Bounds().Inset(path.Stroke.Width / 2)
				boxes[fmt.Sprintf("%.1f × %.1f", r.W, r.H)]++
			}
		}
	}
	want := map[string]int{}
	for _, x := range a.R.Labels {
		switch {
		case x.Round == 1.6:
			want[fmt.Sprintf("40.0 × %.1f", 2*7.5+5.0)]++ // a band of π × 1.6 mm
		case x.Round == 9.3:
			want["40.0 × 23.0"]++
		case x.Kind == fitted.WireLabel:
			want[fmt.Sprintf("40.0 × %.1f", math.Pi*float64(x.Round)+lap)]++
		default:
			want["40.0 × 12.5"]++
		}
	}
	require.Equal(t, want, boxes)
}

// TestEveryWireHasTwoMarkers in every sample, in the order of the cut list, and every
// one is printed twice over.
func TestEveryWireHasTwoMarkers(t *testing.T) {
	for name, a := range toy.Samples(t) {
		var order []string
		for _, w := range fitted.Order(a.H, a.R.Reels) {
			order = append(order, a.H.Wires[w].Name+"a", a.H.Wires[w].Name+"b")
		}
		var got []string
		for _, x := range a.R.Labels {
			if x.Kind == fitted.WireLabel {
				got = append(got, a.H.Wires[x.Wire].Name+x.End)
			}
		}
		require.Equal(t, order, got, name)
		texts := map[string]int{}
		for _, p := range Labels(a) {
			for _, m := range p.Marks {
				if text, ok := m.(sheet.Text); ok && text.Face == sheet.Bold {
					texts[text.S]++
				}
			}
		}
		for i := range a.H.Wires {
			require.Equal(t, 4, texts[a.H.Wires[i].Name], "%s: %s", name, a.H.Wires[i].Name)
		}
	}
}

// TestSleevesAndFlags by the practice's wish, on paper of any size.
func TestSleevesAndFlags(t *testing.T) {
	for _, as := range []string{fitted.Wrap, fitted.Flag, fitted.Sleeve} {
		a := toy.Crowded()
		for i := range a.R.Labels {
			x := &a.R.Labels[i]
			if x.Kind == fitted.WireLabel {
				x.As, x.Face, x.Tube = marker.Made(as, x.Round)
			}
			x.Long = 25 // shorter than some names
			if i%2 == 0 {
				x.Name = strings.Repeat("LONG", 5)
			}
		}
		for _, paper := range []string{"A4", "letter", "A3"} {
			a.Paper = paper
			for _, p := range Labels(a) {
				toy.CheckPage(t, p)
			}
		}
	}
}

func TestPanelStripsFollowThePanel(t *testing.T) {
	a := toy.Samples(t)["kestrel"]
	var fuses []fitted.Label
	for _, x := range a.R.Labels {
		if x.Kind == fitted.FuseLabel {
			fuses = append(fuses, x)
		}
	}
	require.NotEmpty(t, fuses)
	for _, f := range a.R.Fuses {
		if f.Position == "" || len(f.Feeds) == 0 {
			continue
		}
		n := slices.IndexFunc(fuses, func(x fitted.Label) bool { return x.Part == f.Part && x.Position == f.Position })
		require.GreaterOrEqual(t, n, 0, f.Name)
		require.Equal(t, f.Position+"  "+f.Rating.String(), fuses[n].Name)
	}
}
