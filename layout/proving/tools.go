package proving

import (
	"strings"

	"example.com/loomfolio/layout/table"
)

// tools says once what a cheap meter and a lamp can tell (beepers and ohms by the makers'
// manuals of four cheap meters; what a lamp hides as it is computed for this vehicle).
func (s *sheets) tools() {
	t := &table.Table{NoHead: true, NoZebra: true, Tight: true, Even: true, Pad: padY, Columns: []table.Column{{}, {Weight: 1}}}
	for _, x := range [][2]string{
		{"Beep", "some path under 30 to 100 Ω, a bulb too"},
		{"Ohms", "± 0.3 Ω: cannot pass a wire or a joint"},
		{"Volts", "load on: without, one strand shows all"},
		{"Lamp", s.lamp()},
	} {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Strong(x[0]), table.Text(x[1])}})
	}
	s.b.Spread(t, 2, 10)
}

// lamp says what a lit test lamp hides, by the first point where it does, and where it must not be put.
func (s *sheets) lamp() string {
	const never = "never at " + noLamp + ": module, sensor, gauge"
	for _, p := range s.p.Points {
		if p.Misleads != "" {
			return "3 W " + strings.TrimPrefix(p.Misleads, "a lamp ") + "; " + never
		}
	}
	return never
}
