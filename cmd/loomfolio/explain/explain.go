// Package explain prints why a wire, fuse, load, relay, ground or splice is as
// it is: the figures, the rule that decided and its source. In: the model, the
// results and a name. Out: plain text for a terminal.
package explain

import (
	"fmt"
	"io"
	"math"
	"sort"
	"strings"

	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/source"
)

// Names lists everything that can be asked for: wires, then parts and fuses.
func Names(h *harness.Harness) []string {
	var names []string
	for _, w := range h.Wires {
		names = append(names, w.Name)
	}
	for _, p := range h.Parts {
		names = append(names, p.Ref)
	}
	for _, e := range h.Elements {
		if e.Kind == harness.FuseLink && e.Position != "" {
			names = append(names, e.Name)
		}
	}
	return names
}

// Explain writes what is known of a wire or part. An unknown name is an error
// that offers the nearest one.
func Explain(w io.Writer, h *harness.Harness, r *sizing.Result, name string) error {
	x := &explainer{w: w, h: h, r: r, sources: map[string]bool{}}
	if !x.wire(name) && !x.part(name) && !x.position(name) {
		near := source.Nearest(name, Names(h))
		if near != "" {
			return fmt.Errorf("nothing is called %q; did you mean %s?", name, near)
		}
		return fmt.Errorf("nothing is called %q; name a wire (as on its sleeve) or a part", name)
	}
	x.findings(name)
	x.printSources()
	return nil
}

type explainer struct {
	w       io.Writer
	h       *harness.Harness
	r       *sizing.Result
	sources map[string]bool
}

func (x *explainer) line(label, format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	for i, part := range wrap(text, 82) {
		if i > 0 {
			label = ""
		}
		fmt.Fprintf(x.w, "  %-12s %s\n", label, part)
	}
}

