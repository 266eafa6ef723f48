package main

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/figures"
)

// figuresOf gives the figures of a file without anything above advice.
func figuresOf(t *testing.T, file string, args ...string) figures.Document {
	t.Helper()
	code, out, errs := do(append([]string{"figures", file, "--json"}, args...)...)
	require.Equal(t, exitGood, code, errs)
	var d figures.Document
	require.NoError(t, json.Unmarshal([]byte(out), &d))
	return d
}

// reelsByWire gives what every wire is cut from: size, family and colour.
func reelsByWire(d *figures.Document) map[string]string {
	out := map[string]string{}
	for _, w := range d.Wires {
		out[w.ID] = strings.TrimSuffix(w.Gauge+" "+w.Insulation+" "+w.Base+"/"+w.Tracer, "/")
	}
	return out
}

func fusesByName(d *figures.Document) map[string]string {
	out := map[string]string{}
	for _, f := range d.Fuses {
		out[f.ID] = fmt.Sprint(f.RatingA, f.Body)
	}
	return out
}

// buy writes what is bought for into a file that does not say it.
func buy(t *testing.T, file, as string) {
	t.Helper()
	if text := read(t, file); strings.Contains(text, "\npractice:\n") {
		replaced(t, file, "\npractice:\n", "\npractice:\n  buy: "+as+"\n")
		return
	}
	replaced(t, file, "\nparts:\n", "\npractice: {buy: "+as+"}\nparts:\n")
}

// unchangedBut holds that all wires and fuses of before are as they were.
func unchangedBut(t *testing.T, before, after *figures.Document) {
	t.Helper()
	is, fuses := reelsByWire(after), fusesByName(after)
	for id, was := range reelsByWire(before) {
		require.Equal(t, was, is[id], id)
	}
	for name, was := range fusesByName(before) {
		require.Equal(t, was, fuses[name], name)
	}
	for _, f := range after.Findings {
		require.NotContains(t, []string{"planned-changed", "built-too-thin", "built-fuse", "built-otherwise"}, f.Slug, "%v", f)
	}
}

// What is frozen, planned or built, stays as it is whatever is bought afterwards, in metric sizes as in gauge numbers.
func TestWhatIsFrozenStaysHoweverItIsBought(t *testing.T) {
	for _, c := range []struct{ sample, first, then, built string }{
		{"first", "clear", "few", ""},
		{"first", "few", "clear", ""},
		{"first", "clear", "numbers", "all"},
		{"first", "numbers", "few", "fan,pump"},
		{"first", "few", "{sizes: 2, reels: 6}", "all"},
		{"tender", "clear", "few", "all"},
	} {
		if testing.Short() && c.sample != "first" {
			continue
		}
		file := sampleFile(t, c.sample)
		text := read(t, file)
		buy(t, file, c.first)
		before := figuresOf(t, file)
		args := []string{"freeze", file}
		if c.built != "" {
			args = append(args, "--built", c.built)
		}
		code, _, errs := do(args...)
		require.Equal(t, exitGood, code, errs)
		require.NotContains(t, read(t, recordOf(file)), "buy")
		require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
		if c.then != "few" {
			buy(t, file, c.then)
		}
		after := figuresOf(t, file)
		unchangedBut(t, &before, &after)
		require.Len(t, after.Wires, len(before.Wires), c)
	}
}

// What few reels chose is no finding once it is frozen, planned or built, and a record that is written
// twice is the same.
func TestAFrozenLoomHasTheSameFindings(t *testing.T) {
	for _, c := range []struct{ sample, built string }{{"tender", ""}, {"tender", "all"}, {"kestrel", "all"}} {
		if testing.Short() && c.sample != "tender" {
			continue
		}
		file := sampleFile(t, c.sample)
		before := figuresOf(t, file)
		args := []string{"freeze", file}
		if c.built != "" {
			args = append(args, "--built", c.built)
		}
		do(args...)
		record := read(t, recordOf(file))
		after := figuresOf(t, file)
		unchangedBut(t, &before, &after)
		require.Equal(t, before.Findings, after.Findings, c)
		do("freeze", file)
		require.Equal(t, record, read(t, recordOf(file)), c)
	}
}

// readingLamp is a lamp that is added to the first sample: two wires and its return.
func readingLamp(t *testing.T, file string) {
	t.Helper()
	replaced(t, file, "\ncircuits:\n", "\n  SW3: {kind: switch, at: dash, name: Reading switch, positions: {off: [], on: [[1, 2]]}}\n"+
		"  WL: {kind: lamp, at: tank, name: Reading lamp, draws: 5 W}\ncircuits:\n")
	replaced(t, file, "\nstates:\n", "\n  reading: {number: 6, name: Reading lamp, legs: [[S2, SW3, WL, G3]]}\nstates:\n")
}

// An addition leaves the loom alone and is cut from reels that are there: no size that is not, and
// one colour more at most.
func TestAnAdditionTakesWhatIsThere(t *testing.T) {
	for _, built := range []string{"", "all", "fan,pump,lamps"} {
		file := sampleFile(t, "first")
		before := figuresOf(t, file)
		args := []string{"freeze", file}
		if built != "" {
			args = append(args, "--built", built)
		}
		code, _, errs := do(args...)
		require.Equal(t, exitGood, code, errs)
		readingLamp(t, file)
		after := figuresOf(t, file)
		unchangedBut(t, &before, &after)

		there, sizes := map[string]bool{}, map[string]bool{}
		for _, reel := range reelsByWire(&before) {
			there[reel] = true
			sizes[strings.Fields(reel)[0]] = true
		}
		added, foreign := map[string]bool{}, []string(nil)
		for id, reel := range reelsByWire(&after) {
			if strings.HasPrefix(id, "6") {
				if !sizes[strings.Fields(reel)[0]] {
					foreign = append(foreign, id+" "+reel)
				}
				if !there[reel] {
					added[reel] = true
				}
			}
		}
		require.Empty(t, foreign)
		require.LessOrEqual(t, len(added), 1, "%v", added)
	}
}

// shelfOf writes the reels of a document as stock: to paste, with so much on each.
func shelfOf(d *figures.Document, each string) string {
	var sizes []string
	by := map[string][]string{}
	for _, r := range d.Reels {
		if !slices.Contains(sizes, r.Gauge) {
			sizes = append(sizes, r.Gauge)
		}
		by[r.Gauge] = append(by[r.Gauge], strings.TrimSuffix(r.Base+"/"+r.Tracer, "/")+": ["+each+"]")
	}
	var out []string
	for _, s := range sizes {
		out = append(out, s+" mm2: {"+strings.Join(by[s], ", ")+"}")
	}
	return "{" + strings.Join(out, ", ") + "}"
}

// What is on the shelf is taken first: the reels of a loom, pasted as stock, serve the same loom again,
// and nothing is bought.
func TestTheShelfIsTakenFirst(t *testing.T) {
	file := sampleFile(t, "first")
	bought := figuresOf(t, file)
	replaced(t, file, "\nparts:\n", "\npractice: {stock: "+shelfOf(&bought, "100 m")+"}\nparts:\n")
	again := figuresOf(t, file)
	require.LessOrEqual(t, len(again.Reels), len(bought.Reels))
	for _, r := range again.Reels {
		require.Zero(t, r.BuyMM, "%s %s/%s", r.Gauge, r.Base, r.Tracer)
	}
}
