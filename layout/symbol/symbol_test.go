package symbol

import (
	"flag"
	"maps"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

var update = flag.Bool("update", false, "write the golden files anew")

// examples are those of the key in one row.
func examples() []Example {
	var all []Example
	for _, g := range Key() {
		all = append(all, g.Examples...)
	}
	return all
}

// Every kind stands in the key, and so does every variant that a part can have.
func TestKeyShowsEveryKindAndVariant(t *testing.T) {
	shown := map[Variant]bool{}
	for _, e := range examples() {
		require.False(t, shown[e.Words], "%s twice", e.Words)
		shown[e.Words] = true
	}
	for _, k := range kind.All() {
		require.True(t, shown[VariantOf(&harness.Harness{}, &harness.Part{Kind: k.Kind, Momentary: true})], "%s has no pictogram", k.Kind)
	}
	for v := range drawings {
		require.True(t, shown[v], v)
	}
}

// The example of a variant is a part that has it.
func TestExamplesAreWhatTheySay(t *testing.T) {
	for _, s := range samples() {
		if s.v == panelOne {
			continue // the feed of a panel, whose positions are another example
		}
		h, part, _ := s.model()
		require.Equal(t, s.v, VariantOf(h, part))
	}
}

func TestNamesTellVariants(t *testing.T) {
	of := func(k harness.Kind, name string) Variant {
		return VariantOf(&harness.Harness{}, &harness.Part{Kind: k, Name: name})
	}
	require.Equal(t, fanOne, of(harness.Motor, "Heater blower"))
	require.Equal(t, windowOne, of(harness.Motor, "Window left"))
	require.Equal(t, pumpOne, of(harness.Motor, "Fuel pump"))
	require.Equal(t, motorOne, of(harness.Motor, "Seat"))
	require.Equal(t, diodeLampOne, of(harness.Lamp, "Reading lamp, LED"))
	require.Equal(t, lampOne, of(harness.Lamp, "Filled lamp"))
	require.Equal(t, dynamoOne, of(harness.Alternator, "Old dynamo"))
}

// Every pictogram keeps 0.4 mm from its tile's edge, which stands 6.25 mm above and below
// its middle, and 0.6 mm from the tabs 7 mm to either side.
func TestPictogramsKeepClear(t *testing.T) {
	all := maps.Clone(drawings)
	for _, l := range plainLoads {
		all[l.v] = l.draw
	}
	for _, s := range signs {
		all[s.v] = s.draw
	}
	for _, c := range chargingKinds {
		all[c.v] = c.draw
	}
	for v, draw := range all {
		var p pen
		draw(&p, 0, 0)
		b := typeface.BoundsAll(p.Marks)
		require.True(t, sheet.Rect{X: -6.4, Y: -5.85, W: 12.8, H: 11.7}.Holds(b), "%s: %v", v, b)
		require.Greater(t, math.Min(b.W, b.H), 1.9, "%s is empty or small", v)
		require.InDelta(t, 0, b.X+b.W/2, 0.8, "%s stands to one side", v)
	}
}

// Every tile's marks lie in its footprint, its pins on the rim of its box and on
// half the grid, and no two pins of a side are nearer than the pitch.
func TestTilesAreSound(t *testing.T) {
	for _, e := range examples() {
		bounds := typeface.BoundsAll(e.Tile.Marks)
		require.True(t, sheet.Rect{W: e.Tile.W, H: e.Tile.H}.Inset(-0.9).Holds(bounds), "%s: %v in %v × %v", e.Words, bounds, e.Tile.W, e.Tile.H)
		for i, p := range e.Tile.Pins {
			require.InDelta(t, 0, rest(2*p.Y), 1e-6, "%s: pin at %v is off the grid", e.Words, p.Y)
			for _, q := range e.Tile.Pins[:i] {
				require.False(t, p.Side == q.Side && abs(p.Y-q.Y) < 7.4, e.Words)
			}
		}
	}
}

func rest(y float64) float64 {
	n := y / Grid
	return n - float64(int(n+0.5))
}

func abs(v float64) float64 { return max(v, -v) }

func TestNoSymbolLooksLikeAnother(t *testing.T) {
	seen := map[string]Variant{}
	for _, e := range examples() {
		dump := sheet.DumpMarks(e.Tile.Marks)
		require.NotContains(t, seen, dump, "%s looks like %s", e.Words, seen[dump])
		seen[dump] = e.Words
	}
}

func TestKeyGolden(t *testing.T) {
	var b strings.Builder
	for _, e := range examples() {
		b.WriteString(string(e.Words) + "\n" + sheet.DumpMarks(e.Tile.Marks))
	}
	const path = "testdata/key.txt"
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(want), b.String())
}

