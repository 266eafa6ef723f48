package sizing

import (
	"fmt"
	"os"
	"syscall"
	"testing"

	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/polarity"
)

func cpu() float64 {
	var r syscall.Rusage
	syscall.Getrusage(syscall.RUSAGE_SELF, &r)
	return float64(r.Utime.Nano()+r.Stime.Nano()) / 1e9
}

func TestZZProbe(t *testing.T) {
	files := []string{"../samples/first.yaml", "../samples/tender.yaml", "../samples/camper.yaml", "../samples/kestrel.yaml", "/work/shared/cases/fan.yaml", "/work/shared/cases/bike-no-return.yaml"}
	if f := os.Getenv("PROBE"); f != "" {
		files = []string{f}
	}
	for _, n := range files {
		b, _ := os.ReadFile(n)
		d, _ := describe.Parse("x", b)
		h, _ := check.Check(d)
		h, _ = polarity.Mend(h)
		if f := os.Getenv("FOR"); f != "" {
			h.Practice.Buy.For = f
		}
		t0 := cpu()
		l, _ := least(h)
		t1 := cpu()
		m, err := fewly(h, l)
		t2 := cpu()
		h2 := *h
		h2.Practice.Buy.For = "clear"
		plainly(&h2, l)
		t3 := cpu()
		fmt.Printf("== %s %d wires: least %.3f fewly %.3f plainly %.3f err %v; part pairs, run pairs: least copper %.0f\n", n, len(h.Wires), t1-t0, t2-t1, t3-t2, err, float64(m.purchase.Least))
		for i, c := range m.purchase.Curve {
			mark := " "
			if i == m.purchase.Taken {
				mark = "*"
			}
			fmt.Printf("%s %2d sizes %3d reels (%d tracer) bound %d copper %.0f (%.3f) pairs %d/%d sum %.2f %s %v\n", mark, len(c.Sizes), c.Reels, c.Tracers, c.Bound, float64(c.Copper), float64(c.Copper)/float64(m.purchase.Least), c.PartPairs, c.RunPairs, c.Sum, c.Refused, c.Sizes)
		}
		_ = harness.None
	}
}
