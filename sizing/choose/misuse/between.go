package misuse

import (
	"fmt"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// between reports loads of which both sides lie on plus, and coils that come to ground
// through a load alone, from its switched feed.
func (f *inspection) between() {
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		switch {
		case e.Kind == harness.Load && f.works(e) && f.onBattery(e):
			f.betweenFeeds(e)
		case e.Kind == harness.RelayCoil && f.PartOf(e.ID).Kind == harness.Relay:
			if load := f.throughFed(e); load != nil {
				f.coilThrough(e, load)
			}
		}
	}
}

// onBattery tells a load whose return side lies on a battery's live side whatever the switches
// do, and that no contact brings to ground; not one beside a fuse, which shows that it is open.
func (f *inspection) onBattery(e *harness.Element) bool {
	dead, live := f.H.Earthed(e), f.H.Live(e)
	battery := slices.ContainsFunc(f.ElementsOf(harness.EMF), func(b harness.ElementID) bool { return f.Net.Always(dead, f.liveOf(b)) })
	if !battery || f.Net.Always(dead, live) || f.Net.Grounded(dead, func(*harness.Element) bool { return false }) {
		return false
	}
	return f.Net.Fed(live, func(*harness.Element) bool { return true }) && !f.everGrounded(dead) && !f.everGrounded(live)
}

func (f *inspection) betweenFeeds(e *harness.Element) {
	p, at := f.PartOf(e.ID), f.H.Terminals[f.H.Earthed(e)].Full
	detail := fmt.Sprintf("lead %s to ground", at)
	for _, id := range f.ElementsOf(harness.Charger) {
		if alt := f.PartOf(id); alt.Kind == harness.Alternator && f.Net.Always(f.H.Earthed(e), f.liveOf(id)) {
			detail += fmt.Sprintf("; a charge lamp ends on L of %s, not on B+", alt.Ref)
			break
		}
	}
	f.add(source.Problem{
		Slug: "load-between-feeds", Level: source.Warning, Span: p.Span, Subjects: []string{e.Name}, Detail: detail,
		Summary: fmt.Sprintf("both sides of %s lie on the battery's live side: %s never comes to ground, and nothing flows", e.Name, at),
	})
}

// throughFed gives the load through which alone a coil comes to ground, while contacts feed
// the place where the two meet; nil for none.
func (f *inspection) throughFed(coil *harness.Element) *harness.Element {
	own, dead := &f.Owns[coil.ID], f.H.Earthed(coil)
	if !own.Whole || !own.Series || f.everGrounded(dead) || !f.Net.Fed(dead, func(y *harness.Element) bool { return f.PartOf(y.ID).ID != coil.Part }) {
		return nil
	}
	for _, id := range own.Back.Elements {
		if y := &f.H.Elements[id]; y.Kind == harness.Load && f.works(y) {
			return y
		}
	}
	return nil
}

// coilThrough is advice: some let a relay drop out so on purpose.
func (f *inspection) coilThrough(coil, load *harness.Element) {
	p, at := f.PartOf(coil.ID), f.H.Terminals[f.H.Earthed(coil)].Full
	f.add(source.Problem{
		Slug: "coil-between-feeds", Level: source.Advice, Span: p.Span, Subjects: []string{p.Ref, load.Name},
		Summary: fmt.Sprintf("%s comes to ground through %s alone: %s pulls in while %s is off, drops out when it is fed, and does nothing once it has burnt out", at, load.Name, p.Ref, load.Name),
		Detail:  fmt.Sprintf("lead %s to ground, and take the coil's feed from where %s is fed if it is to follow it", at, load.Name),
	})
}
