package drawing

import (
	"strconv"
	"strings"

	"example.com/loomfolio/layout/symbol"
	"example.com/loomfolio/sizing/harness"
)

// symbol draws a part as a tile; one that was drawn for another look of a strip is taken again.
func (s *sheets) symbol(p *harness.Part, uses []symbol.Use, caption []symbol.Line, form symbol.Form) symbol.Tile {
	key := symbolKey(p, uses, caption, form)
	t, ok := s.drawn[key]
	if !ok {
		t = symbol.New(s.h, p, uses, caption, form)
		s.drawn[key] = t
	}
	return t
}

// symbolKey is all that a tile is drawn from, as text.
func symbolKey(p *harness.Part, uses []symbol.Use, caption []symbol.Line, form symbol.Form) string {
	var b strings.Builder
	number := func(n int) {
		b.WriteString(strconv.Itoa(n))
		b.WriteByte(' ')
	}
	words := func(all ...string) {
		for _, w := range all {
			b.WriteString(w)
			b.WriteByte(0)
		}
	}
	flags := func(all ...bool) {
		for _, f := range all {
			if f {
				b.WriteByte('+')
			} else {
				b.WriteByte('-')
			}
		}
	}
	number(int(p.ID))
	number(int(form.Pitch * 100))
	flags(form.Beside, form.Wide, form.Narrow, form.Short)
	for _, u := range uses {
		number(int(u.Terminal))
		number(u.In)
		number(u.Out)
		flags(u.Body)
		words(u.Name, u.Says)
		words(u.Volts...)
	}
	for _, l := range caption {
		flags(l.Bold, l.Grey, l.Note)
		words(l.Lead, l.S, l.Ref)
		for _, it := range l.Items {
			words(it.S, it.Target)
		}
	}
	return b.String()
}
