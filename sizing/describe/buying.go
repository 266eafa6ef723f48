package describe

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/unit"
)

// Pack is how one group of the shopping list is sold: so many pieces, or so
// long a stick.
type Pack struct {
	Group Word
	Size  Value[PackSize]
}

// PackSize has either pieces or a length.
type PackSize struct {
	Pieces int
	Length unit.Millimetre
}

// Price is what one piece, metre or foot of an item costs; of wire it may stand for each gauge.
type Price struct {
	Item  Word
	Gauge Value[unit.Gauge] // not given: the price of the item
	Each  Value[float64]
}

const (
	holdsPacks  = "for a group of the shopping list how it is sold, such as terminals: 10 or shrink: 1.2 m"
	holdsPrices = "for an item or a group of the shopping list its price, such as fuses: 0.40"
	holdsPrice  = "a price without its currency, such as 0.40"
)

// packed are the groups that are sold in packs, then those in sticks.
var packed = []string{"terminals", "washers", "nuts", "seals", "ties", "clamps", "boots", "grommets", "shrink", "cover", "tape", "markers"}

const inPieces = 8 // so many of them are counted in pieces

func takePacks(r *reader, e entry, p *Practice) {
	for _, x := range r.entries(e, holdsPacks, false) {
		group := r.among("pack", x.key, packed)
		if slices.Contains(packed[:inPieces], group.Text) {
			p.Packs = append(p.Packs, Pack{group, value(r, x, "a number of pieces, such as 10", parsePieces)})
			continue
		}
		p.Packs = append(p.Packs, Pack{group, value(r, x, "a length, such as 1.2 m or 4 ft", parseStick)})
	}
}

func parsePieces(text string) (PackSize, error) {
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 {
		return PackSize{}, &refusal{"bad-count", fmt.Sprintf("%q is no number of pieces", text), "Write how many are sold together, 1 or more."}
	}
	return PackSize{Pieces: n}, nil
}

func parseStick(text string) (PackSize, error) {
	l, err := parseStretch(text)
	return PackSize{Length: l}, err
}

// takePrices reads prices by item; those of wire may stand by gauge.
func takePrices(r *reader, e entry, p *Practice) {
	for _, x := range r.entries(e, holdsPrices, false) {
		switch {
		case x.key.Text == "currency":
			p.Currency, _ = r.line(x, "the currency, such as EUR")
		case x.key.Text == "wire" && x.value.Kind == yaml.MappingNode:
			for _, g := range r.entries(x, "for a gauge its price", false) {
				p.Prices = append(p.Prices, Price{x.key, r.gaugeKey(g.key), value(r, g, holdsPrice, parsePrice)})
			}
		default:
			p.Prices = append(p.Prices, Price{Item: x.key, Each: value(r, x, holdsPrice, parsePrice)})
		}
	}
}

func parsePrice(text string) (float64, error) {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || v < 0 || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, &refusal{"bad-quantity", fmt.Sprintf("%q is no price", text), "Write the number alone, with a point, such as 0.40; the currency goes under currency:."}
	}
	return v, nil
}
