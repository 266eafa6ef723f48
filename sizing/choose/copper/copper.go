// Package copper finds the set of sizes with the least copper. In: groups of
// wires that take one size each, every one a ladder of sizes from a floor up;
// and demands, every one a limit on a sum of drops along a way. Out: a size for
// every group, the mass, and a lower bound that no allowed set can go below.
// Pure numbers: it knows no wires, loads or states.
//
// What holds: every demand that the largest sizes meet is met. A demand that
// they do not meet gets the least violation that there is: all groups on its way
// take their least resistance. Among all such sets the mass is the least when
// Exact is set, and at most Mass - Bound above the least otherwise. Same input,
// same result: the work is counted, never timed.
//
// The method is a multiple-choice knapsack with many limits.
//
//   - What cannot matter is put aside (thin.go, imply.go): the low sizes with
//     which a demand is not met even by the largest of all others; demands that
//     the floors meet, demands that another implies whatever sizes are taken
//     (proportional or not: what the sizes can differ by counts too); groups that
//     carry proportional currents through the same demands are joined into one
//     ladder; what hangs together is solved by itself.
//   - A set is found by climbing from the floors, then made lighter by trading
//     one group's step against those of its neighbours (trade.go).
//   - A first bound comes from prices of the limits (price.go): Lagrangian
//     relaxation with subgradient steps, Held, Wolfe and Crowder, Mathematical
//     Programming 6 (1974).
//   - It is raised by splitting each group's mass among its demands: every demand
//     is then a small knapsack of its own, solved over its front of drop against
//     mass (front.go), and the sum of their least masses is a lower bound. The
//     split is improved demand by demand (split.go). This is Lagrangian
//     decomposition, Guignard and Kim, Mathematical Programming 39 (1987), by
//     block coordinate ascent, Globerson and Jaakkola, NIPS 20 (2007).
//   - Steps whose bound reaches the mass in hand are struck out. When they are
//     many, all begins anew with what is left: shorter ladders put more demands
//     aside. The rest is branched on, lowest bound first, until the bound has
//     reached the mass or the work is used up (branch.go).
//
// Units: grams, ohms (or ohms per metre, with amperes times metres), volts; any
// that fit together will do.
package copper

// Size is one step of a ladder: the mass of the whole group, and the resistance
// that its currents meet. Both are >= 0.
type Size struct{ Mass, Ohms float64 }

// Term is a group's part in a demand: amperes (times metres where Ohms is per
// metre). A term of no group of the problem, of a group without sizes, or of no
// current above 0 counts for nothing.
type Term struct {
	Group int
	Amps  float64
}

// Demand is met when the sum of Amps * Ohms over its terms is within Limit.
type Demand struct {
	Limit float64 // V
	Terms []Term
}

// Problem is what is to be decided. Floor is by group; no step below it is
// taken. A group of no sizes has step 0 and no mass.
type Problem struct {
	Groups  [][]Size
	Floor   []int
	Demands []Demand
}

// Result is the choice.
type Result struct {
	Step  []int   // by group
	Mass  float64 // of all groups
	Bound float64 // no allowed set is lighter; <= Mass
	Exact bool    // Bound is Mass, but for rounding
	Met   []bool  // by demand
}

// Gap is how far the mass may lie above the least, as a share of the bound.
func (r *Result) Gap() float64 {
	if r.Exact || r.Bound <= 0 {
		return 0
	}
	return r.Mass/r.Bound - 1
}

// Sums are rounded: a drop of exactly the limit is within it. The search keeps
// to nine tenths of that allowance, so that the order of a sum decides nothing.
const (
	allowance = 1e-9
	least     = 1e-12
	equal     = 1e-9 // masses closer than this share are the same
)

func (d *Demand) room() float64 { return allowance*max(d.Limit, -d.Limit) + least }

// Drop sums the terms for a step a group.
func (p *Problem) Drop(demand int, step []int) float64 {
	sum := 0.0
	for _, t := range p.Demands[demand].Terms {
		if p.counts(t) {
			sum += t.Amps * p.Groups[t.Group][step[t.Group]].Ohms
		}
	}
	return sum
}

func (p *Problem) counts(t Term) bool {
	return t.Group >= 0 && t.Group < len(p.Groups) && len(p.Groups[t.Group]) > 0 && t.Amps > 0
}

// Meets tells whether a drop is within a demand's limit.
func (d *Demand) Meets(drop float64) bool { return drop <= d.Limit+d.room() }

// Least finds the lightest set.
func Least(p Problem) Result {
	t := thin(&p)
	gap := t.solve(someWork + lineWork*len(t.lines))
	r := Result{Step: t.step, Exact: gap == 0}
	for g, sizes := range p.Groups {
		if len(sizes) > 0 {
			r.Mass += sizes[r.Step[g]].Mass
		}
	}
	r.Bound = r.Mass - gap
	r.Met = make([]bool, len(p.Demands))
	for d := range p.Demands {
		r.Met[d] = p.Demands[d].Meets(p.Drop(d, r.Step))
	}
	return r
}
