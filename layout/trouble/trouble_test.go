package trouble

import (
	"flag"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples/grown"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
)

var update = flag.Bool("update", false, "write the golden files anew")

func TestGolden(t *testing.T) {
	toy.CheckGolden(t, "faults", toy.Settled(toy.Faulty(toy.Car(9, 4)), Faults), *update)
}

// all are the samples and the toys.
func all(t *testing.T) map[string]page.Ask {
	out := toy.Samples(t)
	for name, a := range out {
		a.For = page.Archive
		out[name] = a
	}
	out["toy"] = toy.Faulty(toy.Car(20, 5))
	out["long"] = toy.Faulty(toy.Worded(toy.Car(40, 3)))
	return out
}

// TestEveryLoadHasItsLadderOnce, on a card that names it, with its own points.
func TestEveryLoadHasItsLadderOnce(t *testing.T) {
	for name, a := range all(t) {
		count := make([]int, len(a.R.Proof.Ladders))
		teller := tellerOf(a)
		for _, c := range teller.ladders() {
			heads := c.title
			for _, l := range c.lines {
				heads += "|" + l.head
			}
			for _, i := range c.ladders {
				count[i]++
				plain := a.Plain(a.Part(a.H.Elements[a.R.Proof.Ladders[i].Load].Part))
				stem, _, _ := strings.Cut(page.Capital(plain), " ")
				require.Contains(t, strings.ToLower(heads), strings.ToLower(stem), "%s: %s", name, plain)
			}
		}
		for i, n := range count {
			require.Equal(t, 1, n, "%s: %s", name, a.H.Elements[a.R.Proof.Ladders[i].Load].Name)
		}
	}
}

// TestEveryFaultOfARungIsNamed: the thing that it sits in stands on the line of its point; what blows a
// fuse on that of the fuse, which the line names.
func TestEveryFaultOfARungIsNamed(t *testing.T) {
	for name, a := range all(t) {
		teller := tellerOf(a)
		said := map[string][]string{}
		for _, c := range teller.ladders() {
			for _, l := range c.lines {
				said[l.point] = append(said[l.point], spelt(l.means)...)
			}
		}
		for _, l := range a.R.Proof.Ladders {
			for _, r := range l.Rungs {
				for _, f := range faultsOf(r) {
					x := &a.R.Proof.Faults[f]
					here := said[teller.say.Point(r.Point)]
					if slices.Contains(here, teller.say.Thing(x)) || teller.elsewhere(x, said) {
						continue
					}
					require.NotEmpty(t, x.Blown, "%s: %s at %s of %s is not named", name, x.ID, teller.say.Point(r.Point), a.H.Elements[l.Load].Name)
					fuse := a.H.Elements[x.Blown[0]].Name
					require.Contains(t, here, fuse, "%s: %s", name, x.ID)
				}
			}
		}
	}
}

// TestShortsOfSignalWires: a wire that touches ground and blows no fuse is told as such on the line of its
// point, beside its being open, which reads otherwise.
func TestShortsOfSignalWires(t *testing.T) {
	n := 0
	for name, a := range toy.Samples(t) {
		teller := tellerOf(a)
		said := map[string]string{}
		for _, c := range teller.ladders() {
			for _, l := range c.lines {
				said[l.point] += l.means + "; "
			}
		}
		for _, l := range a.R.Proof.Ladders {
			for _, r := range l.Rungs {
				for _, f := range faultsOf(r) {
					x := &a.R.Proof.Faults[f]
					if x.Kind != proof.Short || len(x.Blown) > 0 || strings.Contains(x.ID, "~") {
						continue
					}
					n++
					_, grounds, _ := strings.Cut(said[teller.say.Point(r.Point)], "to ground: ")
					require.Contains(t, spelt(grounds), teller.say.Thing(x), "%s: %s at %s", name, x.ID, teller.say.Point(r.Point))
				}
			}
		}
	}
	require.Greater(t, n, 20)
}

