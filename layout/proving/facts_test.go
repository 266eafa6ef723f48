package proving

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// asked are the sheets of every sample and of the small car before they are filled.
func asked(t *testing.T) map[string]*sheets {
	out := map[string]*sheets{}
	all := toy.Samples(t)
	all["toy"] = toy.Proved()
	for name, a := range all {
		out[name] = of(a)
	}
	return out
}

// told is a word as it is printed, with the heading, letter and bold text that it stands under.
type told struct {
	heading, letter, bold, word string
	signed                      bool // no test lamp
}

// read gives the words of a list in their order.
func read(l *list) []told {
	var out []told
	at := told{}
	for _, row := range l.Rows {
		if row.Kind == table.Group {
			at = told{heading: row.Cells[0].S}
			continue
		}
		if len(row.Cells) < 2 {
			continue
		}
		at.letter = row.Cells[0].S
		var c sheet.Canvas
		d := row.Cells[1].Draw
		d.Draw(&c, sheet.Rect{W: d.W, H: d.H})
		for _, m := range c.Marks {
			x := m.(sheet.Text)
			if x.Face == sheet.Bold {
				at.bold = x.S
				continue
			}
			for _, w := range strings.FieldsFunc(x.S, func(r rune) bool { return r == ' ' || r == '\u00a0' }) {
				if w != blank {
					out = append(out, told{at.heading, at.letter, at.bold, w, strings.Contains(w, noLamp)})
				}
			}
		}
	}
	return out
}

// probeName is how a terminal is called where volts are told.
func (s *sheets) probeName(t harness.TerminalID) string {
	return page.List(".", s.ref(t), strings.TrimSuffix(s.probe(t), noLamp))
}

// expanded are terminals as listed: FD.bat .1–3 become FD.bat FD.1 FD.2 FD.3.
func expanded(words []told) []told {
	var out []told
	ref := ""
	for _, w := range words {
		name := strings.Trim(strings.ReplaceAll(w.word, noLamp, ""), ";:")
		if before, after, dotted := strings.Cut(name, "."); dotted {
			if before != "" {
				ref = before
			}
			name = after
		} else {
			ref = ""
		}
		for _, n := range counted(name) {
			w.word = page.List(".", ref, n)
			out = append(out, w)
		}
	}
	return out
}

// counted is 1–3 as 1, 2, 3; any other name is itself.
func counted(name string) []string {
	a, b, found := strings.Cut(name, "–")
	from, err := strconv.Atoi(a)
	to, err2 := strconv.Atoi(b)
	if !found || err != nil || err2 != nil {
		return []string{name}
	}
	var out []string
	for i := from; i <= to; i++ {
		out = append(out, strconv.Itoa(i))
	}
	return out
}

// TestEveryPointStandsOnce, at its place, under the letter of a state in which it is asked and behind the
// limits that are figured for it there; the pole of the black lead apart.
func TestEveryPointStandsOnce(t *testing.T) {
	for name, s := range asked(t) {
		everyPointOnce(t, name, s)
	}
}

func everyPointOnce(t *testing.T, name string, s *sheets) {
	t.Helper()
	l := newList(80, leadWide)
	s.volts(l)
	found := map[string]told{}
	for _, w := range expanded(read(l)) {
		require.NotContains(t, found, w.word, "%s: %s stands twice", name, w.word)
		found[w.word] = w
	}
	asks, tells := map[int]bool{}, map[int]bool{}
	named := map[string]bool{}
	for _, x := range s.p.Readings {
		at := s.p.Points[x.Point].At
		if !x.Asked || s.isReference(at) {
			continue
		}
		asks[x.Point] = true
		w, ok := found[s.probeName(at)]
		require.True(t, ok, "%s: %s is missing", name, s.probeName(at))
		named[w.word] = true
		if w.letter != page.StateLetter(x.State) {
			continue
		}
		require.Equal(t, s.placeName(s.placeOf(at)), w.heading)
		require.Equal(t, s.bounds(x), w.bold, "%s: %s in %s", name, w.word, w.letter)
		tells[x.Point] = true
	}
	require.Equal(t, asks, tells, "%s: each in a state in which it is asked", name)
	require.Len(t, found, len(named), name)
}

// TestNoLampWhereNoneMayBe: a point has the sign where the plan says meter only, and no other has.
func TestNoLampWhereNoneMayBe(t *testing.T) {
	for name, s := range asked(t) {
		l := newList(80, leadWide)
		s.volts(l)
		signed := map[string]bool{}
		for _, w := range expanded(read(l)) {
			signed[w.word] = w.signed
		}
		for _, x := range s.told() {
			p := s.p.Points[x.Point]
			require.Equal(t, !p.Lamp, signed[s.probeName(p.At)], "%s: %s", name, s.probeName(p.At))
		}
	}
}

