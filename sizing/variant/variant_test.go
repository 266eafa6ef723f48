package variant

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
)

// roadster has fog lamps behind a relay, a heated seat on a fuse that it shares with the
// socket, and a trailer's cable.
const roadster = `loomfolio: 1
title: Roadster
system: {volts: 12}
places: {tray: {}, dash: {}, nose: {}, fog: {}, seat: {}, rear: {}}
runs:
  - {from: tray, to: dash, length: 1 m}
  - {from: tray, to: nose, length: 1 m}
  - {from: nose, to: fog, length: 300 mm}
  - {from: dash, to: seat, length: 1 m}
parts:
  BAT: {kind: battery, at: tray}
  MF: {kind: fuse, at: tray}
  J1: {kind: bus, at: tray}
  F1: {kind: fuse, at: tray}
  F2: {kind: fuse, at: tray}
  K1: {kind: relay, at: tray}
  SF: {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}
  SS: {kind: switch, at: dash, positions: {off: [], on: [[1, 2]]}}
  FL: {kind: lamp, at: fog, draws: 55 W}
  SEAT: {kind: heater, at: seat, draws: 5 A}
  SOCK: {kind: outlet, at: dash, draws: 5 A}
  G1: {kind: ground, at: fog}
  G2: {kind: ground, at: dash}
  G3: {kind: ground, at: tray}
circuits:
  feed: {legs: [[BAT.+, MF, J1.a], [BAT.-, G3]]}
  fog:
    legs:
      - [J1.b, F1, K1.30, K1.87, FL.+, FL.-, G1]
      - [F1.2, SF.1, SF.2, K1.86, K1.85, G2]
  seat: {legs: [[J1.c, F2, SS.1, SS.2, SEAT.+, SEAT.-, G2]]}
  socket: {legs: [[F2.2, SOCK.+, SOCK.-, G2]]}
states:
  off: {}
  foggy: {SF: on, SS: on}
  warm: {SS: on}
accept:
  - {finding: slack-only, at: [fog, tray], because: looked at}
  - {finding: slack-only, at: 2A, because: looked at}
  - {finding: coil-kick, at: K1.86, because: looked at}
`

func of(t *testing.T, variants, chosen string) *describe.Description {
	t.Helper()
	d, ps := describe.Read(read.Given{Name: "roadster.yaml", Text: []byte(roadster + variants), Variant: chosen})
	require.Empty(t, ps)
	out, ps := Of(d)
	require.Empty(t, ps)
	whole, again := describe.Read(read.Given{Name: "roadster.yaml", Text: []byte(roadster + variants), Variant: chosen})
	require.Empty(t, again)
	require.Equal(t, whole, d, "what was read is not changed")
	_, ps = check.Check(out)
	require.False(t, ps.HasErrors(), "%+v", ps)
	return out
}

func names(d *describe.Description) string {
	var b strings.Builder
	for _, p := range d.Places {
		b.WriteString(p.Key.Text + " ")
	}
	b.WriteString("| ")
	for _, r := range d.Runs {
		b.WriteString(r.From.Text + "-" + r.To.Text + " ")
	}
	b.WriteString("| ")
	for _, p := range d.Parts {
		b.WriteString(p.Key.Text + " ")
	}
	b.WriteString("| ")
	for _, c := range d.Circuits {
		b.WriteString(c.Number.Text + c.Key.Text)
		for _, l := range c.Legs {
			b.WriteString(" ")
			for i, s := range l.Stops {
				if i > 0 {
					b.WriteString(">")
				}
				b.WriteString(s.To.Text)
			}
		}
		b.WriteString("; ")
	}
	b.WriteString("| ")
	for _, s := range d.States {
		b.WriteString(s.Key.Text)
		for _, x := range s.Settings {
			b.WriteString(" " + x.Key.Text)
		}
		b.WriteString("; ")
	}
	b.WriteString("| ")
	for _, a := range d.Accept {
		for _, w := range a.At {
			b.WriteString(w.Text + " ")
		}
	}
	return b.String()
}

// TestWithout: what only the left-out circuit or part used goes with it, and nothing else.
func TestWithout(t *testing.T) {
	const feed, fog, seat, socket = "1feed BAT.+>MF>J1.a BAT.->G3; ", "2fog J1.b>F1>K1.30>K1.87>FL.+>FL.->G1 F1.2>SF.1>SF.2>K1.86>K1.85>G2; ", "3seat J1.c>F2>SS.1>SS.2>SEAT.+>SEAT.->G2; ", "4socket F2.2>SOCK.+>SOCK.->G2; "
	for _, c := range []struct{ name, leave, want string }{
		{"a circuit, with its relay, switch, place and run; the state that then is another's", "[fog]",
			"tray dash seat rear | tray-dash dash-seat | BAT MF J1 F2 SS SEAT SOCK G2 G3 | " + feed + seat + socket + "| off; warm SS; | tray "},
		{"two circuits with the fuse that both have", "[seat, socket]",
			"tray dash nose fog rear | tray-dash tray-nose nose-fog | BAT MF J1 F1 K1 SF FL G1 G2 G3 | " + feed + fog + "| off; foggy SF; | fog tray 2A K1.86 "},
		{"a load: its wires back to where something else goes on", "[SEAT]",
			"tray dash nose fog rear | tray-dash tray-nose nose-fog | BAT MF J1 F1 F2 K1 SF FL SOCK G1 G2 G3 | " + feed + fog + "3seat J1.c>F2; " + socket + "| off; foggy SF; | fog tray 2A K1.86 "},
		{"all loads of a fuse", "[SEAT, SOCK]",
			"tray dash nose fog rear | tray-dash tray-nose nose-fog | BAT MF J1 F1 K1 SF FL G1 G2 G3 | " + feed + fog + "| off; foggy SF; | fog tray 2A K1.86 "},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, names(of(t, "variants: {bare: {without: "+c.leave+"}}\n", "bare")))
		})
	}
	require.Equal(t, []string{"F1", "K1", "SF", "FL", "G1"}, of(t, "variants: {bare: {without: [fog]}}\n", "bare").LeftOut)
	require.Contains(t, names(of(t, "variants: {bare: {without: [fog]}}\n", "")), fog[1:], "nothing goes that is not chosen")
	require.Contains(t, names(of(t, "variants: {bare: {without: [fog]}}\n", read.All)), fog[1:], "all takes nothing away")
}

