package describe

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// kind is one kind of part: the keys that it has besides the common ones, and
// which of them are needed (draws and positions only where no inside is given).
type kind struct {
	name string
	own  string
	must string
}

const load = "draws at-volts starts duty behaves works-above"

// kinds are the kinds of format 1.
var kinds = []kind{
	{"battery", "capacity emf inner", ""},
	{"alternator", "output regulated", "output"},
	{"starter", "draws solenoid at-volts works-above", "draws"},
	{"isolator", "positions rating", ""},
	{"fuse", "rating body holder", ""},
	{"fuse-panel", "body layout feeds fuses spare holder", "layout feeds"},
	{"breaker", "rating type", ""},
	{"bus", "studs", ""},
	{"relay", "coil suppression rating changeover", ""},
	{"flasher", "needs", ""},
	{"switch", "positions momentary rating", "positions"},
	{"ignition-switch", "positions rating", ""},
	{"motor", load, "draws"}, {"lamp", load, "draws"}, {"heater", load, "draws"}, {"coil", load, "draws"}, {"solenoid", load, "draws"},
	{"horn", load, "draws"}, {"outlet", load, "draws"}, {"sender", load, "draws"}, {"gauge", load, "draws"},
	{"module", "at-volts duty works-above layout", "inside"},
	{"diode", "drop", ""},
	{"resistor", "value", ""}, {"capacitor", "value", ""}, {"strap", "value gauge length", ""},
	{"connector", "cavities layout sealed", "cavities"},
	{"splice", "along", ""},
	{"ground", "surface joint", ""},
}

// common are the keys that every part has.
const common = "kind name at tail stud tab family fitting sleeve notes part-number found terminals inside"

// nicknames are words that people use for a kind, with the kind that is meant.
var nicknames = map[string]string{
	"light": "lamp", "bulb": "lamp", "headlamp": "lamp", "led": "lamp", "fan": "motor", "pump": "motor", "wiper": "motor", "earth": "ground", "chassis": "ground",
	"fusebox": "fuse-panel", "fuse-box": "fuse-panel", "fuseblock": "fuse-panel", "panel": "fuse-panel", "circuit-breaker": "breaker", "busbar": "bus", "stud": "bus",
	"kill-switch": "isolator", "battery-switch": "isolator", "cut-off": "isolator", "plug": "connector", "joint": "splice", "key": "ignition-switch", "ignition": "ignition-switch",
	"generator": "alternator", "dynamo": "alternator", "radio": "module", "ecu": "module", "controller": "module", "socket": "outlet", "cable": "strap", "condenser": "capacitor",
	"sensor": "sender", "buzzer": "horn", "element": "heater", "injector": "coil", "valve": "solenoid", "button": "switch", "pushbutton": "switch",
}

var (
	bodies    = []string{"mini", "blade", "maxi", "bolt", "glass"}
	behaviour = []string{"resistance", "current", "lamp", "motor"}
)

