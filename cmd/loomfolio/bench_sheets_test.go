package main

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// bold gives the bold texts of a kind of sheet, with how often each stands there.
func bold(p *sheet.Packet, name string) map[string]int {
	out := map[string]int{}
	for _, s := range p.Sheets {
		if !strings.HasPrefix(s.Title, name) {
			continue
		}
		for _, m := range s.Marks {
			if text, ok := m.(sheet.Text); ok && text.Face == sheet.Bold {
				out[text.S]++
			}
		}
	}
	return out
}

// TestTheBenchSheetsAgree reads the printed sheets of every sample back and counts:
// wires on the cut list, ends on the terminals and splices sheets, markers, metres and every kind of piece to buy.
func TestTheBenchSheetsAgree(t *testing.T) {
	for _, s := range samples.List() {
		t.Run(s.Name, func(t *testing.T) {
			pages, p, h := archived(t, s.Name)
			cuts, ends, joints, labels := bold(p, "Cut list"), bold(p, "Terminals and crimps"), bold(p, "Splices"), bold(p, "Labels")
			for _, w := range h.Wires {
				name := strings.ReplaceAll(w.Name, " ", "\u00a0")
				require.Equal(t, 1, cuts[name], "%s on the cut list", w.Name)
				require.Equal(t, 2-endsInSplices(h, &w), ends[name], "%s on the terminals sheet", w.Name)
				require.Equal(t, endsInSplices(h, &w), joints[name], "%s on the splices sheet", w.Name)
				require.Equal(t, 4, labels[name], "%s: two markers of two faces", w.Name)
			}
			shopping := strings.ReplaceAll(of(p, pages, "Shopping list"), "\u00a0", " ")
			_, r := kept(t, s.Name)
			everythingIsBoughtOnce(t, h, r, shopping, of(p, pages, "Terminals and crimps"))
			bench := strings.ReplaceAll(of(p, pages, "Cut list"), "\u00a0", " ")
			reelsAddUp(t, bench, shopping, h.Sheet.Imperial, len(h.Practice.Stock) > 0)
			cablesAddUp(t, bench, shopping, h)
		})
	}
}

// endsInSplices counts a wire's ends that lie in a splice.
func endsInSplices(h *harness.Harness, w *harness.Wire) int {
	n := 0
	for _, end := range []harness.TerminalID{w.From, w.To} {
		if p := h.PartOf(end); p != nil && p.Kind == harness.Splice {
			n++
		}
	}
	return n
}

// fittingsOf counts one fitting at every end, but one barrel for all ends in a splice
// and one receptacle for all on a tab.
func fittingsOf(h *harness.Harness, r *result.Result) int {
	n, once := 0, map[harness.TerminalID]bool{}
	for i, w := range h.Wires {
		for side, end := range []harness.TerminalID{w.From, w.To} {
			p := h.PartOf(end)
			shared := p != nil && p.Kind == harness.Splice || len(r.Ends[i][side].With) > 0
			if shared && once[end] {
				continue
			}
			once[end] = true
			n++
		}
	}
	return n + drainsOf(h)
}

// drainsOf counts the drains of screens that have a fitting of their own: on a stud,
// where a contact takes the drain with its wire.
func drainsOf(h *harness.Harness) int {
	n := 0
	for _, u := range h.Units {
		for _, t := range u.Drains {
			if p := h.PartOf(t); p.Kind == harness.Ground || p.Kind == harness.Bus {
				n++
			}
		}
	}
	return n
}

// cablesAddUp holds that each cable is cut once and its cores never, and that what is
// bought of each type is what is cut and what is left over, whole metres with a tenth
// to spare.
func cablesAddUp(t *testing.T, cuts, shopping string, h *harness.Harness) {
	cables := 0
	for _, u := range h.Units {
		if u.Kind != harness.Cabled {
			continue
		}
		cables++
		require.Equal(t, 1, strings.Count(cuts, "Cable "+u.Name+" · "+u.Type.Name), u.Name)
		require.Equal(t, len(u.Wires), len(regexp.MustCompile(`(?m)^.*\bcore\s+\d*[A-Z]+\b`).FindAllString(cuts, -1)), u.Name)
	}
	_, sums, found := strings.Cut(cuts, "Cables by type")
	require.Equal(t, cables > 0, found)
	sum := regexp.MustCompile(`across\s+\S+\s+([\d.]+)\s+([\d.]+)\s+([\d.]+)`)
	for _, m := range sum.FindAllStringSubmatch(sums, -1) {
		cut, _ := strconv.ParseFloat(m[1], 64)
		buy, _ := strconv.ParseFloat(m[2], 64)
		left, _ := strconv.ParseFloat(m[3], 64)
		require.InDelta(t, buy, cut+left, 0.0101)
		require.InDelta(t, math.Ceil(cut*1.1), buy, 1e-9)
		require.Regexp(t, `[\d.]+ ?m\s+`+m[2]+` ?m\b`, shopping)
	}
}

// pieces adds up what is needed under one heading of the shopping list.
func pieces(t *testing.T, text, heading string) int {
	group, sum := "", 0
	title := regexp.MustCompile(`^\s*(?:[A-F]\s+)?(Wire|Cables|Fuses|Relays|Switches|Devices|Terminals|Boots|Straps|Washers|Nuts|Shrink|Cover|Tape|Connectors|Grommets|Clamps|Ties|Markers)(, continued)?(?:\s{2,}.*)?$`)
	need := regexp.MustCompile(`(\d+) pcs?\b`)
	for line := range strings.SplitSeq(text, "\n") {
		if m := title.FindStringSubmatch(line); m != nil {
			group = m[1]
		}
		if m := need.FindStringSubmatch(line); m != nil && group == heading {
			n, err := strconv.Atoi(m[1])
			require.NoError(t, err)
			sum += n
		}
	}
	return sum
}

// reelsAddUp holds that what is bought of each reel is what is cut and what is left
// over, to the last figure printed (no more than that where a shelf gives some), and that the shopping list buys as much in all.
func reelsAddUp(t *testing.T, cuts, shopping string, imperial, shelf bool) {
	_, sums, found := strings.Cut(cuts, "Sums by gauge and colour")
	require.True(t, found)
	within, unit := 0.0101, "m"
	if imperial {
		within, unit = 0.1501, "ft"
	}
	reel := regexp.MustCompile(`\b[A-Z]{2}(?:/[A-Z]{2})?\s+\d+\s+([\d.]+)\s+([\d.]+)\s+([\d.]+)`)
	cut, bought, reels := 0.0, 0.0, 0
	for _, m := range reel.FindAllStringSubmatch(sums, -1) {
		var x [3]float64
		for i := range x {
			x[i], _ = strconv.ParseFloat(m[i+1], 64)
		}
		if shelf {
			require.LessOrEqual(t, x[1], x[0]+x[2]+within, m[0]) // the shelf gives the rest
		} else {
			require.InDelta(t, x[1], x[0]+x[2], within, m[0])
		}
		cut, bought, reels = cut+x[0], bought+x[1], reels+1
	}
	require.Positive(t, reels)
	all := regexp.MustCompile(`All wire\s+([\d.]+) ` + unit + `\s+([\d.]+) ` + unit).FindStringSubmatch(shopping)
	require.NotNil(t, all)
	need, _ := strconv.ParseFloat(all[1], 64)
	buy, _ := strconv.ParseFloat(all[2], 64)
	require.InDelta(t, cut, need, within*float64(reels))
	require.InDelta(t, bought, buy, within*float64(reels))
	require.GreaterOrEqual(t, buy, need)
}
