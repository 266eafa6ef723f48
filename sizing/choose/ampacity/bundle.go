package ampacity

import (
	"math"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/rating"
)

// A wire counts in a bundle when it carries at least an ampere and a tenth of
// what it could carry alone; common practice, no source.
const (
	countsFrom  = 1.0
	countsShare = 0.1
)

// countBundles finds for each wire the most loaded wires that lie with it in
// one run, itself counted, in a state in which it carries current. A count
// never goes back, so that the choice settles.
func (a *Ampacity) countBundles() {
	from := a.loadedFrom()
	a.t.Each(func(st *network.State, _ bool) {
		loaded := make([]bool, len(from))
		for w := range from {
			loaded[w] = math.Abs(st.WireAmps[w]) >= from[w]
		}
		for _, together := range [][][]harness.WireID{a.t.Runs, a.t.Cables} {
			for _, wires := range together {
				a.countIn(wires, st, loaded)
			}
		}
	})
}

func (a *Ampacity) countIn(wires []harness.WireID, st *network.State, loaded []bool) {
	n := 0
	for _, w := range wires {
		if loaded[w] {
			n++
		}
	}
	for _, w := range wires {
		own := 1
		if loaded[w] {
			own = 0
		}
		if math.Abs(st.WireAmps[w]) > 0.01 {
			a.Bundles[w] = max(a.Bundles[w], n+own)
		}
	}
}

// loadedFrom gives by WireID the current from which a wire counts as loaded.
func (a *Ampacity) loadedFrom() []float64 {
	out := make([]float64, len(a.t.H.Wires))
	for i := range out {
		out[i] = a.LoadedFrom(harness.WireID(i))
	}
	return out
}

// LoadedFrom gives the current from which a wire counts as loaded, A.
func (a *Ampacity) LoadedFrom(w harness.WireID) float64 {
	z := a.t.Size(w)
	base, _ := rating.Ampacity(z.Conductor, z.Class)
	return math.Max(countsFrom, countsShare*float64(base)*rating.AmbientFactor(z.Class, a.t.Places[w].Celsius))
}
