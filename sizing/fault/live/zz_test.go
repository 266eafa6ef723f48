package live_test

import (
	"fmt"
	"testing"
	"time"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/fault/live"
)

func TestZZ(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		now := time.Now()
		sheet, err := live.All(h, r.States, r.Fuses)
		fmt.Println(s.Name, err, time.Since(now), len(sheet.Nets), sheet.When)
		for _, n := range sheet.Nets {
			line := ""
			for _, l := range n.When {
				line += ".FbG"[l : l+1]
			}
			fmt.Printf("%-20s %s\n", h.Terminals[n.Net].Full, line)
		}
		for _, w := range sheet.Without {
			fmt.Print(h.Elements[w.Fuse].Name, " ", h.States[w.State].Name, ":")
			for k, i := range w.Nets {
				fmt.Print(" ", h.Terminals[sheet.Nets[i].Net].Full, ".FbG"[w.Lives[k]:w.Lives[k]+1])
			}
			fmt.Print(" still")
			for _, i := range w.Still {
				fmt.Print(" ", h.Terminals[sheet.Nets[i].Net].Full)
			}
			fmt.Println()
		}
	}
}
