//lint:file-ignore ST1005 These errors are printed as whole sentences behind a place in the file.

package describe

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// key is one key of a section of the file: its name, what it holds, and how
// that is taken in. The tables of keys are the only place that names them.
type key[T any] struct {
	name  string
	holds string   // what belongs there, for people
	words []string // the words that are allowed, where only those are
	must  bool
	take  func(r *reader, e entry, into *T)
}

// needed marks a key without which the section says nothing.
func needed[T any](k key[T]) key[T] {
	k.must = true
	return k
}

// free holds text over any number of lines.
func free[T any](name, holds string, at func(*T) *Word) key[T] {
	return key[T]{name: name, holds: holds, take: func(r *reader, e entry, into *T) {
		*at(into), _ = r.scalar(e, holds)
	}}
}

// word holds text on one line.
func word[T any](name, holds string, at func(*T) *Word) key[T] {
	return key[T]{name: name, holds: holds, take: func(r *reader, e entry, into *T) {
		*at(into), _ = r.line(e, holds)
	}}
}

// choice holds one of a few words; capitals do not matter, the word is given
// as the list spells it.
func choice[T any](name string, words []string, at func(*T) *Word) key[T] {
	holds := "one of " + strings.Join(words, ", ")
	return key[T]{name: name, holds: holds, words: words, take: func(r *reader, e entry, into *T) {
		if w, ok := r.line(e, holds); ok {
			*at(into) = r.among(e.key.Text, w, words)
		}
	}}
}

// among checks a word against a list; an unknown one is reported and kept.
func (r *reader) among(what string, w Word, words []string) Word {
	for _, known := range words {
		if strings.EqualFold(w.Text, known) {
			return Word{Text: known, Span: w.Span}
		}
	}
	r.say(w.Span, "unknown-word", fmt.Sprintf("%q is no %s that is known", w.Text, what), guess(w.Text, words)+"It is one of: "+strings.Join(words, ", ")+".")
	return w
}

// guess is a sentence that names the word that was perhaps meant, or "".
func guess(word string, names []string) string {
	if near := source.Nearest(word, names); near != "" {
		return fmt.Sprintf("Did you mean %q? ", near)
	}
	return ""
}

// flag holds true or false; other words for them are refused, since some
// programs read them as flags and others as names.
func flag[T any](name string, at func(*T) *Value[bool]) key[T] {
	return key[T]{name: name, holds: "true or false", take: func(r *reader, e entry, into *T) {
		*at(into) = value(r, e, "true or false", parseFlag)
	}}
}

func parseFlag(text string) (bool, error) {
	switch text {
	case "true":
		return true, nil
	case "false":
		return false, nil
	}
	detail := "Write true or false."
	switch strings.ToLower(text) {
	case "yes", "on", "y", "true":
		detail = "Write true."
	case "no", "off", "n", "false":
		detail = "Write false."
	}
	return false, &refusal{"bad-flag", fmt.Sprintf("%q is neither true nor false", text), detail}
}

// quantity holds a number with its unit.
func quantity[T, Q any](name, holds string, at func(*T) *Value[Q], parse func(string) (Q, error)) key[T] {
	return key[T]{name: name, holds: holds, take: func(r *reader, e entry, into *T) {
		*at(into) = value(r, e, holds, parse)
	}}
}

// The quantities, each with the words that messages use for it.
func amps[T any](name string, at func(*T) *Value[unit.Ampere]) key[T] {
	return quantity(name, "a current, such as 20 A", at, unit.ParseAmpere)
}

func volts[T any](name string, at func(*T) *Value[unit.Volt]) key[T] {
	return quantity(name, "a voltage, such as 13.5 V", at, parseVolts)
}

func ohms[T any](name string, at func(*T) *Value[unit.Ohm]) key[T] {
	return quantity(name, "a resistance, such as 5 mohm", at, unit.ParseOhm)
}

func length[T any](name string, at func(*T) *Value[unit.Millimetre]) key[T] {
	return quantity(name, "a length, such as 1.2 m or 4 ft", at, unit.ParseLength)
}

// stretchOf is a length that cannot be nothing.
func stretchOf[T any](name string, at func(*T) *Value[unit.Millimetre]) key[T] {
	return quantity(name, "a length, such as 1.2 m or 4 ft", at, parseStretch)
}

func counted[T any](name, holds string, at func(*T) *Value[int]) key[T] {
	return quantity(name, holds, at, parseCount)
}

func share[T any](name string, at func(*T) *Value[unit.Fraction]) key[T] {
	return quantity(name, "a share, such as 10 %", at, unit.ParseFraction)
}

func degrees[T any](name string, at func(*T) *Value[unit.Celsius]) key[T] {
	return quantity(name, "a temperature, such as 95 C", at, unit.ParseCelsius)
}

func draw[T any](name string, at func(*T) *Value[unit.Draw]) key[T] {
	return quantity(name, "what a load takes, such as 20 A or 35 W", at, parseDraw)
}

func gauge[T any](name string, at func(*T) *Value[unit.Gauge]) key[T] {
	return key[T]{name: name, holds: holdsGauge, take: func(r *reader, e entry, into *T) { *at(into) = r.gauge(e) }}
}

// list holds words; custom shapes name their own reader.
func list[T any](name, holds string, at func(*T) *[]Word, read func(*reader, entry, string) []Word) key[T] {
	return custom(name, holds, func(r *reader, e entry, into *T) { *at(into) = read(r, e, holds) })
}

func custom[T any](name, holds string, take func(r *reader, e entry, into *T)) key[T] {
	return key[T]{name: name, holds: holds, take: take}
}

