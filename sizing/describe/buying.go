package describe

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/unit"
)

// Pack is how one group of the shopping list is sold: so many pieces, or so
// long a stick.
type Pack struct {
	Group read.Word
	Size  read.Value[PackSize]
}

// PackSize has either pieces or a length.
type PackSize struct {
	Pieces int
	Length unit.Millimetre
}

// Price is what one piece, metre or foot of an item costs; of wire it may stand for each gauge.
type Price struct {
	Item  read.Word
	Gauge read.Value[unit.Gauge] // not given: the price of the item
	Each  read.Value[float64]
}

const (
	holdsPacks  = "for a group of the shopping list how it is sold, such as terminals: 10 or shrink: 1.2 m"
	holdsPrices = "for an item or a group of the shopping list its price, such as fuses: 0.40"
	holdsPrice  = "a price without its currency, such as 0.40"
)

// packed are the groups that are sold in packs, then those in sticks.
var packed = []string{"terminals", "washers", "nuts", "seals", "ties", "clamps", "boots", "grommets", "shrink", "cover", "tape", "markers"}

const inPieces = 8 // so many of them are counted in pieces

func takePacks(r *read.Reader, e read.Entry, p *Practice) {
	for _, x := range r.Entries(e, holdsPacks, false) {
		group := r.Among("pack", x.Key, packed)
		if slices.Contains(packed[:inPieces], group.Text) {
			p.Packs = append(p.Packs, Pack{group, read.Parsed(r, x, "a number of pieces, such as 10", parsePieces)})
			continue
		}
		p.Packs = append(p.Packs, Pack{group, read.Parsed(r, x, "a length, such as 1.2 m or 4 ft", parseStick)})
	}
}

func parsePieces(text string) (PackSize, error) {
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 {
		return PackSize{}, read.Refuse("bad-count", fmt.Sprintf("%q is no number of pieces", text), "Write how many are sold together, 1 or more.")
	}
	return PackSize{Pieces: n}, nil
}

func parseStick(text string) (PackSize, error) {
	l, err := parseStretch(text)
	return PackSize{Length: l}, err
}

// takePrices reads prices by item; those of wire may stand by gauge.
func takePrices(r *read.Reader, e read.Entry, p *Practice) {
	for _, x := range r.Entries(e, holdsPrices, false) {
		switch {
		case x.Key.Text == "currency":
			p.Currency, _ = r.Line(x, "the currency, such as EUR")
		case x.Key.Text == "wire" && x.IsMap():
			for _, g := range r.Entries(x, "for a gauge its price", false) {
				p.Prices = append(p.Prices, Price{x.Key, gaugeKey(r, g.Key), read.Parsed(r, g, holdsPrice, parsePrice)})
			}
		default:
			p.Prices = append(p.Prices, Price{Item: x.Key, Each: read.Parsed(r, x, holdsPrice, parsePrice)})
		}
	}
}

func parsePrice(text string) (float64, error) {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || v < 0 || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, read.Refuse("bad-quantity", fmt.Sprintf("%q is no price", text), "Write the number alone, with a point, such as 0.40; the currency goes under currency:.")
	}
	return v, nil
}
