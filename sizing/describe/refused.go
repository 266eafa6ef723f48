package describe

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/describe/refuse"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// judge reads every name of a description for what is not described here. Notes and
// part numbers name nothing: "keep clear of the airbag loom" is good advice.
type judge struct {
	r    *read.Reader
	said map[refuse.Subject]remark // what is said once a description, where it fits best
	part string                    // the key of the part that is read, "" where none is
}

// remark is a place at which something could be said once.
type remark struct {
	at      read.Word
	verdict refuse.Verdict
	rank    int
	part    string
}

// judgeNames reports names of restraint circuits, high voltage and mains, and those of
// which only one side belongs here.
func judgeNames(r *read.Reader, d *Description) {
	j := &judge{r: r, said: map[refuse.Subject]remark{}}
	j.thing(d.Title)
	j.name(refuse.Name{Text: d.Vehicle.Name.Text, Model: true}, d.Vehicle.Name, beside)
	j.practice(d.Practice)
	for _, p := range d.Places {
		j.thing(p.Name, p.Key)
		j.thing(p.Zone)
	}
	j.units(d)
	for i := range d.Parts {
		j.part = d.Parts[i].Key.Text
		j.partNames(&d.Parts[i])
	}
	j.part = ""
	j.circuits(d)
	for _, s := range d.States {
		j.thing(s.Key)
	}
	j.once()
}

// Ranks of places for what is said once: the thing itself before what serves it.
const (
	itself = iota
	serves
	beside
)

// thing reads the names of one thing, of which one finding is enough: the plain name first.
func (j *judge) thing(names ...read.Word) bool { return j.named(refuse.Name{}, beside, names...) }

// named reads names that share what n says of them; each may spell the others out.
func (j *judge) named(n refuse.Name, rank int, names ...read.Word) bool {
	about := n.Beside
	for i, w := range names {
		n.Text, n.Beside = w.Text, slices.Clone(about)
		for k, other := range names {
			if k != i && other.Given() {
				n.Beside = append(n.Beside, other.Text)
			}
		}
		if j.name(n, w, rank) {
			return true
		}
	}
	return false
}

// name reads one name; it tells whether something was found.
func (j *judge) name(n refuse.Name, w read.Word, rank int) bool {
	if !w.Given() {
		return false
	}
	v, ok := refuse.Read(n)
	switch {
	case !ok:
	case v.Refused && v.Subject == refuse.Restraint:
		j.r.Say(w.Span, "airbag-refused", mentions(w, "an airbag or seat-belt pretensioner", v), restraintDetail)
	case v.Refused && v.Subject == refuse.Mains:
		j.r.Say(w.Span, "voltage-out-of-scope", mentions(w, "the mains", v), mainsDetail)
	case v.Refused:
		j.r.Say(w.Span, "voltage-out-of-scope", mentions(w, "a high voltage", v), voltageDetail)
	case v.Subject == refuse.Restraint:
		j.r.Mention(source.Advice, w.Span, "airbag-unclear", mentions(w, "what may be part of an airbag circuit", v), unclearDetail)
		j.concerns(j.part, w)
	default:
		if old, seen := j.said[v.Subject]; !seen || rank < old.rank {
			j.said[v.Subject] = remark{w, v, rank, j.part}
		}
	}
	return ok
}

// concerns names the part that a finding is about, or the name itself where it is no part's.
func (j *judge) concerns(part string, name read.Word) {
	if part == "" {
		part = name.Text
	}
	j.r.Concerns(part)
}

// mentions words a verdict: the stretch that was recognised, and as which word.
func mentions(w read.Word, what string, v refuse.Verdict) string {
	if v.Language == "" {
		return fmt.Sprintf("%q mentions %s: %s", w.Text, what, v.Found)
	}
	return fmt.Sprintf("%q mentions %s: %q (%s: %s)", w.Text, what, v.Found, v.Language, v.Word)
}

const (
	licensed        = "a qualified, licensed person"
	restraintDetail = "Such circuits are not described here: they are not to be probed, cut, spliced or altered, since a test current can fire them. Leave them to " + licensed +
		" and take this out of the file. Where something else is meant, name it for what it does, such as inertia switch, drive-belt tensioner, air spring or engine mount."
	unclearDetail = "Wires of an airbag or pretensioner are not to be touched, and where they share a part with the horn or switches of the steering wheel, those are taken from the vehicle maker's own data. Where it is no such part, name it for what it does."
	voltageDetail = "Nothing here covers 60 V DC and above, or 30 V AC and above: leave that system to " + licensed +
		" and take it out of the file. Where it is a circuit of the vehicle's low voltage, name it for what it does there, such as over-voltage relay; a component's rating goes into notes or part-number."
	mainsDetail = "Mains and shore supplies belong to " + licensed + " and to other rules: take them out of the file. Where only the battery side of a charger or inverter is wired here, name that: battery charger, inverter."
)

