// Package fusemap lays out the fuse map: each panel as one stands before it, a card for
// every fuse with all that is said of it, the sockets of the relays; and the cards that are
// cut out for the lids of the panels.
//
// In: page.Ask. Out: the pages, none where there are neither fuses nor relays. Every
// position of a panel stands once; a fuse is never shown without the most that it may be.
// Anchors set here: sheet/fuse-map, fuse/NAME, panel/REF, relay/REF, sheet/card. All
// lengths are mm.
package fusemap

import (
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/fused"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fault/outage"
	"example.com/loomfolio/sizing/harness"
)

// FuseMap draws the in-line fuses and breakers with where they are, each panel as
// one stands before it, a card for every fuse, and the sockets of the relays.
func FuseMap(a page.Ask) []frame.Page {
	if len(a.R.Fuses) == 0 && len(a.R.Relays) == 0 {
		return nil
	}
	s := page.Open(a.Upright(), "Fuse map", "sheet/fuse-map", "")
	if len(a.R.Fuses) > 0 {
		s.Say("Panels as you stand before them, lid off. Bold: lost if the fuse blows; if only some of it has stopped, the fuse is probably good: "+
			"check what only those loads share. Never fit a larger fuse than the card allows: the wire that is named first would burn first.", page.Quiet())
	}
	cards := cardsOf(a)
	inline(a, s, cards)
	panels(a, s, cards)
	relays(a, s)
	return s.Close()
}

func feedWords(p *harness.Part) string {
	var words []string
	for _, f := range p.Panel.Feeds {
		if len(f.Positions) > 0 {
			words = append(words, fmt.Sprintf("Feed %q supplies %s", f.Name, page.Ranges(f.Positions)))
		}
	}
	return strings.Join(words, "; ")
}

// cardsOf makes the cards of all fuses.
func cardsOf(a page.Ask) []card {
	cards := make([]card, len(a.R.Fuses))
	for i, f := range a.R.Fuses {
		cards[i] = fuseCard(a, f, a.R.Outages[i])
	}
	return cards
}

// fuseCard says everything about a fuse.
func fuseCard(a page.Ask, f chosen.Fuse, out outage.Outage) card {
	c := card{
		anchor: "fuse/" + f.Name, name: f.Name, lost: fused.Lost(a, f, out), relays: fused.ByRelay(a, f, out), why: whyWords(f),
		fuse: page.Fuse{Body: f.Body, Colour: f.BodyColour, Rating: ratingWords(f), Breaker: f.Breaker},
	}
	if a.H.Mixed() {
		c.quiet = append(c.quiet, page.Firm(a.H.SystemOf(&a.H.Elements[f.Element]).Volts.String()+" side"))
	}
	if words := wireWords(a, f); words != "" {
		c.quiet = append(c.quiet, words)
	}
	if words := breakerWords(f.Type); words != "" {
		c.quiet = append(c.quiet, words)
	}
	for _, t := range a.FedTwice() {
		if k := slices.Index(t.Fuses, f.Name); k >= 0 {
			c.quiet = append(c.quiet, "Fed from two places: take out "+t.Fuses[1-k]+" too before work there.")
		}
	}
	if f.MostAllowed > 0 {
		c.never = "never above " + page.Firm(f.MostAllowed.String())
	}
	return c
}

// wireWords names the wires that a fuse protects, that which stands least first, those of
// one size together.
func wireWords(a page.Ask, f chosen.Fuse) string {
	wires := f.Wires
	if f.Smallest >= 0 && int(f.Smallest) < len(a.H.Wires) {
		wires = append([]harness.WireID{f.Smallest}, slices.DeleteFunc(slices.Clone(wires), func(w harness.WireID) bool { return w == f.Smallest })...)
	}
	if len(wires) == 1 {
		return list("Wire ", sized(a, wires))
	}
	return list("Wires ", sized(a, wires))
}

// sized lists wires by name, each size behind its wires.
func sized(a page.Ask, wires []harness.WireID) []string {
	var sizes []string
	names := map[string][]string{}
	for _, w := range wires {
		size := a.Gauge(w)
		if names[size] == nil {
			sizes = append(sizes, size)
		}
		names[size] = append(names[size], a.H.Wires[w].Name)
	}
	var words []string
	for _, size := range sizes {
		words = append(words, strings.TrimSpace(strings.Join(page.Spans(names[size]), ", ")+page.NoBreak+page.Firm(size)))
	}
	return words
}

// whyWords say what a fuse runs at.
func whyWords(f chosen.Fuse) string {
	if f.Amps <= 0 {
		return ""
	}
	return "load " + page.Firm(page.Amps(float64(f.Amps))+" A")
}

// breakerWords says what a breaker does once it has opened, by its type in SAE J553.
func breakerWords(kind string) string {
	switch kind {
	case "1":
		return "Closes by itself: a fault makes it cycle, like a loose joint."
	case "2":
		return "Stays open while it has power."
	case "3":
		return "Reset by hand."
	}
	return ""
}

func ratingWords(f chosen.Fuse) string {
	if f.Rating <= 0 {
		return "?"
	}
	return f.Rating.String()
}

// inline sets the fuses and breakers that sit in the loom.
func inline(a page.Ask, s *page.Book, all []card) {
	var cards []card
	for i, f := range a.R.Fuses {
		p := a.Part(f.Part)
		if p == nil || p.Panel != nil {
			continue
		}
		c := all[i]
		c.place = page.TitleOf(a, p)
		if f.Name == p.Ref {
			c.photo = a.PhotoOf(p)
		}
		cards = append(cards, c)
	}
	if len(cards) == 0 {
		return
	}
	g := groupOf(cards)
	s.Head("In-line fuses and breakers", g.first(s.Room.W))
	g.set(s)
}
