// Package tradeoff lays out what was weighed for what is bought: the choices as a small
// picture and a table, which was taken and why, what it costs, what is left after the build.
//
// In: purchase.Purchase. Out: cards, rows and sentences for the shopping list. It holds that
// the picture has every number of sizes, that whatever was refused has its row with the reason,
// that the one taken is told by its shape too, and that nothing is computed here beyond sums and roundings.
package tradeoff

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/unit"
)

// leastPoints is how many choices a picture needs: fewer are told in words and rows alone.
const leastPoints = 5

// How many choices have rows, and how many beside the one taken where there are more.
const (
	mostRows  = 9
	rowsAbout = 3
)

// Sheet is what the sentences and pictures are made from.
type Sheet struct {
	P        *purchase.Purchase
	Imperial bool
	Circuit  func(key string) string // its plain name
}

// There tells whether anything was weighed.
func (s Sheet) There() bool { return s.P.For != "" && s.taken() != nil }

// taken is the choice that was taken, nil where none was.
func (s Sheet) taken() *purchase.Choice {
	if s.P.Taken < 0 || s.P.Taken >= len(s.P.Curve) {
		return nil
	}
	return &s.P.Curve[s.P.Taken]
}

// point is a choice that is shown, with what became of it.
type point struct {
	*purchase.Choice
	taken bool
}

func (p point) refused() bool { return p.Refused != "" && !p.taken }

// points are the choices that are shown: of each number of sizes the best found, those
// that were refused, and the one that was taken.
func (s Sheet) points() []point {
	var out []point
	for i := range s.P.Curve {
		c := &s.P.Curve[i]
		last := i+1 == len(s.P.Curve) || len(s.P.Curve[i+1].Sizes) != len(c.Sizes)
		taken := i == s.P.Taken
		if taken || c.Refused != "" || last && !s.same(c) {
			out = append(out, point{c, taken})
		}
	}
	return out
}

// same tells whether a choice buys what the one taken does.
func (s Sheet) same(c *purchase.Choice) bool {
	t := s.taken()
	return t != nil && slices.Equal(c.Sizes, t.Sizes) && c.Reels == t.Reels && math.Abs(float64(c.Copper-t.Copper)) < 1
}

// rows are the points that have a row of their own: all where they are few, else those about the one taken, those
// that were refused, and both ends.
func (s Sheet) rows() []point {
	all := s.points()
	at := slices.IndexFunc(all, func(p point) bool { return p.taken })
	var out []point
	for i, p := range all {
		if near := i-at <= rowsAbout && at-i <= rowsAbout; len(all) <= mostRows || near || p.refused() || i == 0 || i == len(all)-1 {
			out = append(out, p)
		}
	}
	return out
}

// mass is copper in the unit of the sheet: kilograms or pounds.
func (s Sheet) mass(g unit.Gram) float64 {
	if s.Imperial {
		return float64(g) / gramsInPound
	}
	return float64(g) / 1000
}

const gramsInPound = 453.59237 // exact by definition

func (s Sheet) massUnit() string {
	if s.Imperial {
		return "lb"
	}
	return "kg"
}

// weight is a mass with its unit, two figures after the point: "5.78 kg".
func (s Sheet) weight(g unit.Gram) string {
	return page.Figure(s.mass(g), 2) + page.NoBreak + s.massUnit()
}

// sizesOf lists sizes without their unit, which stands at the head of the column: "0.5 1 3 6".
func sizesOf(gauges []unit.Gauge) string {
	var out []string
	for _, g := range gauges {
		size, _, _ := strings.Cut(g.String(), " ")
		out = append(out, size)
	}
	return strings.Join(out, " ")
}

// sizeUnit is the unit that sizes have in common, "" where they have several.
func (s Sheet) sizeUnit() string {
	unit := ""
	for _, c := range s.P.Curve {
		for _, g := range c.Sizes {
			_, of, _ := strings.Cut(g.String(), " ")
			if unit != "" && of != unit {
				return ""
			}
			unit = of
		}
	}
	return unit
}

// sleeves is how many pairs only the number sleeve tells apart: "10 pairs at parts (3 of them by rule) and 15 in runs".
func sleeves(c *purchase.Choice) string {
	return Pairs(c.PartPairs+c.RuleParts, c.RuleParts, c.RunPairs+c.RuleRuns, c.RuleRuns)
}

// Pairs counts pairs that only the number sleeve tells apart, at parts and in runs, each with those of them that
// are alike by rule; "" for none.
func Pairs(parts, ruleParts, runs, ruleRuns int) string {
	var out []string
	add := func(n, rule int, where string) {
		if n == 0 {
			return
		}
		text := page.Counted(n, "pair")
		if len(out) > 0 {
			text = fmt.Sprint(n)
		}
		text += " " + where
		switch {
		case rule == n:
			text += " by rule"
		case rule > 0:
			text += fmt.Sprintf(" (%d of them by rule)", rule)
		}
		out = append(out, text)
	}
	add(parts, ruleParts, "at parts")
	add(runs, ruleRuns, "in runs")
	return page.And(out)
}
