package handed

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/handed/guess"
	"example.com/loomfolio/sizing/handed/spelt"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
)

// line is a line of the description, with the wires and the part that it comes of.
type line struct {
	text string
	rows []int
	part *part
	of   func(w *wire) *string // the cell of each wire that the line repeats
	key  string                // our name of its column
}

// draft is a description in the making.
type draft struct{ lines []line }

func (d *draft) say(text string)             { d.lines = append(d.lines, line{text: text}) }
func (d *draft) of(text string, rows ...int) { d.lines = append(d.lines, line{text: text, rows: rows}) }

func (d *draft) text() []byte {
	var b strings.Builder
	for _, l := range d.lines {
		b.WriteString(l.text + "\n")
	}
	return []byte(b.String())
}

var safeWord = regexp.MustCompile(`^[\pL\pN(/+.][\pL\pN ()/+.%°²µ"'-]*$|^-$`)

// word writes a text so that it stays what it is, also in brackets.
func word(s string) string {
	switch strings.ToLower(s) {
	case "null", "~", "":
		return `"` + s + `"`
	}
	if safeWord.MatchString(s) && s != "-" && !strings.HasPrefix(s, "...") {
		return s
	}
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
}

// wordsOf writes a list of words.
func wordsOf(list []string) string {
	var out []string
	for _, s := range list {
		out = append(out, word(s))
	}
	return "[" + strings.Join(out, ", ") + "]"
}

// cut keeps a remark to a length that lines have.
func cut(s string) string {
	const most = 300
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + " …"
	}
	return s
}

// draft writes the description.
func (m *maker) draft() *draft {
	m.reach()
	d := &draft{}
	m.head(d)
	m.drawParts(d)
	if d.say("circuits:"); len(m.wires) == 0 {
		d.lines[len(d.lines)-1].text = "circuits: {}"
	}
	for _, c := range m.circuits() {
		m.drawCircuit(d, c)
	}
	if d.lines[len(d.lines)-1].text == "circuits:" {
		d.lines[len(d.lines)-1].text = "circuits: {}"
	}
	return d
}

// head writes what stands above the parts.
func (m *maker) head(d *draft) {
	var from []string
	for _, name := range []string{m.in.WiresTable, m.in.PartsTable} {
		if name != "" {
			from = append(from, name)
		}
	}
	d.say("# Made of " + cut(strings.Join(from, " and ")) + ". Complete what says so, then see what loomfolio check says.")
	if len(m.left) > 0 {
		d.say("# What could not be understood:")
	}
	for _, l := range m.left {
		d.say("#   " + cut(l.String()))
	}
	d.say("")
	d.say("loomfolio: 1")
	d.say("title: " + word(m.in.Name))
	var sheet []string
	if m.system.imperial {
		sheet = append(sheet, "units: imperial")
	}
	if m.system.gauge != "" {
		sheet = append(sheet, "gauge: "+m.system.gauge)
	}
	if len(sheet) > 0 {
		d.say("sheet: {" + strings.Join(sheet, ", ") + "}")
	}
	earth, returning := m.poles()
	d.say("system: {volts: 12" + earth + returning + "}   # complete: the nominal voltage, 6, 12, 24 or 48")
	if m.insulation = m.family(); m.insulation != "" {
		d.say("practice: {insulation: " + word(m.insulation) + "}")
	}
	if slices.ContainsFunc(m.wires, func(w wire) bool { return w.length == "" && !m.dropped[w.row] }) {
		d.say("# complete: wires without a length need one, or the places of their parts and the runs between these")
	}
	m.drawPlaces(d)
}

// poles tells by the battery's lead to ground which pole is grounded; with no ground at
// all, every return is a wire.
func (m *maker) poles() (earth, returning string) {
	grounds := false
	for _, w := range m.wires {
		from, to := m.parts[read.Folded(w.from.Part)], m.parts[read.Folded(w.to.Part)]
		grounds = grounds || from.kind == string(harness.Ground) || to.kind == string(harness.Ground)
		for _, pair := range [][2]spelt.End{{w.from, w.to}, {w.to, w.from}} {
			a, b := m.parts[read.Folded(pair[0].Part)], m.parts[read.Folded(pair[1].Part)]
			if a.kind == string(harness.Battery) && b.kind == string(harness.Ground) && pair[0].Terminal == "+" {
				earth = ", earth: positive"
			}
		}
	}
	if !grounds && len(m.wires) > 0 {
		returning = ", return: wired"
	}
	return earth, returning
}

// family is the insulation of most wires, where all wires are of families that are known.
func (m *maker) family() string {
	count := map[string]int{}
	best := ""
	for _, w := range m.wires {
		if w.insulation != "" && known(w.insulation) {
			if count[w.insulation]++; count[w.insulation] > count[best] {
				best = w.insulation
			}
		}
	}
	return best
}

// families are the built-in wire families.
var families = strings.Fields("thin-wall-105 thin-wall-125 thick-wall-105 thick-wall-125 gpt hdt twp sxl gxl txl battery-cable")

func known(family string) bool { return slices.Contains(families, strings.ToLower(family)) }

// drawPlaces writes the places that the table of parts names.
func (m *maker) drawPlaces(d *draft) {
	m.places = map[string]string{}
	for _, p := range m.used() {
		if id := read.Folded(p.place); p.place != "" && m.places[id] == "" {
			if len(m.places) == 0 {
				d.say("places:")
			}
			m.places[id] = p.place
			d.lines = append(d.lines, line{text: "  " + word(p.place) + ": {}", part: p})
		}
	}
}

