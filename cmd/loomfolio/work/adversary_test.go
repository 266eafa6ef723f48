package work

import (
	"cmp"
	"errors"
	"flag"
	"fmt"
	"math/bits"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/adversary"
	"example.com/loomfolio/sizing/source"
)

var (
	adversaryDir  = flag.String("adversary", "", "folder into which the descriptions that fail are written")
	adversarySeed = flag.Int64("adversary-seed", -1, "judge the harness of this seed alone")
	adversaryBuy  = flag.String("adversary-buy", "", "buy few or clear for each; else few for every other one")
)

// harnesses is how many sound descriptions are judged, and how many broken ones.
const harnesses = 300

// judged is one description with what the program said of it.
type judged struct {
	seed     uint64
	class    string // of the break, "" for a sound one
	text     string
	danger   string
	slugs    []string
	names    []string
	findings source.Problems // gravest first, then by place
	unsafe   []string        // wires, each with what is wrong with it
	found    bool
	err      error
}

// gravest orders findings as a reader meets them: errors, warnings, advice.
func gravest(ps source.Problems) source.Problems {
	out := ps.Sorted()
	sort.SliceStable(out, func(i, j int) bool { return out[i].Level < out[j].Level })
	return out
}

// worked runs a description as a command would; the work is nil where it was stopped.
func worked(text string) (*Work, source.Problems, error) {
	w, err := Do(Source{Name: "grown.yaml", Text: []byte(text)})
	var stop *Stop
	if errors.As(err, &stop) {
		return nil, gravest(stop.Problems), nil
	}
	if err != nil {
		return nil, nil, err
	}
	return w, gravest(w.Result.Findings), nil
}

// bought says for what a harness is bought.
func bought(s *adversary.Sketch) string {
	return cmp.Or(*adversaryBuy, []string{"clear", "few"}[bits.OnesCount64(s.Seed)%2])
}

// written gives a sketch's text with what it is bought for.
func written(s *adversary.Sketch) string {
	c := *s
	c.Practice = append(slices.Clip(s.Practice), adversary.Field{Key: "buy", Value: bought(s)})
	return c.Text()
}

// judgeSound judges a description that nothing is wrong with.
func judgeSound(seed uint64) judged {
	s := adversary.Grow(seed)
	j := judged{seed: seed, text: written(s)}
	w, findings, err := worked(j.text)
	j.findings, j.err = findings, err
	j.found = err == nil && (len(findings) == 0 || findings[0].Level == source.Advice)
	if w != nil {
		j.unsafe = unsafeWires(w)
	}
	return j
}

// judgeBroken breaks one in one place, and tells whether the break is named first.
func judgeBroken(seed uint64) judged {
	b := adversary.Broken(seed)
	j := judged{seed: seed, class: b.Class, text: written(b.Sketch), danger: b.Danger, slugs: b.Slugs, names: b.Names}
	w, findings, err := worked(j.text)
	j.findings, j.err = findings, err
	j.found = err == nil && named(findings, &b, w, j.text)
	if w == nil {
		return j
	}
	j.unsafe = unsafeWires(w)
	if b.Sound != nil && bought(b.Sketch) == "clear" {
		j.unsafe = append(j.unsafe, thinner(b.Sound, b.Sketch, b.Circuit, w)...)
	}
	return j
}

// named tells whether the first error or warning has an expected name and speaks of
// the broken place; where an advice is enough and nothing graver is said, any advice.
func named(findings source.Problems, b *adversary.Break, w *Work, text string) bool {
	if len(findings) == 0 {
		return false
	}
	if findings[0].Level != source.Advice {
		return speaks(findings[0], b, w, text)
	}
	return b.Advice && slices.ContainsFunc(findings, func(p source.Problem) bool { return speaks(p, b, w, text) })
}

// speaks tells whether a finding has an expected name and the broken place in its
// message, in its subjects or on the line that it points at.
func speaks(p source.Problem, b *adversary.Break, w *Work, text string) bool {
	if !slices.Contains(b.Slugs, p.Slug) {
		return false
	}
	said := p.Summary + " " + p.Detail + " " + strings.Join(p.Subjects, " ")
	lines := strings.Split(text, "\n")
	if n := p.Span.Start.Line; n > 0 && n <= len(lines) {
		said += " " + lines[n-1]
	}
	return len(b.Names) == 0 || slices.ContainsFunc(b.Names, func(name string) bool { return hasWord(said, wireName(name, w)) })
}