// partKeys are all keys that parts can have; kinds says which fit which part.
var partKeys = []key[Part]{
	needed(word("kind", "a kind of part", func(p *Part) *Word { return &p.Kind })),
	word("name", "a plain name", func(p *Part) *Word { return &p.Name }),
	word("at", "a place", func(p *Part) *Word { return &p.At }),
	length("tail", func(p *Part) *Value[unit.Millimetre] { return &p.Tail }),
	word("stud", "a stud's thread, such as M6", func(p *Part) *Word { return &p.Stud }),
	word("tab", "a tab's width, such as 6.3", func(p *Part) *Word { return &p.Tab }),
	word("family", "a family of contacts", func(p *Part) *Word { return &p.Family }),
	choice("fitting", []string{"butt", "bullet", "ferrule"}, func(p *Part) *Word { return &p.Fitting }),
	choice("sleeve", sleeves, func(p *Part) *Word { return &p.Sleeve }),
	length("length", func(p *Part) *Value[unit.Millimetre] { return &p.Length }),
	gauge("gauge", func(p *Part) *Value[unit.Gauge] { return &p.Size }),
	free("notes", "free text", func(p *Part) *Word { return &p.Notes }),
	word("part-number", "a part number", func(p *Part) *Word { return &p.PartNumber }),
	custom("found", "what was measured, such as {volts: 12.4 V}", takeFound),
	list("terminals", "a list of terminals", func(p *Part) *[]Word { return &p.Terminals }, (*reader).unique),
	custom("inside", holdsInside, takeInside),
	draw("draws", func(p *Part) *Value[unit.Draw] { return &p.Draws }),
	volts("at-volts", func(p *Part) *Value[unit.Volt] { return &p.AtVolts }),
	quantity("starts", "a starting current and its time, such as 55 A for 0.4 s", func(p *Part) *Value[unit.Start] { return &p.Starts }, unit.ParseStart),
	share("duty", func(p *Part) *Value[unit.Fraction] { return &p.Duty }),
	choice("behaves", behaviour, func(p *Part) *Word { return &p.Behaves }),
	volts("works-above", func(p *Part) *Value[unit.Volt] { return &p.WorksAbove }),
	quantity("capacity", "a capacity, such as 60 Ah", func(p *Part) *Value[unit.AmpereHour] { return &p.Capacity }, unit.ParseAmpereHour),
	volts("emf", func(p *Part) *Value[unit.Volt] { return &p.EMF }),
	ohms("inner", func(p *Part) *Value[unit.Ohm] { return &p.Inner }),
	amps("output", func(p *Part) *Value[unit.Ampere] { return &p.Output }),
	volts("regulated", func(p *Part) *Value[unit.Volt] { return &p.Regulated }),
	amps("solenoid", func(p *Part) *Value[unit.Ampere] { return &p.Solenoid }),
	amps("rating", func(p *Part) *Value[unit.Ampere] { return &p.Rating }),
	choice("body", bodies, func(p *Part) *Word { return &p.Body }),
	custom("holder", "a body ("+strings.Join(bodies, ", ")+") or the current that it stands, such as 30 A", takeHolder),
	choice("type", []string{"1", "2", "3"}, func(p *Part) *Word { return &p.Type }),
	custom("layout", "a list of rows, each a list of positions as seen", takeLayout),
	custom("feeds", "for each feed terminal the positions that it feeds", takeFeeds),
	custom("fuses", "a rating for each position", takeFuses),
	list("spare", "a list of ratings, such as [20 A, 10 A]", func(p *Part) *[]Word { return &p.Spare }, (*reader).unique),
	counted("studs", "a number of studs", func(p *Part) *Value[int] { return &p.Studs }),
	quantity("coil", "what a coil takes, such as 150 mA or 85 ohm", func(p *Part) *Value[unit.Coil] { return &p.Coil }, unit.ParseCoil),
	choice("suppression", []string{"none", "resistor", "diode"}, func(p *Part) *Word { return &p.Suppression }),
	flag("changeover", func(p *Part) *Value[bool] { return &p.Changeover }),
	amps("needs", func(p *Part) *Value[unit.Ampere] { return &p.Needs }),
	custom("positions", "for each position the pairs of terminals that it joins, such as {off: [], on: [[1, 2]]}", takePositions),
	flag("momentary", func(p *Part) *Value[bool] { return &p.Momentary }),
	volts("drop", func(p *Part) *Value[unit.Volt] { return &p.Drop }),
	custom("value", "a resistance, such as 5 mohm, or a capacitor's value", takeValue),
	custom("cavities", "a number of cavities, or a list of their names", takeCavities),
	flag("sealed", func(p *Part) *Value[bool] { return &p.Sealed }),
	choice("surface", surfaces, func(p *Part) *Word { return &p.Surface }),
	ohms("joint", func(p *Part) *Value[unit.Ohm] { return &p.Joint }),
	custom("along", "{run: [place, place], distance: …}", takeAlong),
}

const holdsInside = "a list of {from: …, to: …, draws: …} and {join: [a, b]}"

var insideKeys = []key[Inside]{
	word("from", "a terminal", func(x *Inside) *Word { return &x.From }),
	word("to", "a terminal", func(x *Inside) *Word { return &x.To }),
	draw("draws", func(x *Inside) *Value[unit.Draw] { return &x.Draws }),
	choice("behaves", behaviour, func(x *Inside) *Word { return &x.Behaves }),
	list("join", "a list of terminals", func(x *Inside) *[]Word { return &x.Join }, (*reader).unique),
}

var alongKeys = []key[Along]{
	needed(custom("run", "the two places of the run, [from, to]", takeAlongRun)),
	needed(length("distance", func(a *Along) *Value[unit.Millimetre] { return &a.Distance })),
}

func takeParts(r *reader, e entry, d *Description) {
	for _, x := range r.entries(e, "a name for each part, with its keys", true) {
		r.checkName(x.key)
		d.Parts = append(d.Parts, r.part(x))
	}
}

// part reads one part: its kind first, then the keys that fit the kind.
func (r *reader) part(e entry) Part {
	p := Part{Key: e.key, Span: e.key.Span}
	es := r.entries(e, "its keys, at least {kind: …}", false)
	if e.value.Kind != yaml.MappingNode {
		return p
	}
	k, known := r.kindOf(es)
	own := make([]key[Part], 0, len(partKeys))
	for _, pk := range partKeys {
		if !known || k.fits(pk.name) {
			own = append(own, pk)
		}
	}
	r.strangers(&es, k, known)
	take(r, es, own, &p)
	if known {
		p.Kind.Text = k.name
		r.finish(&p, k)
	}
	r.demand(e, es, k.demands(es))
	r.refuseAirbags(p.Key, p.Name, p.Kind)
	return p
}