// TestWhatHurtsALoadIsOfItsLadder: each fault that leaves a load dead or weak in the state of its ladder is
// one of the ladder's.
func TestWhatHurtsALoadIsOfItsLadder(t *testing.T) {
	for name, a := range toy.Samples(t) {
		for _, l := range a.R.Proof.Ladders {
			of := l.Suspects()
			for f, x := range a.R.Proof.Faults {
				if hurt := slices.Concat(x.Dead, x.Weak); x.State == l.State && slices.Contains(hurt, l.Load) {
					require.Contains(t, of, f, "%s: %s of %s", name, x.ID, a.H.Elements[l.Load].Name)
				}
			}
		}
	}
}

// TestWhatBlowsAFuseShowsInItsState: the state in which a fault was solved is one in which what it
// touches hangs behind a fuse that it blows.
func TestWhatBlowsAFuseShowsInItsState(t *testing.T) {
	for name, a := range toy.Samples(t) {
		teller := tellerOf(a)
		n, off := 0, 0
		for i := range a.R.Proof.Faults {
			f := &a.R.Proof.Faults[i]
			if len(f.Blown) == 0 || f.Kind != proof.Short && f.Kind != proof.Shorted {
				continue
			}
			n++
			if in, _ := teller.blowsIn(f, f.Blown[0]); !slices.Contains(in, f.State) {
				off++
			}
		}
		require.LessOrEqual(t, off, n/50, name)
	}
}

// elsewhere tells that a fault stands on the line of a relay to which others refer.
func (t teller) elsewhere(x *proof.Fault, said map[string][]string) bool {
	for _, r := range t.relays {
		if slices.Contains(said[t.say.Point(r.point)], t.say.Thing(x)) {
			return true
		}
	}
	return false
}

// spelt are the things that the words of a line name, spans of wires one by one.
func spelt(words string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(toy.Plain(words), func(r rune) bool { return strings.ContainsRune(",; ~", r) }) {
		from, to, ok := strings.Cut(w, "–")
		if !ok || from == "86" || from == "85" {
			out = append(out, w)
			continue
		}
		stem := from[:len(from)-1]
		for c := from[len(from)-1]; c <= to[len(to)-1]; c++ {
			out = append(out, stem+string(rune(c)))
		}
	}
	return out
}

// TestLiveNetsStandOnce: each net that is ever live has its wires in one row.
func TestLiveNetsStandOnce(t *testing.T) {
	for name, a := range all(t) {
		n := 0
		for _, p := range tellerOf(a).patterns() {
			n += len(p.nets)
			for _, l := range p.nets {
				require.Equal(t, p.when, l.When, name)
				require.False(t, never(l.When), name)
			}
		}
		want := 0
		for _, l := range a.R.Proof.Live {
			if !never(l.When) {
				want++
			}
		}
		require.Equal(t, want, n, name)
	}
}

// TestReaders: the customer gets the ladders alone; without a proof there is nothing.
func TestReaders(t *testing.T) {
	a := toy.Faulty(toy.Car(20, 4))
	archive := toy.Running(Faults(a))
	for _, head := range []string{"Dead or weak together", "Live when", "Sneak paths", "Next reading"} {
		require.Contains(t, archive, head)
	}
	a.For = page.Customer
	customer := toy.Running(Faults(a))
	for _, head := range []string{"Dead or weak together", "Live when", "Sneak paths", "Next reading"} {
		require.NotContains(t, customer, head)
	}
	require.Contains(t, customer, "K1.30")
	require.Contains(t, archive, "Still live with the fuse out: BAT: 12A, 12B.")
	require.Empty(t, Faults(page.Of(&harness.Harness{}, &result.Result{}, "A4", page.Archive)))
}

