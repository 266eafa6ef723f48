// Package buying adds up what has to be bought for the wires that are not built yet: by
// group and line, in whole packs, with prices where the practice gives them. In: the
// model, the choices, what is fitted and the reels. Out: the shopping list and the cable
// types to buy, and problems with prices that nothing takes. Counts are pieces or metres.
package buying

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/marker"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/joint"
	"example.com/loomfolio/sizing/unit"
)

// The groups of the shopping list, in order.
var itemGroups = [...]string{"wire", "cables", "fuses", "relays", "switches", "devices", "terminals", "boots", "straps", "washers", "nuts", "shrink", "cover", "tape", "connectors", "grommets", "clamps", "ties", "markers"}

// List adds up everything to buy, group by group; within a group lines
// stand in the order of their text, wire in the order of the reels. What is on the
// ends of built wires is there already, and so are fitted fuses: kept (by WireID)
// and keptFuses (by index into c.Fuses) say which, nil for none.
func List(h *harness.Harness, c chosen.Chosen, f fitted.Fitted, reels []fitted.Reel, kept, keptFuses []harness.KeptState) []fitted.Item {
	b := &basket{h: h, c: &c, at: map[[2]string]int{}, kept: kept, keptFuses: keptFuses}
	b.wire(reels)
	b.cables(Cables(h, f.Units, kept))
	b.fuses(&c)
	b.spares()
	b.holders(&c, &f)
	b.contacts()
	b.devices()
	b.terminals(&f)
	b.specimens(&f)
	b.boots(&f)
	b.studs(&f)
	b.shrink(&f)
	b.cover(&f)
	b.screens(&f)
	b.connectors()
	b.housings(&f)
	b.seals(&f)
	b.grommets(&f)
	b.support(&f)
	b.markers(marker.Labels(h, c, reels, kept))
	items := b.sorted()
	b.packed()
	return items
}

type basket struct {
	h     *harness.Harness
	c     *chosen.Chosen
	items []fitted.Item
	users [][]string
	at    map[[2]string]int

	kept, keptFuses []harness.KeptState
}

// add adds to a line, or begins it; user is the part that it is for.
func (b *basket) add(group, what string, count float64, unitName, user string) {
	key := [2]string{group, what}
	i, ok := b.at[key]
	if !ok {
		i = len(b.items)
		b.at[key] = i
		b.items = append(b.items, fitted.Item{Group: group, What: what, Unit: unitName})
		b.users = append(b.users, nil)
	}
	b.items[i].Count += count
	b.items[i].Users = use(b.items[i].Users, user, count)
	if user != "" && !slices.Contains(b.users[i], user) {
		b.users[i] = append(b.users[i], user)
	}
}

// use adds what an item is for; what is for none in particular, such as spares, is not added.
func use(users []fitted.User, name string, count float64) []fitted.User {
	if name == "" {
		return users
	}
	if i := slices.IndexFunc(users, func(u fitted.User) bool { return u.Name == name }); i >= 0 {
		users[i].Count += count
		return users
	}
	return append(users, fitted.User{Name: name, Count: count})
}

// Most parts named behind a line; the others are counted.
const mostNamed = 8

func (b *basket) sorted() []fitted.Item {
	for i := range b.items {
		users := b.users[i]
		if n := len(users); n > mostNamed {
			users = append(users[:mostNamed-1:mostNamed-1], fmt.Sprintf("%s and %d more", users[mostNamed-1], n-mostNamed))
		}
		b.items[i].For = strings.Join(users, ", ")
		if b.items[i].Unit == "m" {
			b.items[i].Count = math.Ceil(b.items[i].Count*10-1e-9) / 10
		}
	}
	place := map[string]int{}
	for i, g := range itemGroups {
		place[g] = i
	}
	sort.SliceStable(b.items, func(i, j int) bool {
		a, z := &b.items[i], &b.items[j]
		if a.Group != z.Group {
			return place[a.Group] < place[z.Group]
		}
		return a.Group != "wire" && unit.Natural(a.What, z.What) < 0
	})
	return b.items
}

func (b *basket) wire(reels []fitted.Reel) {
	for _, r := range reels {
		if r.ToCut() == 0 {
			continue
		}
		b.add("wire", r.Name(), float64(r.Buy)/1000, "m", unit.Counted(r.ToCut(), "wire"))
		b.items[len(b.items)-1].Gauge = r.Gauge
	}
}

func (b *basket) fuses(c *chosen.Chosen) {
	for i := range c.Fuses {
		f := &c.Fuses[i]
		if f.Rating <= 0 || harness.IsBuilt(b.keptFuses, i) {
			continue
		}
		what := f.Body + " fuse " + f.Rating.String()
		if f.Breaker {
			what = "breaker " + f.Rating.String()
		}
		if f.BodyColour != "" {
			what += ", " + f.BodyColour
		}
		b.add("fuses", what, 1, "pcs", f.Name)
	}
}

