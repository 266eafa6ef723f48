package describe

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/describe/refuse"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

var (
	bodies    = []string{"mini", "blade", "maxi", "bolt", "glass"}
	behaviour = []string{"resistance", "current", "lamp", "motor", "power"}
)

// partKeys are all keys that parts can have; kinds says which fit which part.
var partKeys = slices.Concat(plainKeys, chargingKeys)

var plainKeys = []read.Key[Part]{
	read.Needed(read.Line("kind", "a kind of part", func(p *Part) *read.Word { return &p.Kind })),
	read.Line("name", "a plain name", func(p *Part) *read.Word { return &p.Name }),
	read.Line("at", "a place", func(p *Part) *read.Word { return &p.At }),
	length("tail", func(p *Part) *read.Value[unit.Millimetre] { return &p.Tail }),
	read.Line("stud", "a stud's thread, such as M6", func(p *Part) *read.Word { return &p.Stud }),
	read.Line("tab", "a tab's width, such as 6.3", func(p *Part) *read.Word { return &p.Tab }),
	read.Line("family", "a family of contacts", func(p *Part) *read.Word { return &p.Family }),
	read.Choice("fitting", []string{"butt", "bullet", "ferrule"}, func(p *Part) *read.Word { return &p.Fitting }),
	read.Choice("sleeve", sleeves, func(p *Part) *read.Word { return &p.Sleeve }),
	length("length", func(p *Part) *read.Value[unit.Millimetre] { return &p.Length }),
	gauge("gauge", func(p *Part) *read.Value[unit.Gauge] { return &p.Size }),
	read.Text("notes", "free text", func(p *Part) *read.Word { return &p.Notes }),
	read.Line("part-number", "a part number", func(p *Part) *read.Word { return &p.PartNumber }),
	read.Line("picture", holdsPicture, func(p *Part) *read.Word { return &p.Picture }),
	read.Custom("found", "what was measured, such as {volts: 12.4 V}", takeFound),
	read.List("terminals", "a list of terminals", func(p *Part) *[]read.Word { return &p.Terminals }, (*read.Reader).Unique),
	read.Custom("inside", holdsInside, takeInside),
	draw("draws", func(p *Part) *read.Value[unit.Draw] { return &p.Draws }),
	volts("at-volts", func(p *Part) *read.Value[unit.Volt] { return &p.AtVolts }),
	read.Quantity("starts", "a starting current and its time, such as 55 A for 0.4 s", func(p *Part) *read.Value[unit.Start] { return &p.Starts }, unit.ParseStart),
	share("duty", func(p *Part) *read.Value[unit.Fraction] { return &p.Duty }),
	read.Choice("behaves", behaviour, func(p *Part) *read.Word { return &p.Behaves }),
	volts("works-above", func(p *Part) *read.Value[unit.Volt] { return &p.WorksAbove }),
	read.Quantity("capacity", "a capacity, such as 60 Ah", func(p *Part) *read.Value[unit.AmpereHour] { return &p.Capacity }, unit.ParseAmpereHour),
	volts("emf", func(p *Part) *read.Value[unit.Volt] { return &p.EMF }),
	ohms("inner", func(p *Part) *read.Value[unit.Ohm] { return &p.Inner }),
	amps("output", func(p *Part) *read.Value[unit.Ampere] { return &p.Output }),
	volts("regulated", func(p *Part) *read.Value[unit.Volt] { return &p.Regulated }),
	volts("output-volts", func(p *Part) *read.Value[unit.Volt] { return &p.OutputVolts }),
	read.Quantity("efficiency", "a share, such as 88 %", func(p *Part) *read.Value[unit.Fraction] { return &p.Efficiency }, parseEfficiency),
	read.Quantity("standing", "what it takes with nothing loaded, such as 20 mA or 0.5 W", func(p *Part) *read.Value[unit.Draw] { return &p.Standing }, parseDraw),
	read.Choice("for", []string{"supply", "charger"}, func(p *Part) *read.Word { return &p.For }),
	read.Flag("isolated", func(p *Part) *read.Value[bool] { return &p.Isolated }),
	amps("solenoid", func(p *Part) *read.Value[unit.Ampere] { return &p.Solenoid }),
	amps("rating", func(p *Part) *read.Value[unit.Ampere] { return &p.Rating }),
	read.Choice("body", bodies, func(p *Part) *read.Word { return &p.Body }),
	read.Custom("holder", "a body ("+strings.Join(bodies, ", ")+") or the current that it is rated for, such as 30 A", takeHolder),
	read.Choice("type", []string{"1", "2", "3"}, func(p *Part) *read.Word { return &p.Type }),
	read.Custom("layout", "a list of rows, each a list of positions as seen", takeLayout),
	read.Custom("feeds", "for each feed terminal the positions that it feeds", takeFeeds),
	read.Custom("fuses", "a rating for each position", takeFuses),
	read.Quantity("lid", "a width and a height, such as 110 x 70 mm", func(p *Part) *read.Value[unit.Face] { return &p.Lid }, unit.ParseFace),
	read.List("spare", "a list of ratings, such as [20 A, 10 A]", func(p *Part) *[]read.Word { return &p.Spare }, (*read.Reader).Ratings),
	counted("studs", "a number of studs", func(p *Part) *read.Value[int] { return &p.Studs }),
	read.Quantity("coil", "what a coil takes, such as 150 mA or 85 ohm", func(p *Part) *read.Value[unit.Coil] { return &p.Coil }, unit.ParseCoil),
	read.Choice("suppression", []string{"none", "resistor", "diode"}, func(p *Part) *read.Word { return &p.Suppression }),
	read.Flag("changeover", func(p *Part) *read.Value[bool] { return &p.Changeover }),
	read.Line("closes", "the position in which its contact is closed: hot or cold, high or low", func(p *Part) *read.Word { return &p.Closes }),
	counted("plugs", "how many glow plugs stand together, such as 4", func(p *Part) *read.Value[int] { return &p.Plugs }),
	ohms("ballast", func(p *Part) *read.Value[unit.Ohm] { return &p.Ballast }),
	amps("needs", func(p *Part) *read.Value[unit.Ampere] { return &p.Needs }),
	read.Custom("positions", "for each position the pairs of terminals that it joins, such as {off: [], on: [[1, 2]]}", takePositions),
	read.Flag("momentary", func(p *Part) *read.Value[bool] { return &p.Momentary }),
	volts("drop", func(p *Part) *read.Value[unit.Volt] { return &p.Drop }),
	read.Custom("value", "a resistance, such as 5 mohm, or a capacitor's value", takeValue),
	read.Custom("cavities", "a number of cavities, or a list of their names", takeCavities),
	read.Flag("sealed", func(p *Part) *read.Value[bool] { return &p.Sealed }),
	read.Choice("surface", surfaces, func(p *Part) *read.Word { return &p.Surface }),
	ohms("joint", func(p *Part) *read.Value[unit.Ohm] { return &p.Joint }),
	read.Custom("along", "{run: [place, place], distance: …}", takeAlong),
	read.Custom("grounds", holdsBody, takeGrounds),
	read.Flag("existing", func(p *Part) *read.Value[bool] { return &p.Existing }),
	each[Part](),
}