// TestWithoutWhatOthersNeed: where a circuit feeds another one, its absence is found, and said
// beforehand of the variant that is not chosen.
func TestWithoutWhatOthersNeed(t *testing.T) {
	text := []byte(roadster + "variants: {bare: {without: [seat]}}\n")
	given := read.Given{Name: "roadster.yaml", Text: text}
	d, ps := describe.Read(given)
	require.Empty(t, ps)
	found := Others(given, d)
	require.Len(t, found, 1, "F2 has a wire on one side alone")
	require.Equal(t, "variant-fails", found[0].Slug)
	require.Contains(t, found[0].Summary, "F2")
	require.Contains(t, found[0].Detail, "--variant bare")
}

// TestNothingIsBridged: where a fuse is left out its two sides stay apart, and what it fed is
// gone or found to be without a feed.
func TestNothingIsBridged(t *testing.T) {
	require.NotContains(t, names(of(t, "variants: {bare: {without: [F1]}}\n", "bare")), "fog", "it has fed nothing else")
	d, ps := describe.Read(read.Given{Name: "x", Variant: "bare", Text: []byte(roadster + "variants: {bare: {without: [MF]}}\n")})
	require.Empty(t, ps)
	out, ps := Of(d)
	require.Empty(t, ps)
	require.NotContains(t, names(out), "BAT.+>")
	require.NotContains(t, names(out), ">J1.a")
	h, ps := check.Check(out)
	require.False(t, ps.HasErrors())
	r, err := sizing.Size(h, nil)
	require.NoError(t, err)
	require.True(t, r.Findings.HasErrors(), "loads without a feed")
}

// TestUnitsGoWithTheirLastWire: of a cable and a screen nothing stays when no wire lies in it.
func TestUnitsGoWithTheirLastWire(t *testing.T) {
	d, ps := describe.Read(read.Given{Name: "x", Variant: "bare", Text: []byte(`loomfolio: 1
title: t
system: {volts: 12}
parts: {A: {kind: splice}, B: {kind: splice}, C: {kind: splice}, G: {kind: ground}}
screens: {s: {drain: G}, r: {drain: G}}
circuits:
  one: {legs: [[A, {to: B, screen: s}]]}
  two: {legs: [[B, {to: C, screen: r}]]}
variants: {bare: {without: [one]}}
`)})
	require.Empty(t, ps)
	out, ps := Of(d)
	require.Empty(t, ps)
	require.Len(t, out.Screens, 1)
	require.Equal(t, "r", out.Screens[0].Name.Text)
	require.Len(t, out.Parts, 3, "A goes, G was never at a wire")
}

// FuzzVariants: whatever is left out of whatever is written, nothing panics, nothing outside
// the folder is asked for, the description that was read stays, and each variant is the same twice.
func FuzzVariants(f *testing.F) {
	f.Add(roadster+"variants: {a: {without: [fog, J1]}, b: {with: [tow.yaml], without: [F2, seat]}}\n", "circuits: {tow: {legs: [[J1.x, F9, T, G9]]}}\nparts: {F9: {kind: fuse}}\n", "b")
	f.Add(roadster+"variants: {a: {without: [BAT, G1, G2, G3, SEAT]}, 'all': {with: []}, ../x: {with: [../x]}}\n", "include: [tow.yaml]\n", "a")
	f.Add(strings.Replace(roadster, "FL.+, FL.-", "FL, FL, FL.+, K1.30", 1)+"variants: {a: {without: [FL]}}\n", "", "a")
	f.Fuzz(func(t *testing.T, text, tow, chosen string) {
		begun := time.Now()
		w := &asked{MapFS: fstest.MapFS{"tow.yaml": {Data: []byte(tow)}}}
		for _, variant := range []string{"", chosen, read.All} {
			given := read.Given{Name: "roadster.yaml", Text: []byte(text), Files: w, Variant: variant}
			d, ps := describe.Read(given)
			if ps.HasErrors() {
				continue
			}
			was := names(d)
			out, ps := Of(d)
			require.Equal(t, was, names(d))
			twice, again := Of(d)
			require.Equal(t, names(out), names(twice))
			require.Equal(t, ps, again)
			if !ps.HasErrors() {
				_, _ = check.Check(out)
				require.Equal(t, Others(given, d), Others(given, d))
			}
		}
		for _, name := range w.names {
			require.True(t, fs.ValidPath(name), name)
		}
		require.Less(t, time.Since(begun), 30*time.Second, fmt.Sprintf("%.200s", text))
	})
}

// asked is a folder that remembers what was asked of it.
type asked struct {
	fstest.MapFS
	names []string
}

func (a *asked) Open(name string) (fs.File, error) {
	a.names = append(a.names, name)
	return a.MapFS.Open(name)
}