// once says what is said once a description.
func (j *judge) once() {
	if m, ok := j.said[refuse.LowSide]; ok {
		j.r.Mention(source.Advice, m.at.Span, "inverter-low-side-only", fmt.Sprintf("%q has a side with a dangerous voltage: only its battery side is described here", m.at.Text),
			"Nothing in the packet covers its mains side: that is the work of "+licensed+", with its own protection, cable and protective earth, and kept apart from this loom.")
		j.concerns(m.part, m.at)
	}
	if m, ok := j.said[refuse.Spark]; ok {
		j.r.Mention(source.Advice, m.at.Span, "spark-lead-named", mentions(m.at, "a lead of some thousand volts", m.verdict),
			"Sizes and colours here are for the low-voltage side alone: a spark-plug lead or ballast cable is the maker's own, kept clear of the loom, and not touched while it works.")
		j.concerns(m.part, m.at)
	}
}

// practice reads the names that a practice gives: classes, reels, cables, functions.
func (j *judge) practice(p Practice) {
	for _, c := range p.Drop {
		j.thing(c.Name)
	}
	for _, w := range p.WireTypes {
		j.thing(w.Name)
	}
	for _, c := range p.CableTypes {
		j.thing(c.Name)
	}
	for _, c := range p.Customs {
		for _, own := range c.Own {
			j.thing(own.Key)
		}
	}
}

func (j *judge) units(d *Description) {
	for _, s := range d.Screens {
		j.thing(s.Name)
	}
	for _, c := range d.Cables {
		j.thing(c.Name)
	}
}

// partNames reads a part's names, then what has a name on it.
func (j *judge) partNames(p *Part) {
	n := refuse.Name{Rated: p.Kind.Text == string(harness.Capacitor) || p.Kind.Text == string(harness.Diode)}
	j.named(n, rankOf(p.Kind.Text), p.Name, p.Key, p.Kind)
	n.Beside = []string{p.Key.Text, p.Name.Text}
	seen := map[string]bool{}
	for _, w := range p.named() {
		if !seen[w.Text] && !allDigits(w.Text) {
			j.named(n, beside, w)
		}
		seen[w.Text] = true
	}
}

// named gives what has a name on a part: terminals wherever they are written, cavities,
// positions of a switch or panel, the family of its contacts, and what was found there.
func (p *Part) named() []read.Word {
	out := slices.Concat(p.Terminals, p.Cavities, slices.Concat(p.Layout...), []read.Word{p.Family})
	for _, f := range p.Found {
		out = append(out, f.Value)
	}
	for _, in := range p.Inside {
		out = append(append(out, in.From, in.To), in.Join...)
	}
	for _, f := range p.Feeds {
		out = append(append(out, f.Name), f.Positions...)
	}
	for _, f := range p.Fuses {
		out = append(out, f.Position)
	}
	for _, pos := range p.Positions {
		out = append(out, pos.Name)
		for _, pair := range pos.Pairs {
			out = append(out, pair[:]...)
		}
	}
	return slices.DeleteFunc(out, func(w read.Word) bool { return !w.Given() })
}

// serving are the kinds that feed or switch a thing and carry its name for that.
var serving = []harness.Kind{harness.Fuse, harness.Breaker, harness.FusePanel, harness.Bus, harness.Relay, harness.Switch, harness.Isolator, harness.Connector, harness.Splice, harness.Ground, harness.Strap}

func rankOf(kind string) int {
	if slices.Contains(serving, harness.Kind(kind)) {
		return serves
	}
	return itself
}

// circuits reads the circuits' names, and what their stops name: terminals that no part
// declares, wires, twists, screens and cores.
func (j *judge) circuits(d *Description) {
	known, about := map[string]bool{}, map[string][]string{}
	for i := range d.Parts {
		p := &d.Parts[i]
		about[p.Key.Text] = []string{p.Key.Text, p.Name.Text}
		for _, w := range p.named() {
			known[p.Key.Text+"."+w.Text] = true
		}
	}
	for _, c := range d.Circuits {
		j.thing(c.Name, c.Key)
		j.thing(c.Task)
		for _, l := range c.Legs {
			for _, s := range l.Stops {
				j.stop(s, known, about[s.Part.Text])
			}
		}
	}
}

func (j *judge) stop(s Stop, known map[string]bool, about []string) {
	if s.Open {
		j.thing(s.To)
	}
	for _, w := range []read.Word{s.Terminal, s.Name, s.Twist, s.Screen, s.Core} {
		key := s.Part.Text + "." + w.Text
		if w.Span != s.Terminal.Span {
			key = "stop " + w.Text
		}
		if !w.Given() || known[key] || allDigits(w.Text) {
			continue
		}
		known[key] = true
		j.named(refuse.Name{Beside: about}, beside, w)
	}
}