func (m *maker) drawParts(d *draft) {
	used := m.used()
	if len(used) == 0 {
		d.say("parts: {}")
		return
	}
	d.say("parts:")
	for _, p := range used {
		text := "  " + word(p.ref) + ": {" + strings.Join(m.keysOf(p), ", ") + "}"
		if p.remark != "" {
			text += "   # " + cut(p.remark)
		}
		d.lines = append(d.lines, line{text: text, rows: p.rows, part: p})
	}
}

// keysOf gives the keys of a part.
func (m *maker) keysOf(p *part) []string {
	k, free := p.kind, p.kind == guess.Unknown
	row, _ := kind.Of(harness.Kind(k))
	out := []string{"kind: " + k}
	tell := func(key, value string) {
		if value != "" {
			out = append(out, key+": "+value)
		}
	}
	if p.name != "" && p.name != p.ref {
		tell("name", word(p.name))
	}
	if p.place != "" {
		tell("at", word(m.places[read.Folded(p.place)]))
	}
	if p.notes != "" {
		tell("notes", word(p.notes))
	}
	if p.number != "" {
		tell("part-number", word(p.number))
	}
	if p.says != "" {
		return append(out, p.says)
	}
	if free {
		return out
	}
	return append(out, ownKeys(p, row)...)
}

// ownKeys gives the keys of a part that its kind has.
func ownKeys(p *part, row kind.Row) []string {
	var out []string
	tell := func(key, value string) { out = append(out, key+": "+value) }
	switch {
	case p.draws != "" && row.Fits("draws"):
		tell("draws", p.draws)
	case p.rating != "" && row.Fits("output"):
		tell("output", p.rating)
	}
	if p.rating != "" && row.Fits("rating") {
		tell("rating", p.rating)
	}
	switch row.Kind {
	case harness.Relay:
		if slices.Contains(p.terminals, "87a") {
			tell("changeover", "true")
		}
	case harness.Connector:
		tell("cavities", cavities(p.terminals))
	case harness.Switch:
		tell("positions", "{off: [], on: ["+wordsOf(p.terminals[:2])+"]}")
	}
	return out
}

// cavities gives a connector's cavities: how many, where they are numbers, else their names.
func cavities(names []string) string {
	highest := 0
	for _, n := range names {
		v, err := strconv.Atoi(n)
		if err != nil || v < 1 || v > 200 || strconv.Itoa(v) != n {
			return wordsOf(names)
		}
		highest = max(highest, v)
	}
	return strconv.Itoa(highest)
}

// drawCircuit writes a circuit.
func (m *maker) drawCircuit(d *draft, c *circuit) {
	var rows []int
	for _, l := range c.legs {
		for _, w := range l {
			rows = append(rows, w.row)
		}
	}
	d.of("  "+word(c.key)+":", rows...)
	number := c.number
	if number == "" && allDigits(c.key) {
		number = c.key
	}
	for _, f := range []struct {
		key, value string
		of         func(w *wire) *string
	}{
		{"number", number, func(w *wire) *string { return &w.number }},
		{"name", c.name, func(w *wire) *string { return &w.called }},
		{"class", c.class, func(w *wire) *string { return &w.class }},
	} {
		if f.value != "" && f.value != none {
			d.lines = append(d.lines, line{text: "    " + f.key + ": " + word(f.value), rows: rows, of: f.of, key: columnOf[f.key]})
		}
	}
	d.of("    legs:", rows...)
	for _, l := range c.legs {
		m.drawLeg(d, l)
	}
}

// columnOf names the column of a circuit's key.
var columnOf = map[string]string{"number": "circuit-number", "name": "circuit-name", "class": "class"}

// none stands in the place of what a circuit goes without.
const none = "\x00"

func allDigits(s string) bool {
	return s != "" && len(s) <= 6 && strings.Trim(s, "0123456789") == ""
}

// drawLeg writes a leg.
func (m *maker) drawLeg(d *draft, l leg) {
	var stops, notes []string
	var rows []int
	last := ""
	for _, w := range l {
		if from := m.stop(w.from); from != last {
			stops = append(stops, word(from))
		}
		last = m.stop(w.to)
		stops = append(stops, m.arrival(w))
		for _, note := range w.notes {
			if len(l) > 1 && w.name != "" {
				note = w.name + ": " + note
			}
			notes = append(notes, note)
		}
		rows = append(rows, w.row)
	}
	text := "      - [" + strings.Join(stops, ", ") + "]"
	if len(notes) > 0 {
		text += "   # " + cut(strings.Join(notes, "; "))
	}
	d.of(text, rows...)
}

// stop writes an end as a leg names it.
func (m *maker) stop(e spelt.End) string {
	if e.Terminal == "" {
		return e.Part
	}
	return e.Part + "." + e.Terminal
}

// arrival writes the stop at which a wire arrives, with what is said of the wire.
func (m *maker) arrival(w *wire) string {
	keys := []string{"to: " + word(m.stop(w.to))}
	for _, f := range []struct{ key, value string }{{"length", w.length}, {"gauge", w.gauge}, {"colour", w.colour}} {
		if f.value != "" {
			keys = append(keys, f.key+": "+word(f.value))
		}
	}
	if w.insulation != m.insulation && known(w.insulation) {
		keys = append(keys, "insulation: "+word(w.insulation))
	}
	if w.name != "" {
		keys = append(keys, "wire: "+word(w.name))
	}
	switch {
	case len(keys) == 1 && w.from.Part == w.to.Part:
		keys = append(keys, "via: []") // only what something is said of is a wire within one part
	case len(keys) == 1:
		return word(m.stop(w.to))
	}
	return "{" + strings.Join(keys, ", ") + "}"
}
