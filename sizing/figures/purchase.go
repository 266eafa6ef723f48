package figures

import (
	"fmt"
	"io"
	"reflect"
	"strings"

	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// Purchase is what is bought above what is least, what it costs, and what is left.
type Purchase struct {
	For     string           `json:"for"`
	Weights PurchaseWeights  `json:"weights"`
	Curve   []PurchaseChoice `json:"curve"`
	Taken   int              `json:"taken"` // index into curve
	Why     string           `json:"why"`
	LeastG  float64          `json:"least_g"` // copper on the reels if every wire had its own least size
	Taught  string           `json:"told_apart"`
	Pairs   []PurchasePair   `json:"pairs"`
	Bounds  []PurchaseBound  `json:"bounds"`
	Cost    Cost             `json:"cost"`
	Left    []PurchaseLeft   `json:"left"`
}

// PurchaseWeights say what the objective counts, in reels.
type PurchaseWeights struct {
	Money         bool    `json:"money"`
	TracerReels   float64 `json:"tracer_reels"`
	PartPairReels float64 `json:"part_pair_reels"`
	RunPairReels  float64 `json:"run_pair_reels"`
	CopperG       float64 `json:"copper_g"` // that one reel is worth
	MetreReels    float64 `json:"metre_reels"`
	SizeReels     float64 `json:"size_reels"`
	KindReels     float64 `json:"kind_reels"` // of crimp
}

// PurchaseChoice is one set of sizes with the best colouring found for it.
type PurchaseChoice struct {
	Sizes     []string `json:"sizes"`
	Reels     int      `json:"reels"`
	Tracers   int      `json:"tracers"`
	Bound     int      `json:"reels_least"`
	CopperG   float64  `json:"copper_g"`
	PartPairs int      `json:"part_pairs"`
	RunPairs  int      `json:"run_pairs"`
	Sum       float64  `json:"sum"`
	Money     float64  `json:"money"`
	Refused   string   `json:"refused"`
}

// PurchasePair is two wires that their number sleeves alone tell apart.
type PurchasePair struct {
	A        string  `json:"a"`
	B        string  `json:"b"`
	Part     string  `json:"part"`
	Run      string  `json:"run"`
	Distance float64 `json:"distance"`
	ByRule   bool    `json:"by_rule"`
}

// PurchaseBound is how few reels one size can have.
type PurchaseBound struct {
	Gauge string `json:"gauge"`
	Reels int    `json:"reels"`
	Least int    `json:"reels_least"`
	Exact bool   `json:"exact"`
}

// Cost is what the loom costs: money, metres, pieces and minutes of what is still to be bought and
// made, masses of the whole loom.
type Cost struct {
	Currency   string      `json:"currency"`
	Money      float64     `json:"money"`
	Unpriced   int         `json:"unpriced"`
	MetresM    float64     `json:"wire_m"` // bought, cable included
	Reels      int         `json:"reels"`
	Pieces     int         `json:"pieces"`
	CopperG    float64     `json:"copper_g"` // of the wires on reels, without terminals
	CoresG     float64     `json:"cores_g"`  // copper of the cables' cores
	WireG      float64     `json:"wire_g"`   // of the wires on reels with insulation
	CableG     float64     `json:"cable_g"`
	CoverG     float64     `json:"cover_g"`
	MinutesMin float64     `json:"build_min"`
	Spread     float64     `json:"spread"` // ± share of it
	Groups     []CostSum   `json:"cost_groups"`
	Circuits   []CostSum   `json:"cost_circuits"`
	Operations []Operation `json:"operations"`
}

// CostSum is one group of the shopping list, or one circuit with its shares.
type CostSum struct {
	Name    string  `json:"name"` // of a circuit its key
	MetresM float64 `json:"long_m"`
	Pieces  int     `json:"pieces"`
	MassG   float64 `json:"mass_g"`
	Money   float64 `json:"money"`
}

// Operation is one kind of work with its count.
type Operation struct {
	Key     string  `json:"operation"`
	Name    string  `json:"name"`
	Count   float64 `json:"count"`
	Per     string  `json:"per"`
	EachMin float64 `json:"each_min"`
	SumMin  float64 `json:"sum_min"`
	Status  string  `json:"status"`
	Source  string  `json:"source"`
}

// PurchaseLeft is what lies on the shelf of one reel after the build.
type PurchaseLeft struct {
	Gauge      string    `json:"gauge"`
	Insulation string    `json:"insulation"`
	Base       string    `json:"base"`
	Tracer     string    `json:"tracer"`
	LengthsMM  []float64 `json:"lengths_mm"`
}

func (f *filler) purchase() {
	p := &f.r.Purchase
	w := p.Weights
	out := Purchase{
		For: p.For, Weights: PurchaseWeights{w.Money, w.Tracer, w.PartPair, w.RunPair, float64(w.Copper), w.Metre, w.Size, w.Kind},
		Curve: []PurchaseChoice{}, Taken: p.Taken, Why: p.Why, LeastG: float64(p.Least), Taught: p.Taught,
		Pairs: []PurchasePair{}, Bounds: []PurchaseBound{}, Cost: f.cost(&p.Cost), Left: []PurchaseLeft{},
	}
	for _, c := range p.Curve {
		sizes := []string{}
		for _, g := range c.Sizes {
			sizes = append(sizes, g.Size)
		}
		out.Curve = append(out.Curve, PurchaseChoice{sizes, c.Reels, c.Tracers, c.Bound, float64(c.Copper), c.PartPairs, c.RunPairs, c.Sum, c.Money, c.Refused})
	}
	for _, x := range p.Pairs {
		out.Pairs = append(out.Pairs, f.pair(x))
	}
	for _, b := range p.Bounds {
		out.Bounds = append(out.Bounds, PurchaseBound{b.Gauge.Size, b.Reels, b.Least, b.Exact})
	}
	for _, l := range p.Left {
		left := PurchaseLeft{Gauge: l.Gauge.Size, Insulation: l.Insulation, Base: l.Base, Tracer: l.Tracer, LengthsMM: []float64{}}
		for _, mm := range l.Lengths {
			left.LengthsMM = append(left.LengthsMM, float64(mm))
		}
		out.Left = append(out.Left, left)
	}
	f.d.Purchase = out
}

func (f *filler) pair(x purchase.Pair) PurchasePair {
	out := PurchasePair{A: f.h.Wires[x.A].Name, B: f.h.Wires[x.B].Name, Distance: x.Distance, ByRule: x.ByRule}
	if x.Part != harness.None {
		out.Part = f.h.Parts[x.Part].Ref
	}
	if x.Run != harness.None {
		out.Run = f.run(x.Run)
	}
	return out
}

func (f *filler) cost(c *purchase.Cost) Cost {
	out := Cost{
		Currency: c.Currency, Money: c.Money, Unpriced: c.Unpriced, MetresM: c.Metres, Reels: c.Reels, Pieces: c.Pieces,
		CopperG: float64(c.Copper), CoresG: float64(c.Cores), WireG: float64(c.Wire), CableG: float64(c.Cable), CoverG: float64(c.Cover),
		MinutesMin: c.Minutes, Spread: c.Spread, Groups: sums(c.Groups), Circuits: sums(c.Circuits), Operations: []Operation{},
	}
	for i := range out.Circuits {
		out.Circuits[i].Name = f.h.Circuits[i].Key
	}
	for _, o := range c.Operation {
		out.Operations = append(out.Operations, Operation{o.Key, o.Name, o.Count, o.Per, o.Each, o.Minutes, o.Status, o.Source})
	}
	return out
}

func sums(list []purchase.Sum) []CostSum {
	out := []CostSum{}
	for _, s := range list {
		out = append(out, CostSum{s.Name, s.Metres, s.Pieces, float64(s.Mass), s.Money})
	}
	return out
}

// bought lists the tables within purchase, under their own names.
func bought(p *Purchase) []reflect.Value {
	return []reflect.Value{
		reflect.ValueOf(p.Curve), reflect.ValueOf(p.Pairs), reflect.ValueOf(p.Bounds), reflect.ValueOf(p.Left),
		reflect.ValueOf(p.Cost.Groups), reflect.ValueOf(p.Cost.Circuits), reflect.ValueOf(p.Cost.Operations),
	}
}

// boughtTables are the names of what bought lists, in its order.
var boughtTables = [...]string{"curve", "pairs", "bounds", "left", "cost_groups", "cost_circuits", "operations"}

// Stock writes what lies on the shelf after the build as the lines of practice: stock:, to paste
// into the description of this loom or of the next. What the key has no place for stands in a remark: wire of another
// insulation than the practice's.
func Stock(w io.Writer, h *harness.Harness, r *result.Result) error {
	var b strings.Builder
	gauge := unit.Gauge{}
	var other []string
	for _, l := range r.Purchase.Left {
		if l.Base == "" || l.Insulation != h.Practice.Insulation {
			other = append(other, fmt.Sprintf("# %s %s %s: %s\n", l.Gauge, l.Insulation, colour.Pair{Base: l.Base, Tracer: l.Tracer}, lengths(&l, h.Sheet.Imperial)))
			continue
		}
		if l.Gauge != gauge {
			gauge = l.Gauge
			fmt.Fprintf(&b, "    %s:\n", key(gauge))
		}
		fmt.Fprintf(&b, "      %s: [%s]\n", colour.Pair{Base: l.Base, Tracer: l.Tracer}, lengths(&l, h.Sheet.Imperial))
	}
	text := "practice:\n  stock:\n" + b.String()
	if b.Len() == 0 {
		text = "# nothing is left that the key stock holds\n"
	}
	if len(other) > 0 {
		text += "# left too; stock holds wire of the practice's insulation alone\n"
	}
	_, err := io.WriteString(w, text+strings.Join(other, ""))
	return err
}

// key is a gauge as a description writes it.
func key(g unit.Gauge) string {
	return strings.ReplaceAll(g.String(), "mm²", "mm2")
}

func lengths(l *purchase.Left, imperial bool) string {
	var out []string
	for _, mm := range l.Lengths {
		out = append(out, long(mm, imperial))
	}
	return strings.Join(out, ", ")
}

// long is a length as a description reads it: "2.41 m", "11 ft 4 in", none longer than it is.
func long(mm unit.Millimetre, imperial bool) string {
	if !imperial {
		return fmt.Sprintf("%.2f m", float64(int(float64(mm)/10+1e-6))/100)
	}
	inches := int(float64(mm)/25.4 + 1e-6)
	switch feet := inches / 12; {
	case feet == 0:
		return fmt.Sprintf("%d in", inches)
	case inches%12 == 0:
		return fmt.Sprintf("%d ft", feet)
	default:
		return fmt.Sprintf("%d ft %d in", feet, inches%12)
	}
}