// TestSneakPaths: a path is told stop by stop with its cure; where none was found one line says what was looked at.
func TestSneakPaths(t *testing.T) {
	a := toy.Faulty(toy.Car(9, 4))
	said := toy.Running(Faults(a))
	for _, fact := range []string{"The telltale feeds the other side (parked, then hazard on, 0.30 A).", "BAT.+ (12A) → MF1.1 (12B backwards) → chassis. Cure: Put a diode in 12A."} {
		require.Contains(t, said, fact)
	}
	for i := range a.R.Proof.Sneaks {
		a.R.Proof.Sneaks[i].Cure = ""
	}
	require.Contains(t, toy.Running(Faults(a)), "Sneak paths: none that needs a cure. Looked at")
	a.R.Proof.Sneaks = nil
	said = toy.Running(Faults(a))
	require.Contains(t, said, "Sneak paths: none found. Looked at: 5 states, 40 changes of one switch, 12 changes of two that belong together; 99 solved.")
}

// TestSharedFeedStandsOnce: points that loads of several circuits pass first are one block, to which theirs refer.
func TestSharedFeedStandsOnce(t *testing.T) {
	for name, a := range all(t) {
		feeds, own, _ := tellerOf(a).blocks()
		ends := map[string]bool{}
		for _, b := range feeds {
			require.Empty(t, b.ladders)
			ends[toy.Plain(strings.TrimPrefix(b.feeds, "to "))] = true
		}
		for _, b := range slices.Concat(feeds, own) {
			for _, from := range strings.Split(toy.Plain(b.from), " or ") {
				require.True(t, from == "" || ends[from], "%s: %s begins after %s", name, page.Or(b.head, b.feeds), from)
			}
		}
	}
}

// TestStatesApart: a point that is read with the engine off and running has both readings.
func TestStatesApart(t *testing.T) {
	require.Equal(t, "12.1–12.6", rightWords([]right{{harness.EngineOff, 12.1, 12.6}}))
	require.Equal(t, "≥12.1/13.8", rightWords([]right{{harness.EngineOff, 12.1, 12.6}, {harness.EngineRunning, 13.8, 14.4}}))
	r := rung{}
	r.also(harness.EngineRunning, proof.Rung{Low: 13.8, High: 14.2})
	r.also(harness.EngineOff, proof.Rung{Low: 12, High: 12.6})
	r.also(harness.EngineRunning, proof.Rung{Low: 13.6, High: 14})
	require.Equal(t, []right{{harness.EngineOff, 12, 12.6}, {harness.EngineRunning, 13.6, 14.2}}, r.right)
}

// TestEveryPaper: no sheet of any sample, reader or paper has a fault of the meter.
func TestEveryPaper(t *testing.T) {
	toy.Each(t, func(t *testing.T, a page.Ask) {
		if a.For == page.Bench {
			return // gets none
		}
		for _, p := range toy.Settled(a, Faults) {
			toy.CheckPage(t, p)
			toy.CheckFoot(t, p)
		}
	})
	for _, n := range []int{3, 20, 60} {
		a := toy.Faulty(toy.Car(n, 5))
		for _, a.Paper = range frame.Papers() {
			t.Run(fmt.Sprint(n, a.Paper), func(t *testing.T) { checkAll(t, a) })
		}
	}
}

// TestLongNames wrap and are not cut.
func TestLongNames(t *testing.T) {
	checkAll(t, toy.Faulty(toy.Worded(toy.Car(20, 3))))
}

func checkAll(t *testing.T, a page.Ask) {
	for _, p := range toy.Settled(a, Faults) {
		toy.CheckPage(t, p)
		toy.CheckFoot(t, p)
	}
}

// TestGrown: made-up vehicles of 20 to 110 wires, for both readers, have no fault of the meter, and every load has its ladder.
func TestGrown(t *testing.T) {
	for seed := range 6 {
		h := grown.Harness(t, 20+18*seed, uint64(seed))
		r, err := sizing.Size(h, nil)
		require.NoError(t, err)
		require.NoError(t, sizing.Prove(h, r))
		a := page.Of(h, r, frame.Papers()[seed%len(frame.Papers())], []string{page.Archive, page.Customer}[seed%2])
		checkAll(t, a)
		ended := 0
		for _, c := range tellerOf(a).ladders() {
			ended += len(c.ladders)
		}
		require.Equal(t, len(r.Proof.Ladders), ended)
	}
}
