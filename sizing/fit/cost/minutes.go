package cost

import (
	"strings"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// Spread is how far the minutes may be off: whoever builds it first needs longer than who builds
// the tenth; judgement, not published.
const Spread = 0.3

// thick is from where on a terminal is a lug that takes a press and heat-shrink.
const thick unit.SquareMillimetre = 10

// operations counts the work that is still to be done.
func operations(h *harness.Harness, r *result.Result) []purchase.Operation {
	counts := counted(h, r)
	var out []purchase.Operation
	for _, t := range rating.Times() {
		o := purchase.Operation{Key: t.Key, Name: t.Name, Count: counts[t.Key], Per: t.Per, Each: t.Minutes, Source: t.Source}
		if of := rating.SourcesOf([]string{t.Source}); len(of) > 0 {
			o.Status = string(of[0].Status)
		}
		if own, ok := h.Practice.Minutes[t.Key]; ok {
			o.Each, o.Status, o.Source = own, "given", ""
		}
		o.Minutes = o.Count * o.Each
		out = append(out, o)
	}
	return out
}

// counted counts each operation; what is built takes no time.
func counted(h *harness.Harness, r *result.Result) map[string]float64 {
	n := map[string]float64{}
	core := h.OffReels()
	for w := range h.Wires {
		if harness.IsBuilt(r.Kept, w) {
			continue
		}
		n["test"]++
		n["strip"] += 2
		if !core[w] {
			n["cut"]++
			n["lay"]++
		}
		for k := range r.Ends[w] {
			if key := joined(&r.Ends[w][k], r.Wires[w].Area); key != "" {
				n[key]++
			}
		}
	}
	whole(h, r, n)
	return n
}

// joined names the operation that an end's fitting takes; "" for what is done with another end.
func joined(e *fitted.End, area unit.SquareMillimetre) string {
	switch {
	case e.Second || e.Crimp == "" || e.Crimp == fitted.Barrel:
		return ""
	case e.Crimp == "open barrel":
		return "contact"
	case strings.HasSuffix(e.Crimp, " insulated") || e.Crimp == "ferrule":
		return "crimp"
	case area >= thick || e.Shrink != "":
		return "lug"
	}
	return "crimp"
}

// whole counts what is done to several wires at once.
func whole(h *harness.Harness, r *result.Result, n map[string]float64) {
	for i := range r.Splices {
		if someLeft(r, r.Splices[i].Wires) {
			n["splice"]++
		}
	}
	for i := range r.Runs {
		if run := &r.Runs[i]; run.CoverName != "" && someLeft(r, run.Wires) {
			n["cover"] += float64(h.Runs[run.Run].Length) / 1000
		}
	}
	for i := range r.Labels {
		if r.Labels[i].Kind == fitted.WireLabel {
			n["marker"]++
		}
	}
	for i := range r.Shopping {
		if r.Shopping[i].Group == "ties" {
			n["tie"] += r.Shopping[i].Count
		}
	}
	for i := range r.Reels {
		if r.Reels[i].ToCut() > 0 {
			n["reel"]++
		}
	}
	for i := range r.Cables {
		if c := &r.Cables[i]; c.ToCut() > 0 {
			n["reel"]++
			n["cut"] += float64(c.ToCut())
			n["lay"] += float64(c.ToCut())
		}
	}
}

func someLeft(r *result.Result, wires []harness.WireID) bool {
	for _, w := range wires {
		if !harness.IsBuilt(r.Kept, int(w)) {
			return true
		}
	}
	return false
}
