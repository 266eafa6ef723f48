package layout

import (
	"fmt"
	"runtime"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/meter"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/render"
	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// large is a vehicle with one circuit that has very much of something.
type large struct {
	name  string
	parts []string
	legs  []string
}

const (
	feed   = "[BAT.+, {to: MF, length: 100 mm}, F1, "
	stands = `loomfolio: 1
title: One large circuit
date: 2026-11-02
system: {volts: 12, running: 14.2 V}
places:
  tray: {name: Battery tray, zone: engine, tail: 100 mm}
  dash: {name: Dash, zone: cabin, tail: 150 mm}
  rear: {name: Tail, zone: boot, tail: 150 mm}
runs:
  - {from: tray, to: dash, length: 900 mm, cover: braid}
  - {from: dash, to: rear, length: 2.4 m, cover: braid}
parts:
  BAT: {kind: battery, at: tray, capacity: 60 Ah, stud: M8}
  MF: {kind: fuse, at: tray, body: bolt, stud: M8}
  F1: {kind: fuse, at: dash}
  G0: {kind: ground, at: tray, stud: M8}
  G1: {kind: ground, at: rear, stud: M8}
  %s
circuits:
  earth: {number: 1, name: Battery earth, class: charge, legs: [[G0, {to: BAT.-, length: 300 mm}]]}
  all: {number: 2, name: All, legs: [
      %s]}
`
)

func (l large) text() string {
	return fmt.Sprintf(stands, strings.Join(l.parts, "\n  "), strings.Join(l.legs, ",\n      "))
}

// each writes a line for every number below n.
func each(n int, format string) []string {
	var out []string
	for i := range n {
		out = append(out, strings.ReplaceAll(format, "#", fmt.Sprint(i)))
	}
	return out
}

// lamps hang so many on a part, each with a leg of its own.
func lamps(n int, leg string, parts ...string) (all, legs []string) {
	return append(parts, each(n, "L#: {kind: lamp, name: Lamp #, at: rear, draws: 0.05 A}")...), each(n, leg)
}

func larges() []large {
	var out []large
	add := func(name string, parts, legs []string, fed string) {
		out = append(out, large{name, parts, append([]string{feed + fed}, legs...)})
	}
	module := "M: {kind: module, name: Module, at: dash, terminals: ['15', '31', " + strings.Join(each(120, "s#"), ", ") + "], inside: [{from: '15', to: '31', draws: 1 A},\n    " +
		strings.Join(each(120, "{from: '15', to: s#, draws: 10 mA}"), ",\n    ") + "]}"
	senders := append([]string{module}, each(120, "E#: {kind: sender, name: Sender #, at: rear, draws: 10 mA}")...)
	add("module with 120 senders", senders, append([]string{"[M.31, G1]"}, each(120, "[M.s#, E#, G1]")...), "M.15]")
	parts, legs := lamps(200, "[J, L#, G1]", "J: {kind: splice, at: rear}")
	add("200 lamps on a splice", parts, legs, "J]")
	chain := append(each(400, "J#: {kind: splice, at: rear}"), "L: {kind: lamp, at: rear, draws: 1 A}")
	add("400 splices in a chain", chain, nil, strings.Join(each(400, "{to: J#, length: 50 mm}"), ",\n      ")+", L, G1]")
	parts, legs = lamps(200, "[J, {to: L#, twist: t}, G1]", "J: {kind: splice, at: dash}")
	add("200 wires in a twist", parts, legs, "J]")
	parts, legs = lamps(32, "[J, L#, G1]", "J: {kind: splice, at: rear}")
	add("ground with 32 rings", parts, legs, "J]")
	selector := "S: {kind: switch, name: Selector, at: dash, positions: {off: [],\n    " + strings.Join(each(200, "p#: [[c, o#]]"), ",\n    ") + "}}"
	parts, legs = lamps(200, "[S.o#, L#, G1]", selector)
	add("switch with 200 positions", parts, legs, "S.c]")
	add("name of 500 letters", []string{"L: {kind: lamp, name: " + strings.Repeat("N", 500) + ", at: rear, draws: 1 A}"}, nil, "L, G1]")
	return out
}

// sized takes a description through to its results.
func sized(t testing.TB, text string) (*harness.Harness, *result.Result) {
	t.Helper()
	d, problems := describe.Parse("large.yaml", []byte(text))
	require.False(t, problems.HasErrors(), "%v", problems)
	h, found := check.Check(d)
	require.NotNil(t, h, "%v", found)
	r, err := sizing.Size(h, append(problems, found...))
	require.NoError(t, err)
	return h, r
}

// workedOut is what each large circuit was sized to, once for all tests that only read it.
var workedOut = struct {
	sync.Mutex
	h map[string]*harness.Harness
	r map[string]*result.Result
}{h: map[string]*harness.Harness{}, r: map[string]*result.Result{}}

func (l large) sized(t testing.TB) (*harness.Harness, *result.Result) {
	workedOut.Lock()
	defer workedOut.Unlock()
	if workedOut.h[l.name] == nil {
		workedOut.h[l.name], workedOut.r[l.name] = sized(t, l.text())
	}
	return workedOut.h[l.name], workedOut.r[l.name]
}

// laid lays the pages of a packet as Plan does, each with its frame.
func laid(a page.Ask) []frame.Page {
	once := prepare(a)
	var pages []frame.Page
	for range mostPasses {
		pages = all(a, nil, once, nil).pages
		places := frame.Places(pages)
		if same(places, a.Known) {
			break
		}
		a.Known = places
	}
	return pages
}

// TestLargeCircuitsAreClean: of a circuit with very much of something every sheet is
// within its frame, nothing lies on another, and every wire is named in the diagrams.
func TestLargeCircuitsAreClean(t *testing.T) {
	for i, l := range larges() {
		t.Run(l.name, func(t *testing.T) {
			paper := []string{"A4", "letter"}[i%2]
			h, r := l.sized(t)
			named := map[string]bool{}
			for _, p := range laid(page.Of(h, r, paper, Archive)) {
				all := faults(p)
				require.Empty(t, all[:min(len(all), 3)], "%s: %d faults", p.Title, len(all))
				for _, m := range p.Marks {
					if text, ok := m.(sheet.Text); ok && p.Group == "Circuit diagrams" {
						named[text.S] = true
					}
				}
			}
			for _, w := range h.Wires {
				require.True(t, named[w.Name], "wire %s", w.Name)
			}
		})
	}
}

// faults are those of the meter; the bands of the loom map, which end square, would seem
// to reach into the words beside them.
func faults(p frame.Page) []string {
	area := p.Frame.Body.Inset(-2.5)
	if strings.HasPrefix(p.Title, "Loom map") {
		return append(meter.Overlaps(p.Marks), meter.Outside(p.Marks, area)...)
	}
	return meter.Faults(p.Marks, area, sheet.SizeNote)
}

// TestLargeCircuitsAreModest: a packet of them allocates what a whole car does, not its
// square. (Bytes, since time depends on what else a machine does; it was 1 to 40 GB.)
func TestLargeCircuitsAreModest(t *testing.T) {
	if testing.Short() {
		t.Skip("seven packets")
	}
	for _, l := range larges() {
		h, r := l.sized(t)
		require.Less(t, allocated(t, h, r), 1200.0, "MB for a %s", l.name)
	}
}

// allocated is how many MB a packet's sheets and bytes take in all.
func allocated(t testing.TB, h *harness.Harness, r *result.Result) float64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	p, err := Plan(h, r, Options{For: Archive, FileName: "large.yaml"})
	require.NoError(t, err)
	_, err = render.PDF(*p)
	require.NoError(t, err)
	runtime.ReadMemStats(&after)
	return float64(after.TotalAlloc-before.TotalAlloc) / 1e6
}