const holdsBody = "body, or what is to be said of it, such as {body: 31, surface: bare}"

var bodyKeys = []read.Key[Body]{
	read.Needed(read.Line("body", "the terminal that the body grounds, such as 31", func(b *Body) *read.Word { return &b.Terminal })),
	ohms("joint", func(b *Body) *read.Value[unit.Ohm] { return &b.Joint }),
	read.Choice("surface", surfaces, func(b *Body) *read.Word { return &b.Surface }),
}

// ownKeys are keys that mean something else, or are written otherwise, at some kinds of
// parts than the same word in partKeys does.
var ownKeys = []struct {
	of  func(kind.Row) bool
	key read.Key[Part]
}{
	{isConverter, read.Quantity("output", "what it gives at most, such as 20 A or 300 W", func(p *Part) *read.Value[unit.Draw] { return &p.Gives }, parseDraw)},
	{takesCurrent, read.Quantity("drop", "the drop that it allows, such as 8 % or 0.5 V", func(p *Part) *read.Value[unit.DropLimit] { return &p.Limit }, unit.ParseDropLimit)},
	{takesCurrent, read.Quantity("needs", "the least voltage at its terminals, such as 11.5 V", func(p *Part) *read.Value[unit.Volt] { return &p.NeedsVolts }, parseVolts)},
	{kind.Row.Several, read.Quantity("draws", "what each of its loads takes, such as 60/55 W or 4/8 A", func(p *Part) *read.Value[[]unit.Draw] { return &p.Each }, unit.ParseDraws)},
	{isSocket, read.Choice("type", []string{"iso-1724", "iso-3732", "iso-11446", "iso-1185", "sae-j560"}, func(p *Part) *read.Word { return &p.Type })},
}

func isSocket(k kind.Row) bool { return k.Kind == harness.TrailerSocket }

func isConverter(k kind.Row) bool { return k.Kind == harness.DCConverter }

