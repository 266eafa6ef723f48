// Package circuit solves direct-current networks: nodes and elements in,
// voltages and currents out. It is pure numbers; it knows no wires, fuses or parts.
//
// Units are volts, amperes, ohms throughout. Currents are counted from A to B.
// A node that has no way (through any element that carries current) to the
// reference has no defined voltage against it, and no fudge (no leak to ground) is
// ever added to give it one. Its island still follows its laws (a second battery
// may feed a lamp there). Where one of Grounds lies in it, the first of them is its
// own 0 V, and its voltages are counted from that; where none does it is reported
// as floating, NaN in the result: the currents are given, only the voltages are not.
//
// Method: nodal analysis. Solve is Prepare (order the nodes by least degree,
// find the shape of the factor; once for a structure) and then Prepared.Solve.
// For given contacts every element's current rises, or at least never falls,
// with its voltage, so that the voltages are the least point of a convex
// function (the co-content; Millar 1951). Newton's method with a line search
// finds it; each step is by a sparse LDL' factor (row by row, after Davis,
// "A concise sparse Cholesky factorization package", ACM TOMS 31 (2005),
// algorithm 849; this and the other papers from memory). Around that the
// relays: all start released, contacts follow their coils, until none moves.
// Coils that find no rest are reported as chattering.
//
// A load of constant power takes the less current the more voltage it has, and
// is no part of that: its current is held while the rest settles, and a fixed
// point is sought outside (power.go), from below, so that of two answers the one
// with the higher voltage is found. Where its feed cannot give that power at any
// voltage (voltage collapse) the answer is that of the resistance which the load
// is below its floor: its voltage then lies below Floor, and nothing hangs.
//
// A converter is two elements: a Limited one that gives, and an Intake that takes the
// power given, over the efficiency, from its own two nodes (converter.go). Nothing else
// joins its sides, so that they may share a node or none.
//
// A factor is not made anew where few slopes have changed: they are updated in
// it, each along its way to the root of the elimination tree, unless that would
// cost too many digits. Prepared.Faults tries thousands of faults in this way,
// each from the sound network's rest for the same contacts; Prepared.With
// solves with other resistances. Voltages are kept to twice the digits of one
// number, and only a balance by the elements' own laws ends a solving, so that
// how a factor came to be does not show in the answer.
//
// What holds for a Solution without error: Residual is far below 1e-9 A.
package circuit

// Kind is what an element does.
type Kind int

// The kinds of elements. Ohms must be positive in all but Current, Lamp, Power and Intake;
// infinite Ohms make a Resistor, Contact, Source, Limited, Coil or Diode open.
const (
	Resistor Kind = iota // Ohms between A and B
	Contact              // Ohms when closed by its Control, else open
	Source               // EMF Volts behind Ohms, A is plus (a battery)
	Limited              // regulated Volts behind Ohms, delivers at most Amps, never takes current (an alternator)
	Current              // a load of constant Amps from A to B above Floor volts (must be positive), below it, and fed backwards, a resistance Floor/Amps
	Lamp                 // Amps at AtVolts, current ~ V^0.55 either way; below Floor volts (must be positive) a resistance
	Coil                 // Ohms; energised at or above PullIn either way round, released below DropOut
	Diode                // conducts A to B with a drop of Volts behind Ohms, else open
	Power                // a load of Amps times AtVolts watts from A to B above Floor volts (must be positive); below it, and fed backwards, a resistance Floor²/watts: it never takes more than watts/Floor
	Intake               // the input of a converter, from A to B: while it has Floor volts (must be positive) it takes what the Limited element Control gives, over Efficiency, and Standing watts; with less it takes nothing, and Control gives nothing
)

// Element joins nodes A and B.
type Element struct {
	Name    string
	Kind    Kind
	A, B    int
	Ohms    float64
	Volts   float64
	Amps    float64
	AtVolts float64
	Floor   float64
	PullIn  float64
	DropOut float64
	Control int  // Contact: index of the Coil element that moves it, or -1 when fixed closed; Intake: the Limited element that is its output
	Breaks  bool // Contact: closed when its coil is released
	Held    bool // Coil: it begins energised, as it was left by what went before

	Efficiency float64 // Intake: above 0, up to 1
	Standing   float64 // Intake: watts that it takes whatever its output gives

	Idle float64 // Source: a terminal voltage between Volts and Idle draws no current (a charged battery on charge); 0: none
}

// Network is a set of elements over Nodes nodes; node Reference is at 0 V, and in
// each island without it the first of Grounds that lies there.
type Network struct {
	Nodes     int
	Reference int
	Grounds   []int
	Elements  []Element
}

// Frozen is how an element stands in the solution, for a linear netlist:
// exactly one of an open circuit, a resistance, a current from A to B, or
// Volts (A against B) behind Ohms.
type Frozen struct {
	Form  Form
	Ohms  float64
	Amps  float64
	Volts float64
}

// Form is the shape of a frozen element.
type Form int

// The forms of a frozen element.
const (
	IsOpen Form = iota
	IsResistance
	IsCurrent
	IsVoltage
)

// Solution is a solved network.
type Solution struct {
	Volts     []float64 // by node; NaN where floating
	Zero      []int     // by node: the node at 0 V that its voltage is counted from; -1 where floating
	Amps      []float64 // by element, A to B
	Frozen    []Frozen  // by element
	Energised []bool    // by element; true for coils that hold, and for the inputs of converters that work
	Residual  float64   // largest sum of currents at a node, A, by the elements' own laws
	Chatter   []int     // coils that find no rest; the rest of the solution has them released
	Rounds    int       // linear systems solved in all
}
