package label

import (
	"slices"
	"strings"

	"example.com/loomfolio/layout/caution"
	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

// Warnings are the labels for whatever stays live where one does not expect it: metal that is fed
// from two fuses, a second battery, a solar regulator, a stud that is live with no fuse before it.
// None where nothing is.
func Warnings(a page.Ask) []frame.Page {
	all := slices.Concat(twice(a), sources(a), studs(a))
	if len(all) == 0 {
		return nil
	}
	b := page.OpenLoose(a.Upright(), "Warning labels", "sheet/warnings", "Print at actual size, \"fit to page\" off. Stick each where it says, to be seen before a hand goes there.")
	b.Columns(2)
	for _, w := range all {
		w.set(b)
	}
	b.Columns(1)
	return b.Close()
}

// warning is one label: what is printed large, what to do, and where it goes.
type warning struct{ head, text, at string }

// twice warns at each of two fuses that feed one piece of metal.
func twice(a page.Ask) []warning {
	var out []warning
	for _, t := range a.FedTwice() {
		text := "take out " + page.And(t.Fuses) + " first"
		for _, f := range t.Fuses {
			out = append(out, warning{"FED FROM TWO PLACES", text, "At " + fuseAt(a, f)})
		}
	}
	return out
}

// fuseAt says where a fuse is: "MF20, Bench seat".
func fuseAt(a page.Ask, name string) string {
	e, ok := a.ElementNamed(name)
	if !ok {
		return name
	}
	return page.List(", ", name, page.PlaceOf(a, a.Part(e.Part)))
}

// sources warns of what gives current beside the first battery.
func sources(a page.Ask) []warning {
	all := a.Sources()
	var out []warning
	if refs := batteries(a, all); len(refs) > 1 {
		text := "disconnect " + page.And(refs) + ", " + caution.LastOn(a.H) + " lead of each first"
		for _, id := range all {
			if p := a.Part(id); p.Kind == harness.Battery {
				out = append(out, warning{strings.ToUpper(count(len(refs))) + " BATTERIES", text, "At " + page.List(", ", p.Ref, page.PlaceOf(a, p))})
			}
		}
	}
	for _, id := range all {
		if p := a.Part(id); p.Kind != harness.Battery {
			out = append(out, warning{"LIVE IN DAYLIGHT", page.List("; ", a.Named(p), before(a, p)), "At " + page.List(", ", p.Ref, page.PlaceOf(a, p))})
		}
	}
	return out
}

func batteries(a page.Ask, parts []harness.PartID) []string {
	var out []string
	for _, id := range parts {
		if p := a.Part(id); p.Kind == harness.Battery {
			out = append(out, p.Ref)
		}
	}
	return out
}

func count(n int) string {
	words := [...]string{"no", "one", "two", "three", "four"}
	if n < len(words) {
		return words[n]
	}
	return "several"
}

// before says which fuses part a source from the rest.
func before(a page.Ask, p *harness.Part) string {
	var fuses []string
	for _, t := range p.Terminals {
		for _, w := range a.WiresOn(t) {
			far := a.H.PartOf(page.Opposite(a, w, t))
			if far != nil && (far.Kind == harness.Fuse || far.Kind == harness.Breaker) && !slices.Contains(fuses, far.Ref) {
				fuses = append(fuses, far.Ref)
			}
		}
	}
	if len(fuses) == 0 {
		return "cover the panels first"
	}
	return "take out " + page.And(fuses) + " first"
}

// studs warns at each part with studs that are live with no fuse before them.
func studs(a page.Ask) []warning {
	live := map[harness.PartID][]string{}
	var parts []harness.PartID
	for _, t := range a.LiveStuds() {
		p := a.H.PartOf(t)
		if live[p.ID] == nil {
			parts = append(parts, p.ID)
		}
		live[p.ID] = append(live[p.ID], a.H.Terminals[t].Full)
	}
	var out []warning
	for _, id := range parts {
		p := a.Part(id)
		out = append(out, warning{"LIVE, NO FUSE", page.And(live[id]) + ": " + caution.LastOn(a.H) + " battery lead off first", "At " + page.List(", ", a.Named(p), page.PlaceOf(a, p))})
	}
	return out
}

// Sizes of a warning label, mm.
const (
	warnPad  = 2.4
	signWide = 12.0
)

// set draws the label with the line that says where it goes, outside the cut.
func (w warning) set(b *page.Book) {
	in := b.Room.W - 2*warnPad - signWide - 2
	body := sheet.Plain(sheet.SizeBody)
	lines := typeface.Wrap(w.text, body.Face, body.Size, in)
	high := max(signWide, sheet.SizeHead*1.3+float64(len(lines))*body.Size*typeface.Leading) + 2*warnPad
	at := page.TextHeight(w.at, page.Quiet(), b.Room.W)
	b.Need(at + high + 1)
	frame.Paragraph(&b.C, b.Room, w.at, page.Quiet())
	r := sheet.Rect{X: b.Room.X, Y: b.Room.Y + at + 0.8, W: b.Room.W, H: high}
	b.C.Rect(r.X, r.Y, r.W, r.H, sheet.Both(sheet.Solid(sheet.Heavy), sheet.White))
	sign(&b.C, sheet.Rect{X: r.X + warnPad, Y: r.Y + (r.H-signWide)/2, W: signWide, H: signWide})
	x := r.X + warnPad + signWide + 2
	b.C.Text(x, r.Y+warnPad+sheet.SizeHead*typeface.CapHeight, typeface.Fit(w.head, sheet.Bold, sheet.SizeHead, in), sheet.Strong(sheet.SizeHead))
	y := r.Y + warnPad + sheet.SizeHead*1.3
	for _, line := range lines {
		b.C.Text(x, y+body.Size*typeface.CapHeight, line, body)
		y += body.Size * typeface.Leading
	}
	b.Down(min(at+0.8+high+page.Gap, b.Room.H))
}

// sign draws a triangle with a stroke and a dot, dark on yellow: it shows on a grey print too.
func sign(c *sheet.Canvas, r sheet.Rect) {
	shade, _ := page.FuseShade("yellow")
	x := r.X + r.W/2
	c.Polygon([]sheet.Point{{X: x, Y: r.Y + 0.8}, {X: r.Right(), Y: r.Bottom() - 0.8}, {X: r.X, Y: r.Bottom() - 0.8}}, sheet.Both(sheet.Rounded(sheet.Heavy), shade))
	c.Line(x, r.Y+r.H*0.36, x, r.Y+r.H*0.66, sheet.Rounded(1.2))
	c.Circle(x, r.Y+r.H*0.79, 0.75, sheet.Filled(sheet.Ink))
}