// fits tells whether a key belongs to the kind.
func (k kind) fits(name string) bool {
	return listed(common, name) || listed(k.own, name)
}

// listed tells whether a word stands in a list parted by spaces.
func listed(list, word string) bool {
	for list != "" {
		var first string
		if first, list, _ = strings.Cut(list, " "); first == word {
			return true
		}
	}
	return false
}

// demands lists the needed keys; where inside says what the part does, the
// keys that would say it otherwise may be left out.
func (k kind) demands(es []entry) []string {
	must := []string{"kind"}
	inside := slices.ContainsFunc(es, func(e entry) bool { return e.key.Text == "inside" })
	for _, name := range strings.Fields(k.must) {
		if !inside || name != "draws" && name != "positions" {
			must = append(must, name)
		}
	}
	return must
}

// kindOf finds the part's kind; an unknown word is reported.
func (r *reader) kindOf(es []entry) (kind, bool) {
	i := slices.IndexFunc(es, func(e entry) bool { return e.key.Text == "kind" })
	if i < 0 || es[i].value.Kind != yaml.ScalarNode || missing(es[i].value) {
		return kind{}, false
	}
	text := strings.TrimSpace(es[i].value.Value)
	for _, k := range kinds {
		if strings.EqualFold(k.name, text) {
			return k, true
		}
	}
	meant := guess(text, kindNames())
	if near, ok := nicknames[strings.ToLower(text)]; ok {
		meant = fmt.Sprintf("Did you mean %q? ", near)
	}
	r.say(r.span(es[i].value), "unknown-kind", fmt.Sprintf("%q is no kind of part", text), meant+"The kinds are: "+strings.Join(kindNames(), ", ")+".")
	return kind{}, false
}

func kindNames() []string {
	out := make([]string, len(kinds))
	for i, k := range kinds {
		out[i] = k.name
	}
	return out
}

// strangers reports and removes the keys that other kinds have but not this one.
func (r *reader) strangers(es *[]entry, k kind, known bool) {
	if !known {
		return
	}
	all := namesOf(partKeys)
	kept := (*es)[:0:0]
	for _, e := range *es {
		if k.fits(e.key.Text) || !slices.Contains(all, e.key.Text) {
			kept = append(kept, e)
			continue
		}
		detail := "Besides the keys of every part it has: " + strings.Join(strings.Fields(k.own), ", ") + "."
		if k.own == "" {
			detail = "It has only the keys of every part: " + strings.Join(strings.Fields(common), ", ") + "."
		}
		r.say(e.key.Span, "key-not-for-kind", fmt.Sprintf("a %s has no key %q", k.name, e.key.Text), detail)
	}
	*es = kept
}

// finish reads what depends on the kind: a resistor's value is in ohms.
func (r *reader) finish(p *Part, k kind) {
	if !p.Value.Given() || k.name == "capacitor" {
		return
	}
	n := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: p.Value.Text, Line: p.Value.Span.Start.Line, Column: p.Value.Span.Start.Column}
	p.Ohms = value(r, entry{key: p.Value, value: n}, "a resistance, such as 5 mohm", unit.ParseOhm)
	p.Ohms.Span = p.Value.Span
}

func takeValue(r *reader, e entry, p *Part) { p.Value, _ = r.line(e, "a value with its unit") }

// takeHolder reads a holder: the body of the fuses that it takes, or its limit.
func takeHolder(r *reader, e entry, p *Part) {
	wants := "a body (" + strings.Join(bodies, ", ") + ") or a current, such as 30 A"
	w, ok := r.line(e, wants)
	switch {
	case !ok:
	case strings.ContainsAny(w.Text, "0123456789"):
		p.Holder = value(r, e, wants, unit.ParseAmpere)
	default:
		p.HolderBody = r.among("body of a fuse", w, bodies)
	}
}

func parseCount(text string) (int, error) {
	n, err := strconv.Atoi(text)
	if err != nil || !allDigits(text) || text[0] == '0' || n < 1 || n > 999 {
		return 0, &refusal{"bad-count", fmt.Sprintf("%q is not a number of things", text), "Write a whole number from 1 to 999."}
	}
	return n, nil
}

// takeCavities reads a number, which stands for names from 1 on, or the names.
func takeCavities(r *reader, e entry, p *Part) {
	if e.value.Kind == yaml.SequenceNode {
		p.Cavities = r.unique(e, "a list of names")
		return
	}
	n := value(r, e, "a number of cavities, or a list of their names", parseCount)
	for i := 1; i <= n.V; i++ {
		p.Cavities = append(p.Cavities, Word{Text: strconv.Itoa(i), Span: n.Span})
	}
}