// TestEveryWireBeepsOnce, with every terminal that it ends on but those in plugs and splices.
func TestEveryWireBeepsOnce(t *testing.T) {
	for name, s := range asked(t) {
		seen := map[harness.WireID]int{}
		for _, n := range s.nets() {
			text := s.stop(n.ends[0]) + " " + s.listed(n.ends[1:])
			var words []told
			for w := range strings.FieldsSeq(strings.ReplaceAll(text, page.NoBreak, " ")) {
				words = append(words, told{word: w})
			}
			said := map[string]int{}
			for _, w := range expanded(words) {
				said[w.word]++
			}
			require.GreaterOrEqual(t, len(n.ends), 2)
			for _, id := range n.wires {
				seen[id]++
				for _, end := range []harness.TerminalID{s.H.Wires[id].From, s.H.Wires[id].To} {
					if p := s.H.PartOf(end); p == nil || p.Kind == harness.Connector || p.Kind == harness.Splice || p.Kind == harness.Bus {
						continue
					}
					require.Equal(t, 1, said[s.stop(end)], "%s: %s of %s", name, s.stop(end), s.H.Wires[id].Name)
				}
			}
		}
		for _, w := range s.H.Wires {
			require.Equal(t, 1, seen[w.ID], "%s: %s", name, w.Name)
		}
	}
}

// TestWiresByName: letters that follow one another are a span.
func TestWiresByName(t *testing.T) {
	s := of(toy.Samples(t)["kestrel"])
	id := func(name string) harness.WireID {
		for _, w := range s.H.Wires {
			if w.Name == name {
				return w.ID
			}
		}
		t.Fatal(name)
		return 0
	}
	require.Equal(t, "1A 24A–D", s.wires([]harness.WireID{id("24B"), id("24A"), id("24D"), id("24C"), id("1A")}))
	require.Equal(t, "24A 24B 24D", s.wires([]harness.WireID{id("24B"), id("24A"), id("24D")}))
}

// TestEveryNeighbourIsAsked: each pair that must not beep stands on its part's line, behind the words for
// parts that must be out where some must.
func TestEveryNeighbourIsAsked(t *testing.T) {
	for name, s := range asked(t) {
		of := map[harness.PartID]string{}
		for _, g := range s.beside() {
			for _, p := range g.parts {
				of[p] = g.text
			}
		}
		for _, x := range s.p.Before.Apart {
			if x.Ground {
				continue
			}
			free, behind, _ := strings.Cut(of[s.H.Terminals[x.A].Part], partsOut)
			if len(x.Off) > 0 {
				free = behind
			}
			pair := s.short(x.A) + "·" + s.beyond(x.A, x.B)
			require.Contains(t, "·"+strings.NewReplacer(" ", "·", ";", "·").Replace(free)+"·", "·"+pair+"·", "%s: %s", name, s.ref(x.A))
		}
	}
}

// TestEveryFuseIsPulledOnce, goes in once with everything off, and has its amps once.
func TestEveryFuse(t *testing.T) {
	for name, s := range asked(t) {
		l := newList(80, leadWide)
		s.holders(l)
		pulled := map[string]int{}
		for _, w := range expanded(read(l)) {
			pulled[w.word]++
			pulled[w.bold]++
		}
		for _, x := range s.p.Before.Pulled {
			require.Positive(t, pulled[s.H.Elements[x.Fuse].Name], "%s: %s", name, s.H.Elements[x.Fuse].Name)
		}
		l = newList(80, leadWide)
		s.throughFuses(l)
		through := map[string]told{}
		for _, w := range read(l) {
			require.NotContains(t, through, w.word)
			through[w.word] = w
		}
		for _, x := range s.p.Through {
			w := through[s.H.Elements[x.Fuse].Name]
			require.Equal(t, amps(x.Low, x.High), w.bold, name)
			require.Equal(t, page.StateLetter(x.State), w.letter)
		}
		require.Len(t, through, len(s.p.Through))
	}
}

// TestEveryStep of the first power stands in its order, with its amps, its lamp and its reason to stop.
func TestEveryStep(t *testing.T) {
	for name, s := range asked(t) {
		said := toy.Squeezed(toy.Words(Tests(s.Ask)))
		last := 0
		for _, x := range s.p.Power {
			if x.State == proof.None {
				continue
			}
			text := toy.Squeezed(amps(x.Low, x.High) + blank)
			if x.Lamp != "" {
				text = x.Lamp + text
			}
			if x.Fuse != harness.None {
				in, with := s.stepFuses(x, s.always()[x.Battery])
				text = page.StateLetter(x.State) + in + toy.Squeezed(page.List("", map[bool]string{true: "+"}[with != ""], with)) + text
			}
			at := strings.Index(said[last:], text)
			require.GreaterOrEqual(t, at, 0, "%s: %s", name, text)
			last += at
			require.Contains(t, strings.ToLower(said), strings.ToLower(toy.Squeezed(x.Stop)))
		}
		off := map[harness.ElementID]bool{}
		for _, x := range s.p.Power {
			for _, f := range x.Fuses {
				off[f] = off[f] || x.State == proof.None
			}
		}
		for f, is := range off {
			require.True(t, is, "%s: %s goes in with everything off", name, s.H.Elements[f].Name)
		}
	}
}