// wireName gives the name of the wire "K1.87>FAN.+", or a part's own.
func wireName(name string, w *Work) string {
	from, to, isWire := strings.Cut(name, ">")
	if !isWire || w == nil {
		return from
	}
	for i := range w.Harness.Wires {
		wire := &w.Harness.Wires[i]
		ends := []string{w.Harness.Terminals[wire.From].Full, w.Harness.Terminals[wire.To].Full}
		if slices.Contains(ends, from) && slices.Contains(ends, to) {
			return wire.Name
		}
	}
	return from
}

// hasWord tells whether a name stands in a text by itself: F1 is not in F12.
func hasWord(text, word string) bool {
	letter := func(c byte) bool {
		return c >= '0' && c <= '9' || c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z'
	}
	for at := 0; word != ""; {
		i := strings.Index(text[at:], word)
		if i < 0 {
			return false
		}
		from, to := at+i, at+i+len(word)
		if (from == 0 || !letter(text[from-1])) && (to == len(text) || !letter(text[to])) {
			return true
		}
		at = from + 1
	}
	return false
}

// all judges every seed side by side.
func all(t *testing.T, judge func(uint64) judged) []judged {
	seeds := harnesses
	if testing.Short() {
		seeds = harnesses / 10
	}
	from := 0
	if *adversarySeed >= 0 {
		from, seeds = int(*adversarySeed), 1
	}
	out := make([]judged, seeds)
	var wait sync.WaitGroup
	next := make(chan int)
	for range 4 {
		wait.Go(func() {
			for i := range next {
				out[i] = judge(uint64(from + i))
			}
		})
	}
	for i := range out {
		next <- i
	}
	close(next)
	wait.Wait()
	for i := range out {
		require.NoErrorf(t, out[i].err, "seed %d %s", out[i].seed, out[i].class)
	}
	return out
}

// show says what went wrong with one, and writes it where it can be run again.
func (j *judged) show(t *testing.T, why string) {
	var first []string
	for _, p := range j.findings[:min(3, len(j.findings))] {
		first = append(first, fmt.Sprintf("      %s [%s] line %d: %s", p.Level, p.Slug, p.Span.Start.Line, p.Summary))
	}
	t.Logf("seed %d %s: %s\n      expected %v at %v: %s\n%s", j.seed, j.class, why, j.slugs, j.names, j.danger, strings.Join(first, "\n"))
	if *adversaryDir != "" {
		name := fmt.Sprintf("%03d-%s.yaml", j.seed, strings.ReplaceAll(cmp.Or(j.class, "sound"), " ", "-"))
		require.NoError(t, os.MkdirAll(*adversaryDir, 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(*adversaryDir, name), []byte(j.text), 0o644))
	}
}

// TestSoundHarnessesAreLeftAlone: what careful people write gives no error and no
// warning, and each of its wires passes the independent bound.
func TestSoundHarnessesAreLeftAlone(t *testing.T) {
	t.Parallel()
	alarms, unsafe := map[string]int{}, 0
	list := all(t, judgeSound)
	bad := 0
	for _, j := range list {
		if !j.found {
			bad++
			for _, p := range j.findings {
				if p.Level != source.Advice {
					alarms[p.Slug]++
				}
			}
			j.show(t, "a sound description is found fault with")
		}
		for _, wire := range j.unsafe {
			unsafe++
			j.show(t, wire)
		}
	}
	t.Logf("%d of %d sound ones left alone; alarms %v; %d unsafe wires", len(list)-bad, len(list), alarms, unsafe)
	require.Zero(t, bad)
	require.Zero(t, unsafe)
}

// share is how many of the breaks must be named first.
const share = 0.95

// TestBreaksAreNamedFirst: each break is the first thing that is said, at its place,
// and no wire is worse than the independent bound.
func TestBreaksAreNamedFirst(t *testing.T) {
	t.Parallel()
	found, total, unsafe := map[string]int{}, map[string]int{}, 0
	list := all(t, judgeBroken)
	hits := 0
	for _, j := range list {
		total[j.class]++
		if j.found {
			found[j.class]++
			hits++
		} else {
			j.show(t, "the break is not named first")
		}
		for _, wire := range j.unsafe {
			unsafe++
			j.show(t, wire)
		}
	}
	for _, class := range adversary.Classes() {
		t.Logf("%-28s %d of %d", class, found[class], total[class])
	}
	t.Logf("%d of %d breaks named first, %d unsafe wires", hits, len(list), unsafe)
	require.Zero(t, unsafe)
	require.GreaterOrEqual(t, float64(hits), share*float64(len(list)))
	if len(list) == harnesses {
		for _, class := range adversary.Classes() {
			require.NotZero(t, found[class], class)
		}
	}
}
