//lint:file-ignore ST1005 These errors are printed as whole sentences behind a place in the file.

package describe

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/unit"
)

// Measured is one reading of a meter on the vehicle as it is.
type Measured struct {
	At    read.Word             // a point, or two with a dash between: FAN.+, F3-FAN.+
	Volts read.Value[unit.Volt] // below 0 with the leads the other way round
	Ohms  read.Value[unit.Ohm]  // with the battery off; +Inf where the meter shows no end of it
	State read.Word             // of volts; not given: everything at rest
	Bad   bool                  // it could not be read, which is said
}

const (
	holdsMeasured = "a reading for each point, such as FAN.+: 10.8 V @ driving, or G3: 0.4 ohm"
	holdsReading  = "volts with a state, such as 10.8 V @ driving, or ohms with the battery off, such as 0.4 ohm, or open"
)

// measuredKeys are those of a reading that is written as a mapping.
var measuredKeys = []read.Key[Measured]{
	read.Quantity("volts", "what a meter shows, such as 10.8 V or -0.2 V", func(m *Measured) *read.Value[unit.Volt] { return &m.Volts }, parseReadVolts),
	read.Quantity("ohms", "what a meter shows with the battery off, such as 0.4 ohm, or open", func(m *Measured) *read.Value[unit.Ohm] { return &m.Ohms }, parseReadOhms),
	read.Line("state", "a state in which the volts were read", func(m *Measured) *read.Word { return &m.State }),
}

// takeMeasured reads the readings: one a point, or a list of them.
func takeMeasured(r *read.Reader, e read.Entry, d *Description) {
	for _, x := range r.Entries(e, holdsMeasured, false) {
		if x.IsList() {
			for _, item := range r.Items(x, "a list of readings, such as [12.4 V @ parked, 10.8 V @ driving]") {
				d.Measured = append(d.Measured, measured(r, x.Key, item))
			}
			continue
		}
		d.Measured = append(d.Measured, measured(r, x.Key, x))
	}
}

// measured reads one reading.
func measured(r *read.Reader, at read.Word, e read.Entry) Measured {
	m, before := Measured{At: at}, r.Said()
	if e.IsMap() {
		read.Mapping(r, e, measuredKeys, &m)
		if r.Said() == before && m.Volts.Given() == m.Ohms.Given() {
			r.Say(r.Place(e), "wrong-shape", fmt.Sprintf("the reading at %q is neither volts nor ohms alone", at.Text), "Write "+holdsReading+".")
		}
	} else if w, ok := r.Line(e, holdsReading); ok {
		m.take(r, e, w)
	}
	if r.Said() == before && m.Ohms.Given() && m.State.Given() {
		r.Say(m.State.Span, "wrong-shape", "ohms are read with the battery off: they have no state", "Leave the state out.")
	}
	m.Bad = r.Said() > before
	return m
}

// take reads "10.8 V @ driving", "0.4 ohm" or "open".
func (m *Measured) take(r *read.Reader, e read.Entry, w read.Word) {
	figure, state, has := strings.Cut(w.Text, "@")
	figure = strings.TrimSpace(figure)
	if has {
		if state = strings.TrimSpace(state); state == "" {
			r.Say(w.Span, "bad-quantity", fmt.Sprintf("%q names no state behind the @", w.Text), "Write "+holdsReading+".")
			return
		}
		m.State = r.Piece(w, e, state, strings.Index(w.Text, "@")+1)
	}
	if ohms, err := parseReadOhms(figure); err == nil {
		m.Ohms = read.Value[unit.Ohm]{V: ohms, Written: figure, Span: w.Span}
		return
	}
	volts, err := parseReadVolts(figure)
	if err != nil {
		r.Say(w.Span, "bad-quantity", fmt.Sprintf("%q cannot be read as a reading", w.Text), "Write "+holdsReading+". "+upper(err.Error()))
		return
	}
	m.Volts = read.Value[unit.Volt]{V: volts, Written: figure, Span: w.Span}
}

// mostRead is the highest voltage that a reading may have, V: what is above is not described here.
const mostRead = 60

// parseReadVolts reads what a meter shows, which may be nothing or below it.
func parseReadVolts(text string) (unit.Volt, error) {
	body, sign := strings.TrimSpace(strings.NewReplacer("−", "-", "–", "-").Replace(text)), unit.Volt(1)
	if rest, ok := strings.CutPrefix(body, "-"); ok {
		body, sign = strings.TrimSpace(rest), -1
	} else if rest, ok := strings.CutPrefix(body, "+"); ok {
		body = strings.TrimSpace(rest)
	}
	if nothing(body, "v", "mv", "volt", "volts") {
		return 0, nil
	}
	v, err := unit.ParseVolt(body)
	if err == nil && v >= mostRead {
		err = fmt.Errorf("%s is outside the scope, which ends below %d V DC.", v, mostRead)
	}
	return sign * v, err
}

// parseReadOhms reads what a meter shows; "open" or "OL" is no end of ohms.
func parseReadOhms(text string) (unit.Ohm, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "open", "ol", "o.l", "o.l.", "infinite":
		return unit.Ohm(math.Inf(1)), nil
	}
	return unit.ParseOhm(text)
}

// nothing tells a figure of 0, however many digits, with one of some units.
func nothing(text string, units ...string) bool {
	digits := strings.TrimLeft(text, "0.,")
	if digits == text || strings.ContainsAny(digits, "123456789") {
		return false
	}
	for _, u := range units {
		if strings.EqualFold(strings.TrimSpace(digits), u) {
			return true
		}
	}
	return false
}

func upper(text string) string { return strings.ToUpper(text[:1]) + text[1:] }
