package label

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
)

// boxes are the outlines of the labels of a page.
func boxes(p frame.Page) []sheet.Rect {
	var out []sheet.Rect
	for _, m := range p.Marks {
		if path, ok := m.(sheet.Path); ok && path.Stroke != nil && path.Closed {
			out = append(out, path.Bounds().Inset(path.Stroke.Width/2))
		}
	}
	return out
}

// checkLabels holds that no two labels of a page lie on one another, and that each
// text that begins on a label ends on it, by its measured width.
func checkLabels(t *testing.T, p frame.Page, at string) {
	t.Helper()
	all := boxes(p)
	for i, r := range all {
		for _, o := range all[:i] {
			require.False(t, r.Inset(0.005).Meets(o), "%s: %v on %v", at, r, o)
		}
	}
	for _, m := range p.Marks {
		text, ok := m.(sheet.Text)
		if !ok {
			continue
		}
		for _, r := range all {
			if text.X > r.X && text.X < r.Right() && text.Y > r.Y && text.Y < r.Bottom() {
				b := typeface.TextBounds(text)
				require.True(t, b.X >= r.X-0.001 && b.Right() <= r.Right()+0.001, "%s: %q leaves its label", at, text.S)
				require.GreaterOrEqual(t, text.Size, sheet.SizeNote, text.S)
			}
		}
	}
}

func TestLabelsOfAllSamples(t *testing.T) {
	for name, a := range toy.Samples(t) {
		for _, a.Paper = range []string{"A4", "letter"} {
			for _, p := range Labels(a) {
				checkLabels(t, p, name+" on "+a.Paper)
			}
		}
	}
}

// TestWhatIsLookedForHasALabel: every fuse that is fitted, and every part of a kind
// that one looks for, in every sample, by name; a fuse with its rating.
func TestWhatIsLookedForHasALabel(t *testing.T) {
	looked := []harness.Kind{harness.Fuse, harness.Breaker, harness.Relay, harness.Bus, harness.Ground, harness.Connector, harness.Splice, harness.FusePanel}
	for name, a := range toy.Samples(t) {
		printed := ""
		for _, p := range Labels(a) {
			for _, m := range p.Marks {
				if text, ok := m.(sheet.Text); ok && text.Face == sheet.Bold {
					printed += "|" + strings.ReplaceAll(text.S, page.NoBreak, " ")
				}
			}
		}
		printed += "|"
		for _, p := range a.H.Parts {
			if p.Kind == harness.Fuse || p.Kind == harness.Breaker {
				require.Contains(t, printed, "|"+p.Ref+"  ", name)
			} else if slices.Contains(looked, p.Kind) {
				require.Contains(t, printed, "|"+p.Ref+"|", name)
			}
		}
		for _, f := range a.R.Fuses {
			if f.Rating > 0 && len(f.Feeds)+len(f.Wires) > 0 {
				ref := a.H.Parts[f.Part].Ref
				if f.Position != "" {
					ref = f.Position
				}
				require.Contains(t, printed, "|"+ref+"  "+f.Rating.String()+"|", name)
			}
		}
	}
}

// TestNothingIsLostUnsaid: what a label of the samples had to lose stands in full behind
// the last, and hardly any wire's marker had to.
func TestNothingIsLostUnsaid(t *testing.T) {
	for name, a := range toy.Samples(t) {
		said, short, all := words(a), 0, 0
		l := &labels{Ask: a}
		for _, x := range a.R.Labels {
			f, ok := l.marker(x).on(l.wide(x), float64(x.Face), air(x))
			require.True(t, ok, x.Name)
			if x.Kind == fitted.WireLabel {
				all++
			}
			if f.short && x.Position == "" {
				short++
				require.Contains(t, said, toy.OneLine(l.marker(x).says()), name)
			}
		}
		require.LessOrEqual(t, short*20, all, "%s: %d of %d", name, short, all)
	}
}

func words(a page.Ask) string { return toy.Running(Labels(a)) }