// TestEveryLoadHasItsDrop: feed and return of each load once, and every part on the way either with its own
// limit or below the one that holds for all.
func TestEveryLoadHasItsDrop(t *testing.T) {
	for name, s := range asked(t) {
		l := newList(80, leadWide)
		s.legs(l)
		loads := map[string]told{}
		for _, w := range read(l) {
			require.NotContains(t, loads, w.letter+w.word, name)
			loads[w.letter+w.word] = w
		}
		l = newList(80, leadWide)
		s.parts(l)
		parts := map[told]int{}
		for _, w := range read(l) {
			w.heading = ""
			parts[w]++
		}
		whole := map[string]bool{}
		for _, x := range s.p.Sections {
			if x.Whole {
				key := page.StateLetter(x.State) + strings.ReplaceAll(s.load(x.Load), page.NoBreak, " ")
				whole[key] = true
				feed, back, _ := strings.Cut(loads[key].bold, page.NoBreak+"/"+page.NoBreak)
				require.Contains(t, []string{feed, back}, atMost(x.Most), "%s: %s", name, key)
				if s.toLoad(&x) {
					require.Equal(t, feed, atMost(x.Most))
				}
				continue
			}
			if x.Most > s.little() {
				words := strings.Fields(x.What)
				require.Positive(t, parts[told{letter: page.StateLetter(x.State), bold: atMost(x.Most), word: words[len(words)-1]}], "%s: %s", name, x.What)
			}
		}
		require.Len(t, loads, len(whole), name)
	}
}

// TestLittle is a hundredth of the system's volts, in steps of 0.05 V.
func TestLittle(t *testing.T) {
	a := toy.Proved()
	for volts, want := range map[unit.Volt]string{6: "0.05", 12: "0.10", 24: "0.20", 48: "0.45"} {
		a.H.System.Volts = volts
		require.Equal(t, want, atMost(of(a).little()))
	}
}

// TestEveryCoilOnce in its state, and once among the ohms with the way of its diode.
func TestEveryCoilOnce(t *testing.T) {
	for name, s := range asked(t) {
		l := newList(80, leadWide)
		s.coils(l)
		got := map[string]told{}
		for _, w := range read(l) {
			key := map[bool]string{true: "Ω"}[w.letter == "Ω"] + w.word
			require.NotContains(t, got, key, name)
			got[key] = w
		}
		for _, x := range s.p.Coils {
			relay := strings.TrimSuffix(s.H.Elements[x.Coil].Name, ".coil")
			require.Equal(t, amps(x.Low, x.High), got[relay].bold, "%s: %s", name, relay)
			require.Equal(t, page.StateLetter(x.State), got[relay].letter)
			require.Equal(t, strings.ReplaceAll(ohms(x), " ", page.NoBreak), got["Ω"+relay].bold)
		}
		require.Len(t, got, 2*len(s.p.Coils), name)
	}
}

// TestKeyOff: the most from the battery, and each fuse that carries any.
func TestKeyOff(t *testing.T) {
	l := newList(80, leadWide)
	of(toy.Proved()).keyOff(l)
	var got []string
	for _, w := range read(l) {
		got = append(got, w.letter+" "+w.bold+" "+w.word)
	}
	require.Equal(t, []string{"a ≤\u00a031 battery", "a ≤\u00a031 lead", "a 12–32 MF1"}, got)
	require.Contains(t, l.Rows[0].Cells[0].Note, "Over 50\u00a0mA empties the battery in weeks")
}

// TestStatesThatAreAskedAreSaid, each with its switches.
func TestStatesThatAreAskedAreSaid(t *testing.T) {
	for name, s := range asked(t) {
		l := newList(80, leadWide)
		s.states(l)
		said := map[string]bool{}
		for _, row := range l.Rows[1:] {
			said[row.Cells[0].S] = true
		}
		for _, x := range s.used() {
			if x != proof.None {
				require.True(t, said[page.StateLetter(x)], "%s: %s", name, s.H.States[x].Name)
			}
		}
	}
	s := of(toy.Samples(t)["kestrel"])
	require.Equal(t, "IGN run, HBW pulled", strings.ReplaceAll(s.settings(s.H.States[2]), page.NoBreak, " "))
	require.Equal(t, "all at rest", s.settings(s.H.States[0]))
}

// TestUntold: what no reading shows is owned up to.
func TestUntold(t *testing.T) {
	for name, s := range asked(t) {
		said := toy.Squeezed(toy.Words(Tests(s.Ask)))
		for _, x := range s.p.Untold {
			require.Contains(t, said, toy.Squeezed(faultName(s.p.Faults[x.Fault])), name)
			require.Contains(t, said, toy.Squeezed(x.Why), name)
		}
	}
}
