package page

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Lengths in a unit of the inch; exact by definition.
const (
	MillimetresInInch = 25.4
	millimetresInFoot = 304.8
)

// Heights of a line of text, and of one in the size of notes, mm.
const (
	LineHigh = sheet.SizeBody * typeface.Leading
	NoteHigh = sheet.SizeNote * typeface.Leading
)

// NoBreak is the blank at which no line ends.
const NoBreak = "\u00a0"

// Firm keeps a text in one line.
func Firm(s string) string { return strings.ReplaceAll(s, " ", NoBreak) }

// Length is a cell's length without its unit where the column has it: "2 785", or "9 ft 1 5/8 in".
func Length(mm unit.Millimetre, imperial bool) string {
	text := unit.LengthText(mm, imperial)
	if imperial {
		return text
	}
	return Firm(strings.TrimSuffix(text, " mm"))
}

// Size is a small length to a tenth of a millimetre, or to a sixteenth of an inch: "6.5", or "1/4 in".
func Size(mm unit.Millimetre, imperial bool) string {
	if imperial {
		return unit.FineText(mm)
	}
	return Trimmed(float64(mm), 1)
}

// LengthUnit is what stands under the title of a column of lengths.
func LengthUnit(imperial bool) string {
	if imperial {
		return "ft, in"
	}
	return "mm"
}

// SizeUnit is what stands under the title of a column of small lengths.
func SizeUnit(imperial bool) string {
	if imperial {
		return "in"
	}
	return "mm"
}

// Metres is a sum of lengths: "11.42 m", or "37.5 ft".
func Metres(mm unit.Millimetre, imperial bool) string {
	return Bare(mm, imperial) + NoBreak + LongUnit(imperial)
}

// Bare is Metres without the unit, for a column that has it.
func Bare(mm unit.Millimetre, imperial bool) string {
	if imperial {
		return fmt.Sprintf("%.1f", float64(mm)/millimetresInFoot)
	}
	return fmt.Sprintf("%.2f", math.Round(float64(mm)/10)/100)
}

// ToBuy is a length to buy, never below it: "12 m", or "39.4 ft".
func ToBuy(mm unit.Millimetre, imperial bool) string {
	return BareToBuy(mm, imperial) + NoBreak + LongUnit(imperial)
}

// BareToBuy is ToBuy without the unit, for a column that has it.
func BareToBuy(mm unit.Millimetre, imperial bool) string {
	per := 1000.0
	if imperial {
		per = millimetresInFoot
	}
	return Trimmed(max(0, math.Ceil(float64(mm)/per*10-1e-6)/10), 1)
}

// LongUnit is the unit of long lengths.
func LongUnit(imperial bool) string {
	if imperial {
		return "ft"
	}
	return "m"
}

// Trimmed prints a number to some places without needless zeros.
func Trimmed(x float64, places int) string {
	text := strconv.FormatFloat(x, 'f', places, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// Dotted puts a middle dot between the parts that are not empty.
func Dotted(parts ...string) string { return List(" · ", parts...) }

// List joins the parts that are not empty.
func List(between string, parts ...string) string {
	var kept []string
	for _, p := range parts {
		if p != "" {
			kept = append(kept, p)
		}
	}
	return strings.Join(kept, between)
}

// Ranged prints a range of sizes so that it stays in one line: "1.5 – 2.5 mm²".
func Ranged(s string) string { return Firm(Dashed(s)) }

var rangeOfSizes = regexp.MustCompile(`(\d)-(\d[\d.]*) (mm²|AWG)`)

// Dashed sets the range of sizes in a text with a dash: "red, 1.5 – 2.5 mm²".
func Dashed(s string) string {
	return rangeOfSizes.ReplaceAllString(strings.ReplaceAll(s, "mm2", "mm²"), "$1"+NoBreak+"–"+NoBreak+"$2"+NoBreak+"$3")
}

// Wall is the insulation as a second line.
func Wall(insulation string) string { return strings.ReplaceAll(insulation, "-", " ") }

// WireNames lists wires by name.
func WireNames(a Ask, wires []harness.WireID) string {
	out := make([]string, len(wires))
	for i, w := range wires {
		out[i] = Firm(a.H.Wires[w].Name)
	}
	return strings.Join(out, ", ")
}

// PlaceOf is where a part sits in plain words; "" when it has no place.
func PlaceOf(a Ask, p *harness.Part) string {
	if p.Place == harness.None && p.Along != nil {
		r := a.H.Runs[p.Along.Run]
		return "on the run " + a.H.Places[r.From].Name + " – " + a.H.Places[r.To].Name
	}
	return a.At(p)
}

// Called is a part's plain name where it says more than the reference.
func Called(p *harness.Part) string {
	if p.Name == p.Ref {
		return ""
	}
	return p.Name
}

// Piece is a short length with its unit: "30 mm", or "1 3/16 in".
func Piece(mm unit.Millimetre, imperial bool) string {
	if imperial {
		return Firm(unit.FineText(mm))
	}
	return Trimmed(float64(mm), 1) + NoBreak + "mm"
}

// Refs lists parts by reference.
func Refs(a Ask, parts []harness.PartID) string {
	var out []string
	for _, p := range parts {
		out = append(out, Firm(a.H.Parts[p].Ref))
	}
	return strings.Join(out, ", ")
}

// OrDash is a text, or a dash where there is none.
func OrDash(s string) string { return Or(s, "–") }

// Either is a rounded figure of a rule in the sheet's units, not to be parted.
func Either(imperial bool, inch, metric string) string {
	if imperial {
		return Firm(inch)
	}
	return Firm(metric)
}

// Across is a bundle's diameter; its column has the unit.
func Across(mm unit.Millimetre, imperial bool) table.Cell {
	if mm == 0 {
		return table.Text("–")
	}
	return table.Text(strings.TrimSuffix(Size(mm, imperial), " in"))
}
