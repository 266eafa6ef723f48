package diagnose

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/loomfolio/sizing/fault/tree"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

const (
	width  = 80 // columns of a terminal
	most   = 8  // classes that are told
	within = 3  // entries of a class that are told
)

// printer writes one diagnosis.
type printer struct {
	w    io.Writer
	h    *harness.Harness
	r    *result.Result
	told Told
	s    proof.Standing
}

// Print writes a standing for people.
func Print(w io.Writer, h *harness.Harness, r *result.Result, told Told, s proof.Standing) {
	p := &printer{w, h, r, told, s}
	p.head()
	for _, n := range append(told.Notes, s.Wrong...) {
		p.text("! ", "%s.", n)
	}
	if s.Sound {
		p.text("", "All of this is as it should be with no fault at all.")
		if len(told.Symptoms) == 0 {
			p.text("", "Say with --dead, --weak or --live what does not do as it should.")
			p.drain()
			return
		}
	}
	p.left()
	p.danger()
	p.unexplained()
	p.again()
	p.next()
}

// text writes a paragraph, broken at blanks, its further lines set in under the first.
func (p *printer) text(lead, format string, args ...any) {
	p.lines(lead, strings.Repeat(" ", utf8.RuneCountInString(lead)), fmt.Sprintf(format, args...))
}

func (p *printer) lines(lead, in, text string) {
	line, words := lead, 0
	for _, word := range strings.Fields(strings.NewReplacer(" V", "\x01V", " %", "\x01%", "battery −", "battery\x01−", "battery +", "battery\x01+").Replace(text)) {
		if words > 0 && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width {
			p.put(line)
			line, words = in, 0
		}
		if words > 0 {
			line += " "
		}
		line += word
		words++
	}
	p.put(line)
}

func (p *printer) put(line string) {
	fmt.Fprintln(p.w, strings.ReplaceAll(strings.TrimRight(line, " "), "\x01", " "))
}

// head says what was told.
func (p *printer) head() {
	var seen []string
	for _, s := range p.told.Symptoms {
		text := p.h.Elements[s.Load].Name + " " + s.Works.String()
		if s.State != p.told.State {
			text += " in state " + p.h.States[s.State].Name
		}
		seen = append(seen, text)
	}
	for _, x := range p.told.Reads {
		seen = append(seen, p.at(x.Point, x.Against)+" reads "+fmt.Sprintf("%.4g V", float64(x.Volts)))
	}
	if p.told.Sometimes {
		seen = append(seen, "comes and goes")
	}
	p.text("Told: ", "%s.", strings.Join(seen, ", "))
	state := p.h.States[p.told.State].Name
	if p.told.Given {
		p.text("State: ", "%s (%s)", state, p.doing(p.told.State))
		return
	}
	p.text("State: ", "%s (%s); --state names another", state, p.doing(p.told.State))
}

// at names where the probes go.
func (p *printer) at(point, against int) string {
	if against == proof.None {
		return p.name(point)
	}
	return p.name(point) + " against " + p.name(against)
}

// doing says what is switched on in a state: what is not as at rest, and the engine.
func (p *printer) doing(state int) string {
	st := p.h.States[state]
	var out []string
	for i, part := range p.h.Parts {
		if at := st.Position[i]; at > 0 && at < len(part.Positions) {
			out = append(out, part.Ref+" "+part.Positions[at])
		}
	}
	out = append(out, engineWords[st.Engine])
	return strings.Join(out, ", ")
}

var engineWords = map[harness.Engine]string{harness.EngineOff: "engine off", harness.EngineRunning: "engine running", harness.EngineCranking: "cranking"}

// left lists the faults that remain.
func (p *printer) left() {
	list := classes(p.r.Proof.Faults, p.s.Left, func(f *proof.Fault) string { return what(p.h, f) })
	if len(list) == 0 {
		return
	}
	p.put("")
	p.put("What it can be, the likeliest first:")
	for i := range list {
		list[i].inOrder(p.minutes)
	}
	n := 0
	for n < len(list) && n < most && (n == 0 || list[n].share >= .005) {
		p.class(list[n])
		n++
	}
	rest := 1.0
	for _, c := range list[:n] {
		rest -= c.share
	}
	if n < len(list) {
		p.text(fmt.Sprintf("%6s  ", percent(rest)), "%s", unit.Counted(len(list)-n, "other place"))
	}
}

// minutes is what it takes to reach the nearest point of a fault.
func (p *printer) minutes(fault int) float64 {
	f := &p.r.Proof.Faults[fault]
	least := math.Inf(1)
	for _, x := range p.r.Proof.Points {
		t := p.h.Terminals[x.At]
		if f.Wire != harness.None && (p.h.Wires[f.Wire].From == t.ID || p.h.Wires[f.Wire].To == t.ID) || f.Wire == harness.None && t.Part == f.Part {
			least = min(least, x.Reach)
		}
	}
	if math.IsInf(least, 1) {
		return tree.Settle
	}
	return tree.Settle + least
}

// class lists what no meter tells apart.
func (p *printer) class(c class) {
	lead, list := fmt.Sprintf("%6s  ", percent(c.share)), c.entries
	if fuse := p.blown(c); fuse != harness.None {
		p.lines(lead, "          ", "fuse "+p.h.Elements[fuse].Name+" blown or open. Blown is an effect: first find the short")
		lead = "        "
		list = slices.DeleteFunc(slices.Clone(list), func(e entry) bool { return p.r.Proof.Faults[e.fault].Element == p.h.Elements[fuse].Name })
	}
	for i, e := range list {
		if i == within && len(list) > within+1 {
			p.lines(lead, "          ", fmt.Sprintf("and %d more that read the same", len(list)-within))
			break
		}
		p.lines(lead, "          ", p.full(e.fault))
		lead = "        "
	}
}

