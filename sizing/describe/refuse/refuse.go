// Package refuse reads names for what must not be described: restraint circuits
// (airbags, belt pretensioners), systems of high voltage, mains. In: a name, as it
// was written, and what stands beside it. Out: a verdict with the word that was
// recognised. It knows no files and no parts.
//
// The words stand in words.csv, in nine languages, each with what it may mean besides
// (column why) and where it was read; the rules are those of the list from which they come:
// abbreviations as whole words in capitals, stems where a language inflects or compounds,
// and a stop-list for the names that hold such a word and mean another thing. Where a word
// is both, the row says whether it is refused, advised on, or left to the figures
// (60 V DC as in IEC 61140, 30 V AC; see figure.go).
package refuse

import (
	"slices"
	"strings"
)

// Subject is what a name speaks of.
type Subject string

// The subjects. The first three are refused; where a word only may mean an airbag's part,
// Verdict.Refused is false. The others are normal parts of a vehicle.
const (
	Restraint   Subject = "restraint"
	HighVoltage Subject = "high voltage"
	Mains       Subject = "mains"
	LowSide     Subject = "low side" // an inverter or charger of which one side has 60 V or more
	Spark       Subject = "spark"    // leads and coils of the ignition, lamps with a ballast
)

// Name is a name to be read.
type Name struct {
	Text   string
	Beside []string // other names of the same thing: they may spell an abbreviation out
	Model  bool     // of a vehicle: its letters are no abbreviations and its figures no voltages
	Rated  bool     // of a component whose figures are ratings, such as a capacitor's
}

// Verdict is what a name was found to speak of.
type Verdict struct {
	Subject  Subject
	Refused  bool
	Found    string // the stretch of the name, as written
	Word     string // the word of the table, or the figure
	Language string // in words; "" for a figure
}

// Read gives the gravest thing that a name speaks of; ok is false where it speaks of none.
func Read(n Name) (v Verdict, ok bool) {
	f := fold(n.Text)
	all := words(n, &f)
	if v, ok := figures(n, &f); ok {
		all = append(all, v)
	}
	if len(all) == 0 {
		return Verdict{}, false
	}
	return slices.MinFunc(all, graver), true
}

// graver puts refusals first, then restraint before the others, then the longer find.
func graver(a, b Verdict) int {
	if a.Refused != b.Refused {
		if a.Refused {
			return -1
		}
		return 1
	}
	if d := slices.Index(gravity, a.Subject) - slices.Index(gravity, b.Subject); d != 0 {
		return d
	}
	if d := len(b.Found) - len(a.Found); d != 0 {
		return d
	}
	return off(a) - off(b)
}

// off is how much longer or shorter the word is than what was found.
func off(v Verdict) int { return max(len(v.Word)-len(v.Found), len(v.Found)-len(v.Word)) }

var gravity = []Subject{Restraint, Mains, HighVoltage, LowSide, Spark}

// words looks for every word of the table outside the stop-list.
func words(n Name, f *folded) []Verdict {
	t := table()
	gone := make([]bool, len(f.letters))
	for i := range t.stop {
		t.stop[i].strike(f, gone)
	}
	var out []Verdict
	for i := range t.look {
		if v, ok := t.look[i].read(n, f, gone); ok {
			out = append(out, v)
		}
	}
	return out
}

// strike takes what the stop-list names out of the text.
func (e *entry) strike(f *folded, gone []bool) {
	for _, p := range e.patterns {
		for from, to, ok := p.find(f, gone); ok; from, to, ok = p.find(f, gone) {
			for i := from; i < to; i++ {
				gone[i] = true
			}
		}
	}
}

func (e *entry) read(n Name, f *folded, gone []bool) (Verdict, bool) {
	for _, p := range e.patterns {
		if n.Model && p.capital {
			continue
		}
		from, to, ok := p.find(f, gone)
		if !ok || p.capital && spelt(p, n, f, from, to) {
			continue
		}
		v := Verdict{Subject: e.subject, Refused: e.action == refuse, Found: f.written(from, to), Word: e.word, Language: e.language}
		if !stands(e.unless, f) {
			return v, true
		}
		if e.instead == "" {
			return Verdict{}, false
		}
		v.Subject, v.Refused = e.instead, false
		return v, true
	}
	return Verdict{}, false
}

// stands tells whether one of some patterns stands in a text.
func stands(some []pattern, f *folded) bool {
	free := make([]bool, len(f.letters))
	return slices.ContainsFunc(some, func(p pattern) bool { _, _, ok := p.find(f, free); return ok })
}

// spelt tells whether a name spells its abbreviation out as something else: SIR beside
// "Alarm siren", HV beside "Heater valve". What it spells is judged as a name itself.
func spelt(p pattern, n Name, f *folded, from, to int) bool {
	short := string(f.letters[from:to])
	inside := string(f.text[:f.from[from]]) + " " + string(f.text[f.from[to-1]+1:])
	return slices.ContainsFunc(append([]string{inside}, n.Beside...), func(long string) bool {
		if !spells(long, short) {
			return false
		}
		v, ok := Read(Name{Text: long})
		return !ok || v.Subject != Restraint && v.Subject != HighVoltage
	})
}

// spells tells whether the letters of an abbreviation begin words, in whatever order
// ("Right side indicator": SIR), one or several letters a word; two letters may also lie
// in one compound ("Hauptverteiler": HV).
func spells(long, short string) bool {
	f := fold(long)
	var all []string
	for i := 0; i < len(f.letters) && len(all) < mostWords; i = f.next(i + 1) {
		all = append(all, string(f.letters[i:f.next(i+1)]))
	}
	return made(short, all) || slices.ContainsFunc(all, func(w string) bool {
		return len(short) == 2 && len(w) > 7 && w[0] == short[0] && strings.Contains(w[1:], short[1:])
	})
}

// mostWords bounds the words of a name that are tried for an abbreviation.
const mostWords = 12

// made tells whether a text is made of the beginnings of words, each used once; a word
// that is the text itself does not count.
func made(text string, words []string) bool {
	if text == "" {
		return true
	}
	for i, w := range words {
		for n := 1; n <= min(len(text), len(w)-1); n++ {
			if strings.HasPrefix(text, w[:n]) && made(text[n:], slices.Concat(words[:i], words[i+1:])) {
				return true
			}
		}
	}
	return false
}
