package describe

import (
	"fmt"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/unit"
)

// Charging is what a part says that makes charge, or carries it.
type Charging struct {
	Control   read.Word // box built-in
	Field     read.Value[unit.Ohm]
	Setting   read.Value[unit.Volt] // on open circuit
	Power     read.Value[unit.Watt] // of an inverter what it gives, of a panel its peak
	Isc, Imp  read.Value[unit.Ampere]
	Voc, Vmp  read.Value[unit.Volt]
	Tracking  read.Value[bool]
	Regulates read.Word // shunt series
	CutIn     read.Value[unit.Volt]
	CutOff    read.Value[unit.Volt]
	Senses    read.Word // one both
}

// chargingKeys are the keys of parts that make charge, or carry it.
var chargingKeys = []read.Key[Part]{
	read.Choice("control", []string{"box", "built-in"}, func(p *Part) *read.Word { return &p.Control }),
	ohms("field", func(p *Part) *read.Value[unit.Ohm] { return &p.Field }),
	volts("setting", func(p *Part) *read.Value[unit.Volt] { return &p.Setting }),
	read.Quantity("power", "a power, such as 1500 W", func(p *Part) *read.Value[unit.Watt] { return &p.Power }, parseWatts),
	amps("isc", func(p *Part) *read.Value[unit.Ampere] { return &p.Isc }),
	amps("imp", func(p *Part) *read.Value[unit.Ampere] { return &p.Imp }),
	volts("voc", func(p *Part) *read.Value[unit.Volt] { return &p.Voc }),
	volts("vmp", func(p *Part) *read.Value[unit.Volt] { return &p.Vmp }),
	read.Flag("tracking", func(p *Part) *read.Value[bool] { return &p.Tracking }),
	read.Choice("regulates", []string{"shunt", "series"}, func(p *Part) *read.Word { return &p.Regulates }),
	volts("cut-in", func(p *Part) *read.Value[unit.Volt] { return &p.CutIn }),
	volts("cut-off", func(p *Part) *read.Value[unit.Volt] { return &p.CutOff }),
	read.Choice("senses", []string{"one", "both"}, func(p *Part) *read.Word { return &p.Senses }),
}

// parseWatts reads a power.
func parseWatts(text string) (unit.Watt, error) {
	d, err := parseDraw(text)
	if err == nil && d.Watts == 0 {
		return 0, fmt.Errorf("%q is a current where a power is needed, such as 1500 W", text)
	}
	return d.Watts, err
}