func takesCurrent(k kind.Row) bool { return k.Role == kind.Works || k.Kind == harness.Unknown }

// keyOf gives a key as a kind of part has it.
func keyOf(k kind.Row, key read.Key[Part]) read.Key[Part] {
	for _, own := range ownKeys {
		if own.key.Name == key.Name && own.of(k) {
			return own.key
		}
	}
	return key
}

const holdsInside = "a list of {from: …, to: …, draws: …} and {join: [a, b]}"

var insideKeys = []read.Key[Inside]{
	read.Line("from", "a terminal", func(x *Inside) *read.Word { return &x.From }),
	read.Line("to", "a terminal", func(x *Inside) *read.Word { return &x.To }),
	draw("draws", func(x *Inside) *read.Value[unit.Draw] { return &x.Draws }),
	read.Choice("behaves", behaviour, func(x *Inside) *read.Word { return &x.Behaves }),
	read.List("join", "a list of terminals", func(x *Inside) *[]read.Word { return &x.Join }, (*read.Reader).Unique),
}

var alongKeys = []read.Key[Along]{
	read.Needed(read.Custom("run", "the two places of the run, [from, to]", takeAlongRun)),
	read.Needed(length("distance", func(a *Along) *read.Value[unit.Millimetre] { return &a.Distance })),
}

func takeParts(r *read.Reader, e read.Entry, d *Description) {
	for _, x := range r.Entries(e, "a name for each part, with its keys", true) {
		checkName(r, x.Key)
		d.Parts = append(d.Parts, part(r, x))
	}
}

// part reads one part: its kind first, then the keys that fit the kind.
func part(r *read.Reader, e read.Entry) Part {
	p := Part{Key: e.Key, Span: e.Key.Span}
	es := r.Entries(e, "its keys, at least {kind: …}", false)
	if !e.IsMap() {
		return p
	}
	k, known := kindOf(r, es)
	own := keysOf(k, known)
	strangers(r, &es, k, known)
	read.Take(r, es, own, &p)
	if known {
		p.Kind.Text = string(k.Kind)
		finish(r, &p, k)
	}
	must := demands(k, es)
	if i := slices.Index(must, "draws"); i >= 0 && k.Asked != "" && !p.Draws.Given() {
		r.Say(e.Key.Span, "missing-key", fmt.Sprintf("%q lacks the key \"draws\"", e.Key.Text), k.Asked)
		must = slices.Delete(must, i, i+1)
	}
	r.Demand(e, es, must)
	return p
}

// keysOf lists the keys that fit a kind; all where it is not known.
func keysOf(k kind.Row, known bool) []read.Key[Part] {
	own := make([]read.Key[Part], 0, len(partKeys))
	for _, pk := range partKeys {
		if !known || k.Fits(pk.Name) {
			own = append(own, keyOf(k, pk))
		}
	}
	return own
}

// demands lists the needed keys; where inside says what the part does, the
// keys that would say it otherwise may be left out.
func demands(k kind.Row, es []read.Entry) []string {
	must := []string{"kind"}
	inside := slices.ContainsFunc(es, func(e read.Entry) bool { return e.Key.Text == "inside" })
	for _, name := range strings.Fields(k.Needs) {
		if !inside || name != "draws" && name != "positions" {
			must = append(must, name)
		}
	}
	return must
}

// kindOf finds the part's kind; an unknown word is reported.
func kindOf(r *read.Reader, es []read.Entry) (kind.Row, bool) {
	i := slices.IndexFunc(es, func(e read.Entry) bool { return e.Key.Text == "kind" })
	if i < 0 || !es[i].IsOne() || es[i].Empty() {
		return kind.Row{}, false
	}
	text := es[i].Text()
	for _, k := range kind.All() {
		if strings.EqualFold(string(k.Kind), text) {
			return k, true
		}
	}
	if _, spoken := refuse.Read(refuse.Name{Text: text}); spoken {
		return kind.Row{}, false // said as a name
	}
	meant := read.Guess(text, kindNames())
	if near := kind.Meant(text); near != "" {
		meant = fmt.Sprintf("Did you mean %q? ", near)
	}
	r.Say(r.Place(es[i]), "unknown-kind", fmt.Sprintf("%q is no kind of part", text), meant+"The kinds are: "+strings.Join(kindNames(), ", ")+".")
	return kind.Row{}, false
}

func kindNames() []string {
	out := make([]string, len(kind.All()))
	for i, k := range kind.All() {
		out[i] = string(k.Kind)
	}
	return out
}

