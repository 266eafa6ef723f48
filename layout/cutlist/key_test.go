package cutlist

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/samples/toy"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

func TestShortFittings(t *testing.T) {
	for want, e := range map[string]fitted.End{
		"6.3 spade red":        {Fitting: "6.3 mm female spade", Crimp: "red insulated"},
		"0.250 spade blue":     {Fitting: "0.250 in female spade", Crimp: "blue insulated"},
		"M6 ring yellow":       {Fitting: "M6 ring", Crimp: "yellow insulated"},
		"M8 lug":               {Fitting: "M8 ring", Crimp: "uninsulated lug"},
		"M8 battery lug":       {Fitting: "M8 ring", Crimp: "battery lug"},
		"butt, uninsulated":    {Fitting: "butt splice", Crimp: "uninsulated butt"},
		"contact":              {Fitting: "crimp contact, 6-way sealed", Crimp: "open barrel"},
		"6.3 spade: none fits": {Fitting: "6.3 mm female spade", Crimp: fitted.NoneFits},
		"R6-2.5":               {Fitting: "M6 ring", Crimp: "blue insulated", Part: "R6-2.5"},
		"barrel":               {Fitting: "splice barrel", Crimp: "uninsulated barrel"},
	} {
		require.Equal(t, want, short(&e))
	}
}

// What an end asks for stands with its fitting: heat-shrink and boot to slide on, wires that share
// it, strands that are folded back.
func TestSignsOfAnEnd(t *testing.T) {
	a := toy.Fan()
	e := fitted.End{Fitting: "M8 ring", Crimp: "uninsulated lug", Shrink: "9/3 mm", Boot: true, Folded: true, With: []harness.WireID{1}, Drain: "crank"}
	require.Equal(t, "M8 lug § ‡ +"+a.H.Wires[1].Name+" +drain of crank fold back", toy.Plain(signed(a, &e)))
}

// A terminal of the shop's own is printed with its number and die; a lot has a
// place to write each reading.
func TestShopTerminalsAndLotsArePrinted(t *testing.T) {
	l := lot{
		Lot:      fitted.Lot{Crimp: "blue insulated", Size: "1.5-2.5 mm²", Part: "R6-2.5", Die: "3", Gauge: unit.Gauge{Size: "2.5"}, Count: 7, Specimens: 2, Pull: 222.4, PullList: "ul-486a"},
		count:    map[string]int{"M6 ring": 7},
		fittings: []string{"M6 ring"}, over: []string{"⌀ 2.1"},
	}
	row := lotRow(&l, page.Forces{}, "", "mm²")
	require.Equal(t, "Blue insulated · 1.5 – 2.5 mm²", toy.Plain(crimpHead(&l)))
	require.Equal(t, "7 × M6 ring, R6-2.5, die 3 ⌀ 2.1", toy.Plain(row.Cells[1].S))
	require.Equal(t, []string{"2.5", "222"}, []string{toy.Plain(row.Cells[0].S), row.Cells[2].S})
	blanks := 0
	for _, c := range row.Cells {
		if c.Draw != nil {
			blanks++
		}
	}
	require.Equal(t, 2, blanks, "two readings")
	a := toy.Fan()
	a.R.Lots = []fitted.Lot{{Specimens: 2}, {Specimens: 3}}
	require.Len(t, keyTable(a, lotsOf(a), page.Forces{}).Columns, 6, "as many columns as the most specimens")
}

// 1 lbf·ft is 1.35582 N·m (NIST SP 811, appendix B).
func TestTorque(t *testing.T) {
	require.Equal(t, "10", torque(fitted.Stack{Least: 10, Most: 10}, false))
	require.Equal(t, "7.4", torque(fitted.Stack{Least: 10, Most: 10}, true))
	require.Equal(t, "5 to 8", torque(fitted.Stack{Least: 5, Most: 8}, false))
	require.Equal(t, "–", torque(fitted.Stack{}, true))
}