// TestTheBoardNamesWhatItCannotDraw: the place where too much hangs together.
func TestTheBoardNamesWhatItCannotDraw(t *testing.T) {
	var lost []string
	for _, l := range larges() {
		h, r := l.sized(t)
		if _, err := Board(h, r, Options{For: Bench}); err != nil {
			require.ErrorContains(t, err, "the label of Tail finds no place", l.name)
			lost = append(lost, l.name)
		}
	}
	require.Contains(t, lost, "400 splices in a chain")
	require.NotContains(t, lost, "ground with 32 rings")
}

// TestSheetsGrowStraight: a vehicle of four times the wires takes less than eight times
// the memory, which is the power 1.5.
func TestSheetsGrowStraight(t *testing.T) {
	if testing.Short() {
		t.Skip("a vehicle of 800 wires")
	}
	of := func(wires int) float64 {
		h := grown.Harness(t, wires, 1)
		r, err := sizing.Size(h, nil)
		require.NoError(t, err)
		return allocated(t, h, r)
	}
	require.Less(t, of(800), 8*of(200))
}

// BenchmarkGrown is all sheets, and the PDF, of made-up vehicles with looms.
func BenchmarkGrown(b *testing.B) {
	for _, wires := range []int{100, 300, 1000, 3000} {
		h := grown.Harness(b, wires, 1)
		r, err := sizing.Size(h, nil)
		require.NoError(b, err)
		b.Run(fmt.Sprintf("%d wires", wires), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				allocated(b, h, r)
			}
		})
	}
}

// BenchmarkLarge is all sheets, and the PDF, of one large circuit.
func BenchmarkLarge(b *testing.B) {
	for _, l := range larges() {
		h, r := l.sized(b)
		b.Run(l.name, func(b *testing.B) {
			for b.Loop() {
				allocated(b, h, r)
			}
		})
	}
}
