package practice

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// shopTerminal takes over a terminal of the shop's own and refuses what no
// terminal can be: a range that runs backwards, a ring without a stud, a sleeve
// whose colour stands for other wires.
func (c *reader) shopTerminal(t describe.ShopTerminal) harness.ShopTerminal {
	from, to := conductor(t.From.V), conductor(t.To.V)
	out := harness.ShopTerminal{
		Fitting: fittingNames[t.Fitting.Text], From: from.Area, To: to.Area, Range: rangeText(t.From.V, t.To.V),
		Thinnest: t.Thinnest.V, Thickest: t.Thickest.V, Part: t.Part.Text, Die: t.Die.Text, Tool: t.Tool.Text,
		Sleeve: t.Sleeve.Text, Strip: t.Strip.V, Span: t.Span,
	}
	if out.From > out.To {
		c.Fail("terminal-range", t.To.Span, "write the thinnest wire that it takes under from: and the thickest under to:",
			"%s takes wires from %s to %s, which is thinner", out.Part, t.From.V, t.To.V)
	}
	if out.Thinnest > 0 && out.Thickest > 0 && out.Thinnest > out.Thickest {
		c.Fail("terminal-range", t.Thickest.Span, "write the thinnest insulation under insulation-from: and the thickest under insulation-to:",
			"the insulation grip of %s ends at %s, below its beginning of %s", out.Part, out.Thickest, out.Thinnest)
	}
	c.shopSize(t, &out)
	c.shopSleeve(t, from, to)
	return out
}

// fittingNames are the words of package joint for those of the format.
var fittingNames = map[string]string{
	"ring": "ring", "receptacle": "receptacle", "contact": "contact", "butt": "butt splice", "bullet": "bullet", "ferrule": "ferrule", "splice": "splice barrel",
}

// shopSize says what a terminal goes onto.
func (c *reader) shopSize(t describe.ShopTerminal, out *harness.ShopTerminal) {
	switch t.Fitting.Text {
	case "ring":
		out.Size = t.Stud.Text
		if _, known := rating.StudOf(out.Size); !known {
			at := t.Stud.Span
			if !t.Stud.Given() {
				at = t.Span
			}
			c.Fail("terminal-without-size", at, "write stud: M3 to M12, #6, #8, #10, 1/4, 5/16, 3/8 or 1/2", "the ring %s names no stud that is known", out.Part)
		}
	case "receptacle":
		out.Size = strings.TrimSuffix(t.Tab.Text, " mm")
		if rating.TabInch(out.Size) == "" {
			at := t.Tab.Span
			if !t.Tab.Given() {
				at = t.Span
			}
			c.Fail("terminal-without-size", at, "write tab: 2.8, 4.8, 6.3 or 9.5 (IEC 61210)", "the female spade %s names no tab that is known", out.Part)
		}
	case "contact":
		out.Size = t.Family.Text
	}
}

// shopSleeve holds the sleeve's colour against the wires that the terminal is for.
func (c *reader) shopSleeve(t describe.ShopTerminal, from, to rating.Conductor) {
	if !t.Sleeve.Given() {
		return
	}
	for _, x := range []rating.Conductor{from, to} {
		if x.Area > 0 && !rating.SleeveFits(t.Sleeve.Text, x) {
			takes := "red takes 22 to 16 gauge, blue 16 to 14, yellow 12 to 10"
			if !c.sheet.Imperial {
				takes = "red takes 22 to 16 gauge (0.5 to 1.5 mm²), blue 16 to 14 (1.5 to 2.5 mm²), yellow 12 to 10 (4 to 6 mm²)"
			}
			c.Fail("terminal-sleeve", t.Sleeve.Span, takes+"; leave sleeve: out for an uninsulated barrel",
				"a %s sleeve is not made for %s", t.Sleeve.Text, x.Gauge)
			return
		}
	}
}

func conductor(g unit.Gauge) rating.Conductor {
	c, _ := rating.AnyConductor(g)
	return c
}

// rangeText is a range of sizes, the unit once where both have the same.
func rangeText(from, to unit.Gauge) string {
	if from == to {
		return from.String()
	}
	if from.System == to.System {
		_, word, _ := strings.Cut(to.String(), " ")
		return fmt.Sprintf("%s-%s %s", from.Size, to.Size, word)
	}
	return from.String() + "-" + to.String()
}