// strangers reports and removes the keys that other kinds have but not this one.
func strangers(r *read.Reader, es *[]read.Entry, k kind.Row, known bool) {
	if !known {
		return
	}
	all := read.NamesOf(partKeys)
	kept := (*es)[:0:0]
	for _, e := range *es {
		if k.Fits(e.Key.Text) || !slices.Contains(all, e.Key.Text) {
			kept = append(kept, e)
			continue
		}
		detail := "Besides the keys of every part it has: " + strings.Join(strings.Fields(k.Keys), ", ") + "."
		if k.Keys == "" {
			detail = "It has only the keys of every part: " + strings.Join(strings.Fields(kind.Common), ", ") + "."
		}
		if e.Key.Text == "grounds" {
			detail = "It is not grounded by its body: its return is a wire, or it is a ground itself."
		}
		if meant := habits[e.Key.Text]; meant != "" && k.Fits(meant) {
			detail = fmt.Sprintf("Did you mean %q? ", meant) + detail
		}
		r.Say(e.Key.Span, "key-not-for-kind", fmt.Sprintf("a %s has no key %q", string(k.Kind), e.Key.Text), detail)
	}
	*es = kept
}

// finish reads what depends on the kind: a resistor's value is in ohms, what a switch closes
// at is one of its positions, and figures stand for as many loads as it has.
func finish(r *read.Reader, p *Part, k kind.Row) {
	if p.Closes.Given() {
		p.Closes = r.Among("position of a "+string(k.Kind), p.Closes, strings.Fields(k.Recipe.Positions))
	}
	if n, most := len(p.Each.V), len(k.Recipe.Loads()); n > most {
		r.Say(p.Each.Span, "wrong-shape", fmt.Sprintf("%d figures stand for the %d loads of a %s", n, most, k.Kind), "Write one for each, in the order of its terminals, such as 60/55 W.")
	}
	if !p.Value.Given() || k.Kind == harness.Capacitor {
		return
	}
	p.Ohms = read.Parsed(r, read.Itself(p.Value), "a resistance, such as 5 mohm", unit.ParseOhm)
	p.Ohms.Span = p.Value.Span
}

func takeValue(r *read.Reader, e read.Entry, p *Part) {
	p.Value, _ = r.Line(e, "a value with its unit")
}

// takeHolder reads a holder: the body of the fuses that it takes, or its limit.
func takeHolder(r *read.Reader, e read.Entry, p *Part) {
	wants := "a body (" + strings.Join(bodies, ", ") + ") or a current, such as 30 A"
	w, ok := r.Line(e, wants)
	switch {
	case !ok:
	case strings.ContainsAny(w.Text, "0123456789"):
		p.Holder = read.Parsed(r, e, wants, unit.ParseAmpere)
	default:
		p.HolderBody = r.Among("body of a fuse", w, bodies)
	}
}

func parseCount(text string) (int, error) {
	n, err := strconv.Atoi(text)
	if err != nil || !allDigits(text) || text[0] == '0' || n < 1 || n > 999 {
		return 0, read.Refuse("bad-count", fmt.Sprintf("%q is not a number of things", text), "Write a whole number from 1 to 999.")
	}
	return n, nil
}

// takeCavities reads a number, which stands for names from 1 on, or the names.
func takeCavities(r *read.Reader, e read.Entry, p *Part) {
	if e.IsList() {
		p.Cavities = r.Unique(e, "a list of names")
		return
	}
	n := read.Parsed(r, e, "a number of cavities, or a list of their names", parseCount)
	for i := 1; i <= n.V; i++ {
		p.Cavities = append(p.Cavities, read.Word{Text: strconv.Itoa(i), Span: n.Span})
	}
}

func takeLayout(r *read.Reader, e read.Entry, p *Part) {
	var all []read.Word
	for _, x := range r.Items(e, "a list of rows, such as [[1, 2, 3], [4, 5, 6]]") {
		row := r.Words(x, "a row of positions, such as [1, 2, 3]")
		p.Layout = append(p.Layout, row)
		all = append(all, row...)
	}
	r.Distinct(all)
}

func takeFeeds(r *read.Reader, e read.Entry, p *Part) {
	var all []read.Word
	for _, x := range r.Entries(e, "for each feed terminal its positions, such as {IN: [1, 2]}", false) {
		feed := Feed{Name: x.Key, Positions: r.Words(x, "a list of positions, such as [1, 2]")}
		p.Feeds = append(p.Feeds, feed)
		all = append(all, feed.Positions...)
	}
	r.Distinct(all)
}