// wrap breaks a text at blanks to a width in characters.
func wrap(text string, width int) []string {
	var out []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len([]rune(line))+1+len([]rune(word)) > width {
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

func (x *explainer) cite(keys []string) {
	for _, k := range keys {
		x.sources[k] = true
	}
}

func (x *explainer) wire(name string) bool {
	for i, w := range x.h.Wires {
		if w.Name != name {
			continue
		}
		c, way, col := x.r.Wires[i], x.r.Ways[i], x.r.Colours[i]
		circuit := x.h.Circuits[w.Circuit]
		fmt.Fprintf(x.w, "Wire %s: %s to %s, circuit %s %s\n", w.Name, x.h.Terminals[w.From].Full, x.h.Terminals[w.To].Full, circuit.Number, circuit.Name)
		x.line("size", "%s, %s (%.3g mm² of copper, %.2f mm over all)", c.Gauge, c.Insulation, float64(c.Area), float64(c.Diameter))
		x.line("why", "%s", c.Reason)
		x.line("each rule", "drop alone %s · heat alone %s · protection alone %s · handling %s", size(c.Wants.Drop.Size), size(c.Wants.Heat.Size), size(c.Wants.Protection.Size), size(c.Wants.Handling.Size))
		x.line("each method", "%s", x.methods(i))
		x.line("current", "%s continuous at most, in state %q; %s lost in this wire then", c.Amps, c.State, c.Drop)
		x.line("heat", "may carry %s where it lies: hottest place %s, %d carrying wires in its fullest run; about %.0f °C, class %.0f °C", c.Ampacity, c.Ambient, max(c.Bundle, 1), float64(c.Temperature), float64(c.Class))
		x.line("protected", "%s", x.protection(c))
		x.line("length", "%s (%s)", way.Length, way.Reason)
		x.line("colour", "%s (%s)", col.Pair, col.Reason)
		for _, e := range x.r.Ends[i] {
			x.line("end "+e.End, "%s: %s, %s, strip %.1f mm, must hold %.0f N (%s). %s", x.h.Terminals[e.Terminal].Full, e.Fitting, e.Crimp, float64(e.Strip), e.Pull, e.PullList, e.Reason)
			x.cite(e.Sources)
		}
		x.cite(c.Sources)
		return true
	}
	return false
}

// methods says what each method of the practice would choose for a wire.
func (x *explainer) methods(wire int) string {
	var out []string
	for _, m := range []struct{ method, words string }{
		{"computed", "computed"}, {"abyc-e11", "ABYC E-11"}, {"ac43-13", "FAA AC 43.13-1B"},
	} {
		other := *x.h
		other.Practice.Method = m.method
		r, err := sizing.Size(&other, nil)
		if err != nil || r.Unusable {
			continue
		}
		out = append(out, fmt.Sprintf("%s %s", m.words, r.Wires[wire].Gauge))
	}
	return strings.Join(out, " · ")
}

func size(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

func (x *explainer) protection(c choose.Wire) string {
	if c.ProtectedBy == "" {
		return "by no fuse"
	}
	for _, f := range x.r.Fuses {
		if f.Name == c.ProtectedBy {
			return fmt.Sprintf("by %s, %s %s", f.Name, f.Rating, f.Body)
		}
	}
	return "by " + c.ProtectedBy
}

func (x *explainer) part(name string) bool {
	for i := range x.h.Parts {
		p := &x.h.Parts[i]
		if p.Ref != name {
			continue
		}
		fmt.Fprintf(x.w, "%s: %s (%s)%s\n", p.Ref, p.Name, p.Kind, x.where(p))
		x.fuses(func(f choose.Fuse) bool { return f.Part == p.ID })
		x.loads(p)
		x.relay(p)
		x.ground(p)
		x.splice(p)
		x.terminals(p)
		return true
	}
	return false
}

func (x *explainer) position(name string) bool {
	before := false
	x.fuses(func(f choose.Fuse) bool {
		hit := f.Name == name
		before = before || hit
		return hit
	})
	return before
}

func (x *explainer) where(p *harness.Part) string {
	if p.Place == harness.None {
		return ""
	}
	place := x.h.Places[p.Place]
	return fmt.Sprintf(", at %s (%s)", place.Name, place.Ambient)
}

func (x *explainer) fuses(want func(choose.Fuse) bool) {
	for _, f := range x.r.Fuses {
		if !want(f) {
			continue
		}
		x.line("fuse "+f.Name, "%s", strings.TrimSuffix(fmt.Sprintf("%s %s, %s", f.Rating, f.Body, f.BodyColour), ", "))
		x.line("why", "%s", f.Reason)
		x.line("feeds", "%s", orDash(strings.Join(f.Feeds, ", ")))
		if f.Smallest != harness.None {
			most := fmt.Sprintf("; never above %s", f.MostAllowed)
			if math.IsInf(float64(f.MostAllowed), 0) || f.MostAllowed == 0 {
				most = ""
			}
			x.line("weakest", "wire %s (%s)%s", x.h.Wires[f.Smallest].Name, x.r.Wires[f.Smallest].Gauge, most)
		}
		x.cite(f.Sources)
	}
}

func orDash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

func (x *explainer) loads(p *harness.Part) {
	for _, l := range x.r.Loads {
		if x.h.Elements[l.Element].Part != p.ID {
			continue
		}
		x.line("load "+l.Name, "%s running; worst in state %q: %s across it", l.Amps, l.State, l.Volts)
		x.line("lost", "%s in the feed, %s in the return, %s in fuses, contacts and joints; allowed in the wires %s (%s)", l.FeedDrop, l.ReturnDrop, l.OtherDrop, l.Limit, l.LimitText)
		x.line("on in", "%s", orDash(strings.Join(l.On, ", ")))
		x.line("fuse", "%s", orDash(l.ProtectedBy))
	}
}

func (x *explainer) relay(p *harness.Part) {
	for _, u := range x.r.Relays {
		if u.Part != p.ID {
			continue
		}
		rated := "no rating given"
		if u.Rating > 0 {
			rated = "rated " + u.Rating.String()
		}
		x.line("relay", "coil %s, contact %s at most, %s", u.Coil, u.Contact, rated)
	}
}

func (x *explainer) ground(p *harness.Part) {
	for _, g := range x.r.Grounds {
		if g.Part != p.ID {
			continue
		}
		var rings []string
		for _, id := range g.Rings {
			rings = append(rings, x.h.Wires[id].Name)
		}
		x.line("ground", "%s stud, %s surface, %s; rings from the bottom: %s", g.Stud, g.Surface, g.Washer, strings.Join(rings, ", "))
		x.line("carries", "%s at most (state %q), lifted %.3f V against the battery", g.Amps, g.State, float64(g.Lift))
	}
}

func (x *explainer) splice(p *harness.Part) {
	for _, s := range x.r.Splices {
		if s.Part == p.ID {
			x.line("splice", "%.2f mm² in all, %s, shrink %s %s", float64(s.AreaSum), s.Size, s.Shrink, s.Where)
		}
	}
}

// terminals lists every terminal with its wires and its volts in each state.
func (x *explainer) terminals(p *harness.Part) {
	for _, t := range p.Terminals {
		var wires []string
		for _, w := range x.h.Wires {
			if w.From == t || w.To == t {
				wires = append(wires, w.Name)
			}
		}
		if len(wires) == 0 {
			continue
		}
		var volts []string
		for _, s := range x.r.States {
			v := "floating"
			if !math.IsNaN(s.Volts[t]) {
				v = fmt.Sprintf("%.2f V", s.Volts[t]+0)
			}
			volts = append(volts, s.Name+" "+v)
		}
		x.line(x.h.Terminals[t].Full, "wires %s; %s", strings.Join(wires, ", "), strings.Join(volts, " · "))
	}
}

func (x *explainer) findings(name string) {
	for _, p := range x.r.Findings {
		for _, s := range p.Subjects {
			if s == name {
				x.line(p.Level.String(), "%s. %s", p.Summary, p.Detail)
			}
		}
	}
}

func (x *explainer) printSources() {
	var keys []string
	for k := range x.sources {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	for i, k := range keys {
		label := ""
		if i == 0 {
			label = "sources"
		}
		for _, s := range rating.Sources() {
			if s.Key == k {
				x.line(label, "%s", cited(s))
			}
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
