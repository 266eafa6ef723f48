package cutlist

import (
	"fmt"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
)

// step is one step of the work at a wire end, with the document behind it.
type step struct {
	do, source string
	inches     string // the same in inches and gauges; "" where the work has no figures
}

// steps is the order of work. The figures are those of the documents named; the
// nicks that FAA AC 43.13-1B table 11-13 allows by AWG are given for metric
// sizes too, each put with the thinner wire.
var steps = []step{
	{"Slide the marker and the heat-shrink on first. Heat-shrink 6/2\u00a0mm is 6\u00a0mm wide as supplied, 2\u00a0mm when shrunk.", "",
		"Slide the marker and the heat-shrink on first. Heat-shrink 1/4\u00a0in is 1/4\u00a0in wide as supplied; 3:1 shrinks to a third of it."},
	{"Where a row says so (‡), fit a boot: the stud is live and unfused, and is covered when the nut is tight.", "33 CFR 183.445", ""},
	{"Strip to the length on the row. Cut no strand off to make the wire fit.", "", ""},
	{"Nicked strands allowed in copper: 2 up to 14\u00a0AWG (2.5\u00a0mm²), 4 up to 10\u00a0AWG (6\u00a0mm²), none broken; " +
		"above, 6 nicked and 6 broken. With more, cut off and strip again.", "FAA AC 43.13-1B table 11-13",
		"Nicked strands allowed in copper: 2 up to 14\u00a0AWG, 4 up to 10\u00a0AWG, none broken; above, 6 nicked and 6 broken. With more, cut off and strip again."},
	{"Crimp with the tool and die made for the fitting; never solid wire, nor tinned strands.", "NASA-STD-8739.4", ""},
	{"A butt splice joins the wire to the lead that the part or the fuse's holder brings along.", "", ""},
	{"Crimp first; solder only where the fitting's maker allows it, never as the only hold, and clamp the wire behind it.", "ABYC E-11", ""},
	{"Look again: all strands are in the barrel and show at its front; on an uninsulated barrel the insulation ends 0.25 to 0.75\u00a0mm behind it " +
		"(up to 1.25\u00a0mm from 18\u00a0AWG, 0.8\u00a0mm², upward).", "NASA-STD-8739.4",
		"Look again: all strands are in the barrel and show at its front; on an uninsulated barrel the insulation ends 0.010 to 0.030\u00a0in behind it " +
			"(up to 0.050\u00a0in from 18\u00a0AWG upward)."},
	{"Pull along the wire, steadily and for one minute, with no jerk: test crimps of each lot to the force in the key, " +
		"then tug every end by hand.", "UL 486A", ""},
	{"Heat-shrink: over the joint and onto the insulation, from the middle outward. Then set the marker so that it reads.", "", ""},
	{"Several rings on one stud: the heaviest at the bottom. On painted or coated metal: bare it under the ring, star washer between.", "", ""},
}

// workTable is the order of work at an end.
func workTable(imperial bool) *table.Table {
	t := &table.Table{Tight: true, Pad: closePad, NoHead: true, NoZebra: true, Columns: []table.Column{{}, {Weight: 1}}}
	for i, s := range steps {
		do := s.do
		if imperial && s.inches != "" {
			do = s.inches
		}
		if s.source != "" {
			do += " (" + page.Firm(s.source) + ")"
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Strong(fmt.Sprint(i + 1)), table.Text(do)}})
	}
	return t
}
