package fusemap

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/choose/chosen"
)

// cardWords is what stands on each card of pages, by its anchor, without blanks.
func cardWords(t *testing.T, pages []frame.Page) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, p := range pages {
		at := ""
		for _, m := range p.Marks {
			switch m := m.(type) {
			case sheet.Anchor:
				at = m.Name
				require.NotContains(t, out, at, "once")
				out[at] = ""
			case sheet.Text:
				out[at] += toy.Squeezed(m.S) + "|"
			}
		}
	}
	for at, words := range out {
		out[at] = strings.ReplaceAll(words, "|", "")
	}
	return out
}

var span = regexp.MustCompile(`([0-9]+)([A-Z])–[0-9]+([A-Z])`)

// spelled writes the wires of a span one by one.
func spelled(s string) string {
	return span.ReplaceAllStringFunc(s, func(x string) string {
		m := span.FindStringSubmatch(x)
		var out []string
		for c := m[2][0]; c <= m[3][0]; c++ {
			out = append(out, m[1]+string(c))
		}
		return strings.Join(out, ",")
	})
}

// TestEveryFactOfAFuse stands on its card, in every sample: rating, body, colour, place, what
// it feeds, its wires with their sizes, what it runs at and the most that it may be.
func TestEveryFactOfAFuse(t *testing.T) {
	for name, a := range toy.Samples(t) {
		cards := cardWords(t, FuseMap(a))
		for i, f := range a.R.Fuses {
			if len(f.Feeds)+len(f.Wires) == 0 {
				continue
			}
			said, at := cards["fuse/"+f.Name], name+", "+f.Name
			require.Contains(t, said, toy.Squeezed(f.Name+f.Rating.String()), at)
			require.Contains(t, said, toy.Squeezed(f.BodyColour), at)
			require.Contains(t, said, toy.Squeezed("never above "+f.MostAllowed.String()), at)
			if f.Amps > 0 {
				require.Contains(t, said, toy.Squeezed("load "+page.Amps(float64(f.Amps))+" A"), at)
			}
			if p := a.Part(f.Part); p.Panel == nil {
				require.Contains(t, said, toy.Squeezed(page.PlaceOf(a, p)), at)
			}
			for _, w := range f.Wires {
				require.Contains(t, spelled(said), toy.Squeezed(a.H.Wires[w].Name), at)
				require.Contains(t, said, toy.Squeezed(a.Gauge(w)), at)
			}
			checkLost(t, a, i, said, at)
		}
	}
}

// checkLost holds that each load that a fuse alone feeds is told: by its name's first word, or by a panel's positions.
func checkLost(t *testing.T, a page.Ask, i int, said, at string) {
	t.Helper()
	out := a.R.Outages[i]
	if out.Shared {
		require.Contains(t, said, "anothersupply", at)
		return
	}
	for _, d := range out.Drops {
		if len(d.Loads) > 0 {
			require.True(t, strings.Contains(said, "relay") || strings.Contains(said, a.Part(d.Relay).Ref), at)
		}
	}
	for _, n := range out.Stops {
		e, _ := a.ElementNamed(n)
		word, _, _ := strings.Cut(a.Plain(a.Part(e.Part)), " ")
		told := strings.Contains(strings.ToLower(said), strings.ToLower(word)) || strings.Contains(said, a.Part(e.Part).Ref)
		require.True(t, told || strings.Contains(said, "Everything") || inPositions(a, n, said), "%s: %s in %s", at, n, said)
	}
}

// inPositions tells whether a load hangs on a panel of which positions are named.
func inPositions(a page.Ask, load, said string) bool {
	for _, f := range a.R.Fuses {
		for _, n := range f.Feeds {
			if p := a.Part(f.Part); n == load && p.Panel != nil && strings.Contains(said, p.Ref+".") {
				return true
			}
		}
	}
	return false
}

// TestEveryFactOfARelay stands on its card: place, pins with their wires, coil and contact, rating.
func TestEveryFactOfARelay(t *testing.T) {
	for name, a := range toy.Samples(t) {
		cards := cardWords(t, FuseMap(a))
		for _, r := range a.R.Relays {
			p := a.Part(r.Part)
			said, at := cards["relay/"+p.Ref], name+", "+p.Ref
			require.Contains(t, said, toy.Squeezed(page.Called(p)), at)
			require.Contains(t, said, toy.Squeezed(page.PlaceOf(a, p)), at)
			require.Contains(t, said, toy.Squeezed("Coil "+page.Amps(float64(r.Coil))+" A"), at)
			require.Contains(t, said, toy.Squeezed("contact "+page.Amps(float64(r.Contact))), at)
			require.Equal(t, len(fedBy(a)[r.Part]) > 0, strings.Contains(said, "Feeds:"), at)
			for _, id := range p.Terminals {
				for _, w := range a.WiresOn(id) {
					require.Contains(t, said, toy.Squeezed(a.H.Wires[w].Name), at)
				}
			}
		}
	}
}

// TestSheetsOfTheFuseMap: no more than the binder has room for.
func TestSheetsOfTheFuseMap(t *testing.T) {
	for name, a := range toy.Samples(t) {
		most := map[string]int{"first": 1, "tender": 1, "camper": 3, "kestrel": 3}[name]
		require.LessOrEqual(t, len(FuseMap(a)), most, name)
	}
}

// TestLidsAreOfTrueSize: the outline of a card has the size that its panel's lid is given, and
// every position is on it with its rating; one whose words do not go on it is larger and says so.
func TestLidsAreOfTrueSize(t *testing.T) {
	a := toy.Car(7, 3)
	p := a.Part(a.Panels()[0])
	p.Panel.Lid.Wide, p.Panel.Lid.High = 172, 60
	require.Contains(t, sizes(Cards(a)), [2]float64{172, 60})
	said := toy.Squeezed(toy.Words(Cards(a)))
	for _, f := range a.R.Fuses {
		if f.Position != "" {
			require.Contains(t, said, toy.Squeezed(f.Position+f.Rating.String()), f.Name)
		}
	}
	p.Panel.Lid.Wide, p.Panel.Lid.High = 50, 30
	require.NotContains(t, sizes(Cards(a)), [2]float64{50, 30})
	require.Contains(t, toy.Plain(toy.Words(Cards(a))), "does not go on 50 mm × 30 mm")
}

func sizes(pages []frame.Page) [][2]float64 {
	var out [][2]float64
	for _, p := range pages {
		for _, m := range p.Marks {
			if path, ok := m.(sheet.Path); ok && path.Stroke != nil && path.Closed {
				b := path.Bounds().Inset(path.Stroke.Width / 2)
				out = append(out, [2]float64{round(b.W), round(b.H)})
			}
		}
	}
	return out
}

func round(x float64) float64 { return float64(int(x*100+0.5)) / 100 }

// TestCardsNameWhatIsFedTwice on both of its fuses.
func TestCardsNameWhatIsFedTwice(t *testing.T) {
	a := toy.Samples(t)["camper"]
	for _, c := range cardsOf(a) {
		said := strings.Join(c.quiet, " ")
		require.Equal(t, c.name == "MF20" || c.name == "FB2.split", strings.Contains(said, "Fed from two places"), c.name)
	}
	require.Empty(t, whyWords(chosen.Fuse{}))
}
