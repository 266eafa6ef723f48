package describe

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Buy is how what is bought is chosen above what is least; limits that are not given hold nothing back.
type Buy struct {
	For             read.Word // few clear numbers
	Sizes, Reels    read.Value[int]
	Pairs, RunPairs read.Value[int]       // keys "pairs", "run-pairs": most that only the number sleeve tells apart
	Copper          read.Value[unit.Gram] // that one reel less is worth
	Span            source.Span           // of the key; not known where there is none
}

// Apart is which wires must look different where reels are saved.
type Apart struct {
	Panels     read.Value[int] // positions; 0: all of them
	Runs       read.Word       // sleeve colour
	Branchings read.Value[bool]
}

// Minutes is how long one operation takes in this shop.
type Minutes struct {
	Operation read.Word
	Each      read.Value[float64]
}

const (
	holdsBuy     = "few, clear or numbers, or limits such as {sizes: 6, reels: 30}"
	holdsSleeved = "a number of pairs of wires, 0 for none"
	holdsTools   = "a list of crimping tools, such as [red-blue-yellow, open-barrel, lugs]"
	holdsMinutes = "for an operation how many minutes it takes, such as crimp: 0.7"
)

var buys = []string{"few", "clear", "numbers"}

var buyKeys = []read.Key[Buy]{
	read.Choice("for", buys, func(b *Buy) *read.Word { return &b.For }),
	counted("sizes", "how many sizes of wire at most, such as 6", func(b *Buy) *read.Value[int] { return &b.Sizes }),
	counted("reels", "how many reels at most, such as 30", func(b *Buy) *read.Value[int] { return &b.Reels }),
	read.Quantity("pairs", holdsSleeved, func(b *Buy) *read.Value[int] { return &b.Pairs }, parsePairs),
	read.Quantity("run-pairs", holdsSleeved, func(b *Buy) *read.Value[int] { return &b.RunPairs }, parsePairs),
	read.Quantity("copper", "a mass, such as 100 g or 4 oz", func(b *Buy) *read.Value[unit.Gram] { return &b.Copper }, unit.ParseGram),
}

var apartKeys = []read.Key[Apart]{
	read.Quantity("panels", "how many positions away wires still look different, such as 2, or all", func(a *Apart) *read.Value[int] { return &a.Panels }, parseNear),
	read.Choice("runs", []string{"sleeve", "colour"}, func(a *Apart) *read.Word { return &a.Runs }),
	read.Flag("branchings", func(a *Apart) *read.Value[bool] { return &a.Branchings }),
}

// takeBuy reads one word, or limits.
func takeBuy(r *read.Reader, e read.Entry, p *Practice) {
	p.Buy.Span = e.Key.Span
	if e.IsMap() {
		read.Mapping(r, e, buyKeys, &p.Buy)
		return
	}
	if w, ok := r.Line(e, holdsBuy); ok {
		p.Buy.For = r.Among(e.Key.Text, w, buys)
	}
}

func takeTools(r *read.Reader, e read.Entry, p *Practice) { p.Tools = r.Unique(e, holdsTools) }

func takeMinutes(r *read.Reader, e read.Entry, p *Practice) {
	for _, x := range r.Entries(e, holdsMinutes, false) {
		p.Minutes = append(p.Minutes, Minutes{x.Key, read.Parsed(r, x, "a number of minutes, such as 0.7", parseMinutes)})
	}
}

// parsePairs reads how many pairs there may be, none included.
func parsePairs(text string) (int, error) {
	if text == "0" {
		return 0, nil
	}
	n, err := parseCount(text)
	if err != nil {
		return 0, read.Refuse("bad-count", fmt.Sprintf("%q is not a number of pairs", text), "Write a whole number from 0 to 999.")
	}
	return n, nil
}

// parseNear reads a number of positions; all of them are 0.
func parseNear(text string) (int, error) {
	if text == "all" || text == "0" {
		return 0, nil
	}
	n, err := parseCount(text)
	if err != nil {
		return 0, read.Refuse("bad-count", fmt.Sprintf("%q is not a number of positions", text), "Write a whole number from 1 to 999, or all.")
	}
	return n, nil
}

const mostMinutes = 1000 // no operation on one wire, end or metre takes longer; judgement, not published

// parseMinutes reads minutes with or without their unit.
func parseMinutes(text string) (float64, error) {
	v, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSuffix(text, "min"), " "), 64)
	if err != nil || !(v >= 0 && v <= mostMinutes) || math.Signbit(v) {
		return 0, read.Refuse("bad-quantity", fmt.Sprintf("%q is no number of minutes", text), "Write minutes from 0 to 1000 with a point, such as 0.7.")
	}
	return v, nil
}