// blown is the fuse that most of a class leaves open, None where it does not.
func (p *printer) blown(c class) harness.ElementID {
	by := map[harness.ElementID]float64{}
	for _, e := range c.entries {
		f := p.r.Proof.Faults[e.fault]
		if len(f.Blown) > 0 {
			by[f.Blown[0]] += e.share
		} else if x := elementOf(p.h, f.Element); x != nil && x.Kind == harness.FuseLink && f.Kind == proof.Open {
			by[x.ID] += e.share
		}
	}
	for _, f := range p.r.Fuses {
		if by[f.Element] > c.share/2 && len(c.entries) > 1 {
			return f.Element
		}
	}
	return harness.None
}

// danger warns of a short that no fuse ends, where one is not unlikely.
func (p *printer) danger() {
	const likely = .05
	share := 0.0
	for _, x := range p.s.Left {
		if f := &p.r.Proof.Faults[x.Fault]; f.Kind == proof.Short && len(f.Blown) == 0 && strings.HasSuffix(what(p.h, f), "ground") {
			share += x.Share
		}
	}
	if share >= likely {
		p.put("")
		p.text("", "Careful: a short before any fuse is among these. If a cable is warm or smells, take the battery's lead off first, grounded side first.")
	}
}

// unexplained says what no single fault explains, and which two do.
func (p *printer) unexplained() {
	if len(p.s.Odd) == 0 {
		return
	}
	var odd []string
	for _, k := range p.s.Odd {
		odd = append(odd, p.oneTold(k))
	}
	p.put("")
	p.text("", "No single fault explains this: with the likeliest one, %s would be otherwise.", strings.Join(odd, ", "))
	if b := p.s.Both; b != nil {
		p.text("", "Two at once would: %s; and %s.", p.full(b.A), p.full(b.B))
	}
}

// oneTold is one thing that was told, by its number.
func (p *printer) oneTold(k int) string {
	if n := len(p.told.Symptoms); k >= n {
		x := p.told.Reads[k-n]
		return fmt.Sprintf("%s = %.4g V", p.at(x.Point, x.Against), float64(x.Volts))
	}
	s := p.told.Symptoms[k]
	return p.h.Elements[s.Load].Name + " " + s.Works.String()
}

// full is a fault with its place.
func (p *printer) full(fault int) string {
	f := &p.r.Proof.Faults[fault]
	return joinedWith(": ", what(p.h, f), where(p.h, f))
}

// again asks for a reading to be taken once more.
func (p *printer) again() {
	if a := p.s.Again; a != nil {
		p.put("")
		p.text("", "Measure %s again: that reading alone speaks against a likely fault.", p.at(a.Point, a.Against))
	}
}

// next says what to measure next, and what follows.
func (p *printer) next() {
	n := p.s.Next
	p.put("")
	if n == nil {
		p.put(last(len(p.s.Odd)))
		return
	}
	p.look()
	p.ground()
	p.text("Next: ", "%s; state %s, %s.", p.meter(n.Probe), p.h.States[n.State].Name, p.on(n.On))
	for i, a := range n.Probe.Answers {
		p.answer(a, i == 0, i == len(n.Probe.Answers)-1)
	}
	if p.told.Sometimes {
		p.text("", "It comes and goes: wiggle, load and heat it first, so that it stays broken. A good reading now clears nothing.")
	}
}

// last is said where nothing is left to measure.
func last(odd int) string {
	if odd > 0 {
		return "Measure again what does not fit before anything is taken apart."
	}
	return "A meter can tell no more: look there. After the repair, test again."
}

// look asks for what can be seen without a meter.
func (p *printer) look() {
	for _, l := range p.s.Look {
		name := p.h.Elements[l].Name
		p.text("Look: ", "does %s (%s) work in state %s? Add --live %s, or --dead %s", name, p.h.Parts[p.h.Elements[l].Part].Name, p.h.States[p.told.State].Name, name, name)
	}
}

// meter says where the probes go.
func (p *printer) meter(m proof.Probe) string {
	red := "red on " + p.pointWords(m.Point)
	if m.Against != proof.None {
		return red + ", black on " + p.pointWords(m.Against)
	}
	if p.h.System.PositiveEarth {
		return red + ", black on battery +"
	}
	return red + ", black on battery −"
}

// pointWords is a point with its side and place.
func (p *printer) pointWords(i int) string {
	x := p.r.Proof.Points[i]
	name := p.h.Terminals[x.At].Full
	if more := joinedWith(", ", x.Side, place(p.h, x.Place)); more != "" {
		name += " (" + more + ")"
	}
	return name
}

// on says what must be connected and on.
func (p *printer) on(loads []harness.ElementID) string {
	var names []string
	for _, l := range loads {
		names = append(names, p.h.Elements[l].Name)
	}
	if len(names) == 0 {
		return "its loads connected and on"
	}
	return strings.Join(names, ", ") + " connected and on"
}

// answer says what a band of readings leaves.
func (p *printer) answer(a proof.Answer, first, last bool) {
	lead := fmt.Sprintf("  %-14s %5s  ", band(a, first, last), percent(a.Share))
	var names []string
	for _, f := range a.Left {
		if name := what(p.h, &p.r.Proof.Faults[f]); len(names) == 0 || names[len(names)-1] != name {
			names = append(names, name)
		}
	}
	const told = 3
	text := strings.Join(names[:min(told, len(names))], "; ")
	if len(names) > told {
		text += fmt.Sprintf("; %d more", len(names)-told)
	}
	p.lines(lead, strings.Repeat(" ", utf8.RuneCountInString(lead)), text)
}