// holders lists the panels and what in-line fuses sit in: the wires end on them.
func (b *basket) holders(c *chosen.Chosen, f *fitted.Fitted) {
	for i := range b.h.Parts {
		if p := &b.h.Parts[i]; p.Panel != nil && !p.Existing {
			b.add("fuses", numbered("fuse panel, "+unit.Counted(positions(p.Panel), "position"), p), 1, "pcs", p.Ref)
		}
	}
	leads := map[harness.PartID]bool{}
	for _, two := range f.Ends {
		for _, e := range two {
			if p := b.h.PartOf(e.Terminal); p != nil && e.Kind == joint.ButtSplice {
				leads[p.ID] = true
			}
		}
	}
	for _, fuse := range c.Fuses {
		if b.h.Parts[fuse.Part].Kind != harness.Fuse || b.h.Parts[fuse.Part].Existing || fuse.Body == "" {
			continue
		}
		what := "holder for one " + fuse.Body + " fuse"
		if leads[fuse.Part] {
			what += ", with leads as thick as its wires"
		}
		b.add("fuses", what, 1, "pcs", fuse.Name)
	}
}

func positions(p *harness.Panel) int {
	n := 0
	for _, row := range p.Layout {
		for _, name := range row {
			if name != "" {
				n++
			}
		}
	}
	return n
}

func (b *basket) terminals(f *fitted.Fitted) {
	for _, two := range f.Ends {
		for _, e := range two {
			if e.Crimp == fitted.Barrel || e.Crimp == fitted.AsFound || e.Second || !b.someLeft(append([]harness.WireID{e.Wire}, e.With...)) {
				continue // a splice stands below, once; a shared receptacle with its first wire, new where any of them is
			}
			b.add("terminals", terminalItem(&e), 1, "pcs", b.ref(e.Terminal))
		}
	}
	for _, s := range f.Splices {
		if b.someLeft(s.Wires) {
			b.add("terminals", barrelItem(s.Size, s.Number), 1, "pcs", b.h.Parts[s.Part].Ref)
		}
	}
}

func (b *basket) ref(t harness.TerminalID) string {
	if p := b.h.PartOf(t); p != nil {
		return p.Ref
	}
	return ""
}

func (b *basket) shrink(f *fitted.Fitted) {
	metres := func(mm unit.Millimetre) float64 { return float64(mm) / 1000 }
	for _, two := range f.Ends {
		for _, e := range two {
			if e.Shrink != "" && !harness.IsBuilt(b.kept, int(e.Wire)) {
				b.add("shrink", e.Shrink, metres(e.ShrinkLen), "m", b.h.Wires[e.Wire].Name)
			}
		}
	}
	for _, s := range f.Splices {
		if s.Shrink != "" && b.someLeft(s.Wires) {
			b.add("shrink", s.Shrink, metres(s.ShrinkLen), "m", b.h.Parts[s.Part].Ref)
		}
	}
	for _, r := range f.Runs {
		if r.Boot != "" && b.someLeft(r.Wires) {
			b.add("shrink", r.Boot, 2*metres(r.BootLen), "m", b.between(r.Run))
		}
	}
}

func (b *basket) cover(f *fitted.Fitted) {
	for _, r := range f.Runs {
		if r.CoverName == "" || !b.someLeft(r.Wires) {
			continue
		}
		run, loomTape := &b.h.Runs[r.Run], "tape, "+unit.BoreText(tapeWide, b.h.Sheet.Imperial)+" wide, half-lapped"
		if r.Taped > 0 {
			b.add("tape", loomTape, float64(underShrink(&r))/1000, "m", b.between(r.Run))
		}
		if fitted.Taped(r.CoverName) {
			b.add("tape", loomTape, float64(tape(r.Diameter, run.Length))/1000, "m", b.between(r.Run))
			continue
		}
		what := r.CoverName + ", bore " + unit.BoreText(r.Cover, b.h.Sheet.Imperial)
		b.add("cover", what, float64(run.Length)/1000, "m", b.between(r.Run))
	}
}

func (b *basket) connectors() {
	for i := range b.h.Parts {
		p := &b.h.Parts[i]
		if p.Kind != harness.Connector || b.h.InOwnLoom(p) {
			continue
		}
		what := "connector pair, pins in one half, sockets in the other, " + unit.Counted(len(p.Cavities), "cavity")
		if p.Family != "" {
			what += ", " + p.Family
		}
		if p.Sealed {
			what += ", sealed"
		}
		b.add("connectors", numbered(what, p), 1, "pcs", p.Ref)
	}
}

// seals are for sealed connectors: one on each wire, a plug in each empty cavity
// of both halves.
func (b *basket) seals(f *fitted.Fitted) {
	wired := map[harness.TerminalID]bool{}
	var ends []*fitted.End
	for i := range f.Ends {
		for n := range f.Ends[i] {
			e := &f.Ends[i][n]
			wired[e.Terminal] = true
			if p := b.h.PartOf(e.Terminal); p != nil && p.Kind == harness.Connector && p.Sealed && !harness.IsBuilt(b.kept, int(e.Wire)) {
				ends = append(ends, e)
			}
		}
	}
	for i, of := range b.sealed(ends) {
		b.add("connectors", "wire seal for "+of, 1, "pcs", b.ref(ends[i].Terminal))
	}
	for i := range b.h.Parts {
		p := &b.h.Parts[i]
		if p.Kind != harness.Connector || !p.Sealed || b.h.InOwnLoom(p) {
			continue
		}
		for _, t := range p.Terminals {
			if !wired[t] {
				b.add("connectors", "plug for an empty cavity", 1, "pcs", p.Ref)
			}
		}
	}
}
