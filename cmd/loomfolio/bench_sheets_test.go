package main

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// bold gives the bold texts of a group of sheets, with how often each stands there.
func bold(p *sheet.Packet, group string) map[string]int {
	out := map[string]int{}
	for _, x := range texts(p, group) {
		if x.Face == sheet.Bold {
			out[x.S]++
		}
	}
	return out
}

// TestTheBenchSheetsAgree reads the printed sheets of every sample back and counts:
// wires with their ends, those in splices, markers, metres and every kind of piece to buy.
func TestTheBenchSheetsAgree(t *testing.T) {
	wholeRun(t)
	for _, s := range samples.List() {
		t.Run(s.Name, func(t *testing.T) {
			pages, p, h := archived(t, s.Name)
			_, r := kept(t, s.Name)
			stuck, err := layout.Labels(h, r, layout.Options{For: layout.Bench})
			require.NoError(t, err)
			cuts, joints, labels := bold(p, "wires"), bold(p, "splices"), bold(stuck, "labels")
			for _, w := range h.Wires {
				name := w.Name
				require.Positive(t, cuts[name]+cuts[name+"*"], "%s among the wires", w.Name)
				require.Equal(t, endsInSplices(h, &w), joints[name], "%s on the splices sheet", w.Name)
				require.Equal(t, 4, labels[name], "%s: two markers of two faces", w.Name)
			}
			shopping := strings.ReplaceAll(of(p, pages, "Shopping list"), "\u00a0", " ")
			everythingIsBoughtOnce(t, h, r, texts(p, "shopping"))
			fewKindsAreBought(t, s.Name, r)
			bench := strings.ReplaceAll(of(p, pages, "Wires and their ends"), "\u00a0", " ")
			reelsAddUp(t, r, shopping, h.Sheet.Imperial)
			cablesAddUp(t, r, bench, shopping, h)
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
func cablesAddUp(t *testing.T, r *result.Result, cuts, shopping string, h *harness.Harness) {
	for _, u := range h.Units {
		if u.Kind == harness.Cabled {
			require.Equal(t, 1, strings.Count(cuts, "Cable "+u.Name+" · "+u.Type.Name), u.Name)
			require.Equal(t, len(u.Wires), len(regexp.MustCompile(`(?m)^.*\bcore\s+\d*[A-Z]+\b`).FindAllString(cuts, -1)), u.Name)
		}
	}
	for _, c := range r.Cables {
		buy := math.Ceil(float64(c.Need) / 1000 * 1.1)
		require.InDelta(t, buy*1000, float64(c.Buy), 1e-6)
		require.Regexp(t, fmt.Sprintf(`%g ?m\b`, buy), shopping)
	}
}

// texts gives the texts of a group of sheets, blanks made plain: all from its first anchor to that of the
// next group, for small groups share a sheet.
func texts(p *sheet.Packet, group string) []sheet.Text {
	var out []sheet.Text
	in := false
	for _, s := range p.Sheets {
		for _, m := range s.Marks {
			switch m := m.(type) {
			case sheet.Anchor:
				if strings.HasPrefix(m.Name, "sheet/") {
					in = m.Name == "sheet/"+group
				}
			case sheet.Text:
				if in {
					m.S = strings.ReplaceAll(m.S, "\u00a0", " ")
					out = append(out, m)
				}
			}
		}
	}
	return out
}

// pieces adds up what is needed under each heading of the shopping list: what it says is needed, or
// where it says nothing, what is bought.
func pieces(t *testing.T, list []sheet.Text) map[string]int {
	t.Helper()
	title := regexp.MustCompile(`^(Fuses|Relays|Switches|Devices|Terminals|Boots|Straps|Washers|Nuts|Heat-shrink|Cover|Tape|Connectors|Grommets|Clamps|Ties|Markers)$`)
	amount := regexp.MustCompile(`^(need )?(\d+)(?: pcs?\b|:$)`)
	sum, group, said := map[string]int{}, "", false
	for _, x := range list {
		if x.Face == sheet.Bold && title.MatchString(x.S) {
			group = x.S
		}
		m := amount.FindStringSubmatch(x.S)
		if m == nil {
			said = false
			continue
		}
		if again := said && m[1] == ""; !again { // behind what is needed stands what is bought
			n, err := strconv.Atoi(m[2])
			require.NoError(t, err)
			sum[group] += n
		}
		said = strings.HasSuffix(x.S, ":")
	}
	return sum
}

// reelsAddUp holds that what is bought of each reel is what is cut and what is left
// over (no more than that where a shelf gives some), and that the printed shopping list buys as much in all.
func reelsAddUp(t *testing.T, r *result.Result, shopping string, imperial bool) {
	per, unit := 1000.0, "m"
	if imperial {
		per, unit = 304.8, "ft"
	}
	cut, bought := 0.0, 0.0
	for _, reel := range r.Reels {
		left := 0.0
		for _, c := range reel.Cuts {
			left += float64(c.Over + c.Drains)
		}
		require.LessOrEqual(t, float64(reel.Buy), float64(reel.Need)+left+1, reel.Name())
		cut, bought = cut+float64(reel.Need)/per, bought+float64(reel.Buy)/per
	}
	all := regexp.MustCompile(`All wire: ([\d.]+) ` + unit + ` needed, ([\d.]+) ` + unit).FindStringSubmatch(shopping)
	require.NotNil(t, all)
	need, _ := strconv.ParseFloat(all[1], 64)
	buy, _ := strconv.ParseFloat(all[2], 64)
	require.InDelta(t, cut, need, 0.1)
	require.InDelta(t, bought, buy, 0.1)
	require.GreaterOrEqual(t, buy, need)
}
