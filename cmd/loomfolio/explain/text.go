package explain

import (
	"fmt"
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Columns of a line: the label's and the text's; two blanks stand before and
// one between.
const (
	labelWidth = 14
	textWidth  = 82
)

// line prints a label and a text beside it, broken at blanks.
func (x *explainer) line(label, format string, args ...any) {
	if utf8.RuneCountInString(label) > labelWidth {
		fmt.Fprintf(x.w, "  %s\n", label)
		label = ""
	}
	for _, part := range wrap(fmt.Sprintf(format, args...), textWidth) {
		fmt.Fprintf(x.w, "  %s %s\n", padded(label, labelWidth), part)
		label = ""
	}
}

// padded fills a text with blanks to a width in characters.
func padded(s string, width int) string {
	return s + strings.Repeat(" ", max(0, width-utf8.RuneCountInString(s)))
}

// wrap breaks a text at blanks to a width in characters; a figure stays with
// its unit.
func wrap(text string, width int) []string {
	var out []string
	line := ""
	for _, word := range firm(strings.Fields(text)) {
		if line != "" && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width {
			out = append(out, line)
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(out, line)
}

// firm joins a figure and the unit that follows it to one word.
func firm(words []string) []string {
	var out []string
	for _, w := range words {
		n := len(out)
		if n > 0 && isFigure(out[n-1]) && isUnit(w) {
			out[n-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

func isFigure(word string) bool {
	word = strings.TrimLeft(word, "(-")
	return word != "" && strings.Trim(word, "0123456789./") == ""
}

func isUnit(word string) bool {
	switch strings.TrimRight(word, ".,;:)") {
	case "A", "V", "mV", "mA", "Ω", "mΩ", "mm", "mm²", "m", "ft", "in", "ga", "AWG", "°C", "°F", "%", "s", "N", "lbf", "W":
		return true
	}
	return false
}

func (x *explainer) length(mm unit.Millimetre) string {
	return unit.LengthText(mm, x.h.Sheet.Imperial)
}

// fine is a small length: to a tenth of a millimetre or a sixteenth of an inch.
func (x *explainer) fine(mm unit.Millimetre) string {
	if x.h.Sheet.Imperial {
		return unit.FineText(mm)
	}
	return fmt.Sprintf("%.1f mm", float64(mm))
}

// across is the diameter of a wire: to a tenth of a millimetre or a hundredth of an inch.
func (x *explainer) across(mm unit.Millimetre) string {
	if x.h.Sheet.Imperial {
		return fmt.Sprintf("%.2f in", float64(mm)/25.4)
	}
	return fmt.Sprintf("%.1f mm", float64(mm))
}

// celsius gives a temperature; on an imperial sheet in °F first, since the
// sheets and the classes of insulation speak in °C.
func (x *explainer) celsius(c unit.Celsius) string {
	text := fmt.Sprintf("%.0f °C", float64(c))
	if x.h.Sheet.Imperial {
		return fmt.Sprintf("%.0f °F (%s)", float64(c)*9/5+32, text)
	}
	return text
}

// force gives newtons, or pounds on an imperial sheet.
func (x *explainer) force(newton float64) string {
	if x.h.Sheet.Imperial {
		return fmt.Sprintf("%.0f lbf", newton/4.4482216152605)
	}
	return fmt.Sprintf("%.0f N", newton)
}

// volts gives a drop: hundredths of a volt, millivolts below a tenth.
func volts(v unit.Volt) string {
	if math.Abs(float64(v)) < 0.0995 {
		return fmt.Sprintf("%.3g mV", 1000*float64(v)+0)
	}
	return fmt.Sprintf("%.2f V", float64(v))
}

// amps gives a current: three digits.
func amps(a float64) string { return unit.Ampere(a).String() }

// capital begins a sentence: its first letter is raised, unless the first word is a name or has a figure.
func capital(s string) string {
	word, _, _ := strings.Cut(s, " ")
	if word == "" || strings.ToLower(word) != word || strings.ContainsAny(word, "0123456789.") {
		return s
	}
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

func orDash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

// citation is what some sources say something about.
type citation struct {
	about string
	keys  []string
}

func (x *explainer) cite(about string, keys ...string) {
	x.cited = append(x.cited, citation{about, keys})
}

// printSources prints each source once, under what it was first cited for.
func (x *explainer) printSources() {
	label := "sources"
	for _, c := range x.cited {
		var texts []string
		for _, s := range rating.SourcesOf(c.keys) {
			if !x.printed[s.Key] {
				x.printed[s.Key] = true
				texts = append(texts, cited(s))
			}
		}
		for _, text := range texts {
			x.line(label, "%s: %s", c.about, text)
			label = ""
		}
	}
}

// cited is a source's title, with how it was come by unless the title says so.
func cited(s rating.Source) string {
	if strings.Contains(strings.ToLower(s.Title), string(s.Status)) {
		return s.Title
	}
	return fmt.Sprintf("%s (%s)", s.Title, s.Status)
}
