package rating

import "sync"

// FaultWeight is how likely a kind of part fails, against a visible crimp's 1.
type FaultWeight struct {
	Part   string // "crimp inside heat shrink or tape"
	Weight float64
	Per    string // crimp, way, metre …
	Source string
	Why    string
}

var faultWeightTable = sync.OnceValue(func() map[string]FaultWeight {
	out := map[string]FaultWeight{}
	for _, r := range rows("fault-weights.csv") {
		out[r["key"]] = FaultWeight{Part: r["part"], Weight: r.number("weight"), Per: r["per"], Source: r["source"], Why: r["why"]}
	}
	return out
})

// FaultWeightOf gives the row of a key; false for a key that is none.
func FaultWeightOf(key string) (FaultWeight, bool) {
	w, ok := faultWeightTable()[key]
	return w, ok
}

var faultModeTable = sync.OnceValue(func() map[[2]string]float64 {
	out := map[[2]string]float64{}
	for _, r := range rows("fault-modes.csv") {
		out[[2]string{r["part"], r["mode"]}] = r.number("share")
	}
	return out
})

// FaultShare gives how much of the failures of a part are of a mode; 0 where it is not
// listed. The mode "idle" is that a load gets its volts and does not do its work: slow
// movement of solenoids, bearings of motors, wrong indications of gauges, changed values
// of heaters. What is left to 1 is of modes that no meter shows.
func FaultShare(part, mode string) float64 { return faultModeTable()[[2]string{part, mode}] }