func takeLayout(r *reader, e entry, p *Part) {
	var all []Word
	for _, x := range r.items(e, "a list of rows, such as [[1, 2, 3], [4, 5, 6]]") {
		row := r.words(x, "a row of positions, such as [1, 2, 3]")
		p.Layout = append(p.Layout, row)
		all = append(all, row...)
	}
	r.distinct(all)
}

func takeFeeds(r *reader, e entry, p *Part) {
	var all []Word
	for _, x := range r.entries(e, "for each feed terminal its positions, such as {IN: [1, 2]}", false) {
		feed := Feed{Name: x.key, Positions: r.words(x, "a list of positions, such as [1, 2]")}
		p.Feeds = append(p.Feeds, feed)
		all = append(all, feed.Positions...)
	}
	r.distinct(all)
}

func takeFuses(r *reader, e entry, p *Part) {
	for _, x := range r.entries(e, "a rating for each position, such as {1: 10 A}", false) {
		p.Fuses = append(p.Fuses, PanelFuse{Position: x.key, Rating: value(r, x, "a current, such as 10 A", unit.ParseAmpere)})
	}
}

// takePositions reads the positions of a switch, the rest position first.
func takePositions(r *reader, e entry, p *Part) {
	for _, x := range r.entries(e, "for each position its pairs, such as {off: [], on: [[1, 2]]}", true) {
		p.Positions = append(p.Positions, Position{Name: x.key, Pairs: r.pairs(x)})
	}
}

const holdsPairs = "the pairs that are joined, such as [[1, 2]], or [] for none"

func (r *reader) pairs(e entry) [][2]Word {
	var out [][2]Word
	items := r.items(e, holdsPairs)
	if len(items) > 0 && items[0].value.Kind == yaml.ScalarNode {
		r.say(r.span(e.value), "wrong-shape", fmt.Sprintf("%q holds names where pairs belong", e.key.Text),
			"A position joins pairs of terminals, each in brackets of its own: write [[1, 2]] with two brackets.")
		return nil
	}
	for _, x := range items {
		if pair, ok := r.pair(x, holdsPairs); ok {
			out = append(out, pair)
		}
	}
	return out
}

// pair reads a list of exactly two different words.
func (r *reader) pair(e entry, wants string) ([2]Word, bool) {
	before := len(r.problems)
	words := r.words(e, wants)
	if len(r.problems) > before || e.value.Kind != yaml.SequenceNode {
		return [2]Word{}, false
	}
	if len(words) != 2 {
		r.say(r.span(e.value), "wrong-shape", fmt.Sprintf("%d names stand where a pair belongs", len(words)), "Write two names in brackets; three that are joined are two pairs: [[1, 2], [2, 3]].")
		return [2]Word{}, false
	}
	r.distinct(words)
	return [2]Word{words[0], words[1]}, len(r.problems) == before
}

func takeAlong(r *reader, e entry, p *Part) {
	p.Along.Span = e.key.Span
	read(r, e, alongKeys, &p.Along)
}

func takeAlongRun(r *reader, e entry, a *Along) {
	if pair, ok := r.pair(e, "the two places of the run, [from, to]"); ok {
		a.From, a.To = pair[0], pair[1]
	}
}

func takeFound(r *reader, e entry, p *Part) {
	p.Found = r.wordPairs(e, "what was measured, such as {volts: 12.4 V}")
}

// takeInside reads what is inside a part: loads and joints.
func takeInside(r *reader, e entry, p *Part) {
	for _, x := range r.items(e, holdsInside) {
		in := Inside{Span: r.span(x.value)}
		if x.value.Kind != yaml.MappingNode {
			r.entries(x, "{from: …, to: …, draws: …} or {join: [a, b]}", false)
			continue
		}
		es := r.entries(x, holdsInside, false)
		take(r, es, insideKeys, &in)
		r.checkInside(x, es, in)
		p.Inside = append(p.Inside, in)
	}
}

// checkInside sees that an entry is either a joint or a whole load.
func (r *reader) checkInside(e entry, es []entry, in Inside) {
	i := slices.IndexFunc(es, func(x entry) bool { return x.key.Text == "join" })
	switch {
	case i < 0:
		r.demand(e, es, []string{"from", "to", "draws"})
	case len(es) > 1:
		r.say(es[i].key.Span, "wrong-shape", "an entry cannot both join terminals and be a load", "Write two entries: {join: [a, b]} and {from: …, to: …, draws: …}.")
	case len(in.Join) == 1:
		r.say(r.span(es[i].value), "wrong-shape", "one terminal alone cannot be joined", "Name at least two terminals: {join: [a, b]}.")
	}
	if i < 0 && in.From.Given() && in.From.Text == in.To.Text {
		r.say(in.To.Span, "wrong-shape", "the load begins and ends at one terminal", "Name two terminals.", source.Note{Span: in.From.Span, Text: "it begins here"})
	}
}
