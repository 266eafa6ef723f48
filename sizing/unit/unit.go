// Package unit holds the quantities of the trade as types, their parsing from
// text as people write it, and their printing. Each type's comment names its
// inner unit; different units are different types, so that they cannot mix.
package unit

// Quantities, each in the unit that its comment names.
type (
	Ampere           float64 // A
	Volt             float64 // V
	Ohm              float64 // ohm
	Watt             float64 // W
	Millimetre       float64 // mm
	SquareMillimetre float64 // mm2
	Celsius          float64 // degrees C
	Second           float64 // s
	AmpereHour       float64 // Ah
	Fraction         float64 // 0.03 is 3 %
	Gram             float64 // g
	OhmPerMetre      float64 // ohm per metre of conductor
)

// System is the way in which conductor sizes are named.
type System int

// The three systems of conductor sizes.
const (
	Metric System = iota // mm2, ISO 6722
	AWG                  // American wire gauge, ASTM B258
	SAE                  // SAE gauge, SAE J1127/J1128 minimum metal area
)

// String gives the word used in the description: mm2, awg or sae.
func (s System) String() string { return [...]string{"mm2", "awg", "sae"}[s] }

// Gauge names one conductor size: Size is "2.5" for 2.5 mm2, "12" for 12 gauge,
// "1/0" for 1/0 (never "0"). A gauge written as "14 ga" has System SAE unless the sheet
// says otherwise. The zero Gauge means "not given".
type Gauge struct {
	System System
	Size   string
}

// Given tells whether the gauge names a size.
func (g Gauge) Given() bool { return g.Size != "" }

// DropLimit is an allowed voltage drop: a fraction of the nominal voltage, or volts.
type DropLimit struct {
	Fraction Fraction
	Volts    Volt
}

// Of gives the limit in volts for a nominal voltage.
func (d DropLimit) Of(nominal Volt) Volt {
	if d.Volts > 0 {
		return d.Volts
	}
	return Volt(float64(d.Fraction) * float64(nominal))
}

// Draw is what a load takes: amperes, or watts at a voltage (At 0: at the
// system's running voltage).
type Draw struct {
	Amps  Ampere
	Watts Watt
	At    Volt
}

// Given tells whether a draw was written.
func (d Draw) Given() bool { return d.Amps > 0 || d.Watts > 0 }

// Start is the current that a load takes while it starts, and for how long.
type Start struct {
	Amps Ampere
	For  Second
}

// Coil is what a relay coil takes: amperes at the nominal voltage, or its ohms.
type Coil struct {
	Amps Ampere
	Ohms Ohm
}
