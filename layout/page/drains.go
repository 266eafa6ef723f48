package page

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
)

// Drains names the drains of screens that have a fitting of their own on one of some
// terminals: "drain of video rear".
func (a Ask) Drains(at ...harness.TerminalID) []string {
	var out []string
	for i := range a.R.Units {
		for _, d := range a.R.Units[i].Drains {
			if d.With == harness.None && slices.Contains(at, d.Terminal) {
				out = append(out, strings.ReplaceAll("drain of "+a.H.Units[i].Name, " ", "\u00a0"))
			}
		}
	}
	return out
}
