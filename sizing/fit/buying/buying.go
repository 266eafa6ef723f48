package buying

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// markers counts the labels, and the tube that goes over those of the wires or is
// printed itself; nothing where all wires are built.
func (b *basket) markers(labels []fitted.Label) {
	if len(labels) == 0 || labels[0].Kind != fitted.WireLabel {
		return
	}
	b.labelSheets(labels)
	for _, l := range labels {
		if l.Kind != fitted.WireLabel {
			b.add("markers", "label, printed: fuses, relays, buses, connectors, grounds, splices …", 1, "pcs", "")
			continue
		}
		b.add("markers", "wire marker, printed, one for each end", 1, "pcs", "")
		if l.Tube.Inch == "" {
			continue
		}
		what := "clear heat-shrink " + l.Tube.Name(b.h.Sheet.Imperial) + ", over the wire markers"
		if l.As == fitted.Sleeve {
			what = "heat-shrink sleeve to be printed, " + l.Tube.Name(b.h.Sheet.Imperial)
		}
		b.add("markers", what, float64(l.Long)/1000, "m", "")
	}
}

// labelSheets counts the shop's label sheets, or the length of its roll.
func (b *basket) labelSheets(labels []fitted.Label) {
	n, s := 0, b.h.Practice.Labels.Sheet
	for _, l := range labels {
		if l.OnSheet {
			n++
		}
	}
	if n == 0 {
		return
	}
	size := func(mm unit.Millimetre) string { return unit.CalliperText(mm, b.h.Sheet.Imperial) }
	if s.Paper == "" {
		b.add("markers", "roll of labels, "+size(s.High)+" wide, one every "+size(s.PitchAcross), float64(n)*float64(s.PitchAcross)/1000, "m", "")
		return
	}
	what := fmt.Sprintf("label sheet %s, %d × %d labels of %s × %s", s.Paper, s.Across, s.Down, size(s.Wide), size(s.High))
	if s.First > 1 {
		what += fmt.Sprintf(", the first begun: from label %d on", s.First)
	}
	b.add("markers", what, float64(s.Count(n)), "sheets", "")
}

// support counts clamps and ties by the length of each run that holds wires still
// to be laid, and a tie on either side of a splice (NASA workmanship guidance 4.07).
func (b *basket) support(f *fitted.Fitted) {
	runs := b.laid(f)
	for i, holds := range b.clamps(runs) {
		run := &b.h.Runs[runs[i].Run]
		every := func(d unit.Millimetre) float64 { return math.Ceil(float64(run.Length/d) - 1e-9) }
		if holds > 0 {
			what := "cushioned clamp for a bundle of " + unit.BoreText(holds, b.h.Sheet.Imperial)
			b.add("clamps", what, every(rating.SupportEvery)+1, "pcs", b.between(runs[i].Run))
		}
		b.add("ties", "cable tie", every(rating.TieEvery), "pcs", "all runs")
	}
	for _, s := range f.Splices {
		if b.someLeft(s.Wires) {
			b.add("ties", "cable tie", 2, "pcs", "both sides of each splice")
		}
	}
}

func (b *basket) someLeft(wires []harness.WireID) bool {
	for _, w := range wires {
		if !harness.IsBuilt(b.kept, int(w)) {
			return true
		}
	}
	return false
}

// packed rounds each line up to how it is sold, and prices it.
func (b *basket) packed() {
	for i := range b.items {
		it := &b.items[i]
		it.Buy = max(it.Buy, it.Count) // cables have their sum already
		if it.Pack = b.pack(it); it.Pack > 0 {
			it.Buy = math.Round(1e4*it.Pack*math.Ceil(it.Count/it.Pack-1e-9)) / 1e4
		}
		if p := priceOf(b.h, it); p != nil {
			it.Priced, it.Sum = true, it.Buy*p.Each
			if it.Unit == "m" && b.h.Sheet.Imperial {
				it.Sum /= 0.3048 // the price of a foot
			}
		}
	}
}

