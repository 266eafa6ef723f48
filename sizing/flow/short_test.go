package flow

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
)

// ohms gives every wire 10 milliohm, every element its own.
func (r *rig) ohms() Ohms {
	o := Ohms{Wires: make([]float64, len(r.h.Wires)), Elements: make([]float64, len(r.h.Elements))}
	for i := range o.Wires {
		o.Wires[i] = 0.01
	}
	for i := range r.h.Elements {
		o.Elements[i] = float64(r.h.Elements[i].Ohms)
	}
	return o
}

// shortOf gives the shorts behind one fuse.
func shortOf(r *rig, n *Net, fuse string, o Ohms) Shorts {
	id := r.element(fuse)
	return n.Shorts([]harness.ElementID{id}, o)[id]
}

func (r *rig) wire(name string) harness.WireID {
	for _, w := range r.h.Wires {
		if w.Name == name {
			return w.ID
		}
	}
	return harness.None
}

// Worked by hand: battery 12.6 V with 5 mohm, wires 10 mohm each, fuses 5 mohm,
// a contact 2 mohm, grounds 1 mohm.
func TestShorts(t *testing.T) {
	r := build(branched)
	n, o := NewNet(r.h), r.ohms()
	// L1 shorted across: battery 5, wires 1A 1B 1C 1D 1E 1F 1G, fuses 5 + 5, contact 2, grounds 1 + 1.
	f1 := shortOf(r, n, "F1", o)
	require.InDelta(t, 12.6/0.089, f1.Least(), 1e-6)
	require.InDelta(t, 12.6/0.089, f1.At(r.wire("1E")), 1e-6)
	// 1D to the chassis before the switch: battery 5, wires 1A 1B 1C 1D 1G, fuses 10, the battery's ground 1.
	require.InDelta(t, 12.6/0.066, f1.At(r.wire("1D")), 1e-6, "the worse end of 1D is at the switch")
	require.True(t, math.IsInf(f1.At(r.wire("1F")), 1), "a return is not fed")
	// The main fuse's far ends: F1's near terminal to the chassis (wires 1A 1B 1C 1G, fuse 5, ground 1),
	// and L2 across (wires 1A 1B 2A 2B 1G, fuse 5, grounds 2).
	mf := shortOf(r, n, "MF", o)
	require.InDelta(t, 12.6/0.051, mf.At(r.wire("1C")), 1e-6, "a feeder's far end is the next fuse")
	require.InDelta(t, 12.6/0.062, mf.Least(), 1e-6)
}

// A charge lamp between the key and the alternator: a short on its wire lies
// before the lamp, so it does not go through it.
func TestShortLiesBeforeTheChargeLamp(t *testing.T) {
	r := build(`
battery BAT BAT.+ BAT.-
alternator ALT ALT.B+ ALT.case
fuse F1 F1.1 F1.2
load LAMP LAMP.1 LAMP.2
innards REG ALT.D ALT.case
ground G1 G1 chassis
join CASE ALT.case chassis
wire A BAT.+ F1.1
wire B F1.2 LAMP.1
wire C LAMP.2 ALT.D
wire D BAT.- G1
wire E ALT.B+ BAT.+`)
	s := shortOf(r, NewNet(r.h), "F1", r.ohms())
	require.InDelta(t, 12.6/0.041, s.Least(), 1e-6, "A, B, D, battery 5, fuse 5, ground 1 milliohm")
}

// A fuse at each end of a cable between two batteries: each guards the cable
// with its own battery; neither guards the other battery's post. Two batteries
// in series count with both their volts.
func TestShortsBetweenTwoBatteries(t *testing.T) {
	r := build(`
battery B1 B1.+ B1.-
battery B2 B2.+ B2.-
fuse F1 F1.1 F1.2
fuse F2 F2.1 F2.2
wire A B1.+ F1.1
wire B F1.2 F2.1
wire C F2.2 B2.+
wire D B1.- chassis
wire E B2.- chassis`)
	n, o := NewNet(r.h), r.ohms()
	s := shortOf(r, n, "F1", o)
	require.InDelta(t, 12.6/0.040, s.Least(), 1e-6, "A, B, D, battery and fuse")
	require.True(t, math.IsInf(s.At(r.wire("C")), 1))
	r = build(`
battery B1 B1.+ B1.-
battery B2 B2.+ B2.-
fuse F1 F1.1 F1.2
load L L.+ L.-
wire A B1.+ F1.1
wire B B1.- B2.+
wire C F1.2 L.+
wire D L.- B2.-`)
	require.InDelta(t, 25.2/0.055, shortOf(r, NewNet(r.h), "F1", r.ohms()).Least(), 1e-6)
}

func TestBranches(t *testing.T) {
	r := build(charged)
	got := NewNet(r.h).Branches()
	require.Equal(t, "F1", r.elements(got[r.element("MF")]), "not the alternator's fuse, which leads to a source")
	require.Equal(t, "F1", r.elements(got[r.element("CF")]))
	require.Empty(t, got[r.element("F1")])
}

// A panel's feed and an ignition feed from one post: over the two contacts of a switch, both
// taken as closed, metal leads from the one round to the other, and so back to the post. A short
// on the post is fed by the main fuse alone: what comes round has passed the short already.
func TestAShortFeedsNoFuseRoundALoop(t *testing.T) {
	r := build(`
battery BAT BAT.+ BAT.-
fuse MF MF.1 MF.2
fuse FB FB.1 FB.2
fuse FI FI.1 FI.2
contact S1 S1.1 S1.2
contact S2 S1.2 S2.2
wire A BAT.+ MF.1
wire B MF.2 POST
wire C POST FB.1
wire D FB.2 S1.1
wire E POST FI.1
wire F FI.2 S2.2
wire G BAT.- chassis`)
	n, o := NewNet(r.h), r.ohms()
	fb := shortOf(r, n, "FB", o)
	for _, w := range []string{"B", "C", "E"} {
		require.True(t, math.IsInf(fb.At(r.wire(w)), 1), w)
	}
	require.False(t, math.IsInf(fb.At(r.wire("D")), 1))
	require.Equal(t, min(fb.At(r.wire("D")), fb.At(r.wire("F"))), fb.Least())
}
