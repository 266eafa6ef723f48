package sizing_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/flow"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// owned is a sample with the ways that its legs mean for the loads.
type owned struct {
	h    *harness.Harness
	r    *result.Result
	ways map[string]flow.Own // by the load's name
	fuse map[string]harness.ElementID
}

func ownedOf(t *testing.T, s samples.Sample) *owned {
	h, r := worked.Out(t, s)
	o := &owned{h: h, r: r, ways: map[string]flow.Own{}, fuse: map[string]harness.ElementID{}}
	owner := flow.NewNet(h).Owner()
	for i := range h.Elements {
		switch e := &h.Elements[i]; e.Kind {
		case harness.Load:
			o.ways[e.Name] = owner.Of(e.ID, nil)
		case harness.FuseLink:
			o.fuse[e.Name] = e.ID
		}
	}
	return o
}

// lies tells whether a fuse lies on a load's own way.
func (o *owned) lies(fuse, load string) bool {
	return slices.Contains(o.ways[load].All.Elements, o.fuse[fuse])
}

// charges tells a fuse between an alternator and a battery: it carries nearly all that the alternator gives, or
// current passes it either way, to loads on both sides.
func (o *owned) charges(fuse string) bool {
	least, most := 0.0, 0.0
	for i := range o.r.States {
		amps := o.r.States[i].Amps
		through := amps[o.fuse[fuse]]
		least, most = min(least, through), max(most, through)
		for _, e := range o.h.Elements {
			if e.Kind == harness.Charger && math.Abs(through) > 1 && math.Abs(through) > 0.9*math.Abs(amps[e.ID]) {
				return true
			}
		}
	}
	return least < -0.1 && most > 0.1
}

// told tells whether a finding speaks of a load.
func (o *owned) told(l chosen.Load) bool {
	part := o.h.Parts[o.h.Elements[l.Element].Part].Ref
	for _, p := range o.r.Findings {
		if slices.Contains(p.Subjects, part) || slices.Contains(p.Subjects, l.Name) {
			return true
		}
	}
	return false
}

// The fuse that is printed beside a load lies on the load's own way; none has only the way of a starter.
// What leaks in through a shared ground, or through a charge lamp while the alternator runs, names nothing.
func TestLoadsShowTheirOwnFuse(t *testing.T) {
	for _, s := range samples.List() {
		o := ownedOf(t, s)
		for _, l := range o.r.Loads {
			if l.ProtectedBy == "" {
				require.Equal(t, harness.Starter, o.h.Parts[o.h.Elements[l.Element].Part].Kind, "%s: %s has no fuse", s.Name, l.Name)
				continue
			}
			require.True(t, o.lies(l.ProtectedBy, l.Name), "%s: %s does not lie before %s", s.Name, l.ProtectedBy, l.Name)
		}
	}
}

// The volts beside a load are at least half of what it is made for, unless a finding says otherwise; of
// two in series, a gauge and its sender, each has its share.
func TestLoadsShowTheirOwnVolts(t *testing.T) {
	for _, s := range samples.List() {
		o := ownedOf(t, s)
		for _, l := range o.r.Loads {
			least := 0.5
			if o.ways[l.Name].Series {
				least = 0.3
			}
			if at := o.h.Elements[l.Element].AtVolts; float64(l.Volts) < least*float64(at) {
				require.True(t, o.told(l), "%s: %s shows %s of %s in %s", s.Name, l.Name, l.Volts, at, l.State)
			}
			require.NotEmpty(t, l.On, "%s: %s is on in no state", s.Name, l.Name)
			require.Contains(t, l.On, l.State, "%s: %s", s.Name, l.Name)
		}
	}
}

// What is listed behind a fuse is fed through it on its own way, and nothing else is listed as lost if it blows.
func TestFusesListTheirOwnLoads(t *testing.T) {
	for _, s := range samples.List() {
		o := ownedOf(t, s)
		for i, f := range o.r.Fuses {
			for _, load := range f.Feeds {
				if _, ok := o.ways[load]; ok && !o.charges(f.Name) { // else a coil
					require.True(t, o.lies(f.Name, load), "%s: %s feeds %s", s.Name, f.Name, load)
				}
			}
			for _, load := range o.r.Outages[i].Stops {
				require.Contains(t, f.Feeds, load, "%s: without %s", s.Name, f.Name)
			}
		}
	}
}

// A ground carries what its rings do, in a state that it names; it is nowhere less than a ring that lasts.
func TestGroundsCarryWhatTheirRingsDo(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		cranking := map[string]bool{}
		for _, st := range h.States {
			cranking[st.Name] = st.Engine == harness.EngineCranking
		}
		for _, g := range r.Grounds {
			require.NotEmpty(t, g.State, "%s: %s", s.Name, h.Parts[g.Part].Ref)
			require.NotEmpty(t, g.LiftIn, "%s: %s", s.Name, h.Parts[g.Part].Ref)
			require.GreaterOrEqual(t, g.Lift, g.Steady)
			for _, w := range g.Rings {
				if c := &r.Wires[w]; !cranking[c.State] {
					require.GreaterOrEqual(t, float64(g.Amps), float64(c.Amps)-1e-6, "%s: %s at %s", s.Name, h.Wires[w].Name, h.Parts[g.Part].Ref)
				}
			}
		}
	}
}

// A winch that no state turns on: its stud carries the winch's 60 A and says so, in words that read as English.
func TestAGroundOfWhatNoStateTurnsOn(t *testing.T) {
	h, r := sized(t, `loomfolio: 1
title: Winch
system: {volts: 12}
parts:
  BAT: {kind: battery, capacity: 60 Ah}
  F1: {kind: fuse, body: bolt}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}, rating: 100 A}
  WINCH: {kind: motor, draws: 60 A}
  G0: {kind: ground}
  G1: {kind: ground}
circuits:
  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 300 mm}]]}
  winch: {number: 2, legs: [[BAT.+, {to: F1, length: 100 mm}, {to: SW, length: 1 m}, {to: WINCH, length: 1 m}, {to: G1, length: 300 mm}]]}
states:
  parked: {}
`)
	for _, g := range r.Grounds {
		require.InDelta(t, 60, float64(g.Amps), 0.5, h.Parts[g.Part].Ref)
		require.Equal(t, "loads no state turns on", g.State)
		require.Empty(t, g.LiftIn, "no state lifts it")
	}
}