// pack gives how many pieces or metres of an item are sold together; 0 for one by
// one, as lugs for thick wire are, and for wire, whose plan has been made. Wire
// markers are printed, not bought.
func (b *basket) pack(it *fitted.Item) float64 {
	group := it.Group
	switch {
	case group == "connectors" && (strings.HasPrefix(it.What, "wire seal") || strings.HasPrefix(it.What, "plug for")):
		group = "seals"
	case group == "markers" && !isTube(it), strings.Contains(it.What, "battery lug"), strings.Contains(it.What, "uninsulated lug"), strings.Contains(it.What, "uninsulated butt"):
		return 0
	}
	if size, ok := b.h.Practice.Packs[group]; ok {
		return size
	}
	return rating.Pack(group, b.h.Sheet.Imperial)
}

// isTube tells the tube for wire markers from labels, sheets and rolls.
func isTube(it *fitted.Item) bool { return strings.Contains(it.What, "shrink") }

// priceOf finds an item's price: that of its own text, of its gauge of wire, of its group; nil for none.
func priceOf(h *harness.Harness, it *fitted.Item) *harness.Price {
	var best *harness.Price
	closeness := 0
	for i := range h.Practice.Prices {
		p := &h.Practice.Prices[i]
		if n := matches(p, it); n > closeness {
			best, closeness = p, n
		}
	}
	return best
}

// matches tells how closely a price is meant for an item: 3 by its text, 2 by its
// gauge or its text without the rating wanted, 1 by its group, 0 not at all.
func matches(p *harness.Price, it *fitted.Item) int {
	text := strings.ReplaceAll(p.Item, "mm2", "mm²")
	switch {
	case strings.EqualFold(text, strings.ReplaceAll(it.What, "mm2", "mm²")):
		return 3
	case strings.EqualFold(text, unrated(it.What)):
		return 2
	case p.Item != it.Group || it.Group == "markers" && !isTube(it) || it.Group == "fuses" && !isFuse(it.What):
		return 0
	case !p.Gauge.Given():
		return 1
	case p.Gauge == it.Gauge:
		return 2
	}
	return 0
}

// unrated is what a switch or relay is called without the rating that its contacts need.
func unrated(what string) string {
	before, after, found := strings.Cut(what, atLeast)
	if _, number, has := strings.Cut(after, ","); found && has {
		return before + "," + number
	}
	return before
}

// isFuse tells a fuse from the panels, holders and breakers of its group, which a
// price for fuses does not fit.
func isFuse(what string) bool {
	_, rating, found := strings.Cut(what, " fuse ")
	return found && rating != "" && rating[0] >= '0' && rating[0] <= '9'
}

// Unused tells of the prices that no line of a shopping list takes.
func Unused(h *harness.Harness, items []fitted.Item) source.Problems {
	var out source.Problems
	for i := range h.Practice.Prices {
		p := &h.Practice.Prices[i]
		used, names := false, append([]string(nil), itemGroups[:]...)
		for k := range items {
			used = used || matches(p, &items[k]) > 0
			names = append(names, items[k].What)
		}
		if used {
			continue
		}
		detail := "write a group of the list (" + strings.Join(itemGroups[:], ", ") + ") or the text of a line as it is printed"
		if near := source.Nearest(p.Item, names); near != "" && near != p.Item {
			detail = fmt.Sprintf("did you mean %q? ", near) + detail
		}
		out = append(out, source.Problem{
			Slug: "price-of-nothing", Level: source.Advice, Span: p.Span, Detail: detail,
			Summary: fmt.Sprintf("nothing on the shopping list is bought at the price of %q", strings.TrimSpace(p.Item+" "+gaugeText(p.Gauge))),
		})
	}
	return out
}

func gaugeText(g unit.Gauge) string {
	if !g.Given() {
		return ""
	}
	return g.String()
}
