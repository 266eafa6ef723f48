package bench

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Exact by definition.
const (
	millimetresInInch = 25.4
	millimetresInFoot = 304.8
	newtonsInPound    = 4.4482216152605
)

const noBreak = "\u00a0"

// firm keeps a text in one line.
func firm(s string) string { return strings.ReplaceAll(s, " ", noBreak) }

// length is a cell's length without its unit where the column has it: "2 785", or "9 ft 1 5/8 in".
func length(mm unit.Millimetre, imperial bool) string {
	text := unit.LengthText(mm, imperial)
	if imperial {
		return text
	}
	return firm(strings.TrimSuffix(text, " mm"))
}

// size is a small length to a tenth of a millimetre, or to a sixteenth of an inch: "6.5", or "1/4 in".
func size(mm unit.Millimetre, imperial bool) string {
	if imperial {
		return unit.FineText(mm)
	}
	return trimmed(float64(mm), 1)
}

// lengthUnit is what stands under the title of a column of lengths.
func lengthUnit(imperial bool) string {
	if imperial {
		return "ft, in"
	}
	return "mm"
}

func sizeUnit(imperial bool) string {
	if imperial {
		return "in"
	}
	return "mm"
}

// metres is a sum of lengths: "11.42 m", or "37.5 ft".
func metres(mm unit.Millimetre, imperial bool) string {
	return bare(mm, imperial) + noBreak + longUnit(imperial)
}

// bare is metres without the unit, for a column that has it.
func bare(mm unit.Millimetre, imperial bool) string {
	if imperial {
		return fmt.Sprintf("%.1f", float64(mm)/millimetresInFoot)
	}
	return fmt.Sprintf("%.2f", math.Round(float64(mm)/10)/100)
}

// toBuy is a length to buy, never below it: "12 m", or "39.4 ft".
func toBuy(mm unit.Millimetre, imperial bool) string {
	return bareToBuy(mm, imperial) + noBreak + longUnit(imperial)
}

func bareToBuy(mm unit.Millimetre, imperial bool) string {
	per := 1000.0
	if imperial {
		per = millimetresInFoot
	}
	return trimmed(max(0, math.Ceil(float64(mm)/per*10-1e-6)/10), 1)
}

// longUnit is the unit of long lengths.
func longUnit(imperial bool) string {
	if imperial {
		return "ft"
	}
	return "m"
}

// trimmed prints a number to some places without needless zeros.
func trimmed(x float64, places int) string {
	text := strconv.FormatFloat(x, 'f', places, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// joined puts a middle dot between the parts that are not empty.
func joined(parts ...string) string { return list(" · ", parts...) }

func list(between string, parts ...string) string {
	var kept []string
	for _, p := range parts {
		if p != "" {
			kept = append(kept, p)
		}
	}
	return strings.Join(kept, between)
}

// capital sets a word's first letter large.
func capital(s string) string {
	if s == "" {
		return ""
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// ranged prints a range of sizes so that it stays in one line: "1.5 – 2.5 mm²".
func ranged(s string) string { return firm(dashed(s)) }

var rangeOfSizes = regexp.MustCompile(`(\d)-(\d[\d.]*) (mm²|AWG)`)

// dashed sets the range of sizes in a text with a dash: "red, 1.5 – 2.5 mm²".
func dashed(s string) string {
	return rangeOfSizes.ReplaceAllString(strings.ReplaceAll(s, "mm2", "mm²"), "$1"+noBreak+"–"+noBreak+"$2"+noBreak+"$3")
}

// wall is the insulation as a second line.
func wall(insulation string) string { return strings.ReplaceAll(insulation, "-", " ") }

// names lists wires by name.
func names(a page.Ask, wires []harness.WireID) string {
	out := make([]string, len(wires))
	for i, w := range wires {
		out[i] = firm(a.H.Wires[w].Name)
	}
	return strings.Join(out, ", ")
}

// place is where a part sits in plain words; "" when it has no place.
func place(a page.Ask, p *harness.Part) string {
	if p.Place == harness.None && p.Along != nil {
		r := a.H.Runs[p.Along.Run]
		return "on the run " + a.H.Places[r.From].Name + " – " + a.H.Places[r.To].Name
	}
	return a.At(p)
}

// called is a part's plain name where it says more than the reference.
func called(p *harness.Part) string {
	if p.Name == p.Ref {
		return ""
	}
	return p.Name
}

// piece is a short length with its unit: "30 mm", or "1 3/16 in".
func piece(mm unit.Millimetre, imperial bool) string {
	if imperial {
		return firm(unit.FineText(mm))
	}
	return trimmed(float64(mm), 1) + noBreak + "mm"
}
