package figures

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"reflect"
	"slices"
)

// Built is what was computed of one variant of a vehicle.
type Built struct {
	Variant string // "none" for the description as it stands
	Document
}

// bill is one line of several shopping lists.
type bill struct {
	Item
	buy []float64 // by variant
}

// Builds prints the shopping lists of several variants side by side, and what is bought for
// one vehicle of each: whole packs of the sum, and of wire what each build buys.
func Builds(w io.Writer, builds []Built) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	head := []string{"group", "what", "unit"}
	for _, b := range builds {
		head = append(head, "buy "+b.Variant)
	}
	if err := out.Write(append(head, "buy together")); err != nil {
		return err
	}
	for _, line := range bills(builds) {
		row := []string{guarded(line.Group, reflect.String), guarded(line.What, reflect.String), line.Unit}
		for _, n := range append(line.buy, line.together()) {
			row = append(row, fmt.Sprint(n))
		}
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// bills joins the lists, groups in the order of the first list that has them.
func bills(builds []Built) []*bill {
	var out []*bill
	groups := []string{}
	at := map[[3]string]*bill{}
	for i, b := range builds {
		for _, item := range b.Shopping {
			key := [3]string{item.Group, item.What, item.Unit}
			if at[key] == nil {
				at[key] = &bill{Item: Item{Group: item.Group, What: item.What, Unit: item.Unit, Pack: item.Pack}, buy: make([]float64, len(builds))}
				out = append(out, at[key])
			}
			if !slices.Contains(groups, item.Group) {
				groups = append(groups, item.Group)
			}
			at[key].Count += item.Count
			at[key].buy[i] += item.Buy
		}
	}
	slices.SortStableFunc(out, func(a, b *bill) int {
		return cmp.Compare(slices.Index(groups, a.Group), slices.Index(groups, b.Group))
	})
	return out
}

// together is what is bought for all of them.
func (b *bill) together() float64 {
	sum := 0.0
	for _, n := range b.buy {
		sum += n
	}
	if b.Pack > 0 && b.Group != "wire" {
		sum = min(sum, math.Ceil(b.Count/b.Pack-1e-9)*b.Pack)
	}
	return math.Round(sum*1000) / 1000
}