// within holds a mapping that has a table of keys of its own.
func within[T, S any](name string, keys []key[S], at func(*T) *S) key[T] {
	return custom(name, "keys with values: "+listOf(keys), func(r *reader, e entry, into *T) { read(r, e, keys, at(into)) })
}

func listOf[T any](keys []key[T]) string { return strings.Join(namesOf(keys), ", ") }

func namesOf[T any](keys []key[T]) []string {
	out := make([]string, len(keys))
	for i := range keys {
		out[i] = keys[i].name
	}
	return out
}

// read takes in a mapping by its table of keys, and reports what is missing.
func read[T any](r *reader, e entry, keys []key[T], into *T) {
	wants := "keys with values: " + listOf(keys)
	if e.value.Kind != yaml.MappingNode {
		r.entries(e, wants, false)
		return
	}
	es := r.entries(e, wants, false)
	take(r, es, keys, into)
	r.demand(e, es, mustOf(keys))
}

// take hands each entry to its key; unknown ones are reported.
func take[T any](r *reader, es []entry, keys []key[T], into *T) {
	for _, e := range es {
		i := slices.IndexFunc(keys, func(k key[T]) bool { return k.name == e.key.Text })
		if i < 0 {
			r.unknownKey(e.key, namesOf(keys))
			continue
		}
		keys[i].take(r, e, into)
	}
}

func mustOf[T any](keys []key[T]) []string {
	var out []string
	for _, k := range keys {
		if k.must {
			out = append(out, k.name)
		}
	}
	return out
}

// demand reports the needed keys that are not there, at the key of what lacks
// them, or at the mapping itself where it is an item of a list.
func (r *reader) demand(e entry, es []entry, must []string) {
	at := e.key.Span
	if e.item || !at.Known() {
		at = r.span(e.value)
	}
	for _, name := range must {
		if slices.ContainsFunc(es, func(x entry) bool { return x.key.Text == name }) {
			continue
		}
		r.say(at, "missing-key", fmt.Sprintf("%s lacks the key %q", titleOf(e), name), fmt.Sprintf("Add %s: with its value; it cannot be left out.", name))
	}
}

func titleOf(e entry) string {
	switch {
	case e.key.Text == "":
		return "the file"
	case e.item:
		return fmt.Sprintf("this entry of %q", e.key.Text)
	}
	return fmt.Sprintf("%q", e.key.Text)
}

// habits are words that people use for a key, with the key that is meant.
var habits = map[string]string{
	"amps": "draws", "current": "draws", "load": "draws", "watts": "draws", "power": "draws", "place": "at", "location": "at", "where": "at",
	"size": "gauge", "awg": "gauge", "mm2": "gauge", "wire": "gauge", "fuse": "rating", "amperage": "rating", "color": "colour", "colors": "colour",
	"inrush": "starts", "surge": "starts", "type": "kind", "label": "name", "note": "notes", "comment": "notes", "pins": "cavities", "ways": "cavities",
	"ground": "return", "voltage": "volts", "author": "builder", "client": "customer", "components": "parts", "devices": "parts", "wires": "circuits",
	"nets": "circuits", "locations": "places", "looms": "runs", "branches": "runs", "modes": "states", "scenarios": "states", "drawn": "date",
}

// unknownKey reports a key that the section does not have.
func (r *reader) unknownKey(w Word, names []string) {
	meant := guess(w.Text, names)
	if h := habits[strings.ToLower(w.Text)]; meant == "" && slices.Contains(names, h) {
		meant = fmt.Sprintf("Did you mean %q? ", h)
	}
	r.say(w.Span, "unknown-key", fmt.Sprintf("the key %q is not known here", w.Text), meant+"The keys here are: "+strings.Join(names, ", ")+".")
}

const holdsGauge = "a wire size, such as 2.5 mm2, 14 ga or 12 AWG"

// gauge reads a wire size; for one given by its strands it says what it was taken for.
func (r *reader) gauge(e entry) Value[unit.Gauge] {
	v := value(r, e, holdsGauge, func(text string) (unit.Gauge, error) { return unit.ParseGauge(text, r.system) })
	if area, is := unit.StrandArea(v.Written); is && v.V.Given() {
		r.mention(source.Advice, v.Span, "size-from-strands", fmt.Sprintf("%s holds %s of metal and is taken as %s", v.Written, area, v.V),
			"Write the size itself if the wire is sold as another.")
	}
	return v
}

// parseVolts refuses voltages that this is not made for.
func parseVolts(text string) (unit.Volt, error) {
	v, err := unit.ParseVolt(text)
	if err == nil {
		err = inScope(v)
	}
	return v, err
}

// inScope refuses 60 V and above, where direct current begins to kill
// (IEC 61140 and UN Regulation 100 draw the line for DC at 60 V).
func inScope(v unit.Volt) error {
	if v < 60 {
		return nil
	}
	return &refusal{"voltage-out-of-scope", fmt.Sprintf("%s is a high voltage", v),
		"Nothing here covers 60 V and above: traction batteries, mains and inverter outputs belong to a qualified person and to other rules. Leave that circuit out."}
}

func parseDraw(text string) (unit.Draw, error) {
	d, err := unit.ParseDraw(text)
	if err == nil {
		err = inScope(d.At)
	}
	return d, err
}

func parseStretch(text string) (unit.Millimetre, error) {
	v, err := unit.ParseLength(text)
	if err == nil && v == 0 {
		err = fmt.Errorf("%q is no length; leave the key out to have it computed.", text)
	}
	return v, err
}