func TestSidesFollowTheCurrent(t *testing.T) {
	h := &harness.Harness{Terminals: make([]harness.Terminal, 5)}
	relay := &harness.Part{Kind: harness.Relay}
	uses := func(in30 bool) []Use {
		u := []Use{{Terminal: 1, Name: "30"}, {Terminal: 2, Name: "85", Out: 1}, {Terminal: 3, Name: "86", In: 1}, {Terminal: 4, Name: "87"}}
		if in30 {
			u[0].In, u[3].Out = 1, 1
		} else {
			u[3].In, u[0].Out = 1, 1
		}
		return u
	}
	side := func(tile Tile, id harness.TerminalID) Side {
		i := slices.IndexFunc(tile.Pins, func(p Pin) bool { return p.Terminal == id })
		return tile.Pins[i].Side
	}
	usual := New(h, relay, uses(true), nil, Form{Pitch: 7.5})
	require.Equal(t, []Side{West, East, West, East}, []Side{side(usual, 1), side(usual, 2), side(usual, 3), side(usual, 4)})
	turned := New(h, relay, uses(false), nil, Form{Pitch: 7.5})
	require.Equal(t, []Side{East, West}, []Side{side(turned, 1), side(turned, 4)})
}

func TestCaptionJoinsWhatFits(t *testing.T) {
	lines := Caption("FAN", "Radiator fan", "nose", "5 A")
	require.Equal(t, []Line{{Lead: "FAN", S: "Radiator fan"}, {S: "5 A · nose", Note: true}}, lines)
	lines = Caption("FAN", "Radiator fan", "radiator support of the nose", "5 A")
	require.Equal(t, []Line{{Lead: "FAN", S: "Radiator fan"}, {S: "5 A", Note: true}, {S: "radiator support of the nose", Grey: true, Note: true}}, lines)
	lines = Caption("FAN", "FAN", "", "")
	require.Equal(t, []Line{{Lead: "FAN"}}, lines)
}

// TestALongNameIsBroken: a name begins behind the reference where that saves a line, else
// it stands below.
func TestALongNameIsBroken(t *testing.T) {
	lines := wrap(Caption("K1", "Heated rear window relay", ""), 30)
	require.Equal(t, []Line{{Lead: "K1", S: "Heated rear"}, {S: "window relay"}}, lines)
	lines = wrap(Caption("PUMP", "Fuel pump", ""), 23)
	require.Equal(t, []Line{{Lead: "PUMP"}, {S: "Fuel pump"}}, lines)
}

// TestSecondLinesAreJoined: second lines stand behind one another where they fit, a list
// goes on in its line, and a name is never joined.
func TestSecondLinesAreJoined(t *testing.T) {
	note := func(s string, items ...Item) Line { return Line{S: s, Items: items, Grey: true, Note: true} }
	name, place := Line{Lead: "IGN", S: "Switch"}, note("Dash")
	lines := wrap([]Line{name, place, note("also ", Item{S: "15 → 8"}), note("", Item{S: "50 → 4"})}, 45)
	require.Equal(t, []Line{name, note("Dash · also ", Item{S: "15 → 8"}, Item{S: "50 → 4"})}, lines)
	lines = wrap([]Line{name, place, note("also ", Item{S: "15 → 8"})}, 20)
	require.Equal(t, []Line{name, place, note("also ", Item{S: "15 → 8"})}, lines)
}

func TestResolve(t *testing.T) {
	s, anchor := Resolve("to "+Mark("part/K1"), func(a string) string { return "sheet 7, C3" })
	require.Equal(t, "to sheet 7, C3", s)
	require.Equal(t, "part/K1", anchor)
	s, anchor = Resolve("plain", nil)
	require.Equal(t, "plain", s)
	require.Empty(t, anchor)
}