func takeFuses(r *read.Reader, e read.Entry, p *Part) {
	for _, x := range r.Entries(e, "a rating for each position, such as {1: 10 A}", false) {
		p.Fuses = append(p.Fuses, PanelFuse{Position: x.Key, Rating: read.Parsed(r, x, "a current, such as 10 A", unit.ParseAmpere)})
	}
}

// takePositions reads the positions of a switch, the rest position first.
func takePositions(r *read.Reader, e read.Entry, p *Part) {
	for _, x := range r.Entries(e, "for each position its pairs, such as {off: [], on: [[1, 2]]}", true) {
		p.Positions = append(p.Positions, Position{Name: x.Key, Pairs: pairs(r, x)})
	}
}

const holdsPairs = "the pairs that are joined, such as [[1, 2]], or [] for none"

func pairs(r *read.Reader, e read.Entry) [][2]read.Word {
	var out [][2]read.Word
	items := r.Items(e, holdsPairs)
	if len(items) > 0 && items[0].IsOne() {
		r.Say(r.Place(e), "wrong-shape", fmt.Sprintf("%q holds names where pairs belong", e.Key.Text),
			"A position joins pairs of terminals, each in brackets of its own: write [[1, 2]] with two brackets.")
		return nil
	}
	for _, x := range items {
		if pair, ok := pair(r, x, holdsPairs); ok {
			out = append(out, pair)
		}
	}
	return out
}

// pair reads a list of exactly two different words.
func pair(r *read.Reader, e read.Entry, wants string) ([2]read.Word, bool) {
	before := r.Said()
	words := r.Words(e, wants)
	if r.Said() > before || !e.IsList() {
		return [2]read.Word{}, false
	}
	if len(words) != 2 {
		r.Say(r.Place(e), "wrong-shape", fmt.Sprintf("%d names stand where a pair belongs", len(words)), "Write two names in brackets; three that are joined are two pairs: [[1, 2], [2, 3]].")
		return [2]read.Word{}, false
	}
	r.Distinct(words)
	return [2]read.Word{words[0], words[1]}, r.Said() == before
}

func takeAlong(r *read.Reader, e read.Entry, p *Part) {
	p.Along.Span = e.Key.Span
	read.Mapping(r, e, alongKeys, &p.Along)
}

func takeAlongRun(r *read.Reader, e read.Entry, a *Along) {
	if pair, ok := pair(r, e, "the two places of the run, [from, to]"); ok {
		a.From, a.To = pair[0], pair[1]
	}
}

// takeGrounds reads that a part's body is its return.
func takeGrounds(r *read.Reader, e read.Entry, p *Part) {
	if e.IsMap() {
		p.Grounds.Span = e.Key.Span
		read.Mapping(r, e, bodyKeys, &p.Grounds)
		return
	}
	if w, ok := r.Line(e, holdsBody); ok && r.Among("way to be grounded", w, []string{"body"}).Given() {
		p.Grounds.Span = w.Span
	}
}

func takeFound(r *read.Reader, e read.Entry, p *Part) {
	p.Found = wordPairs(r, e, "what was measured, such as {volts: 12.4 V}")
}

// takeInside reads what is inside a part: loads and joints.
func takeInside(r *read.Reader, e read.Entry, p *Part) {
	for _, x := range r.Items(e, holdsInside) {
		in := Inside{Span: r.Place(x)}
		if !x.IsMap() {
			r.Entries(x, "{from: …, to: …, draws: …} or {join: [a, b]}", false)
			continue
		}
		es := r.Entries(x, holdsInside, false)
		read.Take(r, es, insideKeys, &in)
		checkInside(r, x, es, in)
		p.Inside = append(p.Inside, in)
	}
}

// checkInside sees that an entry is either a joint or a whole load.
func checkInside(r *read.Reader, e read.Entry, es []read.Entry, in Inside) {
	i := slices.IndexFunc(es, func(x read.Entry) bool { return x.Key.Text == "join" })
	switch {
	case i < 0:
		r.Demand(e, es, []string{"from", "to", "draws"})
	case len(es) > 1:
		r.Say(es[i].Key.Span, "wrong-shape", "an entry cannot both join terminals and be a load", "Write two entries: {join: [a, b]} and {from: …, to: …, draws: …}.")
	case len(in.Join) == 1:
		r.Say(r.Place(es[i]), "wrong-shape", "one terminal alone cannot be joined", "Name at least two terminals: {join: [a, b]}.")
	}
	if i < 0 && in.From.Given() && in.From.Text == in.To.Text {
		r.Say(in.To.Span, "wrong-shape", "the load begins and ends at one terminal", "Name two terminals.", source.Note{Span: in.From.Span, Text: "it begins here"})
	}
}
